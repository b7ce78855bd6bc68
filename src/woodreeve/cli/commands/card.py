"""``woodreeve card``: the emergency card as a PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from woodreeve.cli.asking import ask, question

__all__ = ["command"]


@click.command("card")
@click.option(
    "--to",
    "file",
    required=True,
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The PDF to write.",
)
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@question
def command(file: Path, replace: bool, **options: Any) -> None:
    """Print the card for the boiler-room door: what to do when something goes wrong, on one A5 page."""
    from woodreeve.papers.emergency_card import card_for, card_pdf
    from woodreeve.papers.printing import save

    save(card_pdf(card_for(ask(**options))), file, replace=replace)
    click.echo(f"Written to {file}.")
