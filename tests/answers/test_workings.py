"""Every figure of an answer opens down to a source or to what the owner gave; nothing is unexplained."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from tests.answers.demo import demo, plain
from woodreeve.answers import diary, plant, stacks, tonight, upkeep, winter
from woodreeve.holding.demo import demo_holding_text
from woodreeve.records.asking import Asking
from woodreeve.weather.typical import typical_year
from woodreeve.workings import Trace, figure
from woodreeve.workings.figure import node_of
from woodreeve.workings.load import load_all
from woodreeve.workings.why import figures_of, open_figure

ANSWERS = {
    "tonight": tonight.answer,
    "winter": winter.answer,
    "stacks": stacks.answer,
    "plant": plant.answer,
    "upkeep": upkeep.answer,
    "diary": diary.answer,
}
OPENED = ("tonight", "winter", "stacks", "plant", "upkeep")


def without_past_fuel() -> str:
    """The demo's holding as if nobody had kept the bills."""
    before, _, after = demo_holding_text().partition("[[house.past_fuel]]")
    return before + after[after.index("[plant]") :]


def without_climate() -> Asking:
    """The demo with a weather file in place of monthly means."""
    normals = demo().holding.normals()
    assert normals is not None
    whole = demo()
    return Asking(whole.document, whole.moment, entries=whole.entries, weather=typical_year(normals, seed=3))


CASES = {
    "as it is": demo,
    "without past fuel": lambda: demo(text=without_past_fuel()),
    "with a weather file": without_climate,
}


@cache
def traced(question: str, case: str) -> Any:
    """An answer worked out under a trace."""
    load_all()
    with CASES[case]().traced() as fresh:
        return ANSWERS[question](fresh)


def each_origin(answer: Any) -> list[str]:
    """Paths of figures, of those that one and the same step or value made only the first: they open alike."""
    found: dict[object, str] = {}
    for path, shown in figures_of(answer):
        behind = node_of(shown)
        found.setdefault(path if behind is None else id(behind), path)
    return list(found.values())


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("question", OPENED)
def test_every_figure_opens_to_a_source_and_leaves_nothing_unexplained(question: str, case: str) -> None:
    """Of the demonstration's answers, in three forms of the question."""
    answer = traced(question, case)
    assert len(list(figures_of(answer))) > 20
    for path in each_origin(answer):
        opened = open_figure(answer, path)
        assert opened.sources, f"{path} rests on nothing"
        assert opened.loose == (), f"{path} has numbers that nothing accounts for"


@pytest.mark.parametrize("question", OPENED)
def test_every_figure_rests_on_a_reference_or_on_an_owners_value(question: str) -> None:
    """Either a step cites where its formula stands, or the figure is what the owner typed."""
    answer = traced(question, "as it is")
    for path in each_origin(answer):
        opened = open_figure(answer, path)
        if opened.steps:
            assert all(step.references for step in opened.steps), path
        else:
            assert opened.given.startswith(("holding", "diary")), path


def test_what_the_owner_typed_and_what_he_left_open_are_told_apart() -> None:
    """Nobody is made to have said what is a default."""
    answer = traced("winter", "as it is")
    given = open_figure(answer, "efficiency").sources
    assert any("plant.boiler" in text and "given by the owner" in text for text in given)
    defaults = [text for path, _ in figures_of(answer) for text in open_figure(answer, path).sources]
    assert any(text.startswith("holding.") and "default" in text for text in defaults)


def test_figures_of_the_diary_lead_back_to_entries() -> None:
    """The moisture of a stack goes down through the meter's reading to what was logged."""
    answer = traced("stacks", "as it is")
    index = next(n for n, line in enumerate(answer.stacks) if line.name == "lean-to")
    opened = open_figure(answer, f"stacks.{index}.moisture")
    assert any(step.name == "meter_reading" for step in opened.steps)
    assert any(text.startswith("diary") and "logged by the owner" in text for text in opened.sources)


@pytest.mark.parametrize("question", ANSWERS)
def test_an_answer_is_the_same_with_and_without_a_trace(question: str) -> None:
    """To the last digit."""
    with demo().traced() as fresh:
        under_trace = ANSWERS[question](fresh)
    assert plain(under_trace) == plain(ANSWERS[question](demo()))


def test_the_search_for_unexplained_numbers_finds_one() -> None:
    """Arithmetic between two formulas is caught, and so is a number from nowhere."""
    from woodreeve.wood.heat import net_heat
    from woodreeve.wood.moisture import to_wet_basis

    with Trace() as trace:
        trace.given(stated := float("19.0"), "holding: net_heat_dry_mj_kg", "typed by the owner")
        moisture = to_wet_basis(0.25)
        whole = figure(net_heat(stated, moisture + 0.01), "MJ/kg", net_heat)
    loose = open_figure({"heat": whole}, "heat").loose
    assert any("net_heat.moisture" in one for one in loose)
