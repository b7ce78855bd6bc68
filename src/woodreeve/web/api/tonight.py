"""The JSON resource /api/tonight."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse
from pydantic import BaseModel

from woodreeve.answers.tonight import TonightAnswer
from woodreeve.web.api.opened import OpenedFigure, opened_figure
from woodreeve.web.asking import Asked
from woodreeve.web.faults import FAULTS
from woodreeve.web.tonight_ready import preparing, tonight_now

__all__ = ["router"]

router = APIRouter(tags=["tonight"], responses=FAULTS)


class Preparing(BaseModel):
    """The plan is not there yet: ask again."""

    state: str = "preparing"


@router.get("/tonight", responses={202: {"model": Preparing, "description": "Not ready yet: ask again."}})
def show(request: Request, asking: Asked) -> TonightAnswer:
    """Answer whether to light the boiler tonight, when, with how much and from which stack."""
    if preparing(request, asking) is not None:
        return JSONResponse(Preparing().model_dump(), 202)  # type: ignore[return-value]  # another status, another model
    return tonight_now(request, asking)


@router.get("/tonight/why/{field}")
def why(asking: Asked, field: str) -> OpenedFigure:
    """Open one figure of the answer down to its sources."""
    return opened_figure("tonight", field, asking)
