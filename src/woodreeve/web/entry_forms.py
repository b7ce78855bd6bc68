"""The forms of diary entries: which fields come first, and which names the owner has for things."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from woodreeve.diary.kinds import KINDS, AskedField, fields_of
from woodreeve.records.household import Asking
from woodreeve.units import Bounds
from woodreeve.wood.kinds import SPECIES

__all__ = ["COMMON", "EntryField", "entry_fields", "first_and_rest", "known_names", "summary_of"]

COMMON = ("lit", "refilled", "brought_in", "measured", "stacked", "counted", "ash_out")
"""What is noted most."""

FIRST = {
    "lit": ("count", "container", "from_place", "store_top_c"),
    "refilled": ("count", "container", "store_top_c"),
    "brought_in": ("count", "container", "from_place"),
    "measured": ("place", "shown_percent", "meter", "basis", "wood_temperature_c"),
    "stacked": ("place", "rows", "species", "split_on"),
    "counted": ("place", "rows", "nothing_left"),
    "split": ("count", "container", "stacked_m3", "species", "from_place", "to_place"),
    "sold": ("place", "customer", "count", "container", "stacked_m3", "price"),
    "burnt": ("count", "container", "since", "from_place"),
    "ash_out": ("litres", "went_to"),
}
"""The fields asked at once; the others wait under "more"."""


@dataclass(frozen=True, slots=True)
class EntryField:
    """A field as the template's widgets want it."""

    name: str
    label: str
    help: str
    unit: str | None
    bounds: Bounds
    choices: tuple[str, ...]
    required: bool
    shape: str
    default: Any
    is_bool: bool
    is_number: bool
    is_whole: bool
    is_date: bool
    is_text: bool
    is_share: bool
    parts: tuple[EntryField, ...]


def entry_fields(kind: str) -> tuple[EntryField, ...]:
    """Every field of a kind of entry, in the order of a form.

    Raises
    ------
    UnknownName
        If there is no such kind.
    """
    return tuple(_field(field) for field in fields_of(kind))


def first_and_rest(kind: str) -> tuple[list[EntryField], list[EntryField]]:
    """The fields asked at once, and the others."""
    fields = entry_fields(kind)
    wanted = FIRST.get(kind, tuple(field.name for field in fields if field.required))
    by_name = {field.name: field for field in fields}
    if not wanted:
        return [field for field in fields if field.name != "note"], [by_name["note"]]
    return [by_name[name] for name in wanted], [field for field in fields if field.name not in wanted]


def known_names(asking: Asking) -> dict[str, tuple[str, ...]]:
    """The owner's own names, offered while typing."""
    holding, folded = asking.holding, asking.folded
    places = [place.name for place in holding.yard.places]
    places += [name for name in (*folded.stacks, *folded.roadside) if name not in places]
    return {
        "place": tuple(places),
        "container": tuple(container.name for container in holding.yard.containers),
        "species": tuple(SPECIES),
        "meter": tuple(meter.name for meter in holding.yard.meters),
        "customer": tuple(customer.name for customer in holding.supply.customers),
        "compartment": tuple(one.name for one in holding.woodland.compartments),
    }


def summary_of(kind: str) -> str:
    """What a kind of entry says, in a sentence."""
    return (KINDS[kind].__doc__ or "").split("\n", 1)[0]


def _field(field: AskedField) -> EntryField:
    base = field.base
    is_number = base in (float, int) and not field.choices
    high = field.bounds.high
    return EntryField(
        name=field.name,
        label=field.label,
        help=field.help,
        unit=field.unit,
        bounds=field.bounds,
        choices=field.choices,
        required=field.required,
        shape=field.shape,
        default=field.default,
        is_bool=base is bool,
        is_number=is_number,
        is_whole=base is int,
        is_date=base is date,
        is_text=base is str,
        is_share=is_number and base is float and field.unit == "-" and high is not None and high <= 1.0,
        parts=tuple(_field(part) for part in _parts(base)),
    )


def _parts(base: Any) -> tuple[AskedField, ...]:
    from woodreeve.diary.asked import asked_fields

    return asked_fields(base) if hasattr(base, "__dataclass_fields__") else ()
