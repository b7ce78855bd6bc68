"""Between entries and rows: how an entry is written down, and read back word for word."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime, timedelta
from typing import Any, TypeVar

from sqlalchemy import Row

from woodreeve.diary.entry import Entry, payload_text

__all__ = ["chunks", "entry_of", "microseconds", "row_of"]

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)

Item = TypeVar("Item")


def microseconds(moment: datetime) -> int:
    """A moment as a whole number that sorts, since 1970 in UTC."""
    return (moment - _EPOCH) // timedelta(microseconds=1)


def row_of(entry: Entry, digest: str, arrived: datetime) -> dict[str, Any]:
    """The values of an entry's row."""
    return {
        "id": entry.id,
        "holding": entry.holding,
        "kind": entry.kind,
        "form": entry.form,
        "happened": entry.happened.isoformat(),
        "happened_us": microseconds(entry.happened),
        "entered": entry.entered.isoformat(),
        "entered_us": microseconds(entry.entered),
        "sent": None if entry.sent is None else entry.sent.isoformat(),
        "made_by": entry.by,
        "payload": payload_text(entry.payload),
        "digest": digest,
        "arrived": arrived.isoformat(),
    }


def entry_of(row: Row[Any]) -> Entry:
    """The entry in a row."""
    return Entry(
        id=row.id,
        holding=row.holding,
        kind=row.kind,
        form=row.form,
        happened=datetime.fromisoformat(row.happened),
        entered=datetime.fromisoformat(row.entered),
        sent=None if row.sent is None else datetime.fromisoformat(row.sent),
        by=row.made_by,
        payload=json.loads(row.payload),
    )


def chunks(items: Iterable[Item], size: int = 500) -> Iterator[Sequence[Item]]:
    """Parts of a list that a single statement can take."""
    listed = list(items)
    for begin in range(0, len(listed), size):
        yield listed[begin : begin + size]
