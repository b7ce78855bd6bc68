"""``woodreeve stacks``: the answer in the terminal."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json

__all__ = ["command"]


@click.command("stacks")
@question
@as_json
def command(json: bool, **options: Any) -> None:
    """Say what is in each stack, how wet it is, and which to burn first."""
    from woodreeve.answers import stacks
    from woodreeve.cli.tables import print_stacks

    asking = ask(**options)
    answer = stacks.answer(asking)
    if json:
        print_json(answer)
    else:
        print_stacks(answer, asking.measures)
