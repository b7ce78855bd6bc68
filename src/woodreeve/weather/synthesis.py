"""The parts a made-up year is put together from: course of the year, weather of the days, sun, rain, wind.

All dice are drawn as plain uniform numbers from numpy's PCG64, one stream for each part, and turned
into what is needed by formulas here: numpy promises that stream on every platform and in every version.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from woodreeve.units import Floats
from woodreeve.weather.humidity import humidity_from_dew_point
from woodreeve.weather.series import DAYS_IN_MONTH
from woodreeve.weather.sunpath import SunPath

__all__ = [
    "DAYS",
    "MONTH_OF_DAY",
    "day_noise",
    "free_day_noise",
    "hours_through_days",
    "humid_hours",
    "month_means",
    "normal_dice",
    "rain_days",
    "sunny_hours",
    "through_the_year",
    "uniform_dice",
    "wet_days",
    "windy_hours",
]

DAYS = sum(DAYS_IN_MONTH)
"""Days of the year that is made. [day]"""

MONTH_OF_DAY: NDArray[np.int64] = np.repeat(np.arange(12), DAYS_IN_MONTH)
"""Number of the month, 0 to 11, of each day."""

_LONGEST_RAIN_H = 6
"""A wet day's rain falls in so many hours on end. [h]"""


def uniform_dice(seed: int, stream: int, count: int) -> Floats:
    """Uniform numbers between 0 and 1 from the stream of one part of the weather."""
    return np.random.Generator(np.random.PCG64(np.random.SeedSequence([seed, stream]))).random(count)


def normal_dice(seed: int, stream: int, count: int) -> Floats:
    """Normally distributed numbers, by the Box-Muller formula."""
    u = uniform_dice(seed, stream, 2 * count)
    return np.sqrt(-2.0 * np.log1p(-u[:count])) * np.cos(2.0 * np.pi * u[count:])


def month_means(days: Floats) -> Floats:
    """Means of daily values over the twelve months."""
    return np.asarray(np.bincount(MONTH_OF_DAY, weights=days) / np.array(DAYS_IN_MONTH), dtype=float)


def _between_mid_months() -> Floats:
    """Matrix from twelve values in mid-month to days, by straight lines round the year."""
    lengths = np.array(DAYS_IN_MONTH, dtype=float)
    middle = np.cumsum(lengths) - lengths / 2.0
    at = np.arange(DAYS) + 0.5
    knots = np.concatenate([[middle[-1] - DAYS], middle, [middle[0] + DAYS]])
    return np.stack(
        [np.interp(at, knots, np.concatenate([[row[-1]], row, [row[0]]])) for row in np.eye(12)], axis=1
    )


_LINES = _between_mid_months()
_MEANS_OF_LINES = np.stack([month_means(column) for column in _LINES.T], axis=1)


def through_the_year(twelve: Floats) -> Floats:
    """A smooth course of days whose month means are exactly those given.

    Straight lines through the means themselves would flatten January and July; the knots are
    therefore set where the averages come out right.
    """
    return np.asarray(_LINES @ np.linalg.solve(_MEANS_OF_LINES, np.asarray(twelve, dtype=float)), dtype=float)


def _persistent(steps: Floats, persistence: float) -> Floats:
    """First-order autoregressive series of unit spread."""
    keep, fresh = persistence, float(np.sqrt(1.0 - persistence**2))
    state = float(steps[0])
    series = [state]
    for step in steps[1:].tolist():
        state = keep * state + fresh * step
        series.append(state)
    return np.array(series)


def _month_spread(days: Floats) -> Floats:
    means = month_means(days)
    squares = np.bincount(MONTH_OF_DAY, weights=(days - means[MONTH_OF_DAY]) ** 2)
    return np.asarray(np.sqrt(squares / (np.array(DAYS_IN_MONTH) - 1.0)), dtype=float)


def _shaped(raw: Floats, course: Floats, spread_k: Floats) -> Floats:
    """Noise scaled so that days spread as wanted in each month and leave the month means alone."""
    noise = raw * through_the_year(spread_k)
    for _ in range(8):
        noise = noise - through_the_year(month_means(noise))
        now = _month_spread(course + noise)
        noise = noise * (_LINES @ np.clip(spread_k / np.maximum(now, 1e-6), 0.5, 2.0))
    return np.asarray(noise - through_the_year(month_means(noise)), dtype=float)


def _departures(days: Floats) -> Floats:
    """What is left of days when the mean and three yearly waves are taken out."""
    angle = 2.0 * np.pi * (np.arange(DAYS) + 0.5)[:, None] * np.arange(1, 4) / DAYS
    waves = np.concatenate([np.cos(angle), np.sin(angle)], axis=1) * np.sqrt(2.0 / DAYS)
    rest = days - days.mean()
    return np.asarray(rest - waves @ (waves.T @ rest), dtype=float)


def _lag_one(days: Floats) -> float:
    rest = _departures(days)
    return float(np.corrcoef(rest[:-1], rest[1:])[0, 1])


def day_noise(seed: int, course: Floats, spread_k: Floats, wanted: float) -> Floats:
    """Departures of days from the course, cold spells and mild spells, with the persistence wanted. [K]."""
    steps = normal_dice(seed, 0, DAYS)
    low, high = 0.0, 0.995
    for _ in range(12):
        middle = (low + high) / 2.0
        noise = _shaped(_persistent(steps, middle), course, spread_k)
        if _lag_one(course + noise) < wanted:
            low = middle
        else:
            high = middle
    return _shaped(_persistent(steps, (low + high) / 2.0), course, spread_k)


def free_day_noise(seed: int, spread_k: Floats, persistence: float) -> Floats:
    """Departures of days whose month means fall as they fall: a year like one in a row of years. [K]."""
    return _persistent(normal_dice(seed, 0, DAYS), persistence) * through_the_year(spread_k)


def hours_through_days(days: Floats) -> Floats:
    """Hours on straight lines between noons, with exactly the day means given (rows are days)."""
    frequency = 2.0 * np.pi * np.fft.rfftfreq(DAYS)
    noon = np.fft.irfft(np.fft.rfft(days) / (0.75 + 0.25 * np.cos(frequency)), DAYS)
    part = (np.arange(24) + 0.5 - 12.0) / 24.0
    before, after = np.roll(noon, 1)[:, None], np.roll(noon, -1)[:, None]
    neighbour = np.where(part < 0.0, before, after)
    return np.asarray(noon[:, None] * (1.0 - np.abs(part)) + neighbour * np.abs(part), dtype=float)


def wet_days(seed: int, wet_share: Floats) -> NDArray[np.bool_]:
    """Which days are wet: a two-state chain in which a wet day is likelier after a wet one."""
    persistence = 0.3
    dice = uniform_dice(seed, 1, DAYS).tolist()
    share = wet_share[MONTH_OF_DAY].tolist()
    wet: list[bool] = []
    was = dice[0] < share[0]
    for throw, p in zip(dice, share):
        was = throw < (p + (1.0 - p) * persistence if was else p * (1.0 - persistence))
        wet.append(was)
    return np.array(wet)


def rain_days(seed: int, wet: NDArray[np.bool_], rain_mm: Floats) -> Floats:
    """Rain of each hour (rows are days), with the month sums given. [mm].

    Amounts of wet days are Weibull distributed with exponent 0.75.
    """
    dice = uniform_dice(seed, 2, 2 * DAYS)
    amounts = (-np.log1p(-dice[:DAYS])) ** (1.0 / 0.75) * wet
    first_of_month = np.cumsum(DAYS_IN_MONTH) - np.array(DAYS_IN_MONTH)
    totals = np.bincount(MONTH_OF_DAY, weights=amounts)
    amounts[first_of_month[(totals <= 0.0) & (rain_mm > 0.0)] + 14] = 1.0
    totals = np.maximum(np.bincount(MONTH_OF_DAY, weights=amounts), 1e-12)
    amounts = amounts * (rain_mm / totals)[MONTH_OF_DAY]
    begin = (dice[DAYS:] * (25 - _LONGEST_RAIN_H)).astype(np.int64)[:, None]
    hour = np.arange(24)
    raining = (hour >= begin) & (hour < begin + _LONGEST_RAIN_H)
    return np.asarray(raining * amounts[:, None] / _LONGEST_RAIN_H, dtype=float)


def _clearness_of_days(seed: int, wet: NDArray[np.bool_] | None, month_clearness: Floats) -> Floats:
    """Clearness of each day: skewed between overcast and clear, wet days duller."""
    latent = normal_dice(seed, 3, DAYS)
    if wet is not None:
        latent = 0.8 * latent + np.where(wet, -0.6, 0.6)
    rank = np.argsort(np.argsort(latent, kind="stable"), kind="stable")
    spread = (rank + 0.5) / DAYS
    low, high = 0.04, 0.76
    mean = np.clip(month_clearness, 0.08, 0.70)[MONTH_OF_DAY]
    return np.asarray(low + (high - low) * spread ** ((high - mean) / (mean - low)), dtype=float)


def sunny_hours(
    seed: int, wet: NDArray[np.bool_] | None, path: SunPath, latitude_deg: float, sun_kwh_m2: Floats
) -> tuple[Floats, Floats]:
    """Sun on level ground of each hour (rows are days), and the clearness of days. [W/m2], [-].

    The day's sun is laid out over its hours by the ratio of Collares-Pereira and Rabl; the month sums
    are those given.
    """
    outside = path.outside_w_m2.reshape(DAYS, 24)
    turned = path.hour_angle_rad.reshape(DAYS, 24)
    declination = path.declination_rad.reshape(DAYS, 24)[:, 12:13]
    sunset = np.arccos(np.clip(-np.tan(np.radians(latitude_deg)) * np.tan(declination), -1.0, 1.0))
    a, b = 0.409 + 0.5016 * np.sin(sunset - 1.047), 0.6609 - 0.4767 * np.sin(sunset - 1.047)
    shape = np.maximum(0.0, a + b * np.cos(turned)) * outside
    day_outside = outside.sum(axis=1)
    shape = shape / np.maximum(shape.sum(axis=1, keepdims=True), 1e-9)
    month_outside = np.bincount(MONTH_OF_DAY, weights=day_outside)
    wanted = np.asarray(sun_kwh_m2, dtype=float) * 1000.0
    clearness = _clearness_of_days(seed, wet, wanted / np.maximum(month_outside, 1e-9))
    for _ in range(30):
        sums = np.bincount(MONTH_OF_DAY, weights=clearness * day_outside)
        clearness = np.clip(clearness * (wanted / np.maximum(sums, 1e-9))[MONTH_OF_DAY], 0.0, 0.82)
    return (clearness * day_outside)[:, None] * shape, clearness


def humid_hours(temperature_c: Floats, relative_humidity: Floats) -> Floats:
    """Relative humidity of hours (rows are days) from a dew point a little under each day's lowest."""
    lowest = hours_through_days(temperature_c.min(axis=1))
    low, high = np.full(12, -8.0), np.full(12, 25.0)
    humidity = np.empty_like(temperature_c)
    for _ in range(24):
        middle = (low + high) / 2.0
        dew = np.clip(lowest - middle[MONTH_OF_DAY][:, None], -60.0, 60.0)
        humidity = humidity_from_dew_point(temperature_c, dew)
        damp = month_means(humidity.mean(axis=1)) > relative_humidity
        low, high = np.where(damp, middle, low), np.where(damp, high, middle)
    return humidity


def windy_hours(seed: int, wind_m_s: Floats) -> Floats:
    """Wind of hours (rows are days): Weibull with exponent 2, month means as given. [m/s]."""
    from math import erf, sqrt

    latent = _persistent(normal_dice(seed, 4, DAYS * 24), 0.9)
    below = np.array([0.5 * (1.0 + erf(x / sqrt(2.0))) for x in latent.tolist()])
    wind = np.sqrt(-np.log(np.maximum(1e-12, 1.0 - below))).reshape(DAYS, 24)
    wind = wind * through_the_year(wind_m_s)[:, None]
    return np.asarray(wind * (wind_m_s / month_means(wind.mean(axis=1)))[MONTH_OF_DAY][:, None], dtype=float)
