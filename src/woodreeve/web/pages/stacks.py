"""The page /stacks: what is in each stack, how wet it is, and which to burn first."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import stacks
from woodreeve.charts import stacks as charts
from woodreeve.errors import UnknownName
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.render import page, picture

__all__ = ["router"]

router = APIRouter()


@router.get("/stacks")
def show(request: Request, asking: Asked) -> Response:
    """Show what is in each stack, how wet it is, and which to burn first."""
    answer = remembered(request, asking, stacks.answer)
    return page(request, "stacks.html", asking, answer=answer, charts=charts.of(answer))


@router.get("/stacks/chart/{name}")
def chart(request: Request, asking: Asked, name: str, theme: str = "light") -> Response:
    """Draw one of the charts."""
    drawn = charts.of(remembered(request, asking, stacks.answer))
    if name not in drawn:
        raise UnknownName("chart", name, drawn)
    return picture(drawn[name], theme)
