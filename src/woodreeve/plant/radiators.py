"""Radiators, heating curves and mixing valves: which water temperature warms a room on which day."""

from __future__ import annotations

import math
from typing import Annotated

from woodreeve.units import Celsius, Ge, Kelvin, Le, Share, Unit, Watt
from woodreeve.workings import worked

__all__ = [
    "curve_flow_temperature",
    "curve_return_temperature",
    "heating_curve",
    "log_mean_excess",
    "mixing_share",
    "radiator_factor",
    "radiator_output",
]

Excess = Annotated[float, Unit("K"), Ge(0.0), Le(120.0)]
"""Mean water temperature of a radiator above its room."""
Exponent = Annotated[float, Unit("-"), Ge(1.0), Le(1.6)]
"""How strongly a radiator's output grows with its excess temperature."""
Outdoor = Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)]
Water = Annotated[float, Unit("degC"), Ge(-60.0), Le(150.0)]


@worked
def radiator_factor(
    excess: Excess, exponent: Exponent = 1.3
) -> Annotated[float, Unit("-"), Ge(0.0), Le(5.0)]:
    r"""Output of a radiator as a share of its rated output.

    Catalogues state outputs at 75/65/20 °C; cooler water gives much less than in proportion, which
    is why large radiators let a store be used down to a lower temperature.

    Parameters
    ----------
    excess : Excess
        Mean water temperature above the room, :math:`\Delta T`. [K] From 0 to 120.
    exponent : Exponent
        Radiator exponent, :math:`n`. [-] From 1 to 1.6.

    Returns
    -------
    float
        Share of the rated output. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: f = (\Delta T / 50)^n

    References
    ----------
    .. [1] EN 442-2, radiators and convectors: rating at 50 K and characteristic equation (from
       memory); printed table of factors, rows rad01 to rad04.

    Examples
    --------
    >>> round(radiator_factor(30.0), 3)
    0.515
    """
    return float((excess / 50.0) ** exponent)


@worked
def radiator_output(rated: Watt, excess: Excess, exponent: Exponent = 1.3) -> Watt:
    r"""Heat that a radiator gives at a certain water temperature.

    Parameters
    ----------
    rated : Watt
        Output at 75/65/20 °C. [W]
    excess : Excess
        Mean water temperature above the room. [K] From 0 to 120.
    exponent : Exponent
        Radiator exponent. [-] From 1 to 1.6.

    Returns
    -------
    Watt
        Heat to the room. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: P = P_{50}\,(\Delta T / 50)^n

    References
    ----------
    .. [1] EN 442-2 (from memory); row rad05.

    Examples
    --------
    >>> round(radiator_output(795.0, 20.0))
    242
    """
    return rated * radiator_factor(excess, exponent)


@worked
def log_mean_excess(flow: Water, back: Water, room: Celsius) -> Kelvin:
    r"""Logarithmic mean of a radiator's excess temperature over its room.

    Parameters
    ----------
    flow : Water
        Water in. [degC]
    back : Water
        Water out, cooler than the flow and warmer than the room. [degC]
    room : Celsius
        The room. [degC]

    Returns
    -------
    Kelvin
        Mean excess. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta T = (t_f - t_r) / \ln\frac{t_f - t_i}{t_r - t_i}

    References
    ----------
    .. [1] Textbook form (from memory); row rad06.

    Examples
    --------
    >>> round(log_mean_excess(75.0, 65.0, 20.0), 2)
    49.83
    """
    return (flow - back) / math.log((flow - room) / (back - room))


@worked
def curve_flow_temperature(
    outdoor: Outdoor,
    design_outdoor: Outdoor = -10.0,
    design_flow: Water = 75.0,
    design_return: Water = 65.0,
    room: Celsius = 20.0,
    exponent: Exponent = 1.3,
) -> Celsius:
    r"""Flow temperature that holds the rooms on a certain day.

    The store is empty for heating when its top is below this: so a store lasts longer in mild weather.

    Parameters
    ----------
    outdoor : Outdoor
        Outdoor temperature now, at most the room's. [degC]
    design_outdoor : Outdoor
        Coldest day the radiators are sized for. [degC]
    design_flow : Water
        Flow on that day. [degC]
    design_return : Water
        Return on that day. [degC]
    room : Celsius
        Room temperature wanted. [degC]
    exponent : Exponent
        Radiator exponent. [-] From 1 to 1.6.

    Returns
    -------
    Celsius
        Flow temperature. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: q = \frac{t_i - t_o}{t_i - t_d},\quad
       t_f = t_i + \Delta T_d\,q^{1/n} + \tfrac12 q\,(t_{f,d} - t_{r,d})

    References
    ----------
    .. [1] Follows from the exponent law of EN 442-2 (from memory); row cur01.

    Examples
    --------
    >>> round(curve_flow_temperature(0.0), 1)
    59.9
    """
    load = (room - outdoor) / (room - design_outdoor)
    mean = 0.5 * (design_flow + design_return) - room
    return float(room + mean * load ** (1.0 / exponent) + 0.5 * load * (design_flow - design_return))


@worked
def curve_return_temperature(
    outdoor: Outdoor,
    design_outdoor: Outdoor = -10.0,
    design_flow: Water = 75.0,
    design_return: Water = 65.0,
    room: Celsius = 20.0,
    exponent: Exponent = 1.3,
) -> Celsius:
    r"""Return temperature that goes with the flow of :func:`curve_flow_temperature`.

    Parameters
    ----------
    outdoor : Outdoor
        Outdoor temperature now, at most the room's. [degC]
    design_outdoor : Outdoor
        Coldest day the radiators are sized for. [degC]
    design_flow : Water
        Flow on that day. [degC]
    design_return : Water
        Return on that day. [degC]
    room : Celsius
        Room temperature wanted. [degC]
    exponent : Exponent
        Radiator exponent. [-] From 1 to 1.6.

    Returns
    -------
    Celsius
        Return temperature. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: t_r = t_f - q\,(t_{f,d} - t_{r,d})

    References
    ----------
    .. [1] Follows from the exponent law of EN 442-2 (from memory); row cur02.

    Examples
    --------
    >>> round(curve_return_temperature(0.0), 1)
    53.3
    """
    load = (room - outdoor) / (room - design_outdoor)
    flow = curve_flow_temperature(outdoor, design_outdoor, design_flow, design_return, room, exponent)
    return flow - load * (design_flow - design_return)


@worked
def heating_curve(
    outdoor: Outdoor,
    design_outdoor: Outdoor,
    design_flow: Water,
    mild_outdoor: Outdoor = 16.0,
    mild_flow: Water = 28.0,
    most_flow: Water = 90.0,
    exponent: Exponent = 1.3,
) -> Celsius:
    r"""Flow temperature that the controller sets, from the two ends of its curve.

    Parameters
    ----------
    outdoor : Outdoor
        Outdoor temperature now. [degC]
    design_outdoor : Outdoor
        Outdoor temperature at the cold end of the curve. [degC]
    design_flow : Water
        Flow at the cold end. [degC]
    mild_outdoor : Outdoor
        Outdoor temperature at the mild end, above the cold end. [degC]
    mild_flow : Water
        Flow at the mild end. [degC]
    most_flow : Water
        Hottest flow allowed. [degC]
    exponent : Exponent
        Radiator exponent, which bends the curve. [-] From 1 to 1.6.

    Returns
    -------
    Celsius
        Flow temperature wanted. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: q = \max\Bigl(0, \frac{t_m - t_o}{t_m - t_d}\Bigr),\quad
       t_f = \min\bigl(t_{max},\ t_{f,m} + (t_{f,d} - t_{f,m})\,q^{1/n}\bigr)

    Beyond the cold end the curve goes on rising up to the limit.

    References
    ----------
    .. [1] Common practice of controllers, no published source; the bend follows from EN 442-2
       (from memory).

    Examples
    --------
    >>> heating_curve(-10.0, -10.0, 60.0)
    60.0
    """
    load = (mild_outdoor - outdoor) / (mild_outdoor - design_outdoor)
    load = load if load > 0.0 else 0.0
    flow = mild_flow + (design_flow - mild_flow) * load ** (1.0 / exponent)
    return flow if flow < most_flow else most_flow


@worked
def mixing_share(hot: Water, cold: Water, wanted: Water) -> Share:
    r"""Share of hot water that a mixing valve lets through to reach a wanted temperature.

    The same sum serves the heating circuit, the tap, and the valve that keeps the boiler's return
    warm (there the hot side is the boiler's own flow).

    Parameters
    ----------
    hot : Water
        Hot side. [degC]
    cold : Water
        Cold side. [degC]
    wanted : Water
        Temperature wanted after the valve. [degC]

    Returns
    -------
    Share
        Share of hot water; 0 when the hot side is not the hotter one. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: x = \min\Bigl(1, \max\Bigl(0, \frac{t_w - t_c}{t_h - t_c}\Bigr)\Bigr)

    References
    ----------
    .. [1] Balance of heat and mass; rows mix01, mix03 and dhw03.

    Examples
    --------
    >>> round(mixing_share(80.0, 35.0, 50.0), 4)
    0.3333
    """
    spread = hot - cold
    share = (wanted - cold) / (spread if spread > 1e-9 else 1e-9)
    share = share if share > 0.0 else 0.0
    share = share if share < 1.0 else 1.0
    return share if spread > 1e-9 else 0.0
