"""From the diary to the drying model: each stack as it stands, and its readings with their true error."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from woodreeve.diary.folded import MarkerWeight, Reading, StackContents
from woodreeve.errors import Refused, Unknown, WoodreeveError
from woodreeve.units import Celsius
from woodreeve.wood.moisture import MeterBasis
from woodreeve.wood.seasoning_fit import Cover, Place
from woodreeve.wood.seasoning_pace import Thickness
from woodreeve.wood.seasoning_readings import MeterValues, StackReading, read_meter
from woodreeve.wood.seasoning_samples import marker_reading, reading_of_pieces
from woodreeve.wood.seasoning_stack import GREEN_MOISTURE_SD, CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import DryingWeather
from woodreeve.wood.species import green_moisture
from woodreeve.workings import worked
from woodreeve.yard.fields import MoistureMeter, StackPlace
from woodreeve.yard.stacks import DRIEST

__all__ = ["RefusedReading", "StackAsFollowed", "stack_as_followed"]

SPLIT_MM = 100.0
"""Short side of split logs where nobody told it; common practice, no published source. [mm]"""
ROUND_MM = 150.0
"""Diameter of short rounds where nobody told it. [mm]"""
ROUNDWOOD_MM = 200.0
"""Diameter of roundwood where nobody told it. [mm]"""
LONG_LYING_DAYS = 60
"""Wood that lay longer than this between felling and splitting may have dried by then. [day]"""
UNSURE_START_SD = 0.05
"""How far the start may be off then, or where the moisture was carried over. [-]"""
MANY_ROWS = 3
"""From so many rows on a stack is a block. [-]"""
SDS_OF_80_PERCENT = 1.2816
"""Half the width of a range that holds in 8 cases of 10, in standard deviations. [-]"""
BEYOND_THE_METER = 0.99

_COVERS: dict[str, Cover] = {
    "none": "none",
    "top_sheet": "top_sheet",
    "sheet": "top_sheet",
    "boards": "top_sheet",
    "other": "top_sheet",
    "roof": "roof",
    "shed": "shed",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedReading:
    """A reading that is kept in the diary and not used, and why."""

    taken: date
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StackAsFollowed:
    """A stack and its readings, ready to be followed."""

    stack: DryingStack
    readings: tuple[StackReading, ...]
    refused: tuple[RefusedReading, ...]
    assumed: tuple[Literal["thickness", "length", "start_moisture", "start_day"], ...]
    """What nobody told and was taken as usual."""


@worked
def stack_as_followed(
    contents: StackContents,
    weather: DryingWeather,
    *,
    place: StackPlace | None = None,
    meters: Sequence[MoistureMeter] = (),
    markers: Sequence[MarkerWeight] = (),
    thickness_mm: Thickness | None = None,
) -> StackAsFollowed:
    """Turn what the diary knows of a stack into what the drying model needs.

    The owner sees here what was taken as usual because nobody told it.

    Parameters
    ----------
    contents : StackContents
        The stack as folded from the diary.
    weather : DryingWeather
        Tells the air of the day before a reading, where the wood's temperature was not taken.
    place : StackPlace, optional
        Where it stands.
    meters : sequence of MoistureMeter
        The owner's meters.
    markers : sequence of MarkerWeight
        Marker pieces weighed; those of other places are left out.
    thickness_mm : float, optional
        Short side of the pieces as split; unknown takes the usual size. [mm] From 10 to 800.

    Returns
    -------
    StackAsFollowed
        The stack, its readings, those refused, and what was assumed.

    Raises
    ------
    Unknown
        If nobody told when it was split, stacked or felled, nor measured it.

    Notes
    -----
    Split wood dries from the day the last of it was split, under the cover that the diary tells of, at a
    place as the holding describes it. Wood that a stock-take found, and of which nobody knows the age,
    starts anywhere between green and 15 %, on the day it was found or first measured. A side of 100 mm,
    logs of 33 cm and the species' green moisture stand in where nobody told. Each reading gets its error by
    how it was taken; a frozen one is refused.

    References
    ----------
    .. [1] The owner's diary; :func:`woodreeve.wood.seasoning_readings.read_meter` for what a meter's numbers
       are worth. The usual sizes are common practice, no published source.
    """
    assumed: list[Literal["thickness", "length", "start_moisture", "start_day"]] = []
    start = contents.split_on or contents.stacked_on or contents.felled_on
    carried = contents.carried_moisture
    if carried is not None and contents.stacked_on is not None:
        start = contents.stacked_on
    start_moisture, start_sd = carried, GREEN_MOISTURE_SD if carried is None else UNSURE_START_SD
    if start is None and contents.readings and contents.found_on is not None:
        start = min(contents.found_on, *(reading.happened.date() for reading in contents.readings))
        start_moisture, start_sd = _of_unknown_age(contents.mix)
    if start is None:
        raise Unknown(
            f"Nobody told when the wood of {contents.place} was split or stacked: log it in the diary, or "
            "measure three fresh faces."
        )
    if contents.split_on is None and contents.pieces == "split":
        assumed.append("start_day")
    if thickness_mm is None:
        assumed.append("thickness")
        thickness_mm = {"split": SPLIT_MM, "rounds": ROUND_MM}.get(contents.pieces, ROUNDWOOD_MM)
    if contents.log_cm is None:
        assumed.append("length")
    if start_moisture is None:
        assumed.append("start_moisture")
    if contents.felled_on is not None and (start - contents.felled_on).days > LONG_LYING_DAYS:
        start_sd = max(start_sd, UNSURE_START_SD)
    stack = DryingStack(
        name=contents.place,
        wood=dict(contents.mix),
        start=start,
        thickness_mm=thickness_mm,
        length_mm=min(max(10.0 * (contents.log_cm or 33.0), 50.0), 12000.0),
        unsplit_bark=contents.pieces != "split",
        covers=_covers(contents, place, start),
        place=_lies(contents, place),
        start_moisture=start_moisture,
        start_moisture_sd=start_sd,
    )
    readings, refused = _readings(contents.readings, stack, weather, {meter.name: meter for meter in meters})
    readings += _marker_readings([m for m in markers if m.place == contents.place], start)
    return StackAsFollowed(
        stack=stack,
        readings=tuple(sorted(readings, key=lambda reading: reading.taken)),
        refused=tuple(refused),
        assumed=tuple(assumed),
    )


def _of_unknown_age(wood: Mapping[str, float]) -> tuple[float, float]:
    """Moisture and how far it may be off, of wood that may be green or dry: what is measured decides."""
    green = max(green_moisture(dict(wood)), DRIEST)
    return (green + DRIEST) / 2.0, (green - DRIEST) / (2.0 * SDS_OF_80_PERCENT)


def _covers(contents: StackContents, place: StackPlace | None, start: date) -> tuple[CoverSpell, ...]:
    lasting = place.cover if place is not None else None
    if contents.covered_on is not None:
        cover = _COVERS.get(contents.cover or lasting or "sheet", "top_sheet")
        return (CoverSpell(since=max(contents.covered_on, start), cover=cover),)
    if lasting in ("roof", "shed"):
        return (CoverSpell(since=start, cover=_COVERS[lasting]),)
    return ()


def _lies(contents: StackContents, place: StackPlace | None) -> Place:
    many = place is not None and place.rows >= MANY_ROWS
    return "block_or_pile" if many or contents.stage in ("heap", "roadside") else "airy_row"


def _readings(
    found: Sequence[Reading], stack: DryingStack, weather: DryingWeather, meters: dict[str, MoistureMeter]
) -> tuple[list[StackReading], list[RefusedReading]]:
    readings: list[StackReading] = []
    refused: list[RefusedReading] = []
    for reading in found:
        taken = reading.happened.date()
        if taken < stack.start:
            continue
        try:
            if reading.method == "meter":
                meter = meters.get(reading.meter or "") if len(meters) != 1 else next(iter(meters.values()))
                readings.append(_by_meter(reading, taken, stack, weather, meter))
            elif reading.values:
                unfinished = reading.drying_complete is False
                readings.append(reading_of_pieces(taken, reading.values, unfinished=unfinished))
        except (Refused, WoodreeveError) as error:
            refused.append(RefusedReading(taken=taken, sentence=str(error)))
    return readings, refused


def _by_meter(
    reading: Reading, taken: date, stack: DryingStack, weather: DryingWeather, meter: MoistureMeter | None
) -> StackReading:
    basis: MeterBasis = reading.basis
    corrected: Literal["yes", "no"] | None = None
    if reading.temperature_corrected is not None:
        corrected = "yes" if reading.temperature_corrected else "no"
    if meter is not None:
        basis = meter.basis or "not_known" if basis == "not_known" else basis
        corrected = meter.temperature_corrected if corrected is None else corrected
    shown = tuple(min(value / 100.0, BEYOND_THE_METER) for value in reading.shown_percent)
    values = MeterValues(
        taken=taken,
        shown=shown + (BEYOND_THE_METER,) * reading.over_range,
        fresh_face=reading.spot not in ("outside", "end_grain"),
        wood_c=reading.wood_temperature_c,
        surface_may_be_wet=stack.cover_on(taken) == "none",
    )
    return read_meter(
        values,
        basis=basis,
        temperature_corrected=corrected,
        past_day_air_c=_air_of(weather, taken - timedelta(days=1)),
        oven_checked=meter is not None and meter.oven_checked_on is not None,
        oven_offset=(meter.oven_offset or 0.0) if meter is not None else 0.0,
        setting_fits=reading.species_setting is not None
        or meter is None
        or meter.species_setting is not None,
    )


def _air_of(weather: DryingWeather, day: date) -> Celsius | None:
    """Mean air of a measured day; a typical year says nothing of a single one."""
    index = (day - weather.start).days
    return float(weather.air_c[index]) if 0 <= index < weather.known_days else None


def _marker_readings(markers: Sequence[MarkerWeight], start: date) -> list[StackReading]:
    by_day: dict[date, list[MarkerWeight]] = {}
    for marker in markers:
        if marker.dry_kg is not None and marker.happened.date() >= start and marker.mass_kg >= marker.dry_kg:
            by_day.setdefault(marker.happened.date(), []).append(marker)
    return [
        marker_reading(day, [m.dry_kg for m in some if m.dry_kg is not None], [m.mass_kg for m in some])
        for day, some in by_day.items()
    ]
