"""U-values, losses, and the filling of blanks."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.house.large_farmhouse import HOUSE, UPSTAIRS
from woodreeve.errors import OutOfRange, Unknown, UnknownName
from woodreeve.house.describe import Construction, Element, House, Zone
from woodreeve.house.heat_loss import air_heat_loss, design_load, fabric_heat_loss, heat_flow
from woodreeve.house.parameters import zone_parameters
from woodreeve.house.u_values import (
    element_spread,
    element_u_value,
    stone_wall_u,
    table_u_value,
    u_value_table,
)
from woodreeve.weather.sunpath import BEARINGS


def test_every_construction_that_can_be_chosen_has_a_u_value_and_a_source() -> None:
    """And every row of the table can be chosen."""
    chosen = set(Construction.__args__) - {"granite", "sandstone"}
    assert chosen == set(u_value_table())
    assert all(row.source and row.status in ("printed", "memory") for row in u_value_table().values())
    assert all(row.sun_share is not None for row in u_value_table().values() if row.element == "window")


def test_an_unknown_construction_is_told_with_the_nearest() -> None:
    """As for every name."""
    with pytest.raises(UnknownName, match="did you mean"):
        table_u_value("single_glazings")


def test_the_owners_own_u_value_wins_over_the_table() -> None:
    """He may have papers."""
    part = Element(kind="wall", area_m2=10.0, construction="solid_brick", u_value=0.5)
    assert element_u_value(part) == 0.5
    assert element_u_value(replace(part, u_value=None)) == 2.1


@given(st.floats(100.0, 1200.0), st.sampled_from(["granite", "sandstone"]))
def test_thicker_and_lined_stone_lets_less_through(thickness: float, stone: str) -> None:
    """For every thickness of the formula's range."""
    bare = stone_wall_u(stone, thickness)  # type: ignore[arg-type]  # from a list
    assert stone_wall_u(stone, thickness, "lined") < bare  # type: ignore[arg-type]  # from a list
    assert stone_wall_u(stone, min(1200.0, thickness + 50.0)) <= bare  # type: ignore[arg-type]  # from a list


def test_the_printed_exercise_of_air_loss_comes_out_in_one_chain() -> None:
    """Row HL-EX-3: 2 air changes of 12.000 x 6.732 x 2.5 m3 at 0.361 Wh/(m3 K) over 21 K are 3062 W."""
    loss = air_heat_loss(2.0, 12.0 * 6.732 * 2.5, 0.361)
    assert heat_flow(loss, 21.0, 0.0) == pytest.approx(3062.0, abs=2.0)


def test_the_loss_of_the_house_is_the_sum_of_its_parts() -> None:
    """By kind and by zone alike."""
    p = zone_parameters(HOUSE)
    kinds = p.walls_w_k + p.roof_w_k + p.floor_w_k + p.windows_w_k + p.doors_w_k + p.bridges_w_k + p.air_w_k
    assert p.loss_w_k == pytest.approx(kinds)
    assert p.loss_w_k == pytest.approx(sum(zone.loss_w_k for zone in p.zones))
    assert 0.0 < p.loss_spread_w_k < 0.4 * p.loss_w_k


def test_the_two_steps_through_a_heavy_wall_make_the_whole() -> None:
    """Air to mass and mass to outside, in a row, are the loss of walls, roof and floor."""
    for zone in zone_parameters(HOUSE).zones:
        in_a_row = 1.0 / (1.0 / zone.air_to_mass_w_k + 1.0 / zone.mass_to_outside_w_k)
        assert in_a_row == pytest.approx(zone.heavy_w_k, rel=1e-6)


def test_air_mass_and_capacities_are_those_of_the_standard() -> None:
    """Heavy: 3 m2 of mass and 260 kJ/K for each m2 of floor; 3.45 and 9.1 W/(m2 K) in a row."""
    for zone in zone_parameters(HOUSE).zones:
        assert zone.mass_area_m2 == pytest.approx(675.0)
        assert zone.mass_capacity_mj_k == pytest.approx(58.5)
        assert zone.air_to_mass_w_k == pytest.approx(1.0 / (1.0 / (3.45 * 4.5 * 225.0) + 1.0 / (9.1 * 675.0)))
        assert 0.0 < zone.air_capacity_mj_k < 0.1 * zone.mass_capacity_mj_k


def test_stone_is_doubted_more_than_glass_and_papers_are_believed() -> None:
    """30 % for stone walls (measured walls lose less), 10 % for the owner's own figure."""
    stone = Element(kind="wall", area_m2=10.0, construction="granite", thickness_mm=500.0)
    assert element_spread(stone) == 0.30
    assert element_spread(replace(stone, construction="single_glazing", kind="window")) == 0.10
    assert element_spread(replace(stone, u_value=1.0)) == 0.10


def test_a_part_against_a_heated_neighbour_loses_nothing() -> None:
    """And one against an unheated barn half."""
    wall = Element(kind="wall", area_m2=20.0, u_value=2.0)
    losses = [
        zone_parameters(
            House(zones=(Zone(floor_area_m2=50.0, elements=(replace(wall, adjoins=side),)),))
        ).walls_w_k
        for side in ("outside", "unheated", "heated")
    ]
    assert losses == [40.0, 20.0, 0.0]


def test_only_the_floor_area_must_be_known() -> None:
    """All the rest is filled in and listed."""
    filled = zone_parameters(
        House(zones=(Zone(floor_area_m2=60.0), Zone(name="upstairs", floor_area_m2=50.0)))
    )
    assert 150.0 < filled.loss_w_k < 800.0
    for what in (
        "downstairs: elements",
        "upstairs: draughts",
        "occupants",
        "heat_capacity",
        "between_zones_w_k",
    ):
        assert what in filled.assumed
    assert filled.zones[0].wanted_c > filled.zones[1].wanted_c


def test_what_is_known_is_not_listed_as_assumed() -> None:
    """The large farmhouse leaves little open."""
    assert set(zone_parameters(HOUSE).assumed) == {
        "internal_gains_w",
        "hot_water_litres_day",
        "between_zones_w_k",
    }


def test_without_zones_or_floor_area_nothing_is_made_up() -> None:
    """One sentence says what is wanted."""
    with pytest.raises(Unknown, match="at least one"):
        zone_parameters(House())
    with pytest.raises(Unknown, match="floor area of zone 'upstairs'"):
        zone_parameters(House(zones=(replace(UPSTAIRS, floor_area_m2=None),)))


def test_three_zones_are_refused() -> None:
    """Two are modelled."""
    with pytest.raises(OutOfRange, match="one or two"):
        House(zones=(UPSTAIRS, UPSTAIRS, UPSTAIRS))


@given(st.floats(0.1, 6.0), st.floats(0.0, 1.0))
def test_losses_grow_with_every_u_value(u_value: float, more: float) -> None:
    """Monotone."""
    areas = np.array([30.0, 20.0])
    assert fabric_heat_loss(areas, np.array([u_value, 1.0])) <= fabric_heat_loss(
        areas, np.array([u_value + more, 1.0])
    )


def test_lists_of_different_length_are_refused() -> None:
    """A U-value is missing."""
    with pytest.raises(OutOfRange, match="u_value"):
        fabric_heat_loss(np.array([1.0, 2.0]), np.array([1.0]))


def test_the_design_load_is_never_negative() -> None:
    """In a climate without winter."""
    assert design_load(300.0, 18.0, 25.0) == 0.0
    assert design_load(300.0, 20.0, 0.0, floor_area_m2=100.0, reheat_w_m2=10.0) == 7.0


def test_windows_count_by_the_way_they_look() -> None:
    """Each facing adds up; a window of unknown facing lets in no sun."""
    windows = tuple(Element(kind="window", area_m2=2.0, faces=side) for side in BEARINGS)  # type: ignore[arg-type]  # keys
    unknown = Element(kind="window", area_m2=50.0)
    zone = zone_parameters(
        House(zones=(Zone(floor_area_m2=50.0, elements=(*windows, *windows, unknown)),))
    ).zones[0]
    assert set(zone.apertures_m2) == set(BEARINGS)
    assert all(area == pytest.approx(4.0 * 0.9 * 0.85 * 0.7 * 0.77) for area in zone.apertures_m2.values())
