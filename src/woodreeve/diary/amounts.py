"""From barrows, stacked metres or kilograms to solid wood: the one measure the fold keeps."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Annotated, Literal

from woodreeve.diary.payloads_wood import Amount
from woodreeve.units import Ge, Gt, Le, Moisture, Unit
from woodreeve.wood import measure
from woodreeve.wood.species import green_moisture

__all__ = ["ASSUMED_MOISTURE", "ContainerFill", "ContainerSize", "Measures", "form_of"]

ASSUMED_MOISTURE: Moisture = 0.20
"""Moisture of wood that nobody has measured, where a weight is to be turned into a volume."""

UNKNOWN_WOOD = "mixed_broadleaf"

Mix = tuple[tuple[str, float], ...]
"""Species and their shares of the solid volume, in the order of their names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ContainerSize:
    """What the owner says of one of his containers.

    Parameters
    ----------
    name : str
        As entries call it.
    litres : float or None
        Its volume, filled as usual.
    filled : ``"loose"`` or ``"stacked"``
        Whether the logs are tipped into it or laid.
    mass_kg : mapping
        Weight of a fill by species, where it was weighed.
    moisture : float
        Moisture of the wood when it was weighed.
    log_cm : float or None
        Length of the logs that go into it.
    """

    name: str
    litres: Annotated[float | None, Unit("L"), Gt(0.0), Le(100_000.0)] = None
    filled: Literal["loose", "stacked"] = "loose"
    mass_kg: Mapping[str, Annotated[float, Unit("kg"), Gt(0.0), Le(1e6)]] = field(default_factory=dict)
    moisture: Moisture = ASSUMED_MOISTURE
    log_cm: Annotated[float | None, Unit("cm"), Ge(5.0), Le(1500.0)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ContainerFill:
    """What a container really holds, as far as is known.

    Parameters
    ----------
    name : str
        The container.
    solid_m3 : float
        Solid wood in one fill. [m3]
    known_by : ``"weighings"``, ``"weights_told"`` or ``"litres"``
        Weighings in the diary win over weights in the holding, and these over litres.
    weighings : int
        How many weighings there are in the diary.
    mass_kg : mapping
        Mean weight of the weighed fills, by species. [kg]
    """

    name: str
    solid_m3: Annotated[float, Unit("m3")]
    known_by: Literal["weighings", "weights_told", "litres"]
    weighings: int = 0
    mass_kg: Mapping[str, Annotated[float, Unit("kg")]] = field(default_factory=dict)


def form_of(pieces: str, log_cm: float | None) -> measure.Form:
    """The stacked form, among those whose packing was measured, that is nearest to these logs.

    Parameters
    ----------
    pieces : str
        ``"roundwood"``, ``"rounds"`` or ``"split"``.
    log_cm : float or None
        Length of the logs; the usual 33 cm if not known.

    Returns
    -------
    str
        One of the forms of :mod:`woodreeve.wood.measure`.
    """
    if pieces != "split":
        return "rounds_100cm"
    lengths: dict[float, measure.Form] = {
        25.0: "split_25cm",
        33.0: "split_33cm",
        50.0: "split_50cm",
        100.0: "split_100cm",
    }
    return lengths[min(lengths, key=lambda length: abs(length - (log_cm or 33.0)))]


class Measures:
    """Turns amounts into solid cubic metres and back, each factor reckoned once.

    Parameters
    ----------
    containers : iterable of ContainerSize
        The owner's containers.
    weighed : mapping
        For each container, its weighings: species, net weight [kg] and moisture.
    """

    def __init__(
        self,
        containers: Iterable[ContainerSize],
        weighed: Mapping[str, list[tuple[str, float, float]]],
    ) -> None:
        self._factors: dict[tuple[object, ...], float] = {}
        self._sizes = {size.name: size for size in containers}
        self.fills: dict[str, ContainerFill] = {}
        for name in sorted({*self._sizes, *weighed}):
            fill = self._fill(name, weighed.get(name, []))
            if fill is not None:
                self.fills[name] = fill

    def solid(
        self, told: Amount, container: str | None, mix: Mix, form: measure.Form, moisture: float
    ) -> float | None:
        """Solid wood in an amount, counted in a container that is known; ``None`` for none. [m3]."""
        if told.solid_m3 is not None:
            return told.solid_m3
        if told.stacked_m3 is not None:
            return told.stacked_m3 * self.solid_per_stacked(mix, form)
        if told.loose_m3 is not None:
            return told.loose_m3 * self.solid_per_loose(mix, form)
        if told.mass_kg is not None:
            return told.mass_kg / self.mass_per_solid(mix, moisture)
        if told.count is not None and container is not None:
            return told.count * self.fills[container].solid_m3
        return None

    def solid_per_stacked(self, mix: Mix, form: measure.Form) -> float:
        """Solid share of a stack."""
        return self._factor(("stacked", form), mix, lambda wood: measure.stacked_solid_share(form, wood))

    def solid_per_loose(self, mix: Mix, form: measure.Form) -> float:
        """Solid share of a tipped heap; rounds and long logs are taken as short splits."""
        cut: measure.LooseForm = "split_33cm"
        if form in ("split_25cm", "split_50cm"):
            cut = form
        return self._factor(("loose", cut), mix, lambda wood: measure.loose_solid_share(cut, wood))

    def mass_per_solid(self, mix: Mix, moisture: float) -> float:
        """Weight of a solid cubic metre at a moisture. [kg/m3]."""
        return self._factor(("mass", moisture), mix, lambda wood: measure.mass_of_solid(wood, 1.0, moisture))

    def green_moisture(self, mix: Mix) -> float:
        """Moisture of this wood when it is felled."""
        return self._factor(("green",), mix, green_moisture)

    def _factor(
        self, what: tuple[object, ...], mix: Mix, reckon: Callable[[dict[str, float]], float]
    ) -> float:
        """Reckon a factor once; shares that differ in the seventh digit are the same mixture."""
        rounded = tuple((species, round(share, 6)) for species, share in mix)
        key = (*what, rounded)
        if key not in self._factors:
            self._factors[key] = reckon(dict(rounded))
        return self._factors[key]

    def _fill(self, name: str, weighed: list[tuple[str, float, float]]) -> ContainerFill | None:
        size = self._sizes.get(name)
        told = (
            []
            if size is None
            else [(kind, mass, size.moisture) for kind, mass in sorted(size.mass_kg.items())]
        )
        weights = weighed or told
        if weights:
            solid = [mass / self.mass_per_solid(((kind, 1.0),), moisture) for kind, mass, moisture in weights]
            by_species: dict[str, list[float]] = {}
            for kind, mass, _ in weights:
                by_species.setdefault(kind, []).append(mass)
            return ContainerFill(
                name=name,
                solid_m3=sum(solid) / len(solid),
                known_by="weighings" if weighed else "weights_told",
                weighings=len(weighed),
                mass_kg={kind: sum(masses) / len(masses) for kind, masses in by_species.items()},
            )
        if size is None or size.litres is None:
            return None
        mix: Mix = ((UNKNOWN_WOOD, 1.0),)
        form = form_of("split", size.log_cm)
        per_m3 = (
            self.solid_per_stacked(mix, form) if size.filled == "stacked" else self.solid_per_loose(mix, form)
        )
        return ContainerFill(name=name, solid_m3=size.litres / 1000.0 * per_m3, known_by="litres")
