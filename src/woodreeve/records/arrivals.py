"""Entries as they arrive: new, sent again, contradicting, not understood, or no entries at all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from sqlalchemy import Connection, insert, select

from woodreeve.diary.entry import Entry, content_digest, entry_from_json, entry_to_json
from woodreeve.diary.kinds import UnreadablePayload, read_payload
from woodreeve.errors import Unreadable
from woodreeve.records.rows import chunks, row_of
from woodreeve.records.tables import conflicts, entries

__all__ = ["EntryResult", "EntryState", "read_sent", "take_in"]

EntryState = Literal["kept", "known", "conflict", "not_understood", "refused"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryResult:
    """What became of one entry that was sent.

    Parameters
    ----------
    id : str
        Its id, or what stood in its place.
    state : str
        ``"kept"``; ``"known"``, it was here already; ``"not_understood"``, kept, but it says something this
        program cannot read; ``"conflict"``, kept apart, as another entry has its id; ``"refused"``, not
        kept, as it is no entry.
    sentence : str
        Why, where the state is one of the last three.
    """

    id: str
    state: EntryState
    sentence: str = ""

    @property
    def is_safe(self) -> bool:
        """Whether the sender may forget it: it is in the records."""
        return self.state != "refused"


def read_sent(holding: str, given: Entry | Mapping[str, Any]) -> Entry | EntryResult:
    """Read the envelope of what was sent; whether its payload can be understood is another matter.

    Parameters
    ----------
    holding : str
        The diary it is to go to.
    given : Entry or mapping
        What was sent.

    Returns
    -------
    Entry or EntryResult
        The entry, or why it is refused.
    """
    document: Any = entry_to_json(given) if isinstance(given, Entry) else given
    try:
        entry = entry_from_json(document)
    except Unreadable as error:
        claimed = document.get("id") if isinstance(document, Mapping) else None
        return EntryResult(id=str(claimed or "")[:64], state="refused", sentence=str(error))
    if entry.holding != holding:
        sentence = f"holding is {entry.holding!r}, but this diary is that of {holding!r}."
        return EntryResult(id=entry.id, state="refused", sentence=sentence)
    return entry


def take_in(connection: Connection, given: Sequence[Entry], arrived: datetime) -> list[EntryResult]:
    """Write entries down, in the transaction of the connection.

    Parameters
    ----------
    connection : Connection
        Of the only writer.
    given : sequence of Entry
        The same entry may be among them twice.
    arrived : datetime
        Now.

    Returns
    -------
    list of EntryResult
        What became of each, in their order.
    """
    known = _digests_here(connection, [entry.id for entry in given])
    results: list[EntryResult] = []
    new: list[dict[str, Any]] = []
    apart: list[dict[str, Any]] = []
    for entry in given:
        digest = content_digest(entry)
        here = known.get(entry.id)
        if here is None:
            known[entry.id] = digest
            new.append(row_of(entry, digest, arrived))
            results.append(_kept(entry))
        elif here == digest:
            results.append(EntryResult(id=entry.id, state="known"))
        else:
            apart.append(row_of(entry, digest, arrived))
            sentence = "Another entry with this id is here already and says something else: both are kept."
            results.append(EntryResult(id=entry.id, state="conflict", sentence=sentence))
    for part in chunks(new):
        connection.execute(insert(entries), part)
    _keep_apart(connection, apart)
    return results


def _kept(entry: Entry) -> EntryResult:
    try:
        read_payload(entry)
    except UnreadablePayload as error:
        return EntryResult(id=entry.id, state="not_understood", sentence=str(error))
    return EntryResult(id=entry.id, state="kept")


def _digests_here(connection: Connection, ids: Sequence[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for part in chunks(dict.fromkeys(ids)):
        query = select(entries.c.id, entries.c.digest).where(entries.c.id.in_(part))
        found.update((row.id, row.digest) for row in connection.execute(query))
    return found


def _keep_apart(connection: Connection, rows: Sequence[dict[str, Any]]) -> None:
    """Keep what contradicts, each contradiction once."""
    here: set[tuple[str, str]] = set()
    for part in chunks({row["id"]: None for row in rows}):
        query = select(conflicts.c.id, conflicts.c.digest).where(conflicts.c.id.in_(part))
        here.update((row.id, row.digest) for row in connection.execute(query))
    for row in rows:
        if (row["id"], row["digest"]) not in here:
            here.add((row["id"], row["digest"]))
            connection.execute(insert(conflicts).values(row))
