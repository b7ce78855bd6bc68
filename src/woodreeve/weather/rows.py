"""Rows of weather files: numbers read with their line and column, and short gaps bridged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from woodreeve.errors import Unreadable
from woodreeve.units import Floats
from woodreeve.weather.series import HOURS_IN_YEAR, SERIES_BOUNDS

__all__ = [
    "LEAP_HOURS",
    "LONGEST_GAP_H",
    "NOMINAL_YEAR",
    "bridge",
    "check_numbers",
    "number",
    "series_or_none",
    "year_for",
]

NOMINAL_YEAR = 2001
"""The ordinary year that a typical year is laid on when nobody names one."""

LONGEST_GAP_H = 6
"""Missing values are bridged by a straight line over so many hours, no more. [h]"""

LEAP_HOURS = 8784


def bridge(name: str, values: Floats, missing: Any, first_line: int) -> Floats:
    """Fill short gaps by straight lines; refuse long ones with their line number."""
    bad = np.asarray(missing, dtype=bool) | ~np.isfinite(values)
    if not bad.any():
        return values
    edges = np.flatnonzero(np.diff(np.concatenate([[0], bad.astype(np.int8), [0]])))
    starts, lengths = edges[::2], edges[1::2] - edges[::2]
    worst = int(np.argmax(lengths))
    if lengths[worst] > LONGEST_GAP_H:
        raise Unreadable(
            f"Line {first_line + int(starts[worst])}: {name} is missing for {int(lengths[worst])} hours; "
            f"gaps of up to {LONGEST_GAP_H} hours are bridged, longer ones are not."
        )
    where = np.arange(values.size)
    return np.interp(where, where[~bad], values[~bad])


def series_or_none(name: str, values: Floats, missing: Any, first_line: int) -> Floats | None:
    """A series the file may lack: left out where it has long gaps."""
    bad = np.asarray(missing, dtype=bool)
    if bad.all():
        return None
    try:
        return np.clip(bridge(name, values, bad, first_line), *SERIES_BOUNDS[name][1:])
    except Unreadable:
        return None


def year_for(hours: int, year: int, what: str) -> int:
    """The year whose length fits; anything but a whole year is refused."""
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    if hours == (LEAP_HOURS if leap else HOURS_IN_YEAR):
        return year
    if hours in (HOURS_IN_YEAR, LEAP_HOURS):
        return NOMINAL_YEAR if hours == HOURS_IN_YEAR else 2004
    raise Unreadable(f"The {what} has {hours} hourly rows, but a year has {HOURS_IN_YEAR} (or {LEAP_HOURS}).")


def number(text: str, line: int, column: int, name: str) -> float:
    """Read one cell, or say where it stands and that it is no number."""
    try:
        return float(text)
    except ValueError:
        raise Unreadable(
            f"Line {line}, column {column} ({name}): {text.strip()!r} is not a number."
        ) from None


def check_numbers(
    rows: Iterable[Sequence[str]], wanted: Mapping[int, str], first_line: int, what: str
) -> None:
    """Find the first row that is too short or holds text where a number should stand."""
    widest = max(wanted)
    for line, row in enumerate(rows, first_line):
        if len(row) <= widest:
            raise Unreadable(f"Line {line}: {len(row)} columns, but {what} rows have at least {widest + 1}.")
        for column, name in wanted.items():
            number(row[column], line, column + 1, name)
