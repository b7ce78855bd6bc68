"""The first page: each question's sentence, and what is asked of the owner."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import diary, stacks, winter
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.render import page
from woodreeve.web.tonight_ready import preparing, tonight_now

__all__ = ["router"]

router = APIRouter()


@router.get("/")
def show(request: Request, asking: Asked) -> Response:
    """Show the sentence of every question, and the few things asked most."""
    return page(
        request,
        "first.html",
        asking,
        tonight=None if preparing(request, asking) is not None else tonight_now(request, asking),
        stacks=remembered(request, asking, stacks.answer),
        winter=remembered(request, asking, winter.answer),
        diary=remembered(request, asking, diary.answer),
        fills=[one for one in asking.holding.yard.containers if one.use == "boiler_fill"],
    )
