"""What is kept: versions of each holding, the diary, entries that contradict it, and customers' contacts."""

from __future__ import annotations

from sqlalchemy import (
    BigInteger,
    Column,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
)

__all__ = ["conflicts", "contacts", "entries", "holdings", "metadata"]

metadata = MetaData()

COUNTED = BigInteger().with_variant(Integer(), "sqlite")
"""A number that the database counts up itself."""

holdings = Table(
    "holdings",
    metadata,
    Column("holding", String(64), primary_key=True),
    Column("version", Integer, primary_key=True, autoincrement=False),
    Column("based_on", Integer),
    Column("valid_from", Text, nullable=False),
    Column("valid_from_us", BigInteger, nullable=False),
    Column("entered", Text, nullable=False),
    Column("made_by", Text, nullable=False),
    Column("document", Text, nullable=False),
)
"""Every version of every holding, since when it is true, and when it was entered. Never changed."""


def _entry_columns() -> list[Column[int] | Column[str]]:
    """What is kept of an entry: moments as text with their offset, and in microseconds of UTC to sort by."""
    return [
        Column("seq", COUNTED, primary_key=True, autoincrement=True),
        Column("holding", String(64), nullable=False),
        Column("kind", String(40), nullable=False),
        Column("form", Integer, nullable=False),
        Column("happened", Text, nullable=False),
        Column("happened_us", BigInteger, nullable=False),
        Column("entered", Text, nullable=False),
        Column("entered_us", BigInteger, nullable=False),
        Column("sent", Text),
        Column("made_by", Text, nullable=False),
        Column("payload", Text, nullable=False),
        Column("digest", String(64), nullable=False),
        Column("arrived", Text, nullable=False),
    ]


entries = Table(
    "entries",
    metadata,
    *_entry_columns(),
    Column("id", String(32), nullable=False, unique=True),
    Index("entries_by_holding", "holding", "seq"),
    sqlite_autoincrement=True,
)
"""The diary. Triggers in the database see to it that a row is never changed and never removed."""

conflicts = Table(
    "conflicts",
    metadata,
    *_entry_columns(),
    Column("id", String(32), ForeignKey("entries.id"), nullable=False),
    UniqueConstraint("id", "digest", name="conflicts_once"),
    Index("conflicts_by_holding", "holding", "seq"),
    sqlite_autoincrement=True,
)
"""Entries that came with the id of another one and say something else: kept, reported, never mixed in."""

contacts = Table(
    "contacts",
    metadata,
    Column("holding", String(64), primary_key=True),
    Column("customer", String(120), primary_key=True),
    Column("details", Text, nullable=False),
)
"""How to reach a customer. Stands apart from everything else, so that it can be erased."""
