"""The pages /holding: the description of the place, section by section."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from woodreeve.errors import WoodreeveError
from woodreeve.holding.reading import NotAHolding
from woodreeve.holding.toml import load, problems
from woodreeve.records.store import StaleHolding
from woodreeve.web.asking import Asked, HouseholdOf
from woodreeve.web.render import page
from woodreeve.web.sections import overview, section_at, with_changes, without
from woodreeve.wording.translate import _

__all__ = ["router"]

router = APIRouter()


async def typed_texts(request: Request) -> dict[str, str]:
    """The texts of a form, by field."""
    return {key: str(value) for key, value in (await request.form()).items()}


Typed = Annotated[dict[str, str], Depends(typed_texts)]


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
def edit(request: Request, household: HouseholdOf, asking: Asked, path: str, saved: str = "") -> Response:
    """Show one section as a form, as it was last saved."""
    newest = household.records.holding_newest(household.name)
    section = section_at(load(newest.document), path)
    return page(
        request,
        "holding_section.html",
        asking,
        section=section,
        version=newest.version,
        saved=saved,
        fault="",
    )


@router.post("/holding/{path}")
def save(request: Request, household: HouseholdOf, asking: Asked, path: str, typed: Typed) -> Response:
    """Save what was typed into one section; where something does not do, show it again with what is wrong."""
    newest = household.records.holding_newest(household.name)
    before = load(newest.document)
    based_on = int(typed.get("based-on", "")) if typed.get("based-on", "").isdecimal() else 0
    is_stale = based_on != newest.version
    removing = "remove" in typed
    text = newest.document
    faults: dict[str, str] = {}
    fault = ""
    try:
        if is_stale:
            raise StaleHolding(newest, text, based_on)
        if removing:
            text = without(text, path)
        else:
            text, faults = with_changes(text, before, path, typed)
        if not faults:
            load(text)
            household.save(text, based_on=based_on, is_change=typed.get("why") == "change")
            shown = section_at(before, path).up if removing else path
            return RedirectResponse(f"/holding/{shown}?saved={'removed' if removing else 'saved'}", 303)
    except NotAHolding as error:
        faults, fault = _by_field(error, path)
    except WoodreeveError as error:
        fault = str(error)
    return page(
        request,
        "holding_section.html",
        asking,
        409 if is_stale else 422,
        section=section_at(before, path, typed, faults, is_stale=is_stale),
        version=newest.version,
        saved="",
        fault=fault or _("Nothing was saved yet: look at what is marked below."),
    )


def _by_field(error: NotAHolding, path: str) -> tuple[dict[str, str], str]:
    """The faults of a description that stand in this section, by field, and the first of all others."""
    inside = {one.path: one.sentence for one in error.problems if one.path.startswith(f"{path}.")}
    others = [one.sentence for one in error.problems if one.path not in inside]
    return inside, others[0] if others else ""
