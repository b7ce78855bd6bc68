"""The German standard load profile of single houses: a second opinion, fitted to metered gas."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from woodreeve.units import Ge, Le, Unit
from woodreeve.weather.degree_days import AirTemperature, Temperatures
from woodreeve.workings import worked

__all__ = ["profile_day_factor", "profile_temperature"]

_A, _B, _C, _D = 3.046969, -37.183314, 5.672785, 0.116316
_WEIGHTS = (1.0, 0.5, 0.25, 0.125)


@worked
def profile_temperature(
    today_and_before_c: Temperatures,
) -> AirTemperature:
    r"""Temperature that a house feels: today's mean, and the three days before with falling weight.

    Parameters
    ----------
    today_and_before_c : Temperatures
        Daily means: today, yesterday, and two days before that. [degC] From -60 to 60.

    Returns
    -------
    AirTemperature
        Weighted mean. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T = \frac{T_0 + T_1/2 + T_2/4 + T_3/8}{1.875}

    References
    ----------
    .. [1] BDEW, VKU, GEODE guide to standard load profiles for gas, as implemented in the package
       demandlib 0.2.2.

    Examples
    --------
    >>> round(profile_temperature(np.array([0.0, 4.0, 8.0, 10.0])), 2)
    2.8
    """
    values = np.asarray(today_and_before_c, dtype=float)[:4]
    weights = np.array(_WEIGHTS[: values.size])
    return float((values * weights).sum() / weights.sum())


@worked
def profile_day_factor(
    temperature_c: AirTemperature,
) -> Annotated[float, Unit("-"), Ge(0.0), Le(10.0)]:
    r"""Heat of a day over that of a day at about 8 °C, single house, hot water included.

    Parameters
    ----------
    temperature_c : AirTemperature
        Weighted temperature of the day, :math:`T`. [degC] From -60 to 60; 39.9 at most counts.

    Returns
    -------
    float
        Day factor. [-]

    Raises
    ------
    OutOfRange
        If the temperature lies outside its range.

    Notes
    -----
    .. math:: h = \frac{A}{1 + \left(\frac{B}{T - 40}\right)^C} + D

    with :math:`A = 3.046969`, :math:`B = -37.183314`, :math:`C = 5.672785`, :math:`D = 0.116316`.

    References
    ----------
    .. [1] BDEW, VKU, GEODE guide to standard load profiles for gas, single house, class 11, no wind, as
       packaged in demandlib 0.2.2 (formula from memory).

    Examples
    --------
    >>> round(profile_day_factor(0.0), 4)
    1.9509
    """
    below = min(temperature_c, 39.9) - 40.0
    return float(_A / (1.0 + (_B / below) ** _C) + _D)
