"""Whether to light tonight: what the plan may never do, and what its sentence says."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import cache

import pytest

from tests.answers.demo import demo, plain
from woodreeve.answers import tonight
from woodreeve.answers.tonight import TonightAnswer
from woodreeve.holding.demo import DEMO_MOMENT, demo_holding_text
from woodreeve.wording.sentences import sentence

LENT = datetime(2026, 2, 14, 9, 0, tzinfo=DEMO_MOMENT.tzinfo)
"""The demonstration's people are away from this day on."""


@cache
def asked(moment: datetime = DEMO_MOMENT, text: str | None = None) -> TonightAnswer:
    """The answer at a moment, with another description of the place if given."""
    return tonight.answer(demo(moment, text))


def changed(*pairs: tuple[str, str]) -> str:
    """The demo's description with some lines changed."""
    text = demo_holding_text()
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return text


def fires_of(answer: TonightAnswer) -> list[tonight.FireLine]:
    """Every fire of the plan and of all ways worked out by the search, the rule of thumb left out."""
    assert answer.plan is not None
    ways = [answer.plan, *(way for way in answer.ways if way.name != "rule")]
    return [fire for way in ways for fire in way.fires]


@pytest.mark.parametrize("days", [0, 3, 4])
def test_a_fire_is_planned_only_when_somebody_can_stay_with_it(days: int) -> None:
    """Within the demonstration's windows, an hour of watch before each ends."""
    answer = asked(DEMO_MOMENT + timedelta(days=days))
    fires = fires_of(answer)
    assert fires
    for fire in fires:
        at = fire.when.at
        clock = at.hour + at.minute / 60.0
        if at.weekday() < 5:
            assert 6.5 <= clock <= 6.75 or 16.5 <= clock <= 21.0, at
        else:
            assert 7.5 <= clock <= 21.0, at


def test_no_wood_is_planned_that_is_wetter_than_the_lowest_limit() -> None:
    """Stacks above it are named as not burnt, and no fire takes from them."""
    answer = asked()
    assert answer.wettest is not None
    assert answer.wettest_by == "maker"
    assert answer.refused
    assert all(one.moisture.value > answer.wettest.value for one in answer.refused if one.measured)
    assert not {fire.stack for fire in fires_of(answer)} & {one.name for one in answer.refused}


def test_with_only_wet_wood_left_the_answer_is_not_to_light_on_it() -> None:
    """Even where the store is cool: the driest stack is named with its moisture and whose limit it passes."""
    answer = asked(DEMO_MOMENT, changed(('most_moisture = "25 %"', 'most_moisture = "12 %"')))
    assert answer.verdict == "no_wood"
    told = sentence(answer.sentence)
    assert told.startswith("Do not light on this wood: ")
    assert answer.refused[0].name in told
    assert "the maker allows 12 %" in told
    assert answer.plan is not None
    assert answer.plan.fires == ()


def test_when_everybody_is_away_the_answer_names_the_next_time_somebody_is_there() -> None:
    """Away until Wednesday evening in the demonstration."""
    answer = asked(LENT)
    assert answer.verdict == "nobody"
    assert sentence(answer.sentence).startswith(
        "Do not light: nobody is there to tend a fire before Thursday 06:30"
    )


def test_a_missing_heat_escape_stands_before_any_plan() -> None:
    """And a way that was tested within the year is no gap."""
    assert asked().gap is None
    text = demo_holding_text()
    begin = text.index("[[plant.heat_escapes]]")
    without = text[:begin] + text[text.index("[plant.water]") :]
    answer = asked(DEMO_MOMENT, without)
    assert answer.gap is not None
    assert answer.gap.key == "escape.not_known"
    assert sentence(answer.gap).startswith("Nobody has told")


def test_an_old_test_of_the_heat_escape_is_told_with_its_day() -> None:
    """In words, not as a code; a newer test in the diary would count."""
    text = changed(("tested_on = 2025-09-18", "tested_on = 2023-09-18"))
    whole = demo(text=text)
    untested = tuple(entry for entry in whole.entries if entry.kind != "tested")
    answer = tonight.answer(type(whole)(text, whole.moment, entries=untested))
    assert answer.gap is not None
    assert "18 September 2023" in sentence(answer.gap)


def test_the_sentence_speaks_in_the_owners_own_containers() -> None:
    """A part of the boiler's fill, the species, the stack, barrows, and until when the store lasts."""
    answer = asked()
    assert answer.verdict == "light"
    assert answer.plan is not None
    first = answer.plan.fires[0]
    told = sentence(answer.sentence)
    assert told.startswith(f"Light at {first.when.at:%H:%M} with ")
    for part in ("boiler fill of", first.species.replace("_", " "), first.stack, "barrow", "lasts until"):
        assert part in told


def test_without_containers_the_sentence_speaks_of_kilograms() -> None:
    """Nobody has to describe a barrow first."""
    text = demo_holding_text()
    begin, end = text.index("[[yard.containers]]"), text.index("[[yard.meters]]")
    answer = asked(DEMO_MOMENT, text[:begin] + text[end:])
    assert " kg of " in sentence(answer.sentence)


def test_a_plant_nobody_has_told_of_gets_no_plan_but_says_what_is_missing() -> None:
    """With the cautions still there."""
    answer = asked(DEMO_MOMENT, changed(("litres = 1500.0\nheight_m = 1.9", "height_m = 1.9")))
    assert answer.verdict == "unknown"
    assert answer.plan is None
    assert "litres" in answer.missing
    assert answer.do_not_light


def test_each_way_costs_no_less_than_the_plan() -> None:
    """The rule of thumb, nothing at all and the others stand beside it, worked out anew."""
    answer = asked()
    assert answer.plan is not None
    names = {way.name for way in answer.ways}
    assert {"nothing", "rule", "later", "other_stack"} <= names
    assert answer.plan.more.value == 0.0
    assert all(way.more.value >= -0.5 for way in answer.ways)
    for way in (answer.plan, *answer.ways):
        parts = sum(cost.money.value for cost in way.costs)
        assert parts - sum(cost.money.value for cost in answer.plan.costs) == pytest.approx(way.more.value)


def test_the_cold_case_lasts_no_longer_than_the_central_one() -> None:
    """For every way."""
    answer = asked()
    assert answer.plan is not None
    for way in (answer.plan, *answer.ways):
        if way.lasts is not None:
            assert way.lasts_cold is not None
            assert way.lasts_cold.hours.value <= way.lasts.hours.value


def test_what_forbids_a_fire_is_listed_with_its_sources() -> None:
    """Each line speaks of lighting, of a fire or of wood, and says where it stands."""
    for line in asked().do_not_light:
        assert any(word in line.text.lower() for word in ("light", "fire", "wood"))
        assert line.source


def test_a_fire_noted_an_hour_ago_warms_the_store_of_the_next_answer() -> None:
    """The state follows the diary: without the last evening's fires the store is cooler."""
    whole = demo()
    last_day = max(entry.happened for entry in whole.entries if entry.kind == "lit").date()
    fewer = tuple(
        entry
        for entry in whole.entries
        if entry.kind not in ("lit", "refilled") or entry.happened.date() < last_day
    )
    without = tonight.answer(type(whole)(whole.document, whole.moment, entries=fewer))
    assert asked().store is not None
    assert without.store is not None
    assert without.store.usable_kwh.value < asked().store.usable_kwh.high  # type: ignore[union-attr, operator]  # both are there
    assert without.store.fires < asked().store.fires  # type: ignore[union-attr]  # it is there


def test_the_answer_is_plain_json() -> None:
    """What a program reads: kinds, figures with units, times with their offset."""
    told = plain(asked())
    assert told["sentence"]["key"] == f"tonight.{told['verdict']}"
    assert told["plan"]["fires"][0]["kg"]["unit"] == "kg"
    assert datetime.fromisoformat(told["plan"]["fires"][0]["when"]["at"]).tzinfo is not None
    assert told["weather"]["rests_on"] == "usual"
