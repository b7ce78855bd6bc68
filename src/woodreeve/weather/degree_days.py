"""Degree days: how much colder than the house needs it was, and for how long.

Several rules are in use and they differ; each has its name here. Where hours are known, use
:func:`degree_days_hourly` with the base temperature of the house.
"""

from __future__ import annotations

from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from woodreeve.errors import OutOfRange
from woodreeve.units import DegreeDays, Floats, Ge, Le, Unit
from woodreeve.workings import worked

__all__ = [
    "AirTemperature",
    "BaseTemperature",
    "Temperatures",
    "degree_days_alpine",
    "degree_days_daily_mean",
    "degree_days_eurostat",
    "degree_days_german",
    "degree_days_hourly",
    "degree_days_max_min",
    "sum_of_months",
    "weather_corrected_heat",
]

AirTemperature = Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)]
"""Outdoor air temperature."""
BaseTemperature = Annotated[float, Unit("degC"), Ge(0.0), Le(30.0)]
"""Outdoor temperature below which the house wants heat."""
Temperatures = Annotated[Floats, Unit("degC"), Ge(-60.0), Le(60.0)]
"""Outdoor air temperatures, one for each hour or day."""


def _same_length(name: str, values: Floats, other: Floats) -> None:
    if np.shape(values) != np.shape(other):
        raise OutOfRange(name, f"{np.size(values)} values long", f"{np.size(other)} values long")


@worked
def degree_days_hourly(temperature_c: Temperatures, base_c: BaseTemperature) -> DegreeDays:
    r"""Degree days added up hour by hour.

    The truest of the rules: it also counts the cold hours of a day whose mean is mild.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour, :math:`T_h`. [degC] From -60 to 60.
    base_c : BaseTemperature
        Base temperature, :math:`T_b`. [degC] From 0 to 30.

    Returns
    -------
    DegreeDays
        Degree days of the span. [K*day]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: D = \frac{1}{24} \sum_h \max(0, T_b - T_h)

    On the same weather it exceeds the daily-mean rule by 20 to 140 K·day a year at 15.5 °C, most
    where days swing far.

    References
    ----------
    .. [1] "How degree days are computed", http://vesma.com/ddd/ddcalcs.htm (continuous integration).

    Examples
    --------
    >>> degree_days_hourly(np.full(48, 7.5), 15.5)
    16.0
    """
    return float(np.maximum(0.0, base_c - np.asarray(temperature_c)).sum() / 24.0)


@worked
def degree_days_daily_mean(daily_mean_c: Temperatures, base_c: BaseTemperature) -> DegreeDays:
    r"""Degree days from the mean temperatures of days.

    Parameters
    ----------
    daily_mean_c : Temperatures
        Mean temperature of each day, :math:`T_d`. [degC] From -60 to 60.
    base_c : BaseTemperature
        Base temperature, :math:`T_b`. [degC] From 0 to 30.

    Returns
    -------
    DegreeDays
        Degree days of the span. [K*day]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: D = \sum_d \max(0, T_b - T_d)

    References
    ----------
    .. [1] Statistics Netherlands, "Heating degree days",
       https://www.cbs.nl/en-gb/news/2015/36/greenhouse-gas-emissions-down-in-a-warm-2014/heating-degree-days

    Examples
    --------
    >>> degree_days_daily_mean(np.array([-4.0, 20.0]), 18.0)
    22.0
    """
    return float(np.maximum(0.0, base_c - np.asarray(daily_mean_c)).sum())


@worked
def degree_days_max_min(
    daily_max_c: Temperatures, daily_min_c: Temperatures, base_c: BaseTemperature = 15.5
) -> DegreeDays:
    r"""Degree days from each day's highest and lowest temperature, as published for Britain.

    Use it to compare with British tables and meters; the usual base there is 15.5 °C.

    Parameters
    ----------
    daily_max_c : Temperatures
        Highest temperature of each day, :math:`T_x`. [degC] From -60 to 60.
    daily_min_c : Temperatures
        Lowest temperature of each day, :math:`T_n`. [degC] From -60 to 60.
    base_c : BaseTemperature
        Base temperature, :math:`T_b`. [degC] From 0 to 30.

    Returns
    -------
    DegreeDays
        Degree days of the span. [K*day]

    Raises
    ------
    OutOfRange
        If a value lies outside its range, a day's highest is below its lowest, or the two
        series differ in length.

    Notes
    -----
    .. math::

        D = \begin{cases}
        0 & T_n > T_b \\
        (T_b - T_n)/4 & (T_x + T_n)/2 > T_b \\
        (T_b - T_n)/2 - (T_x - T_b)/4 & T_x \ge T_b \\
        T_b - (T_x + T_n)/2 & \text{else}
        \end{cases}

    References
    ----------
    .. [1] "How degree days are computed", http://vesma.com/ddd/ddcalcs.htm (the four conditions of
       the UK Meteorological Office).

    Examples
    --------
    >>> degree_days_max_min(np.array([17.0]), np.array([6.0]), 15.5)
    4.375
    """
    highest, lowest = np.asarray(daily_max_c, dtype=float), np.asarray(daily_min_c, dtype=float)
    _same_length("daily_max_c", highest, lowest)
    if (highest < lowest).any():
        raise OutOfRange("daily_max_c", "below daily_min_c on some day", "at least the day's lowest", "degC")
    middle = (highest + lowest) / 2.0
    cases = [lowest > base_c, middle > base_c, highest >= base_c]
    values = [0.0 * middle, (base_c - lowest) / 4.0, (base_c - lowest) / 2.0 - (highest - base_c) / 4.0]
    return float(np.select(cases, values, default=base_c - middle).sum())


def _below_limit(daily_mean_c: Floats, room_c: float, counted: NDArray[np.bool_]) -> float:
    return float(np.where(counted, room_c - np.asarray(daily_mean_c), 0.0).sum())


@worked
def degree_days_german(daily_mean_c: Temperatures) -> DegreeDays:
    r"""German degree-day number G20/15: 20 °C less the day's mean, on days colder than 15 °C.

    Parameters
    ----------
    daily_mean_c : Temperatures
        Mean temperature of each day, :math:`T_d`. [degC] From -60 to 60.

    Returns
    -------
    DegreeDays
        Degree days of the span. [K*day]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: G = \sum_{T_d < 15} (20 - T_d)

    References
    ----------
    .. [1] VDI 3807 and VDI 4710, Gradtagzahl (from memory).

    Examples
    --------
    >>> degree_days_german(np.array([10.0, 15.0]))
    10.0
    """
    return _below_limit(daily_mean_c, 20.0, np.asarray(daily_mean_c) < 15.0)


@worked
def degree_days_alpine(daily_mean_c: Temperatures) -> DegreeDays:
    r"""Swiss and Austrian heating degree days 20/12: 20 °C less the day's mean, up to 12 °C.

    Parameters
    ----------
    daily_mean_c : Temperatures
        Mean temperature of each day, :math:`T_d`. [degC] From -60 to 60.

    Returns
    -------
    DegreeDays
        Degree days of the span. [K*day]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: D = \sum_{T_d \le 12} (20 - T_d)

    References
    ----------
    .. [1] SIA 381/3 and OENORM B 8110-5, HGT 20/12 (from memory).

    Examples
    --------
    >>> degree_days_alpine(np.array([12.0, 13.0]))
    8.0
    """
    return _below_limit(daily_mean_c, 20.0, np.asarray(daily_mean_c) <= 12.0)


@worked
def degree_days_eurostat(daily_mean_c: Temperatures) -> DegreeDays:
    r"""Heating degree days of the European statistics: 18 °C less the day's mean, up to 15 °C.

    Parameters
    ----------
    daily_mean_c : Temperatures
        Mean temperature of each day, :math:`T_d`. [degC] From -60 to 60.

    Returns
    -------
    DegreeDays
        Degree days of the span. [K*day]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: D = \sum_{T_d \le 15} (18 - T_d)

    References
    ----------
    .. [1] Eurostat, "Energy statistics: cooling and heating degree days", metadata nrg_chdd
       (formula from memory).

    Examples
    --------
    >>> degree_days_eurostat(np.array([15.0, 16.0]))
    3.0
    """
    return _below_limit(daily_mean_c, 18.0, np.asarray(daily_mean_c) <= 15.0)


@worked
def sum_of_months(
    month_degree_days: Annotated[Floats, Unit("K*day"), Ge(0.0), Le(2000.0)],
) -> DegreeDays:
    r"""Degree days of a year from those of its twelve months.

    Parameters
    ----------
    month_degree_days : Floats
        Degree days of the months. [K*day] From 0 to 2000 each.

    Returns
    -------
    DegreeDays
        Their sum. [K*day]

    Raises
    ------
    OutOfRange
        If a month lies outside its range.

    Notes
    -----
    .. math:: D = D_1 + \cdots + D_{12}

    References
    ----------
    .. [1] "Standard heating degree days for the UK", http://vesma.com/ddd/std-year.htm

    Examples
    --------
    >>> sum_of_months(np.array([100.0, 20.5]))
    120.5
    """
    return float(np.sum(month_degree_days))


@worked
def weather_corrected_heat(
    heat_kwh: Annotated[float, Unit("kWh"), Ge(0.0), Le(1e7)],
    degree_days: Annotated[float, Unit("K*day"), Ge(1.0), Le(20000.0)],
    standard_degree_days: DegreeDays,
) -> Annotated[float, Unit("kWh"), Ge(0.0), Le(1e8)]:
    r"""What the space heat of a span would have been in a standard year.

    Take hot water and other use that does not follow the weather off first, and add it back after.

    Parameters
    ----------
    heat_kwh : float
        Space heat of the span, :math:`Q`. [kWh] From 0 to 1e7.
    degree_days : float
        Degree days of the same span, :math:`D`. [K*day] From 1 to 20000.
    standard_degree_days : DegreeDays
        Degree days of the standard year, :math:`D_s`. [K*day]

    Returns
    -------
    float
        Space heat in the standard year. [kWh]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q_s = Q \, D_s / D

    References
    ----------
    .. [1] "Standard heating degree days for the UK", steps 1 to 4, http://vesma.com/ddd/std-year.htm

    Examples
    --------
    >>> round(weather_corrected_heat(18000.0, 2250.0, 2463.0))
    19704
    """
    return heat_kwh * standard_degree_days / degree_days
