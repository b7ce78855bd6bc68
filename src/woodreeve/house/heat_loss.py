"""What the house loses for each degree of difference: through its shell, and with the air."""

from __future__ import annotations

from typing import Annotated, Literal

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Floats, Ge, Gt, Kilowatt, Le, Unit, Watt, WattPerKelvin
from woodreeve.weather.degree_days import Temperatures
from woodreeve.workings import worked

__all__ = [
    "AIR_HEAT",
    "RoomTemperature",
    "air_changes_of",
    "air_heat_loss",
    "base_temperature",
    "bridge_surcharge",
    "design_load",
    "fabric_heat_loss",
    "heat_by_degree_hours",
    "heat_flow",
]

AIR_HEAT = 1.2 / 3.6
"""Heat that warms a cubic metre of air by a degree. [Wh/(m3*K)] (MacKay, p. 289: 1.2 kJ)"""

RoomTemperature = Annotated[float, Unit("degC"), Ge(0.0), Le(40.0)]
OutdoorTemperature = Annotated[float, Unit("degC"), Ge(-50.0), Le(50.0)]


@worked
def fabric_heat_loss(
    area_m2: Annotated[Floats, Unit("m2"), Ge(0.0), Le(5000.0)],
    u_value: Annotated[Floats, Unit("W/(m2*K)"), Ge(0.0), Le(7.0)],
    surcharge: Annotated[float, Unit("W/(m2*K)"), Ge(0.0), Le(0.5)] = 0.0,
) -> WattPerKelvin:
    r"""Heat that goes through walls, roof, floor, windows and doors, for each degree.

    Parameters
    ----------
    area_m2 : Floats
        Area of each part, :math:`A`. [m2] From 0 to 5000.
    u_value : Floats
        U-value of each part, :math:`U`. [W/(m2*K)] From 0 to 7.
    surcharge : float
        Added to every U-value for corners and edges, :math:`\Delta U`. [W/(m2*K)] From 0 to 0.5.

    Returns
    -------
    WattPerKelvin
        Heat loss. [W/K]

    Raises
    ------
    OutOfRange
        If a value lies outside its range, or the lists differ in length.

    Notes
    -----
    .. math:: H = \sum_i A_i (U_i + \Delta U)

    References
    ----------
    .. [1] The Open University, OpenLearn "Energy in buildings", 2.4.1,
       https://www.open.edu/openlearn/nature-environment/energy-buildings/content-section-2.4.1

    Examples
    --------
    >>> round(fabric_heat_loss(np.array([48.0, 80.0]), np.array([0.25, 0.35])), 1)
    40.0
    """
    if np.shape(area_m2) != np.shape(u_value):
        raise OutOfRange("u_value", f"{np.size(u_value)} values long", f"{np.size(area_m2)} values long")
    return float(np.sum(np.asarray(area_m2) * (np.asarray(u_value) + surcharge)))


@worked
def air_heat_loss(
    air_changes: Annotated[float, Unit("1/h"), Ge(0.0), Le(10.0)],
    volume_m3: Annotated[float, Unit("m3"), Gt(0.0), Le(20000.0)],
    air_heat: Annotated[float, Unit("Wh/(m3*K)"), Ge(0.25), Le(0.40)] = AIR_HEAT,
) -> WattPerKelvin:
    r"""Heat that goes with the air through draughts, flues and open windows, for each degree.

    Parameters
    ----------
    air_changes : float
        How often an hour the air is renewed, :math:`n`. [1/h] From 0 to 10.
    volume_m3 : float
        Volume of the rooms, :math:`V`. [m3] Above 0, to 20000.
    air_heat : float
        Heat that warms a cubic metre by a degree, :math:`c`. [Wh/(m3*K)] From 0.25 to 0.40.

    Returns
    -------
    WattPerKelvin
        Heat loss. [W/K]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: H = c\,n\,V

    References
    ----------
    .. [1] D. MacKay, "Sustainable Energy - without the hot air", p. 289 (1.2 kJ/(m3 K)),
       http://www.withouthotair.com/cE/page_289.shtml
    .. [2] EN 12831-1 simplified uses 0.34 Wh/(m3 K) (from memory).

    Examples
    --------
    >>> round(air_heat_loss(1.0, 250.0), 2)
    83.33
    """
    return air_heat * air_changes * volume_m3


@worked
def heat_flow(heat_loss_w_k: WattPerKelvin, inside_c: RoomTemperature, outside_c: OutdoorTemperature) -> Watt:
    r"""Heat that flows out at a given difference of temperatures.

    Parameters
    ----------
    heat_loss_w_k : WattPerKelvin
        Heat loss for each degree, :math:`H`. [W/K]
    inside_c : RoomTemperature
        Room temperature. [degC] From 0 to 40.
    outside_c : OutdoorTemperature
        Outdoor temperature. [degC] From -50 to 50.

    Returns
    -------
    Watt
        Heat flow. [W]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \Phi = H (T_i - T_e)

    References
    ----------
    .. [1] Definition of the heat loss coefficient.

    Examples
    --------
    >>> heat_flow(300.0, 20.0, 0.0)
    6000.0
    """
    return heat_loss_w_k * (inside_c - outside_c)


@worked
def design_load(
    heat_loss_w_k: WattPerKelvin,
    inside_c: RoomTemperature,
    design_outdoor_c: OutdoorTemperature,
    *,
    floor_area_m2: Annotated[float, Unit("m2"), Ge(0.0), Le(10000.0)] = 0.0,
    reheat_w_m2: Annotated[float, Unit("W/m2"), Ge(0.0), Le(40.0)] = 0.0,
) -> Kilowatt:
    r"""Power that keeps the house warm on the coldest days it is built for.

    Parameters
    ----------
    heat_loss_w_k : WattPerKelvin
        Heat loss for each degree, :math:`H`. [W/K]
    inside_c : RoomTemperature
        Room temperature, :math:`T_i`. [degC] From 0 to 40.
    design_outdoor_c : OutdoorTemperature
        Design outdoor temperature, :math:`T_{des}`. [degC] From -50 to 50.
    floor_area_m2 : float
        Heated floor area, :math:`A`, for the extra power. [m2] From 0 to 10000.
    reheat_w_m2 : float
        Extra power for heating up after the night, :math:`r`. [W/m2] From 0 to 40.

    Returns
    -------
    Kilowatt
        Design load of the rooms, without hot water. [kW]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: P = \max(0, H (T_i - T_{des}) + r A) / 1000

    References
    ----------
    .. [1] EN 12831-1, standard heat load, simplified (from memory).

    Examples
    --------
    >>> design_load(350.0, 20.0, -5.0)
    8.75
    """
    return max(0.0, heat_loss_w_k * (inside_c - design_outdoor_c) + reheat_w_m2 * floor_area_m2) / 1000.0


@worked
def base_temperature(
    inside_c: RoomTemperature,
    useful_gains_w: Annotated[float, Unit("W"), Ge(0.0), Le(50000.0)],
    heat_loss_w_k: Annotated[float, Unit("W/K"), Gt(0.0), Le(1e5)],
) -> Annotated[float, Unit("degC"), Ge(-50.0), Le(40.0)]:
    r"""Outdoor temperature below which the house wants heat.

    Old leaky houses have it at 17 to 19 °C, not at the 15.5 °C of the tables: their gains count for
    less beside their losses.

    Parameters
    ----------
    inside_c : RoomTemperature
        Mean room temperature, :math:`T_i`. [degC] From 0 to 40.
    useful_gains_w : float
        Heat from people, appliances and sun that takes the place of heating, :math:`G`. [W]
        From 0 to 50000.
    heat_loss_w_k : float
        Heat loss for each degree, :math:`H`. [W/K] Above 0, to 100000.

    Returns
    -------
    float
        Base temperature. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T_b = T_i - G / H

    References
    ----------
    .. [1] Follows from the steady heat balance.

    Examples
    --------
    >>> round(base_temperature(20.0, 400.0, 350.0), 2)
    18.86
    """
    return inside_c - useful_gains_w / heat_loss_w_k


@worked
def bridge_surcharge(
    quality: Literal["good", "fair", "ordinary", "poor"],
) -> Annotated[float, Unit("W/(m2*K)"), Ge(0.0), Le(0.2)]:
    r"""What corners, sills and edges add to every U-value.

    Parameters
    ----------
    quality : {"good", "fair", "ordinary", "poor"}
        ``ordinary`` for old houses; ``poor`` where insulation inside is broken by solid floors.

    Returns
    -------
    float
        Surcharge. [W/(m2*K)]

    Raises
    ------
    UnknownName
        If the quality is none of the four.

    Notes
    -----
    .. math:: \Delta U \in \{0.02, 0.05, 0.10, 0.15\}

    References
    ----------
    .. [1] EN 12831-1, table B.1 (classes read in a copy of the table; their use for old houses from memory).

    Examples
    --------
    >>> bridge_surcharge("ordinary")
    0.1
    """
    return {"good": 0.02, "fair": 0.05, "ordinary": 0.10, "poor": 0.15}[quality]


@worked
def air_changes_of(
    draughts: Literal["very_draughty", "draughty", "ordinary", "tight"],
) -> Annotated[float, Unit("1/h"), Ge(0.0), Le(6.0)]:
    r"""Air changes of a house, from how draughty it feels.

    Parameters
    ----------
    draughts : {"very_draughty", "draughty", "ordinary", "tight"}
        ``very_draughty``: Victorian and untouched; ``draughty``: old, with some windows made good;
        ``ordinary``: from the middle of the twentieth century on; ``tight``: sealed with care.

    Returns
    -------
    float
        Air changes, right to within 40 %. [1/h]

    Raises
    ------
    UnknownName
        If it is none of the four.

    Notes
    -----
    .. math:: n \in \{2, 1.5, 1, 0.5\}

    References
    ----------
    .. [1] "Ventilation and heat loss", http://secrets-of-self-sufficiency.com/ventilation-and-heat-loss
       (Victorian 2 or more, modern 1, well sealed 0.5; ``draughty`` lies between, by judgement).
    .. [2] D. MacKay, "Sustainable Energy - without the hot air", Table E.1.

    Examples
    --------
    >>> air_changes_of("very_draughty")
    2.0
    """
    return {"very_draughty": 2.0, "draughty": 1.5, "ordinary": 1.0, "tight": 0.5}[draughts]


@worked
def heat_by_degree_hours(
    temperature_c: Temperatures,
    heat_loss_w_k: WattPerKelvin,
    base_c: Annotated[float, Unit("degC"), Ge(0.0), Le(30.0)],
) -> Annotated[float, Unit("kWh"), Ge(0.0), Le(1e8)]:
    r"""Space heat by losses times degree hours: the plainest reckoning, for comparison.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour, :math:`T_h`. [degC] From -60 to 60.
    heat_loss_w_k : WattPerKelvin
        Heat loss for each degree, :math:`H`. [W/K]
    base_c : float
        Base temperature, :math:`T_b`. [degC] From 0 to 30.

    Returns
    -------
    float
        Space heat of the span. [kWh]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q = \frac{H}{1000} \sum_h \max(0, T_b - T_h)

    References
    ----------
    .. [1] Follows from the steady heat balance.

    Examples
    --------
    >>> heat_by_degree_hours(np.full(10, 5.0), 300.0, 15.0)
    30.0
    """
    return float(heat_loss_w_k * np.maximum(0.0, base_c - np.asarray(temperature_c)).sum() / 1000.0)
