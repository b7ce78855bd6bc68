"""What water weighs, holds, and how it runs: the properties that every pipe and store stands on."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from woodreeve.units import Ge, KilowattHour, Le, Litre, Unit
from woodreeve.workings import worked

__all__ = [
    "heat_in_water",
    "water_conductivity",
    "water_density",
    "water_enthalpy",
    "water_heat_capacity",
    "water_viscosity",
]

WaterTemperature = Annotated[float, Unit("degC"), Ge(-20.0), Le(110.0)]
"""Liquid water at about atmospheric pressure."""

GAS_CONSTANT = 0.46151805
"""Specific gas constant of water, as the release prints it. [kJ/(kg*K)]"""
REFERENCE_K = 10.0
"""Reducing temperature of the release. [K]"""

# Coefficients and exponents of the IAPWS release: Gibbs energy, then volume, in powers of
# 10 K / (593 K - T) and 10 K / (T - 232 K).
_GIBBS_HOT = ((-1.661470539e5, 4), (2.708781640e6, 5), (-1.557191544e8, 7))
_GIBBS_COLD = ((-8.237426256e-1, 2), (1.908956353, 3), (-2.017597384, 4), (8.546361348e-1, 5))
_GIBBS_BASE = (-2.452093414e2, 3.869269598e1, -8.983025854)
_VOLUME_BASE = 1.93763157e-2
_VOLUME_HOT = (
    (6.74458446e3, 4),
    (-2.22521604e5, 5),
    (1.00231247e8, 7),
    (-1.63552118e9, 8),
    (8.32299658e9, 9),
)
_VOLUME_COLD = (
    (5.78545292e-3, 1),
    (-1.53195665e-2, 2),
    (3.11337859e-2, 3),
    (-4.23546241e-2, 4),
    (3.38713507e-2, 5),
    (-1.19946761e-2, 6),
)
_VISCOSITY = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))
_CONDUCTIVITY = ((1.6630, -1.15), (-1.7781, -3.4), (1.1567, -6.0), (-0.432115, -7.6))


@worked
def water_density(temperature: WaterTemperature) -> Annotated[float, Unit("kg/m3"), Ge(940.0), Le(1000.1)]:
    r"""Mass of a cubic metre of water.

    Hot water is lighter: a store filled cold pushes a few per cent of its water into the expansion
    vessel, and a litre of hot store holds that much less heat than a litre of cold water would.

    Parameters
    ----------
    temperature : WaterTemperature
        Temperature of the water, :math:`T`. [degC] From -20 to 110.

    Returns
    -------
    float
        Density, :math:`1/v`. [kg/m3]

    Raises
    ------
    OutOfRange
        If the temperature lies outside the range of the release.

    Notes
    -----
    .. math:: v = R\,T_r/p_0\,\bigl(a_5 + \sum a_i \alpha^{n_i} + \sum b_i \beta^{m_i}\bigr),\quad
       \alpha = T_r/(593 - T),\ \beta = T_r/(T - 232)

    At 0.1 MPa. At 3 bar it is 0.01 % denser, which is left out.

    References
    ----------
    .. [1] IAPWS SR6-08 (2011), "Revised Supplementary Release on Properties of Liquid Water at
       0.1 MPa", equation 2; coefficients read in the open iapws 1.5.5 library, checked by rows
       wat01 and wat04 to wat07.

    Examples
    --------
    >>> round(water_density(60.0), 1)
    983.2
    """
    kelvin = temperature + 273.15
    hot, cold = REFERENCE_K / (593.0 - kelvin), REFERENCE_K / (kelvin - 232.0)
    volume = _VOLUME_BASE
    for factor, power in _VOLUME_HOT:
        volume += factor * hot**power
    for factor, power in _VOLUME_COLD:
        volume += factor * cold**power
    return 100.0 / (GAS_CONSTANT * REFERENCE_K * volume)


@worked
def water_heat_capacity(
    temperature: WaterTemperature,
) -> Annotated[float, Unit("kJ/(kg*K)"), Ge(4.1), Le(4.5)]:
    r"""Heat that warms a kilogram of water by one degree.

    Parameters
    ----------
    temperature : WaterTemperature
        Temperature of the water. [degC] From -20 to 110.

    Returns
    -------
    float
        Specific heat at constant pressure, :math:`c_p`. [kJ/(kg*K)]

    Raises
    ------
    OutOfRange
        If the temperature lies outside the range of the release.

    Notes
    -----
    .. math:: c_p = -R \Bigl(c_3 + \tau \sum n_i (n_i+1) a_i \alpha^{n_i+2}
       + \tau \sum m_i (m_i+1) b_i \beta^{m_i+2}\Bigr),\quad \tau = T/T_r

    References
    ----------
    .. [1] IAPWS SR6-08 (2011), equation 4; coefficients read in the open iapws 1.5.5 library.

    Examples
    --------
    >>> round(water_heat_capacity(60.0), 3)
    4.185
    """
    kelvin = temperature + 273.15
    hot, cold = REFERENCE_K / (593.0 - kelvin), REFERENCE_K / (kelvin - 232.0)
    bend = 0.0
    for factor, power in _GIBBS_HOT:
        bend += power * (power + 1) * factor * hot ** (power + 2)
    for factor, power in _GIBBS_COLD:
        bend += power * (power + 1) * factor * cold ** (power + 2)
    return -GAS_CONSTANT * (_GIBBS_BASE[2] + kelvin / REFERENCE_K * bend)


@worked
def water_enthalpy(temperature: WaterTemperature) -> Annotated[float, Unit("kJ/kg"), Ge(-90.0), Le(470.0)]:
    r"""Heat content of a kilogram of water, counted from the freezing point.

    Parameters
    ----------
    temperature : WaterTemperature
        Temperature of the water. [degC] From -20 to 110.

    Returns
    -------
    float
        Specific enthalpy, :math:`h = g + T s`. [kJ/kg]

    Raises
    ------
    OutOfRange
        If the temperature lies outside the range of the release.

    Notes
    -----
    .. math:: g = R T_r \bigl(c_1 + c_2 \tau + c_3 \tau \ln\tau + \sum a_i \alpha^{n_i}
       + \sum b_i \beta^{m_i}\bigr),\quad s = -\partial g / \partial T

    References
    ----------
    .. [1] IAPWS SR6-08 (2011), equations 1 and 3; coefficients read in the open iapws 1.5.5
       library, checked by row wat02.

    Examples
    --------
    >>> round(water_enthalpy(60.0) - water_enthalpy(20.0), 1)
    167.2
    """
    kelvin = temperature + 273.15
    tau = kelvin / REFERENCE_K
    hot, cold = REFERENCE_K / (593.0 - kelvin), REFERENCE_K / (kelvin - 232.0)
    gibbs = _GIBBS_BASE[0] + _GIBBS_BASE[1] * tau + _GIBBS_BASE[2] * tau * np.log(tau)
    entropy = _GIBBS_BASE[1] + _GIBBS_BASE[2] * (1.0 + np.log(tau))
    for factor, power in _GIBBS_HOT:
        gibbs += factor * hot**power
        entropy += power * factor * hot ** (power + 1)
    for factor, power in _GIBBS_COLD:
        gibbs += factor * cold**power
        entropy -= power * factor * cold ** (power + 1)
    return float(GAS_CONSTANT * REFERENCE_K * gibbs - kelvin * GAS_CONSTANT * entropy)


@worked
def water_viscosity(temperature: WaterTemperature) -> Annotated[float, Unit("mPa*s"), Ge(0.2), Le(5.0)]:
    r"""Stiffness of flowing water: cold water runs harder through a pipe.

    Parameters
    ----------
    temperature : WaterTemperature
        Temperature of the water. [degC] From -20 to 110.

    Returns
    -------
    float
        Dynamic viscosity. [mPa*s]

    Raises
    ------
    OutOfRange
        If the temperature lies outside the range of the release.

    Notes
    -----
    .. math:: \mu = 10^{-6} \sum_{i=1}^{4} a_i (T/300)^{b_i}\ \mathrm{Pa\,s}

    References
    ----------
    .. [1] IAPWS SR6-08 (2011), equation 7; coefficients read in the open iapws 1.5.5 library.

    Examples
    --------
    >>> round(water_viscosity(70.0), 3)
    0.404
    """
    ratio = (temperature + 273.15) / 300.0
    total = 0.0
    for factor, power in _VISCOSITY:
        total += factor * ratio**power
    return total / 1000.0


@worked
def water_conductivity(
    temperature: WaterTemperature,
) -> Annotated[float, Unit("W/(m*K)"), Ge(0.5), Le(0.7)]:
    r"""How readily resting water passes heat on: slowly, which is why a store can stay layered.

    Parameters
    ----------
    temperature : WaterTemperature
        Temperature of the water. [degC] From -20 to 110.

    Returns
    -------
    float
        Thermal conductivity. [W/(m*K)]

    Raises
    ------
    OutOfRange
        If the temperature lies outside the range of the release.

    Notes
    -----
    .. math:: \lambda = \sum_{i=1}^{4} c_i (T/300)^{d_i}

    References
    ----------
    .. [1] IAPWS SR6-08 (2011), equation 8; coefficients read in the open iapws 1.5.5 library.

    Examples
    --------
    >>> round(water_conductivity(60.0), 3)
    0.651
    """
    ratio = (temperature + 273.15) / 300.0
    total = 0.0
    for factor, power in _CONDUCTIVITY:
        total += factor * ratio**power
    return total


@worked
def heat_in_water(litres: Litre, cold: WaterTemperature, hot: WaterTemperature) -> KilowattHour:
    r"""Heat in a vessel of water between two temperatures.

    The mass is what the vessel holds when hot; the water that expansion pushed out is not in it.

    Parameters
    ----------
    litres : Litre
        Content of the vessel. [L] From 0 to 1000000.
    cold : WaterTemperature
        The lower temperature. [degC] From -20 to 110.
    hot : WaterTemperature
        The higher temperature. [degC] From -20 to 110.

    Returns
    -------
    KilowattHour
        Heat between the two, negative if ``hot`` is below ``cold``. [kWh]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Q = V\,\rho(T_h)\,\bigl(h(T_h) - h(T_c)\bigr)

    The round figure of 1.163 kWh per cubic metre and degree overstates a hot store by 3 to 4 %.

    References
    ----------
    .. [1] IAPWS SR6-08 (2011), density and enthalpy of liquid water at 0.1 MPa.

    Examples
    --------
    >>> round(heat_in_water(1000.0, 30.0, 85.0), 2)
    61.94
    """
    mass = litres / 1000.0 * water_density(hot)
    return mass * (water_enthalpy(hot) - water_enthalpy(cold)) / 3600.0
