"""``woodreeve winter``: the answer in the terminal."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json

__all__ = ["command"]


@click.command("winter")
@question
@as_json
def command(json: bool, **options: Any) -> None:
    """Say how much wood this winter and the next take, and whether it is there and dry."""
    from woodreeve.web.kernels import use_kernel_cache

    use_kernel_cache()
    from woodreeve.answers import winter
    from woodreeve.cli.tables import print_winter

    asking = ask(**options)
    answer = winter.answer(asking)
    if json:
        print_json(answer)
    else:
        print_winter(answer, asking.measures)
