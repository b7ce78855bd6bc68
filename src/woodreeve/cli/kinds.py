"""The kinds of diary entry and their fields, as a command lists them."""

from __future__ import annotations

from typing import Any

from woodreeve.diary.asked import asked_fields
from woodreeve.diary.kinds import KINDS, AskedField, fields_of
from woodreeve.units import Bounds
from woodreeve.wording.entries import kind_name
from woodreeve.wording.translate import _

__all__ = ["fields_told", "kinds_told"]

_ANY = Bounds()


def kinds_told() -> list[dict[str, Any]]:
    """Each kind of entry: its key, its name, and what it says."""
    return [
        {"kind": kind, "name": kind_name(kind), "summary": (payload.__doc__ or "").split("\n", 1)[0]}
        for kind, payload in KINDS.items()
        if kind != "correction"
    ]


def fields_told(kind: str) -> list[dict[str, Any]]:
    """The fields of one kind of entry.

    Raises
    ------
    UnknownName
        If there is no such kind.
    """
    return [
        {
            "name": field.name,
            "label": _(field.label),
            "unit": field.unit,
            "choices": list(field.choices),
            "shape": field.shape,
            "required": field.required,
            "help": _(field.help) if field.help else "",
            "wanted": _wanted(field),
        }
        for field in fields_of(kind)
    ]


def _wanted(field: AskedField) -> str:
    """What may be written, in a clause that follows the label."""
    if field.choices:
        return ": " + ", ".join(field.choices)
    if hasattr(field.base, "__dataclass_fields__"):
        parts = [f"{part.label.lower()} [{part.unit}]" for part in asked_fields(field.base)]
        return ": " + " x ".join(parts)
    if field.shape == "named":
        return _(": ash 60 %, birch 40 %")
    if field.base is bool:
        return _(": yes or no")
    unit = f" [{field.unit}]" if field.unit and field.unit != "-" else ""
    allowed = f", {field.bounds.words()}" if field.base in (float, int) and field.bounds != _ANY else ""
    several = _(", one or several") if field.shape == "many" else ""
    return f"{unit}{allowed}{several}"
