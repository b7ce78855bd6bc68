"""Heat in equals heat out and heat kept, at every step size and number of layers."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.season.plants import CAPACITIES, PLANT, changed, prepared, winter
from woodreeve.plant.fields import Plant
from woodreeve.season import slots as s
from woodreeve.season.inputs import Fault, Fire, FiringRule
from woodreeve.season.run import Case, Result, run
from woodreeve.season.setup import Settings

CLOSES = 1e-9


def accounts(result: Result) -> dict[str, float]:
    """How far each account is open, as a share of what went through."""
    return {
        "store": result.store_balance().open_share,
        "cylinder": result.cylinder_balance().open_share,
        "boiler": result.boiler_balance().open_share,
        "house": result.house_balance(CAPACITIES).open_share,
    }


@pytest.mark.parametrize("step_s", [5, 20, 60, 120, 300])
@pytest.mark.parametrize("layers", [10, 20, 57])
def test_every_account_closes_at_every_step_and_number_of_layers(step_s: int, layers: int) -> None:
    """Store, cylinder, boiler and house each close to 1e-9 of the heat that went through."""
    ready = prepared(settings=Settings(step_s=step_s, layers=layers))
    result = run(Case(prepared=ready, hours=winter(6), firing=FiringRule(kg=22.0, below_c=55.0)))
    assert result.total(s.FIRES) >= 2
    assert max(accounts(result).values()) < CLOSES, accounts(result)


@pytest.mark.parametrize(
    "plant",
    [
        pytest.param(changed(store={"feeds": "direct_first"}), id="boiler heat direct to the rooms first"),
        pytest.param(changed(backup={"feeds": "store", "store_below_c": 55.0}), id="backup feeds the store"),
        pytest.param(changed(backup={"enabled": "always"}), id="backup always free"),
        pytest.param(changed(store={"tanks": 3, "arrangement": "series"}), id="three tanks in series"),
        pytest.param(changed(store={"stands_in": "heated_room"}), id="store in the house"),
        pytest.param(changed(boiler={"night_circulation": "yes"}), id="night circulation"),
        pytest.param(changed(cylinder={"coils": 2, "second_coil": "in_series"}), id="two coils in series"),
        pytest.param(changed(cylinder={"immersion_kw": 3.0}), id="immersion heater"),
    ],
)
def test_every_account_closes_for_every_kind_of_plant(plant: Plant) -> None:
    """The same for plants piped in other ways."""
    case = Case(
        prepared=prepared(plant), hours=winter(6, mean_c=-2.0), firing=FiringRule(kg=22.0, below_c=50.0)
    )
    assert max(accounts(run(case)).values()) < CLOSES, accounts(run(case))


def test_every_account_closes_through_faults() -> None:
    """Power cut, dead pump, stuck valves and creeping flow move heat, but lose none."""
    faults = (
        Fault(kind="power_cut", from_hour=3.0, until_hour=6.0),
        Fault(kind="pump_failure", from_hour=26.0, until_hour=30.0),
        Fault(kind="mixing_valve_stuck", from_hour=40.0, until_hour=60.0, value=1.0),
        Fault(kind="return_valve_stuck", from_hour=48.0, until_hour=80.0, value=1.0),
        Fault(kind="night_circulation", from_hour=60.0, until_hour=90.0, value=0.01),
    )
    fires = tuple(Fire(hour=1.0 + 24.0 * day, kg=30.0) for day in range(4))
    result = run(Case(prepared=prepared(), hours=winter(4), firing=fires, faults=faults))
    assert result.total(s.DISCHARGE_KG) > 0.0
    assert max(accounts(result).values()) < CLOSES, accounts(result)


@settings(max_examples=25, deadline=None)
@given(
    litres=st.floats(400.0, 6000.0),
    output=st.floats(12.0, 60.0),
    kg=st.floats(2.0, 60.0),
    mean=st.floats(-12.0, 14.0),
    start=st.floats(20.0, 88.0),
    step=st.sampled_from([30, 60, 120]),
)
def test_no_layer_leaves_what_physics_allows(
    litres: float, output: float, kg: float, mean: float, start: float, step: int
) -> None:
    """No layer is colder than all that feeds it, hotter than the boiler was, or under a colder one."""
    plant = changed(store={"litres": litres}, boiler={"output_kw": output, "fuel_space_litres": 8.0 * output})
    ready = prepared(plant, store_c=start, settings=Settings(step_s=step))
    result = run(Case(prepared=ready, hours=winter(3, mean_c=mean), firing=FiringRule(kg=kg, below_c=60.0)))
    store = result.store_c
    assert store.max() <= max(start, result.total(s.HOTTEST_BODY_C), 70.0) + 1e-9
    assert store.min() >= min(start, PLANT.store.room_c, 14.0, result.series(s.AIR_1_C).min()) - 1e-9
    assert np.diff(store, axis=1).min() >= -1e-9
    assert np.isfinite(result.rows).all()


@settings(max_examples=20, deadline=None)
@given(kg=st.floats(1.0, 40.0), more=st.floats(0.5, 15.0), moisture=st.floats(0.08, 0.45))
def test_more_wood_never_means_less_heat(kg: float, more: float, moisture: float) -> None:
    """A bigger fire brings at least as much heat to the store as a smaller one."""
    ready = prepared(changed(store={"litres": 3000.0}), store_c=30.0)

    def heat(wood: float) -> float:
        fire = Fire(hour=0.5, kg=wood, moisture=moisture)
        return run(Case(prepared=ready, hours=winter(2), firing=(fire,)), record_every_h=None).kwh(
            s.CHARGED_J
        )

    assert heat(kg + more) >= heat(kg)
