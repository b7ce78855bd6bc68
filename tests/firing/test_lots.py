"""Which wood may be burnt, and what things cost."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.firing.grounds import ASH
from woodreeve.errors import Unknown
from woodreeve.firing.fields import Presence, Wishes
from woodreeve.firing.lots import lot_of_stack, usable_lots, wettest_wood
from woodreeve.firing.prices import plan_prices
from woodreeve.money.fields import Prices
from woodreeve.plant.fields import BackupBoiler, LogBoiler
from woodreeve.wood.mass import mass_of_stacked
from woodreeve.yard.stacks import MoistureNow, StackHeat

DAY = date(2026, 1, 14)
STACK = StackHeat(
    place="gable", stacked_m3=5.0, dry_kg=1900.0, mass_kg=2300.0,
    moisture=MoistureNow(moisture=0.18, low=0.16, high=0.20, known_by="measured"),
    dryness="ideal", heat_kwh=9400.0, low_kwh=9200.0, high_kwh=9600.0, spoils=0.0, mix={"ash": 1.0},
)  # fmt: skip


def test_the_lowest_of_the_three_limits_holds() -> None:
    """England's fifth is below a maker's quarter."""
    found = wettest_wood(0.25, "england", 0.30, DAY)
    assert (found.moisture, found.by) == (0.20, "nation")
    assert wettest_wood(0.18, "england", 0.30, DAY).by == "maker"
    assert wettest_wood(0.25, None, 0.22, DAY).by == "owner"


def test_a_nation_without_a_rule_leaves_the_other_two() -> None:
    """Wales has none."""
    found = wettest_wood(0.25, "wales", 0.30, DAY)
    assert found.moisture == 0.25
    assert found.nation is None


def test_without_any_limit_nothing_is_planned() -> None:
    """A guess would be dangerous."""
    with pytest.raises(Unknown, match="most_moisture"):
        wettest_wood(None, None, None, DAY)


def test_wet_empty_and_unmeasured_stacks_are_left_out() -> None:
    """And of two at one price the one whose turn it is comes first."""
    later = replace(ASH, name="later", turn=2)
    lots = (
        later,
        replace(ASH, name="wet", moisture=0.26),
        replace(ASH, name="empty", left_kg=0.0),
        replace(ASH, name="unmeasured", moisture_known=False),
        ASH,
    )
    assert [lot.name for lot in usable_lots(lots, 0.25)] == ["gable", "later"]


@given(moisture=st.floats(0.05, 0.5), limit=st.floats(0.1, 0.4))
def test_no_lot_is_wetter_than_the_limit(moisture: float, limit: float) -> None:
    """Whatever the two are."""
    for lot in usable_lots((replace(ASH, moisture=moisture),), limit):
        assert lot.moisture <= limit + 1e-9


def test_a_full_load_is_what_the_fuel_space_holds_at_that_stacks_density() -> None:
    """By the chapter on wood."""
    boiler = LogBoiler(fuel_space_litres=120.0, filling_share=0.85)
    lot = lot_of_stack(STACK, boiler, Prices(own_wood_stacked_m3=110.0), "split_33cm")
    assert lot.full_kg == pytest.approx(mass_of_stacked({"ash": 1.0}, 0.102, 0.18, "split_33cm"))
    assert lot.left_kg == 2300.0
    assert 0.15 < lot.price_kg < 0.45
    with pytest.raises(Unknown, match="fuel space"):
        lot_of_stack(STACK, LogBoiler(), Prices(), "split_33cm")


def test_a_lighting_without_a_price_costs_its_time() -> None:
    """Half an hour at twelve, and kindling."""
    prices, told = plan_prices(Prices(own_hour=12.0, electricity=0.3), Wishes(), BackupBoiler(fuel="lpg"))
    assert prices.lighting == pytest.approx(6.4)
    assert prices.refill == pytest.approx(2.0)
    assert len(told) == 2  # the fuel's price and the degree-hour's


def test_the_litre_of_fuel_becomes_a_kwh() -> None:
    """67 pence a litre of LPG is about 10 pence a kWh."""
    prices, _ = plan_prices(Prices(backup_fuel_litre=0.67), Wishes(), BackupBoiler(fuel="lpg"))
    assert 0.09 < prices.backup_fuel_kwh < 0.11


def test_wishes_weigh_backup_and_cold() -> None:
    """Avoided weighs twice; nights only weighs by day; comfort doubles cold rooms."""
    given_prices, lpg = Prices(cold_degree_hour=0.2), BackupBoiler(fuel="lpg")

    def of(**wishes: str) -> tuple[float, float, float]:
        prices, _ = plan_prices(given_prices, Wishes(presence=Presence(), **wishes), lpg)  # type: ignore[arg-type]  # plain words here
        return prices.backup_weight_day, prices.backup_weight_night, prices.cold_kh

    assert of(backup="avoid") == (2.0, 2.0, 0.2)
    assert of(backup="nights_only") == (2.0, 1.0, 0.2)
    assert of(backup="by_price", warm_first="comfort") == (1.0, 1.0, 0.4)
    assert of(backup="by_price", warm_first="thrift") == (1.0, 1.0, 0.1)
