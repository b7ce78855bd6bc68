"""Which days of the calendar are usually cold enough for heating."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Annotated

from woodreeve.units import Ge, Le, Unit
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

__all__ = ["usually_cold_days"]

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
