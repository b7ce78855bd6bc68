"""Moisture readings and weighings, as the diary has them, turned to the wet basis."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from woodreeve.diary.findings import Finding
from woodreeve.diary.folded import Event, MarkerWeight, Reading
from woodreeve.diary.payloads_wood import Measured, OvenSample, Weighed
from woodreeve.wood.moisture import meter_reading
from woodreeve.wood.seasoning_samples import mass_holds

__all__ = ["marker_weight", "readings_of", "with_dry_weights"]

_MOST_SHOWN = {"wet": 70.0, "not_known": 233.0, "dry": 233.0}
"""No wood in a stack is wetter than 70 % on the wet basis, which is 233 % on the dry one."""


def readings_of(event: Event, told: Measured) -> tuple[list[Reading], list[Finding]]:
    """Read one entry of moisture: a reading for the meter's values, and one for the oven samples.

    Parameters
    ----------
    event : Event
        The entry.
    told : Measured
        What it says.

    Returns
    -------
    readings : list of Reading
        At most one by meter and one by oven.
    findings : list of Finding
        Values that are no moisture of wood, and samples that were not dry.
    """
    readings: list[Reading] = []
    findings: list[Finding] = []
    if told.shown_percent or told.over_range:
        readings.append(_by_meter(event, told, findings))
    if told.oven:
        readings.append(_by_oven(event, told, findings))
    return readings, findings


def _by_meter(event: Event, told: Measured, findings: list[Finding]) -> Reading:
    values = []
    over = told.over_range or 0
    lower_bounds = over
    for shown in told.shown_percent:
        if shown > _MOST_SHOWN[told.basis]:
            figures = {"shown_percent": shown}
            findings.append(Finding("reading_out_of_range", event.id, told.place, figures=figures))
            continue
        value, is_bound = _wet_basis(shown, told)
        values.append(value)
        lower_bounds += is_bound
    top = told.range_top_percent
    beyond = _wet_basis(100.0 if top is None else top, told)[0]
    counted = values + [beyond] * over
    return Reading(
        entry=event.id,
        place=told.place,
        happened=event.happened,
        method="meter",
        moisture=_mean(counted),
        at_least=lower_bounds > 0,
        values=tuple(values),
        shown_percent=told.shown_percent,
        over_range=over,
        basis=told.basis,
        meter=told.meter,
        species=told.species,
        species_setting=told.species_setting,
        wood_temperature_c=told.wood_temperature_c,
        temperature_corrected=told.temperature_corrected,
        spot=told.spot,
    )


def _by_oven(event: Event, told: Measured, findings: list[Finding]) -> Reading:
    values = tuple((sample.wet_g - _dry(sample)) / sample.wet_g for sample in told.oven)
    complete = [_complete(sample) for sample in told.oven]
    if False in complete:
        findings.append(Finding("oven_drying_incomplete", event.id, told.place))
    return Reading(
        entry=event.id,
        place=told.place,
        happened=event.happened,
        method="oven",
        moisture=_mean(values),
        values=values,
        drying_complete=False if False in complete else None if None in complete else True,
        species=told.species,
    )


def marker_weight(event: Event, told: Weighed) -> MarkerWeight:
    """Read the weight of a marker piece; its moisture follows once its dry weight is known."""
    assert told.marker is not None
    return MarkerWeight(
        entry=event.id,
        marker=told.marker,
        place=told.place,
        happened=event.happened,
        mass_kg=told.gross_kg - told.empty_kg,
        dry_kg=told.dry_kg,
        moisture=told.moisture,
        species=told.species,
    )


def with_dry_weights(markers: Sequence[MarkerWeight]) -> tuple[MarkerWeight, ...]:
    """Give every weighing of a marker piece its moisture, once its dry weight is known from a later one."""
    dry = {one.marker: one.dry_kg for one in markers if one.dry_kg is not None}
    return tuple(_with_dry_weight(one, dry.get(one.marker)) for one in markers)


def _with_dry_weight(one: MarkerWeight, dry_kg: float | None) -> MarkerWeight:
    if dry_kg is None or dry_kg > one.mass_kg:
        return one
    return replace(one, dry_kg=dry_kg, moisture=1.0 - dry_kg / one.mass_kg)


def _wet_basis(shown_percent: float, told: Measured) -> tuple[float, bool]:
    """One figure of the meter on the wet basis, and whether the wood may be wetter than it says."""
    wood_c = (
        20.0 if told.temperature_corrected or told.wood_temperature_c is None else told.wood_temperature_c
    )
    found = meter_reading(min(shown_percent / 100.0, 1.0), told.basis, min(max(wood_c, -30.0), 60.0))
    if found.verdict == "above_range":
        assert found.low is not None
        return found.low, True
    safe = found.safe_moisture if found.moisture is None or told.basis == "not_known" else found.moisture
    assert safe is not None
    return safe, False


def _dry(sample: OvenSample) -> float:
    again = sample.dry_again_g
    return sample.dry_g if again is None else min(sample.dry_g, again)


def _complete(sample: OvenSample) -> bool | None:
    if sample.dry_again_g is None:
        return None
    return mass_holds(sample.wet_g, sample.dry_g, sample.dry_again_g)


def _mean(values: Iterable[float]) -> float | None:
    counted = list(values)
    return sum(counted) / len(counted) if counted else None
