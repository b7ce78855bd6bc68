"""The JSON resource /api/upkeep."""

from __future__ import annotations

from fastapi import APIRouter, Request

from woodreeve.answers import upkeep
from woodreeve.web.api.opened import OpenedFigure, opened_figure
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.faults import FAULTS

__all__ = ["router"]

router = APIRouter(tags=["upkeep"], responses=FAULTS)


@router.get("/upkeep")
def show(request: Request, asking: Asked) -> upkeep.UpkeepAnswer:
    """Answer what is due on the plant, and what was left out."""
    return remembered(request, asking, upkeep.answer)


@router.get("/upkeep/why/{field}")
def why(asking: Asked, field: str) -> OpenedFigure:
    """Open one figure of the answer down to its sources."""
    return opened_figure("upkeep", field, asking)
