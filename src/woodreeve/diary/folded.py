"""What the diary adds up to: stacks, readings, fires, use, upkeep and what to look at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Annotated, Literal

from woodreeve.diary.amounts import ContainerFill
from woodreeve.diary.findings import Finding
from woodreeve.diary.payloads_wood import Payload
from woodreeve.units import Unit
from woodreeve.wood import measure

__all__ = [
    "Event",
    "Fire",
    "Flow",
    "Folded",
    "MarkerWeight",
    "Reading",
    "Stage",
    "StackContents",
    "Unlogged",
    "Use",
]

Stage = Literal["in_wood", "roadside", "heap", "stack", "boiler_room"]
"""Where wood stands on its way: felled, at the roadside, split and waiting, stacked, or beside the boiler."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """An entry as it stands, read.

    Parameters
    ----------
    id, kind, happened, by
        As in the entry.
    payload : Payload
        What it says, in today's form.
    corrected_by : str or None
        The id of the correction whose content this is.
    """

    id: str
    kind: str
    happened: datetime
    by: str
    payload: Payload
    corrected_by: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """Moisture as measured at one place at one time.

    Parameters
    ----------
    entry, place, happened
        Where it stands in the diary, and what was measured.
    method : ``"meter"`` or ``"oven"``
        How.
    moisture : float or None
        Mean on the wet basis, corrected for the wood's temperature where that is known and the meter does
        not; ``None`` where no value is a moisture of wood. A meter of unknown basis is taken to show the
        wet basis, which is the safe side.
    at_least : bool
        Whether pieces were wetter than a meter can know, so that the mean is a lower bound.
    values : tuple of float
        Each piece on the wet basis.
    shown_percent : tuple of float
        The same as the meter showed them.
    basis : str
        ``"wet"``, ``"dry"`` or ``"not_known"``.
    drying_complete : bool or None
        For oven samples: whether a second drying took nothing more; ``None`` where there was none.
    over_range, meter, species, species_setting, wood_temperature_c, temperature_corrected, spot
        As logged.
    """

    entry: str
    place: str
    happened: datetime
    method: Literal["meter", "oven"]
    moisture: Annotated[float | None, Unit("-")]
    at_least: bool = False
    values: tuple[float, ...] = ()
    shown_percent: tuple[float, ...] = ()
    over_range: int = 0
    basis: Literal["wet", "dry", "not_known"] = "wet"
    drying_complete: bool | None = None
    meter: str | None = None
    species: str | None = None
    species_setting: str | None = None
    wood_temperature_c: float | None = None
    temperature_corrected: bool | None = None
    spot: str = "not_known"


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkerWeight:
    """A marker piece weighed: it loses what the stack around it loses."""

    entry: str
    marker: str
    place: str | None
    happened: datetime
    mass_kg: Annotated[float, Unit("kg")]
    dry_kg: Annotated[float | None, Unit("kg")]
    moisture: Annotated[float | None, Unit("-")]
    species: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StackContents:
    """What lies at one place.

    Parameters
    ----------
    place : str
        Its name.
    stage : Stage
        How far the wood has come.
    solid_m3, stacked_m3 : float
        How much, without and with the air between the logs. [m3]
    dry_kg : float
        The same, oven-dry. [kg]
    mix : mapping
        Species to share of the solid volume.
    pieces, log_cm, form
        What the logs are like; ``form`` is the one whose packing was used.
    felled_on, felled_first_on : date or None
        When the last and the first of the trees in it were felled.
    split_on, split_first_on : date or None
        When the last and the first of it was split: the last is the safe one for dryness.
    stacked_on : date or None
        When wood last came to it.
    found_on : date or None
        When a stock-take found it, where nobody logged how it came: its age is not known.
    covered_on : date or None
        Since when this wood is under cover; ``None`` where it is not.
    cover : str or None
        What covers it.
    counted_on : date or None
        The last stock-take.
    carried_moisture : float or None
        The moisture last measured where its wood came from.
    readings : tuple of Reading
        Its moisture readings since wood last came to an empty place, the last one last.
    """

    place: str
    stage: Stage
    solid_m3: Annotated[float, Unit("m3")]
    stacked_m3: Annotated[float, Unit("m3")]
    dry_kg: Annotated[float, Unit("kg")]
    mix: Mapping[str, float]
    pieces: str
    log_cm: float | None
    form: measure.Form
    felled_on: date | None = None
    felled_first_on: date | None = None
    split_on: date | None = None
    split_first_on: date | None = None
    stacked_on: date | None = None
    found_on: date | None = None
    covered_on: date | None = None
    cover: str | None = None
    counted_on: date | None = None
    carried_moisture: Annotated[float | None, Unit("-")] = None
    readings: tuple[Reading, ...] = ()

    @property
    def last_reading(self) -> Reading | None:
        """The last reading with a moisture."""
        return next((one for one in reversed(self.readings) if one.moisture is not None), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fire:
    """The boiler lit or refilled; amounts are ``None`` where none was told."""

    entry: str
    kind: Literal["lit", "refilled"]
    happened: datetime
    place: str | None
    solid_m3: Annotated[float | None, Unit("m3")]
    mass_kg: Annotated[float | None, Unit("kg")]
    count: float | None = None
    container: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Flow:
    """Wood that came, went or moved, as one entry tells it.

    ``kind`` is the kind of entry; ``from_place`` or ``to_place`` is ``None`` where it came from or went
    to a place outside the yard, or was not told. ``moisture`` is as told, or last measured; ``mass_kg``, the
    weight at it, is ``None`` where that is not known.
    """

    entry: str
    kind: str
    happened: datetime
    from_place: str | None
    to_place: str | None
    solid_m3: Annotated[float, Unit("m3")]
    dry_kg: Annotated[float, Unit("kg")]
    moisture: Annotated[float | None, Unit("-")]
    mass_kg: Annotated[float | None, Unit("kg")]
    mix: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unlogged:
    """What a stock-take found missing: use that nobody logged, or loss.

    Parameters
    ----------
    entry, place, stage
        The stock-take, and where.
    since, until : date
        The last stock-take, or the first entry, and this one.
    solid_m3 : float
        Missing; below zero where there was more than the diary knew. [m3]
    per_day_m3 : float
        The same, spread evenly over the days between. [m3]
    """

    entry: str
    place: str
    stage: Stage
    since: date
    until: date
    solid_m3: Annotated[float, Unit("m3")]
    per_day_m3: Annotated[float, Unit("m3")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """Wood used in a day or month.

    Parameters
    ----------
    fires : int
        Lightings logged.
    logged_m3, as_usual_m3, unlogged_m3 : float
        Solid wood logged; told as "as usual"; and missing at a stock-take of stack or boiler room. [m3]
    solid_m3, dry_kg, mass_kg : float
        All three together, as volume, oven-dry weight, and weight at the moisture it had. [m3] [kg] [kg]
    """

    fires: int = 0
    logged_m3: Annotated[float, Unit("m3")] = 0.0
    as_usual_m3: Annotated[float, Unit("m3")] = 0.0
    unlogged_m3: Annotated[float, Unit("m3")] = 0.0
    solid_m3: Annotated[float, Unit("m3")] = 0.0
    dry_kg: Annotated[float, Unit("kg")] = 0.0
    mass_kg: Annotated[float, Unit("kg")] = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Folded:
    """All that the diary adds up to, at one moment.

    Parameters
    ----------
    stacks, roadside, in_wood : mapping
        Contents by place; a place that was emptied stays, with nothing in it.
    heap : StackContents or None
        Wood split and not yet stacked.
    boiler_room : StackContents or None
        The stock beside the boiler; ``None`` where none was ever logged.
    used_up : tuple of StackContents
        Measured stacks that stand no more, each as it was when last measured: they teach of the next.
    readings, markers, containers, fires, flows, unlogged
        What was measured, weighed, burnt, moved, and missed, in the order of time.
    use_by_day, use_by_month : mapping
        Wood used, by local date and by ``"2026-01"``.
    events : mapping
        Every readable entry by its kind, in the order of time: upkeep, deliveries, meters, notes and all.
    burning_told_until : date or None
        The last day of which the diary tells whether wood was used.
    findings : tuple of Finding
        What the owner should look at.
    count : int
        Entries that stand.
    """

    stacks: Mapping[str, StackContents]
    roadside: Mapping[str, StackContents]
    in_wood: Mapping[str, StackContents]
    heap: StackContents | None
    boiler_room: StackContents | None
    used_up: tuple[StackContents, ...] = ()
    readings: tuple[Reading, ...] = ()
    markers: tuple[MarkerWeight, ...] = ()
    containers: Mapping[str, ContainerFill] = field(default_factory=dict)
    fires: tuple[Fire, ...] = ()
    flows: tuple[Flow, ...] = ()
    unlogged: tuple[Unlogged, ...] = ()
    use_by_day: Mapping[date, Use] = field(default_factory=dict)
    use_by_month: Mapping[str, Use] = field(default_factory=dict)
    events: Mapping[str, tuple[Event, ...]] = field(default_factory=dict)
    burning_told_until: date | None = None
    findings: tuple[Finding, ...] = ()
    count: int = 0

    def of(self, *kinds: str) -> tuple[Event, ...]:
        """The events of some kinds, in the order of time."""
        found = [event for kind in kinds for event in self.events.get(kind, ())]
        return (
            tuple(sorted(found, key=lambda event: (event.happened, event.id)))
            if len(kinds) > 1
            else tuple(found)
        )
