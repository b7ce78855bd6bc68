"""The days of an installation, trade by trade, and the sheet to fill in when the plant is put to work."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from importlib.resources import files
from typing import Any, Literal, TypeAlias

from woodreeve.plant.checks.rules import Read

__all__ = ["Day", "Line", "Sheet", "Step", "Trade", "days", "installing_gathered_on", "sheets"]

Trade: TypeAlias = Literal["owner", "builder", "sweep", "fitter", "electrician", "competent_person"]
"""Who does it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One piece of work.

    Parameters
    ----------
    who : str
        The trade.
    what : str
        What is done.
    source, read : str
        Where it stands, and how it is known.
    hold : str
        What may not go on before it is done; empty if nothing waits.
    """

    who: Trade
    what: str
    source: str
    read: Read
    hold: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """A day, or a span, of the installation."""

    title: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One blank of the sheet: what is found, its unit, and the field that tells what was planned."""

    what: str
    unit: str
    field: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A part of the sheet."""

    title: str
    lines: tuple[Line, ...]


@lru_cache(maxsize=1)
def _data() -> dict[str, Any]:
    text = files("woodreeve.plant").joinpath("data", "installing.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def days() -> tuple[Day, ...]:
    """The days, in their order."""
    return tuple(
        Day(title=one["title"], steps=tuple(Step(**step) for step in one["step"])) for one in _data()["day"]
    )


def sheets() -> tuple[Sheet, ...]:
    """The parts of the commissioning sheet."""
    return tuple(
        Sheet(title=one["title"], lines=tuple(Line(**line) for line in one["line"]))
        for one in _data()["sheet"]
    )


def installing_gathered_on() -> date:
    """The day on which days and sheet were put together."""
    day: date = _data()["gathered_on"]
    return day
