"""What follows when power, pump or valve fail, when the store is hot already, or the wood is wet."""

from dataclasses import replace

from tests.season.plants import PLANT, changed, prepared, still, winter
from woodreeve.plant.fields import Plant
from woodreeve.season import slots as s
from woodreeve.season.inputs import Fault, Fire
from woodreeve.season.run import Case, run
from woodreeve.season.safety import WhatFollowed, what_followed

NO_ESCAPE = replace(PLANT, heat_escapes=())
FIRE = (Fire(hour=0.5, kg=45.0),)
SMALL = (Fire(hour=0.5, kg=20.0),)


def course(
    *faults: Fault,
    plant: Plant = PLANT,
    fires: tuple[Fire, ...] = FIRE,
    store_c: float = 40.0,
    electric: bool = False,
) -> WhatFollowed:
    """Run a day with a fire and some faults, minute by minute."""
    ready = prepared(plant, store_c=store_c, hot_water=False)
    case = Case(prepared=ready, hours=still(24), firing=fires, faults=faults, electric_discharge=electric)
    return what_followed(run(case, record_every_h=1.0 / 60.0))


def test_a_sound_plant_never_opens_its_discharge() -> None:
    """With pump, power and room in the store nothing needs to be cooled away."""
    sound = course(fires=SMALL)
    assert sound.discharge_opens_at_h is None
    assert sound.discharge_litres == 0.0
    assert sound.hottest_boiler_c < 92.0
    assert sound.calm_at_h is not None


def test_a_dead_pump_opens_the_discharge() -> None:
    """With the fan running on, the boiler passes 95 °C; the discharge holds it below boiling."""
    failed = course(Fault(kind="pump_failure", from_hour=1.5))
    assert failed.discharge_opens_at_h is not None
    assert failed.discharge_opens_at_h > 1.5
    assert failed.discharge_litres > 10.0
    assert 95.0 <= failed.hottest_boiler_c < 110.0
    assert failed.steam_kwh == 0.0


def test_without_a_discharge_a_dead_pump_makes_steam() -> None:
    """The heat of the embers has nowhere to go."""
    failed = course(Fault(kind="pump_failure", from_hour=1.5), plant=NO_ESCAPE)
    assert failed.discharge_opens_at_h is None
    assert failed.hottest_boiler_c > 110.0
    assert failed.steam_kwh > 0.0


def test_a_power_cut_stops_the_fan_but_not_the_heat() -> None:
    """The fire slumbers on: the boiler warms without pump, more gently than with a dead pump alone."""
    cut = course(Fault(kind="power_cut", from_hour=1.5, until_hour=12.0), fires=SMALL)
    dead = course(Fault(kind="pump_failure", from_hour=1.5, until_hour=12.0), fires=SMALL)
    assert cut.hottest_boiler_c > 85.0
    assert cut.discharge_litres <= dead.discharge_litres
    assert cut.calm_at_h is not None


def test_a_discharge_fed_by_an_electric_pump_fails_with_the_power() -> None:
    """The caution about a well pump, in figures."""
    cut = Fault(kind="power_cut", from_hour=1.5)
    plant = changed(boiler={"air": "natural_draught"})
    on_mains = course(cut, plant=plant)
    on_pump = course(cut, plant=plant, electric=True)
    assert on_mains.discharge_litres > 0.0
    assert on_pump.discharge_litres == 0.0
    assert on_pump.hottest_boiler_c > on_mains.hottest_boiler_c + 3.0


def test_lighting_with_a_hot_store_throttles_the_fire() -> None:
    """The store has no room: the boiler runs hot and the fire is held back for hours."""
    cool, hot = course(store_c=30.0, fires=SMALL), course(store_c=85.0, fires=SMALL)
    assert hot.hottest_boiler_c > cool.hottest_boiler_c + 4.0
    assert hot.calm_at_h is None or cool.calm_at_h is None or hot.calm_at_h > cool.calm_at_h


def test_a_stuck_return_valve_lets_cold_water_into_the_boiler() -> None:
    """Stuck open, the boiler's water stays below its return temperature for a while."""

    def warm_hours(*faults: Fault) -> float:
        ready = prepared(store_c=20.0, hot_water=False)
        result = run(
            Case(prepared=ready, hours=still(4), firing=FIRE, faults=faults), record_every_h=1.0 / 60.0
        )
        return float(((result.series(s.BODY_C) > 72.0) & (result.series(s.BURNING) > 0.0)).mean())

    assert warm_hours(Fault(kind="return_valve_stuck", from_hour=0.0, value=1.0)) < 0.5 * warm_hours()


def test_a_stuck_mixing_valve_overheats_the_circuit() -> None:
    """Stuck open, the radiators get the store's full heat."""
    fault = Fault(kind="mixing_valve_stuck", from_hour=0.0, value=1.0)
    hottest = []
    for faults in ((), (fault,)):
        case = Case(prepared=prepared(store_c=80.0), hours=winter(2), faults=faults)
        hottest.append(run(case, record_every_h=0.25).series(s.RADIATOR_1_C).max())
    assert hottest[1] > hottest[0] + 10.0


def test_wet_wood_gives_less_heat_and_a_longer_fire() -> None:
    """The same mass of wet wood: less heat, burnt more slowly."""
    dry = Fire(hour=0.5, kg=30.0, moisture=0.15, heat_kwh_per_kg=4.2)
    wet = Fire(hour=0.5, kg=30.0, moisture=0.40, heat_kwh_per_kg=2.8)
    ready = prepared(store_c=30.0, hot_water=False)
    results = [run(Case(prepared=ready, hours=still(24), firing=(fire,))) for fire in (dry, wet)]
    assert results[1].kwh(s.CHARGED_J) < 2.8 / 4.2 * results[0].kwh(s.CHARGED_J)
    slowness = [result.total(s.FIRE_S) / result.kwh(s.BURNT_J) for result in results]
    assert slowness[1] > 1.2 * slowness[0]


def test_wood_that_does_not_fit_is_told() -> None:
    """More than the fuel space holds is refused and counted."""
    result = run(Case(prepared=prepared(hot_water=False), hours=still(2), firing=(Fire(hour=0.5, kg=90.0),)))
    assert result.total(s.REFUSED_KG) > 30.0
    assert result.total(s.LOADED_KG) + result.total(s.REFUSED_KG) == 90.0


def test_a_refill_keeps_the_fire_going_without_a_new_lighting() -> None:
    """Wood put on a burning fire counts as refill and lengthens it."""
    ready = prepared(changed(store={"litres": 4000.0}), store_c=30.0, hot_water=False)
    once = run(Case(prepared=ready, hours=still(24), firing=(Fire(hour=0.5, kg=25.0),)))
    refill = (Fire(hour=0.5, kg=25.0), Fire(hour=2.5, kg=25.0))
    twice = run(Case(prepared=ready, hours=still(24), firing=refill))
    assert (twice.total(s.FIRES), twice.total(s.REFILLS)) == (1.0, 1.0)
    assert twice.total(s.FIRE_S) > once.total(s.FIRE_S) + 3600.0


def test_after_the_fire_some_char_stays_for_the_next() -> None:
    """Embers die down to a rest that the next fire burns."""
    ready = prepared(store_c=30.0, hot_water=False)
    result = run(Case(prepared=ready, hours=still(48), firing=FIRE))
    assert 0.0 < result.rows[-1, s.FUEL_J] < 0.03 * result.total(s.LOADED_J)
