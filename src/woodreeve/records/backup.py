"""Copies of the records: made while the program runs, checked, and restored to a new file only."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, inspect, select

from woodreeve.diary.entry import content_digest
from woodreeve.errors import Refused
from woodreeve.records.connect import Address, address_of, connected, engine_for, in_words, writing
from woodreeve.records.rows import chunks, entry_of
from woodreeve.records.store import Records
from woodreeve.records.tables import conflicts, entries, holdings, metadata
from woodreeve.records.upgrade import HEAD, bring_up_to_date, revision_of

__all__ = ["Checked", "backup", "check", "restore"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What a look at records found.

    Parameters
    ----------
    holdings, entries, conflicts : int
        How many there are (of holdings, their versions).
    revision : str or None
        The form of the tables.
    faults : tuple of str
        What is wrong, each in one sentence; empty where all is well.
    """

    holdings: int = 0
    entries: int = 0
    conflicts: int = 0
    revision: str | None = None
    faults: tuple[str, ...] = ()


def backup(records: Records, target: Path) -> Checked:
    """Copy records to a new file, while they are in use.

    From PostgreSQL the rows are copied, into a file of the same form as any other.

    Parameters
    ----------
    records : Records
        What to copy.
    target : Path
        A file that does not exist yet.

    Returns
    -------
    Checked
        What the copy holds, read back from it.

    Raises
    ------
    Refused
        If the file exists or cannot be written, or the copy turns out faulty. There is then no file.
    """
    source = records.address
    if source.path is not None:
        path = source.path
        return _into_new_file(target, lambda partial: _copy_file(path, partial))
    return _into_new_file(target, lambda partial: _copy_rows(source, partial))


def restore(source: Path, target: Path) -> Checked:
    """Make a new records file from a backup; an existing file is never touched.

    Parameters
    ----------
    source : Path
        The backup.
    target : Path
        A file that does not exist yet.

    Returns
    -------
    Checked
        What was restored.

    Raises
    ------
    Refused
        If the backup is missing or faulty, or the target exists.
    """
    if not source.is_file():
        raise Refused(f"There is no backup {source}.")
    found = check(source)
    if found.faults:
        raise Refused(f"The backup {source} is not restored: {found.faults[0]}")
    return _into_new_file(target, lambda partial: _copy_file(source, partial))


def check(where: str | Path) -> Checked:
    """Look through records without changing them: file, links, guards, and every entry's digest.

    Parameters
    ----------
    where : str or Path
        A file or URL; a file of an older form is looked at as it is.

    Returns
    -------
    Checked
        What there is, and what is wrong.

    Raises
    ------
    Refused
        If it cannot be opened.
    """
    address = address_of(where)
    if address.path is not None and not address.path.is_file():
        raise Refused(f"There is no file {address.path}.")
    engine = engine_for(address, read_only=True)
    try:
        with connected(engine, address) as connection:
            return _looked_through(connection)
    finally:
        engine.dispose()


def _looked_through(connection: Connection) -> Checked:
    revision = revision_of(connection)
    if revision is None:
        return Checked(faults=("It is empty.",))
    if revision > HEAD:
        return Checked(revision=revision, faults=("It was written by a newer woodreeve.",))
    faults = []
    if connection.dialect.name == "sqlite":
        faults += _faults_of_file(connection)
    counts = {}
    for table in (entries, conflicts):
        rows = connection.execute(select(table).order_by(table.c.seq)).all()
        counts[table.name] = len(rows)
        for row in rows:
            try:
                same = content_digest(entry_of(row)) == row.digest
            except ValueError:
                same = False
            if not same:
                faults.append(f"Entry {row.id} is not as it was when it arrived.")
    versions = len(connection.execute(select(holdings.c.version)).all())
    return Checked(
        holdings=versions,
        entries=counts["entries"],
        conflicts=counts["conflicts"],
        revision=revision,
        faults=tuple(faults),
    )


def _faults_of_file(connection: Connection) -> list[str]:
    told = connection.exec_driver_sql("PRAGMA integrity_check").scalars().all()
    faults = [f"The file is damaged: {line}." for line in told if line != "ok"]
    if connection.exec_driver_sql("PRAGMA foreign_key_check").first() is not None:
        faults.append("A conflicting entry has lost the entry it contradicts.")
    there = set(connection.exec_driver_sql("SELECT name FROM sqlite_master WHERE type = 'trigger'").scalars())
    for table in ("entries", "conflicts", "holdings"):
        for guard in ("changed", "removed", "replaced"):
            if f"{table}_never_{guard}" not in there:
                faults.append(f"The guard that keeps {table} from being {guard} is missing.")
    return faults


def _into_new_file(target: Path, fill: Callable[[Path], None]) -> Checked:
    """Fill a file under another name, check it, and give it its name only when all is well."""
    target = target.expanduser().absolute()
    partial = target.with_name(f".{target.name}.{os.getpid()}.partial")
    taken = Refused(f"{target} exists already: name a new file.")
    if target.exists():
        raise taken
    try:
        with in_words(Address(address_of(target).url, target)):
            fill(partial)
        found = check(partial)
        if found.faults:
            raise Refused(f"The copy {target} was not made: {found.faults[0]}")
        try:
            os.link(partial, target)
        except FileExistsError:
            raise taken from None
        except OSError:
            partial.replace(target)
        return found
    finally:
        for ending in ("", "-wal", "-shm"):
            partial.with_name(partial.name + ending).unlink(missing_ok=True)


def _copy_file(source: Path, target: Path) -> None:
    with closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(target)) as new:
        old.backup(new)
        new.execute("PRAGMA journal_mode = DELETE")


def _copy_rows(source: Address, target: Path) -> None:
    old, address = engine_for(source), address_of(target)
    new = engine_for(address)
    try:
        bring_up_to_date(new, address)
        with connected(old, source) as reading, writing(new, address) as copy:
            if not inspect(reading).has_table(entries.name):
                raise Refused(f"There are no records at {source}.")
            for table in metadata.sorted_tables:
                rows = [dict(row) for row in reading.execute(select(table)).mappings()]
                for part in chunks(rows):
                    copy.execute(table.insert(), part)
    finally:
        old.dispose()
        new.dispose()
    with closing(sqlite3.connect(target)) as whole:
        whole.execute("PRAGMA journal_mode = DELETE")
