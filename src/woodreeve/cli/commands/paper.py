"""``woodreeve paper``: the paper for the installer as a PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from woodreeve.cli.asking import ask, question

__all__ = ["command"]


@click.command("paper")
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
    """Print the paper for the installer and for the file: sizes, circuit, commissioning sheet, upkeep."""
    from woodreeve.papers.installer import paper_for, paper_pdf
    from woodreeve.papers.printing import save

    save(paper_pdf(paper_for(ask(**options))), file, replace=replace)
    click.echo(f"Written to {file}.")
