"""A stack of the yard at this moment: followed to today, foretold from there, and judged."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Annotated

from woodreeve.diary.folded import StackContents
from woodreeve.learning.course import RatePrior
from woodreeve.learning.outlook import StackOutlook
from woodreeve.learning.yard import StackAsFollowed
from woodreeve.units import Ge, Le, Unit
from woodreeve.wood.seasoning_readings import StackReading, moisture_sd
from woodreeve.workings import worked
from woodreeve.yard.ready import ReadyDate
from woodreeve.yard.sampling import range_after
from woodreeve.yard.stacks import MoistureNow

__all__ = [
    "BothWays",
    "FollowedStack",
    "RangeWith",
    "basis_doubt",
    "main_species",
    "moisture_as_reckoned",
    "range_by_pieces",
    "readings_as",
    "season_after",
]

SD_OF_HALF_RANGE = 1.2816
"""Half a range of 8 cases in 10, in standard deviations. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BothWays:
    """When a stack is ready if its meter shows a share of dry mass, and if of wet mass."""

    if_dry_basis: ReadyDate
    if_wet_basis: ReadyDate


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowedStack:
    """One stack of the yard, followed.

    Parameters
    ----------
    contents : StackContents
        As the diary tells it.
    followed : StackAsFollowed
        As the drying model takes it.
    prior : RatePrior
        What was believed of its pace beforehand.
    outlook : StackOutlook
        Course, ready date and doubts.
    now : MoistureNow
        Its moisture today, for the yard's sums.
    both_ways : BothWays, optional
        Where its meter's basis is not known.
    """

    contents: StackContents
    followed: StackAsFollowed
    prior: RatePrior
    outlook: StackOutlook
    now: MoistureNow
    both_ways: BothWays | None = None


@worked
def basis_doubt(readings: tuple[StackReading, ...]) -> Annotated[float, Unit("-"), Ge(0.0), Le(0.5)]:
    r"""How much wetter a stack may be than its middle reading says, because nobody knows the meter's basis.

    A limit for burning or selling takes the wetter way of reading a number: that is the safe side.

    Parameters
    ----------
    readings : tuple of StackReading
        The stack's readings, in the order of time.

    Returns
    -------
    float
        To be added to the moisture; 0 where the last value's basis is known. [-]

    Notes
    -----
    .. math:: d = M_{safe} - M

    of the last meter reading with a value.

    References
    ----------
    .. [1] Rule of this project; both ways of reading as in :func:`woodreeve.wood.moisture.meter_reading`.
    """
    for reading in reversed(readings):
        if reading.how == "meter" and reading.kind == "value":
            wetter = reading.safe_moisture if reading.safe_moisture is not None else reading.high
            if reading.basis == "not_known" and wetter is not None:
                return max(wetter - reading.moisture, 0.0)
            return 0.0
    return 0.0


@worked
def moisture_as_reckoned(
    outlook: StackOutlook, readings: tuple[StackReading, ...], *, measured_on: datetime | None = None
) -> MoistureNow:
    r"""Today's moisture of a followed stack, as the yard counts it.

    Parameters
    ----------
    outlook : StackOutlook
        The stack, followed to today.
    readings : tuple of StackReading
        What was found in it.
    measured_on : datetime, optional
        When it was last measured.

    Returns
    -------
    MoistureNow
        The middle, its range of 8 cases in 10, and whether it rests on a recent reading or is reckoned. [-]

    Notes
    -----
    .. math:: M = \max(M_{50}, 0.18) + d, \quad M_{10} \le M \le M_{90} + d

    The floor of 18 % falls where a recent reading stands close to the value; :math:`d` is that of
    :func:`basis_doubt`, for a meter whose basis nobody knows.

    References
    ----------
    .. [1] :func:`woodreeve.learning.stack.follow_stack`, :func:`woodreeve.yard.ready.shown_moisture`.
    """
    course = outlook.course
    doubt = basis_doubt(readings)
    moisture = min(outlook.shown.moisture + doubt, 0.7)
    return MoistureNow(
        moisture=moisture,
        low=min(course.low_now, moisture),
        high=min(max(course.high_now + doubt, moisture), 0.7),
        known_by="measured" if course.measured else "reckoned",
        measured_on=measured_on,
    )


PIECES = (0, 3, 5, 8, 12)
"""None, for how sure it is now; fewer than three say nothing, more than twelve is an oven's work. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeWith:
    """So many pieces split and read, and half the range of 8 cases in 10 that is left then."""

    pieces: int
    half: Annotated[float, Unit("-"), Ge(0.0), Le(0.5)]


@worked
def range_by_pieces(outlook: StackOutlook) -> tuple[RangeWith, ...]:
    r"""How far the range of a stack's moisture shrinks with the pieces that are split and read.

    Parameters
    ----------
    outlook : StackOutlook
        The stack as followed to today.

    Returns
    -------
    tuple of RangeWith
        Half the range now and after 3, 5, 8 and 12 pieces. [-]

    Notes
    -----
    .. math:: h = 1.2816 \left(\frac{1}{p^2} + \frac{1}{\sigma_n^2}\right)^{-1/2}, \quad
       p = \frac{M_{90} - M_{10}}{2 \cdot 1.2816}

    References
    ----------
    .. [1] :func:`woodreeve.yard.sampling.range_after` with the error of so many pieces,
       :func:`woodreeve.wood.seasoning_readings.moisture_sd`.
    """
    sd = (outlook.course.high_now - outlook.course.low_now) / 2.0 / SD_OF_HALF_RANGE
    forecast_sd = min(max(sd, 0.002), 0.3)
    return tuple(
        RangeWith(
            pieces=pieces,
            half=range_after(forecast_sd, moisture_sd(float(max(pieces, 1))), 1.0 if pieces else 0.0),
        )
        for pieces in PIECES
    )


def readings_as(readings: tuple[StackReading, ...], way: str) -> tuple[StackReading, ...]:
    """The readings with every unknown basis settled one way: ``"dry"`` or ``"wet"``.

    A number read as a share of dry mass is the drier of the two moistures.
    """
    settled = []
    for reading in readings:
        if reading.basis != "not_known" or reading.low is None or reading.high is None:
            settled.append(reading)
            continue
        apart = (reading.high - reading.low) / 2.0
        settled.append(
            replace(
                reading,
                moisture=reading.low if way == "dry" else reading.high,
                sd=math.sqrt(max(reading.sd**2 - apart**2, 0.005**2)),
            )
        )
    return tuple(settled)


def main_species(contents: StackContents) -> str:
    """The species that most of a stack is."""
    return max(contents.mix.items(), key=lambda part: part[1])[0] if contents.mix else "mixed_broadleaf"


def season_after(today: date, begins: tuple[int, int]) -> date:
    """The first start of a heating season after a day."""
    this_year = date(today.year, *begins)
    return this_year if this_year > today else this_year.replace(year=today.year + 1)
