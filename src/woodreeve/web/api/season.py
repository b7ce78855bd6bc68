"""The JSON resource /api/season: a run, once it is done."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse
from pydantic import BaseModel, TypeAdapter

from woodreeve.web.asking import Asked
from woodreeve.web.faults import FAULTS
from woodreeve.web.season_job import SeasonAsked, season_job

__all__ = ["router"]

router = APIRouter(tags=["season"], responses=FAULTS)


class RunState(BaseModel):
    """How far a run has come, and its answer once it is done, as ``woodreeve season --json`` prints it."""

    state: str
    share: float
    sentence: str
    answer: dict[str, Any] | None


@router.get("/season", responses={202: {"model": RunState, "description": "Not done yet: ask again."}})
def show(request: Request, asking: Asked, wanted: SeasonAsked) -> RunState:
    """Ask for a run of plant and house through a span; ask again until its state is done or failed."""
    job = season_job(request, asking, wanted)
    answer = None
    if job.state == "done":
        answer = TypeAdapter(type(job.result)).dump_python(job.result, mode="json")
    told = RunState(state=job.state, share=job.share, sentence=job.sentence, answer=answer)
    if not job.is_over:
        return JSONResponse(told.model_dump(), 202)  # type: ignore[return-value]  # the same model, another status
    return told
