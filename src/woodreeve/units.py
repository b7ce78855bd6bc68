"""Quantities: plain numbers whose unit and bounds stand in their annotation.

A value is a plain float or an array of floats. What it means stands in its type, which formulas,
holding fields, forms and the reference docs all read: ``Annotated[float, Unit("MJ/kg"), Ge(0), Le(30)]``.
Conversion here stays within one dimension; between volume kinds, mass and heat it is physics and
lives in :mod:`woodreeve.wood.measure`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated, Any, TypeAlias, TypeVar

import numpy as np
from annotated_types import Ge, Gt, Le, Lt, Unit
from numpy.typing import NDArray

from woodreeve.errors import WrongUnit

if TYPE_CHECKING:
    import pint

__all__ = [
    "Area",
    "Asks",
    "Bounds",
    "Celsius",
    "CubicMetre",
    "Day",
    "DegreeDays",
    "DryHeat",
    "Floats",
    "Ge",
    "Gt",
    "Hour",
    "Kelvin",
    "Kilogram",
    "Kilowatt",
    "KilowattHour",
    "KwhPerKg",
    "KwhPerM3",
    "Le",
    "Litre",
    "Lt",
    "MjPerKg",
    "Moisture",
    "MoistureDryBasis",
    "OneOrMany",
    "RelativeHumidity",
    "Share",
    "Unit",
    "UValue",
    "Watt",
    "WattPerKelvin",
    "WoodDensity",
    "bounds_of",
    "convert",
    "parse_quantity",
    "unit_of",
]

Floats: TypeAlias = NDArray[np.float64]
"""An array of floats."""

OneOrMany = TypeVar("OneOrMany", float, Floats)
"""A float, or an array of them: the same formula serves both."""

Share = Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]
"""A part of a whole, from 0 to 1."""
Moisture = Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
"""Water over wet mass, as a fraction: always the wet basis."""
MoistureDryBasis = Annotated[float, Unit("-"), Ge(0.0), Le(2.34)]
"""Water over oven-dry mass, as a fraction."""
RelativeHumidity = Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]
Celsius = Annotated[float, Unit("degC"), Ge(-90.0), Le(1500.0)]
Kelvin = Annotated[float, Unit("K"), Ge(-500.0), Le(500.0)]
"""A difference of temperatures."""
DryHeat = Annotated[float, Unit("MJ/kg"), Ge(15.0), Le(22.0)]
"""Net calorific value of oven-dry wood."""
MjPerKg = Annotated[float, Unit("MJ/kg"), Ge(-3.0), Le(50.0)]
KwhPerKg = Annotated[float, Unit("kWh/kg"), Ge(-1.0), Le(14.0)]
KwhPerM3 = Annotated[float, Unit("kWh/m3"), Ge(-1000.0), Le(12000.0)]
WoodDensity = Annotated[float, Unit("kg/m3"), Ge(80.0), Le(1400.0)]
Kilogram = Annotated[float, Unit("kg"), Ge(0.0), Le(1e7)]
CubicMetre = Annotated[float, Unit("m3"), Ge(0.0), Le(1e6)]
Litre = Annotated[float, Unit("L"), Ge(0.0), Le(1e6)]
Area = Annotated[float, Unit("m2"), Ge(0.0), Le(1e5)]
UValue = Annotated[float, Unit("W/(m2*K)"), Ge(0.05), Le(7.0)]
WattPerKelvin = Annotated[float, Unit("W/K"), Ge(0.0), Le(1e5)]
Watt = Annotated[float, Unit("W"), Ge(-1e7), Le(1e7)]
Kilowatt = Annotated[float, Unit("kW"), Ge(0.0), Le(1e4)]
KilowattHour = Annotated[float, Unit("kWh"), Ge(0.0), Le(1e8)]
DegreeDays = Annotated[float, Unit("K*day"), Ge(0.0), Le(20000.0)]
Hour = Annotated[float, Unit("h"), Ge(0.0), Le(1e6)]
Day = Annotated[float, Unit("day"), Ge(0.0), Le(1e6)]


@dataclass(frozen=True, slots=True)
class Asks:
    """How a field is asked for: its label and one line of help, for forms and docs alike.

    Both texts are marked for translation by standing here.
    """

    label: str
    help: str = ""


@dataclass(frozen=True, slots=True)
class Bounds:
    """The range a quantity may have; ``None`` where it is open on that side."""

    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False

    def admit(self, value: float) -> bool:
        """Tell whether a single number lies inside (a NaN never does)."""
        above = self.low is None or (value > self.low if self.low_open else value >= self.low)
        below = self.high is None or (value < self.high if self.high_open else value <= self.high)
        return value == value and above and below

    def words(self) -> str:
        """Say the range in words."""
        low = f"{self.low:.10g}" if self.low is not None else None
        high = f"{self.high:.10g}" if self.high is not None else None
        if low is not None and high is not None:
            ends = [e for e, is_open in ((low, self.low_open), (high, self.high_open)) if is_open]
            return f"between {low} and {high}" + (f" (not {' or '.join(ends)} itself)" if ends else "")
        if low is not None:
            return f"more than {low}" if self.low_open else f"at least {low}"
        if high is not None:
            return f"less than {high}" if self.high_open else f"at most {high}"
        return "a finite number"


def metadata_of(annotation: Any) -> tuple[Any, ...]:
    """Everything that an ``Annotated`` type carries beside the type itself."""
    return tuple(getattr(annotation, "__metadata__", ()))


def unit_of(annotation: Any) -> str | None:
    """The unit that an annotation states, or ``None``."""
    return next((item.unit for item in metadata_of(annotation) if isinstance(item, Unit)), None)


def bounds_of(annotation: Any) -> Bounds:
    """The bounds that an annotation states; the last one given on a side wins."""
    low: Any = None
    high: Any = None
    low_open = high_open = False
    for item in metadata_of(annotation):
        match item:
            case Ge(ge=bound):
                low, low_open = bound, False
            case Gt(gt=bound):
                low, low_open = bound, True
            case Le(le=bound):
                high, high_open = bound, False
            case Lt(lt=bound):
                high, high_open = bound, True
    return Bounds(low, high, low_open, high_open)


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[Any]:
    """The one unit registry of this process; loaded only when a conversion is wanted."""
    import pint

    known: pint.UnitRegistry[Any] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True, cache_folder=None)
    known.define("percent_of = 0.01")
    known.define("cord = 128 * foot ** 3")
    known.define("money = [currency]")
    return known


_WAYS_OF_WRITING = {
    "-": "dimensionless",
    "": "dimensionless",
    "%": "percent_of",
    "percent": "percent_of",
    "C": "degC",
    "°C": "degC",
    "F": "degF",
    "°F": "degF",
    "l": "L",
    "t": "metric_ton",
    "m³": "m**3",
    "m²": "m**2",
}


def _spelled(unit: str) -> str:
    """Spell a unit as the unit library reads it."""
    unit = unit.strip()
    if unit.count("%") > 1:
        raise ValueError(unit)
    if unit in _WAYS_OF_WRITING:
        return _WAYS_OF_WRITING[unit]
    unit = unit.replace("³", "**3").replace("²", "**2").replace("·", "*")
    return re.sub(r"\bt\b", "metric_ton", re.sub(r"(?<=[A-Za-z])([23])\b", r"**\1", unit))


@lru_cache(maxsize=512)
def _parsed(unit: str) -> Any:
    return _registry().Unit(_spelled(unit))


def convert(value: float, given: str, wanted: str, name: str = "the value") -> float:
    """Convert a value between two units of one dimension.

    Parameters
    ----------
    value : float
        The number, in ``given``.
    given, wanted : str
        Unit names, for instance ``"kWh"`` and ``"MJ"``; ``"-"`` and ``"%"`` are shares.
    name : str
        How to call the value in an error.

    Returns
    -------
    float
        The number, in ``wanted``.

    Raises
    ------
    WrongUnit
        If a unit is not known or the dimensions differ.

    Examples
    --------
    >>> round(convert(1.0, "kWh", "MJ"), 6)
    3.6
    >>> convert(20.0, "%", "-")
    0.2
    """
    if given == wanted:
        return float(value)
    import pint

    try:
        result = _registry().Quantity(value, _parsed(given)).to(_parsed(wanted)).magnitude
    except (pint.PintError, AttributeError, TypeError, ValueError, AssertionError) as error:
        raise WrongUnit(name, f"{value:g} {given}", wanted) from error
    return float(result)


_NUMBER_AND_UNIT = re.compile(r"^\s*([-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(.*?)\s*$")


def parse_quantity(text: str, wanted: str, name: str = "the value") -> float:
    """Read a number with or without its unit, as a person writes it.

    Parameters
    ----------
    text : str
        For instance ``"20 %"``, ``"0.2"``, ``"19 MJ/kg"``, ``"7,5 kWh"``. A bare number is taken
        in the wanted unit.
    wanted : str
        The unit of the result.
    name : str
        How to call the value in an error.

    Returns
    -------
    float
        The number, in ``wanted``.

    Raises
    ------
    WrongUnit
        If the text is no number, its unit is not known, or its dimension is another.

    Examples
    --------
    >>> parse_quantity("20 %", "-")
    0.2
    """
    found = _NUMBER_AND_UNIT.match(text)
    if not found:
        raise WrongUnit(name, text, wanted)
    number = float(found[1].replace(",", "."))
    return convert(number, found[2], wanted, name) if found[2] else number
