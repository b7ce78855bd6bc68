"""When flue gas turns wet: water and acid dew points, the reason why return water is kept hot."""

from __future__ import annotations

import math
from typing import Annotated

from woodreeve.units import Celsius, Ge, Gt, Le, Moisture, Share, Unit
from woodreeve.wood.burning import TYPICAL_WOOD, Composition, ExcessAir, burn
from woodreeve.workings import worked

__all__ = [
    "STANDARD_PRESSURE_PA",
    "acid_dew_point",
    "acid_dew_point_of_flue_gas",
    "dew_point_of_flue_gas",
    "vapour_pressure_over_water",
    "condensing_temperature",
]

STANDARD_PRESSURE_PA = 101325.0
"""Pressure of the standard atmosphere. [Pa]"""

WaterPressure = Annotated[float, Unit("Pa"), Ge(611.3), Le(1.0e7)]
"""Pressure of saturated water vapour, from that of 0 °C on."""
WaterCelsius = Annotated[float, Unit("degC"), Ge(0.0), Le(300.0)]
AirPressure = Annotated[float, Unit("Pa"), Ge(50000.0), Le(120000.0)]
PartialPressure = Annotated[float, Unit("Pa"), Gt(0.0), Le(120000.0)]

_N = (
    1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333,
    14.91510861353, -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798,
)  # fmt: skip
"""Coefficients of IAPWS-IF97, region 4."""
_ZERO_C = 273.15
_PA_PER_MMHG = 133.322


@worked
def condensing_temperature(pressure_pa: WaterPressure) -> Celsius:
    r"""Temperature at which water vapour of a pressure turns to water.

    Parameters
    ----------
    pressure_pa : float
        Pressure of the vapour, :math:`p`. [Pa] From 611.3 to 10 000 000.

    Returns
    -------
    Celsius
        Temperature of saturation. [degC]

    Raises
    ------
    OutOfRange
        If the pressure lies outside the range given above.

    Notes
    -----
    With :math:`\beta = (p / 1\,\mathrm{MPa})^{1/4}`:

    .. math:: E = \beta^2 + n_3 \beta + n_6, \quad F = n_1 \beta^2 + n_4 \beta + n_7, \quad
              G = n_2 \beta^2 + n_5 \beta + n_8

    .. math:: D = \frac{2 G}{-F - \sqrt{F^2 - 4 E G}}, \quad
              T = \frac{n_{10} + D - \sqrt{(n_{10} + D)^2 - 4 (n_9 + n_{10} D)}}{2}

    References
    ----------
    .. [1] IAPWS, "Revised release on the IAPWS Industrial Formulation 1997 for the thermodynamic properties
       of water and steam", section 8.2 (coefficients read in public source files that cite it).

    Examples
    --------
    >>> round(condensing_temperature(10000.0), 2)
    45.81
    """
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    beta = math.sqrt(math.sqrt(pressure_pa / 1.0e6))
    e = beta * beta + n3 * beta + n6
    f = n1 * beta * beta + n4 * beta + n7
    g = n2 * beta * beta + n5 * beta + n8
    d = 2.0 * g / (-f - math.sqrt(f * f - 4.0 * e * g))
    total = n10 + d
    return (total - math.sqrt(total * total - 4.0 * (n9 + n10 * d))) / 2.0 - _ZERO_C


@worked
def vapour_pressure_over_water(water_c: WaterCelsius) -> WaterPressure:
    r"""Pressure of water vapour over water.

    Parameters
    ----------
    water_c : float
        Temperature, :math:`T` in kelvin below. [degC] From 0 to 300.

    Returns
    -------
    float
        Pressure of saturation. [Pa]

    Raises
    ------
    OutOfRange
        If the temperature lies outside the range given above.

    Notes
    -----
    With :math:`\vartheta = T + n_9 / (T - n_{10})`:

    .. math:: A = \vartheta^2 + n_1 \vartheta + n_2, \quad B = n_3 \vartheta^2 + n_4 \vartheta + n_5, \quad
              C = n_6 \vartheta^2 + n_7 \vartheta + n_8

    .. math:: p = \left( \frac{2 C}{-B + \sqrt{B^2 - 4 A C}} \right)^4\ \mathrm{MPa}

    References
    ----------
    .. [1] IAPWS, "Revised release on the IAPWS Industrial Formulation 1997 for the thermodynamic properties
       of water and steam", section 8.1 (coefficients read in public source files that cite it).

    Examples
    --------
    >>> round(vapour_pressure_over_water(20.0))
    2339
    """
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    kelvin = water_c + _ZERO_C
    theta = kelvin + n9 / (kelvin - n10)
    a = theta * theta + n1 * theta + n2
    b = n3 * theta * theta + n4 * theta + n5
    c = n6 * theta * theta + n7 * theta + n8
    return 1.0e6 * float((2.0 * c / (-b + math.sqrt(b * b - 4.0 * a * c))) ** 4)


@worked
def dew_point_of_flue_gas(
    moisture: Moisture,
    excess_air: ExcessAir,
    fuel: Composition = TYPICAL_WOOD,
    pressure_pa: AirPressure = STANDARD_PRESSURE_PA,
) -> Celsius:
    r"""Temperature at which the flue gas of wood begins to drip water.

    A surface colder than this gets wet, tarry and eaten. A fresh batch steams unevenly, so for minutes the
    dew point stands above this mean: hence return water well above 50 °C. What the boiler's maker asks for
    goes first.

    Parameters
    ----------
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    excess_air : ExcessAir
        Air over the air just needed. [-] From 1 to 10.
    fuel : Composition
        What the dry wood is made of.
    pressure_pa : float
        Pressure of the air, :math:`p`. [Pa] From 50 000 to 120 000.

    Returns
    -------
    Celsius
        Dew point of the water. [degC]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    With the water share :math:`y` of the wet gas, as in :func:`woodreeve.wood.burning.burn`:

    .. math:: t_d = t_\mathrm{sat}(y\, p)

    Dry air is assumed; damp air raises it by about 1 K. Salts wet surfaces above it.

    References
    ----------
    .. [1] Mass balance; saturation as :func:`condensing_temperature`.

    Examples
    --------
    >>> round(dew_point_of_flue_gas(0.20, 1.5), 1)
    51.1
    """
    return condensing_temperature(burn(moisture, excess_air, fuel).water_share * pressure_pa)


@worked
def acid_dew_point(water_pa: PartialPressure, sulphur_trioxide_pa: PartialPressure) -> Celsius:
    r"""Temperature at which sulphuric acid begins to condense.

    Parameters
    ----------
    water_pa : float
        Partial pressure of the water vapour, :math:`p_w`. [Pa]
    sulphur_trioxide_pa : float
        Partial pressure of the sulphur trioxide, :math:`p_s`. [Pa]

    Returns
    -------
    Celsius
        Dew point of the acid. [degC]

    Raises
    ------
    OutOfRange
        If a pressure is not above nothing.

    Notes
    -----
    Pressures in mmHg, :math:`T` in kelvin:

    .. math:: \frac{1000}{T} = 2.276 - 0.0294 \ln p_w - 0.0858 \ln p_s + 0.0062 \ln p_w \ln p_s

    Take it as an upper bound for wood: tests found acid a minor risk, and damp salts the greater one.

    References
    ----------
    .. [1] Verhoff and Banchero 1974, as printed in two public source files (the original was not read).
    .. [2] Brunner et al., abstract, etaflorence.it/proceedings?detail=15758 (salts).

    Examples
    --------
    >>> round(acid_dew_point(10132.5, 0.101325), 1)
    115.6
    """
    water, acid = math.log(water_pa / _PA_PER_MMHG), math.log(sulphur_trioxide_pa / _PA_PER_MMHG)
    return 1000.0 / (2.276 - 0.0294 * water - 0.0858 * acid + 0.0062 * water * acid) - _ZERO_C


@worked
def acid_dew_point_of_flue_gas(
    moisture: Moisture, excess_air: ExcessAir, converted: Share = 0.03, fuel: Composition = TYPICAL_WOOD
) -> Celsius:
    r"""Acid dew point of the flue gas of wood, an upper bound.

    Parameters
    ----------
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    excess_air : ExcessAir
        Air over the air just needed. [-] From 1 to 10.
    converted : Share
        Part of the sulphur dioxide that turns to trioxide, :math:`c`; 0.01 to 0.05 is an assumption. [-]
    fuel : Composition
        What the dry wood is made of; it must hold sulphur.

    Returns
    -------
    Celsius
        Dew point of the acid. [degC]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above, or there is no sulphur.

    Notes
    -----
    With the shares :math:`y` of the wet gas:

    .. math:: p_w = y_{H_2O}\, p, \qquad p_s = c\, y_{SO_2}\, p

    References
    ----------
    .. [1] As :func:`acid_dew_point` and :func:`woodreeve.wood.burning.burn`.

    Examples
    --------
    >>> round(acid_dew_point_of_flue_gas(0.25, 1.4, 0.03))
    115
    """
    gas = burn(moisture, excess_air, fuel)
    sulphur_dioxide = gas.sulphur_dioxide_dry * (1.0 - gas.water_share)
    return acid_dew_point(
        gas.water_share * STANDARD_PRESSURE_PA, converted * sulphur_dioxide * STANDARD_PRESSURE_PA
    )
