"""``woodreeve diary``: write down what happened, list it, put it right, carry it elsewhere."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

import click

from woodreeve.cli.asking import ask, moment_of, of_records, open_household, question, read_text, write_text
from woodreeve.cli.output import as_json, console, print_json

if TYPE_CHECKING:
    from woodreeve.records.household import Household
    from woodreeve.records.store import EntryResult

__all__ = ["command"]

AT_ONCE = 500
"""Entries taken in by one transaction."""

SHOW_PROGRESS_FROM = 2_000
"""From so many entries on a bar shows how far taking in has come."""


def _by_whom(command: Any) -> Any:
    return click.option("--by", default="owner", show_default=True, metavar="NAME", help="Who says so.")(
        command
    )


@click.group("diary")
def command() -> None:
    """Write down and list what happened."""


@command.command("add")
@click.argument("kind")
@click.argument("values", nargs=-1, metavar="[FIELD=VALUE ...]")
@click.option("--when", metavar="MOMENT", help="When it happened; now if left out.")
@_by_whom
@of_records
@as_json
def add(
    kind: str,
    values: tuple[str, ...],
    when: str | None,
    by: str,
    records: str | None,
    name: str | None,
    json: bool,
) -> None:
    """Write down that something of KIND happened.

    For instance: measured place=gable shown_percent="18 19 21", or
    counted place=gable rows="3.2x1.8x33 2.9x1.8x33". 'woodreeve diary kinds KIND' lists the fields.
    """
    from woodreeve.cli.entries import new_entry
    from woodreeve.cli.typed import pairs, payload_from

    payload = payload_from(kind, pairs(values))
    with open_household(records, name) as one:
        asking = one.ask()
        happened = moment_of(when, asking.document, "--when") if when else asking.moment
        entry = new_entry(kind, payload, happened, asking.moment, by)
        _add(one, entry, json)


@command.command("fix")
@click.argument("entry_id", metavar="ID")
@click.argument("values", nargs=-1, metavar="[FIELD=VALUE ...]")
@click.option("--when", metavar="MOMENT", help="When it truly happened.")
@_by_whom
@of_records
@as_json
def fix(
    entry_id: str,
    values: tuple[str, ...],
    when: str | None,
    by: str,
    records: str | None,
    name: str | None,
    json: bool,
) -> None:
    """Put the entry ID right; fields that are not named stay as they are, FIELD= takes one out.

    An entry that was struck out stands again.
    """
    from woodreeve.cli.typed import pairs

    _correct(entry_id, pairs(values), when, by, records, name, json)


@command.command("strike")
@click.argument("entry_id", metavar="ID")
@_by_whom
@of_records
@as_json
def strike(entry_id: str, by: str, records: str | None, name: str | None, json: bool) -> None:
    """Strike the entry ID out: it never happened. The entry itself is kept."""
    _correct(entry_id, None, None, by, records, name, json)


def _correct(
    entry_id: str,
    typed: dict[str, str] | None,
    when: str | None,
    by: str,
    records: str | None,
    name: str | None,
    json: bool,
) -> None:
    from woodreeve.cli.entries import Corrected, correction_of, entry_named, new_entry

    with open_household(records, name) as one:
        asking = one.ask()
        before = Corrected.of(asking, entry_named(asking.entries, entry_id))
        happened = moment_of(when, asking.document, "--when") if when else None
        payload = correction_of(before, typed, happened)
        _add(one, new_entry("correction", payload, asking.moment, asking.moment, by), json)


def _add(one: Household, entry: dict[str, Any], json: bool) -> None:
    results = one.add_entries([entry])
    if json:
        _print_outcomes(results)
    else:
        from woodreeve.diary.entry import entry_from_json
        from woodreeve.wording.entries import entry_words, kind_name

        told = entry_from_json({"holding": one.name, **entry})
        click.echo(f"{kind_name(told.kind)}: {entry_words(told)} ({told.id[:8]})")
    if not all(result.is_safe for result in results):
        from woodreeve.errors import Refused

        raise Refused(results[0].sentence)


def _print_outcomes(results: list[EntryResult]) -> None:
    from woodreeve.web.api.diary import Outcome, Outcomes

    print_json(Outcomes(results=[Outcome(id=r.id, state=r.state, sentence=r.sentence) for r in results]))


@command.command("list")
@click.option("--since", metavar="DATE", help="Only what happened since then.")
@click.option("--kind", help="Only entries of this kind.")
@click.option("--most", default=30, show_default=True, type=click.IntRange(min=0), help="So many; 0 for all.")
@question
@as_json
def show(since: str | None, kind: str | None, most: int, json: bool, **options: Any) -> None:
    """List what happened, the newest first."""
    from woodreeve.answers import diary
    from woodreeve.cli.tables import print_diary
    from woodreeve.diary.kinds import KINDS
    from woodreeve.errors import UnknownName

    if kind is not None and kind not in KINDS:
        raise UnknownName("kind of entry", kind, KINDS)
    asking = ask(**options)
    answer = diary.answer(asking)
    earliest = moment_of(since, asking.document, "--since") if since else None
    wanted = [
        entry
        for entry in answer.latest
        if (kind is None or entry.kind == kind) and (earliest is None or entry.happened >= earliest)
    ]
    entries = wanted[:most] if most else wanted
    if json:
        from woodreeve.web.api.diary import page_of

        print_json(page_of(asking, answer, entries))
    else:
        print_diary(answer, entries, len(wanted), asking.measures)


@command.command("kinds")
@click.argument("kind", required=False)
@as_json
def kinds(kind: str | None, json: bool) -> None:
    """List what can be written down, or the fields of one KIND."""
    from woodreeve.cli.kinds import fields_told, kinds_told
    from woodreeve.cli.tables import rows_table

    if kind is None:
        found = kinds_told()
        if json:
            print_json(found)
        else:
            rows = [(one["kind"], f"{one['name']}. {one['summary']}") for one in found]
            console().print(rows_table(("", ""), rows, folded=(1,)))
        return
    fields = fields_told(kind)
    if json:
        print_json(fields)
    else:
        rows = [
            (one["name"] + ("" if one["required"] else " *"), f"{one['label']}{one['wanted']}")
            for one in fields
        ]
        console().print(rows_table(("", ""), rows, folded=(1,)))
        console().print("* may be left out")


@command.command("export")
@click.argument("file", metavar="FILE|-")
@click.option("--replace", is_flag=True, help="Write over the file if it is there.")
@of_records
def export(file: str, replace: bool, records: str | None, name: str | None) -> None:
    """Write every entry to FILE, one line of JSON each, corrections included."""
    from woodreeve.cli.entries import exported

    with open_household(records, name) as one:
        entries = one.records.entries(one.name)
    write_text(file, "".join(f"{line}\n" for line in exported(entries)), replace=replace)
    if file != "-":
        click.echo(f"{len(entries)} entries written to {file}.")


@command.command("import")
@click.argument("file", metavar="FILE|-")
@of_records
@as_json
def take_in(file: str, records: str | None, name: str | None, json: bool) -> None:
    """Take in entries from FILE, as export writes them; those already here change nothing."""
    from woodreeve.cli.entries import read_lines
    from woodreeve.errors import Refused

    given = read_lines(read_text(file), file)
    with open_household(records, name) as one:
        results = _taken_in(one, given)
    if json:
        _print_outcomes(results)
    else:
        _print_counts(results)
    refused = [result for result in results if not result.is_safe]
    if refused:
        raise Refused(f"{len(refused)} of {len(results)} entries were refused, first {refused[0].sentence}")


def _taken_in(one: Household, given: list[dict[str, Any]]) -> list[EntryResult]:
    from rich.console import Console
    from rich.progress import Progress

    results: list[EntryResult] = []
    with Progress(
        console=Console(stderr=True), transient=True, disable=len(given) < SHOW_PROGRESS_FROM
    ) as progress:
        task = progress.add_task("Taking in", total=len(given))
        for first in range(0, len(given), AT_ONCE):
            results += one.add_entries(given[first : first + AT_ONCE])
            progress.update(task, completed=len(results))
    return results


def _print_counts(results: list[EntryResult]) -> None:
    counts: Counter[str] = Counter(result.state for result in results)
    words = {
        "kept": "new",
        "known": "here already",
        "not_understood": "kept but not understood",
        "conflict": "kept apart, as they contradict others",
        "refused": "refused",
    }
    told = ", ".join(f"{counts[state]} {said}" for state, said in words.items() if counts[state])
    click.echo(f"{len(results)} entries: {told or 'none'}.")
    for result in results:
        if result.state in ("conflict", "not_understood", "refused"):
            click.echo(f"  {result.id[:8] or '-'}: {result.sentence}", err=True)
