"""How big a store each published rule asks for."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from woodreeve.units import Ge, Gt, Hour, Kilowatt, Le, Litre, Unit
from woodreeve.workings import worked

__all__ = [
    "Feed",
    "en303_store",
    "eu_sheet_floor_output",
    "eu_sheet_store",
    "german_store",
    "litres_per_kilowatt",
]

Feed: TypeAlias = Literal["by_hand", "automatic"]
"""How the boiler is fed: logs by hand, or pellets and chips by a screw."""

Output = Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)]
FuelSpace = Annotated[float, Unit("L"), Ge(0.0), Le(2000.0)]
PerKilowatt = Annotated[float, Unit("L/kW"), Gt(0.0), Le(500.0)]


@worked
def litres_per_kilowatt(output: Output, litres: PerKilowatt = 55.0) -> Litre:
    r"""Store by a rule of so many litres for each kilowatt.

    A legal minimum is no good size: at 55 litres and 50 K the store takes three hours of full output.

    Parameters
    ----------
    output : Output
        Rated output of the boiler, :math:`P`. [kW] Above 0, to 500.
    litres : PerKilowatt
        Litres for each kilowatt, :math:`v`: 55 for logs in Germany, Switzerland and Czech grants. [L/kW]

    Returns
    -------
    Litre
        Least store. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V = v\,P

    References
    ----------
    .. [1] 1. BImSchV (Germany, 26 January 2010), section 5(4) (read): 55 L/kW for logs, 20 L/kW automatic.
    .. [2] Canton of Solothurn, questions on wood heating (read): 55 and 25 L/kW; tzb-info.cz 22603 (read):
       55 L/kW in Czech grants; heizung.de (read): 30 L/kW for pellets in German grants of 2021.

    Examples
    --------
    >>> litres_per_kilowatt(25.0)
    1375.0
    """
    return litres * output


@worked
def german_store(output: Output, fuel_space: FuelSpace = 0.0, feed: Feed = "by_hand") -> Litre:
    r"""Store that the German rule asks for, its advice and its minimum taken together.

    The law wants 55 litres for each kilowatt, and says that there should be 12 litres for each litre of
    fuel space.

    Parameters
    ----------
    output : Output
        Rated output, :math:`P`. [kW] Above 0, to 500.
    fuel_space : FuelSpace
        Litres of the fuel space, :math:`F`. [L] From 0 to 2000.
    feed : Feed
        How the boiler is fed; automatic ones need 20 litres for each kilowatt.

    Returns
    -------
    Litre
        The larger of the two. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V = \max(12\,F,\ 55\,P)

    Plants that always run at full load beside a boiler for peaks are exempt.

    References
    ----------
    .. [1] 1. BImSchV (Germany, 26 January 2010), section 5(4) (read); rows PL-buf01 to PL-buf03.

    Examples
    --------
    >>> german_store(30.0, 150.0)
    1800.0
    """
    if feed == "automatic":
        return litres_per_kilowatt(output, 20.0)
    return max(12.0 * fuel_space, litres_per_kilowatt(output, 55.0))


@worked
def eu_sheet_store(output: Output, feed: Feed = "by_hand") -> Litre:
    r"""Store that the European product sheet recommends with a boiler.

    Parameters
    ----------
    output : Output
        Rated output, :math:`P`. [kW] Above 0, to 500.
    feed : Feed
        How the boiler is fed.

    Returns
    -------
    Litre
        Store of the sheet. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V = \max\bigl(300,\ 45\,P\,(1 - 2.7/P)\bigr)\ \text{by hand},\qquad V = 20\,P\ \text{automatic}

    References
    ----------
    .. [1] Commission Regulation (EU) 2015/1189, Annex II, Table 1, notes 1 and 2 (read); rows PL-buf04 to
       PL-buf06.

    Examples
    --------
    >>> round(eu_sheet_store(20.0), 1)
    778.5
    """
    if feed == "automatic":
        return litres_per_kilowatt(output, 20.0)
    return max(300.0, 45.0 * output * (1.0 - 2.7 / output))


@worked
def eu_sheet_floor_output(floor: Annotated[float, Unit("L"), Ge(0.0), Le(20000.0)] = 300.0) -> Kilowatt:
    r"""Output from which the European sheet asks for more than its floor of 300 litres.

    Parameters
    ----------
    floor : float
        The least store of the sheet, :math:`V`. [L] From 0 to 20000.

    Returns
    -------
    Kilowatt
        Output at which the formula gives just that. [kW]

    Raises
    ------
    OutOfRange
        If the floor lies outside its range.

    Notes
    -----
    .. math:: P = V/45 + 2.7

    References
    ----------
    .. [1] Commission Regulation (EU) 2015/1189, Annex II, Table 1 (read), turned round; row PL-buf07.

    Examples
    --------
    >>> round(eu_sheet_floor_output(), 3)
    9.367
    """
    return floor / 45.0 + 2.7


@worked
def en303_store(burn_hours: Hour, output: Output, house_load: Kilowatt, least_output: Output) -> Litre:
    r"""Store by the formula of the boiler standard: what a load gives beyond what the house takes.

    Some makers say that no store is needed where this gives less than 300 litres, others that 300 is the
    least: the sources disagree.

    Parameters
    ----------
    burn_hours : Hour
        Burning time of a full load, :math:`T_b`. [h]
    output : Output
        Rated output, :math:`Q_N`. [kW] Above 0, to 500.
    house_load : Kilowatt
        Heat load of the house, :math:`Q_H`. [kW]
    least_output : Output
        Least output of the boiler, :math:`Q_{min}`. [kW] Above 0, to 500.

    Returns
    -------
    Litre
        Least store, 0 where the house takes all. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V = \max\bigl(0,\ 15\,T_b\,Q_N\,(1 - 0.3\,Q_H/Q_{min})\bigr)

    References
    ----------
    .. [1] EN 303-5:2012 as quoted in a boiler maker's manual (read there, with a worked example: 735 L);
       rows PL-buf08 and PL-buf09.

    Examples
    --------
    >>> round(en303_store(2.0, 32.0, 25.0, 32.0))
    735
    """
    return max(0.0, 15.0 * burn_hours * output * (1.0 - 0.3 * house_load / least_output))
