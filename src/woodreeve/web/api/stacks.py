"""The JSON resource /api/stacks."""

from __future__ import annotations

from fastapi import APIRouter, Request

from woodreeve.answers import stacks
from woodreeve.web.api.opened import OpenedFigure, opened_figure
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.faults import FAULTS

__all__ = ["router"]

router = APIRouter(tags=["stacks"], responses=FAULTS)


@router.get("/stacks")
def show(request: Request, asking: Asked) -> stacks.StacksAnswer:
    """Answer what is in each stack, how wet it is, and which to burn first."""
    return remembered(request, asking, stacks.answer)


@router.get("/stacks/why/{field}")
def why(asking: Asked, field: str) -> OpenedFigure:
    """Open one figure of the answer down to its sources."""
    return opened_figure("stacks", field, asking)
