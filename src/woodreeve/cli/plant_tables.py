"""The answers ``plant`` and ``upkeep`` as text."""

from __future__ import annotations

from collections.abc import Mapping

from woodreeve.answers.plant import PlantAnswer
from woodreeve.answers.upkeep import UpkeepAnswer
from woodreeve.cli.output import console
from woodreeve.cli.tables import figures_table, rows_table
from woodreeve.plant.checks.verdict import Check
from woodreeve.wording.numbers import day, text
from woodreeve.wording.plant import MARKS, field_words, value_words, words
from woodreeve.wording.sentences import sentence
from woodreeve.wording.translate import _

__all__ = ["print_plant", "print_upkeep"]

Measures = Mapping[str, str]


def print_plant(answer: PlantAnswer, measures: Measures) -> None:
    """Print the answer ``plant``: the table of checks, then what does not fit or is not known in full."""
    out = console()
    out.print(sentence(answer.sentence, measures))
    out.print()
    heads = (_("Check"), _("Yours"), _("Wanted"), _("Verdict"))
    rows = [
        (_(one.topic.what), value_words(one.yours, measures), _wanted(one, measures), _verdict(one.verdict))
        for one in answer.checks
    ]
    out.print(rows_table(heads, rows, folded=(0, 1, 2)))
    for one in answer.checks:
        if one.verdict != "fits":
            out.print()
            _in_full(one)
    out.print()
    out.print(_("The store by each published rule:"))
    lines = [
        (
            _(line.rule.words),
            text(line.wanted, measures) if line.wanted else "–",
            _verdict(line.verdict),
            line.rule.source,
        )
        for line in answer.store_rules
    ]
    out.print(
        rows_table((_("Rule"), _("Store"), _("Yours"), _("Source")), lines, numbers=(1,), folded=(0, 3))
    )
    out.print()
    loads = answer.loads
    out.print(
        figures_table(
            [
                (_("a full load"), loads.full_load_kwh),
                (_("store when lit"), loads.lit_at_c),
                (_("room in it"), loads.room_kwh),
                (_("part of a load that fits"), loads.share_that_fits),
                (_("usable heat of a full store"), loads.usable_kwh),
                (_("efficiency by your flue, net"), answer.efficiency.own_net),
                (_("  the same, gross"), answer.efficiency.own_gross),
            ],
            measures,
        )
    )
    out.print()
    out.print(
        _(
            "Rules gathered on {day}; laws change. Advice only: a failed check is for a qualified installer."
        ).format(day=day(answer.rules_gathered_on))
    )


def _verdict(code: str) -> str:
    return f"{MARKS[code]} {words(code)}"


def _wanted(one: Check, measures: Measures) -> str:
    return "–" if one.wanted is None else f"{words(one.meant)} {text(one.wanted, measures)}".strip()


def _in_full(one: Check) -> None:
    out = console()
    out.print(f"{_verdict(one.verdict)}: {_(one.topic.what)}")
    if one.missing:
        out.print("  " + _("Tell: {what}").format(what=", ".join(field_words(path) for path in one.missing)))
    if one.rule is None:
        out.print("  " + _("No rule of this nation was read: ask locally."))
    else:
        out.print(f"  {_(one.rule.words)}")
        out.print(f"  {one.rule.source} ({words(one.rule.read)})")
    out.print("  " + _("It would take: {what}").format(what=_(one.topic.takes)))
    if one.topic.caution:
        out.print("  " + _("Caution: {what}").format(what=_(one.topic.caution)))


def print_upkeep(answer: UpkeepAnswer, measures: Measures) -> None:
    """Print the answer ``upkeep``."""
    out = console()
    out.print(sentence(answer.sentence, measures))
    out.print()
    rows = [
        (
            _(one.task.what),
            day(one.last) if one.last else "–",
            day(one.due.value) if one.due else "–",
            _verdict(one.state),
            words(one.task.who),
        )
        for one in answer.tasks
    ]
    out.print(rows_table((_("Task"), _("Last"), _("Due"), _("State"), _("By")), rows, folded=(0,)))
    out.print()
    out.print(
        figures_table(
            [
                (_("wood burnt since the ash went out"), answer.ash.burnt_kg),
                (_("ash since then"), answer.ash.litres),
                (_("room for ash"), answer.ash.room_litres),
            ],
            measures,
        )
    )
    for one in answer.skipped:
        out.print(
            _("Left out on {day}: {what}. {why}").format(day=day(one.on), what=_(one.what), why=_(one.why))
        )
    for steps in answer.lists:
        out.print()
        out.print(_(steps.title))
        for item in steps.items:
            out.print(f"  - {_(item)}")
    out.print()
    worn = [
        (
            _(one.part.what),
            day(one.fitted) if one.fitted else "–",
            text(one.hours, measures) if one.hours else "–",
            day(one.look_by.value) if one.look_by else "–",
        )
        for one in answer.parts
    ]
    out.print(rows_table((_("Part"), _("Fitted"), _("Hours"), _("Look by")), worn, numbers=(2,), folded=(0,)))
    for duty in answer.duties:
        out.print(_("Duty: {what} ({source})").format(what=_(duty.words), source=duty.source))
