"""``woodreeve holding``: the description of the place, in and out of the records."""

from __future__ import annotations

from dataclasses import asdict
from datetime import datetime
from typing import TYPE_CHECKING, Any

import click

from woodreeve.cli.asking import ask, moment_of, of_records, open_household, question, read_text, write_text
from woodreeve.cli.output import as_json, console, print_json

if TYPE_CHECKING:
    from woodreeve.holding.reading import Problem
    from woodreeve.records.store import Records

__all__ = ["command"]


@click.group("holding")
def command() -> None:
    """Show, check, load and save the description of your place."""


@command.command("show")
@click.argument("section", required=False)
@question
@as_json
def show(section: str | None, json: bool, **options: Any) -> None:
    """Show what is known of the place, or of one SECTION of it, for instance plant.boiler."""
    from woodreeve.cli.places import print_overview, print_section

    asking = ask(**options)
    if json:
        from woodreeve.web.api.holding import show as described

        print_json(described(asking))
    elif section is None:
        print_overview(asking.holding)
    else:
        print_section(asking.holding, section)


@command.command("check")
@click.argument("file", metavar="FILE|-")
@as_json
def check(file: str, json: bool) -> None:
    """Say all that is wrong or odd in a description; ends with 2 if it cannot be used."""
    found = _problems(read_text(file), file)
    serious = [one for one in found if one.serious]
    if json:
        print_json(found)
    else:
        for one in found:
            click.echo(_told(one))
        if not found:
            click.echo(f"{file}: nothing wrong was found.")
        elif not serious:
            click.echo(f"{file}: can be used as it is.")
    if serious:
        raise SystemExit(2)


@command.command("load")
@click.argument("file", metavar="FILE|-")
@click.option("--since", metavar="DATE", help="Since when it is true.")
@click.option(
    "--change", is_flag=True, help="The place itself has changed just now; else a slip is put right."
)
@click.option("--based-on", type=click.IntRange(min=1), help="The version in the records that you have seen.")
@of_records
@as_json
def load(
    file: str,
    since: str | None,
    change: bool,
    based_on: int | None,
    records: str | None,
    name: str | None,
    json: bool,
) -> None:
    """Keep a description in the records as its newest version; older ones stay there."""
    from woodreeve.cli.holdings import FROM_FILE, base_of, differences, unmarked
    from woodreeve.errors import Refused
    from woodreeve.holding import toml
    from woodreeve.records.store import Records, StaleHolding
    from woodreeve.web.clocks import own_clock

    text, from_mark = unmarked(read_text(file))
    holding = toml.load(text, file)
    for odd in _problems(text, file):
        click.echo(_told(odd), err=True)
    if name is not None and name != holding.name:
        raise Refused(f"--holding is {name}, but {file} describes {holding.name}.")
    now = own_clock()
    with Records.open(records) as opened:
        try:
            kept = opened.save_holding(
                holding.name,
                text,
                based_on=based_on or base_of(opened, holding.name, from_mark),
                valid_from=_valid_from(opened, holding.name, since, change, text, now),
                entered=now,
                by=FROM_FILE,
            )
            holds = opened.holding_at(holding.name, now)
        except StaleHolding as stale:
            click.echo(differences(stale), err=True)
            raise Refused(
                f"{stale} Above: lines with - are in the records, lines with + are yours. To go on from "
                f"there, take 'woodreeve holding save', or give --based-on {stale.stored.version}."
            ) from stale
    if json:
        from woodreeve.web.api.holding import Description

        print_json(
            Description(
                name=kept.name, version=kept.version, valid_from=kept.valid_from, document=kept.document
            )
        )
    else:
        click.echo(
            f"{kept.name}: version {kept.version} is kept, true since {kept.valid_from:%Y-%m-%d %H:%M}."
        )
        if holds.version != kept.version:
            click.echo(
                f"Now version {holds.version} holds, which is true since {holds.valid_from:%Y-%m-%d %H:%M}: "
                "load this one with --change if it is how things are now."
            )


def _valid_from(
    records: Records, name: str, since: str | None, change: bool, text: str, now: datetime
) -> datetime:
    if since is not None:
        return moment_of(since, text, "--since")
    if change or name not in records.holdings():
        return now
    return records.holding_newest(name).valid_from


@command.command("save")
@click.argument("file", metavar="FILE|-")
@click.option("--replace", is_flag=True, help="Write over the file if it is there.")
@of_records
def save(file: str, replace: bool, records: str | None, name: str | None) -> None:
    """Write the newest description to a file, to be changed and loaded again."""
    from woodreeve.cli.holdings import marked

    with open_household(records, name) as one:
        newest = one.records.holding_newest(one.name)
    write_text(file, marked(newest), replace=replace)


@command.command("blank")
@click.argument("name", default="my-holding")
def blank(name: str) -> None:
    """Print an empty description, every field in it explained, to be filled in and loaded."""
    from woodreeve.holding.toml import blank, load

    text = blank(name)
    load(text)
    click.echo(text, nl=False)


@command.command("fields")
@as_json
def fields(json: bool) -> None:
    """List every field of the description: what it is called, its unit, range and default."""
    from woodreeve.cli.places import field_rows, print_fields

    if json:
        print_json(field_rows())
    else:
        print_fields()


@command.command("versions")
@of_records
@as_json
def versions(records: str | None, name: str | None, json: bool) -> None:
    """List the versions of the description that are kept."""
    from woodreeve.cli.tables import rows_table

    with open_household(records, name) as one:
        found = one.records.holding_versions(one.name)
    if json:
        print_json([{key: value for key, value in asdict(one).items() if key != "document"} for one in found])
        return
    rows = [
        (
            str(one.version),
            "" if one.based_on is None else str(one.based_on),
            f"{one.valid_from:%Y-%m-%d %H:%M}",
            f"{one.entered:%Y-%m-%d %H:%M}",
            one.by,
        )
        for one in found
    ]
    console().print(rows_table(("version", "made from", "true since", "saved", "by"), rows))


def _problems(text: str, file: str) -> list[Problem]:
    from woodreeve.holding.toml import problems

    return problems(text, file)


def _told(problem: Problem) -> str:
    place = f"{problem.file}:{problem.line}" if problem.line is not None else problem.file
    return f"{place}: {'' if problem.serious else 'odd: '}{problem.sentence}"
