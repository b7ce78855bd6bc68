"""Whether the evening's plan can be given at once, or must first be prepared behind the page."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import timedelta
from typing import TYPE_CHECKING

from fastapi import Request

from woodreeve.web.asking import household_of
from woodreeve.web.jobs import Job, Jobs
from woodreeve.web.kernels import KERNELS

if TYPE_CHECKING:
    from woodreeve.answers.tonight import TonightAnswer
    from woodreeve.records.asking import Asking

__all__ = ["at_step", "preparing", "tonight_now"]

STEP_MINUTES = 10
"""A plan stands for so long, unless something is noted. [min]"""


def preparing(request: Request, asking: Asking) -> Job | None:
    """The job that waits for the compiled kernels and then plans; ``None`` where a plan comes at once."""
    if KERNELS.are_ready:
        return None
    jobs: Jobs = request.app.state.jobs
    return jobs.ask(("tonight", *asking.key), lambda say: _work(request, asking, say))


def _work(request: Request, asking: Asking, say: Callable[[float], bool]) -> TonightAnswer:
    while not KERNELS.are_ready and say(0.0):
        time.sleep(0.2)
    return tonight_now(request, asking)


def tonight_now(request: Request, asking: Asking) -> TonightAnswer:
    """The plan, worked out once as long as nothing it rests on changes."""
    from woodreeve.answers import tonight

    return household_of(request).remembered(tonight.answer, at_step(request, asking))


def at_step(request: Request, asking: Asking) -> Asking:
    """The same question at the end of the ten minutes it falls in, so that a plan stands for as long.

    What was noted meanwhile is seen, and the plan begins at the same whole hour.
    """
    past = timedelta(
        minutes=asking.moment.minute % STEP_MINUTES,
        seconds=asking.moment.second,
        microseconds=asking.moment.microsecond,
    )
    if not past:
        return asking
    return household_of(request).ask(asking.moment + timedelta(minutes=STEP_MINUTES) - past)
