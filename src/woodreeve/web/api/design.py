"""The JSON resource /api/plant/design: many plants tried, once they are done."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse
from pydantic import TypeAdapter

from woodreeve.web.api.season import RunState
from woodreeve.web.asking import Asked
from woodreeve.web.design_job import DesignAsked, design_answer, design_job
from woodreeve.web.faults import FAULTS

__all__ = ["router"]

router = APIRouter(tags=["plant"], responses=FAULTS)


@router.get("/plant/design", responses={202: {"model": RunState, "description": "Not done yet: ask again."}})
def show(request: Request, asking: Asked, wanted: DesignAsked) -> RunState:
    """Try boilers, stores, insulation and presence over winters; ask again until it is done or failed."""
    job = design_job(request, asking)
    found = design_answer(asking, job, wanted)
    answer = None if found is None else TypeAdapter(type(found)).dump_python(found, mode="json")
    told = RunState(state=job.state, share=job.share, sentence=job.sentence, answer=answer)
    if not job.is_over:
        return JSONResponse(told.model_dump(), 202)  # type: ignore[return-value]  # the same model, another status
    return told
