"""An entry of the diary: who says that what happened when, in an envelope that never changes."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from woodreeve.errors import Unreadable

__all__ = [
    "Entry",
    "content_digest",
    "entry_from_json",
    "entry_to_json",
    "from_json_text",
    "moment_from_json",
    "new_id",
    "order_of",
    "payload_text",
]

ID_BYTES = 16
"""An id has 128 bits, so that telephones without signal never choose the same one."""

MOST_PAYLOAD_CHARACTERS = 64_000
"""No honest diary entry is longer than this; photos are kept elsewhere."""

FIRST_YEAR, LAST_YEAR = 1900, 2200

_LONGEST = {"holding": 64, "kind": 40, "by": 120}
_ENVELOPE = ("id", "holding", "kind", "form", "happened", "entered", "sent", "by", "payload")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry as it was made, its payload still as it was sent.

    Parameters
    ----------
    id : str
        32 hexadecimal digits, chosen by whoever made the entry.
    holding : str
        The name of the holding it belongs to.
    kind : str
        What happened, for instance ``"split"``.
    form : int
        The version of the payload's fields.
    happened, entered : datetime
        When it happened and when it was written down, with the local offset.
    sent : datetime or None
        When it was sent to the records; not part of its content.
    by : str
        Who made it.
    payload : mapping
        What the entry says, as plain JSON values.
    """

    id: str
    holding: str
    kind: str
    form: int
    happened: datetime
    entered: datetime
    sent: datetime | None = None
    by: str
    payload: Mapping[str, Any]


def new_id(randomness: bytes) -> str:
    """Make an id from 16 random bytes, which the caller brings.

    Parameters
    ----------
    randomness : bytes
        16 bytes from the system's own source of randomness.

    Returns
    -------
    str
        32 hexadecimal digits.

    Raises
    ------
    Unreadable
        If there are not exactly 16 bytes.
    """
    if len(randomness) != ID_BYTES:
        raise Unreadable(f"An id is made from {ID_BYTES} random bytes, not from {len(randomness)}.")
    return randomness.hex()


def order_of(entry: Entry) -> tuple[datetime, datetime, str]:
    """The place of an entry in the diary: by when it happened, then entered, then by id."""
    return entry.happened, entry.entered, entry.id


def payload_text(payload: Mapping[str, Any]) -> str:
    """Write a payload as the one JSON text that stands for it: keys sorted, plain ASCII.

    Raises
    ------
    Unreadable
        If it holds something that JSON cannot say, such as NaN.
    """
    try:
        return json.dumps(payload, sort_keys=True, separators=(",", ":"), allow_nan=False)
    except (ValueError, TypeError, RecursionError) as error:
        raise Unreadable(f"payload cannot be written as JSON: {error}.") from error


def content_digest(entry: Entry) -> str:
    """A digest of all that an entry says; when it was sent is not part of it.

    Parameters
    ----------
    entry : Entry
        The entry.

    Returns
    -------
    str
        64 hexadecimal digits: equal for two entries exactly when they say the same.
    """
    told = [
        entry.id,
        entry.holding,
        entry.kind,
        str(entry.form),
        entry.happened.isoformat(),
        entry.entered.isoformat(),
        entry.by,
        payload_text(entry.payload),
    ]
    return hashlib.sha256(json.dumps(told).encode("ascii")).hexdigest()


def moment_from_json(value: Any, name: str) -> datetime:
    """Read a moment with its offset from UTC.

    Parameters
    ----------
    value : object
        A text such as ``"2026-01-31T18:30:00+01:00"``, or a datetime.
    name : str
        How to call the field in an error.

    Returns
    -------
    datetime
        The moment, its local offset kept.

    Raises
    ------
    Unreadable
        If it is no moment, has no offset, or lies outside the years 1900 to 2200.
    """
    if isinstance(value, datetime):
        moment = value
    elif isinstance(value, str):
        try:
            moment = datetime.fromisoformat(value)
        except ValueError:
            raise Unreadable(
                f"{name} is {_shown(value)}, but must be a date and time such as 2026-01-31T18:30:00+01:00."
            ) from None
    else:
        raise Unreadable(f"{name} is {_shown(value)}, but must be a text with date, time and offset.")
    if moment.tzinfo is None or moment.utcoffset() is None:
        raise Unreadable(f"{name} is {_shown(value)}, but must say its offset from UTC, such as +01:00 or Z.")
    if not FIRST_YEAR <= moment.year <= LAST_YEAR:
        raise Unreadable(
            f"{name} is in the year {moment.year}, but must lie between {FIRST_YEAR} and {LAST_YEAR}."
        )
    return moment


def entry_from_json(document: Any) -> Entry:
    """Read an entry from a JSON object; its payload is taken as it is.

    Parameters
    ----------
    document : object
        A mapping with ``id``, ``holding``, ``kind``, ``form``, ``happened``, ``entered``, ``by``, ``payload``
        and perhaps ``sent``.

    Returns
    -------
    Entry
        The entry, whether or not its payload can be understood.

    Raises
    ------
    Unreadable
        If the envelope is not in order; the sentence names the field.
    """
    if not isinstance(document, Mapping):
        raise Unreadable("An entry must be a JSON object with id, kind, happened and the rest.")
    for key in document:
        if key not in _ENVELOPE:
            raise Unreadable(f"An entry has no field {_shown(key)}; its fields are {', '.join(_ENVELOPE)}.")
    for key in _ENVELOPE:
        if key not in document and key != "sent":
            raise Unreadable(f"{key} is missing from the entry.")
    form = document["form"]
    if isinstance(form, bool) or not isinstance(form, int) or not 1 <= form <= 1000:
        raise Unreadable(f"form is {_shown(form)}, but must be a whole number from 1 to 1000.")
    sent = document.get("sent")
    return Entry(
        id=_id(document["id"]),
        holding=_text(document["holding"], "holding"),
        kind=_text(document["kind"], "kind"),
        form=form,
        happened=moment_from_json(document["happened"], "happened"),
        entered=moment_from_json(document["entered"], "entered"),
        sent=None if sent is None else moment_from_json(sent, "sent"),
        by=_text(document["by"], "by"),
        payload=_payload(document["payload"]),
    )


def entry_to_json(entry: Entry) -> dict[str, Any]:
    """Write an entry as a JSON object that :func:`entry_from_json` reads.

    Parameters
    ----------
    entry : Entry
        The entry.

    Returns
    -------
    dict
        Plain JSON values; moments with their local offset.
    """
    return {
        "id": entry.id,
        "holding": entry.holding,
        "kind": entry.kind,
        "form": entry.form,
        "happened": entry.happened.isoformat(),
        "entered": entry.entered.isoformat(),
        "sent": None if entry.sent is None else entry.sent.isoformat(),
        "by": entry.by,
        "payload": dict(entry.payload),
    }


def from_json_text(text: str) -> Entry:
    """Read an entry from a JSON text, one line of an export.

    Raises
    ------
    Unreadable
        If it is no JSON, or no entry.
    """
    try:
        return entry_from_json(json.loads(text))
    except (json.JSONDecodeError, RecursionError) as error:
        raise Unreadable(f"An entry must be one JSON object: {error}.") from error


def _shown(value: Any) -> str:
    """A value as an error shows it: short, whatever was sent."""
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "..."


def _id(value: Any) -> str:
    if isinstance(value, str) and len(value) == 2 * ID_BYTES and all(c in "0123456789abcdef" for c in value):
        return value
    raise Unreadable(
        f"id is {_shown(value)}, but must be {2 * ID_BYTES} hexadecimal digits in small letters."
    )


def _text(value: Any, name: str) -> str:
    longest = _LONGEST[name]
    if not isinstance(value, str) or not value.strip() or len(value) > longest or not value.isprintable():
        raise Unreadable(f"{name} is {_shown(value)}, but must be a text of 1 to {longest} characters.")
    return value


def _payload(value: Any) -> Mapping[str, Any]:
    if not isinstance(value, Mapping) or not all(isinstance(key, str) for key in value):
        raise Unreadable(f"payload is {_shown(value)}, but must be a JSON object.")
    length = len(payload_text(value))
    if length > MOST_PAYLOAD_CHARACTERS:
        raise Unreadable(f"payload has {length} characters, but must have at most {MOST_PAYLOAD_CHARACTERS}.")
    return value
