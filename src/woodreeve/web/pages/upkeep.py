"""The page /upkeep: what is due on the plant, what was left out, and the lists."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import upkeep
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()


@router.get("/upkeep")
def show(request: Request, asking: Asked) -> Response:
    """Show what is due, what was skipped and why it matters, parts that wear, and where ash may go."""
    return page(request, "upkeep.html", asking, answer=remembered(request, asking, upkeep.answer))
