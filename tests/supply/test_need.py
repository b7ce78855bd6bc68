"""What the house wants of the yard: heat of a span, plant losses, and the wood that gives it."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import cache
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.answers.demo import demo
from woodreeve.errors import OutOfRange
from woodreeve.house.demand import Demand, demand
from woodreeve.plant.fields import Cylinder, LogBoiler, Plant, Store
from woodreeve.supply.heat import (
    Efficiency,
    PlantLoss,
    SpanHeat,
    heat_of_span,
    heat_until_july,
    heating_efficiency,
    plant_loss,
)
from woodreeve.supply.need import BurntWood, burnt_wood, months_of_wood, wood_for_span
from woodreeve.wood.heat import energy_per_kg
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.stock import yard_stock

LOSS = PlantLoss(store_w=150.0, cylinder_w=50.0, mean_w=200.0)
EIGHTY = Efficiency(net=0.80, low=0.75, high=0.85, assumed=False)
ASH = BurntWood(moisture=0.20, mix={"ash": 1.0}, form="split_33cm", assumed=False)
LONDON = ZoneInfo("Europe/London")


@cache
def house() -> Demand:
    """The demo's house in its usual year."""
    asking = demo()
    return demand(asking.holding.house, asking.weather)


def span(kwh: float, half: float = 0.0) -> SpanHeat:
    """Heat of a span, all of it in rooms."""
    return SpanHeat(
        rooms_kwh=kwh, hot_water_kwh=0.0, plant_kwh=0.0, heat_kwh=kwh, low_kwh=kwh - half, high_kwh=kwh + half
    )


@given(st.integers(0, 8759), st.integers(0, 4000), st.integers(0, 4000))
def test_spans_that_follow_each_other_add_up(first: int, one: int, two: int) -> None:
    """Also over the end of a year."""
    weather = demo().weather
    parts = [
        heat_of_span(house(), weather, LOSS, first, one),
        heat_of_span(house(), weather, LOSS, first + one, two),
    ]
    whole = heat_of_span(house(), weather, LOSS, first, one + two)
    for field in ("rooms_kwh", "hot_water_kwh", "plant_kwh", "heat_kwh"):
        assert sum(getattr(part, field) for part in parts) == pytest.approx(getattr(whole, field), abs=1e-6)
    assert whole.low_kwh <= whole.heat_kwh <= whole.high_kwh


def test_left_out_a_span_is_the_whole_year() -> None:
    """With its plant losses: 200 W are 1,752 kWh."""
    whole = heat_of_span(house(), demo().weather, LOSS)
    assert whole.plant_kwh == pytest.approx(1752.0)
    assert whole.heat_kwh == pytest.approx(house().year_kwh + 1752.0)


@given(st.datetimes(datetime(2023, 1, 1), datetime(2029, 12, 31)))  # noqa: DTZ001 - the zone is set below
def test_an_hour_later_never_more_is_left_but_on_the_first_of_july(at: datetime) -> None:
    """And never more than a year."""
    weather = demo().weather
    now = at.replace(tzinfo=LONDON)
    later = now + timedelta(hours=1)
    left, then = (heat_until_july(house(), weather, LOSS, when).heat_kwh for when in (now, later))
    year = heat_of_span(house(), weather, LOSS).heat_kwh
    assert 0.0 < left <= year * (1 + 1e-12)
    if (later.month, later.day, later.hour) != (7, 1, 0):
        assert then <= left * (1 + 1e-12)


@pytest.mark.parametrize("hour", [0, 1])
def test_at_the_beginning_of_july_a_whole_year_is_left(hour: int) -> None:
    """Not nothing."""
    weather = demo().weather
    left = heat_until_july(house(), weather, LOSS, datetime(2025, 7, 1, hour, tzinfo=LONDON))
    assert left.heat_kwh == pytest.approx(heat_of_span(house(), weather, LOSS).heat_kwh, rel=0.001)


def test_months_are_those_of_the_heating_year() -> None:
    """From July to June, and together a year."""
    weather = demo().weather
    months = months_of_wood(house(), weather, LOSS, EIGHTY, ASH)
    assert [one.month for one in months] == [7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]
    year = wood_for_span(heat_of_span(house(), weather, LOSS), EIGHTY, ASH)
    assert sum(one.wood.mass_t for one in months) == pytest.approx(year.mass_t)


def test_wood_for_heat_is_heat_over_efficiency_and_heating_value() -> None:
    """10,000 kWh at 80 % are 12,500 kWh of ash at 20 %."""
    wood = wood_for_span(span(10_000.0), EIGHTY, ASH)
    assert wood.need.kwh == pytest.approx(12_500.0)
    assert wood.mass_t * 1000.0 == pytest.approx(12_500.0 / energy_per_kg("ash", 0.20), rel=1e-6)


@given(st.floats(0.0, 200_000.0), st.floats(0.0, 0.9))
def test_wood_is_never_negative_and_its_range_holds_it(kwh: float, doubt: float) -> None:
    """Whatever is not known of the heat and the boiler."""
    wood = wood_for_span(span(kwh, kwh * doubt), EIGHTY, ASH)
    assert 0.0 <= wood.mass_low_t <= wood.mass_t <= wood.mass_high_t
    assert 0.0 <= wood.stacked_low_m3 <= wood.stacked_m3 <= wood.stacked_high_m3


def test_wetter_wood_takes_more_tonnes() -> None:
    """And more of each the worse the boiler."""
    wet = BurntWood(moisture=0.35, mix={"ash": 1.0}, form="split_33cm", assumed=False)
    bad = Efficiency(net=0.60, low=0.55, high=0.65, assumed=False)
    dry = wood_for_span(span(10_000.0), EIGHTY, ASH)
    assert wood_for_span(span(10_000.0), EIGHTY, wet).mass_t > dry.mass_t
    assert wood_for_span(span(10_000.0), bad, ASH).mass_t == pytest.approx(dry.mass_t * 0.8 / 0.6)


def test_the_common_winter_of_a_large_house_lands_where_practice_has_it() -> None:
    """75 to 98 MWh useful at 80 % are 25 t at 25 % to 30 t at 20 % (common practice, no published source)."""
    damp = BurntWood(moisture=0.25, mix={"mixed_broadleaf": 1.0}, form="split_50cm", assumed=False)
    dry = BurntWood(moisture=0.20, mix={"mixed_broadleaf": 1.0}, form="split_50cm", assumed=False)
    assert wood_for_span(span(75_000.0), EIGHTY, damp).mass_t == pytest.approx(25.0, rel=0.03)
    assert wood_for_span(span(98_000.0), EIGHTY, dry).mass_t == pytest.approx(30.0, rel=0.03)


def test_a_tank_in_the_heated_house_loses_nothing_to_others() -> None:
    """Its loss warms the rooms; in a cold one it counts."""
    cold = plant_loss(
        Plant(store=Store(litres=1500.0, energy_class="C", stands_in="unheated_room", room_c=10.0))
    )
    warm = plant_loss(Plant(store=Store(litres=1500.0, energy_class="C", stands_in="heated_room")))
    assert cold.store_w > 50.0
    assert warm.store_w == 0.0
    assert plant_loss(Plant()).mean_w == 0.0


def test_what_the_owner_told_of_a_tank_wins() -> None:
    """UA before class before insulation before the assumption, which is named."""
    told = Store(litres=1500.0, loss_w_per_k=3.0, energy_class="A", stands_in="unheated_room", room_c=10.0)
    assert plant_loss(Plant(store=told)).store_w == pytest.approx(3.0 * 50.0)
    assert plant_loss(Plant(store=told)).assumed == ()
    bare = Store(litres=1500.0, stands_in="unheated_room", room_c=10.0)
    assert "class C" in plant_loss(Plant(store=bare)).assumed[0]
    cylinder = Cylinder(litres=200.0, loss_w_per_k=2.0, target_c=55.0, room_c=15.0)
    assert plant_loss(Plant(cylinder=cylinder)).cylinder_w == pytest.approx(80.0)


def test_an_efficiency_that_was_told_is_surer_than_one_assumed() -> None:
    """80 % is common practice, no published source."""
    told, assumed = heating_efficiency(LogBoiler(efficiency_net=0.85)), heating_efficiency(LogBoiler())
    assert told.net == 0.85
    assert not told.assumed
    assert assumed.net == 0.80
    assert assumed.assumed
    assert told.high - told.low < assumed.high - assumed.low


def test_without_dry_wood_the_owners_ideal_is_reckoned_with() -> None:
    """And mixed broadleaves, and that is said."""
    limits = WoodLimits()
    wood = burnt_wood(yard_stock({}, limits), limits)
    assert wood.moisture == limits.ideal
    assert wood.mix == {"mixed_broadleaf": 1.0}
    assert wood.assumed


@pytest.mark.parametrize(
    ("log_cm", "form"),
    [
        (None, "split_33cm"),
        (25.0, "split_25cm"),
        (33.0, "split_33cm"),
        (50.0, "split_50cm"),
        (100.0, "split_100cm"),
    ],
)
def test_wood_is_stacked_in_the_length_the_boiler_takes(log_cm: float | None, form: str) -> None:
    """33 cm where it is not known."""
    limits = WoodLimits()
    assert burnt_wood(yard_stock({}, limits), limits, log_cm).form == form


def test_the_mixture_of_all_split_wood_is_a_whole() -> None:
    """Of the demo's yard."""
    asking = demo()
    limits = asking.holding.yard.limits
    wood = burnt_wood(yard_stock(asking.folded.stacks, limits), limits)
    assert sum(wood.mix.values()) == pytest.approx(1.0)
    assert limits.ideal * 0.5 < wood.moisture <= limits.fine
    assert not wood.assumed


def test_a_span_before_the_year_is_refused() -> None:
    """In one sentence."""
    with pytest.raises(OutOfRange, match="first_hour"):
        heat_of_span(house(), demo().weather, LOSS, -1, 10)
