"""The outlook of one stack: all in one, and consistent."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from woodreeve.learning.many import StackTask, follow_stacks
from woodreeve.learning.outlook import outlook_of_course, stack_outlook
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import trial_climate
from woodreeve.workings import Trace

START = date(2025, 3, 1)
NOW = date(2025, 6, 1)
SEASON = date(2025, 10, 1)
WEATHER = trial_climate("south England", start=START, days=730)
ROOFED = DryingStack(name="gable", wood="ash", start=START, covers=(CoverSpell(since=START, cover="roof"),))
BARE = replace(ROOFED, name="bare", covers=())


def reading(moisture: float) -> StackReading:
    """A reading of last week."""
    return StackReading(taken=NOW - timedelta(days=7), kind="value", moisture=moisture, sd=0.02, how="meter")


def test_a_roofed_stack_has_a_ready_date_and_needs_no_cover() -> None:
    """Its chance by the season is that of the ready date's courses."""
    found = stack_outlook(ROOFED, WEATHER, now=NOW, season_start=SEASON)
    assert found.ready.median is not None
    assert NOW <= found.ready.median < SEASON
    assert found.chance_by_season > 0.9
    assert found.moisture_by_season < found.course.moisture_now
    assert found.cover_by is None


def test_an_uncovered_stack_is_told_when_to_be_covered() -> None:
    """In late summer, before rain and damp take back what it lost."""
    day = stack_outlook(BARE, WEATHER, now=NOW, season_start=SEASON).cover_by
    assert day is not None
    assert date(2025, 7, 15) < day < date(2025, 10, 15)


def test_odd_readings_come_with_their_doubts() -> None:
    """And usual ones without."""
    odd = stack_outlook(ROOFED, WEATHER, (reading(0.45),), now=NOW, season_start=SEASON).odd
    assert len(odd) == 1
    assert odd[0].doubts
    usual = stack_outlook(ROOFED, WEATHER, (reading(0.20),), now=NOW, season_start=SEASON)
    assert usual.odd == ()


def test_a_forecast_below_18_is_shown_as_18_or_less_unless_measured() -> None:
    """On a day when the stack is long dry."""
    later = date(2025, 9, 1)
    guessed = stack_outlook(ROOFED, WEATHER, now=later, season_start=SEASON)
    seen = replace(reading(guessed.course.moisture_now), taken=later - timedelta(days=3))
    measured = stack_outlook(ROOFED, WEATHER, (seen,), now=later, season_start=SEASON)
    assert (guessed.shown.moisture, guessed.shown.or_less) == (0.18, True)
    assert measured.shown.moisture < 0.18
    assert not measured.shown.or_less


def test_a_stack_followed_among_many_has_the_same_outlook() -> None:
    """Its course does not depend on how it was run, only on how often it is shown."""
    many = follow_stacks([StackTask(stack=BARE, weather=WEATHER)] * 2, now=NOW, every_days=1)
    one = stack_outlook(BARE, WEATHER, now=NOW, season_start=SEASON)
    among = outlook_of_course(many[1], BARE, WEATHER, season_start=SEASON)
    assert among.ready == one.ready
    assert among.cover_by == one.cover_by


def test_what_is_shown_can_be_traced_to_what_made_it() -> None:
    """Present moisture and chances are the very objects that worked functions returned."""
    with Trace() as trace:
        found = stack_outlook(ROOFED, WEATHER, now=NOW, season_start=SEASON)
    for value, name in (
        (found.course.moisture_now, "follow_stack"),
        (found.chance_by_season, "chance_ready_by"),
        (found.shown.moisture, "follow_stack"),
    ):
        node = trace.node_behind(value)
        assert node is not None
        assert getattr(node, "name", None) in (name, "shown_moisture")


def test_a_longer_forecast_does_not_change_what_comes_before() -> None:
    """The dice of a month do not depend on how many months follow."""
    short = stack_outlook(ROOFED, WEATHER.span(START, 398), now=NOW, season_start=SEASON).course
    long = stack_outlook(ROOFED, WEATHER, now=NOW, season_start=SEASON).course
    assert short.moisture_now == long.moisture_now
    np.testing.assert_array_equal(short.median, long.median[:398])
