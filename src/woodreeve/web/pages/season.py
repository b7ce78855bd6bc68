"""The page /season: how the plant runs through a year with a firing rule."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from woodreeve.charts import season as charts
from woodreeve.web.asking import Asked
from woodreeve.web.drawings import kept_drawing
from woodreeve.web.jobs import Job
from woodreeve.web.render import page
from woodreeve.web.season_job import SeasonAsked, season_job

__all__ = ["router"]

router = APIRouter()


@router.get("/season")
def show(request: Request, asking: Asked, wanted: SeasonAsked) -> Response:
    """Show the run, or how far it has come."""
    job = season_job(request, asking, wanted)
    drawn = charts.of(job.result) if job.state == "done" else {}
    return page(request, "season.html", asking, job=job, answer=job.result, wanted=wanted, charts=drawn)


@router.get("/season/part/progress")
def progress(request: Request, asking: Asked, wanted: SeasonAsked) -> Response:
    """Tell how far the run has come; the page loads itself anew when it is over."""
    job: Job = season_job(request, asking, wanted)
    told = page(request, "season_progress.html", asking, job=job, wanted=wanted)
    if job.is_over:
        told.headers["HX-Refresh"] = "true"
    return told


@router.post("/season/stop")
def stop(request: Request, asking: Asked, wanted: SeasonAsked) -> Response:
    """Stop a run that takes too long."""
    job = season_job(request, asking, wanted)
    job.stop.set()
    return RedirectResponse("/season", 303)


@router.get("/season/chart/{name}")
def chart(request: Request, asking: Asked, wanted: SeasonAsked, name: str) -> Response:
    """Draw one of the charts of a run that is done."""
    job = season_job(request, asking, wanted)
    drawn = charts.of(job.result) if job.state == "done" else {}
    return kept_drawing(request, ("season", *job.key), drawn, name)
