"""``woodreeve serve``: the pages, on this computer."""

from __future__ import annotations

import click

from woodreeve.cli.asking import household, of_records

__all__ = ["command"]


@click.command("serve")
@of_records
@click.option(
    "--host", default="127.0.0.1", show_default=True, help="Address to listen on; this computer only."
)
@click.option(
    "--port", default=8731, show_default=True, type=click.IntRange(0, 65535), help="Port; 0 takes a free one."
)
@click.option("--weather", metavar="FILE", help="Hourly weather: EPW, TMY3, DWD test year or CSV.")
def command(records: str | None, name: str | None, host: str, port: int, weather: str | None) -> None:
    """Start the pages on this computer."""
    from pathlib import Path

    from woodreeve.cli.serving import check_host, run
    from woodreeve.records.weather_files import read_weather

    check_host(host)
    hourly = read_weather(Path(weather)) if weather else None
    run(household(records, name, hourly), host, port)
