"""Hot-water hygiene, wood by the boiler, days away, and summer."""

from dataclasses import replace

import numpy as np
import pytest

from tests.firing.grounds import ASH, days_ahead, ground
from tests.season.plants import PLANT, changed, prepared
from woodreeve.errors import OutOfRange
from woodreeve.firing.hygiene import hygiene_kept
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.quiet_times import away_plan, summer_plan
from woodreeve.firing.search import Laid, search
from woodreeve.firing.stockroom import bring_in

HOUSE = 1000.0 * np.array([950.0, 24700.0, 950.0, 15675.0])
FIRES = (Laid(17.0, 30.0, 0, "light"), Laid(41.0, 20.0, 0, "light"), Laid(44.0, 10.0, 0, "refill"))
NO_RAIN = np.zeros(72)


def hot_cylinder(**more: object):  # type: ignore[no-untyped-def]  # noqa: ANN201  # a plant
    """A cylinder set to 60 °C that begins cool."""
    plant = changed(cylinder={"target_c": 60.0, "hygiene_c": 60.0, **more})
    made = prepared(plant)
    return plant, replace(made, cylinder_c=np.full(made.cylinder.layers, 45.0))


def test_a_plan_with_fires_keeps_the_hot_water_hygienic() -> None:
    """The store heats the cylinder through."""
    plant, made = hot_cylinder()
    on = ground(72, plant=made, store_c=42.0)
    fires = search(on)[0].fires
    found = hygiene_kept(plant, made, days_ahead(3), fires, (ASH,), 72)
    assert found.kept
    assert found.by == "fires"
    assert found.at_h is not None
    assert found.at_h >= fires[0].hour


def test_without_a_fire_the_immersion_heater_must_see_to_it() -> None:
    """With the heat it takes."""
    plant, made = hot_cylinder(immersion_kw=3.0)
    made = replace(made, store_c=np.full(made.store.layers, 30.0))
    found = hygiene_kept(plant, made, days_ahead(2), (), (ASH,), 48, hours_since=24.0)
    assert (found.kept, found.by) == (True, "immersion")
    assert found.heat_kwh > 0.5
    assert found.due_h == pytest.approx(144.0)


def test_where_nothing_gets_hot_enough_nobody_keeps_it() -> None:
    """A backup set to 60 °C cannot bring a cylinder to 60 °C."""
    plant, made = hot_cylinder()
    made = replace(made, store_c=np.full(made.store.layers, 30.0))
    found = hygiene_kept(plant, made, days_ahead(2), (), (ASH,), 48)
    assert (found.kept, found.by) == (False, "nobody")
    hotter = changed(plant, backup={"flow_target_c": 70.0, "enabled": "by_hand"})
    assert hygiene_kept(hotter, made, days_ahead(2), (), (ASH,), 48).by == "backup"


def test_barrows_are_counted_up() -> None:
    """Sixty kilograms planned, twenty-five there: two barrows of twenty."""
    found = bring_in(FIRES, 25.0, NO_RAIN, barrow_kg=20.0, kindling_kg=1.5)
    assert (found.kg, found.barrows) == (35.0, 2.0)
    assert found.lacks_at_h == 17.0
    assert (found.kindling_lasts, found.lightings) == (1, 2)


def test_wood_is_brought_before_the_rain() -> None:
    """Or before the fire that would lack it."""
    rain = NO_RAIN.copy()
    rain[9] = 1.2
    assert bring_in(FIRES, 25.0, rain).before_h == 9.0
    assert bring_in(FIRES, 25.0, NO_RAIN).before_h == 17.0
    assert bring_in(FIRES, 90.0, rain).before_h is None


def test_no_more_is_brought_than_there_is_room_for() -> None:
    """By the boiler."""
    assert bring_in(FIRES, 25.0, NO_RAIN, holds_kg=40.0).kg == 15.0
    with pytest.raises(OutOfRange):
        bring_in(FIRES, -1.0, NO_RAIN)


def test_an_empty_house_freezes_sooner_in_harder_frost() -> None:
    """And the backup holds it."""
    made = prepared()
    hard, mild = (away_plan(made, days_ahead(9, mean_c=mean)) for mean in (-12.0, 7.0))
    assert hard.frost_at_h is not None
    assert mild.frost_at_h is None
    assert hard.backup_holds
    assert hard.backup_kwh > 10.0 * max(mild.backup_kwh, 1.0)
    assert hard.coldest_with_backup_c >= 5.0 > hard.coldest_c


def test_a_house_without_backup_is_not_held() -> None:
    """It is told so."""
    found = away_plan(prepared(changed(backup={"enabled": "never"})), days_ahead(9, mean_c=-12.0))
    assert not found.backup_holds
    assert found.backup_kwh == 0.0


def test_in_summer_the_dearer_of_wood_and_current_is_left_alone() -> None:
    """Free wood and dear current: fires; dear lightings and cheap current: none."""
    plant = changed(PLANT, cylinder={"immersion_kw": 3.0}, backup={"enabled": "never"})
    made, warm = prepared(plant), days_ahead(14, mean_c=18.0)
    dear = PlanPrices(lighting=0.2, electricity_kwh=1.0, tap_short_kwh=4.0)
    cheap = PlanPrices(lighting=8.0, electricity_kwh=0.05, tap_short_kwh=4.0)
    assert summer_plan(made, warm, replace(ASH, price_kg=0.0), dear, HOUSE)[0].every_days > 0
    ways = summer_plan(made, warm, ASH, cheap, HOUSE)
    assert ways[0].every_days == 0
    assert [way.money_day for way in ways] == sorted(way.money_day for way in ways)
