"""Follow a stack from the day it was split to the end of a forecast, and learn from every reading.

Many copies of the stack are run side by side, each with its own start and its own drying rate; a
reading keeps the copies that agree with it. What is left is the range.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from woodreeve.errors import OutOfRange, Unknown
from woodreeve.units import Floats, Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.moisture import to_dry_basis
from woodreeve.wood.seasoning import DryingStack, drying_days, start_moisture
from woodreeve.wood.seasoning_fit import DryingParameters, fitted
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_weather import DryingWeather
from woodreeve.workings import worked

__all__ = [
    "AVERAGE_STACK",
    "LogRate",
    "RatePrior",
    "ReadingSeen",
    "StackCourse",
    "StackTask",
    "follow_stack",
    "follow_stacks",
]

LogRate: TypeAlias = Annotated[float, Unit("-"), Ge(-5.0), Le(5.0)]
"""How much faster a stack dries than the model says, as a natural logarithm; 0 is average."""

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
"""For so long after a reading near 18 % the number itself may be shown. [day]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RatePrior:
    """What is believed of a stack's log rate before its first reading."""

    mean: LogRate = 0.0
    sd: Annotated[float, Unit("-"), Gt(0.0), Le(2.0)] | None = None
    """``None`` takes the spread between the stacks of the drying trials."""
    stacks: int = 0
    """How many finished stacks stand behind it."""


AVERAGE_STACK = RatePrior()
"""What is believed where nobody has learned anything yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingSeen:
    """A reading held against what was expected of it."""

    reading: StackReading
    expected: Moisture
    expected_sd: Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
    sds_off: Annotated[float, Unit("-"), Ge(-100.0), Le(100.0)]
    """How many standard deviations, of reading and forecast together, it lies above what was expected."""
    odd: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StackCourse:
    """Moisture of a stack over time with its range, and when it comes to its targets.

    Parameters
    ----------
    name : str
        The stack.
    start : date
        Its first day.
    now : date
        The day the answer is for.
    shown_days : array
        Days from the start at which the course is given.
    low, median, high : array
        10, 50 and 90 % values of the moisture on those evenings. [-]
    moisture_now, low_now, high_now : Moisture
        The same on the evening of ``now``. [-]
    log_rate, log_rate_sd : float
        The stack's own log rate as learned. [-]
    log_rate_prior : float
        The same before any reading. [-]
    targets : tuple of float
        Moistures whose crossing was watched. [-]
    crossing_days : array
        For each copy (row) and target (column) the day from the start that begins two weeks at or below
        the target, not before ``now``; -1 where it does not come within the weather given. [day]
    readings : tuple of ReadingSeen
        Each reading against what was expected.
    measured : bool
        Whether the present value rests on a recent reading.
    last_day : date
        The last day of the forecast.
    rain_known : bool
        Whether the rain was known.
    """

    name: str
    start: date
    now: date
    shown_days: NDArray[np.int64]
    low: Floats
    median: Floats
    high: Floats
    moisture_now: Moisture
    low_now: Moisture
    high_now: Moisture
    log_rate: LogRate
    log_rate_sd: Annotated[float, Unit("-"), Ge(0.0), Le(5.0)]
    log_rate_prior: LogRate
    targets: tuple[float, ...]
    crossing_days: NDArray[np.int64]
    readings: tuple[ReadingSeen, ...]
    measured: bool
    last_day: date
    rain_known: bool

    @property
    def dates(self) -> list[date]:
        """The shown days as dates."""
        return [self.start + timedelta(days=int(day)) for day in self.shown_days]

    @property
    def odd_readings(self) -> tuple[ReadingSeen, ...]:
        """Readings that lie far from what was expected."""
        return tuple(seen for seen in self.readings if seen.odd)


@dataclass(frozen=True, slots=True, kw_only=True)
class StackTask:
    """One stack of many that are to be followed."""

    stack: DryingStack
    weather: DryingWeather
    readings: tuple[StackReading, ...] = ()
    prior: RatePrior = AVERAGE_STACK


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
    dice = np.random.default_rng([zlib.crc32(stack.name.encode()), seed])
    first = start_moisture(stack)
    starts = np.clip(first + stack.start_moisture_sd * _even_normals(dice, copies), 0.08, 0.68)
    sd = p.log_rate_sd if prior.sd is None else prior.sd
    log_rate = prior.mean + sd * _even_normals(dice, copies)
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
        crossing_days=out.crossing,
        readings=tuple(_seen(reading, *out.before[k]) for k, reading in enumerate(used)),
        measured=_is_measured(used, now),
        last_day=stack.start + timedelta(days=count - 1),
        rain_known=weather.rain_known,
    )


def follow_stacks(
    tasks: Sequence[StackTask],
    *,
    now: date,
    targets: tuple[Moisture, ...] = (0.20,),
    copies: int = 500,
    seed: int = 0,
    every_days: int = 7,
    threads: int = 2,
    progress: Callable[[float], bool | None] | None = None,
) -> list[StackCourse]:
    """Follow many stacks at once.

    Parameters
    ----------
    tasks : sequence of StackTask
        The stacks; a stack's course does not depend on its neighbours or on the number of threads.
    now : date
        The day the answer is for.
    targets, copies, seed, every_days
        As in :func:`follow_stack`.
    threads : int
        How many at a time.
    progress : callable, optional
        Told the share done after each chunk; if it returns ``False`` the work stops.

    Returns
    -------
    list of StackCourse
        In the order of the tasks; shorter if stopped.
    """

    def one(task: StackTask) -> StackCourse:
        return follow_stack(
            task.stack,
            task.weather,
            task.readings,
            now=now,
            prior=task.prior,
            targets=targets,
            copies=copies,
            seed=seed,
            every_days=every_days,
        )

    done: list[StackCourse] = []
    chunk = max(1, 4 * threads)
    with ThreadPoolExecutor(max_workers=threads) as pool:
        for first in range(0, len(tasks), chunk):
            done += pool.map(one, tasks[first : first + chunk])
            if progress is not None and progress(len(done) / len(tasks)) is False:
                break
    return done


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


def _even_normals(dice: np.random.Generator, count: int) -> Floats:
    """Normal numbers spread evenly, in random order: fewer copies give a steadier range."""
    from scipy.special import ndtri

    evenly: Floats = ndtri((np.arange(count) + 0.5) / count)
    return dice.permutation(evenly)


def _noises(
    dice: np.random.Generator, month_of_day: NDArray[np.int64], calendar: Any, known_days: int, copies: int
) -> tuple[Floats, Floats]:
    """The wandering of the rate, and the noise of weather that is not measured, month by month."""
    months = int(month_of_day[-1]) + 1
    drift: Floats = DRIFT_SD * dice.standard_normal((months, copies))
    drift[0] = 0.0
    years = calendar.astype("datetime64[Y]").astype(np.int64)
    first_day = np.searchsorted(month_of_day, np.arange(months))
    year_of_month = years[first_day] - years[0]
    by_year = YEAR_NOISE_SD * dice.standard_normal((int(year_of_month[-1]) + 1, copies))
    noise: Floats = by_year[year_of_month] + MONTH_NOISE_SD * dice.standard_normal((months, copies))
    last_day = np.append(first_day[1:], month_of_day.size)
    unknown = np.clip((last_day - known_days) / (last_day - first_day), 0.0, 1.0)
    return drift, noise * unknown[:, None]


def _draws(dice: np.random.Generator, readings: int, copies: int) -> Floats:
    draws: Floats = dice.standard_normal((readings, 1 + 2 * copies))
    draws[:, 0] = dice.random(readings)
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


def _is_measured(readings: Sequence[StackReading], now: date) -> bool:
    return any(
        reading.kind == "value" and 0 <= (now - reading.taken).days <= MEASURED_FOR_DAYS
        for reading in readings
    )
