"""Diary entries made, put right, sent out and taken in from a command."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from woodreeve.answers.diary import history
from woodreeve.cli.typed import payload_from
from woodreeve.diary.correct import corrected
from woodreeve.diary.entry import Entry, entry_to_json, new_id
from woodreeve.diary.forms import lifted
from woodreeve.diary.kinds import KINDS, current_form, faults_of
from woodreeve.errors import Refused, UnknownName, Unreadable
from woodreeve.records.asking import Asking

__all__ = ["Corrected", "correction_of", "entry_named", "exported", "new_entry", "read_lines"]

SHORTEST_ID = 4
"""So many first characters of an id must be given."""


def new_entry(
    kind: str, payload: Mapping[str, Any], happened: datetime, entered: datetime, by: str
) -> dict[str, Any]:
    """Make an entry, in the current form of its kind, as it is sent to the records.

    Raises
    ------
    UnknownName
        If there is no such kind.
    Unreadable
        If the payload will not do; all that is wrong with it is told.
    """
    if kind not in KINDS:
        raise UnknownName("kind of entry", kind, KINDS)
    faults = faults_of(kind, payload)
    if faults:
        raise Unreadable(" ".join(fault.sentence for fault in faults))
    return {
        "id": new_id(secrets.token_bytes(16)),
        "kind": kind,
        "form": current_form(kind),
        "happened": happened.isoformat(timespec="seconds"),
        "entered": entered.isoformat(timespec="milliseconds"),
        "by": by,
        "payload": dict(payload),
    }


def entry_named(entries: Iterable[Entry], start: str) -> Entry:
    """Find an entry by its id or the first characters of it.

    Raises
    ------
    UnknownName
        If there is none.
    Refused
        If there are several, the characters are too few, or it is a correction.
    """
    if len(start) < SHORTEST_ID:
        raise Refused(f"The id {start!r} is too short: give at least its first {SHORTEST_ID} characters.")
    found = [entry for entry in entries if entry.id.startswith(start.lower())]
    if not found:
        raise UnknownName("entry", start, ())
    if len(found) > 1:
        raise Refused(f"{len(found)} entries begin with {start}: give more of the id.")
    if found[0].kind == "correction":
        target = str(found[0].payload.get("target", ""))
        raise Refused(f"{start} is itself a correction: name the entry it corrects, {target[:8]}.")
    return found[0]


@dataclass(frozen=True, slots=True)
class Corrected:
    """What stands of an entry before it is corrected, and which corrections have been seen."""

    entry: Entry
    payload: Mapping[str, Any]
    seen: tuple[str, ...]

    @classmethod
    def of(cls, asking: Asking, entry: Entry) -> Corrected:
        """Look an entry and its corrections up."""
        fixes = history(asking, entry.id)[1:]
        standing = {one.entry.id: one.entry for one in corrected(asking.entries)[0]}
        stands = standing.get(entry.id, entry)
        payload = lifted(stands.kind, stands.form, stands.payload)
        return cls(entry, payload, tuple(fix.id for fix in reversed(fixes)))


def correction_of(
    before: Corrected, typed: Mapping[str, str] | None, happened: datetime | None = None
) -> dict[str, Any]:
    """The payload of a correction: the entry's whole new content, or a strike-out where nothing is typed.

    Raises
    ------
    UnknownName
        If a field is not known.
    Unreadable
        If the new content will not do.
    """
    payload: dict[str, Any] = {"target": before.entry.id}
    if typed is None:
        payload["void"] = True
    else:
        kind = before.entry.kind
        told = payload_from(kind, typed, before.payload)
        faults = faults_of(kind, told)
        if faults:
            raise Unreadable(" ".join(fault.sentence for fault in faults))
        payload |= {"form": current_form(kind), "payload": told}
        if happened is not None:
            payload["happened"] = happened.isoformat(timespec="seconds")
    if before.seen:
        payload["seen"] = before.seen[0]
    if before.seen[1:]:
        payload["also_seen"] = list(before.seen[1:])
    return payload


def exported(entries: Sequence[Entry]) -> Iterator[str]:
    """Each entry as one line of JSON."""
    for entry in entries:
        yield json.dumps(entry_to_json(entry), ensure_ascii=False, allow_nan=False)


def read_lines(text: str, file: str) -> list[dict[str, Any]]:
    """Entries from lines of JSON; empty lines count for nothing.

    Raises
    ------
    Unreadable
        If a line is not a JSON object; none is taken then.
    """
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        try:
            one = json.loads(line)
        except (json.JSONDecodeError, RecursionError) as error:
            raise Unreadable(f"{file}:{number} is not a line of JSON: {error}.") from error
        if not isinstance(one, dict):
            raise Unreadable(f"{file}:{number} is no diary entry, but must be a JSON object.")
        found.append(one)
    return found
