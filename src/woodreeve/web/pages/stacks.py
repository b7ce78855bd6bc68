"""The pages /stacks and /stacks/<place>: how wet each stack is, when it is ready, which to burn first."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import stacks
from woodreeve.charts import stacks as charts
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.drawings import drawing, kept_drawing
from woodreeve.web.pages.why import opened_parts
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


@router.get("/stacks/{place}")
def show_one(request: Request, asking: Asked, place: str) -> Response:
    """Show one stack: its course, its readings, and how to sample it."""
    answer = stacks.one_stack(asking, place)
    return page(request, "stacks_one.html", asking, answer=answer, charts=charts.of_one(answer))


@router.get("/stacks/{place}/chart/{name}")
def chart_of_one(request: Request, asking: Asked, place: str, name: str) -> Response:
    """Draw a chart of one stack."""
    drawn = charts.of_one(stacks.one_stack(asking, place))
    return kept_drawing(request, ("stack", place, *asking.key), drawn, name)


@router.get("/stacks/{place}/why/{field}")
def why(request: Request, asking: Asked, place: str, field: str) -> Response:
    """Show how a figure of one stack came about."""
    return page(request, "why.html", asking, **opened_parts(asking, f"stacks/{place}", field))


@router.get("/stacks/{place}/why/{field}/part/near")
def why_near(request: Request, asking: Asked, place: str, field: str) -> Response:
    """The first formulas behind a figure of one stack."""
    return page(request, "why_near.html", asking, **opened_parts(asking, f"stacks/{place}", field))
