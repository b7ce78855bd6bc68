"""Cautions for the boiler room, as data: what to do and what never to do, each line with its source."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from importlib.resources import files
from typing import Any, Literal, TypeAlias

from woodreeve.errors import UnknownName

__all__ = ["Caution", "Emergency", "Known", "Situation", "cautions_gathered_on", "emergency_of", "situations"]

Known: TypeAlias = Literal["read", "memory", "judgement"]
"""How a line is known: read at its source, from memory, or ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One line of advice.

    Parameters
    ----------
    text : str
        What to do or never to do; ``{call}`` stands for the emergency number.
    source : str
        Where it stands: author, title and address.
    read : str
        How it is known.
    """

    text: str
    source: str
    read: Known


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """Something that goes wrong, with its lines.

    Parameters
    ----------
    key : str
        Its name, such as ``power_cut``.
    title : str
        What it is called.
    do : tuple of Caution
        What to do, in order.
    never : tuple of Caution
        What never to do.
    """

    key: str
    title: str
    do: tuple[Caution, ...]
    never: tuple[Caution, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Emergency:
    """Whom to call.

    Parameters
    ----------
    call : str
        The number, or the numbers.
    source : str
        Who says so.
    read : str
        How it is known.
    """

    call: str
    source: str
    read: Known


@lru_cache(maxsize=1)
def _data() -> Mapping[str, Any]:
    text = files("woodreeve.plant").joinpath("data", "cautions.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@lru_cache(maxsize=1)
def situations() -> tuple[Situation, ...]:
    """Every situation, in the order of the card.

    Raises
    ------
    UnknownName
        If a line names a source that is not on the list.
    """
    return tuple(
        Situation(
            key=one["key"],
            title=one["title"],
            do=_lines(one.get("do", ())),
            never=_lines(one.get("never", ())),
        )
        for one in _data()["situation"]
    )


def cautions_gathered_on() -> date:
    """The day on which the cautions and numbers were gathered."""
    day: date = _data()["gathered_on"]
    return day


def emergency_of(nation: str | None) -> Emergency | None:
    """The emergency number of a nation; ``None`` where none was found."""
    found = _data()["emergency"].get(nation or "")
    return None if found is None else Emergency(**found)


def _lines(given: Iterable[Mapping[str, Any]]) -> tuple[Caution, ...]:
    known = _data()["sources"]
    for line in given:
        if line["source"] not in known:
            raise UnknownName("source of a caution", line["source"], known)
    return tuple(
        Caution(text=line["text"], source=known[line["source"]], read=line["read"]) for line in given
    )
