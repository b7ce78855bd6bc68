"""The JSON resources /api/stacks and /api/stacks/<place>."""

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


@router.get("/stacks/{place}")
def show_one(asking: Asked, place: str) -> stacks.StackAnswer:
    """Answer how wet one stack is and was, when it is ready, which readings to doubt, how to sample it."""
    return stacks.one_stack(asking, place)


@router.get("/stacks/{place}/why/{field}")
def why_of_one(asking: Asked, place: str, field: str) -> OpenedFigure:
    """Open one figure of a stack down to its sources."""
    return opened_figure(f"stacks/{place}", field, asking)
