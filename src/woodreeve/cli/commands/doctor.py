"""``woodreeve doctor``: what is installed, where things are kept, and how the database is."""

from __future__ import annotations

import click

from woodreeve.cli.output import as_json, console, print_json

__all__ = ["command"]


@click.command("doctor")
@click.option("--records", metavar="PATH", help="The records: a file, or a PostgreSQL URL.")
@as_json
def command(records: str | None, json: bool) -> None:
    """Show versions, paths and the state of the database; ends with 2 if the database is not well."""
    from woodreeve.cli.health import looked_over

    found = looked_over(records)
    if json:
        print_json(found)
    else:
        from woodreeve.cli.tables import rows_table

        for title, rows in found.tables():
            console().print(title, style="bold")
            console().print(rows_table(("", ""), rows, folded=(1,)))
            console().print()
        for fault in found.database.faults:
            click.echo(fault, err=True)
    if found.database.faults:
        raise SystemExit(2)
