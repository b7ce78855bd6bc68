"""The usual weather of a place as drying feels it, for as many years as a stack is followed."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from woodreeve.errors import Unknown
from woodreeve.weather.series import Hourly
from woodreeve.wood.seasoning_weather import DryingWeather, drying_weather
from woodreeve.workings import worked

__all__ = ["usual_drying_weather"]

LEAST_DAYS = 365
"""A usual year has so many days. [day]"""


@worked
def usual_drying_weather(year: Hourly, *, start: date, end: date) -> DryingWeather:
    r"""The usual year of a place, one after another, from a stack's first day to the end of the forecast.

    Nobody's stack dried in a usual year: the copies of a stack carry a noise for that, until measured days
    take its place.

    Parameters
    ----------
    year : Hourly
        A usual year, or a file of one; humidity is needed, rain is wished for.
    start : date
        First day wanted.
    end : date
        Last day wanted.

    Returns
    -------
    DryingWeather
        Typical days, none of them measured.

    Raises
    ------
    Unknown
        If the source is shorter than a year or tells no humidity.

    Notes
    -----
    Each day takes the day of the same date of the source, the 29th of February the 28th:
    :math:`x_d = x^{year}_{date(d)}`.

    References
    ----------
    .. [1] :func:`woodreeve.weather.typical.typical_year` or the owner's weather file.
    """
    typical = drying_weather(year, measured=False)
    if typical.days < LEAST_DAYS:
        raise Unknown(f"The weather tells {typical.days} days; to say how wood dries a whole year is needed.")
    place = {_of_year(typical.start + timedelta(days=k)): k for k in range(typical.days)}
    wanted = (end - start).days + 1
    at = np.array([place[_of_year(start + timedelta(days=k))] for k in range(wanted)])
    return DryingWeather(
        start=start,
        air_c=typical.air_c[at],
        relative_humidity=typical.relative_humidity[at],
        rain_mm_month=typical.rain_mm_month[at],
        rain_known=typical.rain_known,
        source=typical.source,
    )


def _of_year(day: date) -> tuple[int, int]:
    return day.month, min(day.day, 28) if day.month == 2 else day.day
