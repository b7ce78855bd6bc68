"""The answer ``season`` as a job: asked for once, worked out behind the page."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Annotated, Literal

from fastapi import Depends, Query, Request

from woodreeve.web.asking import Asked
from woodreeve.web.jobs import Job, Jobs
from woodreeve.web.kernels import KERNELS

if TYPE_CHECKING:
    from woodreeve.answers.season import SeasonAnswer
    from woodreeve.records.asking import Asking

__all__ = ["SeasonAsked", "Wanted", "season_job"]


@dataclass(frozen=True)
class Wanted:
    """Which run is asked for."""

    rule: Literal["evening", "tuned"] = "evening"
    begins: date | None = None
    days: Annotated[int, Query(ge=1, le=1500)] = 365

    @property
    def query(self) -> str:
        """The same as the end of an address."""
        begins = f"&begins={self.begins.isoformat()}" if self.begins else ""
        return f"rule={self.rule}&days={self.days}{begins}"


SeasonAsked = Annotated[Wanted, Depends()]


def season_key(asking: Asking, wanted: Wanted) -> tuple[object, ...]:
    """What a run rests on."""
    version, document, last_entry, weather, *_ = asking.key
    return "season", version, document, last_entry, weather, asking.moment.date(), wanted


def season_job(request: Request, asking: Asked, wanted: Wanted) -> Job:
    """The job of a run, begun if it was not asked for before."""
    jobs: Jobs = request.app.state.jobs
    return jobs.ask(season_key(asking, wanted), lambda say: _work(asking, wanted, say))


def _work(asking: Asking, wanted: Wanted, say: Callable[[float], bool]) -> SeasonAnswer:
    while not KERNELS.are_ready and say(0.0):
        time.sleep(0.2)
    from woodreeve.answers import season

    return season.answer(asking, wanted.rule, begins=wanted.begins, days=wanted.days, progress=say)
