"""Hot water: how much, when, and what it takes to heat it."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from math import exp
from typing import Annotated, Literal

import numpy as np

from woodreeve.units import Floats, Ge, Gt, KilowattHour, Le, Litre, Unit
from woodreeve.weather.series import DAYS_IN_MONTH
from woodreeve.workings import worked

__all__ = [
    "MEASURED_MEAN_LITRES_DAY",
    "DaySplit",
    "HotWaterYear",
    "assumed_occupants",
    "cylinder_loss",
    "hot_water_litres",
    "hot_water_year",
    "tapping_day",
    "tapping_profile",
    "water_heat",
    "water_of_heat",
]

MEASURED_MEAN_LITRES_DAY = 122.0
"""Mean of about 120 British homes. [L/day] (Energy Saving Trust 2008, as quoted at
https://ukplumbersforums.co.uk/threads/84258)"""

MONTH_FACTORS = (1.10, 1.06, 1.02, 0.98, 0.94, 0.90, 0.90, 0.94, 0.98, 1.02, 1.06, 1.10)
"""Use in each month over the year's mean. [-] (SAP 2012 Table 1c)"""

TEMPERATURE_RISE_K = (41.2, 41.4, 40.1, 37.6, 36.4, 33.9, 30.4, 33.4, 33.5, 36.3, 39.4, 39.9)
"""How far water is heated in each month. [K] (SAP 2012 Table 1d)"""

WATER_HEAT = 4.190
"""Heat that warms a litre of water by a degree, as SAP rounds it. [kJ/(L*K)]"""

DISTRIBUTION_SHARE = 0.15
"""Loss of pipes over the heat of the water itself. [-] (SAP 2012)"""

People = Annotated[float, Unit("-"), Ge(0.0), Le(50.0)]
LitresDay = Annotated[float, Unit("L"), Ge(0.0), Le(5000.0)]
Profile = Literal["S", "M", "L", "XL"]
TwelveKwh = Annotated[tuple[float, ...], Unit("kWh")]


@worked
def assumed_occupants(
    floor_area_m2: Annotated[float, Unit("m2"), Ge(0.0), Le(10000.0)],
) -> People:
    r"""People taken to live in a house of a given size, where nobody says.

    Parameters
    ----------
    floor_area_m2 : float
        Heated floor area of the whole house, :math:`A`. [m2] From 0 to 10000.

    Returns
    -------
    People
        People. [-]

    Raises
    ------
    OutOfRange
        If the area lies outside its range.

    Notes
    -----
    .. math:: N = 1 + 1.76\left[1 - e^{-0.000349 (A - 13.9)^2}\right] + 0.0013 (A - 13.9)

    and 1 up to 13.9 m2.

    References
    ----------
    .. [1] SAP 2012, Table 1b, as quoted in a public source file.

    Examples
    --------
    >>> round(assumed_occupants(100.0), 2)
    2.74
    """
    if floor_area_m2 <= 13.9:
        return 1.0
    over = floor_area_m2 - 13.9
    return 1.0 + 1.76 * (1.0 - exp(-0.000349 * over * over)) + 0.0013 * over


@worked
def hot_water_litres(occupants: People, fittings: Literal["usual", "water_saving"] = "usual") -> LitresDay:
    r"""Hot water that a household draws in a day, mean of the year.

    Parameters
    ----------
    occupants : People
        People, :math:`N`. [-] From 0 to 50.
    fittings : {"usual", "water_saving"}
        Water-saving means at most 125 litres of all water a person and day.

    Returns
    -------
    LitresDay
        Litres a day. [L] About 120 measured homes used 122 on average.

    Raises
    ------
    OutOfRange
        If the number lies outside its range.
    UnknownName
        If the fittings are neither.

    Notes
    -----
    .. math:: V_d = 25 N + 36

    and 5 % less with water-saving fittings.

    References
    ----------
    .. [1] SAP 2012, Table 1b, as quoted in a public source file.

    Examples
    --------
    >>> hot_water_litres(3.0)
    111.0
    """
    return (25.0 * occupants + 36.0) * (0.95 if fittings == "water_saving" else 1.0)


@worked
def water_heat(litres: Litre, rise_k: Annotated[float, Unit("K"), Ge(0.0), Le(100.0)]) -> KilowattHour:
    r"""Heat that warms an amount of water.

    Parameters
    ----------
    litres : Litre
        Amount, :math:`V`. [L]
    rise_k : float
        How far it is warmed, :math:`\Delta T`. [K] From 0 to 100.

    Returns
    -------
    KilowattHour
        Heat. [kWh]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q = 4.190\,V\,\Delta T / 3600

    References
    ----------
    .. [1] SAP 2012, Appendix on hot water, as quoted in a public source file.

    Examples
    --------
    >>> round(water_heat(125.5, 40.0), 2)
    5.84
    """
    return WATER_HEAT * litres * rise_k / 3600.0


@worked
def water_of_heat(heat_kwh: KilowattHour, rise_k: Annotated[float, Unit("K"), Gt(0.0), Le(100.0)]) -> Litre:
    r"""Water that an amount of heat warms.

    Parameters
    ----------
    heat_kwh : KilowattHour
        Heat, :math:`Q`. [kWh]
    rise_k : float
        How far it is warmed, :math:`\Delta T`. [K] Above 0, to 100.

    Returns
    -------
    Litre
        Amount of water. [L]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: V = 3600\,Q / (4.190\,\Delta T)

    References
    ----------
    .. [1] As :func:`water_heat`, solved for the amount.

    Examples
    --------
    >>> round(water_of_heat(5.845, 40.0), 1)
    125.5
    """
    return 3600.0 * heat_kwh / (WATER_HEAT * rise_k)


@dataclass(frozen=True, slots=True, kw_only=True)
class HotWaterYear:
    """Heat for hot water, month by month.

    Parameters
    ----------
    drawn_kwh : tuple of 12
        Heat in the water drawn. [kWh]
    pipes_kwh : tuple of 12
        Loss of the pipes. [kWh]
    total_kwh : tuple of 12
        Both. [kWh]
    drawn_year_kwh, pipes_year_kwh, year_kwh : float
        Their sums. [kWh]
    """

    drawn_kwh: TwelveKwh
    pipes_kwh: TwelveKwh
    total_kwh: TwelveKwh
    drawn_year_kwh: KilowattHour
    pipes_year_kwh: KilowattHour
    year_kwh: KilowattHour


@worked
def hot_water_year(
    litres_day: LitresDay,
    pipe_share: Annotated[float, Unit("-"), Ge(0.0), Le(1.0)] = DISTRIBUTION_SHARE,
) -> HotWaterYear:
    r"""Heat for hot water through the year, pipes included.

    More is drawn in winter, and it comes in colder. What the cylinder itself loses is not in this.

    Parameters
    ----------
    litres_day : LitresDay
        Litres a day, mean of the year, :math:`V_d`. [L] From 0 to 5000.
    pipe_share : float
        Loss of the pipes over the heat drawn. [-] From 0 to 1.

    Returns
    -------
    HotWaterYear
        Heat by month and in the year.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q_m = 4.190\,V_d\,f_m\,n_m\,\Delta T_m / 3600

    with the month factors :math:`f_m`, days :math:`n_m` and rises :math:`\Delta T_m` of the tables.

    References
    ----------
    .. [1] SAP 2012, Tables 1b, 1c and 1d, as quoted in a public source file.

    Examples
    --------
    >>> round(hot_water_year(111.0).drawn_year_kwh, 1)
    1750.6
    """
    factors = np.array(MONTH_FACTORS) * np.array(DAYS_IN_MONTH) * np.array(TEMPERATURE_RISE_K)
    drawn = WATER_HEAT * litres_day * factors / 3600.0
    pipes = pipe_share * drawn
    return HotWaterYear(
        drawn_kwh=tuple(drawn.tolist()),
        pipes_kwh=tuple(pipes.tolist()),
        total_kwh=tuple((drawn + pipes).tolist()),
        drawn_year_kwh=float(drawn.sum()),
        pipes_year_kwh=float(pipes.sum()),
        year_kwh=float((drawn + pipes).sum()),
    )


@worked
def cylinder_loss(
    volume_l: Annotated[float, Unit("L"), Ge(20.0), Le(5000.0)],
    foam_mm: Annotated[float, Unit("mm"), Ge(0.0), Le(300.0)],
) -> Annotated[float, Unit("kWh"), Ge(0.0), Le(200.0)]:
    r"""Heat that a hot-water cylinder loses in a day.

    Parameters
    ----------
    volume_l : float
        Volume, :math:`V`. [L] From 20 to 5000.
    foam_mm : float
        Thickness of factory foam, :math:`t`. [mm] From 0 to 300.

    Returns
    -------
    float
        Loss in a day, in use with a thermostat. [kWh]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q = 0.6\,V \left(0.005 + \frac{0.55}{t + 4}\right) \left(\frac{120}{V}\right)^{1/3}

    References
    ----------
    .. [1] SAP 2012, Tables 2, 2a and 2b, as quoted in a public source file.

    Examples
    --------
    >>> round(cylinder_loss(120.0, 50.0), 2)
    1.09
    """
    volume_factor = float((120.0 / volume_l) ** (1.0 / 3.0))
    return 0.6 * volume_l * (0.005 + 0.55 / (foam_mm + 4.0)) * volume_factor


@lru_cache(maxsize=1)
def _profiles() -> dict[str, tuple[Floats, Floats]]:
    text = (files("woodreeve.house") / "data" / "tapping.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
    found = {}
    for name in ("S", "M", "L", "XL"):
        draws = [row for row in rows if row["profile"] == name]
        clock = [int(row["time"][:2]) + int(row["time"][3:]) / 60.0 for row in draws]
        found[name] = (np.array(clock), np.array([float(row["kwh"]) for row in draws]))
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class DaySplit:
    """The draws of a day.

    Parameters
    ----------
    clock_h : array
        Clock hour of each draw. [h]
    draw_kwh : array
        Heat of each draw. [kWh]
    total_kwh : float
        Heat of the day. [kWh]
    """

    clock_h: Floats
    draw_kwh: Floats
    total_kwh: KilowattHour


@worked
def tapping_profile(profile: Profile) -> DaySplit:
    r"""Draws of a day in one of the European tapping profiles.

    Parameters
    ----------
    profile : {"S", "M", "L", "XL"}
        Small, middling, large, very large.

    Returns
    -------
    DaySplit
        When, and how much heat.

    Raises
    ------
    UnknownName
        If the profile is none of these.

    Notes
    -----
    .. math:: Q = \sum_i q_i

    References
    ----------
    .. [1] Regulation (EU) No 812/2013, Annex VII, Table 3 (draws from memory; the day's total of M,
       5.845 kWh, was read as quoted at https://ukplumbersforums.co.uk/threads/84258).

    Examples
    --------
    >>> round(tapping_profile("M").total_kwh, 3)
    5.845
    """
    clock, heat = _profiles()[profile]
    return DaySplit(clock_h=clock, draw_kwh=heat, total_kwh=float(heat.sum()))


def tapping_day(profile: Profile = "M") -> Floats:
    """Share of the day's hot water in each of its 24 hours."""
    clock, heat = _profiles()[profile]
    by_hour = np.bincount(clock.astype(np.int64), weights=heat, minlength=24)
    return np.asarray(by_hour / heat.sum(), dtype=float)
