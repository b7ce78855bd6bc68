"""Replies of forecast services, and readings of sensors."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    counted = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
    op.create_table(
        "forecasts",
        sa.Column("seq", counted, primary_key=True, autoincrement=True),
        sa.Column("holding", sa.String(64), nullable=False),
        sa.Column("source", sa.String(40), nullable=False),
        sa.Column("latitude_deg", sa.Float, nullable=False),
        sa.Column("longitude_deg", sa.Float, nullable=False),
        sa.Column("fetched_us", sa.BigInteger, nullable=False),
        sa.Column("ask_again_us", sa.BigInteger, nullable=False),
        sa.Column("last_modified", sa.Text, nullable=False),
        sa.Column("issued_us", sa.BigInteger),
        sa.Column("ends_us", sa.BigInteger),
        sa.Column("answer", sa.LargeBinary),
        sqlite_autoincrement=True,
    )
    op.create_index("forecasts_by_holding", "forecasts", ["holding", "fetched_us"])
    op.create_table(
        "samples",
        sa.Column("holding", sa.String(64), primary_key=True),
        sa.Column("sensor", sa.String(80), primary_key=True),
        sa.Column("moment_us", sa.BigInteger, primary_key=True, autoincrement=False),
        sa.Column("span_s", sa.Integer, nullable=False),
        sa.Column("value", sa.Float, nullable=False),
        sa.Column("low", sa.Float, nullable=False),
        sa.Column("high", sa.Float, nullable=False),
        sa.Column("readings", sa.Integer, nullable=False),
    )
