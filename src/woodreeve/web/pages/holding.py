"""The pages /holding: the description of the place, section by section."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from woodreeve.errors import WoodreeveError
from woodreeve.holding.toml import load, problems
from woodreeve.web.asking import Asked, household_of
from woodreeve.web.render import page
from woodreeve.web.sections import overview, section_at, with_changes

__all__ = ["router"]

router = APIRouter()


@router.get("/holding")
def show(request: Request, asking: Asked) -> Response:
    """Show what is known of the place, and what is odd in it."""
    return page(
        request,
        "holding.html",
        asking,
        sections=overview(asking.holding),
        problems=problems(asking.document),
        valid_from=asking.valid_from,
        version=asking.version,
        text_of_holding=asking.document,
    )


@router.get("/holding/{path}")
def edit(request: Request, asking: Asked, path: str, saved: bool = False) -> Response:
    """Show one section as a form."""
    section = section_at(asking.holding, path)
    return page(
        request,
        "holding_section.html",
        asking,
        section=section,
        version=asking.version,
        saved=saved,
        fault="",
    )


@router.post("/holding/{path}")
async def save(request: Request, asking: Asked, path: str) -> Response:
    """Save what was typed into one section; where something does not do, show it again with what is wrong."""
    form = {key: str(value) for key, value in (await request.form()).items()}
    household = household_of(request)
    newest = household.records.holding_newest(household.name)
    text, faults = with_changes(newest.document, load(newest.document), path, form)
    fault = ""
    if not faults:
        try:
            load(text)
            household.save(
                text,
                based_on=int(form.get("based-on", "0") or 0),
                is_change=form.get("why") == "change",
            )
            return RedirectResponse(f"/holding/{path}?saved=1", 303)
        except WoodreeveError as error:
            fault = str(error)
    section = section_at(asking.holding, path, form, faults)
    return page(
        request,
        "holding_section.html",
        asking,
        422,
        section=section,
        version=asking.version,
        saved=False,
        fault=fault,
    )
