"""The forms of diary entries: which fields come first, and which names the owner has for things."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from woodreeve.diary.kinds import KINDS, AskedField, fields_of
from woodreeve.records.asking import Asking
from woodreeve.units import Bounds
from woodreeve.wood.kinds import SPECIES
from woodreeve.wording.numbers import in_currency

__all__ = [
    "COMMON",
    "EntryField",
    "entry_fields",
    "first_and_rest",
    "known_names",
    "summary_of",
    "usual_values",
]

COMMON = ("lit", "refilled", "brought_in", "measured", "stacked", "counted", "ash_out")
"""What is noted most."""

FIRST = {
    "lit": ("count", "container", "store_top_c"),
    "refilled": ("count", "container", "store_top_c"),
    "brought_in": ("count", "container", "from_place"),
    "measured": ("place", "shown_percent"),
    "stacked": ("place", "rows", "species"),
    "counted": ("place", "rows", "nothing_left"),
    "split": ("count", "container", "species", "from_place", "to_place"),
    "sold": ("place", "customer", "count", "container", "price"),
    "burnt": ("count", "container", "since", "from_place"),
    "spoiled": ("place", "why", "count", "container"),
    "moved": ("from_place", "to_place", "count", "container"),
    "weighed": ("container", "gross_kg", "species", "moisture"),
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


def entry_fields(kind: str, currency: str = "") -> tuple[EntryField, ...]:
    """Every field of a kind of entry, in the order of a form; prices in the owner's currency.

    Raises
    ------
    UnknownName
        If there is no such kind.
    """
    return tuple(_field(field, currency) for field in fields_of(kind))


def first_and_rest(kind: str, currency: str = "") -> tuple[list[EntryField], list[EntryField]]:
    """The fields asked at once, and the others."""
    fields = entry_fields(kind, currency)
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


USUAL_CONTAINER = {"lit": "boiler_fill", "refilled": "boiler_fill", "burnt": "boiler_fill", "sold": "selling"}
"""What is counted in most; everything else in what is carried."""


def usual_values(kind: str, asking: Asking, asked_for: Mapping[str, str]) -> dict[str, Any]:
    """What a form begins with: the container used for it, the one meter there is, what a link named.

    Parameters
    ----------
    kind : str
        The kind of entry.
    asking : Asking
        Whose.
    asked_for : mapping
        Texts by field, as they stand in the page's address; names that are no text field are passed over.

    Returns
    -------
    dict
        Values by field.
    """
    yard = asking.holding.yard
    texts = {field.name for field in entry_fields(kind) if field.shape == "one" and field.is_text}
    use = USUAL_CONTAINER.get(kind, "carrying")
    begin: dict[str, Any] = {}
    container = next((one.name for one in yard.containers if one.use == use), None)
    if container is not None and "container" in FIRST.get(kind, ()):
        begin["container"] = container
    if kind == "measured" and len(yard.meters) == 1:
        meter = yard.meters[0]
        begin |= {"meter": meter.name, "species_setting": meter.species_setting}
        begin["basis"] = meter.basis or "not_known"
        begin["temperature_corrected"] = {"yes": True, "no": False}.get(meter.temperature_corrected or "")
    return begin | {name: text for name, text in asked_for.items() if name in texts and text.strip()}


def summary_of(kind: str) -> str:
    """What a kind of entry says, in a sentence."""
    return (KINDS[kind].__doc__ or "").split("\n", 1)[0]


def _field(field: AskedField, currency: str = "") -> EntryField:
    base = field.base
    is_number = base in (float, int) and not field.choices
    high = field.bounds.high
    is_share = is_number and base is float and field.unit == "-" and high is not None and high <= 1.0
    return EntryField(
        name=field.name,
        label=field.label,
        # A form asks for shares in per cent: what the help says of fractions is for documents.
        help=field.help.partition(";")[0].rstrip(".") + "." if is_share else field.help,
        unit=in_currency(field.unit, currency) if field.unit else field.unit,
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
        is_share=is_share,
        parts=tuple(_field(part) for part in _parts(base)),
    )


def _parts(base: Any) -> tuple[AskedField, ...]:
    from woodreeve.diary.asked import asked_fields

    return asked_fields(base) if hasattr(base, "__dataclass_fields__") else ()
