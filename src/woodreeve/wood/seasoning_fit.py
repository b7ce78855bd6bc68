"""What the drying trials taught: the fitted figures of the drying model, and the trials themselves."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from functools import lru_cache
from typing import Annotated, Literal, get_args

from woodreeve.errors import Unreadable
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.wood import tables

__all__ = [
    "COVERS",
    "PLACES",
    "Cover",
    "DryingParameters",
    "Place",
    "Trial",
    "TrialReading",
    "fitted",
    "trials",
    "unscored_trials",
]

Cover = Literal["none", "part", "top_sheet", "roof", "shed", "closed_shed", "wrapped_tarp"]
"""What keeps the rain off: nothing, something now and then, a sheet on top, a roof, an airy shed, a closed
shed, a sheet wrapped right round."""

COVERS: tuple[Cover, ...] = get_args(Cover)

Place = Literal["airy_row", "block_or_pile", "sunny_top"]
"""How the wood lies: a single row that wind goes through, a block of several rows or a heap, or a few pieces
on top of a stack in full sun."""

PLACES: tuple[Place, ...] = get_args(Place)

_Factor = Annotated[float, Unit("-"), Gt(0.0), Le(10.0)]
_Exponent = Annotated[float, Unit("-"), Ge(-3.0), Le(3.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingParameters:
    """The figures of the drying model; the fitted ones come from :func:`fitted`."""

    rate: Annotated[float, Unit("1/day"), Gt(0.0), Le(1.0)]
    """Drying rate of split broadleaved wood, 100 mm thick and 330 mm long, at 0.5 kPa."""
    thickness_exponent: _Exponent
    """1 where the surface sets the pace, 2 where the inside does."""
    end_grain: Annotated[float, Unit("-"), Ge(0.0), Le(20.0)]
    """How much better water leaves through an end than through a side of the same size."""
    oak: _Factor
    """Oaks against other broadleaved wood of the same density."""
    conifer: _Factor
    """Conifers against broadleaved wood of the same density."""
    density_exponent: _Exponent
    """Dense wood dries more slowly: power of basic density over 500 kg/m3."""
    bark: _Factor
    """Rounds in their bark against split wood."""
    block_or_pile: _Factor
    """A block or heap against a row."""
    sunny_top: _Factor
    """Single pieces on top of a stack in full sun."""
    wrapped_tarp: _Factor
    """Wrapped in a sheet."""
    closed_shed: _Factor
    """In a shed without wind."""
    rain_wetting: Annotated[float, Unit("-"), Ge(0.0), Le(0.5)]
    """What 50 mm of rain a month add to the moisture (dry basis) that uncovered wood settles at."""
    rain_hindrance: Annotated[float, Unit("-"), Ge(0.0), Le(2.0)]
    """How 50 mm of rain a month slow the drying of uncovered wood, as a log rate."""
    slow_share: Annotated[float, Unit("-"), Gt(0.0), Le(1.0)]
    """Share of the rate that is left as wood nears its equilibrium; 1 for a plain exponential."""
    log_rate_sd: Annotated[float, Unit("-"), Ge(0.0), Le(2.0)]
    """How far stacks differ from each other for unknown reasons, as a log rate."""


@lru_cache(maxsize=1)
def fitted() -> DryingParameters:
    """The figures as fitted on the drying trials that ride with the package.

    They are written by ``studies/seasoning.py``; a test fits them anew and compares.
    """
    by_name = {line["name"]: float(line["value"]) for line in tables.lines("drying_fit")}
    missing = [item.name for item in fields(DryingParameters) if item.name not in by_name]
    if missing:
        raise Unreadable(f"The sheet of drying figures lacks {', '.join(missing)}: run studies/seasoning.py.")
    return DryingParameters(**{item.name: by_name[item.name] for item in fields(DryingParameters)})


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialReading:
    """What a trial found on a day; ``kind`` says whether it is a value, a rule or a bound."""

    day: int
    moisture: float
    kind: Literal["measured", "rule", "at_most", "at_least"]
    weight: float
    status: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One published drying trial: what lay there, how, since when, and what was found."""

    name: str
    source_group: str
    wood: str
    species_as_reported: str
    thickness_mm: float
    length_mm: float
    unsplit_bark: bool
    cover: Cover
    place: Place
    climate: str
    start: date
    start_moisture: float
    readings: tuple[TrialReading, ...]
    source: str

    @property
    def days(self) -> int:
        """Days until the last finding."""
        return max(reading.day for reading in self.readings)


TRIAL_YEAR = 2001
"""Trials are replayed in typical years; this one and the next have no 29 February."""


@lru_cache(maxsize=1)
def trials() -> tuple[Trial, ...]:
    """The scored drying trials, in the order of their sheet."""
    grouped: dict[str, list[tables.Line]] = {}
    for line in tables.lines("drying_trials"):
        grouped.setdefault(line["trial"], []).append(line)
    return tuple(_trial(name, lines) for name, lines in grouped.items())


def _trial(name: str, lines: list[tables.Line]) -> Trial:
    first = lines[0]
    month, day = (int(part) for part in first["start"].split("-"))
    cover = next(c for c in COVERS if c == first["cover"])
    place = next(p for p in PLACES if p == first["place"])
    return Trial(
        name=name,
        source_group=first["source_group"],
        wood=first["species"],
        species_as_reported=first["species_as_reported"],
        thickness_mm=float(first["thickness_mm"]),
        length_mm=float(first["length_mm"]),
        unsplit_bark=first["unsplit_bark"] == "1",
        cover=cover,
        place=place,
        climate=first["climate"],
        start=date(TRIAL_YEAR, month, day),
        start_moisture=float(first["start_moisture_percent"]) / 100.0,
        readings=tuple(
            TrialReading(
                day=int(line["day"]),
                moisture=float(line["moisture_percent"]) / 100.0,
                kind=_KINDS[line["kind"]],
                weight=float(line["weight"]),
                status=line["status"],
            )
            for line in lines
        ),
        source=first["source"],
    )


_KINDS: dict[str, Literal["measured", "rule", "at_most", "at_least"]] = {
    "measured": "measured",
    "rule": "rule",
    "at_most": "at_most",
    "at_least": "at_least",
}


def unscored_trials() -> tuple[tables.Line, ...]:
    """Trials too poorly described to run: kept for the record, with what was read of them."""
    return tables.lines("drying_trials_unscored")
