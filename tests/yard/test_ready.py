"""Ready dates: medians, ranges, and saying no more than is known."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange
from woodreeve.yard.ready import chance_ready_by, cover_by, ready_date, shown_moisture

START = date(2026, 3, 1)


def test_below_18_only_a_reading_may_say_so() -> None:
    """About 18 % or less, unless measured."""
    guessed, measured, above = (
        shown_moisture(0.15, measured=False),
        shown_moisture(0.15, measured=True),
        shown_moisture(0.21, measured=False),
    )
    assert (guessed.moisture, guessed.or_less) == (0.18, True)
    assert (measured.moisture, measured.or_less) == (0.15, False)
    assert (above.moisture, above.or_less) == (0.21, False)


@given(st.lists(st.integers(-1, 700), min_size=1, max_size=200))
def test_the_three_days_are_in_order_and_promise_the_late_one(days: list[int]) -> None:
    """10, 50 and 90 % days; one that is not reached leaves the later ones open too."""
    found = ready_date(np.array(days), start=START, now=START, target=0.2)
    known = [day for day in (found.low, found.median, found.high) if day is not None]
    assert known == sorted(known)
    assert found.promise == found.high
    if found.low is None:
        assert found.median is None
    if found.median is None:
        assert found.high is None


@given(st.lists(st.integers(-1, 700), min_size=1, max_size=100), st.integers(0, 700))
def test_a_chance_is_the_share_of_courses_that_are_ready(days: list[int], by: int) -> None:
    """Counted by hand; it only grows with time."""
    found = chance_ready_by(np.array(days), start=START, by=START + timedelta(days=by))
    assert found == pytest.approx(sum(0 <= day <= by for day in days) / len(days))
    assert chance_ready_by(np.array(days), start=START, by=START + timedelta(days=by + 50)) >= found


def days_with(ready_now: int = 0, summer: int = 0, spring: int = 0, never: int = 0) -> np.ndarray:
    """So many courses of each kind; the stack began on 1 March and today is day 30."""
    return np.array([30] * ready_now + [120] * summer + [420] * spring + [-1] * never)


@pytest.mark.parametrize(
    ("days", "verdict"),
    [
        (days_with(ready_now=95, summer=5), "ready"),
        (days_with(ready_now=60, summer=40), "likely_ready"),
        (days_with(summer=95, spring=5), "date"),
        (days_with(summer=80, spring=20), "perhaps_spring"),
        (days_with(summer=30, spring=70), "next_spring"),
        (days_with(summer=30, never=70), "not_in_sight"),
    ],
)
def test_the_verdict_says_what_the_courses_say(days: np.ndarray, verdict: str) -> None:
    """More than one course in ten past the autumn is not hidden behind a day."""
    found = ready_date(days, start=START, now=START + timedelta(days=30), target=0.2)
    assert found.verdict == verdict


def test_a_day_in_winter_is_said_as_spring() -> None:
    """Wood hardly dries then: a crossing in February is an artefact of the model."""
    winter = np.full(100, (date(2027, 2, 10) - START).days)
    assert ready_date(winter, start=START, now=START, target=0.2).said_as_spring == ("low", "median", "high")
    june = np.full(100, (date(2026, 6, 10) - START).days)
    assert ready_date(june, start=START, now=START, target=0.2).said_as_spring == ()


def test_the_autumn_is_the_next_one() -> None:
    """In November it is next year's."""
    found = ready_date(np.array([300]), start=START, now=date(2026, 11, 1), target=0.2)
    assert found.autumn == date(2027, 10, 15)


def test_no_courses_are_refused() -> None:
    """An empty forecast is an error, not a certainty."""
    with pytest.raises(OutOfRange, match="crossing_days"):
        ready_date(np.array([]), start=START, now=START, target=0.2)


def test_an_open_stack_goes_under_cover_when_it_is_driest() -> None:
    """The turn of a course that falls till mid-September and rises after."""
    at = np.arange(0, 400)
    turn = (date(2026, 9, 14) - START).days
    median = 0.2 + 0.0005 * np.abs(at - turn)
    assert cover_by(at, median, start=START, now=date(2026, 6, 1)) == date(2026, 9, 14)


def test_a_stack_that_gets_wetter_already_goes_under_cover_today() -> None:
    """In October every day counts."""
    at = np.arange(0, 400)
    now = date(2026, 10, 10)
    assert cover_by(at, 0.2 + 0.0005 * at, start=START, now=now) == now


def test_a_stack_that_dries_to_the_end_of_the_forecast_needs_no_day() -> None:
    """Nothing is made up."""
    at = np.arange(0, 400)
    assert cover_by(at, 0.4 - 0.0005 * at, start=START, now=START) is None
