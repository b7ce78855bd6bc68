"""Pages from templates: the frame around each answer, and the few filters that templates use."""

from __future__ import annotations

import json
from functools import lru_cache
from importlib.resources import files
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse, Response
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from woodreeve.charts.canvas import Chart, svg
from woodreeve.records.household import Asking, Household
from woodreeve.wording import formulas, numbers, sentences, translate
from woodreeve.wording.entries import entry_words, finding_words, kind_name
from woodreeve.wording.labels import label, mix_words

__all__ = ["bare_page", "page", "part", "picture"]


@lru_cache(maxsize=1)
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("woodreeve.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n"],
    )
    environment.install_gettext_callables(translate._, translate.ngettext, newstyle=True)  # type: ignore[attr-defined]  # added by the extension
    environment.filters["day"] = numbers.day
    environment.filters["moment"] = numbers.moment
    environment.filters["when"] = numbers.when
    environment.filters["label"] = label
    environment.filters["mix"] = mix_words
    environment.filters["kind_name"] = kind_name
    environment.filters["entry_words"] = entry_words
    environment.filters["finding_words"] = finding_words
    environment.filters["rst"] = lambda text: Markup(formulas.rst_html(text))
    environment.filters["equation"] = lambda text: Markup(formulas.equation_html(text))
    environment.globals["static"] = _static
    return environment


@lru_cache(maxsize=1)
def _versions() -> dict[str, str]:
    listed = json.loads((files("woodreeve.web") / "static" / "versions.json").read_text("utf-8"))
    return {name: about["sha256"][:12] for name, about in listed["files"].items()}


def _static(name: str) -> str:
    """The address of a built file, with its digest so that a newer one is fetched anew."""
    digest = _versions().get(name)
    return f"/static/{name}?v={digest}" if digest else f"/static/{name}"


def _frame(request: Request, household: Household, asking: Asking | None) -> dict[str, Any]:
    measures = asking.measures if asking else {}
    return {
        "request": request,
        "path": request.url.path,
        "asking": asking,
        "household": household,
        "shown": lambda figure, kind="": numbers.shown(figure, measures, kind),
        "text": lambda value: numbers.text(value, measures),
        "said": lambda said: sentences.sentence(said, measures),
    }


def _respond(
    request: Request, template: str, asking: Asking | None, status: int, context: dict[str, Any]
) -> HTMLResponse:
    household: Household = request.app.state.household
    text = _environment().get_template(template).render(**_frame(request, household, asking), **context)
    return HTMLResponse(text, status)


def page(request: Request, template: str, asking: Asking, status: int = 200, **context: Any) -> HTMLResponse:
    """Render a whole page for someone who asks.

    Parameters
    ----------
    request : Request
        The request.
    template : str
        File name of the template.
    asking : Asking
        Whose holding and moment it speaks of.
    status : int
        HTTP status.
    **context
        What the template shows.
    """
    return _respond(request, template, asking, status, context)


part = page
"""Render a fragment that htmx puts into a page; the same as a page, from a template without the frame."""


def bare_page(request: Request, template: str, status: int = 200, **context: Any) -> HTMLResponse:
    """Render a page that needs no holding, for instance a fault."""
    return _respond(request, template, None, status, context)


def picture(chart: Chart, theme: str) -> Response:
    """Send a chart as SVG."""
    return Response(
        svg(chart, theme), media_type="image/svg+xml", headers={"Cache-Control": "private, max-age=60"}
    )
