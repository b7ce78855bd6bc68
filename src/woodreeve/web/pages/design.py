"""The page /plant/design: which boiler and store would suit the house, tried over winters."""

from __future__ import annotations

from dataclasses import asdict
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from woodreeve.charts import design as charts
from woodreeve.web.asking import Asked
from woodreeve.web.design_job import DesignAsked, design_answer, design_job
from woodreeve.web.drawings import kept_drawing
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()


def _query(picked: dict[str, object], **changed: object) -> str:
    """The end of an address for the variant picked, with something changed."""
    return urlencode({name: value for name, value in {**picked, **changed}.items() if value is not None})


@router.get("/plant/design")
def show(request: Request, asking: Asked, wanted: DesignAsked) -> Response:
    """Show the trade-offs, or how far the runs have come."""
    job = design_job(request, asking)
    answer = design_answer(asking, job, wanted)
    drawn = charts.of(answer) if answer else {}
    picked = asdict(wanted)
    if answer:
        picked |= {"boiler": answer.picked.boiler_kw, "store": answer.picked.store_litres}

    def link(**changed: object) -> str:
        return f"/plant/design?{_query(picked, **changed)}"

    return page(
        request,
        "design.html",
        asking,
        job=job,
        answer=answer,
        wanted=wanted,
        charts=drawn,
        link=link,
        query=_query(picked),
    )


@router.get("/plant/design/part/progress")
def progress(request: Request, asking: Asked) -> Response:
    """Tell how far the runs have come; the page loads itself anew when they are over."""
    job = design_job(request, asking)
    told = page(request, "design_progress.html", asking, job=job)
    if job.is_over:
        told.headers["HX-Refresh"] = "true"
    return told


@router.post("/plant/design/stop")
def stop(request: Request, asking: Asked) -> Response:
    """Stop runs that take too long."""
    design_job(request, asking).stop.set()
    return RedirectResponse("/plant", 303)


@router.get("/plant/design/chart/{name}")
def chart(request: Request, asking: Asked, wanted: DesignAsked, name: str) -> Response:
    """Draw one of the charts of runs that are done."""
    job = design_job(request, asking)
    answer = design_answer(asking, job, wanted)
    drawn = charts.of(answer) if answer else {}
    return kept_drawing(request, ("design", *job.key, *asdict(wanted).values()), drawn, name)
