"""Plants tried against each other: what is varied, where the knee lies, what a step buys and costs."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.answers.demo import demo
from woodreeve.answers import design
from woodreeve.errors import OutOfRange, Refused, Unknown
from woodreeve.plant.fields import LogBoiler, Plant, Store
from woodreeve.season.inputs import FiringRule, rule_events, rule_values
from woodreeve.season.knee import bigger_store, knee_of_store, running_cost, worth_of_saving
from woodreeve.season.sizes import Choices, boilers_to_try, plant_of, stores_to_try
from woodreeve.season.slots import RULE_HOUR_A, RULE_HOUR_B
from woodreeve.wording.sentences import sentence
from woodreeve.workings.load import load_all
from woodreeve.workings.why import figures_of, open_figure

FEW = Choices(
    boilers_kw=(15.0, 25.0),
    stores_litres=(750.0, 1500.0, 3000.0),
    insulations=("as_it_is", "house_insulated"),
    presences=("evening", "all_day"),
)


@lru_cache(maxsize=1)
def few() -> design.Tried:
    """A small sweep of the demonstration, run once."""
    return design.tried(demo(), FEW)


def answer(**picks: object) -> design.DesignAnswer:
    """The small sweep, with something picked."""
    return design.weighed(demo(), few(), design.Picked(**picks))  # type: ignore[arg-type]  # tests pick by name


def test_every_variant_is_run_through_every_winter() -> None:
    """Two boilers, three stores, two insulations, two presences, three winters."""
    sweep = few().sweep
    assert len(sweep.variants) == FEW.count == 24
    keys = {(v.boiler_kw, v.store_litres, v.insulation, v.presence) for v in sweep.variants}
    assert len(keys) == 24
    assert all(len(variant.winters) == 3 for variant in sweep.variants)


def test_the_hard_winter_takes_more_than_the_typical_one() -> None:
    """More heat for every plant, whatever gives it."""
    for variant in few().sweep.variants:
        typical, _, hard = variant.winters
        assert hard.water_kwh + hard.backup_kwh > typical.water_kwh + typical.backup_kwh


def test_a_larger_store_is_lit_for_less_often_and_leaves_less_to_the_backup() -> None:
    """With the backup's heat counted in; and for somebody there all day even without."""
    found = answer()
    for presence in FEW.presences:
        small, middle, large = found.lines_of(25.0, "as_it_is", presence)
        assert small.fires_for_all.value > middle.fires_for_all.value > large.fires_for_all.value - 5.0
        assert small.backup_share[0].value > large.backup_share[0].value
    small, _, large = found.lines_of(25.0, "as_it_is", "all_day")
    assert small.fires[0].value > large.fires[0].value


def test_who_is_at_home_all_day_needs_less_backup() -> None:
    """More looks at the store, more of the heat from wood."""
    found = answer()
    for litres in FEW.stores_litres:
        evening = found.line(15.0, litres, "as_it_is", "evening")
        all_day = found.line(15.0, litres, "as_it_is", "all_day")
        assert all_day.backup_share[0].value < evening.backup_share[0].value


def test_a_better_insulated_house_takes_less_wood() -> None:
    """By somebody at home all day, who burns what the house takes."""
    found = answer()
    told = found.line(25.0, 3000.0, "as_it_is", "all_day")
    insulated = found.line(25.0, 3000.0, "house_insulated", "all_day")
    assert insulated.wood_kg[0].value < 0.9 * told.wood_kg[0].value


def test_a_variant_does_not_depend_on_its_neighbours() -> None:
    """Alone it gives the same bits as among others."""
    alone = Choices(
        boilers_kw=(25.0,), stores_litres=(1500.0,), insulations=("as_it_is",), presences=("all_day",)
    )
    (one,) = design.tried(demo(), alone).sweep.variants
    among = next(
        v
        for v in few().sweep.variants
        if (v.boiler_kw, v.store_litres, v.insulation, v.presence) == (25.0, 1500.0, "as_it_is", "all_day")
    )
    assert one == among


def test_progress_is_told_and_can_stop_the_runs() -> None:
    """The share rises to one; a no ends the work in one sentence."""
    told: list[float] = []
    small = replace(FEW, boilers_kw=(25.0,), insulations=("as_it_is",), presences=("evening",))
    design.tried(demo(), small, lambda share: told.append(share) is None)
    assert told == sorted(told)
    assert told[-1] == pytest.approx(1.0)
    with pytest.raises(Refused, match="stopped"):
        design.tried(demo(), small, lambda _: False)


def test_the_knee_is_where_no_further_step_spares_enough() -> None:
    """A later good step moves it beyond; an easy wish moves it out to the largest."""
    stores, fires = (500.0, 1000.0, 1500.0, 2500.0), (300.0, 250.0, 245.0, 205.0)
    assert knee_of_store(stores, fires, 60.0).litres == 500.0
    assert knee_of_store(stores, fires, 30.0).litres == 1000.0
    beyond = knee_of_store(stores, fires, 10.0)
    assert (beyond.litres, beyond.reached) == (2500.0, False)
    assert beyond.spared == pytest.approx((50.0, 5.0, 20.0))


@given(
    st.lists(st.floats(0.0, 400.0), min_size=2, max_size=9),
    st.floats(0.5, 100.0),
)
def test_past_the_knee_every_step_spares_less_than_wanted(fires: list[float], least: float) -> None:
    """And the step that leads to it spares at least as much, where it is not the first."""
    stores = tuple(500.0 * (n + 1) for n in range(len(fires)))
    knee = knee_of_store(stores, tuple(fires), least)
    at = stores.index(knee.litres)
    assert all(one < least for one in knee.spared[at:])
    assert at == 0 or knee.spared[at - 1] >= least
    assert knee.reached == (at < len(stores) - 1)


@pytest.mark.parametrize(
    ("stores", "fires"), [((500.0,), (10.0,)), ((500.0, 500.0), (10.0, 9.0)), ((500.0, 900.0), (1.0,))]
)
def test_a_knee_needs_stores_that_grow_with_firings_for_each(
    stores: tuple[float, ...], fires: tuple[float, ...]
) -> None:
    """Told in one sentence."""
    with pytest.raises(OutOfRange):
        knee_of_store(stores, fires)


def test_what_a_step_buys_is_the_difference_of_the_two() -> None:
    """And only a larger store can be bought over a smaller one."""
    small, large = few().sweep.variants[0], few().sweep.variants[2]
    assert (small.store_litres, large.store_litres) == (750.0, 1500.0)
    bought = bigger_store(small, large)
    assert bought.backup_kwh == small.winters[0].backup_kwh - large.winters[0].backup_kwh
    with pytest.raises(OutOfRange):
        bigger_store(large, small)


def test_the_running_cost_is_wood_fuel_and_lightings() -> None:
    """Each by its own price."""
    winter = replace(few().sweep.variants[0].winters[0], backup_fuel_kwh=700.0, fires=100.0)
    cost = running_cost(
        winter, wood_price=100.0, stacked_m3=10.0, fuel_price=0.7, fuel_kwh=7.0, lighting_price=1.5
    )
    assert cost == pytest.approx(1000.0 + 70.0 + 150.0)


def test_a_saving_is_worth_its_present_value() -> None:
    """Twenty years at 3.5 % are 14.21 payments; without interest as many as there are years."""
    assert worth_of_saving(300.0, 200.0) == pytest.approx(1421.24, abs=0.01)
    assert worth_of_saving(300.0, 200.0, 20.0, 0.0) == pytest.approx(2000.0)
    assert worth_of_saving(200.0, 300.0) == 0.0


def test_sizes_to_try_suit_the_house_and_hold_what_is_there() -> None:
    """A boiler not weaker than the house; the owner's own sizes among them."""
    assert boilers_to_try(8.2, 25.0) == (15.0, 20.0, 25.0, 30.0)
    assert boilers_to_try(8.2, 27.0) == (15.0, 20.0, 27.0, 30.0)
    assert boilers_to_try(26.0)[0] == 30.0
    assert len(boilers_to_try(300.0)) == 4
    assert 1450.0 in stores_to_try(8.2, 1450.0)
    assert stores_to_try(25.0) == tuple(2.0 * one for one in stores_to_try(20.0))
    assert 4 * 9 * 3 * 3 >= 300


def test_what_goes_with_the_boiler_grows_with_it() -> None:
    """Fuel space and water; where nothing is told, a usual fuel space."""
    told = Plant(boiler=LogBoiler(output_kw=20.0, fuel_space_litres=100.0, water_litres=80.0), store=Store())
    made = plant_of(told, 40.0, 2000.0, "store_lagged")
    assert (made.boiler.fuel_space_litres, made.boiler.water_litres) == (200.0, 160.0)
    assert (made.store.litres, made.store.energy_class) == (2000.0, "A+")
    assert plant_of(Plant(), 30.0, 1000.0, "as_it_is").boiler.fuel_space_litres == 150.0


def test_a_rule_may_look_at_the_store_more_than_twice_a_day() -> None:
    """The later looks come as events, each after the one before; seven looks are refused."""
    rule = FiringRule(hours=(7, 10, 13, 17, 21))
    assert rule_values(rule)[RULE_HOUR_A] == 7.0
    events = rule_events(rule, 48, 8, 60)
    assert {event.row for event in events} == {RULE_HOUR_B}
    assert [event.value for event in events[:6]] == [10.0, 13.0, 17.0, 21.0, 7.0, 10.0]
    assert [event.step for event in events[:3]] == [0, 3 * 60, 6 * 60]
    assert rule_events(FiringRule(hours=(7, 17)), 48, 0, 60) == []
    with pytest.raises(OutOfRange, match="one to 6 hours"):
        rule_values(FiringRule(hours=tuple(range(7))))


def test_the_sentence_and_the_picks_go_to_the_nearest_variant() -> None:
    """What was not tried is answered by what lies next to it; the sentence has all its figures."""
    found = answer(boiler_kw=22.0, store_litres=1400.0, presence="all_day", least_spared=5.0)
    assert (found.picked.boiler_kw, found.picked.store_litres) == (25.0, 1500.0)
    assert found.picked_line.presence == "all_day"
    said = sentence(found.sentence)
    assert "25 kW" in said
    assert "{" not in said
    with pytest.raises(OutOfRange, match="spares"):
        answer(least_spared=0.0)


def test_without_prices_there_is_no_cost_and_the_missing_ones_are_named() -> None:
    """Nothing is made up."""
    text = "\n".join(
        line
        for line in demo().document.splitlines()
        if not line.startswith(("own_wood_stacked_m3", "backup_fuel_litre", "lighting ="))
    )
    poor = design.weighed(demo(text=text), few(), design.Picked())
    assert poor.picked_line.cost is None
    assert all(step.worth is None for step in poor.steps)
    assert poor.missing_prices == ("prices.own_wood_stacked_m3", "prices.backup_fuel", "prices.lighting")
    priced = answer()
    assert priced.missing_prices == ()
    assert priced.picked_line.cost is not None
    assert priced.picked_line.cost.value > 500.0


def test_a_house_without_a_plant_gets_an_answer_and_one_without_a_floor_none() -> None:
    """Design is for those who have nothing yet; but nobody can heat an unknown house."""
    text = demo().document
    begin, end = text.index("[plant]"), text.index("[yard.limits]")
    bare = demo(text=text[:begin] + text[end:])
    small = replace(FEW, boilers_kw=(20.0,), insulations=("as_it_is",), presences=("all_day",))
    found = design.answer(bare, choices=small)
    assert found.picked_line.fires[0].value > 50.0
    assert found.assumed
    with pytest.raises(Unknown):
        design.answer(demo(text=text.replace("floor_area_m2", "# floor_area_m2")), choices=small)


def test_every_figure_opens_to_a_source_or_to_what_the_owner_gave() -> None:
    """The sweep is one node, whose inputs are the holding and the weather."""
    load_all()
    small = replace(FEW, boilers_kw=(25.0,), insulations=("as_it_is",), presences=("evening",))
    with demo().traced() as fresh:
        found = design.answer(fresh, choices=small)
    for path, _ in figures_of(found):
        opened = open_figure(found, path)
        assert opened.sources, path
        assert not opened.loose, (path, opened.loose)
