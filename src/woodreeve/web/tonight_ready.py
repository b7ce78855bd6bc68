"""Whether the evening's plan can be given at once, or must first be prepared behind the page."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TYPE_CHECKING

from fastapi import Request

from woodreeve.web.asking import household_of
from woodreeve.web.jobs import Job, Jobs
from woodreeve.web.kernels import KERNELS

if TYPE_CHECKING:
    from woodreeve.answers.tonight import TonightAnswer
    from woodreeve.records.asking import Asking

__all__ = ["preparing", "tonight_now"]


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

    return household_of(request).remembered(tonight.answer, asking)
