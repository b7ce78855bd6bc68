"""The pages /<answer>/why/<field>: any figure opened down to its sources."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.web.api.opened import opened
from woodreeve.web.asking import Asked
from woodreeve.web.render import page
from woodreeve.wording.labels import figure_label

__all__ = ["router"]

router = APIRouter()


@router.get("/{question}/why/{field}")
def show(request: Request, asking: Asked, question: str, field: str) -> Response:
    """Show how one figure of an answer came about."""
    found = opened(question, field, asking)
    return page(
        request, "why.html", asking, question=question, opened=found, label=figure_label(question, field)
    )
