"""The holding's description as forms: one section a page, each field with its label, unit and help."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Any

from woodreeve.errors import UnknownName, WoodreeveError
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import Field, field_tree
from woodreeve.holding.toml import set_field
from woodreeve.wording.numbers import in_currency, range_words, unit_words
from woodreeve.wording.numbers import typed as typed_number
from woodreeve.wording.translate import _

__all__ = ["Overview", "Section", "overview", "section_at", "with_changes", "without"]

_SINGLE = ("number", "whole_number", "text", "date", "moment", "time", "choice", "yes_no", "list", "shares")


@dataclass(frozen=True, slots=True)
class Overview:
    """A top section as the list shows it."""

    path: str
    label: str
    help: str
    unknown: int


@dataclass(frozen=True, slots=True)
class FormField:
    """A field with its present value as a form shows it."""

    path: str
    kind: str
    label: str
    help: str
    unit: str
    choices: tuple[str, ...]
    optional: bool
    required: bool
    allowed: str
    default: str
    value: str
    fault: str = ""
    meanwhile: str | None = None


@dataclass(frozen=True, slots=True)
class Member:
    """One member of a list of sections."""

    path: str
    name: str


@dataclass(frozen=True, slots=True)
class ListOf:
    """A list of like sections."""

    label: str
    help: str
    members: tuple[Member, ...]
    next_path: str


@dataclass(frozen=True, slots=True)
class Section:
    """One section of the description."""

    path: str
    label: str
    help: str
    fields: tuple[FormField, ...]
    lists: tuple[ListOf, ...]
    sections: tuple[Overview, ...]
    up: str = ""
    is_member: bool = False


def overview(holding: Holding) -> list[Overview]:
    """List the top sections, and how many of their fields are not known."""
    tree = field_tree(Holding)
    return [
        _overview(part, getattr(holding, part.key))
        for part in tree.parts
        if part.kind in ("section", "sections")
    ]


def section_at(
    holding: Holding,
    path: str,
    typed: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
    *,
    is_stale: bool = False,
) -> Section:
    """Read one section of the description.

    Parameters
    ----------
    holding : Holding
        The description.
    path : str
        For instance ``plant.boiler`` or ``yard.containers[0]``.
    typed : mapping, optional
        What the owner typed and what could not be saved yet, by field path.
    faults : mapping, optional
        What is wrong, by field path.
    is_stale : bool
        Whether somebody saved another version since the form was shown: then each field where the two
        differ carries both.

    Returns
    -------
    Section
        Its fields with their present values, its lists and its sub-sections.

    Raises
    ------
    UnknownName
        If there is no such section.
    """
    field, value = _descend(holding, path)
    typed, faults = typed or {}, faults or {}
    currency = holding.prices.currency
    is_member = path.endswith("]")
    up = path.rpartition("[")[0].rpartition(".")[0] if is_member else path.rpartition(".")[0]
    if field.kind == "sections" and not is_member:
        return Section(path, field.label, field.help, (), (_list(field, value, path),), (), up)
    fields, lists, sections = [], [], []
    for part in field.parts:
        at = f"{path}.{part.key}"
        inner = None if value is None else getattr(value, part.key)
        if part.kind in _SINGLE:
            fields.append(_form_field(part, inner, at, typed.get(at), faults.get(at, ""), is_stale, currency))
        elif part.kind == "sections":
            lists.append(_list(part, inner or (), at))
        else:
            sections.append(Overview(at, part.label, part.help, 0))
    label = getattr(value, "name", None) or field.label
    return Section(
        path,
        str(label),
        field.help,
        tuple(fields),
        tuple(lists) if value is not None else (),
        tuple(sections),
        up,
        is_member and value is not None,
    )


def with_changes(
    text: str, holding: Holding, path: str, typed: Mapping[str, str]
) -> tuple[str, dict[str, str]]:
    """Write what was typed into the holding's text.

    Parameters
    ----------
    text : str
        The document.
    holding : Holding
        What it says now.
    path : str
        The section.
    typed : mapping
        Texts by field path.

    Returns
    -------
    str
        The document with every change that does.
    dict
        What is wrong, by field path; empty if all is well.
    """
    faults: dict[str, str] = {}
    for field in section_at(holding, path).fields:
        new = typed.get(field.path)
        if new is not None and field.required and not new.strip():
            faults[field.path] = _("{what} is needed.").format(what=field.label)
        if new is None or field.path in faults or new.strip() == field.value:
            continue
        try:
            text = set_field(text, field.path, _given(field, new.strip()))
        except WoodreeveError as error:
            faults[field.path] = str(error)
    return text, faults


def without(text: str, path: str) -> str:
    """Take a member of a list out of the holding's text, for instance ``yard.containers[1]``."""
    return set_field(text, path, None)


def _given(field: FormField, text: str) -> Any:
    if not text:
        return None
    if field.unit == "%" and not text.endswith("%"):
        return f"{text} %"
    if field.kind == "yes_no":
        return text == "yes"
    if field.kind == "shares":
        pairs = (part.rsplit(None, 1) for part in text.split(",") if part.strip())
        return {pair[0].strip(): f"{pair[-1]} %" for pair in pairs}
    return text


_MEMBER = re.compile(r"\[([0-9]{1,4})\]")


def _descend(holding: Holding, path: str) -> tuple[Field, Any]:
    field = field_tree(Holding)
    value: Any = holding
    for step in path.split("."):
        key, bracket, rest = step.partition("[")
        found = next((part for part in field.parts if part.key == key), None)
        number = _MEMBER.fullmatch(bracket + rest)
        in_order = found is not None and found.kind in (("sections",) if bracket else ("section", "sections"))
        if found is None or not in_order or (bracket and not number):
            raise UnknownName("section of the holding", path, (p.path for p in field_tree(Holding).parts))
        field, value = found, None if value is None else getattr(value, key, None)
        if number:
            members, at = value or (), int(number[1])
            if at > len(members):
                raise UnknownName("member of the list", path, (f"{path.rpartition('[')[0]}[{len(members)}]",))
            value = members[at] if at < len(members) else None
    return field, value


def _list(field: Field, values: tuple[Any, ...], path: str) -> ListOf:
    members = tuple(
        Member(f"{path}[{number}]", str(getattr(one, "name", None) or f"{field.label} {number + 1}"))
        for number, one in enumerate(values)
    )
    return ListOf(field.label, field.help, members, f"{path}[{len(members)}]")


def _is_share(field: Field) -> bool:
    return (
        field.kind == "number"
        and field.unit == "-"
        and field.bounds.high is not None
        and field.bounds.high <= 1.2
    )


def _form_field(
    field: Field, value: Any, path: str, typed: str | None, fault: str, is_stale: bool, currency: str
) -> FormField:
    share = _is_share(field)
    now = _written(field, value, share)
    priced = partial(in_currency, currency=currency)
    return FormField(
        path=path,
        kind=field.kind,
        label=field.label,
        help=field.help,
        unit="%" if share else priced(unit_words(field.unit or (field.item.unit if field.item else ""))),
        choices=("yes", "no") if field.kind == "yes_no" else field.choices,
        optional=field.optional,
        required=field.required,
        allowed=priced(_allowed(field, share)),
        default="" if value is not None or field.optional else priced(_default(field, share)),
        value=now if typed is None else typed,
        fault=fault.replace(path, field.label),
        meanwhile=now if is_stale and typed is not None and typed.strip() != now else None,
    )


def _default(field: Field, share: bool) -> str:
    if isinstance(field.default, float | int) and not isinstance(field.default, bool):
        number = typed_number(field.default * (100.0 if share else 1.0))
        return f"{number} {'%' if share else unit_words(field.unit)}".strip()
    return "" if field.required else field.default_words.replace("_", " ")


def _allowed(field: Field, share: bool) -> str:
    if field.kind not in ("number", "whole_number"):
        return ""
    return range_words(field.bounds, "%" if share else field.unit)


def _written(field: Field, value: Any, share: bool) -> str:
    if value is None or value == ():
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return ", ".join(f"{name} {100 * part:g}" for name, part in value.items())
    if isinstance(value, tuple):
        return ", ".join(f"{one:g}" if isinstance(one, float) else str(one) for one in value)
    if isinstance(value, float):
        return f"{100 * value:.10g}" if share else f"{value:.10g}"
    return value.isoformat() if isinstance(value, date) else str(value)


def _overview(field: Field, value: Any) -> Overview:
    return Overview(field.path, field.label, field.help, _unknown(field, value))


def _unknown(field: Field, value: Any) -> int:
    if field.kind == "sections":
        return sum(_unknown_parts(field, one) for one in value)
    return _unknown_parts(field, value)


def _unknown_parts(field: Field, value: Any) -> int:
    if value is None:
        return 0
    count = 0
    for part in field.parts:
        inner = getattr(value, part.key)
        count += _unknown(part, inner) if part.kind in ("section", "sections") else inner is None
    return count
