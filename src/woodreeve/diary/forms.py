"""Old forms of entries, which stay readable for ever: each is lifted to the next form when it is read.

The stored payload is never rewritten. A kind that gains, loses or renames a field gets a new form
number in :data:`FORMS` and one small function here that says how the old fields are to be read.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

__all__ = ["FORMS", "current_form", "lifted"]

Lift = Callable[[Mapping[str, Any]], dict[str, Any]]


def _measured_1(old: Mapping[str, Any]) -> dict[str, Any]:
    """One value for each entry, under ``percent``; the place was called ``stack``."""
    new = {key: value for key, value in old.items() if key not in ("percent", "stack")}
    if "stack" in old:
        new["place"] = old["stack"]
    if "percent" in old:
        new["shown_percent"] = [old["percent"]]
    return new


def _burnt_1(old: Mapping[str, Any]) -> dict[str, Any]:
    """Only barrows could be told, under ``barrows``; the place was called ``stack``."""
    new = {key: value for key, value in old.items() if key not in ("barrows", "stack")}
    if "stack" in old:
        new["from_place"] = old["stack"]
    if "barrows" in old:
        new.update(count=old["barrows"], container="barrow")
    return new


_LIFTS: Mapping[tuple[str, int], Lift] = {("measured", 1): _measured_1, ("burnt", 1): _burnt_1}

FORMS: Mapping[str, int] = MappingProxyType({"measured": 2, "burnt": 2})
"""The form in which a kind is written now, where it is not 1."""


def current_form(kind: str) -> int:
    """The form in which entries of a kind are written now."""
    return FORMS.get(kind, 1)


def lifted(kind: str, form: int, payload: Mapping[str, Any]) -> Mapping[str, Any]:
    """Read a payload of an old form as if it had been written today.

    Parameters
    ----------
    kind : str
        The kind of entry.
    form : int
        The form it was written in, from 1 to the current one.
    payload : mapping
        Its fields; not changed.

    Returns
    -------
    mapping
        The fields in the current form.
    """
    for older in range(form, current_form(kind)):
        payload = _LIFTS[kind, older](payload)
    return payload
