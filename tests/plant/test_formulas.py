"""The plant's formulas against independent libraries, against each other, and at their limits."""

import math

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from iapws._iapws import _Liquid

from woodreeve.errors import OutOfRange, Unknown, UnknownName
from woodreeve.plant.boiler import (
    boiler_efficiency,
    flue_loss_share,
    flue_rise_for,
    tail_share,
    wet_fire_share,
)
from woodreeve.plant.hot_water import (
    TAPPING,
    coil_conductance,
    coil_effectiveness,
    tapping_heat,
    tapping_litres,
    tapping_powers,
)
from woodreeve.plant.layers import front_share, limited_half_step, step_at_rest
from woodreeve.plant.radiators import (
    curve_flow_temperature,
    curve_return_temperature,
    heating_curve,
    mixing_share,
    radiator_factor,
)
from woodreeve.plant.store import class_standing_loss, energy_class_of, insulation_loss
from woodreeve.plant.water import (
    heat_in_water,
    water_conductivity,
    water_density,
    water_enthalpy,
    water_heat_capacity,
    water_viscosity,
)
from woodreeve.wood.flue import flue_loss

TEMPERATURES = np.linspace(1.0, 109.0, 25)


@pytest.mark.parametrize("celsius", TEMPERATURES)
def test_water_agrees_with_two_other_libraries(celsius: float) -> None:
    """Each property beside iapws (same release) and CoolProp (another formulation)."""
    other = _Liquid(celsius + 273.15)
    assert water_density(celsius) == pytest.approx(other["rho"], rel=1e-10)
    assert water_heat_capacity(celsius) == pytest.approx(other["cp"], rel=1e-10)
    assert water_enthalpy(celsius) == pytest.approx(other["h"], abs=1e-8)
    assert water_viscosity(celsius) == pytest.approx(other["mu"] * 1000.0, rel=1e-10)
    assert water_conductivity(celsius) == pytest.approx(other["k"], rel=1e-10)
    kelvin, pressure = celsius + 273.15, 101325.0 if celsius < 99.0 else 160000.0
    assert water_density(celsius) == pytest.approx(
        PropsSI("D", "T", kelvin, "P", pressure, "Water"), rel=5e-5
    )
    heat = PropsSI("C", "T", kelvin, "P", pressure, "Water") / 1000.0
    assert water_heat_capacity(celsius) == pytest.approx(heat, rel=5e-4)


def test_enthalpy_is_the_sum_of_heat_capacity() -> None:
    """Two formulas of the release agree with each other."""
    grid = np.linspace(20.0, 90.0, 2001)
    summed = np.trapezoid([water_heat_capacity(float(t)) for t in grid], grid)
    assert summed == pytest.approx(water_enthalpy(90.0) - water_enthalpy(20.0), rel=1e-8)


@given(st.floats(100.0, 10000.0), st.floats(5.0, 60.0), st.floats(0.0, 45.0))
def test_heat_in_water_is_nothing_for_no_rise_and_grows_with_it(
    litres: float, cold: float, rise: float
) -> None:
    """Zero for no rise, and close to the round figure otherwise."""
    heat = heat_in_water(litres, cold, cold + rise)
    assert heat == pytest.approx(litres / 1000.0 * 1.163 * rise, rel=0.06, abs=1e-9)
    assert heat >= -1e-12


@pytest.mark.parametrize("moisture", [0.05, 0.18, 0.30, 0.50])
@pytest.mark.parametrize("flue", [90.0, 160.0, 280.0])
@pytest.mark.parametrize("air", [1.3, 1.6, 2.4])
def test_the_short_flue_loss_keeps_near_the_full_one(moisture: float, flue: float, air: float) -> None:
    """The form that fires step with, beside the gas counted by its parts."""
    assert flue_loss_share(flue, 20.0, moisture, air) == pytest.approx(
        flue_loss(flue, air, moisture), rel=0.06
    )


@given(st.floats(0.0, 0.6), st.floats(0.001, 0.05), st.floats(80.0, 300.0))
def test_wetter_wood_loses_more_through_the_flue(moisture: float, more: float, flue: float) -> None:
    """The loss rises with moisture, with flue temperature and with air."""
    base = flue_loss_share(flue, 20.0, moisture, 1.6)
    assert flue_loss_share(flue, 20.0, moisture + more, 1.6) > base
    assert flue_loss_share(flue + 10.0, 20.0, moisture, 1.6) > base
    assert flue_loss_share(flue, 20.0, moisture, 1.7) > base
    assert wet_fire_share(moisture + more) <= wet_fire_share(moisture)


@given(st.floats(0.6, 0.93), st.floats(0.0, 0.03))
def test_the_flue_rise_gives_the_efficiency_it_was_reckoned_from(efficiency: float, casing: float) -> None:
    """Turning the losses round and forward again gives the stated efficiency."""
    rise = flue_rise_for(efficiency, casing, 0.01)
    if rise > 0.0:
        assert boiler_efficiency(75.0 + rise, 0.18, casing, 0.01) == pytest.approx(efficiency, abs=1e-12)


@given(st.floats(0.01, 5.0), st.floats(0.01, 5.0))
def test_a_dying_fire_burns_the_same_in_two_steps_as_in_one(one: float, two: float) -> None:
    """The tail does not depend on how it is cut."""
    left = (1.0 - tail_share(one)) * (1.0 - tail_share(two))
    assert 1.0 - left == pytest.approx(tail_share(one + two), rel=1e-12)


@given(st.floats(10.0, 95.0), st.floats(5.0, 90.0), st.floats(5.0, 95.0))
def test_mixing_gives_the_wanted_temperature_where_it_can(hot: float, cold: float, wanted: float) -> None:
    """Between the two sides the mixture is as wanted; outside, the nearer side is given."""
    share = mixing_share(hot, cold, wanted)
    assert 0.0 <= share <= 1.0
    if cold + 1e-6 < wanted < hot:
        assert cold + share * (hot - cold) == pytest.approx(wanted, abs=1e-9)
    if hot <= cold:
        assert share == 0.0


@given(st.floats(-9.9, 19.0))
def test_the_curve_delivers_the_load_it_is_made_for(outdoor: float) -> None:
    """Flow and return of the curve make the radiators give just the house's load."""
    mean = 0.5 * (curve_flow_temperature(outdoor) + curve_return_temperature(outdoor)) - 20.0
    assert radiator_factor(mean) == pytest.approx((20.0 - outdoor) / 30.0, rel=1e-9)


@given(st.floats(-25.0, 25.0), st.floats(0.1, 10.0))
def test_a_heating_curve_falls_as_it_gets_warmer(outdoor: float, warmer: float) -> None:
    """From the cold end down to the mild end, and never beyond its limits."""
    cold, mild = heating_curve(outdoor, -10.0, 60.0), heating_curve(outdoor + warmer, -10.0, 60.0)
    assert 28.0 <= mild <= cold <= 90.0


@given(st.floats(20.0, 90.0), st.floats(20.0, 90.0), st.floats(20.0, 90.0))
def test_a_half_step_never_reaches_beyond_a_neighbour(below: float, here: float, above: float) -> None:
    """The face value lies between the layer and its neighbours, and is the layer's own at an extreme."""
    half = limited_half_step(below, here, above)
    low, high = min(below, here, above), max(below, here, above)
    assert low - 1e-9 <= here + half <= high + 1e-9
    assert low - 1e-9 <= here - half <= high + 1e-9
    if (here - below) * (above - here) <= 0.0:
        assert half == 0.0


@given(st.integers(1, 400), st.floats(0.0, 3.0))
def test_stirred_tanks_lose_their_front_in_order(tanks: int, drawn: float) -> None:
    """The share falls from 1 as water is drawn."""
    assert 0.0 <= front_share(tanks, drawn + 0.1) <= front_share(tanks, drawn) + 1e-9 <= 1.0 + 2e-9


def test_a_resting_step_is_even_about_its_middle() -> None:
    """As much above the mean on one side as below on the other."""
    assert step_at_rest(80.0, 40.0, 0.2, 10.0) + step_at_rest(80.0, 40.0, -0.2, 10.0) == pytest.approx(120.0)


@given(st.floats(50.0, 2000.0))
def test_energy_classes_stand_in_order(litres: float) -> None:
    """A better letter loses less, and each limit belongs to the next class."""
    losses = [class_standing_loss(litres, letter) for letter in ("A+", "A", "B", "C", "D", "E", "F")]
    assert losses == sorted(losses)
    assert energy_class_of(litres, losses[2]) == "C"
    assert energy_class_of(litres, losses[-1] + 1.0) == "G"


def test_class_g_has_no_figure() -> None:
    """The sentence says what to give instead."""
    with pytest.raises(Unknown, match="give loss_w_per_k"):
        class_standing_loss(1000.0, "G")


def test_more_insulation_loses_less() -> None:
    """Twice the thickness, clearly less than the whole but more than half."""
    thin, thick = insulation_loss(1500.0, 2.0, 10.0), insulation_loss(1500.0, 2.0, 20.0)
    assert 0.5 * thin < thick < 0.75 * thin


@given(st.floats(1.0, 30.0), st.floats(300.0, 3000.0))
def test_a_coil_gives_its_rating_at_its_rating(output: float, flow: float) -> None:
    """Conductance from the rating, and the rating from the conductance."""
    carried = flow / 3600.0 * 4.186 * 35.0
    given_back = coil_effectiveness(coil_conductance(output, flow), flow) * carried
    assert given_back == pytest.approx(min(output, 0.98 * carried), rel=1e-9)


@pytest.mark.parametrize("profile", sorted(TAPPING))
def test_minute_powers_hold_the_heat_of_a_profile(profile: str) -> None:
    """Each draw's heat is spread over minutes and none is lost."""
    powers = tapping_powers(profile)  # type: ignore[arg-type]  # parametrised over the names
    assert math.fsum(powers) / 60.0 / 1000.0 == pytest.approx(tapping_heat(profile), rel=1e-12)  # type: ignore[arg-type]
    assert powers.min() >= 0.0


def test_a_small_profile_has_no_stated_volume() -> None:
    """The regulation states mixed water from M up only."""
    with pytest.raises(UnknownName, match="known are L, M, XL, XXL"):
        tapping_litres("S")


def test_moisture_in_per_cent_is_caught() -> None:
    """Twenty where 0.20 is meant."""
    with pytest.raises(OutOfRange, match=r"give 20 % as 0\.2"):
        flue_loss_share(160.0, 20.0, 20.0)
