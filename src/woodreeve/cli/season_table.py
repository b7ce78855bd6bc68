"""The answer ``season`` as text."""

from __future__ import annotations

from collections.abc import Mapping

from babel.dates import format_date
from rich.console import Console

from woodreeve.answers.season import MonthLine, SeasonAnswer
from woodreeve.cli.tables import figures_table, rows_table
from woodreeve.wording.labels import assumed_words
from woodreeve.wording.numbers import LOCALE, number
from woodreeve.wording.sentences import sentence
from woodreeve.wording.translate import _

__all__ = ["print_season"]


def print_season(answer: SeasonAnswer, measures: Mapping[str, str]) -> None:
    """Print the answer ``season``: sentence, months, sums."""
    console = Console(highlight=False, markup=False)
    console.print(sentence(answer.sentence, measures))
    console.print()
    heads = [
        _("Month"),
        _("Fires"),
        _("Wood kg"),
        _("Wood kWh"),
        _("Backup kWh"),
        _("Rooms kWh"),
        _("Taps kWh"),
        _("Cold K h"),
    ]
    console.print(rows_table(heads, [_row(line) for line in (*answer.months, answer.total)]))
    console.print()
    figures = [
        (_("efficiency of the fires"), answer.efficiency),
        (_("share of the backup"), answer.backup_share),
        (_("hottest layer of the store"), answer.hottest_store_c),
        (_("hours over its limit"), answer.over_limit_h),
        (_("light when the store is below"), answer.rule.below_c),
        (_("a full load"), answer.rule.load_kg),
    ]
    console.print(figures_table(figures, measures))
    console.print(
        _(
            "A simulation of a usual year: the store model has not been compared with a measured tank, "
            "nor the boiler model with a measured burn."
        )
    )
    if answer.assumed:
        told = "; ".join(assumed_words(one).rstrip(". ") for one in answer.assumed)
        console.print(_("Not told, so assumed: {what}.").format(what=told))


def _row(line: MonthLine) -> list[str]:
    name = format_date(line.month, "MMM y", locale=LOCALE) if line.month else _("all")
    parts = (
        line.fires,
        line.wood_kg,
        line.water_kwh,
        line.backup_kwh,
        line.rooms_kwh,
        line.taps_kwh,
        line.cold_kh,
    )
    return [name, *(number(part.value) for part in parts)]
