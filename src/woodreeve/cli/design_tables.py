"""The design helper as text."""

from __future__ import annotations

from collections.abc import Mapping

from woodreeve.answers.design import DesignAnswer
from woodreeve.cli.output import console
from woodreeve.cli.tables import rows_table
from woodreeve.wording.design import design_words
from woodreeve.wording.numbers import number, text
from woodreeve.wording.plant import field_words
from woodreeve.wording.sentences import sentence
from woodreeve.wording.translate import _

__all__ = ["print_design"]


def print_design(answer: DesignAnswer, measures: Mapping[str, str]) -> None:
    """Print the design helper: sentence, stores with the boiler picked, what each step buys, knees."""
    out, picked = console(), answer.picked
    out.print(sentence(answer.sentence, measures))
    out.print()
    out.print(
        _("With {boiler} kW, {who}; insulation: {how}.").format(
            boiler=number(picked.boiler_kw or 0.0),
            who=design_words(picked.presence),
            how=design_words(picked.insulation),
        )
    )
    heads = [
        _("Store"),
        _("Firings"),
        _("hard winter"),
        _("Backup %"),
        _("Cold K h"),
        _("Wood kg"),
        _("Cost"),
    ]
    rows = []
    for line in answer.lines_of(picked.boiler_kw or 0.0, picked.insulation, picked.presence):
        rows.append(
            [
                text(line.store_litres, measures),
                number(line.fires[0].value),
                number(line.fires[-1].value),
                number(100.0 * line.backup_share[0].value, 2.0),
                number(line.cold_kh[0].value),
                number(line.wood_kg[0].value),
                "–" if line.cost is None else number(line.cost.value),
            ]
        )
    out.print(rows_table(heads, rows, numbers=range(len(heads))))
    out.print()
    heads = [
        _("A bigger store"),
        _("firings spared"),
        _("for 500 l"),
        _("backup kWh spared"),
        _("worth at most"),
    ]
    steps = [
        [
            f"{text(step.from_litres)} → {text(step.to_litres)}",
            number(step.fires_spared.value),
            number(step.spared_for_500.value),
            number(step.backup_spared_kwh.value),
            "–" if step.worth is None else number(step.worth.value),
        ]
        for step in answer.steps
    ]
    out.print(rows_table(heads, steps, numbers=range(1, len(heads))))
    out.print()
    for kw, knee, reached in zip(answer.boilers_kw, answer.knees, answer.knees_reached, strict=True):
        said = _("Knee with {kw} kW: {litres}.") if reached else _("Knee with {kw} kW: past {litres}.")
        out.print(said.format(kw=number(kw), litres=text(knee)))
    if answer.missing_prices:
        missing = ", ".join(field_words(path) for path in answer.missing_prices)
        out.print(_("Prices not told: {what}").format(what=missing))
    out.print(
        _(
            "A simulation, not compared with a measured plant. It shows no safety: rules are checked by "
            "`woodreeve plant`, and a qualified installer designs it."
        )
    )
