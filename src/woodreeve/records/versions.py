"""Versions of a holding's description: which is the last, which was true when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, select

from woodreeve.errors import Refused
from woodreeve.records.rows import microseconds
from woodreeve.records.tables import holdings

__all__ = [
    "HoldingVersion",
    "StaleHolding",
    "names_of",
    "newest",
    "row_of_version",
    "true_at",
    "versions_of",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingVersion:
    """One version of a holding's description.

    Parameters
    ----------
    name : str
        The holding.
    version : int
        1, 2, 3 in the order of saving.
    based_on : int or None
        The version that was changed; ``None`` for the first.
    valid_from : datetime
        Since when it is true.
    entered : datetime
        When it was saved.
    by : str
        Who saved it.
    document : str
        The description, in TOML.
    """

    name: str
    version: int
    based_on: int | None
    valid_from: datetime
    entered: datetime
    by: str
    document: str


class StaleHolding(Refused):
    """Somebody has saved another version meanwhile; both are carried, to be shown side by side.

    Parameters
    ----------
    stored : HoldingVersion
        The version that is there now.
    given : str
        The description that was to be saved.
    based_on : int or None
        The version it was made from.
    """

    def __init__(self, stored: HoldingVersion, given: str, based_on: int | None) -> None:
        self.stored, self.given, self.based_on = stored, given, based_on
        made_from = "as a new holding" if based_on is None else f"from version {based_on}"
        super().__init__(
            f"{stored.name} was saved as version {stored.version} by {stored.by} meanwhile, and yours "
            f"was made {made_from}: nothing was changed."
        )


def newest(connection: Connection, name: str) -> HoldingVersion | None:
    """The version saved last; ``None`` where there is no such holding."""
    query = select(holdings).where(holdings.c.holding == name).order_by(holdings.c.version.desc()).limit(1)
    row = connection.execute(query).first()
    return None if row is None else _version_of(row)


def versions_of(connection: Connection, name: str) -> tuple[HoldingVersion, ...]:
    """All versions, in the order of saving."""
    query = select(holdings).where(holdings.c.holding == name).order_by(holdings.c.version)
    return tuple(_version_of(row) for row in connection.execute(query))


def names_of(connection: Connection) -> tuple[str, ...]:
    """All holdings, in the order of their names."""
    query = select(holdings.c.holding).distinct()
    return tuple(sorted(connection.execute(query).scalars()))


def true_at(versions: Sequence[HoldingVersion], moment: datetime) -> HoldingVersion:
    """The version that was true at a moment.

    Parameters
    ----------
    versions : sequence of HoldingVersion
        All of them; at least one.
    moment : datetime
        The moment asked about.

    Returns
    -------
    HoldingVersion
        Of those valid since before the moment, the one valid last, as it was last put right; before the
        first of them, the earliest there is.
    """
    in_order = sorted(versions, key=lambda one: (one.valid_from, one.version))
    begun = [one for one in in_order if one.valid_from <= moment]
    earliest = [one for one in in_order if one.valid_from == in_order[0].valid_from]
    return (begun or earliest)[-1]


def row_of_version(version: HoldingVersion) -> dict[str, Any]:
    """The values of its row."""
    return {
        "holding": version.name,
        "version": version.version,
        "based_on": version.based_on,
        "valid_from": version.valid_from.isoformat(),
        "valid_from_us": microseconds(version.valid_from),
        "entered": version.entered.isoformat(),
        "made_by": version.by,
        "document": version.document,
    }


def _version_of(row: Row[Any]) -> HoldingVersion:
    return HoldingVersion(
        name=row.holding,
        version=row.version,
        based_on=row.based_on,
        valid_from=datetime.fromisoformat(row.valid_from),
        entered=datetime.fromisoformat(row.entered),
        by=row.made_by,
        document=row.document,
    )
