"""Spans played once more with plans or with a rule, and rules that are tuned."""

from dataclasses import replace
from datetime import UTC
from itertools import pairwise

import numpy as np
import pytest

from tests.firing.grounds import ASH, MONDAY, PLANT, PRESENCE, days_ahead
from tests.season.plants import ROOMS
from woodreeve.errors import OutOfRange
from woodreeve.firing.account import Things
from woodreeve.firing.presence import tending_times
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.replay import (
    Replay,
    corrected,
    error_left,
    hours_from,
    replay_plans,
    replay_rule,
)
from woodreeve.firing.rules import RuleRanges, best_rule, evening_rule, rule_candidates, try_rules
from woodreeve.season.inputs import Fire, Hours
from woodreeve.season.run import Case, run
from woodreeve.units import Floats

DAYS = 10
HOURS = days_ahead(DAYS, mean_c=1.0)
TIMES = tending_times(PRESENCE, MONDAY, 24 * DAYS, UTC)
PRICES = PlanPrices()
HOUSE = 1000.0 * np.array([950.0, 24700.0, 950.0, 15675.0])


def foretold(bias: float = 0.0):  # type: ignore[no-untyped-def]  # noqa: ANN201  # a forecaster
    """A forecast that is off by so much at every hour."""

    def tell(at: int, count: int) -> Floats:
        return np.asarray(HOURS.outdoor_c[at : at + count]) + bias

    return tell


def planned(**more: object) -> Replay:
    """Ten days with plans."""
    given = {"forecast": foretold(), "error_k": 1.0, "lots": (ASH,), "prices": PRICES, "tending": TIMES}
    given |= {"least_share": 0.5, "width": 8, "finer": 1}
    return replay_plans(PLANT, ROOMS, HOURS, **(given | more))  # type: ignore[arg-type]  # as told above


@pytest.fixture(scope="module")
def played() -> Replay:
    """Ten days with plans from forecasts that are right."""
    return planned()


def test_fires_are_lit_only_when_somebody_is_there(played: Replay) -> None:
    """And never more than the firebox holds."""
    allowed = {one.hour: one for one in TIMES}
    assert played.fires
    for one in played.fires:
        assert allowed[one.hour].light if one.kind == "light" else allowed[one.hour].refill
        assert one.kg <= ASH.full_kg + 1e-9


def test_a_replay_books_what_the_kernel_books(played: Replay) -> None:
    """The same fires in a plain run: the same wood, backup and cold."""
    fires = tuple(Fire(hour=one.hour, kg=one.kg, heat_kwh_per_kg=4.1) for one in played.fires)
    result = run(Case(prepared=PLANT, hours=HOURS, firing=fires))
    assert played.total.wood_kg == pytest.approx(sum(one.kg for one in played.fires))
    from woodreeve.season import slots as s

    assert played.total.backup_fuel_kwh == pytest.approx(
        result.kwh(s.BACKUP_FUEL_J) + result.kwh(s.IMMERSION_J)
    )
    assert played.total.lightings == result.total(s.FIRES)


def test_weeks_add_up_to_the_whole(played: Replay) -> None:
    """Heat kept and all things but the cold, of which each week counts its worse zone."""
    both = played.weeks[0].things
    for week in played.weeks[1:]:
        both = both + week.things
    assert both.wood_kg == pytest.approx(played.total.wood_kg)
    assert both.backup_fuel_kwh == pytest.approx(played.total.backup_fuel_kwh)
    assert sum(week.kept_kwh for week in played.weeks) == pytest.approx(played.kept_kwh)
    assert [week.hour for week in played.weeks] == [168, 240]


def test_no_fire_of_a_right_forecast_slumbers_or_overheats(played: Replay) -> None:
    """Nor opens the discharge."""
    assert played.throttled_fires == 0
    assert played.over_limit_h == 0.0
    assert played.discharge_minutes == 0.0


def test_plans_cost_less_than_the_evening_rule(played: Replay) -> None:
    """Backup, trouble, cold and wood together, heat left counted."""
    rule = replay_rule(PLANT, ROOMS, HOURS, evening_rule(ASH))
    price = ASH.price_kg / ASH.heat_kwh_per_kg
    assert played.money(PRICES, price, 0.053) < rule.money(PRICES, price, 0.053)


def test_a_replay_can_be_stopped() -> None:
    """What was played so far is told."""
    assert planned(progress=lambda share: share < 0.3).plans < 10


def test_a_wrong_present_temperature_is_set_right() -> None:
    """A forecast that is 4 K off throughout is corrected now, less tomorrow, hardly next week."""
    told = np.full(200, 9.0)
    right = corrected(told, 5.0)
    assert right[0] == 5.0
    assert right[24] == pytest.approx(9.0 - 4.0 * 0.67)
    assert right[-1] > 8.5
    left = error_left(2.0, 200)
    assert left[0] == 0.0
    assert all(b >= a for a, b in pairwise(left))
    assert left[-1] < 2.0


def test_hours_can_be_cut_out() -> None:
    """With the hour of the clock that they begin with."""
    some = hours_from(HOURS, 30, 10)
    assert isinstance(some, Hours)
    assert some.first_hour_of_day == 6
    assert some.outdoor_c.tolist() == HOURS.outdoor_c[30:40].tolist()
    assert hours_from(HOURS, 235, 10).outdoor_c.size == 5


def test_the_common_rule_is_tried_with_the_others_and_the_best_is_no_worse() -> None:
    """On the year for tuning."""
    rules = rule_candidates(evening_rule(ASH), RuleRanges(), 16)
    assert len(rules) == 16
    assert rules[0] == evening_rule(ASH)
    trials = try_rules(PLANT, [HOURS], rules, HOUSE)
    best = best_rule(trials, PRICES, 0.045, 0.053)
    assert best.money(PRICES, 0.045, 0.053) <= trials[0].money(PRICES, 0.045, 0.053)
    assert all(hour in (7, 17, 18, 19, 20, 21) for rule in rules for hour in rule.hours)


def test_too_few_trials_are_refused() -> None:
    """A handful tunes nothing."""
    with pytest.raises(OutOfRange, match="trials"):
        rule_candidates(evening_rule(ASH), RuleRanges(), 3)


def test_money_follows_from_things_at_their_prices() -> None:
    """Each price moves only its own thing."""
    things = Things(
        wood_kwh=100.0, lightings=2.0, refills=1.0, backup_fuel_kwh=12.0, immersion_kwh=2.0,
        electricity_kwh=3.0, cold_kh=4.0, odd_visits=1.0,
    )  # fmt: skip
    assert things.money(PRICES, 0.05) == pytest.approx(
        5.0 + 2 * 1.5 + 0.5 + 3.0 + 10.0 * 0.11 + 5.0 * 0.27 + 4.0 * 0.15
    )
    dearer = replace(PRICES, cold_kh=1.15)
    assert things.money(dearer, 0.05) - things.money(PRICES, 0.05) == pytest.approx(4.0)
