"""The page /stacks: what is in each stack, how wet it is, and which to burn first."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import stacks
from woodreeve.charts import stacks as charts
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.drawings import drawing
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()


@router.get("/stacks")
def show(request: Request, asking: Asked) -> Response:
    """Show what is in each stack, how wet it is, and which to burn first."""
    answer = remembered(request, asking, stacks.answer)
    return page(request, "stacks.html", asking, answer=answer, charts=charts.of(answer))


@router.get("/stacks/chart/{name}")
def chart(request: Request, asking: Asked, name: str) -> Response:
    """Draw one of the charts."""
    return drawing(request, asking, stacks.answer, charts.of, name)
