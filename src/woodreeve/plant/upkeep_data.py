"""The tasks, lists, parts and duties of upkeep as data, each with its source."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from importlib.resources import files
from typing import Any, Literal, TypeAlias

from woodreeve.plant.checks.rules import Nation, Read

__all__ = [
    "AshRule",
    "Duty",
    "Part",
    "Steps",
    "Task",
    "Who",
    "ash_rules",
    "duties",
    "lists",
    "parts",
    "tasks",
]

Who: TypeAlias = Literal["myself", "sweep", "fitter", "competent_person"]
"""Who does it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do again and again."""

    key: str
    what: str
    who: Who
    why: str
    source: str
    read: Read


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """A short list to go through."""

    key: str
    title: str
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part that wears, and how many years it usually lasts."""

    key: str
    what: str
    years: int
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AshRule:
    """Where ash may go, and where not."""

    words: str
    source: str
    read: Read


@dataclass(frozen=True, slots=True, kw_only=True)
class Duty:
    """A periodic duty of a nation's law."""

    nations: tuple[Nation, ...]
    words: str
    source: str
    read: Read
    since: date | None = None


@lru_cache(maxsize=1)
def _data() -> dict[str, Any]:
    text = files("woodreeve.plant").joinpath("data", "upkeep.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def tasks() -> tuple[Task, ...]:
    """Every task, in the order of the page."""
    return tuple(Task(**one) for one in _data()["task"])


def lists() -> tuple[Steps, ...]:
    """The lists before a lighting, a first fire, and after the last."""
    return tuple(Steps(**{**one, "items": tuple(one["items"])}) for one in _data()["list"])


def parts() -> tuple[Part, ...]:
    """The parts that wear."""
    return tuple(Part(**one) for one in _data()["part"])


def ash_rules() -> tuple[AshRule, ...]:
    """Where ash may go."""
    return tuple(AshRule(**one) for one in _data()["ash"])


def duties(nation: str, on: date) -> tuple[Duty, ...]:
    """The duties of a nation that hold on a day."""
    found = (Duty(**{**one, "nations": tuple(one["nations"])}) for one in _data()["duty"])
    return tuple(one for one in found if nation in one.nations and (one.since is None or one.since <= on))
