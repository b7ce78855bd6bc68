"""The empty holding: a text with every field in it, explained, and nothing filled in but the name."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from datetime import date, time
from typing import Any

from woodreeve.holding.document import Holding
from woodreeve.holding.fields import Field, field_tree

__all__ = ["blank"]

WIDTH = 100

_HEAD = """
A holding for woodreeve: one house, its plant, yard and woodland.

Every line that begins with # is a remark and counts for nothing. To fill a field in, write its value
and take the # in front of it away. What stays a remark is unknown, or takes the default written there;
woodreeve then says what it assumed. Numbers may carry a unit ("25 kW", "20 %"). Fill in what you
know and come back for the rest: nothing but the name must be given.
"""


def blank(name: str = "my-holding") -> str:
    """Write the empty holding.

    Parameters
    ----------
    name : str
        Short name of the new holding: lower-case letters, digits and hyphens.

    Returns
    -------
    str
        TOML that can be read as it is, every field in it with its label, help, unit, range and default.

    Examples
    --------
    >>> print(blank("hill-farm").splitlines()[8])
    name = "hill-farm"
    """
    lines = [*_remarks(_HEAD.strip()), ""]
    for part in field_tree(Holding).parts:
        if part.kind in ("section", "sections"):
            lines += _section(part, part.key, remarked=False)
        elif part.key == "name":
            lines += [*_explained(part), f'name = "{name}"', ""]
        else:
            lines += [*_explained(part), f"# {part.key} = {_example(part)}".rstrip(), ""]
    return "\n".join(lines).rstrip() + "\n"


def _section(section: Field, path: str, *, remarked: bool) -> Iterator[str]:
    """A section with its fields; a list of sections, and all inside it, is a remark to be copied."""
    remarked = remarked or section.kind == "sections" or (section.default is None and section.optional)
    front = "# " if remarked else ""
    yield ""
    yield from _remarks(f"{section.label}. {section.help}")
    if section.kind == "sections":
        yield from _remarks(
            "Copy these lines for each one, and take away the # in front of those you fill in."
        )
        yield f"# [[{path}]]"
    else:
        yield f"{front}[{path}]"
    yield ""
    for part in section.parts:
        if part.kind not in ("section", "sections"):
            yield from _explained(part)
            yield f"# {part.key} = {_example(part)}".rstrip()
            yield ""
    for part in section.parts:
        if part.kind in ("section", "sections"):
            yield from _section(part, f"{path}.{part.key}", remarked=remarked)


def _explained(part: Field) -> Iterator[str]:
    told = f"{part.label}. {part.help}" if part.help else f"{part.label}."
    allowed = (part.item or part).allowed_words
    if allowed:
        told += f" {allowed[0].upper()}{allowed[1:]}."
    elif part.unit not in ("", "-"):
        told += f" In {part.unit}."
    if part.length is not None:
        told += f" A list of {part.length}."
    if not part.required:
        told += f" Default: {part.default_words}."
    yield from _remarks(told)


def _remarks(text: str) -> Iterator[str]:
    for number, paragraph in enumerate(text.split("\n\n")):
        if number:
            yield "#"
        for line in textwrap.wrap(" ".join(paragraph.split()), WIDTH - 2):
            yield f"# {line}"


def _example(part: Field) -> str:
    """The default as TOML, or else the word unknown, or an empty place to write in."""
    if part.required:
        return ""
    if part.default is None:
        return '"unknown"'
    return _toml(part.default)


def _toml(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    if isinstance(value, tuple):
        return "[" + ", ".join(_toml(one) for one in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {_toml(one)}" for key, one in value.items()) + "}"
    if isinstance(value, date | time):
        return value.isoformat()
    return repr(value)
