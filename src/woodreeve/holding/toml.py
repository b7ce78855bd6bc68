"""The holding as a text the owner can read and keep: TOML in and out, with his comments left in place."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Array

from woodreeve.errors import Unreadable, WoodreeveError, WrongKind
from woodreeve.holding.blank import blank
from woodreeve.holding.check import cross_checks
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import Field, field_at, field_tree
from woodreeve.holding.reading import FAILED, NotAHolding, Problem, build, line_of, read_value

__all__ = ["blank", "dump", "load", "problems", "set_field"]


def load(text: str, file: str = "holding.toml") -> Holding:
    """Read a holding from its text.

    Parameters
    ----------
    text : str
        The TOML document.
    file : str
        What to call it in messages.

    Returns
    -------
    Holding
        The holding.

    Raises
    ------
    NotAHolding
        If anything serious is wrong; its ``problems`` list all that is.
    """
    holding, found = _read(text, file)
    serious = tuple(problem for problem in found if problem.serious)
    if serious or holding is None:
        raise NotAHolding(serious)
    return holding


def problems(text: str, file: str = "holding.toml") -> list[Problem]:
    """List all that is wrong or odd in a holding's text, serious things first.

    Parameters
    ----------
    text : str
        The TOML document.
    file : str
        What to call it in messages.

    Returns
    -------
    list of Problem
        Empty if there is nothing to say.
    """
    return sorted(_read(text, file)[1], key=lambda problem: (not problem.serious, problem.line or 0))


def _read(text: str, file: str) -> tuple[Holding | None, list[Problem]]:
    try:
        plain = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        reason, _, place = str(error).partition(" (at line ")
        line = int(place.split(",")[0]) if place else len(text.splitlines()) or None
        return None, [Problem("", "", f"this is not TOML: {reason[:1].lower()}{reason[1:]}.", file, line)]
    found: list[Problem] = []
    holding = build(field_tree(Holding), plain, "", found)
    if holding is not FAILED:
        found += cross_checks(holding)
    placed = [replace(problem, file=file, line=line_of(text, problem.path)) for problem in found]
    return (None if holding is FAILED else holding), placed


def dump(holding: Holding, previous_text: str | None = None) -> str:
    """Write a holding as TOML.

    Parameters
    ----------
    holding : Holding
        What to write.
    previous_text : str, optional
        An earlier text of it: its comments, its order and the way its values are written stay where
        nothing changed. Without it only what differs from the defaults is written.

    Returns
    -------
    str
        The document; reading it gives the same holding.

    Raises
    ------
    Unreadable
        If the previous text is not TOML.
    """
    document = _parsed(previous_text or "")
    _write(field_tree(Holding), holding, document)
    return tomlkit.dumps(document)


def set_field(text: str, path: str, value: Any) -> str:
    """Change one field in a holding's text and leave all the rest, comments included, as it is.

    Parameters
    ----------
    text : str
        The document.
    path : str
        The field: ``plant.boiler.output_kw``, ``yard.containers[0].litres`` or, by name,
        ``yard.containers[barrow].litres``. The number one past the last adds a member to a list.
    value : object
        As a person or a form gives it: a number, a text with or without a unit, a list (or a text with
        commas), a mapping. ``None`` takes the field, or the member of a list, out.

    Returns
    -------
    str
        The changed document.

    Raises
    ------
    UnknownName
        If there is no such field.
    WoodreeveError
        If the value does not do.
    """
    document = _parsed(text)
    field = field_at(field_tree(Holding), path)
    steps = list(_steps(path))
    table: Any = document
    for key, member in steps[:-1]:
        table = _descended(table, key, member, path)
    key, member = steps[-1]
    if member is not None:
        if value is not None or field.kind != "sections":
            raise WrongKind(path, value, "a field: name the field after the brackets")
        members = table.get(key, [])
        del members[_number_of(members, member, path)]
        if not members:
            del table[key]
    elif value is None:
        if field.required:
            raise WrongKind(path, "unknown", f"given ({field.label.lower()})")
        table.pop(key, None)
    elif field.kind in ("section", "sections"):
        raise WrongKind(path, value, "a single field, not a whole section")
    else:
        if field.kind == "list" and isinstance(value, str):
            value = [one.strip() for one in value.split(",") if one.strip()]
        _put(table, key, read_value(field, value, path))
    return tomlkit.dumps(document)


def _parsed(text: str) -> tomlkit.TOMLDocument:
    try:
        return tomlkit.parse(text)
    except TOMLKitError as error:
        raise Unreadable(f"the document is not TOML: {str(error).rstrip('.')}.") from error


_STEP = re.compile(r"^([A-Za-z0-9_]+)(?:\[([^\]]+)\])?$")


def _steps(path: str) -> Iterator[tuple[str, str | None]]:
    for step in re.findall(r"[^.\[]+(?:\[[^\]]*\])?", path):
        found = _STEP.match(step)
        if not found:
            raise WrongKind("the path", path, "field names joined by dots, members of lists in brackets")
        yield found[1], found[2]


def _descended(table: Any, key: str, member: str | None, path: str) -> Any:
    if member is None:
        if key not in table:
            table[key] = tomlkit.table()
        return table[key]
    if key not in table:
        table[key] = tomlkit.aot()
    members = table[key]
    number = _number_of(members, member, path, adding=True)
    if number == len(members):
        members.append(tomlkit.table() if isinstance(members, AoT) else tomlkit.inline_table())
    return members[number]


def _number_of(members: Any, member: str, path: str, *, adding: bool = False) -> int:
    if member.isdigit():
        if int(member) < len(members) + adding:
            return int(member)
        raise WrongKind(path, member, f"a member of a list that has {len(members)}")
    for number, one in enumerate(members):
        if one.get("name") == member:
            return number
    raise WrongKind(
        path, member, "the name of a member: " + ", ".join(str(one.get("name")) for one in members)
    )


def _write(section: Field, value: Any, table: Any) -> None:
    """Bring a table of the document to a section's values, touching only what differs."""
    for part in section.parts:
        inner = getattr(value, part.key)
        if part.kind == "section" and inner is not None:
            if part.key in table:
                _write(part, inner, table[part.key])
            else:
                fresh = tomlkit.table()
                _write(part, inner, fresh)
                if fresh or part.default is None:
                    table[part.key] = fresh
        elif part.kind == "sections" and inner:
            _write_sections(part, inner, table)
        elif inner is None or part.kind == "sections":
            table.pop(part.key, None)
        elif part.key in table:
            if not _says(part, table[part.key], inner):
                _put(table, part.key, inner)
        elif part.required or inner != part.default:
            _put(table, part.key, inner)


def _write_sections(part: Field, values: tuple[Any, ...], table: Any) -> None:
    if part.key not in table:
        table[part.key] = tomlkit.aot()
    members = table[part.key]
    names = {getattr(one, "name", None) for one in values}
    if None not in names:
        for number in reversed(range(len(members))):
            if members[number].get("name") not in names:
                del members[number]
    while len(members) > len(values):
        del members[-1]
    for number, one in enumerate(values):
        if number < len(members):
            _write(part, one, members[number])
        else:
            fresh: Any = tomlkit.inline_table() if isinstance(members, Array) else tomlkit.table()
            _write(part, one, fresh)
            members.append(fresh)


def _says(part: Field, written: Any, value: Any) -> bool:
    """Whether what is written there already means the value."""
    plain = written.unwrap() if hasattr(written, "unwrap") else written
    try:
        return bool(read_value(part, plain) == value)
    except WoodreeveError:
        return False


def _put(table: Any, key: str, value: Any) -> None:
    if isinstance(value, Mapping):
        written: Any = tomlkit.inline_table()
        written.update(value)
    elif isinstance(value, tuple):
        written = tomlkit.array()
        written.extend(value)
    else:
        written = tomlkit.item(value)
    table[key] = written
