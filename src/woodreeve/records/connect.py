"""Where the records are, and a connection to them: a file by default, or a PostgreSQL database by its URL."""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from platformdirs import user_data_path
from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError

from woodreeve.errors import Refused

__all__ = [
    "Address",
    "address_of",
    "connected",
    "default_path",
    "engine_for",
    "in_words",
    "overwrite_log",
    "wait_for_turn",
    "writing",
]

WAIT_S = 30.0
"""How long a writer waits for another one before it gives up."""

_WRITES = {"woodreeve_writes": True}


@dataclass(frozen=True, slots=True)
class Address:
    """Where records are kept.

    Parameters
    ----------
    url : URL
        For the database library.
    path : Path or None
        The file, if it is one.
    """

    url: URL
    path: Path | None

    def __str__(self) -> str:
        """As it may be shown: without a password."""
        return str(self.path) if self.path is not None else self.url.render_as_string(hide_password=True)


def default_path() -> Path:
    """The file that is used when none is named: in the user's own data folder."""
    return user_data_path("woodreeve", appauthor=False) / "records.sqlite3"


def address_of(where: str | Path | None = None) -> Address:
    """Understand where the records are to be.

    Parameters
    ----------
    where : str or Path, optional
        A file, or a URL such as ``postgresql://user@host/database``; the default file if left out.

    Returns
    -------
    Address
        The same, understood.

    Raises
    ------
    Refused
        If it is a URL of a database that is not supported.
    """
    if where is None:
        return _file(default_path())
    if isinstance(where, Path) or "://" not in where:
        return _file(Path(where).expanduser())
    try:
        url = make_url(where)
    except ArgumentError as error:
        raise Refused(f"The address of the records cannot be understood: {error}.") from error
    kind = url.get_backend_name()
    if kind == "sqlite" and url.database:
        return _file(Path(url.database).expanduser())
    if kind in ("postgresql", "postgres"):
        return Address(url.set(drivername="postgresql+psycopg"), None)
    raise Refused(f"Records are kept in a file or in PostgreSQL, not in {kind}.")


def _file(path: Path) -> Address:
    path = path.absolute()
    return Address(URL.create("sqlite+pysqlite", database=str(path)), path)


def engine_for(address: Address, *, wait_s: float = WAIT_S, read_only: bool = False) -> Engine:
    """Make the engine that hands out connections; nothing is opened yet.

    Parameters
    ----------
    address : Address
        Where the records are.
    wait_s : float
        How long a writer waits for another. [s]
    read_only : bool
        Open a file without ever writing to it.

    Returns
    -------
    Engine
        Ready to connect.

    Raises
    ------
    Refused
        If the driver for PostgreSQL is not installed.
    """
    if address.path is None:
        try:
            return create_engine(address.url, pool_pre_ping=True)
        except (ModuleNotFoundError, NoSuchModuleError) as error:
            raise Refused(
                "PostgreSQL needs one more package: pip install 'woodreeve[postgresql]'."
            ) from error
    url = address.url
    if read_only:
        url = url.set(database=address.path.as_uri(), query={"mode": "ro", "uri": "true"})
    engine = create_engine(url, connect_args={"timeout": wait_s, "check_same_thread": False})
    event.listen(engine, "connect", lambda connection, _: _set_up(connection, wait_s, read_only))
    event.listen(engine, "begin", _begin)
    return engine


def _set_up(connection: sqlite3.Connection, wait_s: float, read_only: bool) -> None:
    """Tell SQLite how it is to work for us."""
    connection.isolation_level = None  # transactions begin where we say so, see _begin
    connection.execute(f"PRAGMA busy_timeout = {round(wait_s * 1000)}")
    connection.execute("PRAGMA foreign_keys = ON")
    if read_only:
        return
    connection.execute("PRAGMA synchronous = FULL")  # what was answered with "kept" survives a power cut
    connection.execute("PRAGMA secure_delete = ON")  # erased contacts are overwritten
    _turn_on_wal(connection, wait_s)


def _turn_on_wal(connection: sqlite3.Connection, wait_s: float) -> None:
    """Let readers read while one writes; when two start at once, SQLite does not wait for this by itself."""
    pause_s = 0.01
    for _ in range(max(round(wait_s / pause_s), 1)):
        try:
            if connection.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
                connection.execute("PRAGMA journal_mode = WAL").fetchone()
        except sqlite3.OperationalError as error:
            if "locked" not in str(error):
                raise
            time.sleep(pause_s)
        else:
            return


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("woodreeve_writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def connected(engine: Engine, address: Address) -> Iterator[Connection]:
    """A connection for reading, in one transaction: all it reads is of one moment."""
    with in_words(address), engine.connect() as connection, connection.begin():
        yield connection


@contextmanager
def writing(engine: Engine, address: Address) -> Iterator[Connection]:
    """A connection for writing: all or nothing, and one writer at a time."""
    with in_words(address), engine.connect() as connection:
        writer = connection.execution_options(**_WRITES)
        with writer.begin():
            yield writer


def wait_for_turn(connection: Connection) -> None:
    """Let one writer at a time number entries, so that numbers grow in the order of commit.

    SQLite does so from the start of a writing transaction; PostgreSQL is told to here.
    """
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql("LOCK TABLE entries, holdings IN SHARE ROW EXCLUSIVE MODE")


def overwrite_log(engine: Engine, address: Address) -> None:
    """Empty the file's write-ahead log, so that nothing erased stays readable in it."""
    if address.path is None:
        return
    with in_words(address):
        pooled = engine.raw_connection()
        try:
            pooled.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)")
        finally:
            pooled.close()


@contextmanager
def in_words(address: Address) -> Iterator[None]:
    """Turn a fault of the database into one sentence that tells the owner what to do."""
    try:
        yield
    except DBAPIError as error:
        raise Refused(_sentence(address, error.orig)) from error
    except (sqlite3.Error, OSError) as error:
        raise Refused(_sentence(address, error)) from error


def _sentence(address: Address, fault: Any) -> str:
    lines = str(fault).strip().splitlines()
    said = lines[0] if lines else type(fault).__name__
    for part, sentence in _SENTENCES.items():
        if part in said.lower():
            return sentence.format(address)
    if address.path is not None and not os.access(address.path.parent, os.W_OK):
        return _SENTENCES["readonly"].format(address)
    return f"The records at {address} cannot be used: {said.rstrip('.')}."


_SENTENCES = {
    "readonly": "The records at {0} cannot be written: the file or its folder is read-only for this user.",
    "read-only": "The records at {0} cannot be written: the file or its folder is read-only for this user.",
    "permission denied": "The records at {0} cannot be opened: this user may not read or write there.",
    "unable to open": "The records at {0} cannot be opened: the folder is missing, or closed to this user.",
    "is locked": "The records at {0} are being written by another program: try again when it is done.",
    "is full": "The records at {0} cannot be written: the disk is full. Nothing was changed.",
    "not a database": "The file {0} holds no records, or is damaged: name another file, or restore a backup.",
    "malformed": "The file {0} is damaged: restore a backup.",
}
