"""What is due: the answer whole, and what it says."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime
from typing import Any

import pytest

from tests.answers.demo import demo, plain
from woodreeve.answers import upkeep
from woodreeve.diary.entry import Entry
from woodreeve.holding.demo import DEMO_MOMENT, demo_entries, demo_holding_text
from woodreeve.records.asking import Asking
from woodreeve.wording.plant import upkeep_sentence
from woodreeve.wording.sentences import sentence
from woodreeve.workings import Dated, Figure, Said

EMPTY = 'name = "empty"\n'


def states(answer: upkeep.UpkeepAnswer) -> dict[str, str]:
    """Each task's state."""
    return {one.task.key: one.state for one in answer.tasks}


def with_entry(kind: str, at: str, **payload: Any) -> Asking:
    """The demo with one entry more."""
    happened = datetime.fromisoformat(at).replace(tzinfo=UTC)
    more = Entry(
        id="0" * 31 + "7", holding="aldermoor", kind=kind, form=1, happened=happened, entered=happened,
        sent=happened, by="me", payload=payload,
    )  # fmt: skip
    return Asking(demo_holding_text(), DEMO_MOMENT, entries=(*demo_entries(), more))


def test_the_demo_has_ash_nearly_due_and_a_valve_nobody_tried() -> None:
    """And says what the spring's list left out, with the reason."""
    answer = upkeep.answer(demo())
    assert states(answer)["ash"] == "soon"
    assert states(answer)["safety_valve"] == "not_known"
    assert states(answer)["sweep"] == "later"
    assert [one.what for one in answer.skipped] == ["backup fuel level"]
    assert answer.skipped[0].why
    said = sentence(answer.sentence)
    begins = (
        r"No task is due; a part is due for a look \(anode of the cylinder\); "
        r"ash is due soon \(about \d+0 kg burnt since 27 December\); "
    )
    assert re.match(begins, said), said
    assert said.endswith("when the test of the safety valve was last done is not known.")


def test_the_sentence_of_the_brief_comes_out() -> None:
    """Ash due by the wood burnt, the sweep by the month."""
    ash = Said(
        "upkeep.task",
        {"task": "ash", "state": "due", "burnt": Figure(640.0, "kg", "burnt_since"), "since": "2025-12-12"},
    )
    sweep = Said(
        "upkeep.task", {"task": "sweep", "state": "later", "day": Dated(date(2026, 3, 12), "due_after")}
    )
    assert upkeep_sentence({"count": 1, "due_0": ash, "next": sweep}) == (
        "Ash is due (about 640 kg burnt since 12 December); the sweep is due in March 2026."
    )


def test_a_logged_deed_moves_the_next_date() -> None:
    """The sweep came again; ash went out; the alarm was pressed."""
    swept = with_entry("swept", "2026-01-10T10:00", who="sweep")
    line = next(one for one in upkeep.answer(swept).tasks if one.task.key == "sweep")
    assert line.last == date(2026, 1, 10)
    assert line.due is not None
    assert line.due.value == date(2027, 1, 10)
    emptied = upkeep.answer(with_entry("ash_out", "2026-01-13T10:00", litres=18.0))
    assert emptied.ash.since == date(2026, 1, 13)
    assert emptied.ash.burnt_kg.value < upkeep.answer(demo()).ash.burnt_kg.value
    assert states(emptied)["ash"] == "later"


def test_a_test_that_failed_does_not_count_as_done() -> None:
    """The device is still to be tried."""
    failed = with_entry("tested", "2026-01-10T10:00", what="co_alarm", result="not_good")
    line = next(one for one in upkeep.answer(failed).tasks if one.task.key == "co_alarm")
    assert line.last == date(2025, 12, 20)


@pytest.mark.parametrize(
    ("at", "task", "state"),
    [
        ("2026-04-13T12:00:00+00:00", "co_alarm", "overdue"),
        ("2026-09-05T12:00:00+00:00", "before_first_fire", "due"),
        ("2026-06-15T12:00:00+00:00", "after_last_fire", "due"),
        ("2026-09-30T12:00:00+00:00", "sweep", "due"),
        ("2026-12-30T12:00:00+00:00", "heat_escape", "overdue"),
    ],
)
def test_time_makes_things_due(at: str, task: str, state: str) -> None:
    """With no further entry."""
    answer = upkeep.answer(demo(datetime.fromisoformat(at)))
    assert states(answer)[task] == state
    if state == "overdue":
        assert any(not one.from_list for one in answer.skipped)


def test_what_is_due_stands_first() -> None:
    """In the order overdue, due, soon, not known, later."""
    order = ("overdue", "due", "soon", "not_known", "later")
    for moment in (DEMO_MOMENT, datetime(2026, 11, 1, tzinfo=UTC)):
        told = [order.index(one.state) for one in upkeep.answer(demo(moment)).tasks]
        assert told == sorted(told)


def test_the_owner_can_change_how_often() -> None:
    """By the section upkeep of the plant."""
    often = demo_holding_text() + "\n[plant.upkeep]\nash_litres = 10.0\nsweep_months = 3.0\n"
    answer = upkeep.answer(demo(text=often))
    assert states(answer)["ash"] == "due"
    assert states(answer)["sweep"] == "overdue"


def test_an_empty_holding_knows_nothing_and_skips_nothing() -> None:
    """Every task that hangs on a day is not known, and none is called done."""
    answer = upkeep.answer(Asking(EMPTY, DEMO_MOMENT))
    assert answer.skipped == () or all(not one.from_list for one in answer.skipped)
    assert states(answer)["sweep"] == "not_known"
    assert answer.ash.burnt_kg.value == 0.0
    assert all(one.state == "not_known" for one in answer.parts)
    assert answer.duties == ()


def test_hours_of_a_part_are_told_only_where_the_diary_reaches_back() -> None:
    """The door rope is newer than the diary, the nozzle older."""
    by_part = {one.part.key: one for one in upkeep.answer(demo()).parts}
    rope, nozzle = by_part["door_rope"], by_part["nozzle"]
    assert rope.fitted == date(2025, 11, 22)
    assert rope.hours is not None
    assert rope.hours.value > 50.0
    assert rope.price is not None
    assert (rope.price.value, rope.price.unit) == (38.0, "GBP")
    assert (nozzle.fitted, nozzle.hours) == (date(2021, 9, 7), None)


def test_the_answer_goes_out_as_json() -> None:
    """As the resource sends it."""
    told = plain(upkeep.answer(demo()))
    assert told["tasks"][0]["task"]["source"]
    assert told["ash"]["litres"]["unit"] == "L"
