"""An opened figure as text: each step with its formula, its inputs and where they came from."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence

from woodreeve.cli.output import console
from woodreeve.cli.tables import figures_table
from woodreeve.web.api.opened import OpenedFigure
from woodreeve.wording.numbers import day, shown
from woodreeve.wording.translate import _
from woodreeve.workings import Dated, Figure
from woodreeve.workings.why import Input, Step

__all__ = ["print_figures", "print_opened"]

MOST_GIVEN = 3
"""So many places are named where an input came from; the others are counted."""


def print_figures(figures: Mapping[str, Figure | Dated], measures: Mapping[str, str]) -> None:
    """Print the figures of an answer by the names under which they can be opened."""
    console().print(figures_table(figures.items(), measures))


def print_opened(opened: OpenedFigure, measures: Mapping[str, str], most_steps: int = 0) -> None:
    """Print a figure and the steps behind it, the last worked out first.

    Parameters
    ----------
    opened : OpenedFigure
        The figure, opened.
    measures : mapping
        The owner's preferred units.
    most_steps : int
        Steps to print; 0 for all of them.
    """
    out = console()
    figure = opened.shown
    told = day(figure.value) if isinstance(figure, Dated) else str(shown(figure, measures))
    basis = f", {figure.basis}" if figure.basis else ""
    lines = [f"{opened.path}: {told}{basis}"]
    if opened.given:
        lines.append(_("given: {what}").format(what=opened.given))
    steps = opened.steps[: most_steps or None]
    for step in steps:
        lines += ["", *_lines(step)]
    if len(steps) < len(opened.steps):
        more = _("{n} more steps lie behind these; --steps 0 shows all.")
        lines += ["", more.format(n=len(opened.steps) - len(steps))]
    for line in lines:
        indent = len(line) - len(line.lstrip(" -"))
        wrapped = textwrap.wrap(
            line, out.width, subsequent_indent=" " * indent, break_long_words=False, break_on_hyphens=False
        )
        out.print("\n".join(wrapped) if wrapped else "", soft_wrap=True)


def _lines(step: Step) -> Iterator[str]:
    unit = f" {step.unit}" if step.unit not in ("", "-") else ""
    many = f" ({_('{n} times, {span}').format(n=step.count, span=step.span)})" if step.count > 1 else ""
    yield f"{step.number}. {step.name.replace('_', ' ')}: {step.result}{unit}{many}"
    yield f"   {step.summary}"
    for equation in step.equations:
        yield f"   {equation}"
    for one in step.inputs:
        yield f"   - {_input(one)}"
    if step.inside:
        yield "   " + _("inside it: steps {numbers}").format(numbers=_runs(step.inside))
    for line in step.references.splitlines():
        if line.strip():
            yield f"   {line.strip()}"


def _input(one: Input) -> str:
    unit = f" {one.unit}" if one.unit not in ("", "-") else ""
    origins = []
    if one.steps:
        origins.append(_("from step {numbers}").format(numbers=_runs(one.steps)))
    if one.on_the_way_of is not None:
        origins.append(_("worked out inside step {n}").format(n=one.on_the_way_of))
    origins += one.given[:MOST_GIVEN]
    if len(one.given) > MOST_GIVEN:
        origins.append(_("and {n} more").format(n=len(one.given) - MOST_GIVEN))
    told = f" ({'; '.join(origins)})" if origins else ""
    return f"{one.name.replace('_', ' ')} = {one.text}{unit}{told}"


def _runs(numbers: Sequence[int]) -> str:
    """Numbers in words, those that follow each other drawn together: "5 to 9, 12"."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(str(a) if a == b else _("{a} to {b}").format(a=a, b=b) for a, b in runs)
