"""The description of the place as text: an overview, one section, and the list of all fields."""

from __future__ import annotations

from typing import Any

from woodreeve.cli.output import console
from woodreeve.cli.tables import rows_table
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import Field, field_tree
from woodreeve.web.sections import overview, section_at
from woodreeve.wording.translate import _

__all__ = ["field_rows", "print_fields", "print_overview", "print_section"]


def print_overview(holding: Holding) -> None:
    """Print the sections, and in how many fields of each something is not known."""
    out = console()
    out.print(f"{holding.name}: {holding.title}" if holding.title else holding.name)
    out.print()
    rows = [
        (part.path, _(part.label), _("{n} not known").format(n=part.unknown) if part.unknown else "")
        for part in overview(holding)
    ]
    out.print(rows_table(("", "", ""), rows, folded=(1,)))


def print_section(holding: Holding, path: str) -> None:
    """Print one section with its values.

    Raises
    ------
    UnknownName
        If there is no such section.
    """
    out = console()
    section = section_at(holding, path)
    out.print(f"{section.path}: {_(section.label)}")
    rows = []
    for field in section.fields:
        told = field.value or _("not known")
        unit = f" {field.unit}" if field.value and field.unit not in ("", "-") else ""
        rows.append((field.path.rsplit(".", 1)[-1], f"{told}{unit}", _(field.label)))
    if rows:
        out.print()
        out.print(rows_table(("", "", ""), rows, folded=(1, 2)))
    inner = [(part.path, _(part.label)) for part in section.sections]
    inner += [(member.path, member.name) for listed in section.lists for member in listed.members]
    if inner:
        out.print()
        out.print(rows_table(("", ""), inner, folded=(1,)))


def field_rows() -> list[dict[str, Any]]:
    """Every field of the description with what is asked of it."""
    return [
        {
            "path": field.path,
            "kind": field.kind,
            "label": _(field.label),
            "unit": field.unit,
            "allowed": (field.item or field).allowed_words,
            "default": field.default_words,
            "required": field.required,
            "help": _(field.help) if field.help else "",
        }
        for field in _single_fields()
    ]


def print_fields() -> None:
    """Print every field of the description."""
    out = console()
    rows = []
    for field in field_rows():
        told = [field["label"]]
        if field["allowed"]:
            told.append(field["allowed"])
        elif field["unit"] not in ("", "-"):
            told.append(_("in {unit}").format(unit=field["unit"]))
        if not field["required"]:
            told.append(_("default {default}").format(default=field["default"]))
        rows.append((field["path"], "; ".join(told)))
    out.print(rows_table(("", ""), rows, folded=(0, 1)))
    out.print()
    out.print(_("{n} fields; 'woodreeve holding blank' explains each.").format(n=len(rows)))


def _single_fields() -> list[Field]:
    return [
        field
        for field in field_tree(Holding).walk()
        if field.kind not in ("section", "sections") and field.path
    ]
