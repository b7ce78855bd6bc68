"""Plants worth trying for a house: sizes of boiler and store, insulation, and who is at home."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Literal, TypeAlias

from woodreeve.plant.fields import Plant
from woodreeve.units import Gt, Le, Unit
from woodreeve.workings import worked

__all__ = [
    "INSULATIONS",
    "PRESENCES",
    "Choices",
    "Insulation",
    "Presence",
    "boilers_to_try",
    "plant_of",
    "stores_to_try",
]

Insulation: TypeAlias = Literal["as_it_is", "store_lagged", "house_insulated"]
"""As told; the store in class A+; or the house losing less through its shell."""

Presence: TypeAlias = Literal["evening", "morning_and_evening", "all_day"]
"""Who is at home, and so when somebody looks at the store."""

INSULATIONS: tuple[Insulation, ...] = ("as_it_is", "store_lagged", "house_insulated")
PRESENCES: tuple[Presence, ...] = ("evening", "morning_and_evening", "all_day")

BOILERS_KW = (15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0)
"""Outputs that log boilers are commonly built for: common practice, no published source. [kW]"""

STORES_L = (500.0, 750.0, 1000.0, 1500.0, 2000.0, 2500.0, 3000.0, 4000.0, 5000.0)
"""Contents of stores to try for a house of up to 20 kW; twice as much for each doubling. [L]"""

FUEL_SPACE_L_KW = 5.0
"""Fuel space for each kW of output, where none is told. Common practice, no published source. [L/kW]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What is tried against what.

    Parameters
    ----------
    boilers_kw : tuple of float
        Outputs. [kW]
    stores_litres : tuple of float
        Contents. [L]
    insulations, presences : tuple of str
        Of house or store, and who is at home.
    """

    boilers_kw: tuple[float, ...]
    stores_litres: tuple[float, ...]
    insulations: tuple[Insulation, ...] = INSULATIONS
    presences: tuple[Presence, ...] = PRESENCES

    @property
    def count(self) -> int:
        """How many variants that is."""
        return len(self.boilers_kw) * len(self.stores_litres) * len(self.insulations) * len(self.presences)


@worked
def boilers_to_try(
    design_load_kw: Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)],
    own_kw: Annotated[float | None, Unit("kW"), Gt(0.0), Le(500.0)] = None,
) -> tuple[float, ...]:
    r"""Four boiler outputs worth trying for a house.

    A log boiler burns a few hours a day, so it must be stronger than the house on its coldest day.

    Parameters
    ----------
    design_load_kw : float
        Heat the house takes on its coldest day. [kW] Above 0, up to 500.
    own_kw : float or None
        Output of the boiler that is there; it takes the place of the nearest. [kW] Above 0, up to 500.

    Returns
    -------
    tuple of float
        Outputs, the smallest first. [kW]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: P_1 = \min\{P \in \text{series} : P \ge Q_d\}

    and the three sizes after it.

    References
    ----------
    .. [1] The series is common practice, no published source.
    """
    at = next((n for n, size in enumerate(BOILERS_KW) if size >= design_load_kw), len(BOILERS_KW) - 4)
    at = min(at, len(BOILERS_KW) - 4)
    sizes = list(BOILERS_KW[at : at + 4])
    if own_kw is not None:
        nearest = min(range(4), key=lambda n: abs(sizes[n] - own_kw))
        sizes[nearest] = own_kw
    return tuple(sorted(sizes))


@worked
def stores_to_try(
    design_load_kw: Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)],
    own_litres: Annotated[float | None, Unit("L"), Gt(50.0), Le(50000.0)] = None,
) -> tuple[float, ...]:
    r"""Nine store contents worth trying for a house.

    Parameters
    ----------
    design_load_kw : float
        Heat the house takes on its coldest day. [kW] Above 0, up to 500.
    own_litres : float or None
        The store that is there; it takes the place of the nearest. [L] Above 50, up to 50000.

    Returns
    -------
    tuple of float
        Contents, the smallest first. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V = V_0\,2^{\lceil \log_2 (Q_d / 20) \rceil}

    from 500 to 5000 litres for a house of up to 20 kW, and twice as much for each doubling.

    References
    ----------
    .. [1] Own choice of sizes; rules of size are shown by the checks of the plant.
    """
    factor = 1.0
    while design_load_kw > 20.0 * factor and factor < 8.0:
        factor *= 2.0
    sizes = [factor * size for size in STORES_L]
    if own_litres is not None:
        nearest = min(range(len(sizes)), key=lambda n: abs(sizes[n] - own_litres))
        sizes[nearest] = own_litres
    return tuple(sorted(sizes))


def plant_of(plant: Plant, boiler_kw: float, store_litres: float, insulation: Insulation) -> Plant:
    """The plant told, with another boiler and store: what goes with the size grows with it."""
    boiler = plant.boiler
    told = boiler.output_kw
    by = 1.0 if told is None else boiler_kw / told
    space = FUEL_SPACE_L_KW * boiler_kw if boiler.fuel_space_litres is None or told is None else None

    def grown(value: float | None) -> float | None:
        return None if value is None or told is None else value * by

    own_store = plant.store
    same = own_store.litres == store_litres and insulation != "store_lagged"
    store = (
        own_store
        if same
        else replace(
            own_store,
            litres=store_litres,
            height_m=None,
            tanks=1,
            arrangement="single",
            loss_w_per_k=None,
            insulation_cm=None,
            energy_class="A+" if insulation == "store_lagged" else own_store.energy_class or "C",
        )
    )
    return replace(
        plant,
        boiler=replace(
            boiler,
            output_kw=boiler_kw,
            fuel_space_litres=space or (boiler.fuel_space_litres or 0.0) * by,
            least_output_kw=grown(boiler.least_output_kw),
            water_litres=grown(boiler.water_litres),
            body_kg=grown(boiler.body_kg),
            charge_flow_kg_h=grown(boiler.charge_flow_kg_h),
        ),
        store=store,
    )
