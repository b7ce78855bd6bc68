"""Each kind of bad input gets one clear sentence."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from tests.season.plants import PLANT, ROOMS, changed, prepared, still, winter
from woodreeve.errors import OutOfRange, Refused, Unknown, WoodreeveError
from woodreeve.house.dynamic import zone_dynamics
from woodreeve.plant.fields import Circuit, Plant, StoreSensor
from woodreeve.season.inputs import Fault, Fire, FiringRule, Hours
from woodreeve.season.run import Case, run
from woodreeve.season.setup import Settings, prepare

CURVE = replace(PLANT.circuits[0], design_flow_c=25.0)
MILD = replace(PLANT.circuits[0], design_outdoor_c=18.0)
UPSIDE_DOWN = (StoreSensor(name="low", height=0.1), StoreSensor(name="top", height=0.9))


@pytest.mark.parametrize(
    ("plant", "kind", "words"),
    [
        (
            changed(store={"charge_in_height": 0.2, "charge_out_height": 0.9}),
            OutOfRange,
            "charge_in_height is 0.2",
        ),
        (
            changed(store={"heating_out_height": 0.1, "heating_back_height": 0.1}),
            OutOfRange,
            "heating_out_height",
        ),
        (changed(store={"hot_water_out_height": 0.1}), OutOfRange, "hot_water_out_height is 0.1"),
        (
            changed(store={"sensors": (StoreSensor(name="T1", height=1.2),)}),
            OutOfRange,
            "thermometer T1 is 1.2",
        ),
        (changed(store={"sensors": UPSIDE_DOWN}), OutOfRange, "listed from the top down"),
        (changed(store={"litres": 0.0}), OutOfRange, "litres of the store is 0 L, but must be more than 0 L"),
        (changed(store={"litres": None}), Unknown, "store's content"),
        (changed(boiler={"output_kw": None}), Unknown, "rated output"),
        (
            changed(store={"tanks": 2, "arrangement": "parallel"}),
            Refused,
            "2 tanks joined in parallel are not modelled",
        ),
        (changed(store={"arrangement": "series"}), Refused, "One tank cannot be joined in series"),
        (changed(store={"kind": "combination_store"}), Refused, "A combination store is not modelled"),
        (changed(store={"kind": "fresh_water_station"}), Refused, "A fresh water station is not modelled"),
        (replace(PLANT, circuits=(CURVE,)), OutOfRange, "must rise as it gets colder"),
        (replace(PLANT, circuits=(MILD,)), OutOfRange, "design_outdoor_c of the circuit downstairs is 18"),
        (replace(PLANT, circuits=(Circuit(name="a"),) * 3), Refused, "3 heating circuits are not modelled"),
    ],
)
def test_a_plant_that_cannot_be_is_refused(plant: Plant, kind: type[WoodreeveError], words: str) -> None:
    """The sentence names field, value and what is allowed."""
    with pytest.raises(kind, match=words) as caught:
        prepared(plant)
    assert str(caught.value).count("\n") == 0


@pytest.mark.parametrize(
    ("act", "words"),
    [
        (lambda: Settings(step_s=70), "step_s is 70 s"),
        (lambda: Settings(step_s=0), "step_s is 0 s"),
        (lambda: Settings(step_s=600), "step_s is 600 s"),
        (lambda: prepared(settings=Settings(layers=3)), "layers is 3"),
        (lambda: prepared(settings=Settings(layers=1000)), "layers is 1000"),
        (lambda: run(Case(prepared=prepared(), hours=Hours(outdoor_c=np.array([])))), "outdoor_c is empty"),
        (lambda: run(Case(prepared=prepared(), hours=still(24, cold_water_c=np.zeros(3)))), "3 long"),
        (
            lambda: run(Case(prepared=prepared(), hours=still(2, cold_water_c=np.nan))),
            "a number in every hour",
        ),
        (
            lambda: run(Case(prepared=prepared(), hours=still(2, tap_powers_w=np.zeros(24)))),
            "tap_powers_w is 24 long",
        ),
        (
            lambda: run(Case(prepared=prepared(), hours=still(2), firing=(Fire(hour=1.0, kg=-3.0),))),
            "fire is -3 kg",
        ),
        (
            lambda: run(
                Case(prepared=prepared(), hours=still(2), firing=(Fire(hour=1.0, kg=3.0, moisture=20.0),))
            ),
            "moisture 20",
        ),
        (
            lambda: run(Case(prepared=prepared(), hours=still(2), firing=FiringRule(hours=(25,)))),
            "hours of the firing rule",
        ),
        (
            lambda: run(Case(prepared=prepared(), hours=still(2), firing=FiringRule(kg=0.0))),
            "kg of the firing rule is 0",
        ),
        (
            lambda: run(
                Case(
                    prepared=prepared(),
                    hours=still(2),
                    faults=(Fault(kind="power_cut", from_hour=2.0, until_hour=1.0),),
                )
            ),
            "until_hour of the fault is 1",
        ),
        (lambda: zone_dynamics(90000.0, 95.0), "heat_loss"),
    ],
)
def test_a_run_that_cannot_be_is_refused(act: Callable[[], object], words: str) -> None:
    """The same for steps, series, fires, rules and faults."""
    with pytest.raises(OutOfRange, match=words):
        act()


def test_unknown_fields_are_told_and_bridged() -> None:
    """A bare description runs, and every fall-back is named."""
    bare = Plant(boiler=replace(PLANT.boiler, efficiency_net=None, fuel_space_litres=None), store=PLANT.store)
    ready = prepare(bare, ROOMS)
    told = " ".join(ready.assumed)
    for word in (
        "Efficiency of the log boiler",
        "full load for 4 h",
        "No heating circuit",
        "cylinder",
        "coil",
    ):
        assert word in told
    assert run(Case(prepared=ready, hours=winter(1))).store_balance().open_share < 1e-9


def test_a_store_of_another_number_of_layers_is_refused() -> None:
    """The kernel would read beside the array."""
    with pytest.raises(OutOfRange, match="store_c is 20 long, but must be 30 long"):
        replace(prepared(), store_c=np.full(20, 60.0))
