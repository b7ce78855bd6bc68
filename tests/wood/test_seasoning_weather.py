"""The weather as a stack feels it."""

from dataclasses import replace
from datetime import UTC, date, datetime

import numpy as np
import pytest

from woodreeve.errors import OutOfRange, Unknown, UnknownName
from woodreeve.weather.series import Hourly
from woodreeve.wood.seasoning_weather import (
    TYPICAL_RAIN_MM,
    DryingWeather,
    drying_power,
    drying_weather,
    trial_climate,
    weather_from_months,
)

MONTHS = [float(k) for k in range(1, 13)]


def hourly(days: int = 60, *, rain: bool = True, humidity: bool = True) -> Hourly:
    """Some days of March at one place."""
    hours = 24 * days
    return Hourly(
        start=datetime(2025, 3, 1, tzinfo=UTC),
        temperature_c=np.tile(np.linspace(0.0, 23.0, 24), days),
        relative_humidity=np.full(hours, 0.8) if humidity else None,
        rain_mm=np.full(hours, 0.1) if rain else None,
        source="made up",
    )


def test_warm_dry_air_is_thirstier_than_cold_damp_air() -> None:
    """Power grows with warmth and falls with humidity."""
    power = drying_power(np.array([5.0, 15.0, 15.0]), np.array([0.7, 0.7, 0.5]))
    assert power[0] < power[1] < power[2]


def test_saturated_air_still_has_a_power_above_nought() -> None:
    """So that a rate never vanishes altogether."""
    assert drying_power(np.array([-30.0]), np.array([1.0]))[0] == 0.005


def test_hours_fold_to_days_with_rain_as_a_monthly_rate() -> None:
    """2.4 mm a day is 73 mm a month."""
    days = drying_weather(hourly(), measured=True)
    assert (days.start, days.days, days.known_days) == (date(2025, 3, 1), 60, 60)
    np.testing.assert_allclose(days.air_c, 11.5)
    np.testing.assert_allclose(days.rain_mm_month, 2.4 * 365 / 12)


def test_a_day_of_rain_counts_for_a_fortnight_before_and_after() -> None:
    """A stack does not feel one shower apart from the next: 31 days go into each mean."""
    weather = hourly(days=90)
    rain = np.zeros(90 * 24)
    rain[45 * 24 : 46 * 24] = 1.0
    felt = drying_weather(replace(weather, rain_mm=rain), measured=True).rain_mm_month
    assert np.nonzero(felt)[0].tolist() == list(range(30, 61))
    assert felt[45] == pytest.approx(24.0 / 31 * 365 / 12)


def test_without_rain_a_middling_month_is_taken_and_said_so() -> None:
    """The owner can be told."""
    days = drying_weather(hourly(rain=False), measured=False)
    assert not days.rain_known
    assert (days.rain_mm_month == TYPICAL_RAIN_MM).all()


def test_without_humidity_nothing_can_be_said() -> None:
    """An error, not a guess."""
    with pytest.raises(Unknown, match="relative_humidity"):
        drying_weather(hourly(humidity=False), measured=True)


def test_measured_weather_is_followed_by_a_typical_course() -> None:
    """The join is on the day the measured one ends, and only that part counts as known."""
    measured = drying_weather(hourly(), measured=True)
    typical = trial_climate("south England", start=date(2025, 1, 1), days=700)
    joined = measured.followed_by(typical)
    assert (joined.days, joined.known_days) == (60 + (typical.end - measured.end).days, 60)
    assert joined.air_c[60] == typical.air_c[(measured.end - typical.start).days]


def test_a_span_keeps_count_of_its_known_days() -> None:
    """Known days before the span do not count."""
    measured = drying_weather(hourly(), measured=True)
    assert measured.span(date(2025, 3, 11), 30).known_days == 30
    with pytest.raises(Unknown, match="reaches from"):
        measured.span(date(2025, 2, 1), 30)


def test_month_means_fall_on_mid_month_and_wrap_at_new_year() -> None:
    """15 January has January's mean; New Year lies between December's and January's."""
    days = weather_from_months(MONTHS, [0.8] * 12, None, start=date(2025, 1, 1), days=365)
    assert days.air_c[15] == pytest.approx(1.0 + 0.5 / 30.0)
    assert 1.0 < days.air_c[0] < 12.0
    assert not days.rain_known


def test_eleven_months_are_refused() -> None:
    """A year has twelve."""
    with pytest.raises(OutOfRange, match="12 values"):
        weather_from_months(MONTHS[:11], [0.8] * 12, None, start=date(2025, 1, 1), days=3)


def test_series_of_different_length_are_refused() -> None:
    """All days have all values."""
    with pytest.raises(OutOfRange, match="relative_humidity"):
        DryingWeather(
            start=date(2025, 1, 1), air_c=np.ones(3), relative_humidity=np.ones(2), rain_mm_month=np.ones(3)
        )


def test_an_unknown_place_is_refused() -> None:
    """The known ones are offered."""
    with pytest.raises(UnknownName, match="Denmark"):
        trial_climate("Denmrk", start=date(2025, 1, 1), days=3)
