"""When a stack is ready: the day, its range, and how sure one may be by the start of the season."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Any, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from woodreeve.errors import OutOfRange
from woodreeve.units import Floats, Ge, Le, Moisture, Share, Unit
from woodreeve.workings import worked

__all__ = [
    "LEAST_SHOWN",
    "ReadyDate",
    "ShownMoisture",
    "chance_ready_by",
    "cover_by",
    "ready_date",
    "shown_moisture",
]

LEAST_SHOWN: Moisture = 0.18
"""Below this the model has not earned its figures: only a reading may say less. [-]"""

AUTUMN = (10, 15)
"""From this day on a stack out in the open gains water rather than loses it (north of the equator)."""

MAY_FAIL = 0.10
"""If more copies than this miss the autumn, the owner is told of next spring. [-]"""

CrossingDays: TypeAlias = Annotated[NDArray[Any], Unit("day"), Ge(-1.0), Le(20000.0)]
"""For each possible course of the stack, the day from its start on which it is ready; -1 for none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownMoisture:
    """A moisture as the owner is shown it: a figure, or "about 18 % or less"."""

    moisture: Moisture
    or_less: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyDate:
    """When a stack comes to its target.

    Parameters
    ----------
    target : Moisture
        The moisture wanted. [-]
    verdict : str
        ``ready`` (it is, in 9 cases of 10), ``likely_ready`` (in more than half), ``date`` (a day with its
        range), ``perhaps_spring`` (a day, but it may not be ready before next spring), ``next_spring``
        (more likely not before), ``not_in_sight`` (most courses do not come there within the forecast).
    low, median, high : date, optional
        Days by which 10, 50 and 90 % of the possible courses are ready; unknown beyond the forecast.
    promise : date, optional
        The day to tell a customer: the 90 % day.
    chance_now : Share
        Chance that it is ready today. [-]
    chance_before_autumn : Share
        Chance that it is ready before the next autumn's damp. [-]
    autumn : date
        That autumn.
    said_as_spring : tuple of str
        Which of the three days fall in winter, when wood hardly dries: they are to be said as "spring".
    """

    target: Moisture
    verdict: Literal["ready", "likely_ready", "date", "perhaps_spring", "next_spring", "not_in_sight"]
    low: date | None
    median: date | None
    high: date | None
    promise: date | None
    chance_now: Share
    chance_before_autumn: Share
    autumn: date
    said_as_spring: tuple[str, ...]


@worked
def shown_moisture(moisture: Moisture, *, measured: bool) -> ShownMoisture:
    r"""Say no more of a moisture than is known.

    Parameters
    ----------
    moisture : Moisture
        As forecast. [-] From 0 to 0.7.
    measured : bool
        Whether it rests on a recent reading.

    Returns
    -------
    ShownMoisture
        The figure; below 18 % and not measured, "about 18 % or less".

    Raises
    ------
    OutOfRange
        If the moisture lies outside the range given above.

    Notes
    -----
    .. math:: M_{shown} = \max(M, 0.18)\ \text{unless measured}

    References
    ----------
    .. [1] Rule of this project: left-out trials show that a single pace of drying is too quick there.

    Examples
    --------
    >>> shown_moisture(0.15, measured=False)
    ShownMoisture(moisture=0.18, or_less=True)
    """
    if measured or moisture >= LEAST_SHOWN:
        return ShownMoisture(moisture=moisture, or_less=False)
    return ShownMoisture(moisture=LEAST_SHOWN, or_less=True)


@worked
def chance_ready_by(crossing_days: CrossingDays, *, start: date, by: date) -> Share:
    r"""Chance that a stack is ready by a day.

    Parameters
    ----------
    crossing_days : CrossingDays
        Day of readiness of each possible course, -1 for none, one column. [day]
    start : date
        The day these are counted from.
    by : date
        The day wanted, for instance the start of the heating season.

    Returns
    -------
    Share
        Share of the possible courses that are ready. [-]

    Raises
    ------
    OutOfRange
        If there are no courses.

    Notes
    -----
    .. math:: P = \frac{1}{n} \sum_i [0 \le d_i \le d_{by}]

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> chance_ready_by(np.array([10, 20, -1, 40]), start=date(2026, 3, 1), by=date(2026, 3, 25))
    0.5
    """
    days = np.asarray(crossing_days)
    if days.size == 0:
        raise OutOfRange("crossing_days", "empty", "one day for each possible course", "day")
    return float(((days >= 0) & (days <= (by - start).days)).mean())


@worked
def ready_date(
    crossing_days: CrossingDays,
    *,
    start: date,
    now: date,
    target: Moisture,
    autumn: tuple[int, int] = AUTUMN,
) -> ReadyDate:
    r"""The day a stack is ready, with the range that holds in 8 cases of 10.

    Parameters
    ----------
    crossing_days : CrossingDays
        Day of readiness of each possible course, -1 for none, one column. [day]
    start : date
        The day these are counted from.
    now : date
        Today.
    target : Moisture
        The moisture these courses come to. [-] From 0 to 0.7.
    autumn : tuple of int
        Month and day on which drying ends for the year.

    Returns
    -------
    ReadyDate
        The days, the chances and the verdict.

    Raises
    ------
    OutOfRange
        If there are no courses, or the target lies outside the range given above.

    Notes
    -----
    .. math:: d_q = \min\{d : P(d_i \le d) \ge q\}, \quad q = 0.1,\ 0.5,\ 0.9

    A course is ready on the first of fourteen days on end at or below the target. Where more than one
    course in ten misses the autumn, the late end of the range jumps to the next spring: then the
    verdict says so rather than a day alone. For a promise take the 90 % day, not the median.

    References
    ----------
    .. [1] Definition; the rules for saying it are this project's own.

    Examples
    --------
    >>> days = np.arange(60, 101)
    >>> ready_date(days, start=date(2026, 3, 1), now=date(2026, 3, 10), target=0.2).median
    datetime.date(2026, 5, 20)
    """
    days = np.asarray(crossing_days)
    if days.size == 0:
        raise OutOfRange("crossing_days", "empty", "one day for each possible course", "day")
    end = _next(now, autumn)
    low, median, high = (_day(days, share, start) for share in (0.1, 0.5, 0.9))
    chance_now = chance_ready_by(days, start=start, by=now)
    before_autumn = chance_ready_by(days, start=start, by=end)
    named = {"low": low, "median": median, "high": high}
    return ReadyDate(
        target=target,
        verdict=_verdict(chance_now, before_autumn, median),
        low=low,
        median=median,
        high=high,
        promise=high,
        chance_now=chance_now,
        chance_before_autumn=before_autumn,
        autumn=end,
        said_as_spring=tuple(
            name for name, day in named.items() if day is not None and day > now and _in_winter(day, autumn)
        ),
    )


@worked
def cover_by(
    shown_days: Annotated[NDArray[Any], Unit("day"), Ge(0.0), Le(20000.0)],
    median: Annotated[Floats, Unit("-"), Ge(0.0), Le(0.7)],
    *,
    start: date,
    now: date,
) -> date | None:
    r"""The day by which an uncovered stack should be under cover: when it is at its driest of the year.

    After it, rain and damp air give back what summer took.

    Parameters
    ----------
    shown_days : array
        Days from the start at which the course is given. [day]
    median : Floats
        The stack's median moisture on those days if it stays uncovered. [-] From 0 to 0.7.
    start : date
        The day these are counted from.
    now : date
        Today.

    Returns
    -------
    date or None
        The day, today if its moisture already rises; unknown if the course ends before its turn.

    Raises
    ------
    OutOfRange
        If a moisture lies outside the range given above.

    Notes
    -----
    .. math:: d = \arg\min_{d \in \text{next 365 days}} M_{50}(d), \quad
       M_{50}(d + 30) > M_{50}(d)

    References
    ----------
    .. [1] Rule of this project; a cover keeps dry wood dry but does not hasten the drying of wet wood:
       Visser, Berkett, Spinelli 2014, NZ J. For. Sci. 44:3, abstract.
    """
    at = np.asarray(shown_days)
    first = (now - start).days
    window = np.nonzero((at >= first) & (at < first + 365))[0]
    for index in window:
        later = np.nonzero((at > at[index]) & (at <= at[index] + 30))[0]
        if (
            later.size
            and at[later[-1]] - at[index] >= 20
            and float(median[later].min()) > float(median[index])
        ):
            return start + timedelta(days=int(at[index]))
    return None


def _day(days: NDArray[Any], share: float, start: date) -> date | None:
    reached = np.where(days < 0, np.iinfo(np.int64).max, days)
    place = np.sort(reached)[int(np.ceil(share * days.size)) - 1]
    return None if place == np.iinfo(np.int64).max else start + timedelta(days=int(place))


def _next(now: date, autumn: tuple[int, int]) -> date:
    this_year = date(now.year, *autumn)
    return this_year if now < this_year else date(now.year + 1, *autumn)


def _verdict(
    chance_now: float, before_autumn: float, median: date | None
) -> Literal["ready", "likely_ready", "date", "perhaps_spring", "next_spring", "not_in_sight"]:
    if chance_now >= 1.0 - MAY_FAIL:
        return "ready"
    if chance_now >= 0.5:
        return "likely_ready"
    if median is None:
        return "not_in_sight"
    if before_autumn < 0.5:
        return "next_spring"
    return "date" if before_autumn >= 1.0 - MAY_FAIL else "perhaps_spring"


def _in_winter(day: date, autumn: tuple[int, int]) -> bool:
    """Whether a day falls in the five and a half months after the autumn."""
    since = (day - date(day.year, *autumn)).days % 365
    return 15 <= since < 165
