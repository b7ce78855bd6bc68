"""The holding's description as forms: one section a page, each field with its label, unit and help."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from woodreeve.errors import UnknownName, WoodreeveError
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import Field, field_tree
from woodreeve.holding.toml import set_field

__all__ = ["Overview", "Section", "overview", "section_at", "with_changes"]

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
    allowed: str
    default: str
    value: str
    fault: str = ""


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
    if field.kind == "sections" and not path.endswith("]"):
        return Section(path, field.label, field.help, (), (_list(field, value, path),), ())
    fields, lists, sections = [], [], []
    for part in field.parts:
        at = f"{path}.{part.key}"
        inner = None if value is None else getattr(value, part.key)
        if part.kind in _SINGLE:
            fields.append(_form_field(part, inner, at, typed.get(at), faults.get(at, "")))
        elif part.kind == "sections":
            lists.append(_list(part, inner or (), at))
        else:
            sections.append(Overview(at, part.label, part.help, 0))
    label = getattr(value, "name", None) or field.label
    return Section(path, str(label), field.help, tuple(fields), tuple(lists), tuple(sections))


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
        if new is None or new.strip() == field.value:
            continue
        try:
            text = set_field(text, field.path, _given(field, new.strip()))
        except WoodreeveError as error:
            faults[field.path] = str(error)
    return text, faults


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


def _descend(holding: Holding, path: str) -> tuple[Field, Any]:
    field, value = field_tree(Holding), holding
    for step in path.split("."):
        key, _, member = step.partition("[")
        found = next((part for part in field.parts if part.key == key), None)
        if found is None or found.kind not in ("section", "sections"):
            raise UnknownName("section of the holding", path, (p.path for p in field_tree(Holding).parts))
        field, value = found, getattr(value, key) if value is not None else None
        if member:
            number = member.rstrip("]")
            if not number.isdigit() or int(number) > len(value or ()):
                raise UnknownName("section of the holding", path, (p.path for p in field_tree(Holding).parts))
            value = value[int(number)] if value and int(number) < len(value) else None
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


def _form_field(field: Field, value: Any, path: str, typed: str | None, fault: str) -> FormField:
    share = _is_share(field)
    return FormField(
        path=path,
        kind=field.kind,
        label=field.label,
        help=field.help,
        unit="%" if share else "" if field.unit == "-" else field.unit,
        choices=("yes", "no") if field.kind == "yes_no" else field.choices,
        optional=field.optional,
        allowed="" if share else field.allowed_words,
        default="" if value is not None else field.default_words,
        value=_written(field, value, share) if typed is None else typed,
        fault=fault,
    )


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
