"""From what a person wrote to the holding's own values, with every fault listed and none hiding another."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

from woodreeve.errors import OutOfRange, Unknown, UnknownName, Unreadable, WoodreeveError, WrongKind
from woodreeve.holding.fields import Field
from woodreeve.units import parse_quantity

__all__ = ["FAILED", "NotAHolding", "Problem", "build", "line_of", "read_value"]


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault of a holding document, as its owner reads it.

    Parameters
    ----------
    path : str
        Where it stands, for instance ``plant.boiler.output_kw``; empty for the whole document.
    value : str
        What is written there; empty where nothing is.
    sentence : str
        What is wrong and what is allowed.
    file : str
        Name of the file or document.
    line : int, optional
        Its line in the text, counted from 1.
    serious : bool
        Whether the document cannot be used until it is mended.
    """

    path: str
    value: str
    sentence: str
    file: str = ""
    line: int | None = None
    serious: bool = True

    def __str__(self) -> str:
        place = f"{self.file}, line {self.line}" if self.line is not None else self.file
        return f"{place}: {self.sentence}" if place else self.sentence


class NotAHolding(Unreadable):
    """A text does not describe a holding; all its faults are listed."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        self.problems = problems
        count = "one thing is" if len(problems) == 1 else f"{len(problems)} things are"
        lines = "\n".join(f"  {problem}" for problem in problems)
        super().__init__(f"The holding cannot be read, {count} to be mended:\n{lines}")


class _Failed:
    """Stands for a value that could not be read, so that its neighbours still can."""


FAILED = _Failed()


def build(field: Field, table: Any, path: str, found: list[Problem]) -> Any:
    """Build a section's dataclass from a plain table.

    Parameters
    ----------
    field : Field
        The section.
    table : object
        A mapping as read from the document.
    path : str
        Where it stands, for the messages.
    found : list of Problem
        Faults are appended here.

    Returns
    -------
    object
        The dataclass, or ``FAILED`` if a fault was found in it.
    """
    if not isinstance(table, Mapping):
        _note(found, path, table, WrongKind(path, table, "a section with fields of its own"))
        return FAILED
    known = {part.key: part for part in field.parts}
    failed = False
    for key in table:
        if key not in known:
            at = f"{path}.{key}".lstrip(".")
            _note(found, at, "", UnknownName(f"field of {path or 'the holding'}", str(key), known))
            failed = True
    values: dict[str, Any] = {}
    for key, part in known.items():
        value = _part(part, table, f"{path}.{key}".lstrip("."), found)
        failed = failed or value is FAILED
        values[key] = value
    if failed or field.model is None:
        return FAILED
    try:
        return field.model(**values)
    except (WoodreeveError, ValueError, TypeError) as error:
        sentence = f"{path}: {error}" if path else str(error)
        found.append(Problem(path, "", sentence))
        return FAILED


def _part(part: Field, table: Mapping[str, Any], path: str, found: list[Problem]) -> Any:
    given = part.key in table
    if not given and part.required:
        _note(found, path, "", Unknown(f"{path} is missing: {part.label.lower() or part.key} must be given."))
        return FAILED
    if part.kind == "section":
        if not given and part.default is None:
            return None
        return build(part, table.get(part.key, {}), path, found)
    if part.kind == "sections":
        return _sections(part, table.get(part.key, []), path, found)
    if not given:
        return _fresh(part.default)
    try:
        return read_value(part, table[part.key], path)
    except WoodreeveError as error:
        _note(found, path, table[part.key], error)
        return FAILED


def _sections(part: Field, members: Any, path: str, found: list[Problem]) -> Any:
    if not isinstance(members, list):
        _note(found, path, members, WrongKind(path, members, f"a list of sections, each headed [[{path}]]"))
        return FAILED
    built = [build(part, member, f"{path}[{number}]", found) for number, member in enumerate(members)]
    if any(one is FAILED for one in built):
        return FAILED
    named = any(inner.key == "name" and inner.required for inner in part.parts)
    names = [one.name for one in built] if named else []
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        error = WrongKind(path, f"{twice[0]} twice", "a list in which each name stands once")
        _note(found, path, twice[0], error)
        return FAILED
    return tuple(built)


def read_value(field: Field, written: Any, path: str = "") -> Any:
    """Read one value as its field wants it.

    Parameters
    ----------
    field : Field
        The field; not a section.
    written : object
        A number, text (with or without a unit), date, list or mapping; ``"unknown"`` is unknown.
    path : str
        How to call it in an error.

    Returns
    -------
    object
        The value, a new object each time, so that a trace can tell its origin.

    Raises
    ------
    OutOfRange, WrongKind, WrongUnit, UnknownName
        If the value does not do.
    """
    path = path or field.path
    if written is None or written == "unknown":
        if field.optional:
            return None
        raise WrongKind(path, "unknown", f"given ({field.allowed_words or field.kind.replace('_', ' ')})")
    match field.kind:
        case "number" | "whole_number":
            return _number(field, written, path)
        case "text":
            if isinstance(written, str):
                return str(written)
            raise WrongKind(path, written, "text in quotes")
        case "choice":
            word = {True: "yes", False: "no"}[written] if isinstance(written, bool) else str(written).strip()
            if word not in field.choices:
                raise UnknownName(f"choice for {path}", word, field.choices)
            return word
        case "yes_no":
            if isinstance(written, bool):
                return written
            if str(written).strip().lower() in ("yes", "no", "true", "false"):
                return str(written).strip().lower() in ("yes", "true")
            raise WrongKind(path, written, "yes or no")
        case "date" | "moment" | "time":
            return _day_or_time(field, written, path)
        case "list":
            return _list(field, written, path)
        case "shares":
            if not isinstance(written, Mapping):
                raise WrongKind(path, written, "names with numbers, for instance { ash = 0.6, birch = 0.4 }")
            return {
                str(name): read_value(_item(field), part, f"{path}.{name}") for name, part in written.items()
            }
        case _:
            raise WrongKind(path, written, "a single value, not a section")


def _item(field: Field) -> Field:
    if field.item is None:
        raise WrongKind(field.path, field.kind, "a list or names with numbers")
    return field.item


def _number(field: Field, written: Any, path: str) -> float | int:
    unit = field.unit or "-"
    if isinstance(written, str):
        percent = _PERCENT.match(written) if unit == "-" else None
        number = (
            float(percent[1].replace(",", ".")) / 100.0 if percent else parse_quantity(written, unit, path)
        )
    elif isinstance(written, int | float) and not isinstance(written, bool):
        number = float(written)
    else:
        raise WrongKind(path, written, f"a number [{unit}]" if field.unit else "a number")
    if not field.bounds.admit(number):
        high = field.bounds.high
        meant_percent = unit == "-" and high is not None and high <= 3 and 3 <= number <= 100 * high
        hint = f"give {number:g} % as {number / 100:g} or as '{number:g} %'" if meant_percent else ""
        raise OutOfRange(path, f"{number:g}", field.bounds.words(), unit, hint)
    if field.kind == "whole_number":
        if not float(number).is_integer():
            raise WrongKind(path, written, "a whole number")
        return int(number)
    return number + 0.0


def _day_or_time(field: Field, written: Any, path: str) -> Any:
    wanted: dict[str, tuple[type[date] | type[time], str]] = {
        "date": (date, "a day, for instance 2026-01-31"),
        "moment": (datetime, "a day and time, for instance 2026-01-31T17:00:00+00:00"),
        "time": (time, "a time of day, for instance 17:00"),
    }
    kind, example = wanted[field.kind]
    if isinstance(written, kind) and not (kind is date and isinstance(written, datetime)):
        return written
    if isinstance(written, str):
        try:
            return kind.fromisoformat(written.strip())
        except ValueError:
            pass
    raise WrongKind(path, str(written), example)


def _list(field: Field, written: Any, path: str) -> tuple[Any, ...]:
    if not isinstance(written, list | tuple):
        raise WrongKind(path, written, "a list in square brackets")
    if field.length is not None and len(written) != field.length:
        raise WrongKind(path, f"a list of {len(written)}", f"a list of exactly {field.length}")
    return tuple(read_value(_item(field), one, f"{path}[{number}]") for number, one in enumerate(written))


def _fresh(default: Any) -> Any:
    """A default as a new object, so that two fields with one default keep their own origin in a trace."""
    return default + 0.0 if isinstance(default, float) else default


def _note(found: list[Problem], path: str, value: Any, error: Exception) -> None:
    found.append(Problem(path, "" if value == "" else str(value), str(error)))


_PERCENT = re.compile(r"^\s*([-+]?\d+(?:[.,]\d+)?)\s*%\s*$")
_HEADER = re.compile(r"^\s*\[(\[?)\s*([^\[\]]+?)\s*\]")
_KEY = re.compile(r"^\s*([A-Za-z0-9_.\-\"' ]+?)\s*=")


def line_of(text: str, path: str) -> int | None:
    """Find the line on which a field, or else the section it belongs to, stands.

    Parameters
    ----------
    text : str
        The document.
    path : str
        As in :class:`Problem`.

    Returns
    -------
    int or None
        The line, counted from 1; ``None`` if neither is written.
    """
    counts: dict[str, int] = {}
    section = ""
    best: tuple[int, int] | None = None
    for number, line in enumerate(text.splitlines(), start=1):
        header, key = _HEADER.match(line), _KEY.match(line)
        if header and not line.lstrip().startswith("#"):
            section = _with_numbers(header[2].replace(" ", ""), bool(header[1]), counts)
            here = section
        elif key and not line.lstrip().startswith("#"):
            here = f"{section}.{key[1].strip()}".lstrip(".")
        else:
            continue
        leads_there = path == here or path.startswith((here + ".", here + "["))
        if leads_there and (best is None or len(here) > best[0]):
            best = (len(here), number)
    return best[1] if best else None


def _with_numbers(header: str, is_list: bool, counts: dict[str, int]) -> str:
    """A header's path with the numbers of the list members it speaks of, counted as they come."""
    at = ""
    parts = header.split(".")
    for place, part in enumerate(parts):
        at = f"{at}.{part}".lstrip(".")
        if is_list and place == len(parts) - 1:
            counts[at] = counts.get(at, -1) + 1
        if at in counts:
            at = f"{at}[{counts[at]}]"
    return at
