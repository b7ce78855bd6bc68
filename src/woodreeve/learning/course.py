"""The course of a stack as learned: moisture over time with its range, and each reading against it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, TypeAlias

import numpy as np
from numpy.typing import NDArray

from woodreeve.units import Floats, Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.seasoning_readings import StackReading

__all__ = ["AVERAGE_STACK", "LogRate", "RatePrior", "ReadingSeen", "StackCourse"]

LogRate: TypeAlias = Annotated[float, Unit("-"), Ge(-5.0), Le(5.0)]
"""How much faster a stack dries than the model says, as a natural logarithm; 0 is average."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RatePrior:
    """What is believed of a stack's log rate before its first reading."""

    mean: LogRate = 0.0
    sd: Annotated[float, Unit("-"), Gt(0.0), Le(2.0)] | None = None
    """``None`` takes the spread between the stacks of the drying trials."""
    stacks: int = 0
    """How many finished stacks stand behind it."""


AVERAGE_STACK = RatePrior()
"""What is believed where nobody has learned anything yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingSeen:
    """A reading held against what was expected of it."""

    reading: StackReading
    expected: Moisture
    expected_sd: Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
    sds_off: Annotated[float, Unit("-"), Ge(-100.0), Le(100.0)]
    """How many standard deviations, of reading and forecast together, it lies above what was expected."""
    odd: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StackCourse:
    """Moisture of a stack over time with its range, and when it comes to its targets.

    Parameters
    ----------
    name : str
        The stack.
    start : date
        Its first day.
    now : date
        The day the answer is for.
    shown_days : array
        Days from the start at which the course is given.
    low, median, high : array
        10, 50 and 90 % values of the moisture on those evenings. [-]
    moisture_now, low_now, high_now : Moisture
        The same on the evening of ``now``. [-]
    log_rate, log_rate_sd : float
        The stack's own log rate as learned. [-]
    log_rate_prior : float
        The same before any reading. [-]
    targets : tuple of float
        Moistures whose crossing was watched. [-]
    crossing_days : tuple of array
        For each target, in the order of ``targets``: for each copy the day from the start that begins two
        weeks at or below it, not before ``now``; -1 where it does not come within the weather given. [day]
    readings : tuple of ReadingSeen
        Each reading against what was expected.
    measured : bool
        Whether the present value rests on a recent reading that lies close to it.
    last_day : date
        The last day of the forecast.
    rain_known : bool
        Whether the rain was known.
    """

    name: str
    start: date
    now: date
    shown_days: NDArray[np.int64]
    low: Floats
    median: Floats
    high: Floats
    moisture_now: Moisture
    low_now: Moisture
    high_now: Moisture
    log_rate: LogRate
    log_rate_sd: Annotated[float, Unit("-"), Ge(0.0), Le(5.0)]
    log_rate_prior: LogRate
    targets: tuple[float, ...]
    crossing_days: tuple[NDArray[np.int64], ...]
    readings: tuple[ReadingSeen, ...]
    measured: bool
    last_day: date
    rain_known: bool

    @property
    def dates(self) -> list[date]:
        """The shown days as dates."""
        return [self.start + timedelta(days=int(day)) for day in self.shown_days]

    @property
    def odd_readings(self) -> tuple[ReadingSeen, ...]:
        """Readings that lie far from what was expected."""
        return tuple(seen for seen in self.readings if seen.odd)
