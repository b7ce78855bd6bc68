"""The pages /<answer>/why/<field>: any figure opened down to its sources."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.web.api.opened import opened
from woodreeve.web.asking import Asked
from woodreeve.web.render import page
from woodreeve.wording.labels import figure_label
from woodreeve.workings.why import Step

__all__ = ["router"]

router = APIRouter()

NEAR = 4
"""So many formulas stand in the panel that opens beside a figure; the page has them all."""


@router.get("/{question}/why/{field}")
def show(request: Request, asking: Asked, question: str, field: str) -> Response:
    """Show how one figure of an answer came about."""
    found = opened(question, field, asking)
    return page(
        request,
        "why.html",
        asking,
        question=question,
        opened=found,
        formulas=_by_formula(found.steps),
        near=NEAR,
        label=figure_label(question, field),
    )


def _by_formula(steps: tuple[Step, ...]) -> list[list[Step]]:
    """The steps of each formula together, the formulas in the order in which they are met."""
    found: dict[str, list[Step]] = {}
    for step in steps:
        found.setdefault(step.name, []).append(step)
    return list(found.values())
