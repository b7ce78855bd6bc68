"""Answers as text: the sentence first, then the figures, then the months or stacks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from babel.dates import format_date
from rich.console import Console
from rich.table import Table

from woodreeve.answers.stacks import StacksAnswer
from woodreeve.answers.winter import WinterAnswer, WinterNeed
from woodreeve.wording.entries import finding_words
from woodreeve.wording.labels import label, mix_words
from woodreeve.wording.numbers import LOCALE, day, shown, text
from woodreeve.wording.sentences import sentence
from woodreeve.wording.translate import _
from woodreeve.workings import Dated, Figure

__all__ = ["figures_table", "print_stacks", "print_winter", "rows_table"]

Measures = Mapping[str, str]


def rows_table(heads: Sequence[str], rows: Iterable[Sequence[str]], numbers_from: int = 1) -> Table:
    """A plain table; columns from ``numbers_from`` on are set right."""
    table = Table(box=None, pad_edge=False, header_style="bold")
    for position, head in enumerate(heads):
        table.add_column(head, justify="right" if position >= numbers_from else "left")
    for row in rows:
        table.add_row(*row)
    return table


def figures_table(figures: Iterable[tuple[str, Figure | Dated | None]], measures: Measures) -> Table:
    """Names and figures, ranges in brackets."""
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column()
    table.add_column()
    for name, value in figures:
        if value is not None:
            told = day(value.value) if isinstance(value, Dated) else str(shown(value, measures))
            table.add_row(name, told)
    return table


def print_winter(answer: WinterAnswer, measures: Measures) -> None:
    """Print the answer ``winter``."""
    console = Console(highlight=False, markup=False)
    console.print(sentence(answer.sentence, measures))
    console.print()
    console.print(figures_table(_winter_figures(answer), measures))
    if answer.months:
        console.print()
        heads = [_("Month"), _("Rooms kWh"), _("Hot water kWh"), _("All kWh"), _("Wood t"), _("Stacked m³")]
        console.print(rows_table(heads, (_month(m, measures) for m in answer.months)))
        year = answer.next
        assert year is not None
        console.print()
        console.print(_("A whole year: {heat}, {mass}, {volume}.").format(**_need(year, measures)))
    for way in answer.ways:
        found = str(shown(way.year_kwh, measures)) if way.year_kwh else way.missing
        console.print(f"{label(way.key)}: {found}")
    if answer.weather:
        console.print(_("Weather: {what}").format(what=answer.weather))
    if answer.assumed:
        console.print(_("Not told, so assumed: {what}").format(what=", ".join(answer.assumed)))
    for finding in answer.findings:
        console.print(_("To look at: {what}").format(what=finding_words(finding)))


def _winter_figures(answer: WinterAnswer) -> list[tuple[str, Figure | Dated | None]]:
    return [
        (_("rest of this winter"), answer.rest.wood_stacked_m3 if answer.rest else None),
        (_("  by weight"), answer.rest.wood_t if answer.rest else None),
        (_("next winter"), answer.next.wood_stacked_m3 if answer.next else None),
        (_("  by weight"), answer.next.wood_t if answer.next else None),
        (_("split wood"), answer.stock_stacked_m3),
        (_("  its heat"), answer.stock_heat_kwh),
        (_("  dry enough"), answer.dry_share),
        (_("winters covered"), answer.cover),
        (_("short for next winter"), answer.short_next_m3),
        (_("split by"), answer.split_by),
        (_("to be sure, by"), answer.split_safe_by),
        (_("moisture when burnt"), answer.burnt_moisture),
        (_("efficiency, net"), answer.efficiency),
        (_("heat on the coldest day"), answer.design_load_kw),
    ]


def _month(one: object, measures: Measures) -> list[str]:
    from woodreeve.answers.winter import MonthNeed

    assert isinstance(one, MonthNeed)
    parts = (one.space_heat_kwh, one.hot_water_kwh, one.heat_kwh, one.wood_t, one.wood_stacked_m3)
    name = format_date(one.month, "MMM y", locale=LOCALE)
    return [name, *(shown(part, measures).number for part in parts)]


def _need(need: WinterNeed, measures: Measures) -> dict[str, str]:
    parts = {"heat": need.heat_kwh, "mass": need.wood_t, "volume": need.wood_stacked_m3}
    return {name: text(figure, measures) for name, figure in parts.items()}


def print_stacks(answer: StacksAnswer, measures: Measures) -> None:
    """Print the answer ``stacks``."""
    console = Console(highlight=False, markup=False)
    console.print(sentence(answer.sentence, measures))
    console.print()
    heads = [_("Stack"), _("Wood"), _("How much"), _("Moisture"), _("Heat"), _("Verdict")]
    table = Table(box=None, pad_edge=False, header_style="bold")
    for head in heads:
        table.add_column(head)
    for line in answer.stacks:
        moisture = str(shown(line.moisture, measures)) if line.moisture else _("not measured")
        table.add_row(
            f"{line.turn}. {line.name}",
            mix_words(line.mix),
            text(line.stacked_m3, measures),
            moisture,
            text(line.heat_kwh, measures),
            label(line.dryness),
        )
    console.print(table)
    for rounds in answer.in_the_round:
        console.print(
            _("Not split yet: {name}, {wood}, {how_much}").format(
                name=rounds.name, wood=mix_words(rounds.mix), how_much=text(rounds.solid_m3, measures)
            )
        )
    for finding in answer.findings:
        console.print(_("To look at: {what}").format(what=finding_words(finding)))
