"""``woodreeve plant``: the answer in the terminal, or plants tried for a house that has none yet."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json

__all__ = ["command"]

SIZE = click.FloatRange(0.0, 50000.0, min_open=True)


@click.command("plant")
@click.option(
    "--design", is_flag=True, help="Try boilers, stores, insulation and who is at home over three winters."
)
@click.option("--boiler", type=SIZE, metavar="KW", help="With --design: output of the boiler to look at.")
@click.option("--store", type=SIZE, metavar="LITRES", help="With --design: the store to look at.")
@click.option(
    "--insulation",
    type=click.Choice(["as_it_is", "store_lagged", "house_insulated"]),
    default="as_it_is",
    show_default=True,
    help="With --design: insulation of store or house.",
)
@click.option(
    "--presence",
    type=click.Choice(["evening", "morning_and_evening", "all_day"]),
    default="morning_and_evening",
    show_default=True,
    help="With --design: who is at home.",
)
@click.option(
    "--spares",
    type=click.FloatRange(0.0, 500.0, min_open=True),
    default=10.0,
    show_default=True,
    help="With --design: firings a winter that 500 litres more should spare.",
)
@question
@as_json
def command(json: bool, design: bool, **options: Any) -> None:
    """Say whether the plant is rightly sized, safe and legal, or which plant would suit the house."""
    picks = {name: options.pop(name) for name in ("boiler", "store", "insulation", "presence", "spares")}
    if design:
        _design(json, picks, options)
        return
    from woodreeve.answers import plant
    from woodreeve.cli.plant_tables import print_plant

    asking = ask(**options)
    answer = plant.answer(asking)
    if json:
        print_json(answer)
    else:
        print_plant(answer, asking.measures)


def _design(json: bool, picks: dict[str, Any], options: dict[str, Any]) -> None:
    from rich.console import Console
    from rich.progress import Progress

    from woodreeve.web.kernels import use_kernel_cache

    use_kernel_cache()
    asking = ask(**options)
    from woodreeve.answers import design
    from woodreeve.cli.design_tables import print_design

    picked = design.Picked(
        boiler_kw=picks["boiler"],
        store_litres=picks["store"],
        insulation=picks["insulation"],
        presence=picks["presence"],
        least_spared=picks["spares"],
    )
    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("Trying plants over three winters", total=1.0)

        def say(share: float) -> bool:
            bar.update(task, completed=share)
            return True

        answer = design.answer(asking, picked, progress=say)
    if json:
        print_json(answer)
    else:
        print_design(answer, asking.measures)
