"""Hot water and night set-back: tables, profiles, limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.house import hot_water as hw
from woodreeve.house.intermittent import free_cooling, gain_utilisation, night_saving


@pytest.mark.parametrize(("profile", "kwh"), [("S", 2.1), ("M", 5.845), ("L", 11.655), ("XL", 19.07)])
def test_the_draws_of_a_tapping_profile_add_up_to_its_printed_day(profile: str, kwh: float) -> None:
    """A check sum over draws taken from memory (M was read, the others' totals are from memory too)."""
    day = hw.tapping_profile(profile)  # type: ignore[arg-type]  # from a list
    assert day.total_kwh == pytest.approx(kwh, abs=5e-4)
    assert (np.diff(day.clock_h) > 0.0).all()
    assert hw.tapping_day(profile).sum() == pytest.approx(1.0)  # type: ignore[arg-type]  # from a list


def test_an_unknown_profile_is_told_with_the_known() -> None:
    """S, M, L, XL."""
    with pytest.raises(UnknownName):
        hw.tapping_profile("XXL")  # type: ignore[arg-type]  # the fault under test


@given(st.floats(0.0, 2000.0), st.floats(0.0, 300.0))
def test_a_larger_house_never_has_fewer_people(area: float, more: float) -> None:
    """Monotone, and at least one."""
    assert 1.0 <= hw.assumed_occupants(area) <= hw.assumed_occupants(area + more) + 1e-12


def test_winter_water_takes_more_heat_than_summer_water() -> None:
    """More is drawn, and it comes in colder."""
    year = hw.hot_water_year(120.0)
    assert year.drawn_kwh[0] > 1.5 * year.drawn_kwh[6]
    assert sum(year.total_kwh) == pytest.approx(year.year_kwh)
    assert year.pipes_year_kwh == pytest.approx(0.15 * year.drawn_year_kwh)


def test_the_rule_for_four_people_is_near_the_measured_mean() -> None:
    """122 litres a day in about 120 British homes; the rule gives 111 for three and 136 for four."""
    assert hw.hot_water_litres(3.0) < hw.MEASURED_MEAN_LITRES_DAY < hw.hot_water_litres(4.0)


def test_water_and_heat_invert() -> None:
    """There and back."""
    assert hw.water_heat(hw.water_of_heat(5.0, 40.0), 40.0) == pytest.approx(5.0)


@given(st.floats(50.0, 1000.0), st.floats(0.0, 250.0))
def test_more_foam_never_loses_more(volume: float, foam: float) -> None:
    """Monotone."""
    assert hw.cylinder_loss(volume, foam + 10.0) < hw.cylinder_loss(volume, foam)


@given(st.floats(0.0, 50.0), st.floats(1.0, 200.0))
def test_gains_are_of_use_between_not_at_all_and_fully(ratio: float, hours: float) -> None:
    """And the less the more of them there are."""
    share = gain_utilisation(ratio, hours)
    assert 0.0 <= share <= 1.0
    assert gain_utilisation(ratio + 0.5, hours) <= share + 1e-9


def test_the_utilisation_passes_smoothly_through_a_ratio_of_one() -> None:
    """The limit is a/(a+1)."""
    assert gain_utilisation(1.0, 30.0) == pytest.approx(0.75)
    assert gain_utilisation(1.0 + 1e-6, 30.0) == pytest.approx(0.75, abs=1e-5)
    assert gain_utilisation(1.0 - 1e-6, 30.0) == pytest.approx(0.75, abs=1e-5)


def test_a_boiler_that_cannot_hold_the_house_is_refused() -> None:
    """With the power it would need."""
    with pytest.raises(OutOfRange, match="more than 9"):
        night_saving(20.0, -10.0, 8.0, 8.0, 300.0, 45.0)
    with pytest.raises(OutOfRange, match="within the day"):
        night_saving(20.0, -10.0, 20.0, 9.2, 300.0, 45.0)


@given(st.floats(0.0, 500.0))
def test_cooling_goes_towards_the_weather_and_not_past_it(hours: float) -> None:
    """Exponential."""
    assert 0.0 <= free_cooling(20.0, 0.0, hours, 300.0, 45.0) <= 20.0
