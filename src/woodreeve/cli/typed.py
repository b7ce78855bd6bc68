"""Diary entries as they are typed: ``moisture="20 %"``, ``rows="3.2x1.8x33"``, read by the kind's fields."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from woodreeve.diary.asked import asked_fields
from woodreeve.diary.kinds import AskedField, fields_of
from woodreeve.diary.payloads_wood import CountedRow, OvenSample
from woodreeve.errors import OutOfRange, UnknownName, WoodreeveError, WrongKind
from woodreeve.units import parse_quantity

__all__ = ["pairs", "payload_from"]

_YES = ("yes", "true", "1")
_NO = ("no", "false", "0")
_EXAMPLES: Mapping[Any, str] = {CountedRow: "3.2x1.8x33", OvenSample: "412x233.8"}


def pairs(words: Sequence[str]) -> dict[str, str]:
    """Take ``name=value`` words apart.

    Raises
    ------
    WrongKind
        If a word has no ``=``, or a name stands there twice.
    """
    found: dict[str, str] = {}
    for word in words:
        name, sign, value = word.partition("=")
        name = name.strip()
        if not sign or not name:
            raise WrongKind(word, word, "written as name=value")
        if name in found:
            raise WrongKind(name, value, "given once")
        found[name] = value.strip()
    return found


def payload_from(
    kind: str, typed: Mapping[str, str], base: Mapping[str, Any] | None = None
) -> dict[str, Any]:
    """Turn typed values into an entry's payload.

    Parameters
    ----------
    kind : str
        The kind of entry.
    typed : mapping
        Texts by field; an empty text takes the field out.
    base : mapping, optional
        What the entry says so far.

    Returns
    -------
    dict
        JSON values; whether they do is for the kind to say.

    Raises
    ------
    UnknownName
        If there is no such kind or field.
    WoodreeveError
        If a text cannot be read as what the field asks for.
    """
    known = {field.name: field for field in fields_of(kind)}
    payload = dict(base or {})
    for name, text in typed.items():
        if name not in known:
            raise UnknownName(f"field of {kind}", name, known)
        if text:
            payload[name] = _value(known[name], text)
        else:
            payload.pop(name, None)
    return payload


def _value(field: AskedField, text: str) -> Any:
    if text[0] in "[{":
        try:
            return json.loads(text)
        except json.JSONDecodeError as error:
            raise WrongKind(field.name, text, f"JSON, or plain values ({error.msg})") from None
    if field.shape == "named":
        return _named(field, text)
    if hasattr(field.base, "__dataclass_fields__"):
        parts = [part.strip(",") for part in re.split(r"[;\s]+", text) if part.strip(",")]
        made = [_part(field, part) for part in parts]
        return made if field.shape == "many" else made[0]
    if field.shape == "many":
        return [_one(field, part) for part in _many(field, text)]
    return _one(field, text)


def _one(field: AskedField, text: str) -> Any:
    base = field.base
    if base in (float, int):
        number = parse_quantity(text, field.unit or "-", field.name)
        _mind_percent(field, number)
        return int(number) if base is int and number == int(number) else number
    if base is bool:
        if text.lower() not in (*_YES, *_NO):
            raise WrongKind(field.name, text, "yes or no")
        return text.lower() in _YES
    return text


def _mind_percent(field: AskedField, number: float) -> None:
    """Say what to do where somebody wrote 20 for 20 %."""
    high = field.bounds.high
    if field.unit == "-" and high is not None and high <= 1.0 and 3.0 <= number <= 100.0 * high:
        hint = f"write {number:g} % with its sign"
        raise OutOfRange(field.name, f"{number:g}", field.bounds.words(), "-", hint)


def _many(field: AskedField, text: str) -> list[str]:
    """The members of a list: parted by commas or semicolons; numbers, with or without unit, by blanks too."""
    parts = [part.strip() for part in re.split(r"[,;]", text) if part.strip()]
    if field.base not in (float, int):
        return parts
    found: list[str] = []
    for word in " ".join(parts).split():
        if found and not re.match(r"[-+.\d]", word):
            found[-1] += f" {word}"
        else:
            found.append(word)
    return found


def _named(field: AskedField, text: str) -> dict[str, Any]:
    """Values by name: ``ash 60 %, birch 40 %`` or ``ash=0.6, birch=0.4``."""
    found = {}
    for part in re.split(r"[,;]", text):
        told = re.match(r"^\s*(.+?)\s*[=:\s]\s*([-+.\d].*)$", part)
        if not told:
            raise WrongKind(field.name, part.strip(), "a name and a number, such as ash 60 %")
        found[told[1].strip().replace(" ", "_")] = _one(field, told[2].strip())
    return found


def _part(field: AskedField, text: str) -> dict[str, Any]:
    """A row of a stack and the like: its numbers in their order, joined by x, as ``3.2x1.8x33``."""
    asked = asked_fields(field.base)
    values = [value for value in re.split(r"[x×*]", text) if value]
    least = sum(one.required for one in asked)
    if not least <= len(values) <= len(asked):
        order = " x ".join(f"{one.label.lower()} [{one.unit}]" for one in asked)
        raise WrongKind(field.name, text, f"written as {order}, such as {_EXAMPLES[field.base]}")
    try:
        return {one.name: _one(one, value) for one, value in zip(asked, values)}
    except WoodreeveError as error:
        raise WrongKind(field.name, text, "numbers joined by x") from error
