"""Aldermoor, the demo holding: invented from its walls to its neighbours."""

from __future__ import annotations

from datetime import datetime
from functools import lru_cache
from importlib.resources import files

from woodreeve.diary.entry import Entry
from woodreeve.holding.demo.diary import ENDS, entries

__all__ = ["DEMO_MOMENT", "DEMO_NAME", "demo_entries", "demo_holding_text"]

DEMO_NAME = "aldermoor"
"""The demo holding's short name."""

DEMO_MOMENT: datetime = ENDS
"""The evening at which the demo opens: Tuesday 13 January 2026, 17:00 local time."""


def demo_holding_text() -> str:
    """The demo holding's document, with its comments.

    Returns
    -------
    str
        TOML.
    """
    return files("woodreeve.holding.demo").joinpath("aldermoor.toml").read_text(encoding="utf-8")


@lru_cache(maxsize=1)
def demo_entries() -> tuple[Entry, ...]:
    """The demo's diary up to the evening at which it opens.

    Returns
    -------
    tuple of Entry
        In the order in which they happened; the same at every call and on every machine.
    """
    return entries(DEMO_NAME)
