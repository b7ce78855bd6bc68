"""The page /plant: whether the plant is rightly sized, safe and legal, check by check."""

from __future__ import annotations

from itertools import groupby

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import plant
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()


@router.get("/plant")
def show(request: Request, asking: Asked) -> Response:
    """Show every check with verdict, rule and source, and what it would take."""
    answer = remembered(request, asking, plant.answer)
    numbered = list(enumerate(answer.checks))
    to_look_at = [(at, one) for at, one in numbered if one.verdict != "fits"]
    to_look_at.sort(key=lambda pair: ("does_not_fit", "tight", "not_known").index(pair[1].verdict))
    groups = [(group, list(found)) for group, found in groupby(numbered, lambda pair: pair[1].topic.group)]
    return page(request, "plant.html", asking, answer=answer, to_look_at=to_look_at, groups=groups)
