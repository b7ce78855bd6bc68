"""All checks of the plant, in the order of the page."""

from __future__ import annotations

from woodreeve.plant.checks.flue_checks import flue_checks
from woodreeve.plant.checks.heating import boiler_checks, heating_checks
from woodreeve.plant.checks.hot_water_safety import hot_water_checks
from woodreeve.plant.checks.pump import pipe_checks
from woodreeve.plant.checks.room import room_checks
from woodreeve.plant.checks.rules import topics
from woodreeve.plant.checks.safety import safety_checks
from woodreeve.plant.checks.store_checks import store_checks
from woodreeve.plant.checks.verdict import Check, Facts
from woodreeve.plant.checks.water_checks import expansion_checks
from woodreeve.plant.checks.water_quality import water_quality_checks

__all__ = ["all_checks", "first_to_tell"]

FIRST = (
    "escape.",
    "water.vessel",
    "room.co",
    "hot_water.cut_out",
    "water.",
    "store.",
    "boiler.",
    "flue.",
)
"""What is asked for first: what can hurt, then what sizes the plant."""


def all_checks(facts: Facts) -> tuple[Check, ...]:
    """Run every check that this plant calls for."""
    found = [
        *store_checks(facts),
        *boiler_checks(facts),
        *expansion_checks(facts),
        *water_quality_checks(facts),
        *safety_checks(facts),
        *pipe_checks(facts),
        *heating_checks(facts),
        *hot_water_checks(facts),
        *flue_checks(facts),
        *room_checks(facts),
    ]
    order = {key: place for place, key in enumerate(topics())}
    return tuple(sorted(found, key=lambda one: order[one.key]))


def first_to_tell(checks: tuple[Check, ...]) -> str | None:
    """The field that should be told first; ``None`` where nothing is missing."""
    waiting = [one for one in checks if one.missing]
    for start in FIRST:
        for one in waiting:
            if one.key.startswith(start):
                return one.missing[0]
    return waiting[0].missing[0] if waiting else None
