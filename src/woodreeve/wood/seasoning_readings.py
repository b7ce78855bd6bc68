"""What a moisture reading says of the whole stack, and how far it may be off."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal, TypeAlias

import numpy as np

from woodreeve.errors import OutOfRange, Refused
from woodreeve.units import Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.moisture import METER_HIGHEST, MeterBasis, MeterReading, meter_reading, to_wet_basis
from woodreeve.workings import worked

__all__ = [
    "FROZEN_BELOW_C",
    "ONE_SPOT_SD",
    "PIECE_SPREAD",
    "MeterValues",
    "ReadingKind",
    "StackReading",
    "moisture_sd",
    "read_meter",
]

ReadingKind = Literal["value", "above", "below"]
"""A number, "wetter than this", "drier than this"."""

FROZEN_BELOW_C = 0.0
"""Ice does not conduct like water: a meter in frozen wood shows nothing that can be used. [degC]"""

PIECE_SPREAD = 0.04
"""How far single pieces of one stack lie apart, one standard deviation, where their own values do not tell.

Assumed, in view of the 5 to 15, 9 to 20 and 11 to 21 % (dry basis) that a home survey of about 90
splits found at the top, middle and bottom of a stack. [-]"""

METER_SD = 0.015
"""A pin meter's own error, common to all its values of a day, on the wet basis; assumed. [-]"""
METER_SD_CHECKED = 0.010
"""The same after a check against oven-dried wood; assumed. [-]"""
METER_SD_WET = 0.035
"""The same between 25 and 30 % of dry mass, near the end of its range; assumed. [-]"""
SETTING_SD = 0.010
"""Added where the species setting is not known to fit; assumed, from the ±1 point of a fitting curve. [-]"""
ONE_SPOT_SD = 0.030
"""Added where all pieces came from one spot; assumed, from the 5 points between top and bottom. [-]"""

Sd: TypeAlias = Annotated[float, Unit("-"), Gt(0.0), Le(0.3)]
_Shown: TypeAlias = Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]
_Air: TypeAlias = Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class StackReading:
    """One finding on the mean moisture of a stack.

    Parameters
    ----------
    taken : date
        The day.
    kind : str
        Whether ``moisture`` is a value or a bound.
    moisture : Moisture
        The stack's mean as read, over wet mass. [-]
    sd : float
        How far it may be off, one standard deviation. [-]
    how : str
        Meter, oven or marker piece.
    safe_moisture : Moisture, optional
        The number to hold against a limit for selling or burning: the wetter way of reading it;
        unknown where the meter cannot say. [-]
    low, high : Moisture, optional
        Both ways of reading a meter whose basis is not known. [-]
    surface_may_be_wet : bool
        Whether rain had reached the wood in the days before.
    notes : tuple of str
        Remarks for the owner.
    """

    taken: date
    kind: ReadingKind
    moisture: Moisture
    sd: Sd
    how: Literal["meter", "oven", "marker"]
    safe_moisture: Moisture | None = None
    low: Moisture | None = None
    high: Moisture | None = None
    basis: MeterBasis = "wet"
    surface_may_be_wet: bool = False
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterValues:
    """What was done with a meter at one stack on one day.

    Parameters
    ----------
    taken : date
        The day.
    shown : tuple of float
        The numbers as the meter showed them, as shares of what its basis says. [-]
    pieces : int, optional
        How many pieces they came from; unknown counts each value as a piece.
    one_spot : bool
        Whether all pieces came from one place of the stack.
    fresh_face : bool
        Whether the pieces were split for it and read inside.
    wood_c : float, optional
        Temperature of the wood, if taken. [degC]
    surface_may_be_wet : bool
        Whether rain had reached the wood in the days before.
    """

    taken: date
    shown: tuple[_Shown, ...]
    pieces: int | None = None
    one_spot: bool = False
    fresh_face: bool = True
    wood_c: _Air | None = None
    surface_may_be_wet: bool = False


@worked
def moisture_sd(
    pieces: Annotated[float, Unit("-"), Ge(1.0), Le(1000.0)],
    *,
    piece_spread: Annotated[float, Unit("-"), Ge(0.0), Le(0.3)] = PIECE_SPREAD,
    meter_sd: Annotated[float, Unit("-"), Ge(0.0), Le(0.2)] = METER_SD,
    one_spot: bool = False,
) -> Sd:
    r"""How far the mean of a few pieces may lie off the mean of the stack.

    More pieces help until the meter's own error is left; pieces from one spot never tell of the rest.

    Parameters
    ----------
    pieces : float
        How many pieces were split and read, :math:`n`. [-] From 1 to 1000.
    piece_spread : float
        How far single pieces lie apart, :math:`s`. [-] From 0 to 0.3.
    meter_sd : float
        The meter's own error, the same in every value, :math:`e`. [-] From 0 to 0.2.
    one_spot : bool
        Whether all pieces came from one place of the stack.

    Returns
    -------
    Sd
        One standard deviation of the stack's mean, at least 0.005. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: \sigma = \sqrt{e^2 + s^2 / n + o^2}

    :math:`o` is 0.03 for one spot, else 0. The sizes are assumed; a record of the owner's own checks
    in the oven replaces :math:`e`.

    References
    ----------
    .. [1] Error of a mean; sizes assumed so that four pieces give the 2.5 points commonly taken for a
       well-sampled stack (common practice, no published source).

    Examples
    --------
    >>> round(moisture_sd(4.0), 3)
    0.025
    """
    spot = ONE_SPOT_SD if one_spot else 0.0
    return max(math.sqrt(meter_sd**2 + piece_spread**2 / pieces + spot**2), 0.005)


@worked
def read_meter(
    values: MeterValues,
    *,
    basis: MeterBasis = "not_known",
    temperature_corrected: Literal["yes", "no"] | None = None,
    past_day_air_c: _Air | None = None,
    oven_checked: bool = False,
    oven_offset: Annotated[float, Unit("-"), Ge(-0.2), Le(0.2)] = 0.0,
    setting_fits: bool = True,
) -> StackReading:
    r"""The stack's mean moisture from a meter's values, with its true error.

    Parameters
    ----------
    values : MeterValues
        What was read.
    basis : {"dry", "wet", "not_known"}
        What the meter's number is a share of.
    temperature_corrected : {"yes", "no"}, optional
        Whether the meter corrects for the wood's temperature by itself.
    past_day_air_c : float, optional
        Mean air temperature of the past day, for wood whose own was not taken. [degC] From -60 to 60.
    oven_checked : bool
        Whether the meter was held against oven-dried wood.
    oven_offset : float
        By how much it read too high then, on its own basis. [-] From -0.2 to 0.2.
    setting_fits : bool
        Whether its species setting suits this wood.

    Returns
    -------
    StackReading
        A value, or "above 23 %" where the meter cannot know more.

    Raises
    ------
    Refused
        If the wood was frozen: ice does not conduct, and the number means nothing.
    OutOfRange
        If there are no values, or a number lies outside the range given above.

    Notes
    -----
    Each value is turned into wet basis by :func:`woodreeve.wood.moisture.meter_reading`. If more than a
    third of them lie beyond 30 % of dry mass, the finding is "above 23 %". Fewer are counted as 25 % and
    the spread of the mean is widened. A basis that is not known gives the middle of both ways of reading,
    their distance as a further error, and the wetter one as ``safe_moisture``.

    .. math:: M = \frac{1}{n} \sum_i M_i, \quad
       \sigma^2 = \sigma_{n}^2 + \left(\frac{M_{wet} - M_{dry}}{2}\right)^2

    References
    ----------
    .. [1] :func:`woodreeve.wood.moisture.meter_reading` for the conversion and the meter's range.
    .. [2] :func:`moisture_sd` for the error, assumed.
    """
    if not values.shown:
        raise OutOfRange("values", "no reading", "at least one reading")
    wood_c = past_day_air_c if values.wood_c is None else values.wood_c
    if wood_c is not None and wood_c <= FROZEN_BELOW_C:
        raise Refused(
            f"The wood was at {wood_c:g} °C: frozen wood cannot be read with a meter. "
            "Take a piece indoors, let it thaw for a day, split it and read the fresh face."
        )
    notes = []
    assumed_c = 20.0 if temperature_corrected == "yes" or wood_c is None else max(-30.0, min(wood_c, 60.0))
    if wood_c is None and temperature_corrected != "yes":
        notes.append("The wood's temperature is not known: 20 °C was taken; cold wood reads too dry.")
    each = [
        meter_reading(min(max(shown - oven_offset, 0.0), 1.0), basis, assumed_c) for shown in values.shown
    ]
    beyond = sum(reading.verdict == "above_range" for reading in each)
    pieces = float(values.pieces or len(values.shown))
    if beyond * 3 > len(each):
        return _above(values, basis, each, notes)
    middle = [_middle(reading) for reading in each]
    mean = float(np.mean(middle))
    meter = METER_SD_WET if mean > to_wet_basis(0.25) else METER_SD_CHECKED if oven_checked else METER_SD
    spread = float(np.std(middle, ddof=1)) if len(middle) >= 4 else PIECE_SPREAD
    sd = moisture_sd(
        pieces, piece_spread=min(max(spread, 0.015), 0.3), meter_sd=meter, one_spot=values.one_spot
    )
    low, high = _both_ways(each) if basis == "not_known" else (None, None)
    more = [
        0.0 if setting_fits else SETTING_SD,
        0.0 if low is None or high is None else (high - low) / 2.0,
        0.02 if beyond else 0.0,
        0.0 if values.fresh_face else 0.03,
    ]
    if not values.fresh_face:
        notes.append("Read on an old face: the outside is drier, or wet from rain. Split pieces for it.")
    safe = [reading.safe_moisture for reading in each if reading.safe_moisture is not None]
    return StackReading(
        taken=values.taken,
        kind="value",
        moisture=mean,
        sd=math.sqrt(sd**2 + sum(part**2 for part in more)),
        how="meter",
        safe_moisture=float(np.mean(safe)) if len(safe) == len(each) else None,
        low=low,
        high=high,
        basis=basis,
        surface_may_be_wet=values.surface_may_be_wet,
        notes=(*notes, *dict.fromkeys(note for reading in each for note in reading.notes)),
    )


def _above(
    values: MeterValues, basis: MeterBasis, each: Sequence[MeterReading], notes: Sequence[str]
) -> StackReading:
    return StackReading(
        taken=values.taken,
        kind="above",
        moisture=to_wet_basis(METER_HIGHEST),
        sd=METER_SD_WET,
        how="meter",
        basis=basis,
        surface_may_be_wet=values.surface_may_be_wet,
        notes=(*notes, *dict.fromkeys(note for reading in each for note in reading.notes)),
    )


def _middle(reading: MeterReading) -> float:
    """The middle of the ways of reading a number; beyond the meter's range, a little more than its end."""
    ways = [way for way in (reading.if_dry_basis, reading.if_wet_basis) if way is not None]
    if reading.verdict == "above_range":
        return 0.25
    return sum(ways) / len(ways)


def _both_ways(each: Sequence[MeterReading]) -> tuple[float, float]:
    dry = [0.25 if reading.if_dry_basis is None else reading.if_dry_basis for reading in each]
    wet = [0.25 if reading.if_wet_basis is None else reading.if_wet_basis for reading in each]
    first, second = float(np.mean(dry)), float(np.mean(wet))
    return min(first, second), max(first, second)
