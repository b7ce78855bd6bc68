"""Hot water: what a coil can heat, what the taps draw, and the daily draws that tests use."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np

from woodreeve.errors import UnknownName
from woodreeve.plant.water import water_density, water_heat_capacity
from woodreeve.units import Floats, Ge, Gt, Kilowatt, KilowattHour, Le, Litre, Share, Unit, WattPerKelvin
from woodreeve.workings import worked

__all__ = [
    "LEAST_MIXED_LITRES",
    "TAPPING",
    "Draw",
    "TappingProfile",
    "coil_conductance",
    "coil_effectiveness",
    "coil_power",
    "mixed_litres",
    "tapping_heat",
    "tapping_litres",
    "tapping_powers",
]

TappingProfile = Literal["3XS", "XXS", "S", "M", "L", "XL", "XXL"]
"""Name of a daily draw of the European regulation."""


@dataclass(frozen=True, slots=True)
class Draw:
    """One draw of a tapping profile."""

    minute: int
    """Minute of the day at which it starts. [min]"""
    heat_kwh: float
    """Heat above the cold water. [kWh]"""
    flow_l_min: float
    """Flow at the tap. [L/min]"""
    useful_from_c: float
    """Temperature from which the water counts as useful. [degC]"""
    peak_c: float | None = None
    """Temperature to be reached during the draw. [degC]"""


def _draws(small: str, *others: tuple[str, float, float, float, float | None]) -> tuple[Draw, ...]:
    """Small draws of 0.105 kWh at 3 L/min useful from 25 °C, and the others as printed."""
    rows: list[tuple[str, float, float, float, float | None]] = [*others]
    rows += [(clock, 0.105, 3.0, 25.0, None) for clock in small.split()]
    return tuple(
        Draw(int(clock[:2]) * 60 + int(clock[3:]), heat, flow, useful, peak)
        for clock, heat, flow, useful, peak in sorted(rows)
    )


def _tiny(heat: float, clocks: str) -> tuple[Draw, ...]:
    return tuple(Draw(int(c[:2]) * 60 + int(c[3:]), heat, 2.0, 25.0) for c in clocks.split())


TAPPING: dict[str, tuple[Draw, ...]] = {
    "3XS": _tiny(
        0.015,
        "07:00 07:05 07:15 07:26 07:30 09:00 09:30 11:30 11:45 12:00 12:30 12:45 14:30 15:00 15:30 16:00 "
        "18:30 19:00 19:30 21:15 21:30 21:35 21:45",
    ),
    "XXS": _tiny(
        0.105,
        "07:00 07:30 08:30 09:30 11:30 11:45 12:00 12:30 12:45 18:00 18:15 18:30 19:00 19:30 20:00 20:45 "
        "21:00 21:15 21:35 21:45",
    ),
    "S": _draws(
        "07:00 07:30 08:30 09:30 11:30 11:45 18:00",
        ("12:45", 0.315, 4.0, 10.0, 55.0),
        ("18:15", 0.105, 3.0, 40.0, None),
        ("20:30", 0.42, 4.0, 10.0, 55.0),
        ("21:30", 0.525, 5.0, 45.0, None),
    ),
    "M": _draws(
        "07:00 07:30 08:01 08:15 08:30 08:45 09:00 09:30 11:30 11:45 14:30 15:30 16:30 18:00 19:00 21:15",
        ("07:05", 1.4, 6.0, 40.0, None),
        ("10:30", 0.105, 3.0, 10.0, 40.0),
        ("12:45", 0.315, 4.0, 10.0, 55.0),
        ("18:15", 0.105, 3.0, 40.0, None),
        ("18:30", 0.105, 3.0, 40.0, None),
        ("20:30", 0.735, 4.0, 10.0, 55.0),
        ("21:30", 1.4, 6.0, 40.0, None),
    ),
    "L": _draws(
        "07:00 07:30 07:45 08:25 08:30 08:45 09:00 09:30 11:30 11:45 14:30 15:30 16:30 18:00 19:00 21:30",
        ("07:05", 1.4, 6.0, 40.0, None),
        ("08:05", 3.605, 10.0, 10.0, 40.0),
        ("10:30", 0.105, 3.0, 10.0, 40.0),
        ("12:45", 0.315, 4.0, 10.0, 55.0),
        ("18:15", 0.105, 3.0, 40.0, None),
        ("18:30", 0.105, 3.0, 40.0, None),
        ("20:30", 0.735, 4.0, 10.0, 55.0),
        ("21:00", 3.605, 10.0, 10.0, 40.0),
    ),
    "XL": _draws(
        "07:00 07:26 08:01 08:15 08:30 08:45 09:00 09:30 10:00 11:00 11:30 11:45 14:30 15:00 15:30 16:00 "
        "16:30 17:00 18:00 19:00 21:15",
        ("07:15", 1.82, 6.0, 40.0, None),
        ("07:45", 4.42, 10.0, 10.0, 40.0),
        ("10:30", 0.105, 3.0, 10.0, 40.0),
        ("12:45", 0.735, 4.0, 10.0, 55.0),
        ("18:15", 0.105, 3.0, 40.0, None),
        ("18:30", 0.105, 3.0, 40.0, None),
        ("20:30", 0.735, 4.0, 10.0, 55.0),
        ("20:46", 4.42, 10.0, 10.0, 40.0),
        ("21:30", 4.42, 10.0, 10.0, 40.0),
    ),
    "XXL": _draws(
        "07:00 07:26 08:01 08:15 08:30 08:45 09:00 09:30 10:00 11:00 11:30 11:45 14:30 15:00 15:30 16:00 "
        "16:30 17:00 18:00 19:00 21:15",
        ("07:15", 1.82, 6.0, 40.0, None),
        ("07:45", 6.24, 16.0, 10.0, 40.0),
        ("10:30", 0.105, 3.0, 10.0, 40.0),
        ("12:45", 0.735, 4.0, 10.0, 55.0),
        ("18:15", 0.105, 3.0, 40.0, None),
        ("18:30", 0.105, 3.0, 40.0, None),
        ("20:30", 0.735, 4.0, 10.0, 55.0),
        ("20:46", 6.24, 16.0, 10.0, 40.0),
        ("21:30", 6.24, 16.0, 10.0, 40.0),
    ),
}
"""Daily draws, from Commission Regulation (EU) No 814/2013, Annex III, Table 1 (read)."""

LEAST_MIXED_LITRES: dict[str, float] = {"M": 65.0, "L": 130.0, "XL": 210.0, "XXL": 300.0}
"""Least mixed water at 40 °C, from the same regulation, Annex II 1.3 (read). [L]"""


@worked
def tapping_heat(profile: TappingProfile) -> KilowattHour:
    r"""Useful heat of a daily tapping profile.

    Parameters
    ----------
    profile : TappingProfile
        Its name: M suits a small household, L a family with a bath.

    Returns
    -------
    KilowattHour
        Sum of its draws. [kWh]

    Raises
    ------
    UnknownName
        If there is no such profile.

    Notes
    -----
    .. math:: Q = \sum Q_{tap}

    References
    ----------
    .. [1] Commission Regulation (EU) No 814/2013, Annex III, Table 1 (read); rows tap01 to tap05.

    Examples
    --------
    >>> round(tapping_heat("M"), 3)
    5.845
    """
    return math.fsum(draw.heat_kwh for draw in TAPPING[profile])


@worked
def tapping_litres(profile: TappingProfile) -> Litre:
    r"""Least mixed water at 40 °C that a heater for this profile must give.

    Parameters
    ----------
    profile : TappingProfile
        Its name, from M up.

    Returns
    -------
    Litre
        Mixed water at 40 °C. [L]

    Raises
    ------
    UnknownName
        If the regulation states none for this profile.

    Notes
    -----
    .. math:: V_{40}\ \text{as printed}

    References
    ----------
    .. [1] Commission Regulation (EU) No 814/2013, Annex II 1.3 (read); rows tap06 to tap08.

    Examples
    --------
    >>> tapping_litres("L")
    130.0
    """
    if profile not in LEAST_MIXED_LITRES:
        raise UnknownName("profile with a stated volume", profile, LEAST_MIXED_LITRES)
    return LEAST_MIXED_LITRES[profile]


def tapping_powers(profile: TappingProfile, *, cold_c: float = 10.0, tap_c: float = 40.0) -> Floats:
    """Heat wanted at the taps in each minute of the day [W], from a tapping profile.

    A draw runs at its printed flow from the minute it starts until its heat has been given at
    ``tap_c``; draws that would overlap run together.
    """
    powers = np.zeros(1440)
    for draw in TAPPING[profile]:
        rate = draw.flow_l_min / 60.0 * 4186.0 * (tap_c - cold_c)
        left, minute = draw.heat_kwh * 3.6e6, draw.minute
        while left > 0.0:
            given = min(left, rate * 60.0)
            powers[minute % 1440] += given / 60.0
            left -= given
            minute += 1
    return powers


@worked
def coil_power(
    cylinder: Litre,
    lift: Annotated[float, Unit("K"), Ge(0.0), Le(100.0)],
    minutes: Annotated[float, Unit("min"), Gt(0.0), Le(10000.0)],
    mean: Annotated[float, Unit("degC"), Ge(0.0), Le(100.0)] = 50.0,
) -> Kilowatt:
    r"""Heat rate that lifts a cylinder by so many degrees in so many minutes.

    A coil gives its rating only with flow at the rated temperature.

    Parameters
    ----------
    cylinder : Litre
        Water in the cylinder. [L]
    lift : float
        Rise wanted. [K]
    minutes : float
        Time for it. [min] More than 0.
    mean : float
        Mean temperature meanwhile, for the water's weight and heat. [degC]

    Returns
    -------
    Kilowatt
        Heat rate. [kW]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: P = V \rho c\,\Delta T / t

    References
    ----------
    .. [1] Balance of heat; rows dhw01 and dhw02.

    Examples
    --------
    >>> round(coil_power(200.0, 20.0, 20.0), 1)
    13.8
    """
    return cylinder / 1000.0 * water_density(mean) * water_heat_capacity(mean) * lift / (minutes * 60.0)


@worked
def coil_conductance(
    output: Annotated[Kilowatt, Gt(0.0)],
    flow: Annotated[float, Unit("kg/h"), Gt(0.0), Le(20000.0)],
    flow_temperature: Annotated[float, Unit("degC"), Ge(20.0), Le(110.0)] = 80.0,
    cylinder: Annotated[float, Unit("degC"), Ge(5.0), Le(90.0)] = 45.0,
) -> WattPerKelvin:
    r"""Heat that a coil passes for each degree, from its rating.

    Parameters
    ----------
    output : Kilowatt
        Rated output. [kW] More than 0.
    flow : float
        Heating water through it. [kg/h] More than 0.
    flow_temperature : float
        Heating water in, at the rating. [degC]
    cylinder : float
        Cylinder water, at the rating. [degC]

    Returns
    -------
    WattPerKelvin
        Conductance. [W/K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range, or the rating asks for more heat than the flow carries.

    Notes
    -----
    .. math:: UA = -\dot m c \ln\Bigl(1 - \frac{P}{\dot m c (t_f - t_c)}\Bigr)

    A rating close to what the flow can carry at all is taken as 98 % of it.

    References
    ----------
    .. [1] Heat exchanger with one side at constant temperature (textbook, from memory).

    Examples
    --------
    >>> round(coil_conductance(20.0, 1500.0))
    692
    """
    carried = flow / 3600.0 * 4186.0
    share = min(output * 1000.0 / (carried * (flow_temperature - cylinder)), 0.98)
    return -carried * math.log(1.0 - share)


@worked
def coil_effectiveness(
    conductance: WattPerKelvin, flow: Annotated[float, Unit("kg/h"), Gt(0.0), Le(20000.0)]
) -> Share:
    r"""Share of the possible heat that a coil takes out of its heating water.

    Parameters
    ----------
    conductance : WattPerKelvin
        Heat for each degree. [W/K]
    flow : float
        Heating water through the coil. [kg/h] More than 0.

    Returns
    -------
    Share
        Drop of the heating water over its excess above the cylinder. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \varepsilon = 1 - e^{-UA/(\dot m c)}

    References
    ----------
    .. [1] Heat exchanger with one side at constant temperature (textbook, from memory).

    Examples
    --------
    >>> round(coil_effectiveness(692.0, 1500.0), 2)
    0.33
    """
    return -math.expm1(-conductance / (flow / 3600.0 * 4186.0))


@worked
def mixed_litres(
    heat: KilowattHour,
    tap: Annotated[float, Unit("degC"), Gt(0.0), Le(95.0)] = 40.0,
    cold: Annotated[float, Unit("degC"), Ge(0.0), Le(40.0)] = 10.0,
    heat_capacity: Annotated[float, Unit("kWh/(m3*K)"), Ge(1.0), Le(1.2)] = 1.163,
) -> Litre:
    r"""Water at the tap that a certain heat warms.

    Parameters
    ----------
    heat : KilowattHour
        Heat above the cold water. [kWh]
    tap : float
        Temperature at the tap, above the cold water. [degC]
    cold : float
        Cold water. [degC]
    heat_capacity : float
        Heat for a cubic metre and degree. [kWh/(m3*K)]

    Returns
    -------
    Litre
        Mixed water. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V = Q / \bigl(c\,(t_{tap} - t_{cold})\bigr)

    References
    ----------
    .. [1] Balance of heat; row tap09.

    Examples
    --------
    >>> round(mixed_litres(11.655))
    334
    """
    return heat / (heat_capacity * (tap - cold)) * 1000.0
