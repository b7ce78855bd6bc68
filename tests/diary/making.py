"""Diaries made up for tests: short to write, in the owner's words."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from typing import Any

from woodreeve.diary.folded import Folded
from woodreeve.diary.kinds import Entry, current_form

WINTER_TIME = timezone(timedelta(hours=1))
BEGIN = datetime(2025, 1, 1, 9, 0, tzinfo=WINTER_TIME)


class Diary:
    """Entries one after another, each with the next id."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []

    def add(self, day: float, kind: str, /, *, form: int | None = None, **payload: Any) -> Entry:
        """Log something on a day, counted from the first of January."""
        happened = BEGIN + timedelta(days=day)
        entry = Entry(
            id=f"{len(self.entries) + 1:032x}",
            holding="aldermoor",
            kind=kind,
            form=current_form(kind) if form is None else form,
            happened=happened,
            entered=happened + timedelta(minutes=10),
            by="owner",
            payload=payload,
        )
        self.entries.append(entry)
        return entry

    def correct(self, day: float, target: str, seen: str | None = None, **payload: Any) -> Entry:
        """Put an entry right with a whole new payload."""
        return self.add(day, "correction", target=target, seen=seen, payload=payload)


def kinds_found(folded: Folded) -> list[str]:
    """The kinds of finding, in order."""
    return [finding.kind for finding in folded.findings]
