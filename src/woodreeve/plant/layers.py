"""How the layers of a store stay apart, and what smears them."""

from __future__ import annotations

import math
from typing import Annotated

from woodreeve.units import (
    Celsius,
    Ge,
    Gt,
    Hour,
    Kelvin,
    KilowattHour,
    Le,
    Litre,
    Share,
    Unit,
    WattPerKelvin,
)
from woodreeve.workings import worked

__all__ = [
    "front_share",
    "inlet_richardson",
    "layered_heat",
    "limited_half_step",
    "mixed_store_after",
    "step_at_rest",
    "superficial_speed",
]

Height = Annotated[float, Unit("m"), Gt(0.0), Le(10.0)]
Water = Annotated[float, Unit("degC"), Ge(-20.0), Le(150.0)]


@worked
def mixed_store_after(
    start: Water,
    room: Celsius,
    loss: WattPerKelvin,
    mass: Annotated[float, Unit("kg"), Gt(0.0)],
    time: Hour,
    heat_capacity: Annotated[float, Unit("kJ/(kg*K)"), Ge(3.0), Le(4.5)] = 4.19,
) -> Celsius:
    r"""Temperature of a mixed store left alone.

    Parameters
    ----------
    start : Water
        Temperature at the beginning. [degC]
    room : Celsius
        Room around it. [degC]
    loss : WattPerKelvin
        Standing loss. [W/K]
    mass : float
        Water in it. [kg] More than 0.
    time : Hour
        Time left alone. [h]
    heat_capacity : float
        Specific heat. [kJ/(kg*K)]

    Returns
    -------
    Celsius
        Temperature at the end. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: T = T_a + (T_0 - T_a)\,e^{-UA\,t/(m c)}

    References
    ----------
    .. [1] Newton's law of cooling; row sto04.

    Examples
    --------
    >>> round(mixed_store_after(80.0, 15.0, 2.5, 1000.0, 24.0), 2)
    76.73
    """
    return room + (start - room) * math.exp(-loss * time * 3600.0 / (mass * heat_capacity * 1000.0))


@worked
def step_at_rest(
    hot: Water,
    cold: Water,
    above: Annotated[float, Unit("m"), Ge(-5.0), Le(5.0)],
    time: Annotated[float, Unit("h"), Gt(0.0), Le(10000.0)],
    diffusivity: Annotated[float, Unit("mm2/s"), Gt(0.0), Le(10.0)] = 0.1582,
) -> Celsius:
    r"""Temperature near a sharp boundary of hot over cold water that rests.

    Water conducts so badly that a day at rest blurs the boundary by a hand's breadth only; flow,
    pipes and the tank's own wall blur it more.

    Parameters
    ----------
    hot : Water
        Water above. [degC]
    cold : Water
        Water below. [degC]
    above : float
        Height above the boundary, negative below it. [m]
    time : float
        Time at rest. [h] More than 0.
    diffusivity : float
        Of heat in water, 0.1582 at 60 °C. [mm2/s]

    Returns
    -------
    Celsius
        Temperature there. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: T = \tfrac12 (T_h + T_c) + \tfrac12 (T_h - T_c)\,
       \mathrm{erf}\frac{z}{2\sqrt{a t}}

    References
    ----------
    .. [1] Conduction of a step in one dimension (from memory), diffusivity by IAPWS SR6-08;
       rows str05 and str06.

    Examples
    --------
    >>> round(step_at_rest(80.0, 40.0, 0.10, 24.0), 2)
    69.09
    """
    width = 2.0 * math.sqrt(diffusivity * 1e-6 * time * 3600.0)
    return 0.5 * (hot + cold) + 0.5 * (hot - cold) * math.erf(above / width)


@worked
def front_share(
    tanks: Annotated[int, Unit("-"), Ge(1), Le(2000)], drawn: Annotated[float, Unit("-"), Ge(0.0), Le(20.0)]
) -> Share:
    r"""Heat left in the outlet of a row of stirred tanks after drawing from it.

    A store cut into layers with the simplest scheme smears like this; it measures how sharp a
    better scheme is.

    Parameters
    ----------
    tanks : int
        Number of equal stirred tanks. [-] From 1 to 2000.
    drawn : float
        Water drawn over the content of all. [-]

    Returns
    -------
    Share
        Outlet's rise above the cold feed over its rise at the start. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: s = e^{-N x} \sum_{k=0}^{N-1} \frac{(N x)^k}{k!}

    References
    ----------
    .. [1] Tanks in series, Erlang's distribution (from memory); rows str01 to str04.

    Examples
    --------
    >>> round(front_share(10, 1.0), 4)
    0.4579
    """
    mean = tanks * drawn
    if mean == 0.0:
        return 1.0
    terms = (math.exp(k * math.log(mean) - mean - math.lgamma(k + 1)) for k in range(int(tanks)))
    return min(1.0, math.fsum(terms))


@worked
def superficial_speed(
    flow: Annotated[float, Unit("L/min"), Ge(0.0), Le(10000.0)],
    diameter: Annotated[float, Unit("cm"), Gt(0.0), Le(1000.0)],
) -> Annotated[float, Unit("cm/min"), Ge(0.0)]:
    r"""Speed at which water moves up or down in a tank.

    Parameters
    ----------
    flow : float
        Water through the tank. [L/min]
    diameter : float
        Inside diameter. [cm] More than 0.

    Returns
    -------
    float
        Mean speed. [cm/min]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: w = \dot V / (\pi d^2 / 4)

    References
    ----------
    .. [1] Geometry; rows str07 and str08 hold it against a published experiment.

    Examples
    --------
    >>> round(superficial_speed(2.0, 24.0), 2)
    4.42
    """
    return flow * 1000.0 / (math.pi * diameter**2 / 4.0)


@worked
def inlet_richardson(
    speed: Annotated[float, Unit("m/s"), Gt(0.0), Le(10.0)],
    height: Height,
    difference: Annotated[float, Unit("K"), Ge(0.0), Le(100.0)],
    expansion: Annotated[float, Unit("1/K"), Gt(0.0), Le(0.01)] = 5.22e-4,
) -> Annotated[float, Unit("-"), Ge(0.0)]:
    r"""How well buoyancy holds a store's layers against the push of an inlet.

    Below about 1 an inlet stirs the tank; the literature gives critical values from under 0.25 to
    100, so this is a hint for comparing, not a limit.

    Parameters
    ----------
    speed : float
        Speed in the inlet. [m/s] More than 0.
    height : Height
        Height of the store. [m] More than 0.
    difference : float
        Temperature difference. [K]
    expansion : float
        Expansion of water, 5.22e-4 at 60 °C. [1/K]

    Returns
    -------
    float
        Richardson number. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Ri = g\,\beta\,\Delta T\,H / v^2

    References
    ----------
    .. [1] Rendall et al. 2021, Renewable and Sustainable Energy Reviews 150, 111471 (spread of
       critical values, read); definition from memory; row str09.

    Examples
    --------
    >>> round(inlet_richardson(0.10, 1.8, 40.0), 1)
    36.9
    """
    return 9.81 * expansion * difference * height / speed**2


@worked
def layered_heat(
    litres: Litre,
    hot_share: Share,
    hot: Water,
    useful_above: Water,
    heat_capacity: Annotated[float, Unit("kWh/(m3*K)"), Ge(1.0), Le(1.2)] = 1.163,
) -> KilowattHour:
    r"""Useful heat in a store of hot water over cold.

    Parameters
    ----------
    litres : Litre
        Water in the store. [L]
    hot_share : Share
        Part of it that is hot. [-]
    hot : Water
        Temperature of the hot part. [degC]
    useful_above : Water
        Temperature down to which it is of use. [degC]
    heat_capacity : float
        Heat for a cubic metre and degree. [kWh/(m3*K)]

    Returns
    -------
    KilowattHour
        Useful heat; 0 when the hot part is too cool. [kWh]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Q = V\,x\,c\,\max(0, T_h - T_u)

    References
    ----------
    .. [1] Balance of heat; row sto03.

    Examples
    --------
    >>> round(layered_heat(1500.0, 2 / 3, 80.0, 40.0), 2)
    46.52
    """
    return litres / 1000.0 * hot_share * heat_capacity * max(0.0, hot - useful_above)


@worked
def limited_half_step(below: Celsius, here: Celsius, above: Celsius) -> Kelvin:
    r"""Half the rise of temperature across a layer, kept from overshooting its neighbours.

    It sharpens the water that one layer of the model hands to the next, so that twenty layers hold
    a boundary as well as a hundred stirred ones; where a layer is hotter or colder than both
    neighbours it is zero.

    Parameters
    ----------
    below : Celsius
        Layer below. [degC]
    here : Celsius
        The layer. [degC]
    above : Celsius
        Layer above. [degC]

    Returns
    -------
    Kelvin
        Half of the limited rise across the layer. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    With :math:`a` and :math:`b` the differences to the layer below and above:

    .. math:: \sigma/2 = \tfrac12\,\mathrm{minmod}\bigl(2a,\ \tfrac12 (a + b),\ 2b\bigr)

    References
    ----------
    .. [1] B. van Leer, "Towards the ultimate conservative difference scheme IV", J. Comput. Phys. 23
       (1977) 276-299, monotonised central limiter (from memory).

    Examples
    --------
    >>> limited_half_step(40.0, 50.0, 60.0)
    5.0
    >>> limited_half_step(40.0, 50.0, 45.0)
    0.0
    """
    rise_below = here - below
    rise_above = above - here
    middle = 0.25 * (rise_below + rise_above)
    least = rise_below if rise_below < rise_above else rise_above
    most = rise_below if rise_below > rise_above else rise_above
    rising = least if least < middle else middle
    falling = most if most > middle else middle
    return rising if least > 0.0 else (falling if most < 0.0 else 0.0)
