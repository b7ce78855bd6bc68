"""Expansion, steam and friction against independent libraries over random inputs."""

from __future__ import annotations

import math

import fluids
import iapws
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.plant.checks.expansion import (
    expansion_share,
    litres_when_hot,
    pressure_that_keeps_liquid,
    volume_ratio,
)
from woodreeve.plant.checks.pipes import (
    friction_factor,
    gravity_head,
    pipe_friction,
    pipe_reynolds,
    pipe_speed,
    pump_head,
    valve_loss,
)
from woodreeve.plant.checks.safety import evaporation_heat, steam_to_blow_off
from woodreeve.plant.water import water_density, water_viscosity

WATER = st.floats(min_value=1.0, max_value=109.0)


def coolprop_density(celsius: float) -> float:
    """Density at 3 bar, where water of 110 °C is liquid too, in kg/m3."""
    return float(PropsSI("D", "T", celsius + 273.15, "P", 3.0e5, "Water"))


@given(WATER, WATER)
def test_expansion_agrees_with_coolprop(first: float, second: float) -> None:
    """Within a hundredth of a per cent of the volume."""
    cold, hot = sorted((first, second))
    theirs = coolprop_density(cold) / coolprop_density(hot) - 1.0
    assert expansion_share(cold, hot) == pytest.approx(max(theirs, 0.0), abs=1.5e-4)


@given(WATER)
def test_volume_agrees_with_if97(celsius: float) -> None:
    """iapws, the industrial formulation, at 3 bar."""
    theirs = iapws.IAPWS97(T=celsius + 273.15, P=0.3).v * iapws.IAPWS97(T=273.16, P=0.3).rho
    assert volume_ratio(celsius) == pytest.approx(theirs, abs=2.5e-4)


@given(WATER, st.floats(min_value=0.0, max_value=0.6))
def test_antifreeze_only_adds(celsius: float, share: float) -> None:
    """The more of it, the more swelling."""
    assert litres_when_hot(1000.0, 10.0, celsius, share) >= litres_when_hot(1000.0, 10.0, celsius) - 1e-9


@given(st.floats(min_value=99.7, max_value=179.0))
def test_pressure_of_boiling_agrees_with_if97(celsius: float) -> None:
    """Over 1 bar."""
    theirs = iapws.IAPWS97(T=celsius + 273.15, x=0).P * 10.0 - 1.0
    assert pressure_that_keeps_liquid(celsius) == pytest.approx(theirs, abs=1e-5)


@given(st.floats(min_value=2.0, max_value=249.0))
def test_heat_of_evaporation_agrees_with_coolprop(celsius: float) -> None:
    """Clapeyron's equation with the saturated densities of the release, within 0.1 %."""
    kelvin = celsius + 273.15
    theirs = (
        PropsSI("H", "T", kelvin, "Q", 1, "Water") - PropsSI("H", "T", kelvin, "Q", 0, "Water")
    ) / 1000.0
    assert evaporation_heat(celsius) == pytest.approx(theirs, rel=1e-3)


@given(st.floats(min_value=5.0, max_value=200.0), st.floats(min_value=1.5, max_value=10.0))
def test_steam_takes_the_output_away(output: float, pressure: float) -> None:
    """Against IF97."""
    steam, water = (iapws.IAPWS97(P=pressure / 10.0, x=x).h for x in (1, 0))
    assert steam_to_blow_off(output, pressure) == pytest.approx(output * 3600.0 / (steam - water), rel=1e-3)


@given(
    st.floats(min_value=20.0, max_value=8000.0),
    st.floats(min_value=8.0, max_value=120.0),
    st.floats(min_value=5.0, max_value=95.0),
    st.sampled_from([0.0015, 0.01, 0.2, 2.0]),
)
def test_friction_agrees_with_the_fluids_library(
    flow: float, bore: float, celsius: float, roughness: float
) -> None:
    """Its own one-phase pressure drop of a metre, with water from CoolProp, laminar and turbulent."""
    density = float(PropsSI("D", "T", celsius + 273.15, "P", 1.01325e5, "Water"))
    viscosity = float(PropsSI("V", "T", celsius + 273.15, "P", 1.01325e5, "Water"))
    reynolds = 4.0 * flow / 3600.0 / (math.pi * bore / 1000.0 * viscosity)
    if abs(reynolds - 2040.0) < 40.0 or roughness / bore > 0.05:
        return  # on the edge between gliding and tumbling the two waters may fall on different sides
    theirs = fluids.one_phase_dP(
        flow / 3600.0, density, viscosity, bore / 1000.0, roughness / 1000.0, L=1.0, Method="Colebrook"
    )
    assert pipe_friction(flow, bore, celsius, roughness) == pytest.approx(theirs, rel=0.01)


@given(st.floats(min_value=4.0e3, max_value=1.0e7), st.floats(min_value=1e-6, max_value=0.05))
def test_the_short_form_of_friction_keeps_near_the_long_one(reynolds: float, ratio: float) -> None:
    """Haaland within 2 % of Colebrook in its range."""
    long, short = (friction_factor(reynolds, ratio, method) for method in ("colebrook", "haaland"))
    assert short == pytest.approx(long, rel=0.025)


@given(st.floats(min_value=50.0, max_value=5000.0), st.floats(min_value=10.0, max_value=100.0), WATER)
def test_speed_carries_the_flow(flow: float, bore: float, celsius: float) -> None:
    """Speed, density and area give the flow back, and so does Reynolds' number."""
    area = math.pi * (bore / 2000.0) ** 2
    speed = pipe_speed(flow, bore, celsius)
    assert speed * area * water_density(celsius) * 3600.0 == pytest.approx(flow)
    theirs = fluids.Reynolds(speed, bore / 1000.0, water_density(celsius), water_viscosity(celsius) / 1000.0)
    assert pipe_reynolds(flow, bore, celsius) == pytest.approx(theirs)


@given(st.floats(min_value=0.1, max_value=20.0), WATER, WATER)
def test_gravity_helps_only_hot_water_up(height: float, flow: float, back: float) -> None:
    """Against CoolProp at 3 bar; a cold flow falls."""
    theirs = 9.80665 * height * (coolprop_density(back) - coolprop_density(flow))
    assert gravity_head(height, flow, back) == pytest.approx(theirs, abs=0.02 * height * 9.81)


def test_a_valve_takes_a_bar_at_its_kvs_and_a_bar_is_ten_metres() -> None:
    """By definition."""
    assert valve_loss(4.0, 4.0) == 100.0
    assert pump_head(100.0, 4.0) == pytest.approx(10.197, abs=0.01)
