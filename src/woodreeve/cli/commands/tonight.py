"""``woodreeve tonight``: whether to light, in the terminal."""

from __future__ import annotations

from typing import Any

import click

from woodreeve.cli.asking import ask, household, question
from woodreeve.cli.output import as_json, print_json
from woodreeve.errors import Refused

__all__ = ["command"]


@click.command("tonight")
@question
@click.option("--refresh", is_flag=True, help="First fetch the weather forecast, if you have turned it on.")
@as_json
def command(json: bool, refresh: bool, **options: Any) -> None:
    """Say whether to light the boiler tonight, when, with how much and from which stack."""
    from woodreeve.web.kernels import use_kernel_cache

    use_kernel_cache()
    if refresh:
        _refresh(**options)
    from woodreeve.answers import tonight
    from woodreeve.cli.tonight_table import print_tonight

    asking = ask(**options)
    answer = tonight.answer(asking)
    if json:
        print_json(answer)
    else:
        print_tonight(answer, asking.measures)


def _refresh(records: str | None, name: str | None, demo: bool, source: str | None, **_others: Any) -> None:
    from woodreeve.links.refresh import refresh_forecast

    if demo or source is not None:
        raise Refused("--refresh keeps a forecast in your own records: leave --demo and --from out.")
    one = household(records, name)
    try:
        told = refresh_forecast(one.records, one.name, one.ask().holding, one.clock())
    finally:
        one.close()
    if told is None:
        raise Refused("Forecasts are turned off: choose a service in the section climate of your place.")
    if told.sentence:
        click.echo(told.sentence, err=True)
