"""``woodreeve plant``: the answer in the terminal."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json

__all__ = ["command"]


@click.command("plant")
@question
@as_json
def command(json: bool, **options: Any) -> None:
    """Say whether the plant is rightly sized, safe and legal."""
    from woodreeve.answers import plant
    from woodreeve.cli.plant_tables import print_plant

    asking = ask(**options)
    answer = plant.answer(asking)
    if json:
        print_json(answer)
    else:
        print_plant(answer, asking.measures)
