"""The pages /workings: every formula, and a small form to try it."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.errors import WoodreeveError
from woodreeve.web.asking import Asked
from woodreeve.web.render import page
from woodreeve.wording.formulas import plain_result
from woodreeve.workings.load import load_all
from woodreeve.workings.text import text_of

__all__ = ["router"]

router = APIRouter()


@router.get("/workings")
def show_all(request: Request, asking: Asked) -> Response:
    """List every formula by room."""
    registry = load_all()
    rooms = groupby(registry.values(), key=lambda f: f.module.removeprefix("woodreeve.").split(".")[0])
    return page(
        request, "workings.html", asking, count=len(registry), rooms=[(r, list(fs)) for r, fs in rooms]
    )


@router.get("/workings/{name}")
def show_one(request: Request, asking: Asked, name: str) -> Response:
    """Show one formula, and its result for the values given."""
    formula = load_all()[name]
    return page(
        request, "formula.html", asking, formula=formula, words=text_of(name), **_tried(request, name)
    )


@router.get("/workings/{name}/part/result")
def try_one(request: Request, asking: Asked, name: str) -> Response:
    """Work one formula out."""
    return page(request, "formula_result.html", asking, **_tried(request, name))


def _tried(request: Request, name: str) -> dict[str, Any]:
    """The values asked for, and the result or the fault they give."""
    formula = load_all()[name]
    given = {key: value for key, value in request.query_params.items() if value.strip()}
    tried: dict[str, Any] = {"tried": given, "unit": formula.result_unit, "result": None, "fault": ""}
    if given:
        try:
            tried["result"] = plain_result(formula.call_with_units(given))
        except WoodreeveError as error:
            tried["fault"] = str(error)
    return tried
