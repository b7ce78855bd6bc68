"""The page /winter: how much wood the winters take, and whether it is there and dry."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import winter
from woodreeve.charts import winter as charts
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.drawings import drawing
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()


@router.get("/winter")
def show(request: Request, asking: Asked) -> Response:
    """Show how much wood the winters take, and whether it is there and dry."""
    answer = remembered(request, asking, winter.answer)
    return page(request, "winter.html", asking, answer=answer, charts=charts.of(answer))


@router.get("/winter/chart/{name}")
def chart(request: Request, asking: Asked, name: str) -> Response:
    """Draw one of the charts."""
    return drawing(request, asking, winter.answer, charts.of, name)
