"""The one thing looked at before any fire."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from tests.diary.making import Diary
from woodreeve.diary.fold import fold
from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.toml import load
from woodreeve.plant.fields import HeatEscape, Plant, WaterSide
from woodreeve.plant.heat_escape import escape_gap_on, heat_escape_gap
from woodreeve.wording.sentences import SENTENCES

TODAY = date(2026, 1, 13)
TESTED = date(2025, 9, 18)


def plant(*escapes: HeatEscape, **water: Any) -> Plant:
    """A plant with these ways for heat to leave."""
    return Plant(heat_escapes=escapes, water=WaterSide(**water))


def discharge(**changes: Any) -> HeatEscape:
    """A thermal discharge on a spring, tested last autumn."""
    given: dict[str, Any] = {
        "kind": "thermal_discharge",
        "supply": "gravity_spring",
        "tested_on": TESTED,
        **changes,
    }
    return HeatEscape(**given)


@pytest.mark.parametrize(
    ("given", "verdict"),
    [
        (plant(), "not_known"),
        (plant(HeatEscape()), "not_known"),
        (plant(discharge()), "ok"),
        (plant(discharge(supply="mains")), "ok"),
        (plant(discharge(supply=None)), "not_known"),
        (plant(discharge(supply="electric_pump")), "none"),
        (plant(discharge(tested_on=None)), "untested"),
        (plant(discharge(tested_on=TODAY + timedelta(days=1))), "untested"),
        (plant(discharge(tested_on=TODAY - timedelta(days=366))), "ok"),
        (plant(discharge(tested_on=TODAY - timedelta(days=367))), "old_test"),
        (plant(HeatEscape(kind="standby_power", tested_on=TESTED)), "none"),
        (plant(HeatEscape(kind="gravity_radiator", tested_on=TESTED)), "ok"),
        (plant(HeatEscape(kind="open_vent", tested_on=TESTED), system="open"), "ok"),
        (plant(HeatEscape(kind="open_vent", tested_on=TESTED), system="closed"), "none"),
        (plant(HeatEscape(kind="open_vent", tested_on=TESTED), vent_free="no"), "none"),
    ],
)
def test_each_way_for_heat_is_judged_by_what_it_needs_and_when_it_was_tested(
    given: Plant, verdict: str
) -> None:
    """Nothing told is nothing known, and a battery is no way."""
    found = heat_escape_gap(given, TODAY)
    assert found.verdict == verdict
    assert found.is_gap == (verdict != "ok")
    assert found.key in SENTENCES


def test_the_best_way_counts_and_a_pumped_discharge_is_still_told() -> None:
    """A tested gravity radiator beside a discharge on a well pump."""
    both = plant(discharge(supply="electric_pump"), HeatEscape(kind="gravity_radiator", tested_on=TESTED))
    found = heat_escape_gap(both, TODAY)
    assert (found.verdict, found.kind, found.tested_on) == ("ok", "gravity_radiator", TESTED)
    assert found.pumped
    assert not heat_escape_gap(plant(discharge()), TODAY).pumped


def test_a_test_in_the_diary_counts_and_a_failed_one_counts_more() -> None:
    """Until it passes again."""
    old = plant(discharge(tested_on=date(2023, 9, 1)))
    assert heat_escape_gap(old, TODAY).verdict == "old_test"
    assert heat_escape_gap(old, TODAY, [TESTED]).verdict == "ok"
    failed = heat_escape_gap(old, TODAY, [TESTED], [date(2025, 12, 1)])
    assert (failed.verdict, failed.tested_on) == ("failed_test", date(2025, 12, 1))
    assert heat_escape_gap(old, TODAY, [date(2025, 12, 5)], [date(2025, 12, 1)]).verdict == "ok"
    assert heat_escape_gap(old, TODAY, [TODAY + timedelta(days=3)]).verdict == "old_test"


def test_the_demo_has_its_test_on_record() -> None:
    """A spring above the house feeds its discharge."""
    found = heat_escape_gap(load(demo_holding_text()).plant, TODAY)
    assert (found.verdict, found.kind) == ("ok", "thermal_discharge")


def test_tests_are_read_from_the_diary() -> None:
    """Only those of the heat escape, and only with a result."""
    diary = Diary()
    old = plant(discharge(tested_on=date(2023, 9, 1)))
    for day, what, result, verdict in (
        (300, "co_alarm", "good", "old_test"),
        (301, "heat_escape", "not_known", "old_test"),
        (302, "heat_escape", "good", "ok"),
        (330, "heat_escape", "not_good", "failed_test"),
    ):
        diary.add(day, "tested", what=what, result=result)
        assert escape_gap_on(old, fold(diary.entries).events, TODAY).verdict == verdict
