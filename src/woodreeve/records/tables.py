"""What is kept: versions of holdings, the diary and what contradicts it, contacts, forecasts, readings."""

from __future__ import annotations

from sqlalchemy import (
    BigInteger,
    Column,
    Float,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
)

__all__ = ["conflicts", "contacts", "entries", "forecasts", "holdings", "metadata", "samples"]

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

forecasts = Table(
    "forecasts",
    metadata,
    Column("seq", COUNTED, primary_key=True, autoincrement=True),
    Column("holding", String(64), nullable=False),
    Column("source", String(40), nullable=False),
    Column("latitude_deg", Float, nullable=False),
    Column("longitude_deg", Float, nullable=False),
    Column("fetched_us", BigInteger, nullable=False),
    Column("ask_again_us", BigInteger, nullable=False),
    Column("last_modified", Text, nullable=False),
    Column("issued_us", BigInteger),
    Column("ends_us", BigInteger),
    Column("answer", LargeBinary),
    Index("forecasts_by_holding", "holding", "fetched_us"),
    sqlite_autoincrement=True,
)
"""Replies of forecast services, packed; a row without one tells how long to wait after a failed attempt."""

samples = Table(
    "samples",
    metadata,
    Column("holding", String(64), primary_key=True),
    Column("sensor", String(80), primary_key=True),
    Column("moment_us", BigInteger, primary_key=True, autoincrement=False),
    Column("span_s", Integer, nullable=False),
    Column("value", Float, nullable=False),
    Column("low", Float, nullable=False),
    Column("high", Float, nullable=False),
    Column("readings", Integer, nullable=False),
)
"""Readings of sensors; old ones thinned to mean, lowest and highest of a span that begins at the moment."""
