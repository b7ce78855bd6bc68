"""The arithmetic of many possible stacks at once: each copy dries at its own rate, and readings sort them.

A kernel states no equation: the day's step is :func:`woodreeve.wood.seasoning.day_of_drying`, compiled.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit

from woodreeve.units import Floats
from woodreeve.wood.seasoning import day_of_drying

__all__ = ["ABOVE", "BELOW", "VALUE", "course", "follow"]

VALUE, ABOVE, BELOW = 0, 1, 2
"""Kinds of reading: a value, "wetter than", "drier than"."""

ODD_SHARE = 0.05
"""Share of readings that are taken to be amiss in some way nobody knows."""

ODD_WIDTH = 4.0
"""How many times wider such readings scatter."""

_bare: Any = day_of_drying
_step = njit(_bare.__wrapped__)


@njit(cache=True, nogil=True)
def course(first: float, rate: Floats, equilibrium: Floats, slow_share: float) -> Floats:
    """Moisture (dry basis) at the end of each day, from that of the first morning."""
    days = rate.size
    path = np.empty(days)
    moisture = first
    for day in range(days):
        moisture = _step(moisture, equilibrium[day], rate[day], slow_share)
        path[day] = moisture
    return path


@njit(nogil=True)
def _chance_above(distance: float) -> float:
    """Chance that a normal error exceeds ``-distance`` standard deviations."""
    return 0.5 * math.erfc(-distance / math.sqrt(2.0))


@njit(nogil=True)
def _weight(moisture: float, kind: int, value: float, sd: float) -> float:
    """Likelihood of a reading for a copy of that moisture (wet basis), odd readings allowed for."""
    distance = (moisture - value) / sd
    if kind == VALUE:
        wide = distance / ODD_WIDTH
        return (1.0 - ODD_SHARE) * math.exp(-0.5 * distance * distance) + ODD_SHARE / ODD_WIDTH * math.exp(
            -0.5 * wide * wide
        )
    if kind == BELOW:
        distance = -distance
    return (1.0 - ODD_SHARE) * _chance_above(distance) + ODD_SHARE * _chance_above(distance / ODD_WIDTH)


@njit(cache=True, nogil=True)
def follow(
    moisture: Floats,
    log_rate: Floats,
    rate: Floats,
    equilibrium: Floats,
    slow_share: float,
    month_of_day: Any,
    drift: Floats,
    weather_noise: Floats,
    reading_day: Any,
    reading_kind: Any,
    reading_value: Floats,
    reading_sd: Floats,
    draws: Floats,
    smoothing: float,
    targets: Floats,
    hold_days: int,
    shown_days: Any,
    shares: Floats,
    quantiles: Floats,
    now_day: int,
    now: Floats,
    now_log_rate: Floats,
    crossing: Any,
    before: Floats,
) -> None:
    """Run all copies of one stack through all days; results go into the arrays given last.

    ``moisture`` (dry basis) and ``log_rate`` hold the copies and are changed. ``drift`` and
    ``weather_noise`` have a row for each month and a column for each copy. ``crossing`` keeps, for
    each copy and target, the first day from ``now_day`` on that begins ``hold_days`` at or below the
    target (-1 for none); readings must not be later than that. ``before`` keeps, for each reading,
    what was expected: mean and spread.
    """
    copies = moisture.size
    days = rate.size
    own = np.empty(copies)
    wet = np.empty(copies)
    weight = np.empty(copies)
    held = np.zeros((copies, targets.size), dtype=np.int64)
    source = np.empty(copies, dtype=np.int64)
    kept_moisture, kept_rate = np.empty(copies), np.empty(copies)
    limits = targets / (1.0 - targets)
    crossing[:, :] = -1
    reading = 0
    shown = 0
    month = -1
    for day in range(days):
        if month_of_day[day] != month:
            month = month_of_day[day]
            for i in range(copies):
                log_rate[i] += drift[month, i]
                own[i] = math.exp(log_rate[i] + weather_noise[month, i])
        for i in range(copies):
            moisture[i] = _step(moisture[i], equilibrium[day], rate[day] * own[i], slow_share)
        while reading < reading_day.size and reading_day[reading] == day:
            mean = 0.0
            for i in range(copies):
                wet[i] = moisture[i] / (1.0 + moisture[i])
                mean += wet[i] / copies
            spread = 0.0
            for i in range(copies):
                spread += (wet[i] - mean) ** 2 / copies
            before[reading, 0], before[reading, 1] = mean, math.sqrt(spread)
            total = 0.0
            for i in range(copies):
                weight[i] = _weight(
                    wet[i], reading_kind[reading], reading_value[reading], reading_sd[reading]
                )
                total += weight[i]
            if total > 0.0:
                _resample(weight, total, draws[reading, 0], source)
                for i in range(copies):
                    kept_moisture[i], kept_rate[i] = moisture[source[i]], log_rate[source[i]]
                _smooth(kept_moisture, moisture, smoothing, draws[reading, 1 : copies + 1])
                _smooth(kept_rate, log_rate, smoothing, draws[reading, copies + 1 :])
                for i in range(copies):
                    moisture[i] = max(moisture[i], 0.02)
                    own[i] = math.exp(log_rate[i] + weather_noise[month, i])
            reading += 1
        if day == now_day:
            for i in range(copies):
                now[i], now_log_rate[i] = moisture[i] / (1.0 + moisture[i]), log_rate[i]
        if day >= now_day:
            for i in range(copies):
                for t in range(targets.size):
                    if moisture[i] <= limits[t]:
                        held[i, t] += 1
                        if held[i, t] == hold_days and crossing[i, t] < 0:
                            crossing[i, t] = day - hold_days + 1
                    else:
                        held[i, t] = 0
        if shown < shown_days.size and shown_days[shown] == day:
            for i in range(copies):
                wet[i] = moisture[i] / (1.0 + moisture[i])
            wet.sort()
            for q in range(shares.size):
                place = shares[q] * (copies - 1)
                low = int(place)
                high = min(low + 1, copies - 1)
                quantiles[shown, q] = wet[low] + (place - low) * (wet[high] - wet[low])
            shown += 1


@njit(nogil=True)
def _resample(weight: Floats, total: float, offset: float, source: Any) -> None:
    """Draw copies in proportion to their weight, at even steps from one offset (systematic)."""
    copies = weight.size
    reached = weight[0] / total
    at = 0
    for i in range(copies):
        mark = (i + offset) / copies
        while reached < mark and at < copies - 1:
            at += 1
            reached += weight[at] / total
        source[i] = at


@njit(nogil=True)
def _smooth(kept: Floats, out: Floats, smoothing: float, draws: Floats) -> None:
    """Spread drawn copies a little, keeping their mean and spread (a shrunk kernel)."""
    copies = kept.size
    mean = 0.0
    for i in range(copies):
        mean += kept[i] / copies
    spread = 0.0
    for i in range(copies):
        spread += (kept[i] - mean) ** 2 / copies
    shrink = math.sqrt(1.0 - smoothing * smoothing)
    for i in range(copies):
        out[i] = mean + shrink * (kept[i] - mean) + smoothing * math.sqrt(spread) * draws[i]
