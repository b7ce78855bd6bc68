"""The weather ahead: forecast while it covers, fading after, honest about its error."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from functools import lru_cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange, UnknownName, WrongKind
from woodreeve.weather.cases import forecast_from_truth, weather_case, weather_paths
from woodreeve.weather.forecast import Forecast, faded_departure, forecast_error, weather_ahead
from woodreeve.weather.series import Hourly
from woodreeve.weather.typical import Normals, typical_year
from woodreeve.weather.usual import usual_course

NOW = datetime(2026, 1, 13, 17, 20, tzinfo=UTC)
FIRST = datetime(2026, 1, 13, 17, tzinfo=UTC)


@lru_cache(maxsize=1)
def usual() -> Hourly:
    """A typical year in the hills of Wales."""
    return typical_year(
        Normals(
            temperature_c=(3.1, 3.2, 4.8, 6.9, 9.9, 12.6, 14.4, 14.2, 12.1, 9.0, 5.8, 3.6),
            wind_m_s=(4.8, 4.6, 4.4, 3.9, 3.7, 3.4, 3.3, 3.3, 3.6, 4.1, 4.3, 4.6),
            latitude_deg=52.4,
            longitude_deg=-3.5,
            source="invented",
        )
    )


def forecast(hours: int = 60, colder_k: float = 6.0, begun: datetime = FIRST, age_h: float = 2.0) -> Forecast:
    """Colder than usual by the same at every hour."""
    course = usual_course(usual(), begun, hours)
    return Forecast(
        source="met_norway",
        fetched=begun,
        issued=begun - timedelta(hours=age_h),
        hourly=Hourly(start=begun, temperature_c=course.temperature_c - colder_k),
        attribution="thanks",
    )


def test_the_usual_course_has_the_months_mean_and_no_cold_spell() -> None:
    """Mid-January of Wales, day and night, without the made-up weather of one year."""
    course = usual_course(usual(), datetime(2026, 1, 10, tzinfo=UTC), 240)
    assert course.temperature_c.mean() == pytest.approx(3.1, abs=0.3)
    assert course.day_means().std() < usual().day_means()[:31].std() / 4.0
    by_hour = course.by_day("temperature_c").mean(axis=0)
    assert 12 <= int(np.argmax(by_hour)) <= 16


def test_the_usual_course_goes_over_the_turn_of_the_year() -> None:
    """And over the end of February of a leap year."""
    turn = usual_course(usual(), datetime(2025, 12, 30, tzinfo=UTC), 24 * 5)
    assert np.abs(np.diff(turn.day_means())).max() < 0.5
    assert usual_course(usual(), datetime(2028, 12, 30, 23, tzinfo=UTC), 72).hours == 72


def test_local_clock_hours_are_kept() -> None:
    """A year kept in another standard time gives the same moment the same weather."""
    course = usual_course(usual(), FIRST, 3)
    again = usual_course(usual(), FIRST - timedelta(hours=2), 5)
    assert again.temperature_c[2:] == pytest.approx(course.temperature_c)


def test_a_forecast_is_taken_word_for_word_while_it_covers() -> None:
    """And told with its age and how far it reaches."""
    ahead = weather_ahead(usual(), NOW, 120, forecast=forecast(60))
    assert ahead.rests_on == "forecast"
    assert ahead.source == "met_norway"
    assert ahead.attribution == "thanks"
    assert ahead.covered_h == 60.0
    assert ahead.age_h == pytest.approx(2.0 + 20 / 60)
    assert ahead.central.start == FIRST
    assert np.array_equal(ahead.central.temperature_c[:60], forecast(60).hourly.temperature_c)


def test_after_its_last_hour_it_fades_into_the_usual() -> None:
    """Six degrees colder is 2.2 degrees colder three days later; the wind is the usual one."""
    ahead = weather_ahead(usual(), NOW, 240, forecast=forecast(60))
    course = usual_course(usual(), FIRST, 240)
    left = ahead.central.temperature_c - course.temperature_c
    assert left[59] == pytest.approx(-6.0)
    assert left[60:132:71] == pytest.approx(-6.0 * np.exp(-np.array([0.5, 71.5]) / 72.0))
    assert np.all(np.diff(left[60:]) > 0.0)
    assert ahead.central.field("wind_m_s") == pytest.approx(course.field("wind_m_s"))


def test_an_old_forecast_is_used_from_now_on_and_is_less_sure() -> None:
    """A phone that was last online the day before."""
    fresh = weather_ahead(usual(), NOW, 48, forecast=forecast(60))
    begun = FIRST - timedelta(hours=24)
    old = weather_ahead(usual(), NOW, 48, forecast=forecast(60, begun=begun))
    assert old.covered_h == 36.0
    assert old.age_h == pytest.approx(26.0 + 20 / 60)
    assert np.array_equal(old.central.temperature_c[:36], forecast(60, begun=begun).hourly.temperature_c[24:])
    assert np.all(old.error_k >= fresh.error_k)
    assert old.error_k[0] > fresh.error_k[0] + 0.3


def test_a_forecast_that_has_ended_gives_way_to_a_newer_reading() -> None:
    """And is still of some use where there is none."""
    ended = forecast(24, begun=FIRST - timedelta(hours=36))
    course = usual_course(usual(), FIRST, 24)
    alone = weather_ahead(usual(), NOW, 24, forecast=ended)
    assert (alone.rests_on, alone.covered_h) == ("forecast", 0.0)
    assert alone.central.temperature_c[0] - course.temperature_c[0] == pytest.approx(
        -6.0 * np.exp(-12.5 / 72.0)
    )
    both = weather_ahead(usual(), NOW, 24, forecast=ended, read_at=NOW, read_c=course.temperature_c[0] + 2.0)
    assert both.rests_on == "reading"
    assert both.central.temperature_c[0] > course.temperature_c[0] + 1.5


def test_a_forecast_of_a_later_time_is_not_used() -> None:
    """A replay must not peek."""
    later = forecast(60, begun=FIRST + timedelta(hours=5))
    assert weather_ahead(usual(), NOW, 24, forecast=later).rests_on == "usual"


def test_without_a_forecast_the_last_reading_is_carried_on() -> None:
    """0.67 of its departure is left after a day, and the doubt grows to that of the climate."""
    course = usual_course(usual(), FIRST, 240)
    ahead = weather_ahead(usual(), FIRST, 240, read_at=FIRST, read_c=course.temperature_c[0] - 8.0)
    left = ahead.central.temperature_c - course.temperature_c
    assert (ahead.rests_on, ahead.age_h) == ("reading", 0.0)
    assert left[24] / left[0] == pytest.approx(0.67)
    assert ahead.error_k[0] < 1.0
    assert ahead.error_k[-1] == pytest.approx(3.0, abs=0.01)
    assert np.all(np.diff(ahead.error_k) > 0.0)


def test_with_nothing_known_the_usual_is_told_as_such() -> None:
    """With the full spread of the climate."""
    ahead = weather_ahead(usual(), NOW, 24, climate_sd_k=2.5)
    assert (ahead.rests_on, ahead.age_h, ahead.covered_h) == ("usual", None, 0.0)
    assert np.all(ahead.error_k == 2.5)
    assert "invented" in ahead.source


def test_a_reading_from_later_is_not_used() -> None:
    """Nor one without its moment."""
    late = weather_ahead(usual(), NOW, 24, read_at=NOW + timedelta(hours=1), read_c=-5.0)
    assert late.rests_on == "usual"
    assert weather_ahead(usual(), NOW, 24, read_c=-5.0).rests_on == "usual"


def test_moments_must_know_their_offset() -> None:
    """A naive time is a wrong time somewhere."""
    with pytest.raises(WrongKind, match="moment is"):
        weather_ahead(usual(), datetime(2026, 1, 13), 24)  # noqa: DTZ001 - the fault under test
    with pytest.raises(WrongKind, match="read_at is"):
        weather_ahead(usual(), NOW, 24, read_at=datetime(2026, 1, 13), read_c=1.0)  # noqa: DTZ001 - as above


def test_less_than_a_year_is_no_usual_weather() -> None:
    """Told in one sentence."""
    short = Hourly(start=FIRST, temperature_c=np.zeros(100))
    with pytest.raises(OutOfRange, match="a whole year"):
        weather_ahead(short, NOW, 24)


@settings(max_examples=25, deadline=None)
@given(
    hours=st.integers(13, 200),
    late_h=st.integers(0, 300),
    ahead_h=st.integers(1, 240),
    colder=st.floats(-15.0, 15.0),
    sd=st.floats(0.5, 6.0),
)
def test_whatever_is_known_the_outlook_is_whole_and_no_surer_than_it_may_be(
    hours: int, late_h: int, ahead_h: int, colder: float, sd: float
) -> None:
    """No hour is missing, no error above the climate's, and nothing is colder than the forecast's coldest."""
    begun = FIRST - timedelta(hours=late_h)
    known = forecast(hours, colder, begun)
    ahead = weather_ahead(usual(), NOW, ahead_h, forecast=known, climate_sd_k=sd)
    assert ahead.central.hours == ahead.error_k.size == ahead_h
    assert np.all(ahead.error_k > 0.0)
    assert np.all(ahead.error_k <= sd)
    course = usual_course(usual(), FIRST, ahead_h).temperature_c
    assert np.all(np.abs(ahead.central.temperature_c - course) <= abs(colder) + 1e-9)


def test_the_error_grows_with_lead_up_to_the_climates() -> None:
    """Day 1 and day 5 as told; never more than knowing nothing."""
    assert forecast_error(np.array([24.0, 120.0]), 4.0) == pytest.approx([1.25, 3.0])
    assert forecast_error(np.array([0.0, 24.0, 500.0]), 1.0) == pytest.approx([0.8125, 1.0, 1.0])


def test_a_departure_halves_in_about_two_days() -> None:
    """Three days times ln 2."""
    assert faded_departure(10.0, np.array([0.0, 72.0 * np.log(2.0)])) == pytest.approx([10.0, 5.0])


def test_cold_and_mild_cases_stand_on_both_sides_and_part_with_lead() -> None:
    """One in ten on either side."""
    ahead = weather_ahead(usual(), NOW, 120, forecast=forecast(120))
    cold, central, mild = (weather_case(ahead, case) for case in ("cold", "central", "mild"))
    assert np.array_equal(central.temperature_c, ahead.central.temperature_c)
    gap = mild.temperature_c - cold.temperature_c
    assert gap == pytest.approx(2.0 * 1.2816 * ahead.error_k, abs=1e-3)
    assert np.all(np.diff(gap) >= -1e-9)
    with pytest.raises(UnknownName, match="not a known case: known are central, cold, mild"):
        weather_case(ahead, "awful")  # type: ignore[arg-type]  # the fault under test


def test_one_in_ten_of_the_paths_is_under_the_cold_case() -> None:
    """Hour by hour; and the paths hang together from day to day as told."""
    ahead = weather_ahead(usual(), NOW, 96, forecast=forecast(96))
    paths = weather_paths(ahead, 2000, seed=3)
    assert paths.shape == (2000, 96)
    under = (paths < weather_case(ahead, "cold").temperature_c).mean(axis=0)
    assert np.all(np.abs(under - 0.1) < 0.03)
    noise = (paths - ahead.central.temperature_c) / ahead.error_k
    assert np.corrcoef(noise[:, 20], noise[:, 44])[0, 1] == pytest.approx(0.67, abs=0.05)


def test_the_dice_fall_alike_for_the_same_seed() -> None:
    """Also when more paths are thrown; and otherwise for another."""
    ahead = weather_ahead(usual(), NOW, 48)
    assert np.array_equal(weather_paths(ahead, 3, seed=5), weather_paths(ahead, 9, seed=5)[:3])
    assert not np.array_equal(weather_paths(ahead, 3, seed=5), weather_paths(ahead, 3, seed=6))


def test_made_forecasts_err_as_much_as_told_and_come_nearer_in_time() -> None:
    """For studies: twice a day over a winter, scored at 24 and 96 hours."""
    truth = usual()
    starts = [truth.start + timedelta(hours=12 * n) for n in range(120)]
    made = [forecast_from_truth(truth, at, 120, seed=1, issue=n) for n, at in enumerate(starts)]
    errors = np.array(
        [one.hourly.temperature_c - truth.temperature_c[12 * n : 12 * n + 120] for n, one in enumerate(made)]
    )
    assert errors[:, 24].std() == pytest.approx(1.25, rel=0.3)
    assert errors[:, 96].std() == pytest.approx(2.56, rel=0.3)
    steady = np.corrcoef(errors[:-1, 60], errors[1:, 48])[0, 1]
    assert 0.5 < steady < 0.9
    again = forecast_from_truth(truth, starts[3], 120, seed=1, issue=3)
    assert np.array_equal(again.hourly.temperature_c, made[3].hourly.temperature_c)
    with pytest.raises(OutOfRange, match="within the weather given"):
        forecast_from_truth(truth, FIRST, 24)
