"""Following a stack: readings teach, odd ones are kept and hardly followed, dice are fair."""

import os
import subprocess
import sys
from datetime import date, timedelta

import numpy as np
import pytest

from woodreeve.errors import OutOfRange, Unknown
from woodreeve.learning.course import RatePrior, StackCourse
from woodreeve.learning.many import StackTask, follow_stacks
from woodreeve.learning.stack import follow_stack
from woodreeve.wood.seasoning import drying_course
from woodreeve.wood.seasoning_readings import ReadingKind, StackReading
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import DryingWeather, trial_climate

START = date(2025, 3, 1)
NOW = date(2025, 7, 1)
WEATHER = trial_climate("Straubing", start=START, days=730)


def stack(**given: object) -> DryingStack:
    """Split beech under a roof."""
    told = {
        "name": "gable",
        "wood": "beech",
        "start": START,
        "covers": (CoverSpell(since=START, cover="roof"),),
        "start_moisture": 0.45,
    }
    return DryingStack(**{**told, **given})  # type: ignore[arg-type]  # fields are checked by their own types


def reading(day: int, moisture: float, sd: float = 0.02, kind: ReadingKind = "value") -> StackReading:
    """A reading so many days after the start."""
    return StackReading(taken=START + timedelta(days=day), kind=kind, moisture=moisture, sd=sd, how="meter")


def follow(*readings: StackReading, now: date = NOW, copies: int = 500, **given: object) -> StackCourse:
    """Follow the beech."""
    return follow_stack(stack(**given), WEATHER, readings, now=now, copies=copies)


def width(course: StackCourse) -> float:
    """Width of today's range."""
    return course.high_now - course.low_now


def test_without_readings_the_median_is_the_expected_course() -> None:
    """To within a point, all along."""
    expected = drying_course(stack(), WEATHER)
    assert np.abs(follow(copies=4000).median - expected).max() < 0.01


def test_each_reading_narrows_the_range() -> None:
    """Of the same stack on the same day."""
    none, one, two = follow(), follow(reading(100, 0.22)), follow(reading(100, 0.22), reading(120, 0.205))
    assert width(two) < width(one) < width(none)


def test_a_wetter_reading_makes_the_stack_slower_and_later() -> None:
    """Its log rate falls, and it is ready later."""
    then = START + timedelta(days=92)
    dry, wet = follow(reading(90, 0.21), now=then), follow(reading(90, 0.27), now=then)
    assert wet.log_rate < dry.log_rate
    assert wet.moisture_now > dry.moisture_now
    assert np.median(wet.crossing_days[0]) > np.median(dry.crossing_days[0])


def test_learning_agrees_with_the_exact_answer_where_there_is_one() -> None:
    """A stack that cannot dry, known to 3 points and read with 2: the normal posterior (textbook).

    The share of odd readings is what the small difference is.
    """
    still = DryingWeather(
        start=START,
        air_c=np.full(60, -40.0),
        relative_humidity=np.full(60, 0.95),
        rain_mm_month=np.zeros(60),
        known_days=60,
    )
    course = follow_stack(
        stack(thickness_mm=800.0, length_mm=12000.0),
        still,
        (reading(10, 0.42),),
        now=START + timedelta(days=10),
        copies=20_000,
    )
    precision = 1 / 0.03**2 + 1 / 0.02**2
    mean = (0.45 / 0.03**2 + 0.42 / 0.02**2) / precision
    assert course.moisture_now == pytest.approx(mean, abs=0.002)
    assert width(course) == pytest.approx(2 * 1.2816 * precision**-0.5, rel=0.05)


def test_five_hundred_copies_are_enough() -> None:
    """They agree with forty times as many within half a point, readings and all."""
    seen = (reading(70, 0.30), reading(100, 0.24))
    few, many = follow(*seen), follow(*seen, copies=20_000)
    for name in ("low_now", "moisture_now", "high_now"):
        assert getattr(few, name) == pytest.approx(getattr(many, name), abs=0.006), name


def test_the_range_holds_as_often_as_it_says() -> None:
    """On made-up stacks of which all is known: start, rate and reading errors as assumed."""
    dice = np.random.default_rng(7)
    held = 0
    trials = 150
    measured = DryingWeather(
        start=START,
        air_c=WEATHER.air_c,
        relative_humidity=WEATHER.relative_humidity,
        rain_mm_month=WEATHER.rain_mm_month,
        known_days=WEATHER.days,
    )
    for number in range(trials):
        truth = drying_course(
            stack(start_moisture=float(np.clip(0.45 + 0.03 * dice.standard_normal(), 0.1, 0.65))),
            measured,
            log_rate=0.45 * float(dice.standard_normal()),
        )
        seen = reading(60, float(truth[60] + 0.02 * dice.standard_normal()))
        course = follow_stack(
            stack(name=f"made up {number}"),
            measured,
            (seen,),
            now=NOW,
            prior=RatePrior(sd=0.45),
            copies=300,
            every_days=30,
        )
        held += course.low_now <= truth[(NOW - START).days] <= course.high_now
    assert 0.70 <= held / trials <= 0.92


def test_a_reading_far_off_is_kept_flagged_and_hardly_followed() -> None:
    """Neither dropped nor absorbed."""
    plain = follow(reading(100, 0.20))
    odd = follow(reading(100, 0.20), reading(110, 0.42))
    assert len(odd.readings) == 2
    assert [seen.odd for seen in odd.readings] == [False, True]
    assert odd.odd_readings[0].sds_off > 3.0
    assert abs(odd.moisture_now - plain.moisture_now) < 0.015


def test_a_reading_far_too_dry_is_odd_as_well() -> None:
    """A bound, though, is odd only on its own side."""
    assert follow(reading(40, 0.12)).readings[0].odd
    assert not follow(reading(40, 0.23, kind="above")).readings[0].odd
    assert follow(reading(40, 0.12, kind="below")).readings[0].odd


def test_what_a_reading_taught_of_the_rate_fades_with_time() -> None:
    """A stack's pace may change: the spread of its log rate grows again."""
    seen = (reading(60, 0.27), reading(75, 0.24))
    soon, late = (follow(*seen, now=START + timedelta(days=days)) for days in (76, 600))
    assert late.log_rate_sd > 1.1 * soon.log_rate_sd


def test_wetter_than_the_meter_knows_moves_a_dry_forecast_up() -> None:
    """It weighs by the chance of being above, and says nothing to a wet stack."""
    expected, above = follow(), follow(reading(110, 0.23, kind="above"))
    assert above.moisture_now > expected.moisture_now + 0.01
    early = follow(reading(5, 0.23, kind="above"))
    assert early.moisture_now == pytest.approx(expected.moisture_now, abs=0.004)


def test_drier_than_a_bound_moves_it_down() -> None:
    """The other way round."""
    assert follow(reading(60, 0.22, kind="below")).moisture_now < follow().moisture_now


def test_a_value_counts_as_measured_only_close_to_a_recent_reading() -> None:
    """Not after a long time, not once it has dried on from there, not by an odd reading."""
    near = reading(115, follow().moisture_now + 0.005)
    assert follow(near).measured
    assert not follow().measured
    assert not follow(near, now=START + timedelta(days=200)).measured
    assert not follow(reading(70, 0.27)).measured
    assert not follow(reading(115, 0.45)).measured


def test_a_pooled_prior_moves_the_forecast_before_any_reading() -> None:
    """A windy place dries faster from the first year on."""
    windy = follow_stack(stack(), WEATHER, now=NOW, prior=RatePrior(mean=0.4, sd=0.2, stacks=6))
    assert windy.moisture_now < follow().moisture_now
    assert width(windy) < width(follow())


def test_measured_weather_makes_a_narrower_range_than_a_typical_year() -> None:
    """What has happened is not uncertain."""
    happened = DryingWeather(
        start=START,
        air_c=WEATHER.air_c,
        relative_humidity=WEATHER.relative_humidity,
        rain_mm_month=WEATHER.rain_mm_month,
        known_days=WEATHER.days,
    )
    sure = RatePrior(sd=0.05)
    known = follow_stack(stack(start_moisture_sd=0.001), happened, now=NOW, prior=sure)
    typical = follow_stack(stack(start_moisture_sd=0.001), WEATHER, now=NOW, prior=sure)
    assert width(known) < 0.9 * width(typical)


def test_ready_days_begin_two_weeks_at_or_below_the_target() -> None:
    """Where the course crosses once, the median day is where the median crosses."""
    course = follow_stack(stack(), WEATHER, now=START, targets=(0.25, 0.20), copies=4000)
    for column, target in enumerate(course.targets):
        crossed = int(np.nonzero(course.median <= target)[0][0])
        days = course.crossing_days[column]
        assert np.median(days[days >= 0]) == pytest.approx(crossed, abs=4)


def test_readings_after_today_are_not_looked_at() -> None:
    """An answer for a moment knows nothing of what came later."""
    later = follow(reading(300, 0.30))
    assert not later.readings
    assert later.moisture_now == follow().moisture_now


def test_the_order_of_readings_does_not_matter() -> None:
    """They may come in from the phone in any order."""
    one, two = reading(60, 0.30), reading(100, 0.22)
    assert follow(one, two).moisture_now == follow(two, one).moisture_now


def test_a_reading_before_the_stack_stood_is_refused() -> None:
    """It is of other wood."""
    with pytest.raises(OutOfRange, match="on or after 2025-03-01"):
        follow(reading(-5, 0.4))


def test_a_day_outside_the_weather_is_refused() -> None:
    """The error names the stack and the span."""
    with pytest.raises(Unknown, match="gable"):
        follow(now=date(2030, 1, 1))


def tasks(count: int) -> list[StackTask]:
    """Some stacks."""
    return [
        StackTask(
            stack=stack(name=f"stack {k}", thickness_mm=80.0 + k),
            weather=WEATHER,
            readings=(reading(70, 0.3),),
        )
        for k in range(count)
    ]


def test_a_stack_does_not_depend_on_its_neighbours_or_the_number_of_threads() -> None:
    """To the bit."""
    together = follow_stacks(tasks(9), now=NOW, copies=100, threads=3)
    alone = follow_stacks(tasks(9)[4:5], now=NOW, copies=100, threads=1)
    np.testing.assert_array_equal(together[4].median, alone[0].median)
    np.testing.assert_array_equal(together[4].crossing_days[0], alone[0].crossing_days[0])


def test_many_stacks_tell_their_progress_and_stop_when_told() -> None:
    """The share done grows to one; a "no" ends the work."""
    told: list[float] = []
    follow_stacks(tasks(20), now=NOW, copies=50, progress=told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0
    stopped = follow_stacks(tasks(20), now=NOW, copies=50, progress=lambda share: False)
    assert 0 < len(stopped) < 20


def small_case() -> list[float]:
    """The results of a small case."""
    course = follow(reading(20, 0.40), now=date(2025, 4, 1), copies=40)
    now = [course.moisture_now, course.low_now, course.high_now, course.log_rate]
    return [*now, float(course.median.sum())]


UNCOMPILED = "from tests.learning.test_stack import small_case; print(small_case())"


@pytest.mark.slow
def test_the_compiled_kernel_does_what_its_text_says() -> None:
    """Run once more by the plain interpreter on a small case: the same to twelve digits."""
    ran = subprocess.run(
        [sys.executable, "-c", UNCOMPILED],
        env={**os.environ, "NUMBA_DISABLE_JIT": "1"},
        capture_output=True,
        text=True,
        check=True,
    )
    plain = [float(part) for part in ran.stdout.strip().strip("[]").split(",")]
    assert plain == pytest.approx(small_case(), rel=1e-12)
