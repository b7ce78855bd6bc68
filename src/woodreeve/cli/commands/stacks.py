"""``woodreeve stacks``: the answer in the terminal, the yard or one stack, or a stack that might be made."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, question
from woodreeve.cli.output import as_json, print_json
from woodreeve.errors import Refused

__all__ = ["command"]


@click.command("stacks")
@click.argument("place", required=False)
@click.option("--try", "species", metavar="SPECIES", help="What a new stack of this wood would do.")
@click.option("--thickness", metavar="MM", type=float, help="With --try: short side of the split pieces.")
@click.option("--month", type=click.IntRange(1, 12), help="With --try: the month in which it is started.")
@click.option(
    "--cover",
    type=click.Choice(["none", "top_sheet", "roof", "shed"]),
    help="With --try: what it would lie under.",
)
@question
@as_json
def command(
    place: str | None,
    species: str | None,
    thickness: float | None,
    month: int | None,
    cover: Any,
    json: bool,
    **options: Any,
) -> None:
    """Say how wet each stack is, when it is ready, and which to burn first.

    PLACE is one stack by itself: its course, readings and how to sample it; with --try it is where the new
    stack would stand.
    """
    from woodreeve.web.kernels import use_kernel_cache

    if species is None and not (thickness is None and month is None and cover is None):
        raise Refused("--thickness, --month and --cover belong to --try SPECIES: name the wood to try.")
    use_kernel_cache()
    from woodreeve.answers import stacks
    from woodreeve.cli import stacks_tables as tables

    asking = ask(**options)
    if species is not None:
        found: Any = stacks.tried(
            asking, species, place=place or "", thickness_mm=thickness, month=month, cover=cover
        )
        show: Any = tables.print_tried
    elif place is not None:
        found, show = stacks.one_stack(asking, place), tables.print_stack
    else:
        found, show = stacks.answer(asking), tables.print_stacks
    if json:
        print_json(found)
    else:
        show(found, asking.measures)
