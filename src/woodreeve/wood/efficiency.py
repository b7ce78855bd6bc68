"""What an efficiency claim means, on the net and on the gross footing, and how high it can be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.units import DryHeat, Ge, Le, Moisture, Share, Unit
from woodreeve.wood.burning import TYPICAL_WOOD, WATER, Composition, OxygenDry, burn, excess_air_from_oxygen
from woodreeve.wood.calorific import gross_heat_dry_from_net
from woodreeve.wood.dew_point import STANDARD_PRESSURE_PA, vapour_pressure_over_water
from woodreeve.wood.flue import AirCelsius, sensible_kj
from woodreeve.wood.heat import VAPORISATION_HEAT, net_heat
from woodreeve.workings import worked

__all__ = ["Ceiling", "efficiency_ceiling", "gross_efficiency", "net_efficiency", "net_over_gross"]

NetEfficiency = Annotated[float, Unit("-"), Ge(0.0), Le(1.25)]
"""Useful heat over net heat; above 1 is possible where vapour condenses."""

LIQUID_WATER_KJ_KG_K = 4.18
"""Heat capacity of liquid water between 20 and 60 °C. [kJ/(kg*K)]"""


@worked
def net_over_gross(
    moisture: Moisture,
    net_heat_dry_mj_kg: DryHeat = 18.9,
    hydrogen: Share = 0.062,
    oxygen_and_nitrogen: Share = 0.441,
) -> Share:
    r"""Net heat over gross heat of the wood as it is.

    Parameters
    ----------
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood. [MJ/kg] From 15 to 22.
    hydrogen : Share
        Hydrogen over dry mass. [-]
    oxygen_and_nitrogen : Share
        Oxygen and nitrogen over dry mass. [-]

    Returns
    -------
    Share
        The quotient. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: r = \frac{q_d (1 - M) - 2.443 M}{q_g (1 - M)}

    References
    ----------
    .. [1] As :func:`woodreeve.wood.heat.net_heat` and
       :func:`woodreeve.wood.calorific.gross_heat_dry_from_net`.

    Examples
    --------
    >>> round(net_over_gross(0.20), 3)
    0.903
    """
    gross = gross_heat_dry_from_net(net_heat_dry_mj_kg, hydrogen, oxygen_and_nitrogen) * (1.0 - moisture)
    return net_heat(net_heat_dry_mj_kg, moisture) / gross


@worked
def gross_efficiency(efficiency_net: NetEfficiency, moisture: Moisture) -> NetEfficiency:
    r"""Efficiency on the gross footing, from one on the net footing.

    A claim of 96 to 98 % net is 87 to 88.5 % gross at 20 % moisture: ask which footing a figure stands on.

    Parameters
    ----------
    efficiency_net : float
        Useful heat over net heat, :math:`\eta`. [-] From 0 to 1.25.
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.

    Returns
    -------
    float
        Useful heat over gross heat. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    With :math:`r` of :func:`net_over_gross`:

    .. math:: \eta_\mathrm{gross} = \eta_\mathrm{net}\, r(M)

    References
    ----------
    .. [1] Definition of the two footings.

    Examples
    --------
    >>> round(gross_efficiency(0.97, 0.20), 3)
    0.876
    """
    return efficiency_net * net_over_gross(moisture)


@worked
def net_efficiency(efficiency_gross: Share, moisture: Moisture) -> NetEfficiency:
    r"""Efficiency on the net footing, from one on the gross footing.

    Parameters
    ----------
    efficiency_gross : Share
        Useful heat over gross heat. [-]
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.

    Returns
    -------
    float
        Useful heat over net heat. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    With :math:`r` of :func:`net_over_gross`:

    .. math:: \eta_\mathrm{net} = \eta_\mathrm{gross} / r(M)

    References
    ----------
    .. [1] Definition of the two footings.

    Examples
    --------
    >>> round(net_efficiency(0.876, 0.20), 2)
    0.97
    """
    return efficiency_gross / net_over_gross(moisture)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ceiling:
    """The best efficiency that a flue temperature allows, with no other loss at all."""

    net: NetEfficiency
    gross: NetEfficiency
    condensed: Share


@worked
def efficiency_ceiling(
    flue_c: Annotated[float, Unit("degC"), Ge(0.0), Le(300.0)],
    oxygen_dry: OxygenDry,
    moisture: Moisture,
    air_c: AirCelsius = 20.0,
    fuel: Composition = TYPICAL_WOOD,
    net_heat_dry_mj_kg: DryHeat = 18.9,
) -> Ceiling:
    r"""Best efficiency that a flue temperature allows, vapour that condenses counted as gained.

    No figure for a winter: casing, unburnt gas, dirt and starting cost more. A log boiler that feeds a store
    at 60 to 85 °C cannot condense.

    Parameters
    ----------
    flue_c : float
        Temperature of the flue gas, :math:`T_g`. [degC] From 0 to 300.
    oxygen_dry : OxygenDry
        Oxygen in the dry flue gas. [-] From 0 to 0.19.
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
    Ceiling
        The ceiling on both footings, and the part of the vapour that condenses.

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    Vapour :math:`n_v` that the dry gas :math:`n` can carry at :math:`T_g`, at most all of :math:`n_w`:

    .. math:: n_v = \min\left( n_w, n \frac{p_s(T_g)}{p - p_s(T_g)} \right)

    .. math:: \eta = 1 - l + \frac{0.018015\, (n_w - n_v)}{q} \left( 2443 - 4.18 (T_g - T_a) \right)

    References
    ----------
    .. [1] As :func:`woodreeve.wood.flue.flue_loss`, :func:`net_over_gross` and
       :func:`woodreeve.wood.dew_point.vapour_pressure_over_water`.

    Examples
    --------
    >>> round(efficiency_ceiling(30.0, 0.06, 0.20).gross, 3)
    0.968
    """
    gas = burn(moisture, excess_air_from_oxygen(oxygen_dry, fuel), fuel)
    pressure = vapour_pressure_over_water(min(flue_c, 99.0))
    carried = gas.dry_mol * pressure / (STANDARD_PRESSURE_PA - pressure)
    vapour = min(gas.water_mol, carried) if flue_c < 99.0 else gas.water_mol
    condensed = gas.water_mol - vapour
    heat_kj = 1000.0 * net_heat(net_heat_dry_mj_kg, moisture)
    in_condensate = LIQUID_WATER_KJ_KG_K * WATER / 1000.0 * condensed * (flue_c - air_c)
    lost = sensible_kj(gas, flue_c, air_c, vapour) + in_condensate
    net = 1.0 + (VAPORISATION_HEAT * WATER * condensed - lost) / heat_kj
    share = net_over_gross(moisture, net_heat_dry_mj_kg, fuel.hydrogen, fuel.oxygen + fuel.nitrogen)
    return Ceiling(net=net, gross=net * share, condensed=condensed / gas.water_mol)
