"""``woodreeve backup``: copies of the records, made, checked and restored."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from woodreeve.cli.output import as_json, print_json

if TYPE_CHECKING:
    from woodreeve.records.backup import Checked

__all__ = ["command"]


@click.group("backup")
def command() -> None:
    """Copy the records to a file, or check and restore such a copy."""


@command.command("make")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--records", metavar="PATH", help="The records: a file, or a PostgreSQL URL.")
@as_json
def make(file: Path, records: str | None, json: bool) -> None:
    """Copy the records to FILE, while they are in use; the copy is read back and checked."""
    from woodreeve.records.backup import backup
    from woodreeve.records.connect import address_of
    from woodreeve.records.store import Records

    path = address_of(records).path
    if path is not None and not path.is_file():
        from woodreeve.errors import Refused

        raise Refused(f"There are no records at {path} yet: there is nothing to copy.")
    with Records.open(records) as opened:
        found = backup(opened, file)
    _tell(found, json, f"Copied to {file}")


@command.command("check")
@click.argument("file", type=click.Path(path_type=Path))
@as_json
def check(file: Path, json: bool) -> None:
    """Look through a copy without changing it; ends with 2 if anything is wrong with it."""
    from woodreeve.records.backup import check as looked_through

    found = looked_through(file)
    _tell(found, json, f"{file} is in order" if not found.faults else f"{file} is not in order")
    if found.faults:
        raise SystemExit(2)


@command.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--to", "target", required=True, type=click.Path(path_type=Path), help="A new file.")
@as_json
def restore(file: Path, target: Path, json: bool) -> None:
    """Make a new records file from a copy; no file that is there is ever touched."""
    from woodreeve.records.backup import restore as restored

    found = restored(file, target)
    _tell(found, json, f"Restored to {target}; use it with --records {target}")


def _tell(found: Checked, json: bool, sentence: str) -> None:
    if json:
        print_json(found)
        return
    click.echo(f"{sentence}: {found.entries} entries, {found.holdings} versions of holdings.")
    for fault in found.faults:
        click.echo(f"  {fault}", err=True)
