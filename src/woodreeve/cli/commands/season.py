"""``woodreeve season``: a year of the plant in the terminal."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json

__all__ = ["command"]


@click.command("season")
@question
@click.option(
    "--rule",
    type=click.Choice(["evening", "tuned"]),
    default="evening",
    show_default=True,
    help="The common evening rule, or the best of many simple rules.",
)
@click.option(
    "--begins",
    type=click.DateTime(["%Y-%m-%d"]),
    help="First day of the span; the first of July if left out.",
)
@click.option(
    "--days", type=click.IntRange(1, 1500), default=365, show_default=True, help="Length of the span."
)
@as_json
def command(json: bool, rule: str, begins: datetime | None, days: int, **options: Any) -> None:
    """Run plant and house through a usual year, or another span, with a firing rule."""
    from rich.progress import Progress

    from woodreeve.cli.season_table import print_season
    from woodreeve.web.kernels import use_kernel_cache

    use_kernel_cache()
    asking = ask(**options)
    from rich.console import Console

    from woodreeve.answers import season

    chosen: season.RuleName = "tuned" if rule == "tuned" else "evening"
    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("Running the plant through the span", total=1.0)

        def say(share: float) -> bool:
            bar.update(task, completed=share)
            return True

        answer = season.answer(
            asking, chosen, begins=begins.date() if begins else None, days=days, progress=say
        )
    if json:
        print_json(answer)
    else:
        print_season(answer, asking.measures)
