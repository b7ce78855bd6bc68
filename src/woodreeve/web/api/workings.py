"""The JSON resource /api/workings: every formula, and its result for values given."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel

from woodreeve.web.faults import FAULTS
from woodreeve.wording.formulas import plain_result
from woodreeve.workings.load import load_all
from woodreeve.workings.registry import WorkedFunction
from woodreeve.workings.text import text_of

__all__ = ["router"]

router = APIRouter(tags=["workings"], responses=FAULTS)


class FormulaArgument(BaseModel):
    """One argument of a formula."""

    name: str
    unit: str | None
    allowed: str
    choices: list[str]
    required: bool
    help: str


class Formula(BaseModel):
    """One formula with its text."""

    name: str
    room: str
    summary: str
    arguments: list[FormulaArgument]
    unit: str | None
    equations: list[str]
    references: str
    from_memory: bool


class Given(BaseModel):
    """Values by argument: numbers in the formula's own unit, or texts with a unit."""

    given: dict[str, float | str | list[float] | None]


class WorkedOut(BaseModel):
    """What a formula gives."""

    name: str
    result: Any
    unit: str | None


@router.get("/workings")
def list_all() -> list[Formula]:
    """List every formula."""
    return [_formula(function) for function in load_all().values()]


@router.get("/workings/{name}")
def show(name: str) -> Formula:
    """Show one formula."""
    return _formula(load_all()[name])


@router.post("/workings/{name}")
def work_out(name: str, body: Given) -> WorkedOut:
    """Work one formula out."""
    function = load_all()[name]
    result = plain_result(function.call_with_units(body.given))
    return WorkedOut(name=name, result=result, unit=function.result_unit)


def _formula(function: WorkedFunction) -> Formula:
    text = text_of(function.name)
    return Formula(
        name=function.name,
        room=function.module.removeprefix("woodreeve.").split(".")[0],
        summary=text.summary,
        arguments=[
            FormulaArgument(
                name=p.name,
                unit=p.unit,
                allowed=p.bounds.words() if p.unit else "",
                choices=[str(choice) for choice in p.choices],
                required=p.required,
                help=text.parameters.get(p.name, ""),
            )
            for p in function.parameters
        ],
        unit=function.result_unit,
        equations=list(text.equations),
        references=text.references,
        from_memory=text.from_memory,
    )
