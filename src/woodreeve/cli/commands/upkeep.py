"""``woodreeve upkeep``: the answer in the terminal."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json

__all__ = ["command"]


@click.command("upkeep")
@question
@as_json
def command(json: bool, **options: Any) -> None:
    """Say what is due on the plant, and what was left out."""
    from woodreeve.answers import upkeep
    from woodreeve.cli.plant_tables import print_upkeep

    asking = ask(**options)
    answer = upkeep.answer(asking)
    if json:
        print_json(answer)
    else:
        print_upkeep(answer, asking.measures)
