"""Versions of holdings, the diary, and entries that contradict it; none of them can be changed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_KEPT = ("holdings", "entries", "conflicts")

_REFUSAL = {
    "holdings": "versions of a holding are never changed: save a new one",
    "entries": "diary entries are never changed: add a correction",
    "conflicts": "conflicting entries are never changed",
}


def _entry_columns() -> list[sa.Column[int] | sa.Column[str]]:
    counted = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
    return [
        sa.Column("seq", counted, primary_key=True, autoincrement=True),
        sa.Column("holding", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("form", sa.Integer, nullable=False),
        sa.Column("happened", sa.Text, nullable=False),
        sa.Column("happened_us", sa.BigInteger, nullable=False),
        sa.Column("entered", sa.Text, nullable=False),
        sa.Column("entered_us", sa.BigInteger, nullable=False),
        sa.Column("sent", sa.Text),
        sa.Column("made_by", sa.Text, nullable=False),
        sa.Column("payload", sa.Text, nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("arrived", sa.Text, nullable=False),
    ]


def upgrade() -> None:
    """Make the tables, and the triggers that keep them as they are."""
    op.create_table(
        "holdings",
        sa.Column("holding", sa.String(64), primary_key=True),
        sa.Column("version", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("based_on", sa.Integer),
        sa.Column("valid_from", sa.Text, nullable=False),
        sa.Column("valid_from_us", sa.BigInteger, nullable=False),
        sa.Column("entered", sa.Text, nullable=False),
        sa.Column("made_by", sa.Text, nullable=False),
        sa.Column("document", sa.Text, nullable=False),
    )
    op.create_table(
        "entries",
        *_entry_columns(),
        sa.Column("id", sa.String(32), nullable=False, unique=True),
        sqlite_autoincrement=True,
    )
    op.create_index("entries_by_holding", "entries", ["holding", "seq"])
    op.create_table(
        "conflicts",
        *_entry_columns(),
        sa.Column("id", sa.String(32), sa.ForeignKey("entries.id"), nullable=False),
        sa.UniqueConstraint("id", "digest", name="conflicts_once"),
        sqlite_autoincrement=True,
    )
    op.create_index("conflicts_by_holding", "conflicts", ["holding", "seq"])
    if op.get_bind().dialect.name == "postgresql":
        _guard_postgresql()
    else:
        _guard_sqlite()


def _guard_sqlite() -> None:
    same = {
        "holdings": "holding = NEW.holding AND version = NEW.version",
        "entries": "id = NEW.id OR seq = NEW.seq",
        "conflicts": "(id = NEW.id AND digest = NEW.digest) OR seq = NEW.seq",
    }
    for table in _KEPT:
        refuse = f"BEGIN SELECT RAISE(ABORT, '{_REFUSAL[table]}'); END"
        op.execute(f"CREATE TRIGGER {table}_never_changed BEFORE UPDATE ON {table} {refuse}")
        op.execute(f"CREATE TRIGGER {table}_never_removed BEFORE DELETE ON {table} {refuse}")
        # INSERT OR REPLACE removes a row without asking the trigger above.
        op.execute(
            f"CREATE TRIGGER {table}_never_replaced BEFORE INSERT ON {table} "
            f"WHEN EXISTS (SELECT 1 FROM {table} WHERE {same[table]}) {refuse}"
        )


def _guard_postgresql() -> None:
    op.execute(
        "CREATE FUNCTION woodreeve_refuse() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN RAISE EXCEPTION '%', TG_ARGV[0]; END $$"
    )
    for table in _KEPT:
        call = f"EXECUTE FUNCTION woodreeve_refuse('{_REFUSAL[table]}')"
        op.execute(
            f"CREATE TRIGGER {table}_never_changed BEFORE UPDATE OR DELETE ON {table} FOR EACH ROW {call}"
        )
        op.execute(
            f"CREATE TRIGGER {table}_never_emptied BEFORE TRUNCATE ON {table} FOR EACH STATEMENT {call}"
        )
