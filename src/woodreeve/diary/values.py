"""Single values of an entry read from JSON, each with one clear sentence when it will not do."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from math import isfinite
from typing import Any

from woodreeve.diary.entry import moment_from_json
from woodreeve.errors import Unreadable
from woodreeve.units import Bounds

__all__ = ["Fault", "PartFault", "many_of", "named_of", "reader_of"]


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with one field: its path, and one sentence."""

    field: str
    sentence: str


class PartFault(Unreadable):
    """Faults inside a part of a payload."""

    def __init__(self, faults: list[Fault]) -> None:
        super().__init__(faults[0].sentence)
        self.faults = faults


def reader_of(
    base: Any, choices: tuple[str, ...], bounds: Bounds, unit: str | None, longest: int
) -> Callable[[Any], Any] | None:
    """How one value of a kind is read; ``None`` for a part with fields of its own.

    The errors continue a sentence that starts with the field's name.
    """
    if choices:
        return _chooser(choices)
    if base is float or base is int:
        return _number(base, bounds, unit)
    if base is bool:
        return _yes_or_no
    if base is date:
        return _date
    if base is datetime:
        return _moment
    if base is str:
        return _text(longest)
    if base is Any:
        return _as_it_is
    return None


def _number(base: Any, bounds: Bounds, unit: str | None) -> Callable[[Any], Any]:
    in_unit = f" {unit}" if unit and unit != "-" else ""
    wanted = "a whole number" if base is int else "a number"

    def number(value: Any) -> Any:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise Unreadable(f"is {value!r:.60}, but must be {wanted}{in_unit}.")
        if not -1e12 < value < 1e12 or not isfinite(value):
            raise Unreadable(f"is {value!s:.20}{in_unit}, but must be {bounds.words()}{in_unit}.")
        if base is int and value != int(value):
            raise Unreadable(f"is {value:g}, but must be a whole number.")
        if not bounds.admit(value):
            raise Unreadable(f"is {value:g}{in_unit}, but must be {bounds.words()}{in_unit}.")
        return base(value)

    return number


def _chooser(choices: tuple[str, ...]) -> Callable[[Any], Any]:
    def choose(value: Any) -> Any:
        if value not in choices:
            raise Unreadable(f"is {value!r:.60}, but must be one of {', '.join(choices)}.")
        return value

    return choose


def _yes_or_no(value: Any) -> bool:
    if not isinstance(value, bool):
        raise Unreadable(f"is {value!r:.60}, but must be true or false.")
    return value


def _date(value: Any) -> date:
    try:
        day = date.fromisoformat(value)
    except (TypeError, ValueError):
        raise Unreadable(f"is {value!r:.60}, but must be a date such as 2026-01-31.") from None
    if not 1800 <= day.year <= 2200:
        raise Unreadable(f"is in the year {day.year}, but must lie between 1800 and 2200.")
    return day


def _moment(value: Any) -> datetime:
    try:
        return moment_from_json(value, "")
    except Unreadable as error:
        raise Unreadable(str(error).lstrip()) from None


def _as_it_is(value: Any) -> Any:
    return value


def _text(longest: int) -> Callable[[Any], Any]:
    def text(value: Any) -> str:
        if not isinstance(value, str) or not value.strip():
            raise Unreadable(f"is {value!r:.60}, but must be a text.")
        if len(value) > longest:
            raise Unreadable(f"has {len(value)} characters, but may have at most {longest}.")
        return value

    return text


def many_of(one: Callable[[Any], Any], most: int) -> Callable[[Any], Any]:
    """How a list of values is read."""

    def many(value: Any) -> tuple[Any, ...]:
        if not isinstance(value, list | tuple):
            raise Unreadable(f"is {value!r:.60}, but must be a list.")
        if len(value) > most:
            raise Unreadable(f"has {len(value)} values, but may have at most {most}.")
        return tuple(_inside(one, item, f"value {number}") for number, item in enumerate(value, 1))

    return many


def named_of(one: Callable[[Any], Any], most: int) -> Callable[[Any], Any]:
    """How values by name are read."""

    def named(value: Any) -> Mapping[str, Any]:
        if not isinstance(value, Mapping):
            raise Unreadable(f"is {value!r:.60}, but must be values by name.")
        if len(value) > most:
            raise Unreadable(f"has {len(value)} values, but may have at most {most}.")
        return {str(name): _inside(one, item, f"of {name}") for name, item in value.items()}

    return named


def _inside(one: Callable[[Any], Any], item: Any, where: str) -> Any:
    try:
        return one(item)
    except PartFault:
        raise
    except Unreadable as error:
        raise Unreadable(f"{where} {error}") from None
