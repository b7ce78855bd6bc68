"""The heat of a day, the hours of fire it takes, and the store that carries it."""

from __future__ import annotations

from typing import Annotated

from woodreeve.units import Ge, Gt, Hour, Kilowatt, KilowattHour, Le, Litre, Unit
from woodreeve.workings import worked

__all__ = [
    "fires_for_heat",
    "heat_over_hours",
    "heat_to_water",
    "hours_of_fire",
    "hours_to_fill",
    "night_heat",
    "store_for_heat",
]

Water = Annotated[float, Unit("degC"), Ge(0.0), Le(110.0)]
Content = Annotated[float, Unit("L"), Gt(0.0), Le(1e5)]
Fire = Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)]
FlatHeat = Annotated[float, Unit("kWh/(m3*K)"), Ge(1.0), Le(1.2)]


@worked
def heat_over_hours(load: Kilowatt, hours: Hour = 24.0) -> KilowattHour:
    r"""Heat that a load takes over so many hours.

    Parameters
    ----------
    load : Kilowatt
        Mean heat load, :math:`P`. [kW]
    hours : Hour
        How long, :math:`t`. [h]

    Returns
    -------
    KilowattHour
        Heat. [kWh]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Q = P\,t

    References
    ----------
    .. [1] Definition; worked day of Bioenergi 2-98, novator.se (read); rows PL-day01 and PL-day03.

    Examples
    --------
    >>> heat_over_hours(6.0, 18.0)
    108.0
    """
    return load * hours


@worked
def night_heat(load: Kilowatt, hours: Hour = 8.0) -> KilowattHour:
    r"""Heat that the house takes through a night in which nobody tends the fire.

    Parameters
    ----------
    load : Kilowatt
        Heat load of the coldest day, :math:`P`. [kW]
    hours : Hour
        Length of the night, :math:`t`. [h]

    Returns
    -------
    KilowattHour
        Heat. [kWh]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Q = P\,t

    References
    ----------
    .. [1] Balance of heat; eight hours are judgement.

    Examples
    --------
    >>> night_heat(6.0)
    48.0
    """
    return heat_over_hours(load, hours)


@worked
def hours_of_fire(heat: KilowattHour, output: Fire) -> Hour:
    r"""Hours of fire at full output that give a certain heat.

    Parameters
    ----------
    heat : KilowattHour
        Heat wanted, :math:`Q`. [kWh]
    output : Fire
        Rated output, :math:`P`. [kW] Above 0, to 500.

    Returns
    -------
    Hour
        Hours of fire. [h]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: t = Q / P

    References
    ----------
    .. [1] Worked days of Bioenergi 2-98, novator.se, and alternativ.nu topic 92046 (both read); rows PL-day02
       and PL-day09.

    Examples
    --------
    >>> hours_of_fire(144.0, 25.0)
    5.76
    """
    return heat / output


@worked
def store_for_heat(
    heat: KilowattHour, cold: Water = 40.0, hot: Water = 90.0, heat_capacity: FlatHeat = 1.163
) -> Litre:
    r"""Store that holds a certain heat between two temperatures.

    Parameters
    ----------
    heat : KilowattHour
        Heat to hold, :math:`Q`. [kWh]
    cold : Water
        Where it begins. [degC] From 0 to 110.
    hot : Water
        Where it ends, above ``cold``. [degC] From 0 to 110.
    heat_capacity : FlatHeat
        Heat for a cubic metre and degree: 1.163 as commonly reckoned, 1.13 for hot water. [kWh/(m3*K)]

    Returns
    -------
    Litre
        Content. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V = Q / \bigl(c\,(T_h - T_c)\bigr)

    References
    ----------
    .. [1] Worked day of Bioenergi 2-98, novator.se (read): 108 kWh over 40 to 90 °C is 1.8 m3; row PL-day04.

    Examples
    --------
    >>> round(store_for_heat(108.0))
    1857
    """
    return heat / (heat_capacity * max(hot - cold, 0.1)) * 1000.0


@worked
def heat_to_water(
    heat: KilowattHour, efficiency: Annotated[float, Unit("-"), Ge(0.0), Le(1.1)]
) -> KilowattHour:
    r"""Heat that reaches the water, of the heat in the wood.

    Parameters
    ----------
    heat : KilowattHour
        Net heat in the wood, :math:`Q`. [kWh]
    efficiency : float
        Net efficiency, :math:`\eta`. [-] From 0 to 1.1.

    Returns
    -------
    KilowattHour
        Heat to the water. [kWh]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Q_w = \eta\,Q

    References
    ----------
    .. [1] Bioenergi 2-96, novator.se (read): 1.3 kWh a stacked litre at 75 % is about 1.0; row PL-day10.

    Examples
    --------
    >>> round(heat_to_water(1.3, 0.75), 3)
    0.975
    """
    return heat * efficiency


@worked
def hours_to_fill(
    store: Content,
    output: Fire,
    swing: Annotated[float, Unit("K"), Gt(0.0), Le(100.0)] = 50.0,
    heat_capacity: FlatHeat = 1.163,
) -> Hour:
    r"""Hours for which a store takes up a boiler's full output when nothing is drawn.

    Parameters
    ----------
    store : Content
        Water in the store, :math:`V`. [L] Above 0.
    output : Fire
        Rated output, :math:`P`. [kW] Above 0, to 500.
    swing : float
        Rise of the whole store, :math:`\Delta T`. [K] Above 0, to 100.
    heat_capacity : FlatHeat
        Heat for a cubic metre and degree. [kWh/(m3*K)]

    Returns
    -------
    Hour
        Hours at full output. [h]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: t = V\,c\,\Delta T / P

    References
    ----------
    .. [1] Balance of heat; row PL-day12: 55 litres a kilowatt take 3.2 hours.

    Examples
    --------
    >>> round(hours_to_fill(1375.0, 25.0), 1)
    3.2
    """
    return store / 1000.0 * heat_capacity * swing / output


@worked
def fires_for_heat(
    heat: KilowattHour, load: Annotated[KilowattHour, Gt(0.0)]
) -> Annotated[float, Unit("1"), Ge(0.0), Le(1000.0)]:
    r"""Full loads that give a certain heat.

    Parameters
    ----------
    heat : KilowattHour
        Heat wanted, :math:`Q`. [kWh]
    load : KilowattHour
        Heat of one full load, :math:`q`. [kWh] Above 0.

    Returns
    -------
    float
        Full loads. [1]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: n = Q/q

    References
    ----------
    .. [1] Balance of heat.

    Examples
    --------
    >>> fires_for_heat(144.0, 96.0)
    1.5
    """
    return heat / load
