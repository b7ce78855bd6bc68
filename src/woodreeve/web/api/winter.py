"""The JSON resource /api/winter."""

from __future__ import annotations

from fastapi import APIRouter, Request

from woodreeve.answers import winter
from woodreeve.web.api.opened import OpenedFigure, opened_figure
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.faults import FAULTS

__all__ = ["router"]

router = APIRouter(tags=["winter"], responses=FAULTS)


@router.get("/winter")
def show(request: Request, asking: Asked) -> winter.WinterAnswer:
    """Answer how much wood the winters take, and whether it is there and dry."""
    return remembered(request, asking, winter.answer)


@router.get("/winter/why/{field}")
def why(asking: Asked, field: str) -> OpenedFigure:
    """Open one figure of the answer down to its sources."""
    return opened_figure("winter", field, asking)
