"""The kinds of diary entry: what may be logged, what each asks for, and how it is read again years later."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from woodreeve.diary import payloads_plant as plant
from woodreeve.diary import payloads_wood as wood
from woodreeve.diary.asked import AskedField, Fault, asked_fields, read, to_json
from woodreeve.diary.entry import Entry, entry_from_json, entry_to_json, new_id
from woodreeve.diary.forms import current_form, lifted
from woodreeve.diary.payloads_wood import Payload
from woodreeve.errors import UnknownName, Unreadable

__all__ = [
    "KINDS",
    "AskedField",
    "Entry",
    "Fault",
    "Payload",
    "UnreadablePayload",
    "current_form",
    "entry_from_json",
    "entry_to_json",
    "faults_of",
    "fields_of",
    "new_id",
    "payload_to_json",
    "read_payload",
]

KINDS: Mapping[str, type[Payload]] = MappingProxyType(
    {
        "felled": wood.Felled,
        "extracted": wood.Extracted,
        "bought": wood.Bought,
        "split": wood.Split,
        "stacked": wood.Stacked,
        "covered": wood.Covered,
        "uncovered": wood.Uncovered,
        "moved": wood.Moved,
        "brought_in": wood.BroughtIn,
        "measured": wood.Measured,
        "weighed": wood.Weighed,
        "counted": wood.Counted,
        "lit": plant.Lit,
        "refilled": plant.Refilled,
        "burnt": plant.Burnt,
        "as_usual": plant.AsUsual,
        "ash_out": plant.AshOut,
        "spoiled": wood.Spoiled,
        "sold": wood.Sold,
        "given_away": wood.GivenAway,
        "swept": plant.Swept,
        "cleaned": plant.Cleaned,
        "serviced": plant.Serviced,
        "tested": plant.Tested,
        "checked": plant.Checked,
        "fitted": plant.Fitted,
        "backup_delivery": plant.BackupDelivery,
        "tank_level": plant.TankLevel,
        "meter": plant.Meter,
        "pressure": plant.Pressure,
        "topped_up": plant.ToppedUp,
        "note": plant.Note,
        "correction": plant.Correction,
    }
)
"""Each kind's name and what it says, in the order of the year's work."""


class UnreadablePayload(Unreadable):
    """What an entry says cannot be understood; the entry itself is kept.

    Parameters
    ----------
    kind : str
        The kind of entry.
    faults : tuple of Fault
        Each field that is wrong, with one sentence. The message is the first of them.
    """

    def __init__(self, kind: str, faults: tuple[Fault, ...]) -> None:
        self.kind, self.faults = kind, faults
        super().__init__(f"{kind}: {faults[0].sentence}")


def fields_of(kind: str) -> tuple[AskedField, ...]:
    """List what an entry of this kind asks for, in the order of a form.

    Parameters
    ----------
    kind : str
        One of :data:`KINDS`.

    Returns
    -------
    tuple of AskedField
        Label, help, unit, range and choices of each field.

    Raises
    ------
    UnknownName
        If there is no such kind.
    """
    if kind not in KINDS:
        raise UnknownName("kind of entry", kind, KINDS)
    return asked_fields(KINDS[kind])


def faults_of(kind: str, payload: Mapping[str, Any], form: int | None = None) -> tuple[Fault, ...]:
    """Say all that is wrong with a payload, field by field, as a form shows it.

    Parameters
    ----------
    kind : str
        The kind of entry.
    payload : mapping
        Its fields, as JSON values.
    form : int, optional
        The form it is written in; the current one if left out.

    Returns
    -------
    tuple of Fault
        Empty where all is well.
    """
    return _read(kind, current_form(kind) if form is None else form, payload)[1]


def read_payload(entry: Entry) -> Payload:
    """Read what an entry says, whichever form it was written in.

    Parameters
    ----------
    entry : Entry
        The entry; it is not changed.

    Returns
    -------
    Payload
        An instance of the class that :data:`KINDS` names.

    Raises
    ------
    UnreadablePayload
        If the kind is not known, the form is newer than this program, or a field is wrong.
    """
    payload, faults = _read(entry.kind, entry.form, entry.payload)
    if payload is None:
        raise UnreadablePayload(entry.kind, faults)
    return payload


def payload_to_json(payload: Payload) -> dict[str, Any]:
    """Write a payload in the current form, as plain JSON values; what is at its default is left out."""
    return to_json(payload)


def _read(kind: str, form: int, given: Mapping[str, Any]) -> tuple[Payload | None, tuple[Fault, ...]]:
    if kind not in KINDS:
        return None, (Fault("kind", str(UnknownName("kind of entry", kind, KINDS))),)
    newest = current_form(kind)
    if not 1 <= form <= newest:
        sentence = f"was written in form {form} by a newer woodreeve; this one reads forms up to {newest}."
        return None, (Fault("form", sentence),)
    faults: list[Fault] = []
    made = read(KINDS[kind], lifted(kind, form, given), faults)
    return made, tuple(faults)
