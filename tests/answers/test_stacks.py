"""What is in each stack, how wet it is, and which to burn first."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from tests.answers.demo import demo
from woodreeve.answers import stacks
from woodreeve.diary.entry import Entry
from woodreeve.holding.demo import DEMO_MOMENT, demo_entries, demo_holding_text
from woodreeve.records.asking import Asking

LONDON = ZoneInfo("Europe/London")


def test_stacks_add_up_to_the_yard() -> None:
    """Volume and heat."""
    answer = stacks.answer(demo())
    assert sum(line.stacked_m3.value for line in answer.stacks) == pytest.approx(answer.stacked_m3.value)
    assert sum(line.heat_kwh.value for line in answer.stacks) == pytest.approx(answer.heat_kwh.value)
    dry = sum(line.heat_kwh.value for line in answer.stacks if line.dryness in ("ideal", "fine"))
    assert dry == pytest.approx(answer.dry_heat_kwh.value)
    assert answer.dry_share.value == pytest.approx(dry / answer.heat_kwh.value)


def test_turns_count_from_one_and_the_sentence_names_the_first_stack() -> None:
    """What is to be burnt comes before what is not; wood by the boiler is at hand and need not be named."""
    answer = stacks.answer(demo())
    assert [line.turn for line in answer.stacks] == list(range(1, len(answer.stacks) + 1))
    outside = [line for line in answer.stacks if line.where != "boiler_room"]
    assert answer.sentence.values["stack"] == outside[0].name
    assert outside[0].burn
    burnt = [line.burn for line in answer.stacks]
    assert burnt == sorted(burnt, reverse=True)


def test_nothing_that_is_not_measured_or_too_wet_is_to_be_burnt() -> None:
    """And nothing unmeasured is shown with a moisture."""
    for line in stacks.answer(demo()).stacks:
        if line.dryness == "not_known":
            assert line.moisture is None
            assert not line.burn
        if line.dryness == "wet":
            assert not line.burn


def test_a_stack_that_a_stocktake_found_is_not_called_wet_before_it_is_measured() -> None:
    """And once it is measured, the reading counts."""

    def told(kind: str, hour: int, **payload: Any) -> Entry:
        at = DEMO_MOMENT.replace(hour=hour)
        return Entry(
            id=f"{hour:032x}", holding="aldermoor", kind=kind, form=1, happened=at, entered=at, sent=at,
            by="me", payload=payload,
        )  # fmt: skip

    rows = [{"length_m": 5.0, "height_m": 1.6, "log_cm": 33.0}]
    found = told("counted", 10, place="back fence", rows=rows, species="ash")
    read = told("measured", 11, place="back fence", shown_percent=[18.0, 19.0, 20.0], basis="wet")

    def line(*entries: Entry) -> stacks.StackLine:
        answer = stacks.answer(Asking(demo_holding_text(), DEMO_MOMENT, entries=(*demo_entries(), *entries)))
        return next(line for line in answer.stacks if line.name == "back fence")

    unread = line(found)
    assert unread.moisture is None
    assert "not_measured" in unread.reasons
    assert "too_wet" not in unread.reasons
    moisture = line(found, read).moisture
    assert moisture is not None
    assert moisture.value == pytest.approx(0.19, abs=0.025)


def test_verdicts_follow_the_owners_limits() -> None:
    """By the moisture that is shown."""
    answer = stacks.answer(demo())
    for line in answer.stacks:
        if line.moisture is not None:
            ideal, fine = answer.target_moisture.value, answer.fine_moisture.value
            wanted = (
                "ideal" if line.moisture.value <= ideal else "fine" if line.moisture.value <= fine else None
            )
            assert wanted is None or line.dryness == wanted
            if line.measured_on is None:
                assert line.moisture.low is not None, "what is reckoned and not measured has a range"


def test_wood_in_the_round_is_listed_apart() -> None:
    """It is not in a stack, and not in the yard's heat."""
    answer = stacks.answer(demo())
    assert [line.name for line in answer.in_the_round] == ["track side"]
    assert "track side" not in [line.name for line in answer.stacks]


@pytest.mark.parametrize("moment", ["2020-01-01T12:00", "2024-02-29T12:00", "2025-07-15T12:00"])
def test_it_answers_at_any_moment(moment: str) -> None:
    """Before the first entry, on a leap day, in summer."""
    answer = stacks.answer(demo(datetime.fromisoformat(moment).replace(tzinfo=LONDON)))
    if moment < "2023":
        assert answer.sentence.key == "stacks.empty"
        assert answer.stacks == ()
        assert answer.dry_share.value == 0.0
    else:
        assert answer.stacks
        assert all(line.stacked_m3.value > 0.0 for line in answer.stacks)


def test_of_an_empty_holding_it_says_how_to_begin() -> None:
    """With a stock-take."""
    answer = stacks.answer(Asking('name = "empty"\n', DEMO_MOMENT))
    assert answer.sentence.key == "stacks.empty"
    assert answer.heat_kwh.value == 0.0
