"""Customers' contacts, in a table of their own so that they can be erased."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "contacts",
        sa.Column("holding", sa.String(64), primary_key=True),
        sa.Column("customer", sa.String(120), primary_key=True),
        sa.Column("details", sa.Text, nullable=False),
    )
