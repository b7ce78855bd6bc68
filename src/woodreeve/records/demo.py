"""The demonstration holding in a records file of its own, never in the owner's."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from woodreeve.holding.demo import DEMO_MOMENT, DEMO_NAME, demo_entries, demo_holding_text
from woodreeve.records.connect import default_path
from woodreeve.records.household import Household
from woodreeve.records.store import Records

__all__ = ["demo_household", "demo_path"]


def demo_path() -> Path:
    """Where the demonstration's records are kept."""
    return default_path().with_name("demonstration.sqlite3")


def demo_household(
    *, clock: Callable[[], datetime] | None = None, path: Path | None = None, fresh: bool = True
) -> Household:
    """Open the demonstration holding.

    Parameters
    ----------
    clock : callable, optional
        The demonstration's clock; by default it stands at the evening at which the demonstration opens.
    path : Path, optional
        Its file.
    fresh : bool
        Start anew, so that what was noted before is gone.

    Returns
    -------
    Household
        Aldermoor, with its diary.
    """
    where = path or demo_path()
    if fresh:
        for part in (where, where.with_name(where.name + "-wal"), where.with_name(where.name + "-shm")):
            part.unlink(missing_ok=True)
    records = Records.open(where)
    entries = demo_entries()
    if DEMO_NAME not in records.holdings():
        begins = entries[0].happened
        records.save_holding(
            DEMO_NAME,
            demo_holding_text(),
            based_on=None,
            valid_from=begins,
            entered=begins,
            by="demonstration",
        )
        records.add_entries(DEMO_NAME, entries, arrived=DEMO_MOMENT)
    return Household(records, DEMO_NAME, clock=clock or (lambda: DEMO_MOMENT), demo=True)
