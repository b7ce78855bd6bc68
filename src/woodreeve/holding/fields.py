"""Every field of the holding once: what it is called, asked, measured in, and what it may be.

The tree is read off the dataclasses themselves, so that forms, reference docs, the blank document and
the reader of documents can never disagree with the formulas that use the values.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, dataclass, is_dataclass
from dataclasses import fields as dataclass_fields
from datetime import date, datetime, time
from functools import lru_cache
from typing import Any, Literal, TypeAlias, get_args, get_origin, get_type_hints

from woodreeve.errors import UnknownName, WrongKind
from woodreeve.units import Asks, Bounds, bounds_of, metadata_of, unit_of

__all__ = ["Field", "Kind", "field_at", "field_tree"]

Kind: TypeAlias = Literal[
    "number",
    "whole_number",
    "text",
    "date",
    "moment",
    "time",
    "choice",
    "yes_no",
    "list",
    "shares",
    "section",
    "sections",
]
"""What a form shows for a field; ``sections`` is a list of like sections, ``shares`` are names with parts."""

ANY = Bounds()
"""No bounds at all."""

_SIMPLE: dict[type, Kind] = {
    bool: "yes_no",
    int: "whole_number",
    float: "number",
    str: "text",
    datetime: "moment",
    date: "date",
    time: "time",
}


@dataclass(frozen=True, slots=True)
class Field:
    """One field, or a section of fields.

    Parameters
    ----------
    path : str
        Where it stands, for instance ``plant.boiler.output_kw``; inside a list ``plant.circuits[].name``.
    key : str
        The last part of the path: its name in the document.
    kind : str
        What a form shows for it.
    label, help : str
        What it is called, and one line on how to find its value.
    unit : str
        Unit of a number, else empty.
    bounds : Bounds
        What a number may be.
    choices : tuple of str
        What a choice may be.
    optional : bool
        Whether it may be unknown.
    required : bool
        Whether it must be given.
    default : object
        What holds when it is left out; ``None`` is unknown.
    parts : tuple of Field
        The fields of a section, or of each section in a list of them.
    item : Field, optional
        What each member of a list, or the part of each name, is.
    length : int, optional
        How many members a list must have.
    model : type, optional
        The dataclass of a section.
    """

    path: str
    key: str
    kind: Kind
    label: str
    help: str
    unit: str = ""
    bounds: Bounds = ANY
    choices: tuple[str, ...] = ()
    optional: bool = False
    required: bool = False
    default: Any = None
    parts: tuple[Field, ...] = ()
    item: Field | None = None
    length: int | None = None
    model: type | None = None

    @property
    def default_words(self) -> str:
        """The default in words, ``unknown`` where there is none."""
        if self.required:
            return "must be given"
        if self.default is None:
            return "unknown"
        if self.default == () or self.default == {}:
            return "none"
        if isinstance(self.default, bool):
            return "yes" if self.default else "no"
        if isinstance(self.default, float | int):
            return f"{self.default:g}" + (f" {self.unit}" if self.unit not in ("", "-") else "")
        return str(self.default)

    @property
    def allowed_words(self) -> str:
        """What is allowed, in words; empty where anything is."""
        if self.choices:
            return "one of " + ", ".join(self.choices)
        if self.kind in ("number", "whole_number") and self.bounds != ANY:
            return self.bounds.words() + (f" {self.unit}" if self.unit not in ("", "-") else "")
        return ""

    def walk(self) -> Iterator[Field]:
        """The field and all below it."""
        yield self
        for part in self.parts:
            yield from part.walk()


@lru_cache(maxsize=32)
def field_tree(model: type) -> Field:
    """Read the tree of fields off a dataclass.

    Parameters
    ----------
    model : type
        A frozen dataclass whose fields are annotated with unit, bounds and
        :class:`~woodreeve.units.Asks`.

    Returns
    -------
    Field
        The root: a section without a path.

    Raises
    ------
    WrongKind
        If a field's annotation is of a kind that no form can ask for.
    """
    return Field("", "", "section", "", "", parts=_parts(model, ""), model=model)


def field_at(tree: Field, path: str) -> Field:
    """Find a field by its path; numbers and names in brackets stand for any member of a list.

    Parameters
    ----------
    tree : Field
        What :func:`field_tree` gave.
    path : str
        For instance ``plant.circuits[0].name`` or ``plant.circuits[upstairs].name``.

    Returns
    -------
    Field
        The field.

    Raises
    ------
    UnknownName
        If there is no such field; the nearest names are offered.
    """
    at = tree
    for step in path.split("."):
        key = step.split("[", 1)[0]
        found = next((part for part in at.parts if part.key == key), None)
        if found is None:
            raise UnknownName(f"field of {at.path or 'the holding'}", key, (part.key for part in at.parts))
        at = found
    return at


def _parts(model: type, path: str) -> tuple[Field, ...]:
    hints = get_type_hints(model, include_extras=True)
    found = []
    for item in dataclass_fields(model):
        if not item.init:
            continue
        required = item.default is MISSING and item.default_factory is MISSING
        default = item.default if item.default is not MISSING else None
        if item.default_factory is not MISSING:
            default = item.default_factory()
        found.append(_field(hints[item.name], f"{path}.{item.name}".lstrip("."), required, default))
    return tuple(found)


def _field(hint: Any, path: str, required: bool, default: Any) -> Field:
    base, noted, optional = _unwrapped(hint)
    asks = next((note for note in noted if isinstance(note, Asks)), Asks(""))
    common: dict[str, Any] = {
        "path": path,
        "key": path.rsplit(".", 1)[-1].removesuffix("[]"),
        "label": asks.label,
        "help": asks.help,
        "optional": optional,
        "required": required,
        "default": default,
    }
    unit, bounds = _unit_and_bounds(noted)
    if is_dataclass(base) and isinstance(base, type):
        return Field(**common, kind="section", parts=_parts(base, path), model=base)
    origin, arguments = get_origin(base), get_args(base)
    if origin is Literal:
        return Field(**common, kind="choice", choices=tuple(str(choice) for choice in arguments))
    if origin is tuple:
        inner, inner_notes, _ = _unwrapped(arguments[0])
        if is_dataclass(inner) and isinstance(inner, type):
            return Field(**common, kind="sections", parts=_parts(inner, f"{path}[]"), model=inner)
        length = None if arguments[-1] is Ellipsis else len(arguments)
        return Field(
            **common, kind="list", unit=unit, item=_item(inner, inner_notes or noted, path), length=length
        )
    if origin is not None and issubclass(origin, Mapping) and arguments[0] is str:
        inner, inner_notes, _ = _unwrapped(arguments[1])
        return Field(**common, kind="shares", unit=unit, item=_item(inner, inner_notes or noted, path))
    if base in _SIMPLE:
        return Field(**common, kind=_SIMPLE[base], unit=unit, bounds=bounds)
    raise WrongKind(path, str(base), "a kind of field that a form can ask for")


def _item(base: Any, noted: tuple[Any, ...], path: str) -> Field:
    unit, bounds = _unit_and_bounds(noted)
    choices = tuple(str(choice) for choice in get_args(base)) if get_origin(base) is Literal else ()
    kind: Kind | None = "choice" if choices else _SIMPLE.get(base)
    if kind is None:
        raise WrongKind(path, str(base), "a list of numbers, texts, dates or choices")
    return Field(f"{path}[]", "", kind, "", "", unit=unit, bounds=bounds, choices=choices)


def _unit_and_bounds(noted: tuple[Any, ...]) -> tuple[str, Bounds]:
    if not noted:
        return "", ANY
    annotation = typing.Annotated[float, *noted]
    return unit_of(annotation) or "", bounds_of(annotation)


def _unwrapped(hint: Any) -> tuple[Any, tuple[Any, ...], bool]:
    """The plain type, everything noted on the way to it (outermost last), and whether it may be unknown."""
    noted: tuple[Any, ...] = ()
    optional = False
    while True:
        if get_origin(hint) is typing.Annotated:
            noted = metadata_of(hint) + noted
            hint = get_args(hint)[0]
        elif get_origin(hint) in (types.UnionType, typing.Union):
            rest = [kind for kind in get_args(hint) if kind is not type(None)]
            optional = optional or len(rest) < len(get_args(hint))
            if len(rest) != 1:
                return hint, noted, optional
            hint = rest[0]
        else:
            return hint, noted, optional
