"""The page /tonight: whether to light the boiler, when, with how much and from which stack."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from woodreeve.answers import tonight
from woodreeve.charts import tonight as charts
from woodreeve.links.refresh import refresh_forecast
from woodreeve.web.asking import Asked, HouseholdOf
from woodreeve.web.drawings import kept_drawing
from woodreeve.web.render import page
from woodreeve.web.tonight_ready import at_step, preparing, tonight_now

__all__ = ["router"]

router = APIRouter()


@router.get("/tonight")
def show(request: Request, asking: Asked, asked: str = "") -> Response:
    """Show the plan, or that it is being prepared."""
    if preparing(request, asking) is not None:
        return page(request, "tonight_preparing.html", asking)
    answer = tonight_now(request, asking)
    return page(
        request, "tonight.html", asking, answer=answer, charts=charts.of(answer), forecast_asked=asked
    )


@router.get("/tonight/part/sentence")
def sentence(request: Request, asking: Asked) -> Response:
    """The sentence alone, for the first page."""
    job = preparing(request, asking)
    answer = None if job is not None else tonight_now(request, asking)
    return page(request, "tonight_sentence.html", asking, tonight=answer)


@router.get("/tonight/part/preparing")
def wait(request: Request, asking: Asked) -> Response:
    """Tell whether the kernels are ready; the page loads itself anew when they are."""
    job = preparing(request, asking)
    told = page(request, "tonight_waiting.html", asking)
    if job is None or job.is_over:
        told.headers["HX-Refresh"] = "true"
    return told


@router.post("/tonight/forecast")
def fetch(asking: Asked, household: HouseholdOf) -> Response:
    """Fetch the weather forecast, where the owner has turned that on."""
    told = refresh_forecast(household.records, household.name, asking.holding, household.clock())
    return RedirectResponse(f"/tonight?asked={told.state if told else 'off'}", 303)


@router.get("/tonight/chart/{name}")
def chart(request: Request, asking: Asked, name: str) -> Response:
    """Draw one of the charts."""
    stepped = at_step(request, asking)
    drawn = charts.of(tonight_now(request, stepped))
    return kept_drawing(request, (tonight.answer.__module__, *stepped.key), drawn, name)
