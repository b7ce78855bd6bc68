"""The weather ahead: a forecast while it covers, then slowly back to what is usual here.

No forecast is the truth, and none reaches a week with much skill. So what lies ahead is told as a
central course with an error that grows with lead, and as a cold and a mild case to plan against.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from typing import Annotated, Any, Literal, TypeAlias

import numpy as np

from woodreeve.errors import OutOfRange, WrongKind
from woodreeve.units import Floats, Ge, Gt, Kelvin, Le, Unit
from woodreeve.weather.degree_days import Temperatures
from woodreeve.weather.series import SERIES_BOUNDS, Hourly
from woodreeve.weather.synthesis import normal_dice
from woodreeve.workings import worked

__all__ = [
    "Case",
    "Forecast",
    "Outlook",
    "faded_departure",
    "forecast_error",
    "forecast_from_truth",
    "usual_course",
    "weather_ahead",
    "weather_case",
    "weather_paths",
]

FADES_IN_DAYS = 3.0
"""After the last known hour a departure from the usual falls to 1/e in so many days. [day] (Derived from
the day-to-day correlation of 0.65 to 0.7 of weather files.)"""

ERROR_AT_ONCE_K = 0.8125
"""Error of a forecast of the present hour: the line through day 1 and day 5 carried back. [K]"""

ERROR_A_DAY_K = 0.4375
"""How much its error grows in a day: 1.25 K on day 1, 3 K on day 5 (from memory). [K]"""

TEN_IN_A_HUNDRED = 1.2815515655446004
"""So many standard deviations from the middle lies what is undercut once in ten times. [-]"""

DAY_CORRELATION = 0.67
"""Correlation of a forecast's error with its error a day on. [-] (Taken as that of the weather itself.)"""

Case: TypeAlias = Literal["cold", "central", "mild"]

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

    Over 31 days the swing of the year is flattened by 1.2 %, which is 0.1 K in January.

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
    return replace(usual, start=_whole_hour(first), source=f"usual: {usual.source}", **made)


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
    Without one the last outdoor reading is carried on in the same way; without that, only the usual is left.

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
    first = _whole_hour(moment)
    course = usual_course(usual, first, hours)
    lead = np.arange(hours) + 0.5
    climate = np.full(hours, climate_sd_k)
    if forecast is not None and (ahead := _from_forecast(usual, course, first, forecast)) is not None:
        filled, known = ahead
        age = forecast.age_h(moment)
        return Outlook(
            central=filled,
            error_k=forecast_error(np.clip(lead + age, 0.0, 1000.0), climate_sd_k),
            rests_on="forecast",
            source=forecast.source,
            age_h=age,
            covered_h=float(known),
            attribution=forecast.attribution,
        )
    if read_at is not None and read_c is not None and read_at <= moment:
        since = (first - read_at) / timedelta(hours=1)
        expected = usual_course(usual, _whole_hour(read_at), 1).temperature_c[0]
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
        central=course, error_k=climate, rests_on="usual", source=course.source, age_h=None, covered_h=0.0
    )


@worked
def weather_case(outlook: Outlook, case: Case) -> Hourly:
    r"""One of three courses to plan against: the central one, a cold and a mild one.

    Parameters
    ----------
    outlook : Outlook
        What lies ahead and how sure it is.
    case : str
        ``cold``, ``central`` or ``mild``.

    Returns
    -------
    Hourly
        The weather of that case; only its temperature differs.

    Raises
    ------
    UnknownName
        If there is no such case.

    Notes
    -----
    .. math:: T_\text{cold} = T - 1.28\,\sigma(l), \quad T_\text{mild} = T + 1.28\,\sigma(l)

    Each hour is colder than the cold case once in ten times. A whole week as cold as that is rarer, as
    errors do not all fall on one side: the cold case is on the careful side for a week's heat.

    References
    ----------
    .. [1] Quantiles of the normal distribution; see :func:`forecast_error`.
    """
    from woodreeve.errors import UnknownName

    signs = {"cold": -1.0, "central": 0.0, "mild": 1.0}
    if case not in signs:
        raise UnknownName("case of the weather", case, signs)
    shift = signs[case] * TEN_IN_A_HUNDRED * outlook.error_k
    return replace(outlook.central, temperature_c=np.clip(outlook.central.temperature_c + shift, -60.0, 60.0))


@worked
def weather_paths(
    outlook: Outlook,
    paths: Annotated[int, Unit("-"), Ge(1), Le(10000)],
    *,
    seed: Annotated[int, Unit("-"), Ge(0), Le(2**31)] = 0,
    day_correlation: Annotated[float, Unit("-"), Gt(0.0), Le(0.99)] = DAY_CORRELATION,
) -> Annotated[Floats, Unit("degC"), Ge(-60.0), Le(60.0)]:
    r"""Many courses of temperature that the weather may take, thrown with dice that fall alike each time.

    Parameters
    ----------
    outlook : Outlook
        What lies ahead and how sure it is.
    paths : int
        How many. [-] From 1 to 10000.
    seed : int
        Number of the throw; the same gives the same everywhere. [-]
    day_correlation : float
        Correlation of an error with the error a day on. [-] More than 0, up to 0.99.

    Returns
    -------
    Floats
        Temperatures, one row for each path. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T_i(l) = T(l) + \sigma(l)\, z_i(l), \quad \operatorname{corr}(z(l), z(l + 24)) = \varphi

    References
    ----------
    .. [1] First-order autoregressive noise of unit spread; own choice of its persistence.
    """
    hours = outlook.central.hours
    noise = np.stack([_noise(seed, 100 + row, hours, day_correlation) for row in range(paths)])
    return np.clip(outlook.central.temperature_c + outlook.error_k * noise, -60.0, 60.0)


def forecast_from_truth(
    truth: Hourly,
    moment: datetime,
    hours: int,
    *,
    seed: int = 0,
    issue: int = 0,
    steadiness: float = 0.7,
    climate_sd_k: float = 3.0,
) -> Forecast:
    """A forecast with a realistic error, made from weather that is known: for studies only.

    Parameters
    ----------
    truth : Hourly
        What will happen.
    moment : datetime
        When the forecast is made.
    hours : int
        How many hours it covers; fewer where the truth ends.
    seed : int
        Number of the throw of dice.
    issue : int
        Number of the forecast in its row: the part of the error that is new each time.
    steadiness : float
        Share of the error's variance that stays from issue to issue for one and the same hour
        (judgement: real forecasts come near the truth by steps, not by fresh dice).
    climate_sd_k : float
        Spread of daily means. [K]

    Returns
    -------
    Forecast
        The forecast; only its temperature is in error.

    Raises
    ------
    OutOfRange
        If the moment lies outside the truth.
    """
    first = _whole_hour(moment)
    at = round((first - truth.start) / timedelta(hours=1))
    if not 0 <= at < truth.hours:
        raise OutOfRange("moment", moment.isoformat(), "within the weather given")
    hours = min(hours, truth.hours - at)
    lasting = _noise(seed, 50, truth.hours, DAY_CORRELATION)[at : at + hours]
    fresh = _noise(seed, 1000 + issue, hours, DAY_CORRELATION)
    noise = np.sqrt(steadiness) * lasting + np.sqrt(1.0 - steadiness) * fresh
    error = forecast_error(np.arange(hours) + 0.5, climate_sd_k) * noise
    cut: dict[str, Any] = {
        name: values[at : at + hours]
        for name in SERIES_BOUNDS
        if (values := getattr(truth, name)) is not None
    }
    cut["temperature_c"] = np.clip(cut["temperature_c"] + error, -60.0, 60.0)
    hourly = replace(truth, start=first, source="made from known weather", **cut)
    return Forecast(source="made", fetched=moment, issued=moment, hourly=hourly, attribution="")


def _from_forecast(
    usual: Hourly, course: Hourly, first: datetime, forecast: Forecast
) -> tuple[Hourly, int] | None:
    """The course with the forecast laid over it, and how many hours of it are covered.

    ``None`` where the forecast begins later than now, or ended so long ago that nothing of it is left.
    """
    known = forecast.hourly
    offset = round((first - known.start) / timedelta(hours=1))
    if offset < 0 or offset - known.hours > 10 * 24 * FADES_IN_DAYS:
        return None
    covered = int(np.clip(known.hours - offset, 0, course.hours))
    last_day = min(24, known.hours)
    tail = usual_course(usual, known.start + timedelta(hours=known.hours - last_day), last_day)
    departure = float((known.temperature_c[-last_day:] - tail.temperature_c).mean())
    made: dict[str, Any] = {}
    for name in SERIES_BOUNDS:
        ahead, told = getattr(course, name), getattr(known, name)
        if ahead is None:
            continue
        values = np.array(ahead)
        if told is not None:
            values[:covered] = told[offset : offset + covered]
        made[name] = values
    since = np.arange(course.hours) + offset - known.hours + 0.5
    after = since > 0.0
    left = faded_departure(float(np.clip(departure, -60.0, 60.0)), np.clip(since[after], 0.0, 1000.0))
    made["temperature_c"][after] = np.clip(made["temperature_c"][after] + left, -60.0, 60.0)
    return replace(course, source=f"forecast {forecast.source}, then {course.source}", **made), covered


def _noise(seed: int, stream: int, hours: int, day_correlation: float) -> Floats:
    """Noise of unit spread whose values a day apart are correlated as told."""
    keep = day_correlation ** (1.0 / 24.0)
    fresh = float(np.sqrt(1.0 - keep**2))
    steps = normal_dice(seed, stream, hours).tolist()
    state = steps[0]
    series = [state]
    for step in steps[1:]:
        state = keep * state + fresh * step
        series.append(state)
    return np.array(series)


def _whole_hour(moment: datetime) -> datetime:
    if moment.tzinfo is None:
        raise WrongKind("moment", moment.isoformat(), "a moment with its offset from UTC")
    return moment.astimezone(UTC).replace(minute=0, second=0, microsecond=0)
