"""Demand by past fuel: spans, lines, ranges, and the two ways side by side."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.house.large_farmhouse import CLIMATE, HOUSE
from woodreeve.errors import OutOfRange, Refused, Unknown
from woodreeve.house.demand import demand
from woodreeve.house.describe import House, PastFuel
from woodreeve.house.from_fuel import demand_from_fuel, weighed_demand
from woodreeve.house.signature import fit_signature, heat_loss_from_year, signature_of_house
from woodreeve.house.spans import fuel_spans
from woodreeve.weather.typical import typical_year

YEAR = typical_year(CLIMATE)
FABRIC = demand(HOUSE, YEAR)
FIRST = date(2023, 1, 1)


def _oil(litres: float, first: date, last: date, *, full: bool = False) -> PastFuel:
    return PastFuel(
        fuel="kerosene",
        amount=litres,
        first_day=first,
        last_day=last,
        efficiency=0.8,
        tank_full_both_times=full,
    )


def _burning(house: House, slope: float, litres_of_water_day: float) -> tuple[PastFuel, ...]:
    """Oil of four spans of a house that follows its signature exactly, from full tank to full tank."""
    under = np.maximum(0.0, 17.0 - YEAR.by_day("temperature_c")).mean(axis=1)
    edges = (0, 90, 151, 243, 365)
    uses = []
    for a, b in pairwise(edges):
        heat = slope * under[a:b].sum() + litres_of_water_day * (b - a)
        uses.append(_oil(heat / 10.3 / 0.8, FIRST + timedelta(days=a), FIRST + timedelta(days=b), full=True))
    return tuple(uses)


def test_spans_between_full_tanks_give_back_the_house_that_burnt_them() -> None:
    """Slope and steady part, hot water told apart by winter and summer."""
    house = replace(HOUSE, past_fuel=_burning(HOUSE, slope=20.0, litres_of_water_day=9.0))
    line = signature_of_house(house, YEAR, 17.0)
    assert line.slope == pytest.approx(20.0, rel=1e-6)
    assert line.intercept_kwh == pytest.approx(9.0, rel=1e-6)
    assert line.heat_loss_w_k == pytest.approx(20.0 * 1000.0 / 24.0, rel=1e-6)
    assert line.r_squared == pytest.approx(1.0)
    assert line.slope_error / line.slope == pytest.approx(0.045, abs=0.001)


def test_one_year_of_oil_takes_hot_water_from_the_people() -> None:
    """A year total cannot tell hot water from heating."""
    house = replace(HOUSE, past_fuel=(_oil(9000.0, FIRST, date(2024, 1, 1)),))
    line = signature_of_house(house, YEAR, 17.0)
    water = FABRIC.hot_water_year_kwh
    cold = float(np.maximum(0.0, 17.0 - YEAR.temperature_c).sum() / 24.0)
    assert line.heat_loss_w_k == pytest.approx(
        heat_loss_from_year(9000.0 * 10.3 * 0.8, water, cold), rel=1e-3
    )
    assert line.spans == 1.0


def test_a_delivery_into_a_part_filled_tank_is_not_taken_for_use() -> None:
    """A winter's delivery alone is refused, with what would do."""
    with pytest.raises(Refused, match=r"tank not full.*300 days"):
        fuel_spans((_oil(1500.0, FIRST, FIRST + timedelta(days=100)),))


def test_part_fills_over_a_year_are_added() -> None:
    """Three deliveries, one span."""
    uses = [_oil(1000.0, FIRST + timedelta(days=d), FIRST + timedelta(days=d + 130)) for d in (0, 120, 240)]
    spans = fuel_spans(tuple(uses))
    assert len(spans) == 1
    assert spans[0].days == 370.0
    assert spans[0].heat_kwh == pytest.approx(3000.0 * 10.3 * 0.8)


def test_oil_and_wood_of_one_span_are_added() -> None:
    """Boiler and stove heat the same house."""
    last = FIRST + timedelta(days=365)
    wood = PastFuel(
        fuel="wood", amount=5.0, first_day=FIRST, last_day=last, efficiency=0.7, energy_kwh=4000.0
    )
    spans = fuel_spans((_oil(1000.0, FIRST, last, full=True), wood))
    assert [span.heat_kwh for span in spans] == pytest.approx([1000.0 * 10.3 * 0.8 + 5.0 * 4000.0 * 0.7])


def test_wood_without_its_heat_is_unknown() -> None:
    """It depends on the moisture."""
    with pytest.raises(Unknown, match="moisture"):
        fuel_spans((PastFuel(fuel="wood", amount=5.0, first_day=FIRST, last_day=date(2024, 1, 1)),))


def test_a_span_that_ends_before_it_begins_is_refused() -> None:
    """Dates exchanged."""
    with pytest.raises(OutOfRange, match="last_day"):
        fuel_spans((_oil(1000.0, FIRST, FIRST),))


def test_without_past_fuel_the_second_way_is_unknown() -> None:
    """And says so."""
    with pytest.raises(Unknown, match="No past fuel"):
        signature_of_house(HOUSE, YEAR, 17.0)


@pytest.mark.parametrize(
    ("cold", "heat", "said"),
    [
        ([100.0, 200.0], [1.0, 2.0], "2 spans"),
        ([100.0, 100.2, 99.9], [1.0, 2.0, 3.0], "nearly alike"),
        ([400.0, 200.0, 10.0], [100.0, 900.0, 2000.0], "falling"),
        ([400.0, 200.0, 10.0], [100.0, 900.0], "2 values long"),
    ],
)
def test_lines_that_mean_nothing_are_refused(cold: list[float], heat: list[float], said: str) -> None:
    """One sentence each."""
    with pytest.raises(OutOfRange, match=said):
        fit_signature(np.array(cold), np.array(heat))


@given(st.floats(1.0, 50.0), st.floats(0.0, 2000.0))
def test_an_exact_line_is_found_again(slope: float, steady: float) -> None:
    """For any house."""
    cold = np.array([395.0, 342.0, 151.0, 77.0, 42.0, 275.0])
    line = fit_signature(cold, steady + slope * cold)
    assert line.slope == pytest.approx(slope, rel=1e-6)
    assert line.intercept_kwh == pytest.approx(steady, abs=1e-3 + 1e-6 * slope * 400)


def test_the_demand_by_fuel_adds_up_and_has_its_range() -> None:
    """Months, hours and the year are one sum here too."""
    house = replace(HOUSE, past_fuel=_burning(HOUSE, slope=30.0, litres_of_water_day=8.0))
    line = signature_of_house(house, YEAR, 17.0)
    d = demand_from_fuel(house, YEAR, line, 17.0)
    assert d.method == "fuel"
    assert d.hourly_kw.sum() == pytest.approx(d.year_kwh)
    assert d.space_year_kwh == pytest.approx(30.0 * d.degree_days, rel=1e-6)
    assert d.hot_water_year_kwh == pytest.approx(8.0 * 365.0, rel=1e-6)
    assert d.year_low_kwh < d.year_kwh < d.year_high_kwh
    assert d.doubt.losses_kwh / d.space_year_kwh == pytest.approx(np.hypot(1.2816 * 0.045, 0.08), abs=0.002)


def test_metered_fuel_is_surer_than_u_values_and_weighs_more() -> None:
    """The weighed demand lies between both, nearer to the fuel, and is surer than either."""
    house = replace(HOUSE, past_fuel=_burning(HOUSE, slope=27.0, litres_of_water_day=8.0))
    fuel = demand_from_fuel(house, YEAR, signature_of_house(house, YEAR, 17.0), 17.0)
    both = weighed_demand(FABRIC, fuel)
    assert both.method == "both"
    ends = sorted((FABRIC.space_year_kwh, fuel.space_year_kwh))
    assert ends[0] <= both.space_year_kwh <= ends[1]
    assert abs(both.space_year_kwh - fuel.space_year_kwh) < abs(both.space_year_kwh - FABRIC.space_year_kwh)
    assert both.doubt.losses_kwh < fuel.doubt.losses_kwh + 1e-9
    assert both.hourly_kw.sum() == pytest.approx(both.year_kwh)
    assert sum(both.total_kwh) == pytest.approx(both.year_kwh)


def test_two_ways_that_contradict_each_other_widen_the_range() -> None:
    """One of them is wrong; the range reaches over both."""
    house = replace(HOUSE, past_fuel=_burning(HOUSE, slope=4.0, litres_of_water_day=8.0))
    fuel = demand_from_fuel(house, YEAR, signature_of_house(house, YEAR, 17.0), 17.0)
    both = weighed_demand(FABRIC, fuel)
    assert both.year_high_kwh >= FABRIC.space_year_kwh
    assert both.year_low_kwh <= fuel.year_kwh
