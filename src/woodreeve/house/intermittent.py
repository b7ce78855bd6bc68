"""Letting the house cool at night: how far it falls, how long it takes to warm again, what it saves.

The house as one lump of heat with one loss, solved exactly. Heavy houses save less than light ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log
from typing import Annotated

from woodreeve.errors import OutOfRange
from woodreeve.house.heat_loss import OutdoorTemperature, RoomTemperature
from woodreeve.units import Ge, Gt, KilowattHour, Le, Unit
from woodreeve.workings import worked

__all__ = ["NightSaving", "free_cooling", "gain_utilisation", "night_reduction", "night_saving"]

Loss = Annotated[float, Unit("W/K"), Gt(0.0), Le(1e5)]
Capacity = Annotated[float, Unit("MJ/K"), Gt(0.0), Le(10000.0)]
Span = Annotated[float, Unit("h"), Ge(0.0), Le(1000.0)]


def _time_constant(heat_loss_w_k: float, capacity_mj_k: float) -> float:
    return capacity_mj_k * 1e6 / heat_loss_w_k / 3600.0


@worked
def free_cooling(
    start_c: RoomTemperature,
    outside_c: OutdoorTemperature,
    hours: Span,
    heat_loss_w_k: Loss,
    capacity_mj_k: Capacity,
) -> Annotated[float, Unit("degC"), Ge(-50.0), Le(50.0)]:
    r"""Room temperature after some hours without heat.

    Parameters
    ----------
    start_c : RoomTemperature
        Room temperature at first, :math:`T_0`. [degC] From 0 to 40.
    outside_c : OutdoorTemperature
        Outdoor temperature, :math:`T_e`. [degC] From -50 to 50.
    hours : Span
        Hours without heat, :math:`t`. [h] From 0 to 1000.
    heat_loss_w_k : Loss
        Heat loss, :math:`H`. [W/K] Above 0, to 100000.
    capacity_mj_k : Capacity
        Heat capacity of the house, :math:`C`. [MJ/K] Above 0, to 10000.

    Returns
    -------
    float
        Room temperature. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T = T_e + (T_0 - T_e)\,e^{-t H / C}

    Gains from people and sun are left out.

    References
    ----------
    .. [1] Follows from the heat balance of one lump.

    Examples
    --------
    >>> round(free_cooling(20.0, 0.0, 8.0, 300.0, 45.0), 2)
    16.51
    """
    return outside_c + (start_c - outside_c) * exp(-hours / _time_constant(heat_loss_w_k, capacity_mj_k))


@dataclass(frozen=True, slots=True, kw_only=True)
class NightSaving:
    """What a daily pause of the heating does, day after day alike.

    Parameters
    ----------
    coldest_c : float
        Room temperature at the end of the pause. [degC]
    reheat_h : float
        Time until the wanted temperature is back. [h]
    heat_kwh_day : float
        Heat of a day. [kWh]
    saving : float
        Heat saved over steady heating, as a share. [-]
    """

    coldest_c: Annotated[float, Unit("degC")]
    reheat_h: Annotated[float, Unit("h")]
    heat_kwh_day: KilowattHour
    saving: Annotated[float, Unit("-")]


@worked
def night_saving(
    wanted_c: RoomTemperature,
    outside_c: OutdoorTemperature,
    off_h: Annotated[float, Unit("h"), Gt(0.0), Le(23.0)],
    power_kw: Annotated[float, Unit("kW"), Gt(0.0), Le(1000.0)],
    heat_loss_w_k: Loss,
    capacity_mj_k: Capacity,
) -> NightSaving:
    r"""What it saves to turn the heating off for some hours each day.

    Parameters
    ----------
    wanted_c : RoomTemperature
        Wanted room temperature, :math:`T_s`. [degC] From 0 to 40.
    outside_c : OutdoorTemperature
        Outdoor temperature, :math:`T_e`. [degC] From -50 to 50.
    off_h : float
        Hours off each day, :math:`t_o`. [h] Above 0, to 23.
    power_kw : float
        Power while heating up, :math:`P`. [kW] Above 0, to 1000.
    heat_loss_w_k : Loss
        Heat loss, :math:`H`. [W/K] Above 0, to 100000.
    capacity_mj_k : Capacity
        Heat capacity, :math:`C`; :math:`\tau = C/H`. [MJ/K] Above 0, to 10000.

    Returns
    -------
    NightSaving
        Lowest temperature, time to warm up, heat of a day, share saved.

    Raises
    ------
    OutOfRange
        If a value lies outside its range, the power cannot hold the wanted temperature, or the
        house does not get warm again within the day.

    Notes
    -----
    .. math::

        T_1 = T_e + (T_s - T_e)e^{-t_o/\tau}, \quad
        t_r = \tau \ln\frac{T_e + P/H - T_1}{T_e + P/H - T_s}

    .. math:: Q = P\,t_r + H (T_s - T_e)(24 - t_o - t_r)

    References
    ----------
    .. [1] Follows from the heat balance of one lump.

    Examples
    --------
    >>> round(night_saving(20.0, 0.0, 8.0, 12.0, 300.0, 45.0).reheat_h, 2)
    6.71
    """
    top = outside_c + power_kw * 1000.0 / heat_loss_w_k
    if top <= wanted_c:
        raise OutOfRange(
            "power_kw",
            f"{power_kw:g}",
            f"more than {heat_loss_w_k * (wanted_c - outside_c) / 1000:.3g}",
            "kW",
            "it cannot hold the wanted temperature",
        )
    tau = _time_constant(heat_loss_w_k, capacity_mj_k)
    coldest = outside_c + (wanted_c - outside_c) * exp(-off_h / tau)
    reheat = tau * log((top - coldest) / (top - wanted_c))
    if off_h + reheat > 24.0:
        raise OutOfRange("off_h", f"{off_h:g}", "short enough to warm up again within the day", "h")
    steady = heat_loss_w_k * (wanted_c - outside_c) / 1000.0
    heat = power_kw * reheat + steady * (24.0 - off_h - reheat)
    saving = 1.0 - heat / (24.0 * steady) if steady > 0.0 else 0.0
    return NightSaving(coldest_c=coldest, reheat_h=reheat, heat_kwh_day=heat, saving=saving)


@worked
def gain_utilisation(
    gain_loss_ratio: Annotated[float, Unit("-"), Ge(0.0), Le(1000.0)],
    time_constant_h: Annotated[float, Unit("h"), Gt(0.0), Le(2000.0)],
) -> Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]:
    r"""Share of the free heat from people, appliances and sun that spares heating.

    Parameters
    ----------
    gain_loss_ratio : float
        Gains over losses of the month, :math:`y`. [-] From 0 to 1000.
    time_constant_h : float
        How slowly the house cools, :math:`\tau`. [h] Above 0, to 2000.

    Returns
    -------
    float
        Share that is of use. [-]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: \eta = \frac{1 - y^a}{1 - y^{a+1}}, \quad a = 1 + \tau / 15\,\text{h}

    with the limit :math:`a/(a+1)` at :math:`y = 1`.

    References
    ----------
    .. [1] SAP 2012 Table 9a, ISO 13790 (form read in public source text; the exponent from memory).

    Examples
    --------
    >>> round(gain_utilisation(0.4, 30.0), 4)
    0.9606
    """
    a = 1.0 + time_constant_h / 15.0
    y = gain_loss_ratio
    if abs(y - 1.0) < 1e-7:
        return a / (a + 1.0)
    if y > 1.0:
        return float((1.0 - y**-a) / (y - y**-a))
    return float((1.0 - y**a) / (1.0 - y ** (a + 1.0)))


@worked
def night_reduction(
    wanted_c: RoomTemperature,
    outside_c: OutdoorTemperature,
    off_h: Annotated[float, Unit("h"), Ge(0.0), Le(24.0)],
    *,
    useful_gains_w: Annotated[float, Unit("W"), Ge(0.0), Le(50000.0)],
    heat_loss_w_k: Loss,
    time_constant_h: Annotated[float, Unit("h"), Gt(0.0), Le(2000.0)],
    responsiveness: Annotated[float, Unit("-"), Ge(0.0), Le(1.0)] = 1.0,
) -> Annotated[float, Unit("K"), Ge(-50.0), Le(50.0)]:
    r"""How much a pause of the heating lowers the mean room temperature, by the British rule.

    Parameters
    ----------
    wanted_c : RoomTemperature
        Wanted room temperature, :math:`T_h`. [degC] From 0 to 40.
    outside_c : OutdoorTemperature
        Mean outdoor temperature, :math:`T_e`. [degC] From -50 to 50.
    off_h : float
        Hours of the pause, :math:`t_o`. [h] From 0 to 24.
    useful_gains_w : float
        Useful gains, :math:`G`. [W] From 0 to 50000.
    heat_loss_w_k : Loss
        Heat loss, :math:`H`. [W/K] Above 0, to 100000.
    time_constant_h : float
        How slowly the house cools, :math:`\tau`. [h] Above 0, to 2000.
    responsiveness : float
        How quickly the heating follows, :math:`R`; 1 for radiators. [-] From 0 to 1.

    Returns
    -------
    float
        Fall of the mean room temperature. [K]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: t_c = 4 + \tau/4, \quad T_{sc} = (1-R)(T_h - 2) + R (T_e + G/H)

    .. math::

        u = \begin{cases} t_o^2 (T_h - T_{sc}) / (48\,t_c) & t_o \le t_c \\
        (T_h - T_{sc})(t_o - t_c/2)/24 & \text{else} \end{cases}

    References
    ----------
    .. [1] SAP 2012, Table 9b (from memory).

    Examples
    --------
    >>> round(night_reduction(21.0, 4.5, 7.0, useful_gains_w=400.0, heat_loss_w_k=300.0,
    ...                       time_constant_h=35.0), 4)
    1.2143
    """
    cooling = 4.0 + 0.25 * time_constant_h
    unheated = (1.0 - responsiveness) * (wanted_c - 2.0) + responsiveness * (
        outside_c + useful_gains_w / heat_loss_w_k
    )
    fall = wanted_c - unheated
    if off_h <= cooling:
        return 0.5 * off_h**2 * fall / (24.0 * cooling)
    return fall * (off_h - 0.5 * cooling) / 24.0
