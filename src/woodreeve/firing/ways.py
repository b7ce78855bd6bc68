"""Names of the ways to spend the next days, and of what may be said of tonight."""

from __future__ import annotations

from typing import Literal, TypeAlias

__all__ = ["Verdict", "WayName"]

WayName: TypeAlias = Literal["plan", "nothing", "tonight", "later", "less", "other_stack", "rule"]
"""The plan; no fire at all; a fire tonight although the plan has none; an hour later; a quarter load less;
another stack; the rule of thumb."""

Verdict: TypeAlias = Literal[
    "light", "refill", "warm_enough", "wait", "nobody", "no_room", "no_wood", "cheaper_not"
]
"""Light or lay on tonight; or why not: the store is warm enough for all the hours planned; a later evening
costs less; nobody is there; the store has no room; no wood is dry enough; the backup costs less."""
