"""The hourly series: its clock, its months, and what it refuses."""

from datetime import UTC, datetime

import numpy as np
import pytest

from woodreeve.errors import OutOfRange, Unknown, WrongKind
from woodreeve.weather.series import Hourly, start_of_year


def _year(offset: float = 0.0, hours: int = 8760, year: int = 2001) -> Hourly:
    return Hourly(
        start=start_of_year(year, offset), temperature_c=np.arange(hours) * 0.001, utc_offset_h=offset
    )


def test_months_are_those_of_local_standard_time() -> None:
    """A year that begins at local midnight has 744 hours in January, east of Greenwich too."""
    for offset in (0.0, 1.0, -5.0):
        months = _year(offset).month_numbers()
        assert np.bincount(months)[1:].tolist() == [
            744,
            672,
            744,
            720,
            744,
            720,
            744,
            744,
            720,
            744,
            720,
            744,
        ]


def test_days_and_hours_follow_the_clock() -> None:
    """The first hour is hour 0 of day 1, the last hour 23 of day 365."""
    year = _year(1.0)
    assert (year.hour_of_day()[0], year.hour_of_day()[-1]) == (0.0, 23.0)
    assert (year.day_of_year()[0], year.day_of_year()[-1]) == (1, 365)
    assert year.start == datetime(2000, 12, 31, 23, tzinfo=UTC)


def test_day_means_leave_out_a_broken_last_day() -> None:
    """50 hours are two days."""
    assert _year(hours=50).day_means().size == 2


def test_month_means_are_not_a_number_where_a_month_is_missing() -> None:
    """A week of January says nothing about July."""
    means = _year(hours=168).month_means()
    assert means[0] == pytest.approx(0.0835)
    assert np.isnan(means[6])


def test_month_sums_add_up_to_the_whole() -> None:
    """Nothing is lost between the months."""
    year = _year()
    assert year.month_sums("temperature_c").sum() == pytest.approx(year.temperature_c.sum())


def test_a_start_without_offset_is_refused() -> None:
    """Nobody knows which hour it means."""
    with pytest.raises(WrongKind, match="start"):
        Hourly(start=datetime(2001, 1, 1), temperature_c=np.zeros(24))  # noqa: DTZ001  # the fault under test


@pytest.mark.parametrize("bad", [99.9, -80.0, float("nan")])
def test_an_impossible_temperature_is_named_with_its_hour(bad: float) -> None:
    """A missing-value code that slipped through does not become weather."""
    values = np.zeros(48)
    values[30] = bad
    with pytest.raises(OutOfRange, match="hour 31"):
        Hourly(start=start_of_year(2001, 0.0), temperature_c=values)


def test_series_of_different_length_are_refused() -> None:
    """Wind for a day does not go with two days of temperature."""
    with pytest.raises(OutOfRange, match="wind_m_s"):
        Hourly(start=start_of_year(2001, 0.0), temperature_c=np.zeros(48), wind_m_s=np.zeros(24))


def test_a_series_that_is_not_there_is_said_so() -> None:
    """The message names series and source."""
    with pytest.raises(Unknown, match="rain_mm"):
        _year().field("rain_mm")
    with pytest.raises(Unknown, match="where it is"):
        _year().place()


def test_values_cannot_be_written_over() -> None:
    """A cached answer cannot be spoilt from outside."""
    with pytest.raises(ValueError, match="read-only"):
        _year().temperature_c[0] = 5.0
