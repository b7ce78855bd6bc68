"""What a store can take up from a load, and what it gives before it is too cold for the curve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.diary.payloads_plant import Lit
from woodreeve.plant.boiler import fuel_space_kg
from woodreeve.plant.checks.store_day import heat_to_water
from woodreeve.plant.water import heat_in_water
from woodreeve.units import (
    DryHeat,
    Ge,
    Gt,
    Kilowatt,
    KilowattHour,
    Le,
    Moisture,
    Share,
    Unit,
    Watt,
    WattPerKelvin,
)
from woodreeve.wood.heat import net_heat
from woodreeve.workings import worked

__all__ = [
    "LitAt",
    "LoadIntoStore",
    "UsableHeat",
    "heat_of_full_load",
    "label_loss",
    "lighting_temperature",
    "load_beyond_house",
    "load_into_store",
    "return_of",
    "usable_store_heat",
]

Water = Annotated[float, Unit("degC"), Ge(0.0), Le(110.0)]
Content = Annotated[float, Unit("L"), Gt(0.0), Le(1e5)]

COLD_AT_LIGHTING_C = 40.0
"""Mean temperature of a store when its fire is lit, where the diary does not tell: as in the Swedish
worked day. [degC]"""
RETURN_BELOW_FLOW_K = 10.0
"""Return below flow, where the circuit's spread is not told. Common practice. [K]"""


@worked
def heat_of_full_load(
    fuel_space: Annotated[float, Unit("L"), Gt(0.0), Le(2000.0)],
    efficiency: Annotated[float, Unit("-"), Ge(0.3), Le(1.05)] = 0.80,
    filling: Share = 1.0,
    moisture: Moisture = 0.18,
    stacked_density: Annotated[float, Unit("kg/L"), Gt(0.05), Le(1.0)] = 0.40,
    net_heat_dry: DryHeat = 18.9,
) -> KilowattHour:
    r"""Heat that one full load brings into the water.

    Parameters
    ----------
    fuel_space : float
        Litres of the fuel space, :math:`F`. [L] Above 0, to 2000.
    efficiency : float
        Net efficiency over the whole fire, :math:`\eta`. [-] From 0.3 to 1.05.
    filling : Share
        How full a usual full load makes it. [-]
    moisture : Moisture
        Of the wood, :math:`M`. [-] From 0 to 0.7.
    stacked_density : float
        Mass of logs in a stacked litre. [kg/L]
    net_heat_dry : DryHeat
        Net calorific value of the oven-dry wood. [MJ/kg] From 15 to 22.

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
    .. math:: Q = \eta\, m(F)\, q(M)

    with the mass of :func:`woodreeve.plant.boiler.fuel_space_kg`. Weigh a few loads: split logs lie between
    0.33 and 0.45 kg in a litre.

    References
    ----------
    .. [1] Balance of heat; stacked density common practice, no published source.

    Examples
    --------
    >>> round(heat_of_full_load(120.0))
    161
    """
    mass = fuel_space_kg(fuel_space, stacked_density, filling)
    return heat_to_water(mass * net_heat(net_heat_dry, moisture) / 3.6, efficiency)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadIntoStore:
    """How one full load meets the store.

    Parameters
    ----------
    room_kwh : float
        Heat the store can still take. [kWh]
    load_kwh : float
        Heat of one full load. [kWh]
    share : float
        Part of a full load that fits when the house draws nothing. [-]
    """

    room_kwh: KilowattHour
    load_kwh: KilowattHour
    share: Annotated[float, Unit("-"), Ge(0.0), Le(100.0)]


@worked
def load_into_store(
    load: Annotated[KilowattHour, Gt(0.0)], store: Content, limit: Water = 90.0, lit_at: Water = 40.0
) -> LoadIntoStore:
    r"""How much of a full load the store can take, from the temperature it is really at.

    The size of a store says little: what counts is the room left in it when the fire is lit.

    Parameters
    ----------
    load : KilowattHour
        Heat of a full load, :math:`Q`. [kWh] Above 0.
    store : Content
        Water in the store, :math:`V`. [L] Above 0.
    limit : Water
        Hottest store allowed, :math:`T_l`. [degC] From 0 to 110.
    lit_at : Water
        Its mean temperature when the fire is lit, :math:`T_0`. [degC] From 0 to 110.

    Returns
    -------
    LoadIntoStore
        Room, load, and the part of it that fits.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: x = \frac{V \rho(T_l)\,\bigl(h(T_l) - h(T_0)\bigr)}{Q}

    References
    ----------
    .. [1] Balance of heat; :func:`woodreeve.plant.water.heat_in_water`.

    Examples
    --------
    >>> round(load_into_store(120.0, 2064.0).share, 2)
    0.97
    """
    room = heat_in_water(store, lit_at, limit) if limit > lit_at else 0.0
    return LoadIntoStore(room_kwh=room, load_kwh=load, share=room / load)


@worked
def load_beyond_house(
    load: KilowattHour,
    house: Kilowatt,
    output: Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)],
) -> KilowattHour:
    r"""What a full load leaves for the store after the house has drawn its part while it burns.

    Parameters
    ----------
    load : KilowattHour
        Heat of a full load, :math:`Q`. [kWh]
    house : Kilowatt
        Heat the house draws meanwhile, :math:`P_h`. [kW]
    output : float
        Rated output of the boiler, :math:`P`. [kW] Above 0, to 500.

    Returns
    -------
    KilowattHour
        Heat for the store; 0 where the house takes all. [kWh]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Q_s = \max\bigl(0,\ Q - P_h\,Q/P\bigr)

    References
    ----------
    .. [1] Worked day of Bioenergi 2-98, novator.se (read).

    Examples
    --------
    >>> load_beyond_house(120.0, 10.0, 25.0)
    72.0
    """
    left: float = load - house * load / output
    return max(0.0, left)


@dataclass(frozen=True, slots=True, kw_only=True)
class UsableHeat:
    """Heat a full store gives before its water is too cold for the curve."""

    kwh: KilowattHour
    mixed_kwh: KilowattHour
    layered_kwh: KilowattHour


@worked
def usable_store_heat(store: Content, hot: Water, flow_needed: Water, back: Water) -> UsableHeat:
    r"""Heat that a full store gives down to the flow temperature the curve needs.

    A store is empty for heating when its top is colder than the curve's flow, so it lasts longer in mild
    weather. Well layered, all its water leaves hot and comes back as cold as the return; mixed, it is of no
    use once the whole is as cold as the flow.

    Parameters
    ----------
    store : Content
        Water in the store, :math:`V`. [L] Above 0.
    hot : Water
        Temperature when full, :math:`T_h`. [degC] From 0 to 110.
    flow_needed : Water
        Flow the curve asks for, :math:`T_f`. [degC] From 0 to 110.
    back : Water
        Return of the circuits, :math:`T_r`. [degC] From 0 to 110.

    Returns
    -------
    UsableHeat
        Mixed, layered, and the middle of both.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Q_{mixed} = V \rho\,\bigl(h(T_h) - h(T_f)\bigr), \quad
       Q_{layered} = V \rho\,\bigl(h(T_h) - h(T_r)\bigr)

    References
    ----------
    .. [1] Balance of heat; real stores lie between the two.

    Examples
    --------
    >>> round(usable_store_heat(1500.0, 88.0, 55.0, 45.0).mixed_kwh)
    56
    """
    mixed = heat_in_water(store, flow_needed, hot) if hot > flow_needed else 0.0
    layered = heat_in_water(store, min(back, flow_needed), hot) if hot > flow_needed else 0.0
    return UsableHeat(kwh=0.5 * (mixed + layered), mixed_kwh=mixed, layered_kwh=layered)


@worked
def label_loss(
    loss: WattPerKelvin, difference: Annotated[float, Unit("K"), Ge(0.0), Le(100.0)] = 45.0
) -> Watt:
    r"""Standing loss of a store as its label states it.

    Parameters
    ----------
    loss : WattPerKelvin
        Loss for each degree, :math:`UA`. [W/K]
    difference : float
        Water above its room: 45 K on the label. [K] From 0 to 100.

    Returns
    -------
    Watt
        Loss. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: S = UA\,\Delta T

    References
    ----------
    .. [1] Label condition of 65 °C in 20 °C: heizungsjournal.de 13870 (read).

    Examples
    --------
    >>> round(label_loss(3.304), 1)
    148.7
    """
    return loss * difference


@dataclass(frozen=True, slots=True, kw_only=True)
class LitAt:
    """How warm the store was when fires were lit."""

    mean_c: Annotated[float, Unit("degC"), Ge(0.0), Le(110.0)]
    fires: int


@worked
def lighting_temperature(readings: tuple[Lit, ...] = (), assumed: Water = COLD_AT_LIGHTING_C) -> LitAt:
    r"""Mean temperature of the store when its fires are lit, from the diary.

    Parameters
    ----------
    readings : tuple of Lit
        Lightings with store temperatures, the last twenty count.
    assumed : Water
        Taken where the diary tells of none. [degC] From 0 to 110.

    Returns
    -------
    LitAt
        Mean temperature and how many fires told it.

    Raises
    ------
    OutOfRange
        If the assumed temperature lies outside its range.

    Notes
    -----
    .. math:: T_0 = \frac1n \sum \bar T_i

    The mean of the gauges read at each fire, then of the fires.

    References
    ----------
    .. [1] The owner's diary; 40 °C as in Bioenergi 2-98, novator.se (read).

    Examples
    --------
    >>> lighting_temperature().mean_c
    40.0
    """
    means = []
    for one in readings[-20:]:
        gauges = [one.store_top_c, one.store_middle_c, one.store_bottom_c]
        known = [gauge for gauge in gauges if gauge is not None]
        if len(known) >= 2:
            means.append(sum(known) / len(known))
    if not means:
        return LitAt(mean_c=assumed, fires=0)
    return LitAt(mean_c=sum(means) / len(means), fires=len(means))


@worked
def return_of(
    flow: Water, spread: Annotated[float, Unit("K"), Ge(0.0), Le(40.0)] = RETURN_BELOW_FLOW_K
) -> Water:
    r"""Return that goes with a flow.

    Parameters
    ----------
    flow : Water
        Flow. [degC] From 0 to 110.
    spread : float
        How much the water cools. [K] From 0 to 40.

    Returns
    -------
    Water
        Return. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: T_r = T_f - \Delta T

    References
    ----------
    .. [1] EN 442 rates radiators at 75/65/20 °C, so 10 K (read at designer-warmth-radiators.co.uk).

    Examples
    --------
    >>> return_of(55.0)
    45.0
    """
    return max(flow - spread, 0.0)
