"""What an entry asks for: the fields of its kind, with label, help, unit and range, and how they are read."""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, fields
from datetime import date, datetime
from difflib import get_close_matches
from typing import Annotated, Any, Literal, get_args, get_origin

from annotated_types import Len

from woodreeve.diary.values import Fault, PartFault, many_of, named_of, reader_of
from woodreeve.errors import Unreadable
from woodreeve.units import Asks, Bounds, bounds_of, metadata_of, unit_of

__all__ = ["AskedField", "Fault", "asked_fields", "read", "to_json"]

LONGEST_TEXT = 2000
"""Characters in a text without a limit of its own."""

MOST_VALUES = 500
"""Values in a list without a limit of its own."""


@dataclass(frozen=True, slots=True)
class AskedField:
    """One field as a form asks for it.

    Parameters
    ----------
    name, label, help : str
        Its key, and the texts beside it.
    base : type
        ``float``, ``int``, ``str``, ``bool``, ``date``, ``datetime``, or the dataclass of a part.
    unit : str or None
        The unit of a number.
    bounds : Bounds
        The range of a number.
    choices : tuple of str
        The words to choose from; empty where the answer is free.
    required : bool
        Whether it must be given.
    shape : ``"one"``, ``"many"`` or ``"named"``
        A single value, a list of them, or values by name.
    longest : int
        Most characters of a text, or most values of a list.
    default : object
        What holds when it is not given.
    """

    name: str
    label: str
    help: str
    base: Any
    unit: str | None
    bounds: Bounds
    choices: tuple[str, ...]
    required: bool
    shape: Literal["one", "many", "named"]
    longest: int
    default: Any
    read: Callable[[Any], Any]


_KNOWN: dict[type[Any], dict[str, AskedField]] = {}
_REQUIRED: dict[type[Any], list[AskedField]] = {}


def asked_fields(kind: type[Any]) -> tuple[AskedField, ...]:
    """List the fields of a payload, its own before those it shares with other kinds.

    Parameters
    ----------
    kind : type
        A payload dataclass.

    Returns
    -------
    tuple of AskedField
        In the order in which a form asks.
    """
    if kind not in _KNOWN:
        _KNOWN[kind] = _look_at(kind)
        _REQUIRED[kind] = [field for field in _KNOWN[kind].values() if field.required]
    return tuple(_KNOWN[kind].values())


def _look_at(kind: type[Any]) -> dict[str, AskedField]:
    """Read the annotations of a payload class: done once for each."""
    hints = typing.get_type_hints(kind, include_extras=True)
    rank = {
        name: position
        for position, part in enumerate(kind.__mro__)
        for name in vars(part).get("__annotations__", {})
    }
    own_first = sorted(fields(kind), key=lambda item: rank[item.name])
    return {item.name: _asked(item.name, hints[item.name], _default(item)) for item in own_first}


def read(kind: type, given: Mapping[str, Any], faults: list[Fault], path: str = "") -> Any:
    """Read a payload, or a part of one, from plain JSON values.

    Parameters
    ----------
    kind : type
        The dataclass to make.
    given : mapping
        JSON values by field.
    faults : list of Fault
        What is wrong is added here, each fault with its field; the result is then ``None``.
    path : str
        Put before the names of fields.

    Returns
    -------
    object
        An instance of ``kind``, or ``None`` where there was a fault.
    """
    faults_before = len(faults)
    known = _by_name(kind)
    values: dict[str, Any] = {}
    for name, value in given.items():
        field = known.get(name)
        if field is None:
            near = get_close_matches(str(name), known, n=1)
            hint = f"did you mean {near[0]}?" if near else f"its fields are {', '.join(known)}."
            faults.append(Fault(path + str(name), f"{path}{name} is not a field here: {hint}"))
        elif value is not None:
            try:
                values[name] = field.read(value)
            except PartFault as part:
                faults.extend(_prefixed(part.faults, f"{path}{name}"))
            except Unreadable as error:
                faults.append(Fault(path + name, f"{path}{name} {error}"))
    for field in _REQUIRED[kind]:
        if given.get(field.name) is None:
            faults.append(Fault(path + field.name, f"{path}{field.name} is missing: {field.label.lower()}."))
    if len(faults) > faults_before:
        return None
    made = kind(**values)
    check = getattr(made, "faults", None)
    if check is not None:
        faults.extend(Fault(path + fault.field, f"{path}{fault.sentence}") for fault in check())
    return made if len(faults) == faults_before else None


def to_json(payload: Any) -> dict[str, Any]:
    """Write a payload as plain JSON values, leaving out what is at its default.

    Parameters
    ----------
    payload : object
        A payload dataclass.

    Returns
    -------
    dict
        Read back by :func:`read` to an equal payload.
    """
    written = {}
    for field in asked_fields(type(payload)):
        value = getattr(payload, field.name)
        if field.required or value != field.default:
            written[field.name] = _plain(value)
    return written


def _prefixed(faults: list[Fault], path: str) -> list[Fault]:
    return [Fault(f"{path}.{fault.field}", f"{path}.{fault.sentence}") for fault in faults]


def _by_name(kind: type[Any]) -> dict[str, AskedField]:
    asked_fields(kind)
    return _KNOWN[kind]


def _default(item: Any) -> Any:
    return item.default if item.default_factory is MISSING else item.default_factory()


def _plain(value: Any) -> Any:
    if isinstance(value, date | datetime):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, Mapping):
        return {name: _plain(item) for name, item in value.items()}
    if hasattr(value, "__dataclass_fields__"):
        return to_json(value)
    return value


def _asked(name: str, annotation: Any, default: Any) -> AskedField:
    """Read one field's annotation."""
    inner, told = _peeled(annotation)
    asks = next((item for item in told if isinstance(item, Asks)), Asks(name))
    limit = next((item.max_length for item in told if isinstance(item, Len)), None)
    shape: Literal["one", "many", "named"] = "one"
    base = inner
    if get_origin(inner) is tuple:
        shape = "many"
        base, told = _peeled(get_args(inner)[0])
    elif _is_mapping(get_origin(inner)):
        shape = "named"
        base, told = _peeled(get_args(inner)[1])
    choices = get_args(base) if get_origin(base) is Literal else ()
    longest = limit or (LONGEST_TEXT if shape == "one" else MOST_VALUES)
    measured = Annotated[(base, *told)] if told else base
    unit, bounds = unit_of(measured), bounds_of(measured)
    one = reader_of(base, choices, bounds, unit, longest if shape == "one" else LONGEST_TEXT) or _part(base)
    reader = {"one": one, "many": many_of(one, longest), "named": named_of(one, longest)}[shape]
    return AskedField(
        name=name,
        label=asks.label,
        help=asks.help,
        base=str if choices else base,
        unit=unit,
        bounds=bounds,
        choices=choices,
        required=default is MISSING,
        shape=shape,
        longest=longest,
        default=None if default is MISSING else default,
        read=reader,
    )


def _peeled(annotation: Any) -> tuple[Any, tuple[Any, ...]]:
    """The type under ``Annotated`` and ``| None``, and all that was told about it, outermost last."""
    told: tuple[Any, ...] = ()
    while True:
        if metadata_of(annotation):
            told = metadata_of(annotation) + told
            annotation = annotation.__origin__
        elif get_origin(annotation) in (types.UnionType, typing.Union):
            (annotation,) = (part for part in get_args(annotation) if part is not type(None))
        else:
            return annotation, told


def _is_mapping(origin: Any) -> bool:
    return isinstance(origin, type) and issubclass(origin, Mapping)


def _part(kind: type) -> Callable[[Any], Any]:
    def part(value: Any) -> Any:
        if not isinstance(value, Mapping):
            raise Unreadable(f"is {value!r:.60}, but must have the fields {', '.join(_by_name(kind))}.")
        faults: list[Fault] = []
        made = read(kind, value, faults)
        if faults:
            raise PartFault(faults)
        return made

    return part
