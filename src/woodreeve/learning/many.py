"""Follow many stacks at once, with progress, on several cores."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import date

from woodreeve.learning.course import AVERAGE_STACK, RatePrior, StackCourse
from woodreeve.learning.stack import follow_stack
from woodreeve.units import Moisture
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_stack import DryingStack
from woodreeve.wood.seasoning_weather import DryingWeather

__all__ = ["StackTask", "follow_stacks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StackTask:
    """One stack of many that are to be followed."""

    stack: DryingStack
    weather: DryingWeather
    readings: tuple[StackReading, ...] = ()
    prior: RatePrior = AVERAGE_STACK


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
