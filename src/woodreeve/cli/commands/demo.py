"""``woodreeve demo``: the pages on the demonstration holding."""

from __future__ import annotations

import click

__all__ = ["command"]


@click.command("demo")
@click.option(
    "--port", default=8730, show_default=True, type=click.IntRange(0, 65535), help="Port; 0 takes a free one."
)
@click.option("--keep", is_flag=True, help="Go on with the demonstration as it was left, notes included.")
def command(port: int, keep: bool) -> None:
    """Start the pages on Aldermoor, an invented farmhouse; your own records are not touched."""
    from woodreeve.cli.serving import run
    from woodreeve.holding.demo import DEMO_MOMENT
    from woodreeve.records.demo import demo_household
    from woodreeve.web.clocks import SteppedClock

    run(demo_household(clock=SteppedClock(DEMO_MOMENT), fresh=not keep), "127.0.0.1", port)
