"""What a place's weather is like, in a few figures read off its hours.

Days are blocks of 24 hours from the first hour of the series. Most of these are the yardsticks a
made-up typical year is held against.
"""

from __future__ import annotations

from typing import Annotated, Literal

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Floats, Ge, Kelvin, Le, Unit
from woodreeve.weather.degree_days import AirTemperature, Temperatures
from woodreeve.workings import worked

__all__ = [
    "coldest_spell",
    "daily_extremes",
    "daily_means",
    "daily_swing",
    "day_to_day_correlation",
    "design_temperature",
    "extreme_temperature",
    "mean_temperature",
    "yearly_sun",
]


def daily_means(temperature_c: Floats) -> Floats:
    """Means of whole days."""
    values = np.asarray(temperature_c, dtype=float)
    if values.size < 24:
        raise OutOfRange("temperature_c", f"{values.size} hours long", "at least 24 hours long")
    return np.asarray(values[: values.size // 24 * 24].reshape(-1, 24).mean(axis=1), dtype=float)


def daily_extremes(temperature_c: Floats) -> tuple[Floats, Floats]:
    """Highest and lowest hour of each whole day."""
    values = np.asarray(temperature_c, dtype=float)
    by_day = values[: values.size // 24 * 24].reshape(-1, 24)
    return by_day.max(axis=1), by_day.min(axis=1)


@worked
def mean_temperature(temperature_c: Temperatures) -> AirTemperature:
    r"""Mean outdoor temperature of a span.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour. [degC] From -60 to 60.

    Returns
    -------
    AirTemperature
        Their mean. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \bar T = \frac{1}{n} \sum_h T_h

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> mean_temperature(np.array([4.0, 8.0]))
    6.0
    """
    return float(np.mean(temperature_c))


@worked
def extreme_temperature(
    temperature_c: Temperatures, *, which: Literal["lowest", "highest"]
) -> AirTemperature:
    r"""The coldest or the hottest hour of a span.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour. [degC] From -60 to 60.
    which : {"lowest", "highest"}
        Which end.

    Returns
    -------
    AirTemperature
        That hour's temperature. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.
    UnknownName
        If ``which`` is neither.

    Notes
    -----
    .. math:: \min_h T_h \quad\text{or}\quad \max_h T_h

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> extreme_temperature(np.array([4.0, 8.0]), which="lowest")
    4.0
    """
    return float(np.min(temperature_c) if which == "lowest" else np.max(temperature_c))


@worked
def coldest_spell(
    temperature_c: Temperatures, days: Annotated[float, Unit("day"), Ge(1.0), Le(60.0)] = 3.0
) -> AirTemperature:
    r"""Mean of the coldest few days on end: what a store of heat has to live through.

    A store and heavy walls ride through cold hours, not through cold days.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour, whole days. [degC] From -60 to 60.
    days : float
        Length of the spell, whole days, :math:`n`. [day] From 1 to 60.

    Returns
    -------
    AirTemperature
        Lowest running mean of daily means. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range, or the span is shorter than the spell.

    Notes
    -----
    .. math:: \min_d \frac{1}{n} \sum_{i=0}^{n-1} T_{d+i}

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> coldest_spell(np.repeat([5.0, -1.0, -3.0, 4.0], 24), 2.0)
    -2.0
    """
    means, length = daily_means(temperature_c), round(days)
    if means.size < length:
        raise OutOfRange("days", f"{length}", f"at most the {means.size} days of the span", "day")
    sums = np.cumsum(np.concatenate([[0.0], means]))
    return float(((sums[length:] - sums[:-length]) / length).min())


@worked
def design_temperature(
    temperature_c: Temperatures, exceeded: Annotated[float, Unit("-"), Ge(0.5), Le(1.0)] = 0.996
) -> AirTemperature:
    r"""Outdoor temperature that is exceeded in nearly all hours: what heating is sized for.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour of a year. [degC] From -60 to 60.
    exceeded : float
        Share of the hours that are warmer, :math:`p`. [-] From 0.5 to 1; 0.996 and 0.99 are usual.

    Returns
    -------
    AirTemperature
        Design outdoor temperature. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T_{des} = Q_{1-p}(T_h)

    with linear interpolation between hours. One typical year knows less of rare cold than the
    tables, which rest on 20 years and more: where a table value exists, take the lower.

    References
    ----------
    .. [1] ASHRAE climatic design conditions, 99.6 % and 99 %, as printed in the headers of EPW files.

    Examples
    --------
    >>> round(design_temperature(np.arange(-10.0, 31.0), 0.9), 6)
    -6.0
    """
    return float(np.quantile(np.asarray(temperature_c, dtype=float), 1.0 - exceeded))


@worked
def daily_swing(temperature_c: Temperatures) -> Kelvin:
    r"""How far day and night lie apart: mean of daily highest less daily lowest.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour, whole days. [degC] From -60 to 60.

    Returns
    -------
    Kelvin
        Mean daily swing. [K]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \overline{T_{max,d} - T_{min,d}}

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> daily_swing(np.array([2.0] * 12 + [8.0] * 12))
    6.0
    """
    highest, lowest = daily_extremes(temperature_c)
    return float((highest - lowest).mean())


@worked
def day_to_day_correlation(
    temperature_c: Temperatures, harmonics: Annotated[float, Unit("-"), Ge(0.0), Le(12.0)] = 3.0
) -> Annotated[float, Unit("-"), Ge(-1.0), Le(1.0)]:
    r"""How much a cold day foretells a cold morrow, the season taken out.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour of a year. [degC] From -60 to 60.
    harmonics : float
        Yearly waves that are taken out first. [-] From 0 to 12.

    Returns
    -------
    float
        Correlation of each day's departure with the next day's. [-]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \varphi = \operatorname{corr}(z_d, z_{d+1}), \quad z_d = T_d - \text{harmonics}(d)

    References
    ----------
    .. [1] Definition; harmonics fitted by least squares.

    Examples
    --------
    >>> hours = np.arange(8760.0)
    >>> round(day_to_day_correlation(10.0 + np.cos(hours / 24.0)), 2)
    0.54
    """
    from numpy.linalg import lstsq

    means = daily_means(temperature_c)
    angle = 2.0 * np.pi * (np.arange(means.size) + 0.5) / 365.0
    waves = [np.ones_like(angle)]
    for number in range(1, round(harmonics) + 1):
        waves += [np.cos(number * angle), np.sin(number * angle)]
    basis = np.stack(waves, axis=1)
    rest = means - basis @ lstsq(basis, means, rcond=None)[0]
    return float(np.corrcoef(rest[:-1], rest[1:])[0, 1])


@worked
def yearly_sun(
    sun_w_m2: Annotated[Floats, Unit("W/m2"), Ge(0.0), Le(1500.0)],
) -> Annotated[float, Unit("kWh/m2"), Ge(0.0), Le(4000.0)]:
    r"""Sun on level ground over a span.

    Parameters
    ----------
    sun_w_m2 : Floats
        Global sun on level ground, mean of each hour. [W/m2] From 0 to 1500.

    Returns
    -------
    float
        Its sum. [kWh/m2]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \sum_h G_h / 1000

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> yearly_sun(np.array([500.0, 500.0]))
    1.0
    """
    return float(np.sum(sun_w_m2) / 1000.0)
