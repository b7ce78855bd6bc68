"""How often the plant is looked after: defaults from sources, each the owner's to change."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.units import Asks, Gt, Le, Unit

__all__ = ["Upkeep"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Upkeep:
    """Intervals of upkeep."""

    ash_litres: Annotated[
        float,
        Unit("L"),
        Gt(0),
        Le(500),
        Asks("Ash room", "Litres of ash after which it must come out; the manual or your bucket tells."),
    ] = 18.0
    flueways_days: Annotated[
        float,
        Unit("day"),
        Gt(0),
        Le(60),
        Asks("Days of fire between cleanings", "Flueways and burning chamber; weekly by habit."),
    ] = 14.0
    yearly_months: Annotated[
        float, Unit("month"), Gt(0), Le(36), Asks("Months between great cleanings", "Brush, ash and all.")
    ] = 12.0
    sweep_months: Annotated[
        float | None,
        Unit("month"),
        Gt(0),
        Le(36),
        Asks("Months between sweepings", "Unknown follows the nation's rule, or once a year."),
    ] = None
    service_months: Annotated[
        float, Unit("month"), Gt(0), Le(60), Asks("Months between services", "As the maker says.")
    ] = 12.0
    safety_months: Annotated[
        float,
        Unit("month"),
        Gt(0),
        Le(24),
        Asks(
            "Months between tests of safety devices", "Safety valve and heat escape, by a competent person."
        ),
    ] = 12.0
    vessel_months: Annotated[
        float, Unit("month"), Gt(0), Le(36), Asks("Months between tests of the vessel", "Gas pressure.")
    ] = 12.0
    alarm_days: Annotated[
        float, Unit("day"), Gt(0), Le(366), Asks("Days between alarm tests", "By the alarm's button.")
    ] = 31.0
    meter_months: Annotated[
        float, Unit("month"), Gt(0), Le(60), Asks("Months between meter checks", "Against an oven.")
    ] = 12.0
    chimney_months: Annotated[
        float,
        Unit("month"),
        Gt(0),
        Le(60),
        Asks("Months between looks at the chimney", "Cap, joints, outside, and the flue's door."),
    ] = 12.0
