"""Heat that leaves by the flue."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Celsius, DryHeat, Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.burning import (
    TYPICAL_WOOD,
    Composition,
    ExcessAir,
    FlueGas,
    OxygenDry,
    burn,
    excess_air_from_oxygen,
)
from woodreeve.wood.heat import net_heat
from woodreeve.workings import worked

__all__ = [
    "flue_loss",
    "flue_loss_at_oxygen",
    "flue_temperature_for_loss",
    "sensible_kj",
    "siegert_loss",
]

FlueCelsius = Annotated[float, Unit("degC"), Ge(0.0), Le(700.0)]
AirCelsius = Annotated[float, Unit("degC"), Ge(-30.0), Le(60.0)]
FlueLoss = Annotated[float, Unit("-"), Ge(-0.2), Le(2.0)]

_GAS_CONSTANT = 8.314462618
_ZERO_C = 273.15
_HEAT_CAPACITY = {
    "carbon_dioxide": (2.35677352, 8.98459677e-3, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13),
    "water": (4.19864056, -2.0364341e-3, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12),
    "nitrogen": (3.298677, 1.4082404e-3, -3.963222e-6, 5.641515e-9, -2.444854e-12),
    "oxygen": (3.78245636, -2.99673416e-3, 9.84730201e-6, -9.68129509e-9, 3.24372837e-12),
}
"""Polynomials of the heat capacities over the gas constant, 200 to 1000 K, NASA form of GRI-Mech 3.0."""

_SIEGERT = (
    (0.0, 0.662, 0.0076),
    (0.10, 0.672, 0.0089),
    (0.15, 0.677, 0.0096),
    (0.20, 0.684, 0.0105),
    (0.25, 0.692, 0.0115),
    (0.30, 0.701, 0.0126),
    (0.40, 0.724, 0.0157),
)
"""Moisture with the two coefficients fitted for it."""
SiegertMoisture = Annotated[float, Unit("-"), Ge(0.0), Le(0.40)]


def _enthalpy(gas: str, celsius: float) -> float:
    """Sensible heat of a gas above absolute zero, kJ/mol, up to a constant."""
    kelvin = celsius + _ZERO_C
    powers = (a * kelvin ** (n + 1) / (n + 1) for n, a in enumerate(_HEAT_CAPACITY[gas]))
    return _GAS_CONSTANT * float(sum(powers)) / 1000.0


def sensible_kj(gas: FlueGas, flue_c: float, air_c: float, water_mol: float) -> float:
    """Heat in the flue gas of a kilogram of wood above the air's temperature, kJ."""
    amounts = {
        "carbon_dioxide": gas.carbon_dioxide_mol + gas.sulphur_dioxide_mol,
        "water": water_mol,
        "nitrogen": gas.nitrogen_mol,
        "oxygen": gas.oxygen_mol,
    }
    return sum(n * (_enthalpy(name, flue_c) - _enthalpy(name, air_c)) for name, n in amounts.items())


@worked
def flue_loss(
    flue_c: FlueCelsius,
    excess_air: ExcessAir,
    moisture: Moisture,
    air_c: AirCelsius = 20.0,
    fuel: Composition = TYPICAL_WOOD,
    net_heat_dry_mj_kg: DryHeat = 18.9,
) -> FlueLoss:
    r"""Heat that leaves by the flue as hot gas, its water still vapour.

    Parameters
    ----------
    flue_c : float
        Temperature of the flue gas, :math:`T_g`. [degC] From 0 to 700.
    excess_air : ExcessAir
        Air over the air just needed. [-] From 1 to 10.
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    air_c : float
        Temperature of the air that feeds the fire, :math:`T_a`. [degC] From -30 to 60.
    fuel : Composition
        What the dry wood is made of.
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood. [MJ/kg] From 15 to 22.

    Returns
    -------
    float
        Loss over the net heat of the wood. [-]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    With the moles :math:`n_i` of :func:`woodreeve.wood.burning.burn` and net heat :math:`q`:

    .. math:: l = \frac{1}{q} \sum_i n_i \left( h_i(T_g) - h_i(T_a) \right)

    Unburnt gas and the heat of the casing are not in it. Gas enthalpies agree with an equation of state
    within 0.2 %. Against a printed set at 10 and 60 % moisture, whose excess air
    is not printed and was taken as 2.4, it lies within 3 %.

    References
    ----------
    .. [1] Heat capacities: NASA polynomials of GRI-Mech 3.0 (carbon dioxide, water and oxygen read in public
       source files, nitrogen from memory; all checked against CoolProp).
    .. [2] Abstract on moisture and flue-gas losses, Polish Academy of Sciences, sd.czasopisma.pan.pl.

    Examples
    --------
    >>> round(flue_loss(150.0, 1.4, 0.20), 3)
    0.072
    """
    gas = burn(moisture, excess_air, fuel)
    return sensible_kj(gas, flue_c, air_c, gas.water_mol) / (1000.0 * net_heat(net_heat_dry_mj_kg, moisture))


@worked
def flue_loss_at_oxygen(
    flue_c: FlueCelsius,
    oxygen_dry: OxygenDry,
    moisture: Moisture,
    air_c: AirCelsius = 20.0,
    fuel: Composition = TYPICAL_WOOD,
    net_heat_dry_mj_kg: DryHeat = 18.9,
) -> FlueLoss:
    r"""Heat that leaves by the flue, from the oxygen an analyser shows.

    Parameters
    ----------
    flue_c : float
        Temperature of the flue gas. [degC] From 0 to 700.
    oxygen_dry : OxygenDry
        Oxygen in the dry flue gas, :math:`x`. [-] From 0 to 0.19.
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    air_c : float
        Temperature of the air that feeds the fire. [degC] From -30 to 60.
    fuel : Composition
        What the dry wood is made of.
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood. [MJ/kg] From 15 to 22.

    Returns
    -------
    float
        Loss over the net heat of the wood. [-]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    .. math:: l = l(T_g, \lambda(x), M)

    as in :func:`flue_loss` and :func:`woodreeve.wood.burning.excess_air_from_oxygen`.

    References
    ----------
    .. [1] As :func:`flue_loss`.

    Examples
    --------
    >>> round(flue_loss_at_oxygen(200.0, 0.06, 0.20), 3)
    0.101
    """
    excess_air = excess_air_from_oxygen(oxygen_dry, fuel)
    return flue_loss(flue_c, excess_air, moisture, air_c, fuel, net_heat_dry_mj_kg)


@worked
def siegert_loss(
    flue_c: FlueCelsius, oxygen_dry: OxygenDry, moisture: SiegertMoisture, air_c: AirCelsius = 20.0
) -> FlueLoss:
    r"""Heat that leaves by the flue, in the short form that analysers use.

    Analysers carry one pair of coefficients for wood, near that of bone-dry wood, so they understate the loss
    of moist wood a little.

    Parameters
    ----------
    flue_c : float
        Temperature of the flue gas, :math:`T_g`. [degC] Fitted from 100 to 250.
    oxygen_dry : OxygenDry
        Oxygen in the dry flue gas, :math:`x` in per cent below. [-] Fitted from 0.04 to 0.12.
    moisture : float
        Water over wet mass. [-] From 0 to 0.40.
    air_c : float
        Temperature of the air, :math:`T_a`. [degC] From -30 to 60.

    Returns
    -------
    float
        Loss over the net heat of the wood. [-]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    In per cent, with :math:`A`, :math:`B` by moisture from 0.662, 0.0076 (dry) to 0.724, 0.0157 (40 %):

    .. math:: l = (T_g - T_a) \left( \frac{A}{21 - x} + B \right)

    Within 0.1 point of :func:`flue_loss_at_oxygen` in the range fitted.

    References
    ----------
    .. [1] The form is Siegert's; the coefficients are our own fit to :func:`flue_loss_at_oxygen`.

    Examples
    --------
    >>> round(siegert_loss(150.0, 0.06, 0.20), 3)
    0.073
    """
    moistures, first, second = zip(*_SIEGERT, strict=True)
    a = float(np.interp(moisture, moistures, first))
    b = float(np.interp(moisture, moistures, second))
    return (flue_c - air_c) * (a / (21.0 - 100.0 * oxygen_dry) + b) / 100.0


@worked
def flue_temperature_for_loss(
    loss: Annotated[float, Unit("-"), Gt(0.0), Le(0.6)],
    oxygen_dry: OxygenDry,
    moisture: Moisture,
    air_c: AirCelsius = 20.0,
    fuel: Composition = TYPICAL_WOOD,
    net_heat_dry_mj_kg: DryHeat = 18.9,
) -> Celsius:
    r"""Flue temperature that goes with a flue loss: what an efficiency claim asks for.

    Parameters
    ----------
    loss : float
        Loss over the net heat of the wood, :math:`l`. [-] Above 0, to 0.6.
    oxygen_dry : OxygenDry
        Oxygen in the dry flue gas, :math:`x`. [-] From 0 to 0.19.
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.
    air_c : float
        Temperature of the air that feeds the fire. [degC] From -30 to 60.
    fuel : Composition
        What the dry wood is made of.
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood. [MJ/kg] From 15 to 22.

    Returns
    -------
    Celsius
        Temperature of the flue gas. [degC]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above, or the temperature would pass 700.

    Notes
    -----
    The :math:`T_g` that solves

    .. math:: l(T_g, x, M) = l

    of :func:`flue_loss_at_oxygen`, by halving the range to a thousandth of a kelvin.

    References
    ----------
    .. [1] As :func:`flue_loss`.

    Examples
    --------
    >>> round(flue_temperature_for_loss(0.04, 0.06, 0.20))
    92
    """
    excess_air = excess_air_from_oxygen(oxygen_dry, fuel)
    gas = burn(moisture, excess_air, fuel)
    wanted = loss * 1000.0 * net_heat(net_heat_dry_mj_kg, moisture)
    low, high = max(air_c, 0.0), 700.0
    if sensible_kj(gas, high, air_c, gas.water_mol) < wanted:
        raise OutOfRange("loss", f"{loss:g}", "one that a flue below 700 degC can have", "-")
    while high - low > 0.001:
        middle = (low + high) / 2.0
        if sensible_kj(gas, middle, air_c, gas.water_mol) < wanted:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0
