"""The pages /<answer>/why/<field>: any figure opened down to its sources."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.records.asking import Asking
from woodreeve.web.api.opened import opened
from woodreeve.web.asking import Asked
from woodreeve.web.render import page
from woodreeve.wording.labels import figure_label
from woodreeve.workings.why import Step

__all__ = ["opened_parts", "router"]

router = APIRouter()

NEAR = 4
"""So many formulas stand in the panel that opens beside a figure; the page has them all."""


@router.get("/{question}/why/{field}")
def show(request: Request, asking: Asked, question: str, field: str) -> Response:
    """Show how one figure of an answer came about, all the way down."""
    return page(request, "why.html", asking, **opened_parts(asking, question, field))


@router.get("/{question}/why/{field}/part/near")
def show_near(request: Request, asking: Asked, question: str, field: str) -> Response:
    """The first formulas behind a figure, for the panel that opens beside it."""
    return page(request, "why_near.html", asking, **opened_parts(asking, question, field))


def opened_parts(asking: Asking, question: str, field: str) -> dict[str, Any]:
    """What the pages of an opened figure show; ``question`` is the address of its answer."""
    found = opened(question, field, asking)
    return {
        "question": question,
        "opened": found,
        "formulas": _by_formula(found.steps),
        "near": NEAR,
        "label": figure_label(question, field),
        "whole": f"/{question}/why/{field}",
    }


def _by_formula(steps: tuple[Step, ...]) -> list[list[Step]]:
    """The steps of each formula together, the formulas in the order in which they are met."""
    found: dict[str, list[Step]] = {}
    for step in steps:
        found.setdefault(step.name, []).append(step)
    return list(found.values())
