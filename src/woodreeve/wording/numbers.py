"""Figures in words: rounded to what is known, in the measures the owner likes."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from babel.dates import format_date, format_datetime
from babel.numbers import format_decimal

from woodreeve.units import Bounds, convert
from woodreeve.wording.translate import _
from woodreeve.workings import Dated, Figure

__all__ = [
    "Shown",
    "column",
    "day",
    "day_and_month",
    "in_currency",
    "moment",
    "month",
    "number",
    "range_words",
    "shown",
    "summed",
    "text",
    "typed",
    "unit_words",
    "when",
]

LOCALE = "en_GB"
"""How numbers and dates are written."""

_LABELS = {
    "-": "%",
    "degC": "°C",
    "degF": "°F",
    "K*day": "K d",
    "m2": "m²",
    "cm2": "cm²",
    "m3": "m³",
    "kWh/m3": "kWh/m³",
    "kg/m3": "kg/m³",
    "W/(m2*K)": "W/(m² K)",
    "kWh/(m2*day)": "kWh/(m² day)",
    "L": "l",
    "day": "days",
    "GBP": "£",
    "EUR": "€",
    "winter": "winters",
    "1": "",
    "K*h": "K h",
}

_LARGER = {"kWh": ("MWh", 20_000.0), "kg": ("t", 2_000.0), "W": ("kW", 2_000.0)}
"""From this size on a figure is shown in the larger unit."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A figure put into words: number, unit and range apart, so that a page can set them."""

    number: str
    unit: str
    range: str

    def __str__(self) -> str:
        """The figure in one line, its range in brackets."""
        head = self.number if not self.unit else (f"{self.number} {self.unit}")
        return f"{head} ({self.range})" if self.range else head


def number(value: float, spread: float | None = None) -> str:
    """Write a number with no more digits than are known.

    Parameters
    ----------
    value : float
        The number.
    spread : float, optional
        Width of its range: one step of the last digit shown is between a twentieth and half of it.

    Returns
    -------
    str
        For instance ``"5,760"``, ``"14.2"``, ``"0.31"``.
    """
    if not math.isfinite(value):
        return "–"
    size = max(abs(value), 1e-12)
    digits = 2 - math.floor(math.log10(size))
    if spread and spread > 0:
        digits = min(digits, -math.floor(math.log10(spread / 2.0)))
    digits = max(-6, min(digits, 4))
    rounded = round(value, digits)
    pattern = "#,##0" if digits <= 0 else "#,##0." + "0" * min(digits, 1) + "#" * max(0, digits - 1)
    if digits > 0 and abs(rounded) >= 10:
        pattern = "#,##0.#"
    return format_decimal(rounded, format=pattern, locale=LOCALE)


def _in_preferred(
    figure: Figure, measures: Mapping[str, str]
) -> tuple[float, float | None, float | None, str]:
    wanted = measures.get(figure.unit, figure.unit)
    numbers = [figure.value, figure.low, figure.high]
    if figure.unit == "-":
        return (*_scaled(numbers, 100.0), "-")
    if wanted == figure.unit and figure.unit in _LARGER:
        larger, least = _LARGER[figure.unit]
        if abs(figure.value) >= least:
            wanted = larger
    if wanted == figure.unit or figure.unit not in _CONVERTIBLE:
        return figure.value, figure.low, figure.high, figure.unit
    value, low, high = (None if n is None else convert(n, figure.unit, wanted) for n in numbers)
    return (figure.value if value is None else value), low, high, wanted


_CONVERTIBLE = {"kWh", "kg", "t", "m3", "degC", "W", "kW", "MJ"}


def _scaled(numbers: list[float | None], by: float) -> tuple[float, float | None, float | None]:
    value, low, high = (None if n is None else n * by for n in numbers)
    assert value is not None
    return value, low, high


def shown(figure: Figure, measures: Mapping[str, str] | None = None, kind: str = "") -> Shown:
    """Put a figure into words.

    Parameters
    ----------
    figure : Figure
        The figure.
    measures : mapping, optional
        The owner's preferred unit by unit, for instance ``{"kWh": "MJ"}``.
    kind : str
        A word after the unit, for instance ``"stacked"``; for a volume by default the first word of its
        basis.

    Returns
    -------
    Shown
        Number, unit and range.
    """
    value, low, high, unit = _in_preferred(figure, measures or {})
    spread = None if low is None or high is None else high - low
    label = _LABELS.get(unit, unit)
    if not kind and figure.unit == "m3" and figure.basis:
        kind = figure.basis.split(",")[0]
    label = f"{label} {kind}".strip()
    span = ""
    if low is not None and high is not None and spread and number(low, spread) != number(high, spread):
        span = _("{low} to {high}").format(low=number(low, spread), high=number(high, spread))
    if unit == "-" and spread is None:
        spread = 2.0 if abs(value) >= 10.0 else 0.2
    return Shown(number(value, spread), label, span)


def column(
    figures: Sequence[Figure], measures: Mapping[str, str] | None = None, kind: str = ""
) -> tuple[str, list[str]]:
    """Put figures of one kind into words that stand below each other under one unit.

    Parameters
    ----------
    figures : sequence of Figure
        At least one, all in the same unit.
    measures, kind : mapping, str
        As for :func:`shown`.

    Returns
    -------
    tuple
        The unit that fits the largest of them, and the numbers in it.
    """
    wanted = measures or {}
    unit = _in_preferred(max(figures, key=lambda figure: abs(figure.value)), wanted)[3]
    own = figures[0].unit
    fixed = figures if unit == own else [_converted(figure, unit) for figure in figures]
    label = shown(replace(fixed[0], value=0.0, low=None, high=None), {}, kind).unit
    return label, [shown(figure, {}, kind).number for figure in fixed]


def summed(
    rows: Sequence[Sequence[Figure]], measures: Mapping[str, str] | None = None
) -> tuple[str, list[list[str]]]:
    """Put rows of parts and their sum into words so that what is shown adds up.

    Parameters
    ----------
    rows : sequence of sequence of Figure
        In each row the parts and, last, their sum; all in one unit.
    measures : mapping, optional
        As for :func:`shown`.

    Returns
    -------
    tuple
        The unit, and the numbers row by row, rounded in one step that the sum's range allows; the largest
        part takes up what rounding leaves over.
    """
    unit = column([row[-1] for row in rows], measures)[0]
    own = _in_preferred(max((row[-1] for row in rows), key=lambda one: abs(one.value)), measures or {})[3]
    told = []
    for row in rows:
        fixed = [one if one.unit == own else _converted(one, own) for one in row]
        step = _step_of_sum(fixed[-1])
        counts = [round(one.value / step) for one in fixed]
        largest = max(range(len(fixed) - 1), key=lambda place: abs(fixed[place].value))
        counts[largest] += counts[-1] - sum(counts[:-1])
        digits = max(0, -math.floor(math.log10(step) + 1e-9))
        pattern = "#,##0" + ("." + "0" * digits if digits else "")
        told.append([format_decimal(round(n * step, digits), format=pattern, locale=LOCALE) for n in counts])
    return unit, told


def _step_of_sum(total: Figure) -> float:
    """The last digit worth showing: from a two-hundredth to a twentieth of the range, or three digits."""
    known = None if total.low is None or total.high is None else (total.high - total.low) / 20.0
    return float(10.0 ** math.floor(math.log10(max(known or abs(total.value) / 100.0, 1e-4))))


def _converted(figure: Figure, unit: str) -> Figure:
    value, low, high = (
        None if n is None else convert(n, figure.unit, unit) for n in (figure.value, figure.low, figure.high)
    )
    assert value is not None
    return replace(figure, value=value, low=low, high=high, unit=unit)


def text(value: Figure | Dated | str | int | None, measures: Mapping[str, str] | None = None) -> str:
    """Put any value of an answer into words, without its range."""
    if value is None:
        return _("not known")
    if isinstance(value, Figure):
        parts = shown(value, measures)
        return f"{parts.number} {parts.unit}".strip()
    if isinstance(value, Dated):
        return day(value.value)
    return str(value)


def unit_words(unit: str | None) -> str:
    """Write a unit's name as people do: ``degC`` is "°C", ``m3`` is "m³", no unit is nothing."""
    return "" if unit in (None, "", "-") else _LABELS.get(unit, unit)


def in_currency(words: str, currency: str) -> str:
    """Name the owner's currency where a unit says ``money``: "money/kWh" is "£/kWh"."""
    return re.sub(r"\bmoney\b", _LABELS.get(currency, currency), words) if currency else words


def typed(value: float) -> str:
    """Write a number as its owner typed it: no more digits than it has, thousands apart."""
    return format_decimal(value, format="#,##0.######", locale=LOCALE)


def range_words(bounds: Bounds, unit: str = "") -> str:
    """Say what a number may be, as a form does.

    Parameters
    ----------
    bounds : Bounds
        The range.
    unit : str
        Its unit; ``"%"`` for a share that is asked for in per cent.

    Returns
    -------
    str
        For instance ``"more than 0, up to 500 kg"``, ``"0 to 110 °C"``; empty where anything will do.
    """
    times = 100.0 if unit == "%" else 1.0
    low, high = (None if end is None else typed(end * times) for end in (bounds.low, bounds.high))
    mark = unit_words(unit)
    after = f" {mark}" if mark else ""
    if low is None and high is None:
        return ""
    if high is None:
        words = _("more than {low}") if bounds.low_open else _("at least {low}")
    elif low is None:
        words = _("less than {high}") if bounds.high_open else _("up to {high}")
    elif bounds.low_open:
        words = _("more than {low}, up to {high}")
        if bounds.high_open:
            words = _("more than {low}, less than {high}")
    else:
        words = _("from {low}, less than {high}") if bounds.high_open else _("{low} to {high}")
    return words.format(low=low, high=high) + after


def day(value: date) -> str:
    """Write a day: "12 March 2026"."""
    return format_date(value, format="d MMMM y", locale=LOCALE)


def day_and_month(value: date) -> str:
    """Write a day whose year is told beside it: "12 March"."""
    return format_date(value, format="d MMMM", locale=LOCALE)


def month(value: date) -> str:
    """Write a month: "March 2026"."""
    return format_date(value, format="MMMM y", locale=LOCALE)


def moment(value: datetime) -> str:
    """Write a moment: "Tuesday 13 January 2026, 17:00"."""
    return format_datetime(value, format="EEEE d MMMM y, HH:mm", tzinfo=value.tzinfo, locale=LOCALE)


def when(value: datetime) -> str:
    """Write when an entry happened, shortly: "13 Jan 2026, 17:00"."""
    return format_datetime(value, format="d MMM y, HH:mm", tzinfo=value.tzinfo, locale=LOCALE)
