"""The hourly room model: at rest, cooling free, capped, and two zones side by side."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.house.large_farmhouse import HOUSE
from woodreeve.house.five_resistances import (
    NO_HEAT_C,
    night_setback_change,
    rooms_of,
    run_zones,
    steady_room,
    yearly_room_heat,
)
from woodreeve.house.parameters import zone_parameters

PARAMETERS = zone_parameters(HOUSE)
ROOMS = tuple(rooms_of(zone) for zone in PARAMETERS.zones)
ROOM = {
    "air_w_k": 90.0,
    "light_w_k": 60.0,
    "heavy_w_k": 200.0,
    "floor_area_m2": 120.0,
    "mass_area_m2": 360.0,
    "capacity_mj_k": 31.2,
}


def _run(
    wanted: tuple[float, float], outside: float, between: float, most: float = 1e9, hours: int = 3000
) -> tuple[np.ndarray, np.ndarray]:
    weather = np.full(hours, outside)
    return run_zones(
        ROOMS,
        tuple(room.push(weather, 0.0, 0.0) for room in ROOMS),
        tuple(room.drive(weather, 0.0, 0.0) for room in ROOMS),
        tuple(np.full(hours, w) for w in wanted),
        (most, most),
        between,
        0,
    )


@given(st.floats(16.0, 24.0), st.floats(16.0, 24.0), st.floats(-15.0, 5.0), st.floats(0.0, 400.0))
@settings(max_examples=20, deadline=None)
def test_at_rest_each_zone_takes_its_loss_and_what_it_gives_its_neighbour(
    warm: float, cool: float, outside: float, between: float
) -> None:
    """The loop, run long, ends where the balance on paper stands."""
    heat, air = _run((warm, cool), outside, between)
    for own, other, zone, power, temperature in (
        (warm, cool, PARAMETERS.zones[0], heat[0, -1], air[0, -1]),
        (cool, warm, PARAMETERS.zones[1], heat[1, -1], air[1, -1]),
    ):
        alone = steady_room(
            own,
            outside,
            air_w_k=zone.air_w_k,
            light_w_k=zone.light_w_k,
            heavy_w_k=zone.heavy_w_k,
            floor_area_m2=zone.floor_area_m2,
            mass_area_m2=zone.mass_area_m2,
        ).power_w
        due = alone + between * (own - other)
        if due > 0.0:
            assert power == pytest.approx(due, rel=1e-3, abs=1.0)
        else:
            assert power == 0.0
            assert temperature >= own - 1e-6


def test_an_unheated_zone_settles_between_its_neighbour_and_the_weather() -> None:
    """Upstairs off: between 0 °C outside and 20 °C downstairs, and it takes no heat."""
    heat, air = _run((20.0, NO_HEAT_C), 0.0, 100.0)
    assert heat[1].max() == 0.0
    assert 0.0 < air[1, -1] < 20.0
    downstairs_off, _ = _run((NO_HEAT_C, 18.0), 0.0, 100.0)
    assert downstairs_off[0].max() == 0.0
    assert downstairs_off[1, -1] > 0.0


def test_without_heat_the_house_cools_to_the_weather() -> None:
    """And never below it."""
    _, air = _run((NO_HEAT_C, NO_HEAT_C), 3.0, 100.0, hours=6000)
    assert air[:, -1] == pytest.approx([3.0, 3.0], abs=0.01)
    assert (np.diff(air[0]) <= 1e-9).all()


def test_a_boiler_too_small_leaves_the_rooms_cold() -> None:
    """Power at its most, temperature under what is wanted."""
    heat, air = _run((20.0, 18.0), -5.0, 100.0, most=5000.0)
    assert heat.max() == 5000.0
    assert air[0, -1] < 20.0


def test_a_heavy_house_saves_less_by_cooling_at_night_than_a_light_one() -> None:
    """As in the published results of the standard test cases (38 % light, 32 % heavy)."""
    weather = 3.0 + 4.0 * np.cos(2.0 * np.pi * (np.arange(1440) - 15.0) / 24.0)
    light, heavy = (
        night_setback_change(weather, 20.0, 15.0, **{**ROOM, "capacity_mj_k": c, "mass_area_m2": m})
        for c, m in ((9.6, 300.0), (44.4, 420.0))
    )
    assert light < heavy < 0.0


@given(st.floats(0.0, 2000.0), st.floats(0.0, 500.0))
@settings(max_examples=15, deadline=None)
def test_more_free_heat_never_takes_more_heat(gains: float, more: float) -> None:
    """Monotone."""
    weather = 4.0 + 6.0 * np.cos(2.0 * np.pi * np.arange(480) / 24.0)
    assert yearly_room_heat(weather, 20.0, gains_w=gains + more, **ROOM) <= yearly_room_heat(
        weather, 20.0, gains_w=gains, **ROOM
    )
