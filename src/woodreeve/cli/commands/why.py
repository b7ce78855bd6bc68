"""``woodreeve why``: a figure of an answer opened in the terminal."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json
from woodreeve.errors import UnknownName

__all__ = ["command"]


@click.command("why")
@click.argument("name_of_question", metavar="QUESTION")
@click.argument("field", required=False)
@click.option(
    "--steps",
    "most_steps",
    default=12,
    show_default=True,
    type=click.IntRange(min=0),
    help="Steps to show; 0 for all.",
)
@question
@as_json
def command(name_of_question: str, field: str | None, most_steps: int, json: bool, **options: Any) -> None:
    """Show how a figure came about: FIELD of the answer to QUESTION, for instance ``why winter cover``.

    Of one stack: ``why stacks/gable line.moisture``.

    Without FIELD, lists the figures of the answer.
    """
    from woodreeve.cli.opened import print_figures, print_opened
    from woodreeve.web.kernels import use_kernel_cache

    use_kernel_cache()
    from woodreeve.web.api.opened import ANSWERS, answered, opened_figure
    from woodreeve.workings.why import figures_of

    if name_of_question.partition("/")[0] not in ANSWERS:
        raise UnknownName("question", name_of_question, ANSWERS)
    asking = ask(**options)
    if field is not None:
        found = opened_figure(name_of_question, field, asking)
        if json:
            print_json(found)
        else:
            print_opened(found, asking.measures, most_steps)
        return
    figures = dict(figures_of(answered(name_of_question, asking)))
    if json:
        print_json(figures)
    else:
        print_figures(figures, asking.measures)
