"""The kernel against what can be reckoned by hand: rest, cooling, plug flow, coils, curves, one charge."""

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.season.plants import PLANT, ROOMS, changed, column_of, prepared, still, winter
from woodreeve.house.dynamic import settled_air, step_matrices, zone_dynamics
from woodreeve.plant.boiler import boiler_efficiency, store_rise
from woodreeve.plant.fields import Circuit
from woodreeve.plant.hot_water import TAPPING, coil_power, tapping_heat, tapping_powers
from woodreeve.plant.layers import front_share, mixed_store_after, step_at_rest
from woodreeve.season import slots as s
from woodreeve.season.inputs import Fault, Fire, FiringRule, Hours
from woodreeve.season.run import Case, Result, run
from woodreeve.season.setup import FILL_KG_L, WATER_J_KG_K, Prepared, Settings

LAYERS = Settings().layers
QUIET = changed(cylinder={"loss_w_per_k": 1e-6}, store={"loss_w_per_k": 1e-9, "height_m": 2.0})


def with_store(ready: Prepared, temperatures: np.ndarray) -> Prepared:
    """The same plant with another store to begin with."""
    return replace(ready, store_c=np.asarray(temperatures, dtype=float))


@pytest.mark.parametrize("hours", [12, 24])
def test_a_resting_step_follows_the_error_function(hours: int) -> None:
    """Conduction alone: 0.10 m above the step the analytic profile stands, within 0.05 K."""
    ready = prepared(QUIET, settings=Settings(layers=200), hot_water=False)
    ready = with_store(ready, column_of(80.0, 40.0, 200))
    result = run(Case(prepared=ready, hours=still(hours)))
    heights = (np.arange(200) + 0.5) * 0.01 - 1.0
    wanted = [step_at_rest(80.0, 40.0, float(height), float(hours)) for height in heights]
    assert result.store_c[-1] == pytest.approx(wanted, abs=0.05)


def test_a_mixed_store_cools_as_newton_says() -> None:
    """A store of one temperature with standing loss, against the exponential."""
    plant = changed(store={"loss_w_per_k": 2.5, "litres": 1000.0 / FILL_KG_L})
    ready = with_store(prepared(plant, hot_water=False), np.full(LAYERS, 80.0))
    result = run(Case(prepared=ready, hours=still(24)))
    wanted = mixed_store_after(80.0, 15.0, 2.5, 1000.0, 24.0, WATER_J_KG_K / 1000.0)
    assert result.store_c[-1] == pytest.approx(np.full(LAYERS, wanted), abs=0.002)


def draw_through(layers: int, volumes: float, *, tanks: int = 1) -> tuple[np.ndarray, np.ndarray]:
    """Cold water creeps in at the bottom of a hot store; outlet over time, in store volumes.

    The heating loop is made to draw steadily, and what it feeds back is held at 20 °C.
    """
    plant = changed(
        QUIET,
        store={
            "heating_back_height": 0.0, "heating_out_height": 1.0, "charge_out_height": 0.0,
            "tanks": tanks, "arrangement": "series" if tanks > 1 else "single",
        },
    )  # fmt: skip
    ready = prepared(plant, settings=Settings(layers=layers, conduction_factor=0.0), hot_water=False)
    values = ready.values.copy()
    values[[s.RADIATOR_1_J_K, s.RADIATOR_2_J_K]] = 1e30
    values[[s.RADIATOR_1_C, s.RADIATOR_2_C]] = 20.0
    values[[s.RATED_1_W, s.RATED_2_W]] = 0.0
    values[[s.MIXING_1_STUCK, s.MIXING_2_STUCK]] = 1.0
    values[s.BACKUP_ALLOWED] = 0.0
    mass = 1500.0 * FILL_KG_L
    hours = 10
    values[s.FLOW_1_KG_S] = volumes * mass / (hours * 3600.0)
    values[s.FLOW_2_KG_S] = 0.0
    ready = with_store(replace(ready, values=values), np.full(layers, 80.0))
    case = Case(prepared=ready, hours=still(hours, outdoor_c=0.0, wanted_downstairs_c=60.0))
    result = run(case, record_every_h=1.0 / 60.0)
    drawn = result.hours[1:] / hours * volumes
    return drawn, (result.series(s.ROOMS_OUT_C)[1:] - 20.0) / 60.0


def stirred_tanks_of(layers: int) -> float:
    """How many stirred tanks would smear a front as much as so many layers do."""
    drawn, outlet = draw_through(layers, 1.4)
    width = np.interp(-0.1, -outlet, drawn) - np.interp(-0.9, -outlet, drawn)
    return float((2.56 / width) ** 2)


def test_plug_flow_leaves_half_the_heat_after_one_volume() -> None:
    """The front passes the outlet when one store volume has been drawn, smeared evenly."""
    drawn, outlet = draw_through(20, 1.4)
    assert np.interp(1.0, drawn, outlet) == pytest.approx(0.5, abs=0.06)
    assert np.interp(0.8, drawn, outlet) > front_share(100, 0.8)
    mean = np.trapezoid(outlet, drawn) + drawn[0]
    assert mean == pytest.approx(1.0, abs=0.01)


def test_the_scheme_holds_a_front_as_well_as_many_more_stirred_tanks() -> None:
    """Twenty layers smear like more than 100 stirred tanks; refining sharpens the front."""
    twenty, forty = stirred_tanks_of(20), stirred_tanks_of(40)
    assert twenty > 100.0
    assert forty > 1.8 * twenty


def test_two_half_stores_in_series_equal_one_store() -> None:
    """With flow in one direction and no conduction a joint makes no difference."""
    _, one = draw_through(40, 1.4)
    _, two = draw_through(40, 1.4, tanks=2)
    assert two == pytest.approx(one, abs=1e-12)


def test_tanks_in_series_do_not_stir_each_other() -> None:
    """At rest, heat stays in the lower of two tanks: nothing rises from one into the other."""
    plant = changed(QUIET, store={"tanks": 2, "arrangement": "series"})
    ready = with_store(prepared(plant, hot_water=False), column_of(40.0, 80.0, LAYERS))
    result = run(Case(prepared=ready, hours=still(6)))
    assert result.store_c[-1] == pytest.approx(column_of(40.0, 80.0, LAYERS), abs=1e-3)
    single = with_store(prepared(QUIET, hot_water=False), column_of(40.0, 80.0, LAYERS))
    charged = run(Case(prepared=single, hours=still(6), firing=(Fire(hour=0.1, kg=20.0),)))
    assert np.diff(charged.store_c[-1]).min() >= -1e-9


def test_a_full_charge_of_45_kw_lifts_2500_litres_by_about_60_kelvin() -> None:
    """Common practice: about four hours of fire, no draw, a boiler still lukewarm from the day before."""
    plant = changed(
        store={"litres": 2500.0, "height_m": 2.2, "loss_w_per_k": 4.0},
        boiler={"output_kw": 45.0, "fuel_space_litres": 250.0},
    )
    ready = with_store(prepared(plant, hot_water=False), np.full(LAYERS, 25.0))
    ready.values[s.BODY_C] = 35.0
    wood = 45.0 * 4.0 / 0.88 / 4.1
    result = run(Case(prepared=ready, hours=still(12), firing=(Fire(hour=0.0, kg=wood),)))
    rise = result.store_c.mean(axis=1).max() - 25.0
    assert rise == pytest.approx(60.0, abs=6.0)
    assert store_rise(result.kwh(s.CHARGED_J), 2500.0) == pytest.approx(rise, abs=2.5)


def test_a_fire_at_full_output_has_the_stated_efficiency() -> None:
    """Losses through flue, char and casing add up to what the plate says."""
    ready = prepared(changed(store={"litres": 20000.0}), store_c=30.0, hot_water=False)
    result = run(Case(prepared=ready, hours=still(4), firing=(Fire(hour=0.0, kg=56.0, moisture=0.18),)))
    rows = result.rows[3] - result.rows[2]
    to_water = 1.0 - (rows[s.FLUE_J] + rows[s.UNBURNT_J] + rows[s.CASING_J]) / rows[s.BURNT_J]
    assert to_water == pytest.approx(0.88, abs=0.01)
    assert rows[s.BURNT_J] / 3.6e6 == pytest.approx(25.0 / 0.88, rel=0.01)


@pytest.mark.parametrize(("moisture", "heat"), [(0.18, 4.1), (0.30, 3.4), (0.45, 2.5)])
def test_wetter_wood_burns_longer_and_wastes_more(moisture: float, heat: float) -> None:
    """The same heat in wetter wood gives less to the water."""
    ready = prepared(changed(store={"litres": 4000.0}), store_c=30.0, hot_water=False)

    def useful(wet: float, per_kg: float) -> tuple[float, float]:
        fire = Fire(hour=0.0, kg=80.0 / per_kg, moisture=wet, heat_kwh_per_kg=per_kg)
        result = run(Case(prepared=ready, hours=still(24), firing=(fire,)))
        return result.kwh(s.CHARGED_J), result.total(s.FIRE_S)

    dry, quick = useful(0.10, 4.5)
    wet, slow = useful(moisture, heat)
    assert wet < dry
    assert slow >= quick


def test_the_return_stays_warm_while_the_store_is_cold() -> None:
    """The return valve keeps the boiler's inlet at its temperature once the fire is up."""
    ready = prepared(store_c=25.0, hot_water=False)
    result = run(Case(prepared=ready, hours=still(4), firing=(Fire(hour=0.0, kg=56.0),)), record_every_h=0.25)
    pumping = result.series(s.CHARGE_KG_S) > 0.0
    full = ready.values[s.PUMP_KG_S]
    share = result.series(s.CHARGE_KG_S)[pumping] / full
    inlet = share * result.series(s.BOTTOM_C)[pumping] + (1.0 - share) * result.series(s.CHARGE_IN_C)[pumping]
    assert inlet.size > 5
    assert inlet == pytest.approx(np.full(inlet.size, 60.0), abs=1e-6)


def test_a_coil_lifts_its_cylinder_by_the_heat_it_carries() -> None:
    """Twenty kelvin in twenty minutes ask for the power that the formula states."""
    plant = changed(
        cylinder={
            "litres": 200.0,
            "coil_kw": 21.0,
            "coil_flow_kg_h": 3000.0,
            "target_c": 75.0,
            "hysteresis_k": 1.0,
        }
    )
    ready = with_store(prepared(plant), np.full(LAYERS, 85.0))
    ready = replace(ready, cylinder_c=np.full(6, 40.0))
    result = run(Case(prepared=ready, hours=still(2)), record_every_h=1.0 / 60.0)
    lift = result.cylinder_c.mean(axis=1) - 40.0
    minutes = float(np.interp(20.0, lift, result.hours * 60.0))
    power = (
        np.interp(minutes, result.hours * 60.0, result.series(s.STORE_TO_COIL_J)) / minutes / 60.0 / 1000.0
    )
    assert 10.0 < minutes < 40.0
    assert power == pytest.approx(coil_power(200.0, 20.0, minutes), rel=0.03)


def test_two_coils_in_series_lift_faster_than_one() -> None:
    """The second coil, over the whole height, shortens the lift at the same rating."""

    def heat(second: str) -> float:
        plant = changed(cylinder={"second_coil": second, "coil_kw": 40.0 if second == "in_series" else 20.0})
        ready = replace(with_store(prepared(plant), np.full(LAYERS, 80.0)), cylinder_c=np.full(6, 20.0))
        return float(
            run(Case(prepared=ready, hours=still(1)), record_every_h=0.25).series(s.STORE_TO_COIL_J)[1]
        )

    assert heat("in_series") > 1.2 * heat("none")


@pytest.mark.parametrize("profile", ["S", "M", "L", "XL", "XXL"])
def test_each_tapping_profile_runs_whole(profile: str) -> None:
    """A hot cylinder with its backup gives every draw of the day, and the day's heat adds up."""
    plant = changed(cylinder={"litres": 400.0, "coil_kw": 30.0, "target_c": 60.0}, store={"litres": 3000.0})
    ready = with_store(prepared(plant), np.full(LAYERS, 85.0))
    ready = replace(ready, cylinder_c=np.full(6, 60.0))
    powers = tapping_powers(profile)  # type: ignore[arg-type]  # parametrised over the names
    result = run(Case(prepared=ready, hours=still(24, tap_powers_w=powers)))
    assert powers.sum() / 60.0 / 1000.0 == pytest.approx(tapping_heat(profile), rel=1e-9)  # type: ignore[arg-type]
    assert result.kwh(s.TAPPED_J) == pytest.approx(tapping_heat(profile), rel=0.02)  # type: ignore[arg-type]
    assert result.kwh(s.TAP_SHORT_J) < 0.02 * tapping_heat(profile)  # type: ignore[arg-type]
    assert len(TAPPING[profile]) >= 11


def test_a_cold_cylinder_leaves_the_taps_short() -> None:
    """Without heat the draws are booked as short, not as given."""
    ready = prepared(store_c=15.0)
    values = ready.values.copy()
    values[s.BACKUP_ALLOWED] = 0.0
    ready = replace(ready, values=values, cylinder_c=np.full(6, 15.0))
    result = run(Case(prepared=ready, hours=still(24, tap_powers_w=tapping_powers("M"))))
    assert result.kwh(s.TAP_SHORT_J) > 0.7 * tapping_heat("M")


def test_rooms_settle_where_heat_and_loss_balance() -> None:
    """Steady heat and steady cold end at the balance of heat."""
    matrix, inputs, loss = step_matrices(ROOMS, 60.0)
    state = np.linalg.solve(np.eye(4) - matrix, inputs @ np.array([0.0, 3000.0, 0.0, 2500.0, 0.0]))
    assert loss @ np.concatenate([state, [0.0, 3000.0, 0.0, 2500.0, 0.0]]) == pytest.approx(5500.0, rel=1e-9)
    alone = zone_dynamics(200.0, 95.0)
    both = replace(ROOMS, downstairs=alone, upstairs=alone, across_w_k=0.0)
    matrix, inputs, _ = step_matrices(both, 60.0)
    state = np.linalg.solve(np.eye(4) - matrix, inputs @ np.array([0.0, 4000.0, 0.0, 0.0, 0.0]))
    assert state[0] == pytest.approx(settled_air(0.0, 4000.0, 200.0), rel=1e-9)


def test_steps_of_any_length_give_the_same_rooms() -> None:
    """The rooms are stepped exactly: sixty steps of a minute equal one of an hour."""
    short, short_in, _ = step_matrices(ROOMS, 60.0)
    long, long_in, _ = step_matrices(ROOMS, 3600.0)
    heat = np.array([-5.0, 2000.0, 500.0, 1500.0, 100.0])
    state = np.array([20.0, 19.0, 18.0, 18.5])
    stepped = state
    for _ in range(60):
        stepped = short @ stepped + short_in @ heat
    assert stepped == pytest.approx(long @ state + long_in @ heat, abs=1e-9)


def test_an_unheated_house_cools_towards_outdoors() -> None:
    """Without any heat the rooms fall exponentially and never below outdoors."""
    plant = changed(backup={"enabled": "never"})
    hours = Hours(outdoor_c=np.zeros(24 * 30), inside_downstairs_w=0.0, inside_upstairs_w=0.0)
    result = run(Case(prepared=prepared(plant, store_c=15.0, hot_water=False), hours=hours))
    rooms = result.series(s.AIR_1_C)
    assert np.diff(rooms[24:]).max() <= 1e-9
    assert 0.0 < rooms[-1] < 3.0


def test_night_set_back_lowers_the_room() -> None:
    """A lower wish at night is followed, and saves heat."""
    plain = run(
        Case(prepared=prepared(), hours=winter(6, wanted_downstairs_c=20.0), firing=FiringRule(kg=25.0))
    )
    lowered = run(Case(prepared=prepared(), hours=winter(6), firing=FiringRule(kg=25.0)))
    night = slice(24 * 3 + 5, None, 24)
    assert (lowered.series(s.AIR_1_C)[night] < plain.series(s.AIR_1_C)[night] - 0.3).all()
    assert lowered.kwh(s.HOUSE_LOSS_J) < plain.kwh(s.HOUSE_LOSS_J)


def heat_to_backup(result: Result) -> float:
    """Heat that the backup gave to rooms and taps."""
    return result.kwh(s.BACKUP_TO_ROOMS_J) + result.kwh(s.BACKUP_TO_COIL_J) + result.kwh(s.BACKUP_TO_STORE_J)


def test_fires_save_backup_heat() -> None:
    """With a fire each evening the backup has little to do; without, all."""
    without = run(Case(prepared=prepared(), hours=winter(10)))
    with_fires = run(Case(prepared=prepared(), hours=winter(10), firing=FiringRule(kg=35.0, below_c=65.0)))
    assert heat_to_backup(with_fires) < 0.35 * heat_to_backup(without)
    assert with_fires.series(s.AIR_1_C)[48:].min() > 15.5


def test_the_backup_waits_for_the_fire() -> None:
    """Where the boiler's controller says so, no burner runs beside a fire."""
    fires = tuple(Fire(hour=6.0 + 24 * day, kg=40.0) for day in range(6))
    result = run(
        Case(prepared=prepared(store_c=20.0), hours=winter(6), firing=fires), record_every_h=1.0 / 60.0
    )
    both = (result.series(s.BURNER_ON) > 0.0) & (result.series(s.BURNING) > 0.0)
    assert result.total(s.BACKUP_S) > 0.0
    assert not both[1:].any()


def test_a_hotter_curve_draws_the_store_down_sooner() -> None:
    """Large radiators with a flat curve use the store down to a lower temperature."""
    steep = tuple(replace(c, design_flow_c=70.0) for c in PLANT.circuits)
    flat = tuple(replace(c, design_flow_c=40.0, rated_w=30000.0) for c in PLANT.circuits)
    returns = []
    for circuits in (steep, flat):
        plant = replace(changed(backup={"enabled": "never"}), circuits=circuits)
        result = run(Case(prepared=prepared(plant, store_c=75.0, hot_water=False), hours=winter(1)))
        returns.append(result.store_c[:, 0].min())
    assert returns[1] < returns[0] - 3.0


def test_one_circuit_is_shared_by_both_zones() -> None:
    """A plant with one circuit heats both zones from it."""
    plant = replace(PLANT, circuits=(Circuit(name="all", design_outdoor_c=-8.0, design_flow_c=55.0),))
    result = run(Case(prepared=prepared(plant), hours=winter(5), firing=FiringRule(kg=25.0)))
    assert result.kwh(s.RADIATED_1_J) > 0.0
    assert result.kwh(s.RADIATED_2_J) > 0.0
    assert result.series(s.AIR_2_C)[48:].min() > 15.0


def test_stated_efficiency_matches_the_formula() -> None:
    """The kernel's losses at full output are those of the worked formula."""
    ready = prepared()
    flue = 75.0 + ready.values[s.FLUE_RISE_K]
    assert boiler_efficiency(flue, 0.18, unburnt=ready.values[s.UNBURNT]) == pytest.approx(0.88, abs=0.002)
    assert math.isfinite(flue)


def test_a_fault_of_night_circulation_costs_heat() -> None:
    """Water creeping back through the cold boiler warms the boiler room all night."""
    calm = run(Case(prepared=prepared(store_c=70.0, hot_water=False), hours=still(24)))
    fault = Fault(kind="night_circulation", from_hour=0.0, value=0.01)
    creeping = run(Case(prepared=prepared(store_c=70.0, hot_water=False), hours=still(24), faults=(fault,)))
    assert creeping.kwh(s.CREPT_J) > 3.0
    assert creeping.store_c[-1].mean() < calm.store_c[-1].mean() - 2.0
