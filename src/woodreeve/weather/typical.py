"""A typical year hour by hour, made from twelve month means: for places without a weather file.

What an owner can look up is twelve means of temperature, rain, sun and wind. A house, a store and a
stack of wood feel hours and cold spells. This makes the one from the other, with dice that always fall
alike for the same seed. A typical year has no hard winter in it: for that see :func:`hard_winter_year`.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Any

import numpy as np

from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.weather import synthesis as parts
from woodreeve.weather.normals import Normals, Twelve, normals_of
from woodreeve.weather.rows import NOMINAL_YEAR
from woodreeve.weather.series import DAYS_IN_MONTH, Hourly, start_of_year
from woodreeve.weather.sunpath import diffuse_share, sun_path_of
from woodreeve.workings import worked

__all__ = ["Normals", "hard_winter_year", "normals_of", "typical_year"]

DEFAULT_SWING_K: Twelve = (4.5, 5.3, 6.4, 7.6, 8.2, 8.3, 8.2, 8.0, 7.3, 6.0, 4.8, 4.4)
"""Daily swing where nobody gives one, lowlands of north-west Europe. [K] (judgement within the ranges
of 17 weather files: 3 to 7 K in December, 7 to 11 K in June)"""

DEFAULT_SPREAD_K: Twelve = (3.0, 2.95, 2.8, 2.65, 2.45, 2.3, 2.3, 2.3, 2.45, 2.65, 2.85, 3.0)
"""Spread of daily means where nobody gives one, near the sea. [K] (weather files: winter 3.0, summer 2.3)"""

DAY_WAVE = ((1, 0.4632, 3.805), (2, 0.0984, 0.360), (3, 0.0168, 0.822), (4, 0.0138, 3.513))
"""Harmonics of the temperature's course over a day: number, size over the swing, phase. [-], [-], [rad]
(Erbs, Klein, Beckman 1983, from memory)"""

WARM_DAY_SWING = (0.0, 0.0, 0.0, 0.2, 0.2, 0.24, 0.22, 0.2, 0.16, 0.0, 0.0, 0.0)
"""How much wider, as a share, a day swings for each spread that it is warmer. [-] (Fifteen German reference
years: 0.17 to 0.25 from April to September, standard deviation 0.08 between places; near 0 in winter)"""

CLEAR_DAY_SWING = 0.4
"""The same for a day twice as clear as usual. [-] (judgement)"""

WET_DAY_MM = 5.0
"""Rain of a usual wet day, from which their number follows. [mm] (judgement)"""

SPREADS_OF_A_HARD_SPELL = 4.0
"""So many spreads of daily means under the coldest month's mean lies a hard spell. (The extreme-winter
reference year of Essen: coldest three days -11.6 °C, which is 4.1 spreads of its mean year.)"""


def _or(given: Twelve | None, fallback: Twelve) -> Floats:
    return np.array(fallback if given is None else given, dtype=float)


def _swung(days: Floats, swing_k: Floats, brightness: Floats) -> Floats:
    """Hours with a wave over the day, long flat nights and a short peak, as high as the mean swing asks."""
    slow = parts.hours_through_days(days)
    turn = 2.0 * np.pi * (np.arange(24) + 0.5 - 1.0) / 24.0
    wave = sum(size * np.cos(number * turn - late) for number, size, late in DAY_WAVE)
    wave = wave - np.mean(wave)
    height = swing_k
    hours = slow
    for _ in range(12):
        hours = slow + (height[parts.MONTH_OF_DAY] * brightness)[:, None] * wave
        found = parts.month_means(hours.max(axis=1) - hours.min(axis=1))
        height = np.maximum(0.02 * swing_k, height * swing_k / found)
    return np.asarray(hours, dtype=float)


def _brightness(departure: Floats, clearness: Floats | None) -> Floats:
    """How much wider than usual each day swings: warm summer days and clear days more."""
    wider = 1.0 + np.array(WARM_DAY_SWING)[parts.MONTH_OF_DAY] * departure
    if clearness is not None:
        wider = wider + CLEAR_DAY_SWING * (clearness / parts.month_means(clearness)[parts.MONTH_OF_DAY] - 1.0)
    return np.asarray(np.clip(wider, 0.25, 2.5), dtype=float)


@worked
def typical_year(
    normals: Normals,
    *,
    seed: Annotated[int, Unit("-"), Ge(0), Le(2**31)] = 0,
    year: Annotated[int, Unit("-"), Ge(1900), Le(2200)] = NOMINAL_YEAR,
    free: bool = False,
) -> Hourly:
    r"""A year of hourly weather whose months have the means given.

    Degree days of such a year come within about 1.5 % of those of the real hours behind the means.

    Parameters
    ----------
    normals : Normals
        The twelve means of temperature, and of whatever else is known.
    seed : int
        Number of the throw of dice; the same seed gives the same year everywhere. [-]
    year : int
        The year its hours are laid on; 29 February is left out. [-]
    free : bool
        Leave the month means free to fall as in one year of a row of years, for the study of risk.

    Returns
    -------
    Hourly
        The year; a series is there if its normals are.

    Raises
    ------
    OutOfRange
        If a normal lies outside its range.
    Unknown
        If sun is wanted but the place is not given.

    Notes
    -----
    .. math:: T_{d,h} = \mu(d) + z(d) + A(d) \sum_{k=1}^{4} a_k \cos\left(2\pi k (h - 1)/24 - b_k\right)

    .. math:: z(d) = \varphi z(d-1) + \sqrt{1 - \varphi^2}\,\sigma(d)\,\varepsilon(d)

    :math:`\mu` is a smooth course that gives the month means back exactly; :math:`z` is scaled so
    that this year shows the spread and persistence given; :math:`A` is wider on clear days and on warm
    days of summer. Sun: day clearness between overcast and clear, hours by Collares-Pereira and Rabl.
    Humidity: dew point a little under the day's lowest temperature. Wind: Weibull, exponent 2, hourly
    correlation 0.9. Rain: chain of wet and dry days, Weibull amounts, exponent 0.75. Rain and
    temperature are drawn apart from each other.

    References
    ----------
    .. [1] K. M. Knight, S. A. Klein, J. A. Duffie, "A methodology for the synthesis of hourly weather
       data", Solar Energy 46(2), 1991 (abstract read; the scheme here is our own).
    .. [2] M. Collares-Pereira and A. Rabl, "The average distribution of solar radiation", Solar
       Energy 22, 1979 (from memory).
    .. [3] D. G. Erbs, S. A. Klein, W. A. Beckman, "Estimation of degree-days and ambient temperature
       bin data from monthly-average temperatures", ASHRAE Journal 25(6), 1983 (wave of the day, from
       memory).
    .. [4] J. S. Selker and D. A. Haith, "Development and testing of single-parameter precipitation
       distributions", Water Resources Research 26(11), 1990 (from memory).
    """
    course = parts.through_the_year(np.array(normals.temperature_c))
    spread = _or(normals.day_noise_sd_k, DEFAULT_SPREAD_K)
    if free:
        days = course + parts.free_day_noise(seed, spread, normals.persistence)
    else:
        days = course + parts.day_noise(seed, course, spread, normals.persistence)
    frame = Hourly(
        start=start_of_year(year, normals.utc_offset_h),
        temperature_c=np.zeros(parts.DAYS * 24),
        latitude_deg=normals.latitude_deg,
        longitude_deg=normals.longitude_deg,
        elevation_m=normals.elevation_m,
        utc_offset_h=normals.utc_offset_h,
        source=f"Typical year made from month means ({normals.source or 'source not given'})",
    )
    made: dict[str, Floats] = {}
    wet = None
    if normals.rain_mm is not None:
        rain = np.array(normals.rain_mm)
        lengths = np.array(DAYS_IN_MONTH)
        share = (rain / WET_DAY_MM if normals.wet_days is None else np.array(normals.wet_days)) / lengths
        wet = parts.wet_days(seed, np.clip(share, 0.03, 0.85))
        made["rain_mm"] = parts.rain_days(seed, wet, rain)
    clearness = None
    if normals.sun_kwh_m2 is not None:
        latitude, _ = frame.place()
        path = sun_path_of(frame)
        sun, clearness = parts.sunny_hours(seed, wet, path, latitude, np.array(normals.sun_kwh_m2))
        made["sun_w_m2"] = sun
        outside = np.maximum(path.outside_w_m2, 1.0)
        made["diffuse_w_m2"] = sun.ravel() * diffuse_share(np.minimum(2.0, sun.ravel() / outside))
    temperature = _swung(
        days,
        _or(normals.swing_k, DEFAULT_SWING_K),
        _brightness((days - course) / spread[parts.MONTH_OF_DAY], clearness),
    )
    if normals.relative_humidity is not None:
        made["relative_humidity"] = parts.humid_hours(temperature, np.array(normals.relative_humidity))
    if normals.wind_m_s is not None:
        made["wind_m_s"] = parts.windy_hours(seed, np.array(normals.wind_m_s))
    rounded: dict[str, Any] = {name: np.round(values.ravel(), 4) for name, values in made.items()}
    return replace(frame, temperature_c=np.round(temperature.ravel(), 3), **rounded)


@worked
def hard_winter_year(
    normals: Normals,
    *,
    seed: Annotated[int, Unit("-"), Ge(0), Le(2**31)] = 0,
    year: Annotated[int, Unit("-"), Ge(1900), Le(2200)] = NOMINAL_YEAR,
    colder_winter_k: Annotated[float, Unit("K"), Ge(0.0), Le(8.0)] = 2.5,
    spell_c: Annotated[float | None, Unit("degC"), Ge(-50.0), Le(15.0)] = None,
    spell_days: Annotated[int, Unit("day"), Ge(1), Le(21)] = 3,
) -> Hourly:
    r"""A year with a hard winter and a cold spell in it: what the wood and the store must survive.

    A typical year understates rare cold. This one has a winter colder throughout and, in its coldest
    place, some days at the temperature that heating is designed for or below.

    Parameters
    ----------
    normals : Normals
        As for :func:`typical_year`.
    seed : int
        Number of the throw of dice. [-]
    year : int
        The year its hours are laid on. [-]
    colder_winter_k : float
        How much colder December, January and February are; March and November half as much. [K]
        From 0 to 8.
    spell_c : float or None
        Mean temperature of the cold spell; unknown: four spreads of daily means under the coldest
        month's mean. [degC] From -50 to 15.
    spell_days : int
        Length of the spell. [day] From 1 to 21.

    Returns
    -------
    Hourly
        The year.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T_{spell} = \min_m T_m - 4\,\sigma_m

    The spell is laid on the coldest days of January and February; two days on each side lead into
    and out of it. Where the year is as cold already, nothing is changed.

    References
    ----------
    .. [1] Extreme-winter test reference year of Essen (Deutscher Wetterdienst, 2010), as a measure:
       1.0 K colder than its mean year, coldest three days -11.6 °C.
    """
    drop = np.array([1.0, 1.0, 0.5, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.5, 1.0]) * colder_winter_k
    colder = tuple((np.array(normals.temperature_c) - drop).tolist())
    base = typical_year(replace(normals, temperature_c=colder), seed=seed, year=year)
    coldest_month = int(np.argmin(normals.temperature_c))
    if spell_c is None:
        spread = _or(normals.day_noise_sd_k, DEFAULT_SPREAD_K)[coldest_month]
        spell_c = float(normals.temperature_c[coldest_month] - SPREADS_OF_A_HARD_SPELL * spread)
    means = base.day_means()
    first = _coldest_window(means[:59], spell_days)
    missing = float(means[first : first + spell_days].mean()) - spell_c
    if missing <= 0.0:
        return base
    depth = np.zeros(means.size)
    for distance, part in ((0, 1.0), (1, 2.0 / 3.0), (2, 1.0 / 3.0)):
        lead = slice(max(0, first - distance), first + spell_days + distance)
        depth[lead] = np.maximum(depth[lead], part)
    temperature = base.temperature_c - missing * np.repeat(depth, 24)
    return replace(base, temperature_c=np.round(temperature, 3), source=base.source + ", hard winter laid on")


def _coldest_window(days: Floats, length: int) -> int:
    sums = np.convolve(days, np.ones(length), mode="valid")
    return int(np.argmin(sums))
