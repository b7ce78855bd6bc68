"""A stack at this moment: how wet it counts, on which side a doubt falls, what more pieces bring."""

from __future__ import annotations

from datetime import date

import pytest

from woodreeve.learning.outlook import StackOutlook, stack_outlook
from woodreeve.learning.present import (
    basis_doubt,
    moisture_as_reckoned,
    range_by_pieces,
    readings_as,
    season_after,
)
from woodreeve.wood.seasoning_readings import MeterValues, StackReading, read_meter
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import trial_climate

START, NOW = date(2025, 3, 1), date(2025, 7, 10)
STACK = DryingStack(name="gable", wood="ash", start=START, covers=(CoverSpell(since=START, cover="roof"),))
WEATHER = trial_climate("south England", start=START, days=700)


def read(*shown: float, basis: str = "not_known") -> StackReading:
    """Three values of a meter on the day before."""
    values = MeterValues(taken=date(2025, 7, 9), shown=shown, wood_c=20.0)
    return read_meter(values, basis=basis)  # type: ignore[arg-type]  # one of the three words


def outlook(*readings: StackReading) -> StackOutlook:
    """The stack, followed to the day."""
    return stack_outlook(STACK, WEATHER, readings, now=NOW, season_start=date(2025, 10, 1))


def test_an_unknown_basis_counts_as_the_wetter_way_of_reading() -> None:
    """And a known one adds nothing."""
    unsure, sure = read(0.20, 0.21, 0.22), read(0.20, 0.21, 0.22, basis="dry")
    doubt = basis_doubt((unsure,))
    assert unsure.safe_moisture is not None
    assert doubt == pytest.approx(unsure.safe_moisture - unsure.moisture)
    assert doubt > 0.015
    assert basis_doubt((unsure, sure)) == 0.0
    assert basis_doubt(()) == 0.0
    seen = outlook(unsure)
    now = moisture_as_reckoned(seen, (unsure,))
    assert now.moisture == pytest.approx(seen.shown.moisture + doubt)
    assert now.low <= now.moisture <= now.high


def test_settled_one_way_a_reading_is_surer_and_the_dry_way_is_the_drier() -> None:
    """The other readings stay as they are."""
    unsure, sure = read(0.20, 0.21, 0.22), read(0.20, 0.21, 0.22, basis="dry")
    (dry,), (wet,) = readings_as((unsure,), "dry"), readings_as((unsure,), "wet")
    assert dry.moisture < unsure.moisture < wet.moisture
    assert dry.sd < unsure.sd
    assert dry.moisture == pytest.approx(sure.moisture)
    assert readings_as((sure,), "wet") == (sure,)


def test_what_is_not_measured_counts_as_18_per_cent_at_least() -> None:
    """A dry forecast is not believed to the last point."""
    dry = moisture_as_reckoned(
        stack_outlook(STACK, WEATHER, now=date(2025, 9, 20), season_start=date(2025, 10, 1)), ()
    )
    assert dry.moisture == 0.18
    assert dry.known_by == "reckoned"
    assert dry.low < 0.18


def test_more_pieces_leave_less_doubt_but_never_less_than_the_meters_own() -> None:
    """None is the range as it is."""
    steps = range_by_pieces(outlook())
    halves = [step.half for step in steps]
    course = outlook().course
    assert steps[0].pieces == 0
    assert halves[0] == pytest.approx((course.high_now - course.low_now) / 2.0)
    assert halves == sorted(halves, reverse=True)
    assert halves[1] < halves[0]


def test_the_next_season_is_the_one_after_today() -> None:
    """On its first day the next one counts."""
    assert season_after(date(2026, 9, 30), (10, 1)) == date(2026, 10, 1)
    assert season_after(date(2026, 10, 1), (10, 1)) == date(2027, 10, 1)
