"""Water in the air: dew point and relative humidity."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.weather.degree_days import Temperatures
from woodreeve.workings import worked

__all__ = ["dew_point", "humidity_from_dew_point", "saturation_pressure"]

MAGNUS_A = 17.62
"""Magnus coefficient over water. [-]"""
MAGNUS_B = 243.12
"""Magnus coefficient over water. [degC]"""

Humidities = Annotated[Floats, Unit("-"), Ge(0.0), Le(1.0)]


@worked
def saturation_pressure(temperature_c: Temperatures) -> Annotated[Floats, Unit("Pa"), Ge(0.0), Le(20000.0)]:
    r"""Pressure of water vapour in air that can take up no more.

    Parameters
    ----------
    temperature_c : Temperatures
        Air temperature, :math:`t`. [degC] From -60 to 60.

    Returns
    -------
    Floats
        Saturation pressure over water. [Pa]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: e_s = 611.2 \exp \frac{17.62\,t}{243.12 + t}

    Within 0.2 % of the tables from -30 to 40 °C.

    References
    ----------
    .. [1] WMO-No. 8, "Guide to Instruments and Methods of Observation", annex on humidity formulae
       (from memory; checked in the tests against the psychrometric library PsychroLib).

    Examples
    --------
    >>> float(saturation_pressure(np.array([20.0]))[0].round(0))
    2333.0
    """
    t = np.asarray(temperature_c, dtype=float)
    pressure: Floats = 611.2 * np.exp(MAGNUS_A * t / (MAGNUS_B + t))
    return pressure


@worked
def dew_point(
    temperature_c: Temperatures, relative_humidity: Annotated[Floats, Unit("-"), Ge(0.001), Le(1.0)]
) -> Temperatures:
    r"""Temperature at which air of a given humidity begins to give up water.

    Parameters
    ----------
    temperature_c : Temperatures
        Air temperature, :math:`t`. [degC] From -60 to 60.
    relative_humidity : Floats
        Relative humidity, :math:`\phi`. [-] From 0.001 to 1.

    Returns
    -------
    Temperatures
        Dew point. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math::

        g = \ln \phi + \frac{17.62\,t}{243.12 + t}, \quad t_d = \frac{243.12\,g}{17.62 - g}

    References
    ----------
    .. [1] As :func:`saturation_pressure`, solved for the temperature.

    Examples
    --------
    >>> float(dew_point(np.array([20.0]), np.array([0.5]))[0].round(2))
    9.26
    """
    t = np.asarray(temperature_c, dtype=float)
    g = np.log(relative_humidity) + MAGNUS_A * t / (MAGNUS_B + t)
    dew: Floats = MAGNUS_B * g / (MAGNUS_A - g)
    return dew


@worked
def humidity_from_dew_point(temperature_c: Temperatures, dew_point_c: Temperatures) -> Humidities:
    r"""Relative humidity of air from its temperature and dew point.

    Parameters
    ----------
    temperature_c : Temperatures
        Air temperature, :math:`t`. [degC] From -60 to 60.
    dew_point_c : Temperatures
        Dew point, :math:`t_d`; above the air temperature counts as fog. [degC] From -60 to 60.

    Returns
    -------
    Humidities
        Relative humidity, at most 1. [-]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \phi = \min(1, e_s(t_d) / e_s(t))

    References
    ----------
    .. [1] As :func:`saturation_pressure`.

    Examples
    --------
    >>> float(humidity_from_dew_point(np.array([20.0]), np.array([9.26]))[0].round(3))
    0.5
    """
    return np.minimum(1.0, saturation_pressure(dew_point_c) / saturation_pressure(temperature_c))
