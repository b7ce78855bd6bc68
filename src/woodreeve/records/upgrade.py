"""Bring records up to what this program expects, once, at start; never back, and never without a copy."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from sqlalchemy import Connection, Engine, inspect, text

from woodreeve.errors import Refused
from woodreeve.records.connect import Address, connected, writing

__all__ = ["HEAD", "bring_up_to_date", "revision_of"]

HEAD = "0003"
"""The form of the tables that this program reads and writes."""

MIGRATIONS = Path(__file__).parent / "migrations"

_ADVISORY_LOCK = 0x776F6F6472656576
"""A number of our own under which PostgreSQL lets one program at a time change the tables."""


def revision_of(connection: Connection) -> str | None:
    """The form of the tables that are there; ``None`` for an empty database.

    Raises
    ------
    Refused
        If there are tables, but not ours.
    """
    tables = inspect(connection).get_table_names()
    if "alembic_version" in tables:
        found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
        return None if found is None else str(found)
    if tables:
        raise Refused(f"This database holds something else ({', '.join(sorted(tables)[:3])}), not records.")
    return None


def bring_up_to_date(
    engine: Engine, address: Address, *, migrations: Path = MIGRATIONS, head: str = HEAD
) -> None:
    """Make or upgrade the tables; does nothing where they are as they should be.

    Two programs that start at once do not hurt each other: the second waits and finds the work done.

    Parameters
    ----------
    engine : Engine
        The records.
    address : Address
        Where they are; a file is copied beside itself before it is changed.
    migrations : Path
        The folder with the steps.
    head : str
        The last of them.

    Raises
    ------
    Refused
        If the records were written by a newer program, hold something else, or cannot be written.
    """
    with connected(engine, address) as connection:
        found = revision_of(connection)
    if found == head:
        return
    with writing(engine, address) as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _ADVISORY_LOCK})
        found = revision_of(connection)
        if found != head:
            _upgrade(connection, address, found, migrations)


def _upgrade(connection: Connection, address: Address, found: str | None, migrations: Path) -> None:
    from alembic import command
    from alembic.config import Config
    from alembic.script import ScriptDirectory

    config = Config()
    config.set_main_option("script_location", str(migrations).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    known = {step.revision for step in ScriptDirectory.from_config(config).walk_revisions()}
    if found is not None and found not in known:
        raise Refused(
            f"The records at {address} were written by a newer woodreeve (form {found}; this one knows forms "
            f"up to {max(known)}): install the newer program, or open a backup."
        )
    if found is not None and address.path is not None:
        _copy(address.path, found)
    config.attributes["connection"] = connection
    command.upgrade(config, "head")


def _copy(path: Path, found: str) -> None:
    """Copy the file before it is changed; a copy that is there already is left alone."""
    number, copy = 0, path.with_name(f"{path.stem}.before-{found}{path.suffix}")
    while copy.exists():
        number += 1
        copy = path.with_name(f"{path.stem}.before-{found}-{number}{path.suffix}")
    partial = copy.with_name(copy.name + ".partial")
    partial.unlink(missing_ok=True)
    source, target = sqlite3.connect(path), sqlite3.connect(partial)
    try:
        source.backup(target)
    finally:
        target.close()
        source.close()
    partial.rename(copy)
