"""The yearly demand by the fabric: what must hold for any house, and the common practice check."""

import subprocess
import sys
import time
from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.house.large_farmhouse import CLIMATE, HOUSE
from tests.published.weather_files import reference_year
from woodreeve.house.demand import Demand, demand
from woodreeve.house.describe import Element, House, Zone
from woodreeve.house.five_resistances import yearly_room_heat
from woodreeve.house.fuel import useful_heat
from woodreeve.house.heat_loss import air_changes_of
from woodreeve.house.parameters import zone_parameters
from woodreeve.house.u_values import element_u_value
from woodreeve.weather.series import Hourly, start_of_year
from woodreeve.weather.typical import typical_year
from woodreeve.wood.heat import energy_per_kg

YEAR = typical_year(CLIMATE)
SMALL = House(
    zones=(
        Zone(name="downstairs", floor_area_m2=60.0, wanted_c=20.0, setback_c=16.0),
        Zone(name="upstairs", floor_area_m2=55.0, wanted_c=18.0),
    ),
    occupants=4.0,
)


def _with_walls(u_value: float) -> House:
    walls = (
        Element(kind="wall", area_m2=150.0, u_value=u_value),
        Element(kind="window", area_m2=20.0, faces="south"),
    )
    return House(zones=(Zone(floor_area_m2=100.0, elements=walls, air_changes=1.0),))


def test_a_large_old_farmhouse_takes_what_its_like_are_known_to_take() -> None:
    """Common practice, no published source: 25 t at 25 % to 30 t at 20 %, 80 % net, 45 kW boiler.

    House and climate were fixed beforehand (see large_farmhouse.py); the prediction is from losses and hot
    water alone. 75 to 98 MWh, 1,675 to 2,170 hours at full load.
    """
    heat = demand(HOUSE, YEAR)
    assert 75_000.0 <= heat.year_kwh <= 98_000.0
    assert 1_675.0 <= heat.year_kwh / 45.0 <= 2_170.0
    for moisture in (0.20, 0.25):
        tonnes = heat.year_kwh / useful_heat(1.0, 1000.0 * energy_per_kg("mixed_broadleaf", moisture), 0.80)
        assert 25.0 <= tonnes <= 30.0


def test_months_and_hours_and_the_year_are_one_sum() -> None:
    """Nothing is counted twice or lost."""
    d = demand(SMALL, YEAR)
    assert sum(d.total_kwh) == pytest.approx(d.year_kwh)
    assert d.hourly_kw.sum() == pytest.approx(d.year_kwh)
    assert d.space_hourly_kw.sum() == pytest.approx(d.space_year_kwh)
    assert d.space_year_kwh + d.hot_water_year_kwh == pytest.approx(d.year_kwh)
    assert d.hourly_kw.min() >= 0.0


def test_ranges_hold_the_middle_and_the_year_is_surer_than_its_months() -> None:
    """Weather of single months averages out."""
    d = demand(SMALL, YEAR)
    for low, middle, high in zip(d.total_low_kwh, d.total_kwh, d.total_high_kwh, strict=True):
        assert 0.0 <= low <= middle <= high
    assert 0.0 < d.year_low_kwh < d.year_kwh < d.year_high_kwh
    assert d.year_high_kwh - d.year_kwh < sum(d.total_high_kwh) - sum(d.total_kwh)


def test_what_each_doubt_is_worth_is_what_a_second_run_shows() -> None:
    """The range is reckoned at first order; a run with each figure moved agrees to a fifth."""
    d = demand(HOUSE, YEAR)
    p = zone_parameters(HOUSE)
    warmer = replace(HOUSE, zones=tuple(_warmer(zone, 1.0) for zone in HOUSE.zones))
    assert demand(warmer, YEAR).space_year_kwh - d.space_year_kwh == pytest.approx(
        d.doubt.wanted_kwh, rel=0.2
    )
    freer = replace(HOUSE, internal_gains_w=1.3 * p.internal_gains_w)
    dull = replace(YEAR, sun_w_m2=YEAR.field("sun_w_m2") * 1.3, diffuse_w_m2=YEAR.field("diffuse_w_m2") * 1.3)
    assert d.space_year_kwh - demand(freer, dull).space_year_kwh == pytest.approx(d.doubt.gains_kwh, rel=0.25)
    share = 1.0 + p.loss_spread_w_k / p.loss_w_k
    worse = replace(
        HOUSE, zones=tuple(_leakier(zone, share) for zone in HOUSE.zones), internal_gains_w=p.internal_gains_w
    )
    assert demand(worse, YEAR).space_year_kwh - d.space_year_kwh == pytest.approx(d.doubt.losses_kwh, rel=0.2)


def _warmer(zone: Zone, by_k: float) -> Zone:
    return replace(zone, wanted_c=(zone.wanted_c or 0.0) + by_k, setback_c=(zone.setback_c or 0.0) + by_k)


def _leakier(zone: Zone, share: float) -> Zone:
    """The same zone with every loss made larger by a share, corners left as they are."""
    parts = tuple(replace(part, u_value=min(7.0, element_u_value(part) * share)) for part in zone.elements)
    return replace(zone, elements=parts, air_changes=share * air_changes_of(zone.draughts or "ordinary"))


def test_what_is_measured_is_surer_than_what_is_assumed() -> None:
    """Hot water from a meter, and a U-value from papers, narrow the range."""
    d = demand(HOUSE, YEAR)
    metered = demand(replace(HOUSE, hot_water_litres_day=161.0), YEAR)
    assert d.doubt.hot_water_kwh == pytest.approx(0.4 * d.hot_water_year_kwh)
    assert metered.doubt.hot_water_kwh == pytest.approx(0.1 * metered.hot_water_year_kwh)
    walls = replace(HOUSE.zones[0].elements[0], u_value=1.8)
    known = replace(HOUSE.zones[0], elements=(walls, *HOUSE.zones[0].elements[1:]))
    assert demand(replace(HOUSE, zones=(known, HOUSE.zones[1])), YEAR).doubt.losses_kwh < d.doubt.losses_kwh


def test_the_base_lies_under_the_rooms_by_the_free_heat_of_use() -> None:
    """Base = room temperature less useful gains over losses; not all free heat is of use."""
    d = demand(HOUSE, YEAR)
    free = zone_parameters(HOUSE).internal_gains_w
    assert free < d.useful_gains_w < 4.0 * free
    assert 16.0 <= d.base_temperature_c + d.useful_gains_w / d.heat_loss_w_k <= 20.0
    sunless = replace(YEAR, sun_w_m2=None, diffuse_w_m2=None)
    few, many = (
        demand(replace(SMALL, internal_gains_w=w), sunless).useful_gains_w / w for w in (300.0, 6000.0)
    )
    assert few > 0.99
    assert many < 0.9


def test_weather_as_it_was_is_surer_than_weather_to_come() -> None:
    """The doubt of the weather falls away."""
    to_come, was = demand(SMALL, YEAR), demand(SMALL, YEAR, weather="as_it_was")
    assert was.doubt.weather_kwh == 0.0
    assert was.year_high_kwh < to_come.year_high_kwh
    assert was.year_kwh == to_come.year_kwh


def test_the_weather_of_a_year_moves_its_heat_by_three_to_seven_percent() -> None:
    """One standard deviation, as degree days of made-up years with free months do (3 to 5 % at 15.5 °C)."""
    d = demand(SMALL, YEAR)
    assert 0.03 < d.doubt.weather_kwh / 1.2816 / d.space_year_kwh < 0.07


@settings(max_examples=15, deadline=None)
@given(st.floats(0.2, 3.0), st.floats(0.01, 1.5))
def test_a_worse_wall_never_takes_less_heat(u_value: float, worse: float) -> None:
    """Monotone in U."""
    assert (
        demand(_with_walls(u_value), YEAR).space_year_kwh
        <= demand(_with_walls(u_value + worse), YEAR).space_year_kwh
    )


@pytest.mark.parametrize(
    ("change", "sign"),
    [
        ({"wanted_c": 21.0}, 1),
        ({"air_changes": 2.5}, 1),
        ({"air_changes": 0.5}, -1),
        ({"setback_c": 14.0}, -1),
        ({"setback_c": None}, 1),
    ],
)
def test_each_wish_moves_the_heat_its_own_way(change: dict[str, float | None], sign: int) -> None:
    """Warmer, draughtier: more. Cooler nights: less."""
    other = replace(SMALL, zones=(replace(SMALL.zones[0], **change), SMALL.zones[1]))  # type: ignore[arg-type]  # by name
    assert sign * (demand(other, YEAR).space_year_kwh - demand(SMALL, YEAR).space_year_kwh) > 0.0


def test_free_heat_spares_heat_and_lowers_the_base() -> None:
    """Sun and people."""
    cold = demand(replace(SMALL, internal_gains_w=0.0), YEAR)
    warm = demand(replace(SMALL, internal_gains_w=1500.0), YEAR)
    assert warm.space_year_kwh < cold.space_year_kwh
    assert warm.base_temperature_c < cold.base_temperature_c
    dull = replace(YEAR, sun_w_m2=None, diffuse_w_m2=None)
    assert demand(SMALL, dull).space_year_kwh > demand(SMALL, YEAR).space_year_kwh


def test_a_quarter_less_loss_saves_more_than_a_quarter() -> None:
    """MacKay's rule of thumb (row GAIN-1): about 40 %, within 10, in an ordinary house with its free heat."""

    def house(share: float) -> House:
        shell = tuple(
            Element(kind=kind, area_m2=area * share, u_value=u)  # type: ignore[arg-type]  # from a list
            for kind, area, u in (
                ("wall", 120.0, 1.0),
                ("roof", 50.0, 0.4),
                ("floor", 50.0, 0.5),
                ("door", 20.0, 2.7),
            )
        )
        zone = Zone(floor_area_m2=100.0, elements=shell, air_changes=0.8 * share, wanted_c=17.5)
        return House(zones=(zone,), internal_gains_w=850.0, bridges="fair")

    before, after = demand(house(1.0), YEAR).space_year_kwh, demand(house(0.75), YEAR).space_year_kwh
    assert 0.30 <= 1.0 - after / before <= 0.50


def test_one_zone_by_the_house_is_the_same_as_the_bare_method() -> None:
    """The two-zone solver and the single room of rows R5-4 and R5-5 are one model."""
    shell = (
        Element(kind="wall", area_m2=100.0, u_value=2.0),
        Element(kind="door", area_m2=20.0, u_value=3.0),
    )
    zone = Zone(
        floor_area_m2=120.0, elements=shell, air_changes=1.0, ceiling_m=2.5, wanted_c=20.0, setback_c=16.0
    )
    house = House(
        zones=(zone,), internal_gains_w=400.0, bridges="good", heat_capacity="heavy", radiator_margin=2.0
    )
    essen = reference_year(5)
    bare = yearly_room_heat(
        essen.temperature_c,
        20.0,
        air_w_k=100.0,
        light_w_k=60.0,
        heavy_w_k=200.0 + 0.02 * 120.0,
        floor_area_m2=120.0,
        mass_area_m2=360.0,
        capacity_mj_k=31.2,
        gains_w=400.0,
        night_c=16.0,
    )
    assert demand(house, essen).space_year_kwh == pytest.approx(bare, rel=0.003)


def test_two_like_zones_take_what_one_of_both_takes() -> None:
    """Cutting a house in two equal halves changes nothing, however much heat passes between them."""
    shell = (
        Element(kind="wall", area_m2=100.0, u_value=2.0),
        Element(kind="window", area_m2=10.0, faces="south"),
    )
    half = Zone(name="a", floor_area_m2=60.0, elements=shell, wanted_c=19.0, setback_c=15.0, air_changes=1.0)
    other = replace(half, name="b")
    double = tuple(replace(part, area_m2=2 * part.area_m2) for part in shell)
    whole = replace(half, floor_area_m2=120.0, elements=double)
    one = demand(House(zones=(whole,), occupants=3.0), YEAR)
    for between in (0.0, 80.0, 900.0):
        two = demand(House(zones=(half, other), occupants=3.0, between_zones_w_k=between), YEAR)
        assert two.space_year_kwh == pytest.approx(one.space_year_kwh, rel=1e-9)


def test_an_open_door_lets_a_warm_zone_heat_a_cool_one() -> None:
    """With more heat passing between, downstairs carries upstairs along; the sum rises only a little."""
    heats = [demand(replace(SMALL, between_zones_w_k=w), YEAR).space_year_kwh for w in (0.0, 100.0, 300.0)]
    assert heats[0] < heats[1] < heats[2] < 1.1 * heats[0]


def test_radiators_cap_the_morning() -> None:
    """No hour asks for more than the design load and its margin."""
    d = demand(replace(SMALL, radiator_margin=0.1), YEAR)
    assert d.space_hourly_kw.max() <= 1.1 * d.design_load_kw + 1e-9


def test_a_heating_limit_keeps_the_summer_cold() -> None:
    """With one, July has no space heat; the winter is untouched."""
    free, limited = demand(SMALL, YEAR), demand(replace(SMALL, heating_limit_c=12.0), YEAR)
    assert limited.space_heat_kwh[6] == 0.0
    assert free.space_heat_kwh[6] > 0.0
    assert limited.space_heat_kwh[0] == pytest.approx(free.space_heat_kwh[0], rel=1e-6)


def test_a_span_of_days_has_its_own_sum() -> None:
    """A week of January, hours outside it have no heat."""
    week = Hourly(start=start_of_year(2027, 0.0), temperature_c=np.full(168, 3.0))
    d = demand(SMALL, week)
    assert d.space_heat_kwh[0] > 0.0
    assert sum(d.space_heat_kwh[1:]) == 0.0
    assert d.hot_water_kwh[0] == pytest.approx(d.hot_water_year_kwh)


def test_in_endless_warmth_nothing_is_heated() -> None:
    """And no division by nothing."""
    hot = Hourly(start=start_of_year(2027, 0.0), temperature_c=np.full(8760, 30.0))
    d = demand(SMALL, hot)
    assert d.space_year_kwh == 0.0
    assert d.design_load_kw == 0.0


def test_every_field_of_the_answer_is_there() -> None:
    """No field is left empty."""
    d = demand(SMALL, YEAR)
    assert all(getattr(d, item.name) is not None for item in fields(Demand))
    assert 14.0 < d.base_temperature_c < 20.0
    assert d.heat_loss_low_w_k < d.heat_loss_w_k < d.heat_loss_high_w_k


def test_a_year_takes_well_under_fifty_milliseconds_and_loads_no_heavy_library() -> None:
    """Best of five; pandas, the solar library and scipy stay out."""
    best = min(_seconds() for _ in range(5))
    assert best < 0.05
    code = (
        "import sys\nfrom tests.house.large_farmhouse import CLIMATE, HOUSE\n"
        "from woodreeve.house.demand import demand\nfrom woodreeve.weather.typical import typical_year\n"
        "demand(HOUSE, typical_year(CLIMATE))\n"
        "print(sorted({'pandas', 'pvlib', 'scipy', 'numba'} & set(sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def _seconds() -> float:
    begin = time.perf_counter()
    demand(HOUSE, YEAR)
    return time.perf_counter() - begin
