"""Room for a load, the span for a refill, and the rough plant that guides the search."""

from dataclasses import replace

import numpy as np
import pytest

from tests.firing.grounds import ASH, PLANT, days_ahead, ground
from tests.season.plants import ROOMS, column_of
from woodreeve.firing.ground import limits_of
from woodreeve.firing.polish import best_plan, polished
from woodreeve.firing.reduced import heat_wanted, rough_plant
from woodreeve.firing.room import refill_span, room_for_load
from woodreeve.firing.search import Laid, play, search
from woodreeve.season import slots as s
from woodreeve.season.inputs import Fire
from woodreeve.season.run import Case, run

FROST, MILD = days_ahead(2, mean_c=-4.0), days_ahead(2, mean_c=12.0)


def store(hot: float, cold: float, share: float = 0.5):  # type: ignore[no-untyped-def]  # noqa: ANN201  # a plant
    """The plant with hot water over cold."""
    return replace(PLANT, store_c=column_of(hot, cold, PLANT.store.layers, share))


def test_a_full_load_fits_a_cold_store_and_not_a_hot_one() -> None:
    """The hot one throttles the fire."""
    cold = room_for_load(store(45.0, 35.0), [FROST, MILD], ASH, 32.0, least_share=0.5)
    assert cold.fits
    assert cold.most_kg == 32.0
    hot = room_for_load(store(82.0, 75.0), [FROST, MILD], ASH, 40.0, least_share=0.5)
    assert not hot.fits
    assert hot.throttles
    assert hot.most_kg < 40.0


def test_the_mild_case_decides() -> None:
    """In frost the house takes more while the fire burns."""
    prepared = store(78.0, 45.0, 0.6)
    frost = room_for_load(prepared, [FROST], ASH, 40.0, least_share=0.5)
    both = room_for_load(prepared, [FROST, MILD], ASH, 40.0, least_share=0.5)
    assert both.hottest_boiler_c >= frost.hottest_boiler_c
    assert both.most_kg <= frost.most_kg


def test_more_than_the_firebox_holds_never_fits() -> None:
    """Whatever room the store has."""
    most = float(PLANT.values[s.SPACE_KG])
    assert not room_for_load(store(40.0, 30.0), [FROST], ASH, most + 5.0).fits


@pytest.mark.parametrize("seed", range(12))
def test_the_load_told_as_fitting_fits_when_played_alone(seed: int) -> None:
    """Random states and weathers: boiler and every layer below their limits with the tail heat."""
    dice = np.random.default_rng(seed)
    cold = float(dice.uniform(25.0, 60.0))
    prepared = store(cold + float(dice.uniform(5.0, 30.0)), cold, float(dice.uniform(0.1, 0.9)))
    weather = days_ahead(2, mean_c=float(dice.uniform(-6.0, 12.0)), seed=seed)
    check = room_for_load(prepared, [weather], ASH, float(dice.uniform(10.0, 40.0)), least_share=0.5)
    if check.most_kg == 0.0:
        return
    fire = (Fire(hour=0.0, kg=check.most_kg, heat_kwh_per_kg=4.1),)
    result = run(Case(prepared=prepared, hours=weather, firing=fire), record_every_h=0.25)
    until = 14 * 4
    assert result.rows[: until + 1, s.BODY_C].max() <= limits_of(prepared, 0.5).body_c
    assert result.store_c[: until + 1].max() <= float(prepared.values[s.STORE_LIMIT_C]) + 0.1
    assert result.rows[until, s.DISCHARGE_S] == 0.0


def test_a_least_output_lowers_what_the_boiler_may_reach() -> None:
    """And the discharge's opening is never come near."""
    assert limits_of(PLANT, 0.9).body_c < limits_of(PLANT, 0.3).body_c
    assert limits_of(PLANT, 0.0).body_c <= 93.0 + 0.1


def test_the_span_for_a_refill_begins_in_the_embers_and_ends_with_the_fire() -> None:
    """A tenth of the load or less is left; after the fan has stopped it would be a lighting."""
    prepared = store(45.0, 35.0)
    fire = Laid(1.0, 30.0, 0, "light")
    span = refill_span(prepared, FROST, [fire], (ASH,))
    assert span is not None
    lit = run(
        Case(prepared=prepared, hours=FROST, firing=(Fire(hour=1.0, kg=30.0, heat_kwh_per_kg=4.1),)),
        record_every_h=1.0 / 60.0,
    )
    left = lit.rows[:, s.FUEL_J] / 3.6e6 / (30.0 * 4.1)
    begins, ends = round(span.begins_h * 60), round(span.ends_h * 60)
    assert left[begins] <= 0.10
    assert left[begins - 6] > 0.10
    assert lit.rows[begins, s.BURNING] == 1.0
    assert lit.rows[ends, s.BURNING] == 0.0


def test_no_span_is_told_where_nothing_burns() -> None:
    """A cold boiler has no embers."""
    assert refill_span(store(45.0, 35.0), FROST, [], (ASH,)) is None


def test_the_rough_plant_knows_what_a_fire_gives() -> None:
    """Within a tenth of what the kernel books for one in between."""
    rough = rough_plant(PLANT, ROOMS, ASH)
    prepared = store(40.0, 35.0)
    fire = (Fire(hour=0.0, kg=30.0, heat_kwh_per_kg=4.1),)
    result = run(Case(prepared=prepared, hours=FROST, firing=fire))
    given = (result.rows[12, s.CHARGED_J] + result.rows[12, s.DIRECT_J]) / 3.6e6
    assert rough.useful_kwh(30.0 * 4.1) == pytest.approx(given, rel=0.1)


def test_more_is_wanted_in_frost() -> None:
    """And taps want some in summer."""
    frost, summer = heat_wanted(PLANT, FROST), heat_wanted(PLANT, days_ahead(2, mean_c=25.0))
    assert frost.heat_kwh.sum() > 3.0 * summer.heat_kwh.sum()
    assert summer.heat_kwh.sum() > 1.0


def test_heat_in_the_store_is_worth_money_and_more_is_worth_no_less() -> None:
    """At every hour of the guide."""
    guide = ground(48).guide
    energies = np.linspace(0.0, guide.most_kwh * 0.9, 12)
    for hour in (0.0, 10.0, 16.5, 30.0):
        cost = guide.at(hour, energies, np.zeros(12))
        assert (np.diff(cost) <= 1e-6).all()


def test_polishing_never_makes_a_plan_worse() -> None:
    """And what it finds keeps the limits."""
    on = ground(72, store_c=45.0, weather={"mean_c": 6.0, "seed": 9})
    rough = search(on, width=3, finer=1)[0]
    better = polished(on, rough, 2)
    assert better.money <= rough.money
    assert play(on, [better.fires])[0].keeps_limits
    best = best_plan(on)
    assert best is not None
    assert best.keeps_limits
