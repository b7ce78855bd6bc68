"""Degree days: what must hold for any weather."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from woodreeve.errors import OutOfRange
from woodreeve.weather import degree_days as dd
from woodreeve.weather import from_means as fm
from woodreeve.weather.series import DAYS_IN_MONTH

HOURS = arrays(np.float64, 240, elements=st.floats(-30.0, 40.0))
BASES = st.floats(0.0, 29.0)
MEANS = arrays(np.float64, 12, elements=st.floats(-15.0, 30.0))
DAYS = np.array(DAYS_IN_MONTH, dtype=float)


@given(HOURS, BASES, st.floats(0.0, 1.0))
def test_are_never_negative_and_grow_with_the_base(hours: np.ndarray, base: float, more: float) -> None:
    """A warmer wish never needs fewer degree days, by any rule."""
    days = hours.reshape(-1, 24)
    rules = (
        lambda b: dd.degree_days_hourly(hours, b),
        lambda b: dd.degree_days_daily_mean(days.mean(axis=1), b),
        lambda b: dd.degree_days_max_min(days.max(axis=1), days.min(axis=1), b),
    )
    for rule in rules:
        low, high = rule(base), rule(base + more)
        assert low >= 0.0
        assert high >= low - 1e-9
        assert high <= low + more * 10 + 1e-9


@given(HOURS, BASES)
def test_hours_never_give_less_than_day_means(hours: np.ndarray, base: float) -> None:
    """Cold hours of a mild day count, mild hours of a cold day give nothing back."""
    by_mean = dd.degree_days_daily_mean(hours.reshape(-1, 24).mean(axis=1), base)
    assert dd.degree_days_hourly(hours, base) >= by_mean - 1e-9


@given(HOURS)
def test_the_three_limited_sums_are_never_negative(hours: np.ndarray) -> None:
    """German, alpine and European sums count whole days or none."""
    days = hours.reshape(-1, 24).mean(axis=1)
    for rule in (dd.degree_days_german, dd.degree_days_alpine, dd.degree_days_eurostat):
        assert rule(days) >= 0.0
    assert (
        dd.degree_days_german(days) >= dd.degree_days_alpine(days) - 1e-9 - 20 * np.isin(days, [12.0]).sum()
    )


def test_limits_are_where_each_rule_has_them() -> None:
    """15 °C counts in Europe, not in Germany; 12 °C counts in the Alps."""
    assert dd.degree_days_eurostat(np.array([15.0])) == 3.0
    assert dd.degree_days_german(np.array([15.0])) == 0.0
    assert dd.degree_days_alpine(np.array([12.0, 12.1])) == 8.0


def test_the_max_min_cases_meet_where_the_mean_is_the_base() -> None:
    """The two middle cases give the same there."""
    at = dd.degree_days_max_min(np.array([20.0]), np.array([11.0]), 15.5)
    above = dd.degree_days_max_min(np.array([20.0001]), np.array([11.0]), 15.5)
    assert at == pytest.approx(above, abs=1e-3)


def test_a_day_with_its_highest_below_its_lowest_is_refused() -> None:
    """Columns in the wrong order are noticed."""
    with pytest.raises(OutOfRange, match="daily_max_c"):
        dd.degree_days_max_min(np.array([3.0]), np.array([8.0]))


def test_a_base_in_fahrenheit_is_refused() -> None:
    """60 is no base in degrees Celsius."""
    with pytest.raises(OutOfRange, match="base_c"):
        dd.degree_days_hourly(np.zeros(24), 60.0)


@settings(deadline=None)  # the first call loads scipy
@given(MEANS, st.floats(5.0, 25.0))
def test_estimates_from_means_are_never_below_the_bare_means(means: np.ndarray, base: float) -> None:
    """Whoever leaves the spread of days out comes out low."""
    bare = float((DAYS * np.maximum(0.0, base - means)).sum())
    hitchin = fm.degree_days_hitchin(means, DAYS, base)
    normal = fm.degree_days_normal(means, np.full(12, 3.0), DAYS, base)
    assert hitchin >= bare - 1e-6
    assert normal >= bare - 1e-6


@settings(deadline=None)  # the first call loads scipy
@given(MEANS, st.floats(5.0, 24.0))
def test_estimates_from_means_grow_with_the_base(means: np.ndarray, base: float) -> None:
    """All three."""
    spread = min(20.0, fm.spread_of_month_means(means))
    for rule in (
        lambda b: fm.degree_days_hitchin(means, DAYS, b),
        lambda b: fm.degree_days_normal(means, np.full(12, 2.5), DAYS, b),
        lambda b: fm.degree_days_erbs(means, DAYS, b, spread),
    ):
        assert 0.0 <= rule(base) <= rule(base + 1.0) + 1e-6
