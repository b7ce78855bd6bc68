"""Pages of the reference that are read off the program when the documentation is built, so none can be stale.

The fields of the holding, the kinds of diary entry, the commands, the JSON resources, and what was measured.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import click

if TYPE_CHECKING:
    from sphinx.application import Sphinx

    from woodreeve.diary.kinds import AskedField
    from woodreeve.holding.fields import Field

__all__ = ["PAGES", "commands", "entries", "fields", "measured", "resources", "setup"]


def _cell(text: str) -> str:
    return " ".join(text.replace("|", "\\|").replace("<", "&lt;").split())


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    if not rows:
        return []
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    return [*lines, *("| " + " | ".join(map(_cell, row)) + " |" for row in rows), ""]


def _sections(field: Field) -> Iterator[Field]:
    for part in field.parts:
        if part.kind in ("section", "sections"):
            yield part
            yield from _sections(part)


def _field_row(field: Field) -> tuple[str, ...]:
    one = field.item or field
    unit = "" if one.unit in ("", "-") else one.unit
    allowed = one.allowed_words or unit
    if field.length is not None:
        allowed = f"a list of {field.length}, each {allowed}" if allowed else f"a list of {field.length}"
    if not allowed:
        allowed = field.kind.replace("_", " ")
    return f"`{field.key}`", f"{field.label}. {field.help}".strip(), allowed, field.default_words


FIELD_HEADS = ("key", "what it is", "allowed", "left out")


def fields() -> str:
    """The page of the holding's fields."""
    from woodreeve.holding.document import Holding
    from woodreeve.holding.fields import field_tree

    root = field_tree(Holding)
    lines = [
        "# Fields of the holding",
        "",
        "The holding is one TOML document. `woodreeve holding blank` writes an empty one with all of this in",
        "it. Only the name must be given; what is left out is unknown or takes the default told here. A",
        'number may be written with a unit, as `"25 kW"` or `"20 %"`; without one it is in the unit named',
        "here, and a share is a fraction of 1.",
        "",
        *_table(FIELD_HEADS, [_field_row(part) for part in root.parts if not part.parts]),
    ]
    for section in _sections(root):
        many = section.kind == "sections"
        header = section.path.replace("[]", "")
        lines += [f"## `{'[[' if many else '['}{header}{']]' if many else ']'}`", ""]
        lines += [
            f"{section.label}. {section.help}".strip() + (" May stand several times." if many else ""),
            "",
        ]
        lines += _table(FIELD_HEADS, [_field_row(part) for part in section.parts if not part.parts])
    return "\n".join(lines)


def _asked_row(asked: AskedField) -> tuple[str, ...]:
    from woodreeve.units import Bounds

    allowed = "one of " + ", ".join(asked.choices) if asked.choices else ""
    unit = "" if asked.unit in (None, "-") else str(asked.unit)
    if not allowed and asked.base in (int, float):
        allowed = " ".join(filter(None, (asked.bounds.words() if asked.bounds != Bounds() else "", unit)))
    if not allowed:
        simple = {"str": "text", "bool": "yes or no", "date": "day", "datetime": "moment"}
        name = getattr(asked.base, "__name__", "anything")
        allowed = simple.get(name, f"see {name} below" if inspect.isclass(asked.base) else "anything")
    if asked.shape == "many":
        allowed = f"a list, each {allowed}"
    elif asked.shape == "named":
        allowed = f"by name, each {allowed}"
    return f"`{asked.name}`", f"{asked.label}. {asked.help}".strip(), allowed, "yes" if asked.required else ""


ASKED_HEADS = ("key", "what it is", "allowed", "must be given")


def entries() -> str:
    """The page of the kinds of diary entry."""
    from dataclasses import is_dataclass

    from woodreeve.diary.asked import asked_fields
    from woodreeve.diary.kinds import KINDS, fields_of

    lines = [
        "# Kinds of diary entry",
        "",
        "Each entry also says when it happened, when it was entered and by whom. An amount of wood is told",
        "in one way only: containers, stacked, solid or loose cubic metres, or kilograms. Moisture is a",
        "share of the weight as it is: 20 % is `0.20`.",
        "",
    ]
    parts: dict[str, type[Any]] = {}
    for kind, payload in KINDS.items():
        asked = fields_of(kind)
        parts.update({one.base.__name__: one.base for one in asked if is_dataclass(one.base)})
        lines += [f"## {kind}", "", inspect.getdoc(payload) or "", ""]
        lines += _table(ASKED_HEADS, [_asked_row(one) for one in asked])
    for name, part in sorted(parts.items()):
        lines += [f"## Part: {name}", "", (inspect.getdoc(part) or "").split("\n\n")[0], ""]
        lines += _table(ASKED_HEADS, [_asked_row(one) for one in asked_fields(part)])
    return "\n".join(lines)


def _commands(command: click.Command, name: str, parent: click.Context | None) -> Iterator[tuple[str, str]]:
    context = click.Context(command, info_name=name, parent=parent, terminal_width=88, max_content_width=88)
    yield context.command_path, command.get_help(context)
    if isinstance(command, click.Group):
        for sub in command.list_commands(context):
            found = command.get_command(context, sub)
            if found is not None:
                yield from _commands(found, sub, context)


def commands() -> str:
    """The page of the commands, each with its own help."""
    from woodreeve.cli.main import command

    lines = ["# Commands", "", "What each command says to `--help`.", ""]
    for path, text in _commands(command, "woodreeve", None):
        lines += [f"## {path}", "", "```text", text, "```", ""]
    return "\n".join(lines)


def _shape_name(shape: dict[str, Any]) -> str:
    if "$ref" in shape:
        return str(shape["$ref"]).rsplit("/", 1)[-1]
    if shape.get("type") == "array":
        return f"list of {_shape_name(shape['items'])}"
    return str(shape.get("type", ""))


def resources() -> str:
    """The page of the JSON resources."""
    from woodreeve.web.app import create_app

    api = create_app(cast(Any, None)).openapi()
    lines = [
        "# JSON resources",
        "",
        "The pages' own data, for programs on the same computer. While `woodreeve serve` runs, the full",
        "description (OpenAPI) is at `/api/openapi.json`. Every figure is an object with `value`, `unit`,",
        "`by` (the formula that made it), `basis`, `low` and `high`.",
        "",
    ]
    rows = []
    for path, methods in api["paths"].items():
        for method, told in methods.items():
            shape = (
                told["responses"]
                .get("200", {})
                .get("content", {})
                .get("application/json", {})
                .get("schema", {})
            )
            gives = _shape_name(shape)
            says = told.get("description") or told.get("summary", "")
            rows.append((f"`{method.upper()} {path}`", says.split("\n\n")[0], f"`{gives}`" if gives else ""))
    lines += _table(("resource", "what it gives", "form"), rows)
    return "\n".join(lines)


def measured() -> str:
    """The page that lists every measured figure."""
    from scripts.measured_tables import listing

    return listing()


PAGES: dict[str, Callable[[], str]] = {
    "fields": fields,
    "entries": entries,
    "commands": commands,
    "resources": resources,
    "measured": measured,
}
"""Name of each page, and what writes it."""


def _write(app: Sphinx) -> None:
    folder = Path(app.srcdir) / "reference" / "generated"
    folder.mkdir(parents=True, exist_ok=True)
    for name, made in PAGES.items():
        page, text = folder / f"{name}.md", made().rstrip() + "\n"
        if not page.is_file() or page.read_text(encoding="utf-8") != text:
            page.write_text(text, encoding="utf-8")


def setup(app: Sphinx) -> dict[str, Any]:
    """Write the pages before the sources are read."""
    app.connect("builder-inited", _write)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
