"""What is usual on the days of the calendar: the course of the weather, and which days want heating."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Annotated, Any

import numpy as np

from woodreeve.errors import OutOfRange, WrongKind
from woodreeve.units import Ge, Le, Unit
from woodreeve.weather.series import SERIES_BOUNDS, Hourly
from woodreeve.workings import worked

__all__ = ["usual_course", "usually_cold_days", "whole_hour"]

USUAL_LIMIT_C = 15.0
"""Heating limit where the owner has named none: common practice, no published source. [degC]"""


@worked
def usually_cold_days(
    hourly: Hourly,
    first: date,
    last: date,
    limit_c: Annotated[float | None, Unit("degC"), Ge(-20.0), Le(30.0)] = None,
) -> frozenset[date]:
    r"""The days of a span on which a usual year wants heating.

    Parameters
    ----------
    hourly : Hourly
        A usual year, from the first of January.
    first, last : date
        The span, both days included.
    limit_c : float or None
        No heat on days milder than this; unknown: 15 °C. [degC] From -20 to 30.

    Returns
    -------
    frozenset of date
        Days on which the mean of that day of the usual year, its two neighbours on each side included, is
        below the limit.

    Raises
    ------
    OutOfRange
        If the limit lies outside its range.

    Notes
    -----
    .. math:: \tfrac15 \sum_{k=-2}^{2} \bar T_{d+k} < T_\text{limit}

    References
    ----------
    .. [1] Own rule; common practice, no published source.
    """
    limit = USUAL_LIMIT_C if limit_c is None else limit_c
    means = hourly.by_day("temperature_c").mean(axis=1)
    found = []
    day = first
    while day <= last:
        at = min(day.timetuple().tm_yday, means.size) - 1
        nearby = [(at + k) % means.size for k in (-2, -1, 0, 1, 2)]
        if float(means[nearby].mean()) < limit:
            found.append(day)
        day += timedelta(days=1)
    return frozenset(found)


@worked
def usual_course(
    usual: Hourly,
    first: datetime,
    hours: Annotated[int, Unit("h"), Ge(1), Le(2000)],
    *,
    window_days: Annotated[int, Unit("day"), Ge(1), Le(61)] = 31,
) -> Hourly:
    r"""What is usual at each hour of some coming days: no cold spell, no sunny week.

    A typical year has its own made-up cold spells. Planning must not wait for one of those on its date,
    so the days around each date are averaged, hour by hour of the clock.

    Parameters
    ----------
    usual : Hourly
        A year of usual weather, from the first of January.
    first : datetime
        Beginning of the first hour wanted.
    hours : int
        How many hours. [h] From 1 to 2000.
    window_days : int
        So many days round each date are averaged. [day] From 1 to 61.

    Returns
    -------
    Hourly
        The usual course. Rain is the mean: a little in every hour.

    Raises
    ------
    OutOfRange
        If a number lies outside its range, or the usual weather is shorter than a year.

    Notes
    -----
    .. math:: \bar x(d, h) = \frac{1}{n} \sum_{|k| \le n/2} x(d + k, h)

    Over 31 days the swing of the year is flattened by 1.2 %, which is 0.1 K in January. Of a file of one
    year alone some of that year's own weather stays in, about 1 K with a spread of daily means of 3 K.

    References
    ----------
    .. [1] Definition of a running mean; own choice of its length.
    """
    if usual.days < 365:
        raise OutOfRange("usual", f"{usual.days} days long", "a whole year")
    half = window_days // 2
    local = first.astimezone(UTC) + timedelta(hours=usual.utc_offset_h)
    at = np.arange(hours) + local.hour
    day = (local.timetuple().tm_yday - 1 + at // 24) % usual.days
    hour = at % 24
    made: dict[str, Any] = {}
    for name in SERIES_BOUNDS:
        if getattr(usual, name) is None:
            continue
        days = usual.by_day(name)
        wrapped = np.concatenate([days[-half:], days, days[:half]]) if half else days
        sums = np.concatenate([np.zeros((1, 24)), np.cumsum(wrapped, axis=0)])
        smooth = (sums[2 * half + 1 :] - sums[: -(2 * half + 1)]) / (2 * half + 1)
        made[name] = np.clip(smooth[day, hour], *SERIES_BOUNDS[name][1:])
    return replace(usual, start=whole_hour(first), source=f"usual: {usual.source}", **made)


def whole_hour(moment: datetime) -> datetime:
    """The beginning of the hour, in UTC, that a moment falls in.

    Raises
    ------
    WrongKind
        If the moment does not know its offset.
    """
    if moment.tzinfo is None:
        raise WrongKind("moment", moment.isoformat(), "a moment with its offset from UTC")
    return moment.astimezone(UTC).replace(minute=0, second=0, microsecond=0)
