"""The pages /<answer>/why/<field>: any figure opened down to its sources."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import stacks, winter
from woodreeve.errors import UnknownName
from woodreeve.records.household import Asking
from woodreeve.web.asking import Asked
from woodreeve.web.render import page
from woodreeve.wording.labels import figure_label
from woodreeve.workings.load import load_all
from woodreeve.workings.why import Opened, open_figure

__all__ = ["ANSWERS", "opened", "router"]

router = APIRouter()

ANSWERS: dict[str, Callable[[Asking], Any]] = {"winter": winter.answer, "stacks": stacks.answer}
"""The answers whose figures can be opened."""


def opened(question: str, field: str, asking: Asking) -> Opened:
    """Work an answer out once more under a trace and open one of its figures."""
    load_all()
    if question not in ANSWERS:
        raise UnknownName("question", question, ANSWERS)
    with asking.traced():
        answer = ANSWERS[question](asking)
    return open_figure(answer, field)


@router.get("/{question}/why/{field}")
def show(request: Request, asking: Asked, question: str, field: str) -> Response:
    """Show how one figure of an answer came about."""
    found = opened(question, field, asking)
    return page(
        request, "why.html", asking, question=question, opened=found, label=figure_label(question, field)
    )
