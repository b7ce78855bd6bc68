"""The batch log boiler: how fast a load burns, and where its heat goes."""

from __future__ import annotations

import math
from typing import Annotated

from woodreeve.units import (
    Ge,
    Gt,
    Hour,
    Kelvin,
    Kilogram,
    Kilowatt,
    KilowattHour,
    Le,
    Litre,
    Moisture,
    Share,
    Unit,
)
from woodreeve.workings import worked

__all__ = [
    "boiler_efficiency",
    "charge_flow",
    "flue_loss_share",
    "flue_rise_for",
    "fuel_space_kg",
    "store_rise",
    "tail_share",
    "wet_fire_share",
]

AirRatio = Annotated[float, Unit("-"), Ge(1.0), Le(8.0)]
"""Air sent through the fire over the air it needs."""
FlueGas = Annotated[float, Unit("degC"), Ge(-60.0), Le(1200.0)]
Room = Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)]


@worked
def flue_loss_share(
    flue: FlueGas, room: Room, moisture: Moisture, air_ratio: AirRatio = 1.6
) -> Annotated[float, Unit("-"), Ge(-0.5), Le(2.0)]:
    r"""Share of the wood's net heat that leaves as hot flue gas.

    Wet wood sends more steam through the flue and has less heat to begin with; too much air carries
    more heat away. Both push the loss up.

    Parameters
    ----------
    flue : FlueGas
        Flue gas after the boiler, :math:`t_g`. [degC]
    room : Room
        Air of the boiler room, :math:`t_a`. [degC]
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.7.
    air_ratio : AirRatio
        Air over the least air, :math:`\lambda`. [-] From 1 to 8.

    Returns
    -------
    float
        Sensible heat of the gas over net heat of the wood. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    Per kilogram of dry wood with :math:`u = M/(1-M)` of water:

    .. math:: q_A = \frac{\bigl[1.01\,(1 + 5.93\,\lambda - 0.54) + 1.9\,(0.54 + u)\bigr](t_g - t_a)}
       {18500 - 2443\,u}

    5.93 kg of air and 0.54 kg of steam follow from wood of 50 % carbon, 6 % hydrogen and 44 %
    oxygen. On the net basis the heat of evaporation is no loss. Unburnt gas and char are counted apart.
    This is the short form that a simulated fire steps with: it stays within 6 % of
    :func:`woodreeve.wood.flue.flue_loss`, which counts the gas by its parts.

    References
    ----------
    .. [1] Combustion balance; composition and specific heats of the gas from memory.

    Examples
    --------
    >>> round(flue_loss_share(160.0, 20.0, 0.18, 1.6), 3)
    0.09
    """
    water = moisture / (1.0 - moisture)
    gas = 1.01 * (1.0 + 5.93 * air_ratio - 0.54) + 1.9 * (0.54 + water)
    return gas * (flue - room) / (18500.0 - 2443.0 * water)


@worked
def wet_fire_share(moisture: Moisture) -> Share:
    r"""Power of a fire with wet wood, as a share of its power with dry wood.

    Water has to be boiled off before a log can gas, so wet wood burns slowly and cold.

    Parameters
    ----------
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.7.

    Returns
    -------
    Share
        Power over that with wood of 25 % moisture or less. [-] Not below 0.3.

    Raises
    ------
    OutOfRange
        If the moisture lies outside its range.

    Notes
    -----
    .. math:: s = \min\bigl(1, \max(0.3,\ 1 - 2.5\,(M - 0.25))\bigr)

    The slope is judgement: no measured burn of wet logs has been read. Smoke and tar of such a fire
    are not modelled at all.

    References
    ----------
    .. [1] Common practice, no published source.

    Examples
    --------
    >>> wet_fire_share(0.18)
    1.0
    >>> round(wet_fire_share(0.35), 2)
    0.75
    """
    share = 1.0 - 2.5 * (moisture - 0.25)
    share = share if share > 0.3 else 0.3
    return share if share < 1.0 else 1.0


@worked
def flue_rise_for(
    efficiency: Annotated[float, Unit("-"), Ge(0.4), Le(1.0)],
    casing_loss: Share,
    unburnt: Share,
    moisture: Moisture = 0.18,
    air_ratio: AirRatio = 1.6,
    boiler_water: FlueGas = 75.0,
    room: Room = 20.0,
) -> Kelvin:
    r"""How much hotter than its water the flue gas must leave for a boiler to have a stated efficiency.

    Parameters
    ----------
    efficiency : float
        Heat to water over net heat of the wood, at full output. [-] From 0.4 to 1.
    casing_loss : Share
        Loss through the casing over the wood's heat. [-]
    unburnt : Share
        Heat left in gas and char over the wood's heat. [-]
    moisture : Moisture
        Moisture of the test fuel. [-] From 0 to 0.7.
    air_ratio : AirRatio
        Air over the least air. [-] From 1 to 8.
    boiler_water : FlueGas
        Water in the boiler. [degC]
    room : Room
        Boiler room. [degC]

    Returns
    -------
    Kelvin
        Flue gas temperature less water temperature at full output; 0 at least. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: q_A(t_w + r) = 1 - \eta - q_c - q_u

    References
    ----------
    .. [1] The loss formula of ``flue_loss_share`` turned round.

    Examples
    --------
    >>> round(flue_rise_for(0.88, 0.02, 0.01))
    86
    """
    per_kelvin = flue_loss_share(room + 1.0, room, moisture, air_ratio)
    rise = (1.0 - efficiency - casing_loss - unburnt) / per_kelvin + room - boiler_water
    return max(rise, 0.0)


@worked
def boiler_efficiency(
    flue: FlueGas,
    moisture: Moisture,
    casing_loss: Share = 0.02,
    unburnt: Share = 0.01,
    load: Annotated[float, Unit("-"), Gt(0.02), Le(1.5)] = 1.0,
    air_ratio: AirRatio = 1.6,
    room: Room = 20.0,
) -> Annotated[float, Unit("-"), Ge(-3.0), Le(1.1)]:
    r"""Share of the wood's net heat that reaches the water while the fire burns.

    Parameters
    ----------
    flue : FlueGas
        Flue gas after the boiler at this load. [degC]
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.7.
    casing_loss : Share
        Loss through the casing over the heat at full output. [-]
    unburnt : Share
        Heat left in gas and char over the heat burnt. [-]
    load : float
        Power over full power: the casing loses the same at low fire. [-]
    air_ratio : AirRatio
        Air over the least air. [-] From 1 to 8.
    room : Room
        Boiler room. [degC]

    Returns
    -------
    float
        Efficiency on the net heating value. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \eta = 1 - q_A - q_u - q_c / p

    References
    ----------
    .. [1] Balance of heat; losses as in ``flue_loss_share``.

    Examples
    --------
    >>> round(boiler_efficiency(160.0, 0.18), 3)
    0.88
    """
    return 1.0 - flue_loss_share(flue, room, moisture, air_ratio) - unburnt - casing_loss / load


@worked
def tail_share(time: Hour, tail_hours: Annotated[float, Unit("h"), Gt(0.0), Le(24.0)] = 1.1) -> Share:
    r"""Share of the fuel left that a dying fire burns in a certain time.

    The tail is long: leave room in the store for it.

    Parameters
    ----------
    time : Hour
        Time that passes. [h]
    tail_hours : float
        Time in which the burning rate falls to 37 %. [h]

    Returns
    -------
    Share
        Burnt share of what was left. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: s = 1 - e^{-t/\tau}

    References
    ----------
    .. [1] Form and 1.1 h are judgement from earlier trials with a model, not from a measured burn.

    Examples
    --------
    >>> round(tail_share(1.1), 3)
    0.632
    """
    return -math.expm1(-time / tail_hours)


@worked
def fuel_space_kg(
    fuel_space: Litre,
    stacked_density: Annotated[float, Unit("kg/L"), Gt(0.05), Le(1.0)] = 0.40,
    filling: Share = 1.0,
) -> Kilogram:
    r"""Mass of logs that fits into the fuel space.

    Parameters
    ----------
    fuel_space : Litre
        Litres of the fuel space. [L]
    stacked_density : float
        Mass of logs in a stacked litre, as they are burnt; weigh a few fills to know yours. [kg/L]
    filling : Share
        How full a usual full load makes it. [-]

    Returns
    -------
    Kilogram
        A full load. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: m = V\,\rho_s\,f

    References
    ----------
    .. [1] Common practice, no published source: 0.33 (softwood) to 0.45 kg/L (dense hardwood) for
       split logs stacked in a firebox.

    Examples
    --------
    >>> fuel_space_kg(150.0)
    60.0
    """
    return fuel_space * stacked_density * filling


@worked
def charge_flow(
    output: Kilowatt,
    spread: Annotated[float, Unit("K"), Gt(1.0), Le(60.0)] = 20.0,
    heat_capacity: Annotated[float, Unit("kJ/(kg*K)"), Ge(3.0), Le(4.5)] = 4.19,
) -> Annotated[float, Unit("kg/h"), Ge(0.0), Le(5e6)]:
    r"""Water that carries a boiler's output at a certain spread.

    Parameters
    ----------
    output : Kilowatt
        Heat to carry. [kW]
    spread : float
        Flow less return temperature. [K]
    heat_capacity : float
        Specific heat of the water. [kJ/(kg*K)]

    Returns
    -------
    float
        Mass flow. [kg/h]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \dot m = P / (c\,\Delta T)

    References
    ----------
    .. [1] Balance of heat; row mix02.

    Examples
    --------
    >>> round(charge_flow(25.0))
    1074
    """
    return output / (heat_capacity * spread) * 3600.0


@worked
def store_rise(
    heat: KilowattHour,
    store: Annotated[Litre, Gt(0.0)],
    heat_capacity: Annotated[float, Unit("kWh/(m3*K)"), Ge(1.0), Le(1.2)] = 1.163,
) -> Kelvin:
    r"""How much a store warms when a fire's heat goes into it and nothing is drawn.

    Parameters
    ----------
    heat : KilowattHour
        Heat to the water. [kWh]
    store : Litre
        Water in the store. [L] More than 0.
    heat_capacity : float
        Heat for a cubic metre and degree: 1.163 as commonly reckoned, about 1.13 for hot water. [kWh/(m3*K)]

    Returns
    -------
    Kelvin
        Mean rise. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta T = Q / (V\,c)

    References
    ----------
    .. [1] Balance of heat; rows day06 to day08, day11.

    Examples
    --------
    >>> round(store_rise(180.0, 2500.0), 1)
    61.9
    """
    return heat / (store / 1000.0 * heat_capacity)
