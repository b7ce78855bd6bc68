"""A span of the demo played with plans and with rules."""

from datetime import UTC, datetime, time

import numpy as np
import pytest

from tests.firing.grounds import ASH, MONDAY, PRESENCE
from tests.season.plants import PLANT
from woodreeve.errors import OutOfRange, Refused
from woodreeve.firing.compared import Compared, rule_hours, span_replayed
from woodreeve.firing.fields import Presence, PresenceWindow, Wishes
from woodreeve.firing.presence import tending_times
from woodreeve.house.describe import House, Zone
from woodreeve.money.fields import Prices
from woodreeve.weather.series import Hourly

HOUSE = House(zones=(Zone(name="downstairs", floor_area_m2=95.0), Zone(name="upstairs", floor_area_m2=95.0)))
PRICES = Prices(backup_fuel=0.11, electricity=0.27, lighting=1.5, cold_degree_hour=0.15, own_hour=12.0)


def weather(days: int, seed: int = 1) -> Hourly:
    """Winter days from a Monday on."""
    hours = np.arange(24 * days)
    drift = np.repeat(np.random.default_rng(seed).normal(2.0, 3.0, days), 24)
    return Hourly(start=MONDAY, temperature_c=drift + 2.5 * np.sin((hours % 24 - 9) / 12 * np.pi))


def compared(**more: object) -> Compared:
    """Five days after a week."""
    given: dict[str, object] = {"error_k": 1.5, "trials": 8}
    wishes = Wishes(presence=PRESENCE, backup="by_price")
    return span_replayed(
        HOUSE, PLANT, weather(12), PRICES, wishes, (ASH,), "Europe/London", **(given | more)  # type: ignore[arg-type]  # as told above
    )  # fmt: skip


@pytest.fixture(scope="module")
def three() -> Compared:
    """Planner, evening rule and tuned rule."""
    return compared(tuned_on=(weather(12, 5),))


def test_all_three_begin_alike_and_are_told_in_things_and_money(three: Compared) -> None:
    """Over the same hours."""
    assert three.hours == 120
    assert three.tuned is not None
    assert three.tuned_money is not None
    for one in (three.planner, three.evening, three.tuned):
        assert one.weeks[-1].hour == 120
        assert one.total.wood_kg + one.total.backup_fuel_kwh > 0.0
    assert three.tried == 8
    assert three.planner_money < three.evening_money * 1.1


def test_rules_look_only_when_somebody_is_there_on_every_day(three: Compared) -> None:
    """Morning and evening."""
    assert three.rule_hours == (7, 17, 18, 19, 20, 21)
    assert three.always_there
    assert three.evening_rule.hours == (17,)


def test_without_other_years_there_is_no_tuned_rule() -> None:
    """Tuning on what is scored would be no test."""
    found = compared()
    assert found.tuned is None
    assert found.tuned_money is None


def test_the_same_seed_gives_the_same_replay() -> None:
    """And it can be stopped."""
    assert compared().planner_money == compared().planner_money
    with pytest.raises(Refused, match="stopped"):
        compared(progress=lambda share: share < 0.2)


def test_without_dry_wood_or_with_too_little_weather_it_is_refused() -> None:
    """In one sentence each."""
    with pytest.raises(Refused, match="dry enough"):
        span_replayed(HOUSE, PLANT, weather(12), PRICES, Wishes(), (), "Europe/London")
    with pytest.raises(OutOfRange, match="weather"):
        span_replayed(HOUSE, PLANT, weather(7), PRICES, Wishes(), (ASH,), "Europe/London")


def test_hours_on_most_days_are_taken_where_none_holds_on_all() -> None:
    """And that is told."""
    weekdays = Presence(
        windows=(
            PresenceWindow(
                days=("monday", "tuesday", "wednesday", "thursday"), begins=time(18, 0), ends=time(22, 0)
            ),
        )
    )
    times = tending_times(weekdays, datetime(2026, 1, 12, tzinfo=UTC), 168, UTC)
    assert rule_hours(times, 0.0, 168) == ((18, 19, 20, 21), False)
