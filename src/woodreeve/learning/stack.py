"""Follow a stack from the day it was split to the end of a forecast, and learn from every reading.

Many copies of the stack are run side by side, each with its own start and its own drying rate; a
reading keeps the copies that agree with it. What is left is the range.
"""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from statistics import NormalDist
from typing import Any

import numpy as np
from numpy.typing import NDArray

from woodreeve.errors import OutOfRange, Unknown
from woodreeve.learning.course import AVERAGE_STACK, RatePrior, ReadingSeen, StackCourse
from woodreeve.units import Floats, Moisture
from woodreeve.wood.moisture import to_dry_basis
from woodreeve.wood.seasoning import drying_days
from woodreeve.wood.seasoning_fit import DryingParameters, fitted
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_stack import DryingStack, start_moisture
from woodreeve.wood.seasoning_weather import DryingWeather
from woodreeve.workings import worked

__all__ = ["follow_stack"]

DRIFT_SD = 0.05
"""How far a stack's log rate wanders in a month; assumed. [-]"""
YEAR_NOISE_SD = 0.07
"""How far the drying power of a whole year is off a typical one, as a log; assumed. [-]"""
MONTH_NOISE_SD = 0.15
"""How far that of a month is off, as a log; assumed. [-]"""
SMOOTHING = 0.1
"""How far drawn copies are spread again, as a share of their own spread. [-]"""
HOLD_DAYS = 14
"""Wood is ready when it has been at or below its target for so many days. [day]"""
ODD_SDS = 3.0
"""A reading further off than so many standard deviations is shown as odd. [-]"""
MEASURED_FOR_DAYS = 60
"""For so long after a reading the present value may rest on it, [day]"""
MEASURED_WITHIN = 0.02
"""if it still lies so close to it. [-]"""


@worked
def follow_stack(
    stack: DryingStack,
    weather: DryingWeather,
    readings: tuple[StackReading, ...] = (),
    *,
    now: date,
    prior: RatePrior = AVERAGE_STACK,
    targets: tuple[Moisture, ...] = (0.20,),
    copies: int = 500,
    seed: int = 0,
    every_days: int = 1,
    parameters: DryingParameters | None = None,
) -> StackCourse:
    r"""Moisture of a stack over time, learned from its readings, with a range that holds in 8 cases of 10.

    Parameters
    ----------
    stack : DryingStack
        The stack.
    weather : DryingWeather
        Its weather: measured days first, then a typical year to the end of the forecast.
    readings : tuple of StackReading
        What was found, in any order; those after ``now`` are not looked at.
    now : date
        The day the answer is for; ready dates are sought from it on.
    prior : RatePrior
        What is believed of its rate beforehand; pooled from the owner's finished stacks.
    targets : tuple of float
        Moistures that it may come down to. [-]
    copies : int
        How many copies are run.
    seed : int
        Changes the dice; the same seed, stack name and inputs give the same answer.
    every_days : int
        Gives the course at every so many days.
    parameters : DryingParameters, optional
        The model's figures; the fitted ones if not given.

    Returns
    -------
    StackCourse
        The course, the present value, the crossings and each reading against what was expected.

    Raises
    ------
    Unknown
        If the weather begins after the stack, or ends before ``now``.
    OutOfRange
        If a reading was taken before the stack stood.

    Notes
    -----
    Each copy has a start :math:`M_0 \sim N(M_0, \sigma_0)` and a log rate
    :math:`z \sim N(\mu, \sigma_z)` that wanders by 0.05 a month. Days that are not measured carry a log
    noise on their drying power, 0.07 for the year and 0.15 for each month. A reading weights each copy by

    .. math:: w = 0.95\, e^{-d^2/2} + \frac{0.05}{4}\, e^{-d^2/32}, \qquad d = (M - M_{read}) / \sigma

    (a bound: by the chance of lying beyond it), then copies are drawn anew in proportion and spread a
    little. The second term is for readings that are wrong for some reason: far off, they hardly move the
    course, are kept and are named as odd beyond three standard deviations.

    References
    ----------
    .. [1] N. J. Gordon, D. J. Salmond, A. F. M. Smith, "Novel approach to nonlinear/non-Gaussian Bayesian
       state estimation", IEE Proceedings F 140, 1993 (the bootstrap filter; from memory).
    .. [2] J. Liu, M. West, "Combined parameter and state estimation in simulation-based filtering", 2001
       (the shrunk kernel; from memory).
    .. [3] :func:`woodreeve.wood.seasoning.day_of_drying` for the day's step; the noises are assumed.
    """
    from woodreeve.wood.seasoning_kernel import follow

    p = parameters or fitted()
    days = drying_days(stack, weather, parameters=p)
    count = days.rate.size
    now_day = (now - stack.start).days
    if not 0 <= now_day < count:
        raise Unknown(
            f"{stack.name}: the weather reaches from {stack.start} for {count} days, which misses {now}."
        )
    ordered = sorted(readings, key=lambda reading: reading.taken)
    if ordered and ordered[0].taken < stack.start:
        raise OutOfRange(
            "taken", str(ordered[0].taken), f"on or after {stack.start}, when {stack.name} began"
        )
    used = [reading for reading in ordered if reading.taken <= now]
    calendar = np.datetime64(stack.start, "D") + np.arange(count)
    months = calendar.astype("datetime64[M]").astype(np.int64)
    month_of_day = months - months[0]
    shown = np.arange(0, count, every_days, dtype=np.int64)
    dice = _Dice(stack.name, seed)
    first = start_moisture(stack)
    starts = np.clip(first + stack.start_moisture_sd * _even_normals(dice("start"), copies), 0.08, 0.68)
    sd = p.log_rate_sd if prior.sd is None else prior.sd
    log_rate = prior.mean + sd * _even_normals(dice("rate"), copies)
    known = (weather.start - stack.start).days + weather.known_days
    drift, noise = _noises(dice, month_of_day, calendar, known, copies)
    out = _Results.make(len(used), shown.size, copies, len(targets))
    moisture = to_dry_basis(starts)
    follow(
        moisture,
        log_rate,
        days.rate,
        days.equilibrium_dry_basis,
        p.slow_share,
        month_of_day,
        drift,
        noise,
        np.array([(reading.taken - stack.start).days for reading in used], dtype=np.int64),
        np.array([_KIND[reading.kind] for reading in used], dtype=np.int64),
        np.array([reading.moisture for reading in used], dtype=float),
        np.array([reading.sd for reading in used], dtype=float),
        _draws(dice, len(used), copies),
        SMOOTHING,
        np.array(targets, dtype=float),
        HOLD_DAYS,
        shown,
        _SHARES,
        out.quantiles,
        now_day,
        out.now,
        out.now_log_rate,
        out.crossing,
        out.before,
    )
    seen = tuple(_seen(reading, *out.before[k]) for k, reading in enumerate(used))
    low_now, moisture_now, high_now = (float(value) for value in np.quantile(out.now, _SHARES))
    return StackCourse(
        name=stack.name,
        start=stack.start,
        now=now,
        shown_days=shown,
        low=out.quantiles[:, 0].copy(),
        median=out.quantiles[:, 1].copy(),
        high=out.quantiles[:, 2].copy(),
        moisture_now=moisture_now,
        low_now=low_now,
        high_now=high_now,
        log_rate=float(out.now_log_rate.mean()),
        log_rate_sd=float(out.now_log_rate.std()),
        log_rate_prior=float(prior.mean),
        targets=targets,
        crossing_days=tuple(out.crossing[:, column].copy() for column in range(len(targets))),
        readings=seen,
        measured=_is_measured(seen, now, moisture_now),
        last_day=stack.start + timedelta(days=count - 1),
        rain_known=weather.rain_known,
    )


@dataclass(frozen=True, slots=True)
class _Results:
    quantiles: Floats
    now: Floats
    now_log_rate: Floats
    crossing: NDArray[np.int64]
    before: Floats

    @classmethod
    def make(cls, readings: int, shown: int, copies: int, targets: int) -> _Results:
        return cls(
            np.empty((shown, len(_SHARES))),
            np.empty(copies),
            np.empty(copies),
            np.empty((copies, targets), dtype=np.int64),
            np.empty((readings, 2)),
        )


_SHARES = np.array([0.1, 0.5, 0.9])
_KIND = {"value": 0, "above": 1, "below": 2}


@dataclass(frozen=True, slots=True)
class _Dice:
    """Dice of one stack, apart for each purpose: a longer forecast does not change what comes before."""

    name: str
    seed: int

    def __call__(self, purpose: str) -> np.random.Generator:
        return np.random.default_rng([zlib.crc32(f"{self.name}/{purpose}".encode()), self.seed])


def _even_normals(dice: np.random.Generator, count: int) -> Floats:
    """Normal numbers spread evenly, in random order: fewer copies give a steadier range."""
    return dice.permutation(_evenly(count))


@lru_cache(maxsize=8)
def _evenly(count: int) -> Floats:
    normal = NormalDist()
    return np.array([normal.inv_cdf((k + 0.5) / count) for k in range(count)])


def _noises(
    dice: _Dice, month_of_day: NDArray[np.int64], calendar: Any, known_days: int, copies: int
) -> tuple[Floats, Floats]:
    """The wandering of the rate, and the noise of weather that is not measured, month by month."""
    months = int(month_of_day[-1]) + 1
    drift: Floats = DRIFT_SD * dice("drift").standard_normal((months, copies))
    drift[0] = 0.0
    years = calendar.astype("datetime64[Y]").astype(np.int64)
    first_day = np.searchsorted(month_of_day, np.arange(months))
    year_of_month = years[first_day] - years[0]
    by_year = YEAR_NOISE_SD * dice("year").standard_normal((int(year_of_month[-1]) + 1, copies))
    by_month = MONTH_NOISE_SD * dice("month").standard_normal((months, copies))
    noise: Floats = by_year[year_of_month] + by_month
    last_day = np.append(first_day[1:], month_of_day.size)
    unknown = np.clip((last_day - known_days) / (last_day - first_day), 0.0, 1.0)
    return drift, noise * unknown[:, None]


def _draws(dice: _Dice, readings: int, copies: int) -> Floats:
    draws: Floats = dice("readings").standard_normal((readings, 1 + 2 * copies))
    draws[:, 0] = dice("offsets").random(readings)
    return draws


def _seen(reading: StackReading, expected: float, spread: float) -> ReadingSeen:
    off = float((reading.moisture - expected) / np.hypot(spread, reading.sd))
    beyond = {"value": abs(off), "above": off, "below": -off}[reading.kind]
    return ReadingSeen(
        reading=reading,
        expected=float(expected),
        expected_sd=float(spread),
        sds_off=max(-100.0, min(off, 100.0)),
        odd=beyond > ODD_SDS,
    )


def _is_measured(seen: Sequence[ReadingSeen], now: date, moisture: float) -> bool:
    """Whether a recent reading, not an odd one, stands close to the present value."""
    return any(
        one.reading.kind == "value"
        and not one.odd
        and 0 <= (now - one.reading.taken).days <= MEASURED_FOR_DAYS
        and abs(one.reading.moisture - moisture) <= MEASURED_WITHIN
        for one in seen
    )
