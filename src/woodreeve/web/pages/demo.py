"""The demonstration's button: step its clock on by a day."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response

from woodreeve.errors import UnknownName
from woodreeve.web.asking import household_of
from woodreeve.web.clocks import SteppedClock

__all__ = ["router"]

router = APIRouter()


@router.post("/demo/step")
def step(request: Request, back: Annotated[str, Form()] = "/") -> Response:
    """Step the demonstration on to the next evening."""
    clock = household_of(request).clock
    if not isinstance(clock, SteppedClock):
        raise UnknownName("page", "/demo/step", ())
    clock.step()
    is_ours = back.startswith("/") and not back.startswith("//") and "\\" not in back
    return RedirectResponse(back if is_ours else "/", 303)
