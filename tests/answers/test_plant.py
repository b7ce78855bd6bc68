"""Whether the plant fits: the answer whole, as sentence, resource and command."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from tests.answers.demo import demo, plain
from woodreeve.answers import plant
from woodreeve.holding.demo import DEMO_MOMENT, demo_holding_text
from woodreeve.records.asking import Asking
from woodreeve.wording.plant import checks_sentence, field_address, field_words
from woodreeve.wording.sentences import sentence

EMPTY = 'name = "empty"\n'


def test_the_demo_is_judged_check_by_check() -> None:
    """Most fits; what does not is said first, and the field to tell is named."""
    answer = plant.answer(demo())
    by_key = {one.key: one for one in answer.checks}
    assert by_key["water.vessel_90"].verdict == "fits"
    assert by_key["water.vessel_110"].verdict == "tight"
    assert by_key["escape.without_power"].verdict == "fits"
    assert by_key["store.law"].verdict == "not_known"
    assert answer.nation == "wales"
    assert answer.tell_first == "plant.water.filter_fitted"
    said = sentence(answer.sentence)
    assert re.fullmatch(r"\d+ checks fit, \w+ are tight, .*: first tell “Filter and inhibitor”\.", said), said


def test_the_counts_of_the_sentence_are_the_checks() -> None:
    """No check is left out of it."""
    answer = plant.answer(demo())
    counts = {name: value for name, value in answer.sentence.values.items() if name != "first"}
    assert sum(int(str(value)) for value in counts.values()) == len(answer.checks)


def test_the_sentence_of_the_brief_comes_out() -> None:
    """Numbers in words up to twelve, one and many told apart."""
    told = {
        "fits": 11,
        "tight": 2,
        "does_not_fit": 0,
        "not_known": 3,
        "first": "plant.water.vessel_charge_bar",
    }
    assert checks_sentence(told) == (
        "Eleven checks fit, two are tight and three cannot be said: first tell “Vessel's gas pressure”."
    )
    assert checks_sentence({"fits": 1, "does_not_fit": 1}) == "One check fits and one does not fit."
    assert checks_sentence({"fits": 0, "not_known": 40}) == "No checks fit and 40 cannot be said."


def test_an_empty_holding_asks_for_the_heat_escape_first() -> None:
    """What can hurt comes before what sizes the plant."""
    answer = plant.answer(Asking(EMPTY, DEMO_MOMENT))
    assert answer.tell_first is not None
    assert answer.tell_first.startswith(("plant.water.safety_valve", "plant.heat_escapes"))
    assert {one.verdict for one in answer.checks} <= {"not_known", "fits"}
    assert answer.missing_house
    assert answer.nation == "other"
    assert answer.efficiency.own_net is None


@pytest.mark.parametrize(
    ("path", "address", "named"),
    [
        ("plant.water.filter_fitted", "/holding/plant.water", "Filter and inhibitor"),
        ("plant.heat_escapes[0].kind", "/holding/plant.heat_escapes[0]", "Kind of heat escape"),
        ("house", "/holding/house", "House"),
        ("diary: pressure", "/diary/pressure", "an entry in the diary: pressure"),
    ],
)
def test_a_missing_field_leads_to_the_page_where_it_is_told(path: str, address: str, named: str) -> None:
    """By its section."""
    assert (field_address(path), field_words(path)) == (address, named)


def test_each_nation_gets_its_own_rules() -> None:
    """The same place in Germany keeps the store's law and misses the second sweeping."""
    text = demo_holding_text().replace('nation = "wales"', 'nation = "germany"')
    by_key = {one.key: one for one in plant.answer(demo(text=text)).checks}
    assert by_key["store.law"].verdict == "tight"
    assert by_key["store.law"].rule is not None
    assert by_key["store.law"].rule.source.startswith("1. BImSchV")
    assert by_key["room.air"].verdict == "fits"
    assert by_key["room.co_alarm"].verdict == "not_known"


def test_the_answer_goes_out_as_json_with_rule_and_source() -> None:
    """As the resource sends it."""
    told = plain(plant.answer(demo()))
    vessel = next(one for one in told["checks"] if one["key"] == "water.vessel_110")
    assert vessel["verdict"] == "tight"
    assert vessel["yours"]["value"] == 250.0
    assert vessel["wanted"]["unit"] == "L"
    assert vessel["rule"]["read"] == "memory"
    assert next(one for one in told["checks"] if one["key"] == "escape.tested")["yours"] == "2025-09-18"


def test_a_smaller_vessel_changes_the_verdict_and_the_sentence() -> None:
    """The answer follows the holding."""
    text = demo_holding_text().replace("vessel_litres = 250.0", "vessel_litres = 80.0")
    before, after = plant.answer(demo()), plant.answer(demo(text=text))
    assert sentence(before.sentence) != sentence(after.sentence)
    changed = [
        one.key for one, two in zip(before.checks, after.checks, strict=True) if one.verdict != two.verdict
    ]
    assert changed == ["water.vessel_90", "water.vessel_110"]
    assert replace(before, moment=after.moment) != after
