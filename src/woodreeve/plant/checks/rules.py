"""The rules the plant is checked by: each with its source, nation and date, and whether it was read."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from importlib.resources import files
from typing import Any, Literal, TypeAlias

from woodreeve.errors import UnknownName

__all__ = [
    "Force",
    "Nation",
    "Read",
    "Rule",
    "Topic",
    "all_rules",
    "gathered_on",
    "rule",
    "rule_for",
    "topic",
    "topics",
]

Nation: TypeAlias = Literal[
    "england",
    "wales",
    "scotland",
    "northern_ireland",
    "ireland",
    "germany",
    "austria",
    "switzerland",
    "other",
]
"""Whose rules hold."""

Read: TypeAlias = Literal["read", "memory", "worked_out", "practice", "judgement"]
"""How a rule is known: read at its source, from memory, worked out, a habit of the trade, or ours."""

Force: TypeAlias = Literal["law", "standard", "physics", "habit"]
"""What stands behind a rule."""

Group: TypeAlias = Literal[
    "store", "boiler", "water", "escape", "pipes", "heating", "hot_water", "flue", "room"
]
"""The part of the plant a check belongs to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """What a check is about, in words."""

    key: str
    group: Group
    what: str
    takes: str
    caution: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule as it was found.

    Parameters
    ----------
    id : str
        Its name.
    check : str
        The check it is for.
    words : str
        The rule in words.
    nations : tuple of str
        Where it holds; empty for physics and habits, which hold anywhere.
    since, until : date or None
        From when and until when it holds, where that is known.
    source : str
        Where it stands.
    read : Read
        Whether it was read there.
    force : Force
        What stands behind it.
    months : int or None
        How often something must be done.
    """

    id: str
    check: str
    words: str
    source: str
    read: Read
    force: Force
    nations: tuple[Nation, ...] = ()
    since: date | None = None
    until: date | None = None
    months: int | None = None

    def holds(self, nation: str, on: date) -> bool:
        """Whether it holds in a nation on a day."""
        is_there = not self.nations or nation in self.nations
        return (
            is_there and (self.since is None or self.since <= on) and (self.until is None or on <= self.until)
        )


@lru_cache(maxsize=1)
def _data() -> dict[str, Any]:
    text = files("woodreeve.plant").joinpath("data", "rules.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@lru_cache(maxsize=1)
def topics() -> dict[str, Topic]:
    """Every check's words by its key, in the order of the page."""
    return {key: Topic(key=key, **words) for key, words in _data()["check"].items()}


@lru_cache(maxsize=1)
def all_rules() -> tuple[Rule, ...]:
    """Every rule, in the order of the file."""
    return tuple(Rule(**{**one, "nations": tuple(one.get("nations", ()))}) for one in _data()["rule"])


def gathered_on() -> date:
    """The day on which the rules were gathered: laws change after it."""
    day: date = _data()["gathered_on"]
    return day


def topic(key: str) -> Topic:
    """The words of a check.

    Raises
    ------
    UnknownName
        If there is no such check.
    """
    known = topics()
    if key not in known:
        raise UnknownName("check", key, known)
    return known[key]


def rule(name: str) -> Rule:
    """A rule by its name.

    Raises
    ------
    UnknownName
        If there is no such rule.
    """
    known = {one.id: one for one in all_rules()}
    if name not in known:
        raise UnknownName("rule", name, known)
    return known[name]


def rule_for(key: str, nation: str, on: date) -> Rule | None:
    """The rule of a check that holds in a nation on a day: its own before one that holds anywhere."""
    found = [one for one in all_rules() if one.check == key and one.holds(nation, on)]
    own = [one for one in found if one.nations]
    best = own or found
    return best[-1] if best else None
