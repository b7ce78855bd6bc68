"""The weather ahead: a forecast while it covers, then slowly back to what is usual here.

No forecast is the truth, and none reaches a week with much skill. So what lies ahead is told as a
central course with an error that grows with lead; :mod:`woodreeve.weather.cases` makes of it a cold and
a mild case to plan against.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Annotated, Any, Literal

import numpy as np

from woodreeve.errors import WrongKind
from woodreeve.units import Floats, Ge, Gt, Le, Unit
from woodreeve.weather.series import SERIES_BOUNDS, Hourly
from woodreeve.weather.usual import usual_course, whole_hour
from woodreeve.workings import worked

__all__ = [
    "Forecast",
    "Outlook",
    "faded_departure",
    "forecast_error",
    "weather_ahead",
]

FADES_IN_DAYS = 3.0
"""After the last known hour a departure from the usual falls to 1/e in so many days. [day] (Derived from
the day-to-day correlation of 0.65 to 0.7 of weather files.)"""

ERROR_AT_ONCE_K = 0.8125
"""Error of a forecast of the present hour: the line through day 1 and day 5 carried back. [K]"""

ERROR_A_DAY_K = 0.4375
"""How much its error grows in a day: 1.25 K on day 1, 3 K on day 5 (from memory). [K]"""

DAY_CORRELATION = 0.67
"""Correlation of a forecast's error with its error a day on. [-] (Taken as that of the weather itself.)"""

Leads = Annotated[Floats, Unit("h"), Ge(0.0), Le(1000.0)]
Errors = Annotated[Floats, Unit("K"), Ge(0.0), Le(20.0)]
ClimateSpread = Annotated[float, Unit("K"), Gt(0.0), Le(12.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """What a service foretold for one place.

    Parameters
    ----------
    source : str
        Which service: ``met_norway``, ``open_meteo``.
    fetched : datetime
        When it was asked.
    issued : datetime, optional
        When the service made it, if it says so.
    hourly : Hourly
        The hours it covers, without a gap.
    attribution : str
        Whom to thank, to be shown beside it.
    """

    source: str
    fetched: datetime
    issued: datetime | None
    hourly: Hourly
    attribution: str

    @property
    def ends(self) -> datetime:
        """The end of its last hour."""
        return self.hourly.start + timedelta(hours=self.hourly.hours)

    def age_h(self, moment: datetime) -> float:
        """How old it is at a moment, since it was made, or else since it was fetched. [h]."""
        return (moment - (self.issued or self.fetched)) / timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """The weather of the hours ahead, how sure it is, and what it rests on.

    Parameters
    ----------
    central : Hourly
        The course to expect.
    error_k : array
        Standard deviation of its temperature. [K]
    rests_on : str
        ``forecast``, ``reading`` (the last outdoor temperature) or ``usual`` (only what is usual here).
    source : str
        The service or the file behind it.
    age_h : float, optional
        How old the forecast or the reading is. [h]
    covered_h : float
        So many hours from now on stand in the forecast; after them it fades into the usual. [h]
    attribution : str
        Whom to thank, to be shown beside it.
    """

    central: Hourly
    error_k: Floats
    rests_on: Literal["forecast", "reading", "usual"]
    source: str
    age_h: float | None
    covered_h: float
    attribution: str = ""


@worked
def forecast_error(lead_h: Leads, climate_sd_k: ClimateSpread = 3.0) -> Errors:
    r"""How far a forecast temperature may be off, by how far it looks ahead.

    Parameters
    ----------
    lead_h : Floats
        Hours from the making of the forecast to the hour it speaks of, :math:`l`. [h] From 0 to 1000.
    climate_sd_k : float
        How much daily means spread at this time of year: no forecast is worse than knowing nothing. [K]
        More than 0, up to 12.

    Returns
    -------
    Floats
        Standard deviation of the error. [K]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \sigma = \min\left(0.81 + 0.44\, l / 24,\; \sigma_\text{climate}\right)

    A line through 1.25 K on the first day and 3 K on the fifth.

    References
    ----------
    .. [1] Usual verification figures of weather services, 1 to 1.5 K on day 1, about 3 K on day 5 (from
       memory); to be replaced by the errors seen at the place once enough forecasts are stored.

    Examples
    --------
    >>> forecast_error(np.array([24.0, 120.0, 500.0]), 4.0).round(2).tolist()
    [1.25, 3.0, 4.0]
    """
    line = ERROR_AT_ONCE_K + ERROR_A_DAY_K * np.asarray(lead_h, dtype=float) / 24.0
    return np.minimum(line, climate_sd_k)


@worked
def faded_departure(
    departure_k: Annotated[float, Unit("K"), Ge(-60.0), Le(60.0)],
    lead_h: Leads,
    *,
    fades_in_days: Annotated[float, Unit("day"), Gt(0.0), Le(30.0)] = FADES_IN_DAYS,
) -> Annotated[Floats, Unit("K"), Ge(-60.0), Le(60.0)]:
    r"""How much of a departure from the usual is still to be expected later.

    It is colder than usual now; tomorrow it will most likely still be so, in ten days nobody knows.

    Parameters
    ----------
    departure_k : float
        Temperature now less what is usual. [K] From -60 to 60.
    lead_h : Floats
        Hours since. [h] From 0 to 1000.
    fades_in_days : float
        Time in which it falls to 1/e. [day] More than 0, up to 30.

    Returns
    -------
    Floats
        What is left of it. [K]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \Delta(l) = \Delta_0 \, e^{-l / \tau}

    With a correlation :math:`\varphi` from day to day, :math:`\tau = -1 / \ln \varphi` days: 2.5 days at
    0.67, 3 days at 0.717.

    References
    ----------
    .. [1] Derived from the persistence of a first-order autoregressive course.

    Examples
    --------
    >>> faded_departure(-6.0, np.array([0.0, 72.0])).round(2).tolist()
    [-6.0, -2.21]
    """
    return np.asarray(departure_k * np.exp(-np.asarray(lead_h, dtype=float) / (24.0 * fades_in_days)))


@worked
def weather_ahead(
    usual: Hourly,
    moment: datetime,
    hours: Annotated[int, Unit("h"), Ge(1), Le(720)],
    *,
    forecast: Forecast | None = None,
    read_at: datetime | None = None,
    read_c: Annotated[float | None, Unit("degC"), Ge(-60.0), Le(60.0)] = None,
    climate_sd_k: ClimateSpread = 3.0,
    persistence: Annotated[float, Unit("-"), Gt(0.0), Le(0.95)] = DAY_CORRELATION,
) -> Outlook:
    r"""The weather of the hours ahead, from the best that is known.

    While a forecast covers an hour it is taken; after its last hour the departure from the usual fades.
    Without a forecast of the present the last outdoor reading is carried on in the same way; without
    that, only the usual is left.

    Parameters
    ----------
    usual : Hourly
        A year of usual weather.
    moment : datetime
        Now.
    hours : int
        How many hours ahead. [h] From 1 to 720.
    forecast : Forecast, optional
        The newest one there is, however old.
    read_at : datetime, optional
        When the outdoor temperature was last read.
    read_c : float, optional
        That temperature. [degC] From -60 to 60.
    climate_sd_k : float
        How much daily means spread at this time of year. [K] More than 0, up to 12.
    persistence : float
        Correlation of a day's departure with the next day's, for a reading carried on. [-]
        More than 0, up to 0.95.

    Returns
    -------
    Outlook
        Central course, error by hour, what it rests on and how old that is.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.
    WrongKind
        If a moment does not know its offset.

    Notes
    -----
    .. math:: T(l) = \bar T(l) + \left(T_F - \bar T\right)_\text{last} e^{-(l - l_\text{last}) / 3 d}

    .. math:: T(l) = \bar T(l) + \left(T_0 - \bar T_0\right) \varphi^{\,l / 1 d}

    The second without a forecast. The departure at the end is that of the forecast's last 24 hours, so
    that one odd hour does not colour a week. Wind, rain, damp and sun after the last hour are the usual
    ones. The error of a reading carried on is :math:`\sigma \sqrt{1 - \varphi^{2 l}}`.

    References
    ----------
    .. [1] Own rule; see :func:`faded_departure` and :func:`forecast_error`.
    """
    for name, given in (("moment", moment), ("read_at", read_at)):
        if given is not None and given.tzinfo is None:
            raise WrongKind(name, given.isoformat(), "a moment with its offset from UTC")
    first = whole_hour(moment)
    course = usual_course(usual, first, hours)
    lead = np.arange(hours) + 0.5
    has_reading = read_at is not None and read_c is not None and read_at <= moment
    if forecast is not None and (forecast.ends > first or not has_reading):
        ahead = _from_forecast(usual, course, moment, forecast, climate_sd_k)
        if ahead is not None:
            return ahead
    if has_reading:
        assert read_at is not None
        assert read_c is not None
        since = (first - read_at) / timedelta(hours=1)
        expected = usual_course(usual, whole_hour(read_at), 1).temperature_c[0]
        days = np.maximum(lead + since, 0.0) / 24.0
        rest = np.minimum(days * 24.0, 1000.0)
        left = faded_departure(
            float(np.clip(read_c - expected, -60.0, 60.0)), rest, fades_in_days=-1.0 / np.log(persistence)
        )
        return Outlook(
            central=replace(course, temperature_c=np.clip(course.temperature_c + left, -60.0, 60.0)),
            error_k=climate_sd_k * np.sqrt(1.0 - persistence ** (2.0 * days)),
            rests_on="reading",
            source=course.source,
            age_h=(moment - read_at) / timedelta(hours=1),
            covered_h=0.0,
        )
    return Outlook(
        central=course,
        error_k=np.full(hours, climate_sd_k),
        rests_on="usual",
        source=course.source,
        age_h=None,
        covered_h=0.0,
    )


def _from_forecast(
    usual: Hourly, course: Hourly, moment: datetime, forecast: Forecast, climate_sd_k: float
) -> Outlook | None:
    """The forecast laid over the usual course and faded out after its end; ``None`` if it begins later."""
    known = forecast.hourly
    offset = round((course.start - known.start) / timedelta(hours=1))
    if offset < 0:
        return None
    covered = int(np.clip(known.hours - offset, 0, course.hours))
    made: dict[str, Any] = {}
    for name in SERIES_BOUNDS:
        ahead, told = getattr(course, name), getattr(known, name)
        if ahead is None:
            continue
        values = np.array(ahead)
        if told is not None:
            values[:covered] = told[offset : offset + covered]
        made[name] = values
    last_day = min(24, known.hours)
    tail = usual_course(usual, known.start + timedelta(hours=known.hours - last_day), last_day)
    departure = float(np.clip((known.temperature_c[-last_day:] - tail.temperature_c).mean(), -60.0, 60.0))
    since = np.arange(covered, course.hours) + offset - known.hours + 0.5
    left = faded_departure(departure, np.clip(since, 0.0, 1000.0))
    made["temperature_c"][covered:] = np.clip(made["temperature_c"][covered:] + left, -60.0, 60.0)
    age = forecast.age_h(moment)
    lead = np.arange(course.hours) + 0.5 + age
    return Outlook(
        central=replace(course, source=f"forecast {forecast.source}, then {course.source}", **made),
        error_k=forecast_error(np.clip(lead, 0.0, 1000.0), climate_sd_k),
        rests_on="forecast",
        source=forecast.source,
        age_h=age,
        covered_h=float(covered),
        attribution=forecast.attribution,
    )
