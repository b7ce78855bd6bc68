"""Stacks as the diary would tell them, made short."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

from woodreeve.diary.folded import Reading, StackContents
from woodreeve.wood import measure

MEASURED_ON = datetime(2026, 1, 4, 11, 0, tzinfo=UTC)


def reading(place: str, moisture: float, *, at_least: bool = False, on: datetime = MEASURED_ON) -> Reading:
    """A reading by meter."""
    return Reading(
        entry="0" * 32,
        place=place,
        happened=on,
        method="meter",
        moisture=moisture,
        at_least=at_least,
        values=(moisture,),
    )


def stack(
    place: str, species: str = "ash", stacked_m3: float = 10.0, moisture: float | None = None, **more: Any
) -> StackContents:
    """A stack of one species, split to 33 cm, measured or not."""
    solid = measure.solid_from_stacked(stacked_m3, "split_33cm", species)
    at_least = more.pop("at_least", False)
    return StackContents(
        place=place,
        stage=more.pop("stage", "stack"),
        solid_m3=solid,
        stacked_m3=stacked_m3,
        dry_kg=measure.mass_of_solid(species, solid, 0.0),
        mix={species: 1.0},
        pieces="split",
        log_cm=33.0,
        form="split_33cm",
        split_on=date(2025, 4, 1),
        readings=() if moisture is None else (reading(place, moisture, at_least=at_least),),
        **more,
    )
