"""Every answer's sentence, every kind of entry and every finding has its words."""

from __future__ import annotations

import re
import string
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import Any, get_args

import pytest

import woodreeve.answers
from tests.answers.demo import demo
from woodreeve.answers import diary, stacks, winter
from woodreeve.diary.findings import Finding, FindingKind
from woodreeve.diary.kinds import KINDS
from woodreeve.errors import UnknownName
from woodreeve.holding.demo import DEMO_MOMENT, demo_entries
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_tree
from woodreeve.records.asking import Asking
from woodreeve.wording.entries import KIND_NAMES, entry_words, finding_words, kind_name
from woodreeve.wording.labels import assumed_words, label, mix_words
from woodreeve.wording.sentences import SENTENCES, sentence
from woodreeve.workings import Dated, Figure, Said

DAY = Dated(date(2026, 3, 14), "a test")
FILL = Figure(12.0, "m3", "a test", "stacked", 10.0, 14.0)


def keys_used() -> set[str]:
    """The keys of sentences that stand in the answers' own text."""
    found: set[str] = set()
    for path in Path(woodreeve.answers.__file__).parent.rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        found |= set(re.findall(r'(?:Said\(\s*|return |else |= )"([a-z_]+\.[a-z_]+)"', text))
    return found


def test_every_sentence_used_is_written() -> None:
    """And every written one is used."""
    used = keys_used()
    assert len(used) > 10
    told_here = {key for key in used if key.split(".")[0] in ("winter", "stacks", "diary", "season")}
    assert told_here <= set(SENTENCES), "nobody has written these"
    assert {key for key in SENTENCES if key.split(".")[0] in ("winter", "diary")} <= used


@pytest.mark.parametrize("key", SENTENCES)
def test_every_sentence_can_be_filled(key: str) -> None:
    """With the values it names, and nothing is left in braces."""
    names = [name for _, name, _, _ in string.Formatter().parse(SENTENCES[key]) if name]
    told_of = {name.removesuffix("_range").removesuffix("_short") for name in names}
    days = {name for name in told_of if f"{name}_short" in names}
    fill: dict[str, Any] = {name: DAY if name in days else FILL for name in told_of}
    of_a_kind = "wood" in fill and key.startswith("stacks.")
    told = sentence(Said(key, {**fill, "wood": "ash"} if of_a_kind else fill))
    assert "{" not in told
    assert "  " not in told
    assert told.count("12 m³ stacked") == len([name for name in names if name in told_of - days]) - of_a_kind
    assert told.count("10 to 14") == len([name for name in names if name.endswith("_range")])
    assert told.count("14 March") == len([name for name in names if name in days or name.endswith("_short")])
    if key.split(".")[0] in ("winter", "diary"):
        assert told.endswith(".")


def questions() -> Iterator[Asking]:
    """The demo through its year and a half, before it, and a holding without anything."""
    for days in (0, 40, 120, 250, 330, 480, 900):
        yield demo(DEMO_MOMENT - timedelta(days=days))
    yield demo(DEMO_MOMENT + timedelta(days=300))
    yield Asking('name = "empty"\n', DEMO_MOMENT)


def test_the_values_an_answer_gives_are_those_its_sentence_names() -> None:
    """At many moments; no sentence lacks a value."""
    seen = set()
    for asking in questions():
        for answer in (winter.answer(asking), stacks.answer(asking), diary.answer(asking)):
            said = answer.sentence
            names = {name for _, name, _, _ in string.Formatter().parse(SENTENCES[said.key]) if name}
            assert names <= set(said.values), said.key
            assert "{" not in sentence(said, asking.measures)
            seen.add(said.key)
    assert len(seen) > 5


def test_a_sentence_nobody_wrote_is_told() -> None:
    """Not shown as a key."""
    with pytest.raises(UnknownName, match="sentence"):
        sentence(Said("winter.warm"))


def test_every_kind_of_entry_has_a_name() -> None:
    """And no name is left over."""
    assert set(KIND_NAMES) == set(KINDS)
    assert len({kind_name(kind) for kind in KINDS}) == len(KINDS)
    assert kind_name("from_the_future") == "From the future"


def test_every_entry_of_the_demo_is_said_in_words() -> None:
    """Without codes, and each understood."""
    for entry in demo_entries():
        words = entry_words(entry)
        assert words
        assert "_" not in words, words
        assert "not understood" not in words


@pytest.mark.parametrize("kind", get_args(FindingKind))
def test_every_finding_has_words(kind: str) -> None:
    """A sentence, whether or not it names a place."""
    bare = finding_words(Finding(kind))  # type: ignore[arg-type]  # each kind in turn
    assert bare.rstrip().endswith((".", ":"))
    assert kind.replace("_", " ") != bare
    full = Finding(
        kind,  # type: ignore[arg-type]  # as above
        place="gable",
        name="barrow",
        sentence="it is odd.",
        figures={"moisture": 0.2, "taken_m3": 3.0, "held_m3": 2.0, "counted_m3": 3.0, "expected_m3": 2.0},
    )
    assert "{" not in finding_words(full)


def test_what_was_assumed_is_called_by_its_fields_name() -> None:
    """Every code that the demo and a bare house assume."""
    assert assumed_words("internal_gains_w") == "heat from people and appliances"
    assert assumed_words("upstairs: draughts").startswith("upstairs: ")
    assert assumed_words("store's standing loss: class C") == "store's standing loss: class C"
    for code in winter.answer(demo()).assumed:
        assert "_" not in assumed_words(code), code
    keys = {field.key for field in field_tree(Holding).walk()}
    assert "internal_gains_w" in keys


def test_codes_and_mixtures_in_words() -> None:
    """The largest share first, traces left out."""
    assert label("not_known") == "not measured yet"
    assert label("no_such_code") == "no such code"
    assert mix_words({"silver_birch": 0.4, "ash": 0.59, "elm": 0.01}) == "ash 59 %, silver birch 40 %"
    assert mix_words({"silver_birch": 1.0}) == "silver birch"


def test_a_day_goes_into_a_sentence_as_a_day() -> None:
    """Not as a figure."""
    values = dict.fromkeys(("rest", "next", "winters", "share", "short"), FILL)
    told = sentence(Said("winter.split", {**values, "day": Dated(date(2026, 4, 1), "a test")}))
    assert told.endswith("by 1 April 2026.")
