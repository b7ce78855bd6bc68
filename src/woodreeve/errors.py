"""What can go wrong, each said in one sentence that names the field, the value and what is allowed.

::

    WoodreeveError
    ├── OutOfRange        (ValueError)   a number outside what its formula or field allows
    ├── WrongUnit         (ValueError)   a quantity of another dimension, or no known unit
    ├── WrongKind         (TypeError)    text where a number is wanted, and the like
    ├── UnknownName       (LookupError)  a species, function, method, stack... nobody has heard of
    ├── Unreadable        (ValueError)   a file, document or payload that cannot be read
    ├── Unknown           (LookupError)  a figure that nobody has given yet and that has no fall-back
    └── Refused           (RuntimeError) a request that is understood and declined, with the reason
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

__all__ = [
    "OutOfRange",
    "Refused",
    "Unknown",
    "UnknownName",
    "Unreadable",
    "WoodreeveError",
    "WrongKind",
    "WrongUnit",
]


class WoodreeveError(Exception):
    """Any fault that woodreeve tells its user about in one sentence."""


class OutOfRange(WoodreeveError, ValueError):
    """A number lies outside what its formula or field allows.

    Parameters
    ----------
    name : str
        The argument or field as the user knows it.
    value : object
        What was given.
    allowed : str
        What is allowed, in words, for instance ``"between 0 and 0.7"``.
    unit : str
        The unit of both, ``"-"`` for none.
    hint : str
        What to do, one clause without a full stop; may be empty.
    """

    def __init__(self, name: str, value: object, allowed: str, unit: str = "", hint: str = "") -> None:
        self.name, self.value, self.allowed, self.unit, self.hint = name, value, allowed, unit, hint
        in_unit = f" {unit}" if unit and unit != "-" else ""
        advice = f": {hint}." if hint else "."
        super().__init__(f"{name} is {value}{in_unit}, but must be {allowed}{in_unit}{advice}")


class WrongUnit(WoodreeveError, ValueError):
    """A quantity has another dimension than the one wanted, or a unit nobody knows."""

    def __init__(self, name: str, given: str, wanted: str) -> None:
        self.name, self.given, self.wanted = name, given, wanted
        kind = "a plain number or a share in %" if wanted == "-" else f"a quantity in {wanted}"
        super().__init__(f"{name} is given as {given!r}, but {kind} is wanted.")


class WrongKind(WoodreeveError, TypeError):
    """A value is of the wrong kind, for instance text where a number is wanted."""

    def __init__(self, name: str, value: object, wanted: str) -> None:
        self.name, self.value, self.wanted = name, value, wanted
        super().__init__(f"{name} is {value!r}, but must be {wanted}.")


class UnknownName(WoodreeveError, LookupError):
    """A name that is not on the list; the nearest names are offered."""

    def __init__(self, what: str, name: str, known: Iterable[str]) -> None:
        self.what, self.name = what, name
        self.known = sorted(known)
        near = get_close_matches(name, self.known, n=3, cutoff=0.5)
        if near:
            advice = f"did you mean {' or '.join(near)}?"
        else:
            listed = ", ".join(self.known[:12]) + (" ..." if len(self.known) > 12 else "")
            advice = f"known are {listed}." if listed else "there are none yet."
        super().__init__(f"{name!r} is not a known {what}: {advice}")


class Unreadable(WoodreeveError, ValueError):
    """A file, document or payload cannot be read; the message says where and why."""


class Unknown(WoodreeveError, LookupError):
    """A figure is needed that nobody has given and that has no honest fall-back."""


class Refused(WoodreeveError, RuntimeError):
    """A request was understood and is declined; the message gives the reason."""
