"""The JSON resource /api/plant."""

from __future__ import annotations

from fastapi import APIRouter, Request

from woodreeve.answers import plant
from woodreeve.web.api.opened import OpenedFigure, opened_figure
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.faults import FAULTS

__all__ = ["router"]

router = APIRouter(tags=["plant"], responses=FAULTS)


@router.get("/plant")
def show(request: Request, asking: Asked) -> plant.PlantAnswer:
    """Answer whether the plant is rightly sized, safe and legal."""
    return remembered(request, asking, plant.answer)


@router.get("/plant/why/{field}")
def why(asking: Asked, field: str) -> OpenedFigure:
    """Open one figure of the answer down to its sources."""
    return opened_figure("plant", field, asking)
