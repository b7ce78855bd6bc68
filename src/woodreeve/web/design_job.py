"""The design helper as a job: the many runs once behind the page, picking among them at once."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any, Literal

from fastapi import Depends, Query, Request

from woodreeve.web.asking import Asked
from woodreeve.web.jobs import Job, Jobs
from woodreeve.web.kernels import KERNELS

if TYPE_CHECKING:
    from woodreeve.answers.design import DesignAnswer
    from woodreeve.records.asking import Asking

__all__ = ["DesignAsked", "Wanted", "design_answer", "design_job"]

Size = Annotated[float | None, Query(gt=0, le=50000)]


@dataclass(frozen=True)
class Wanted:
    """Which variant is looked at, and what 500 litres more should spare."""

    boiler: Size = None
    store: Size = None
    insulation: Literal["as_it_is", "store_lagged", "house_insulated"] = "as_it_is"
    presence: Literal["evening", "morning_and_evening", "all_day"] = "morning_and_evening"
    spares: Annotated[float, Query(gt=0, le=500)] = 10.0


DesignAsked = Annotated[Wanted, Depends()]


def design_job(request: Request, asking: Asked) -> Job:
    """The job of the runs, begun if they were not asked for before; it does not depend on what is picked."""
    jobs: Jobs = request.app.state.jobs
    version, document, last_entry, weather, *_ = asking.key
    key = ("design", version, document, last_entry, weather, asking.moment.date())
    return jobs.ask(key, lambda say: _work(asking, say))


def design_answer(asking: Asking, job: Job, wanted: Wanted) -> DesignAnswer | None:
    """The answer for what is picked; ``None`` while the runs are not done."""
    if job.state != "done":
        return None
    from woodreeve.answers import design

    picked = design.Picked(
        boiler_kw=wanted.boiler,
        store_litres=wanted.store,
        insulation=wanted.insulation,
        presence=wanted.presence,
        least_spared=wanted.spares,
    )
    return design.weighed(asking, job.result, picked)


def _work(asking: Asking, say: Callable[[float], bool]) -> Any:
    while not KERNELS.are_ready and say(0.0):
        time.sleep(0.2)
    from woodreeve.answers import design

    return design.tried(asking, progress=say)
