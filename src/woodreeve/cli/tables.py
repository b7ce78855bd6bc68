"""Answers as text: the sentence first, then the figures, then the months or stacks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from babel.dates import format_date
from rich.table import Table

from woodreeve.answers.diary import DiaryAnswer
from woodreeve.answers.winter import MonthNeed, WinterAnswer, WinterNeed
from woodreeve.cli.output import console
from woodreeve.diary.entry import Entry
from woodreeve.wording.entries import entry_words, finding_words, kind_name
from woodreeve.wording.labels import assumed_words, label
from woodreeve.wording.numbers import LOCALE, column, day, shown, summed, text, when
from woodreeve.wording.sentences import sentence
from woodreeve.wording.translate import _
from woodreeve.workings import Dated, Figure

__all__ = ["figures_table", "print_diary", "print_winter", "rows_table"]

Measures = Mapping[str, str]


def rows_table(
    heads: Sequence[str],
    rows: Iterable[Sequence[str]],
    numbers: Iterable[int] = (),
    folded: Iterable[int] = (),
) -> Table:
    """A plain table for a narrow terminal.

    Parameters
    ----------
    heads : sequence of str
        The head of each column; without any no heads are shown.
    rows : iterable of sequence of str
        The cells.
    numbers, folded : iterable of int
        Columns that are set right, and columns that may be broken over several lines; the others are
        kept whole.
    """
    table = Table(box=None, pad_edge=False, header_style="bold", show_header=any(heads))
    right, may_break = set(numbers), set(folded)
    for position, head in enumerate(heads):
        table.add_column(
            head,
            justify="right" if position in right else "left",
            no_wrap=position not in may_break,
            overflow="fold",
        )
    for row in rows:
        table.add_row(*row)
    return table


def figures_table(figures: Iterable[tuple[str, Figure | Dated | None]], measures: Measures) -> Table:
    """Names and figures, ranges in brackets."""
    rows = [
        (name, day(value.value) if isinstance(value, Dated) else str(shown(value, measures)))
        for name, value in figures
        if value is not None
    ]
    return rows_table(("", ""), rows, folded=(1,))


def print_winter(answer: WinterAnswer, measures: Measures) -> None:
    """Print the answer ``winter``."""
    out = console()
    out.print(sentence(answer.sentence, measures))
    out.print()
    out.print(figures_table(_winter_figures(answer), measures))
    if answer.months and answer.next:
        out.print()
        out.print(_months_table(answer.months, measures))
        out.print()
        out.print(_("A whole year: {heat}, {mass}, {volume}.").format(**_need(answer.next, measures)))
    for way in answer.ways:
        found = str(shown(way.year_kwh, measures)) if way.year_kwh else way.missing
        out.print(f"{label(way.key)}: {found}")
    if answer.weather:
        out.print(_("Weather: {what}").format(what=answer.weather))
    if answer.assumed:
        told = ", ".join(assumed_words(code) for code in answer.assumed)
        out.print(_("Not told, so assumed: {what}").format(what=told))
    for finding in answer.findings:
        out.print(_("To look at: {what}").format(what=finding_words(finding)))


def _winter_figures(answer: WinterAnswer) -> list[tuple[str, Figure | Dated | None]]:
    short = answer.short_next_m3
    is_short = short is not None and short.value > 0.0
    return [
        (_("rest of this winter"), answer.rest.wood_stacked_m3 if answer.rest else None),
        (_("  by weight"), answer.rest.wood_t if answer.rest else None),
        (_("next winter"), answer.next.wood_stacked_m3 if answer.next else None),
        (_("  by weight"), answer.next.wood_t if answer.next else None),
        (_("split wood"), answer.stock_stacked_m3),
        (_("  its heat"), answer.stock_heat_kwh),
        (_("  dry enough"), answer.dry_share),
        (_("winters covered"), answer.cover),
        (_("short for next winter"), short if is_short else None),
        (_("split by"), answer.split_by if is_short else None),
        (_("to be sure, by"), answer.split_safe_by if is_short else None),
        (_("moisture when burnt"), answer.burnt_moisture),
        (_("efficiency, net"), answer.efficiency),
        (_("heat on the coldest day"), answer.design_load_kw),
    ]


def _months_table(months: Sequence[MonthNeed], measures: Measures) -> Table:
    unit, rows = summed(
        [(one.space_heat_kwh, one.hot_water_kwh, one.plant_loss_kwh, one.heat_kwh) for one in months],
        measures,
    )
    columns = [
        (_("Wood"), [one.wood_t for one in months]),
        (_("Wood"), [one.wood_stacked_m3 for one in months]),
    ]
    heads, cells = [_("Month")], [[format_date(one.month, "MMM y", locale=LOCALE) for one in months]]
    for place, name in enumerate((_("Rooms"), _("Hot water"), _("Losses"), _("All heat"))):
        heads.append(f"{name}\n{unit}")
        cells.append([row[place] for row in rows])
    for name, figures in columns:
        unit, numbers = column(figures, measures)
        heads.append(f"{name}\n{unit}")
        cells.append(numbers)
    return rows_table(heads, zip(*cells), numbers=range(1, 7))


def _need(need: WinterNeed, measures: Measures) -> dict[str, str]:
    parts = {"heat": need.heat_kwh, "mass": need.wood_t, "volume": need.wood_stacked_m3}
    return {name: text(figure, measures) for name, figure in parts.items()}


def print_diary(answer: DiaryAnswer, entries: Sequence[Entry], in_all: int, measures: Measures) -> None:
    """Print entries of the diary, the first characters of their ids before them."""
    out = console()
    out.print(sentence(answer.sentence, measures))
    if entries:
        rows = [
            (
                entry.id[:8],
                when(entry.happened),
                f"{kind_name(entry.kind)}: {entry_words(entry)}"
                + (f" ({label(answer.corrected[entry.id])})" if entry.id in answer.corrected else ""),
            )
            for entry in entries
        ]
        out.print()
        out.print(rows_table(("", "", ""), rows, folded=(2,)))
    if len(entries) < in_all:
        out.print(_("and {n} more; --most 0 lists all.").format(n=in_all - len(entries)))
    for finding in answer.findings:
        out.print(_("To look at: {what}").format(what=finding_words(finding)))
