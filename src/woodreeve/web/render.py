"""Pages from templates: the frame around each answer, and the few filters that templates use."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from woodreeve.charts.canvas import NARROW_WIDTH
from woodreeve.records.household import Asking, Household
from woodreeve.web.shelf import address_of
from woodreeve.wording import design, formulas, numbers, plant, sentences, translate
from woodreeve.wording import stacks as stack_words
from woodreeve.wording import tonight as tonight_words
from woodreeve.wording.entries import entry_words, finding_words, kind_name
from woodreeve.wording.labels import assumed_words, label, mix_words
from woodreeve.workings.registry import registry

__all__ = ["bare_page", "page", "part"]

_ROLE = re.compile(r":(?:py:)?(?:func|mod|class|data|attr|meth):`~?([\w.]+)`")
_EQUATION = re.compile(r'(<math[^>]*display="block".*?</math>)', re.DOTALL)
_NUMBER_AND_WORD = re.compile(r"(?<=\d) (?=[%°A-Za-z])")
_BUNDLE = re.compile(r"[A-Z][A-Za-z]+")


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
    environment.filters["month"] = numbers.month
    environment.filters["moment"] = numbers.moment
    environment.filters["when"] = numbers.when
    environment.filters["label"] = label
    environment.filters["mix"] = mix_words
    environment.filters["kind_name"] = kind_name
    environment.filters["entry_words"] = entry_words
    environment.filters["finding_words"] = finding_words
    environment.filters["rst"] = _linked
    environment.filters["unit"] = numbers.unit_words
    environment.filters["typed"] = numbers.typed
    environment.filters["plain"] = lambda value: f"{value:.10g}"
    environment.filters["assumed"] = assumed_words
    environment.filters["within"] = numbers.range_words
    environment.filters["plainly"] = _plainly
    environment.filters["equation"] = lambda text: _in_strips(formulas.equation_html(text))
    environment.filters.update(plant.FILTERS)
    environment.filters.update(design.FILTERS)
    environment.globals["static"] = address_of
    environment.globals["stack_words"] = stack_words
    environment.globals["tonight_words"] = tonight_words
    environment.globals["narrow_width"] = NARROW_WIDTH
    return environment


def _linked(text: str) -> Markup:
    """A docstring's text as HTML; where it names a formula, with a link to it."""
    return _in_strips(formulas.rst_html(_ROLE.sub(_formula_link, text)))


def _in_strips(html: str) -> Markup:
    """Each equation that stands by itself in a strip of its own, which scrolls and can be reached by key."""
    label = translate._("Equation")
    strip = rf'<div class="formula" role="region" aria-label="{label}" tabindex="0">\1</div>'
    return Markup(_EQUATION.sub(strip, html))


def _formula_link(found: re.Match[str]) -> str:
    name = found[1].rsplit(".", 1)[-1]
    words = name.replace("_", " ").strip()
    return f"`{words} </workings/{name}>`__" if name in registry else f"*{words}*"


def _together(text: str) -> str:
    """Keep a number and the word after it on one line."""
    return _NUMBER_AND_WORD.sub("\u00a0", text)


def _plainly(text: str) -> str:
    """A value of a step as text; nothing where it is a whole bundle of figures."""
    return "" if _BUNDLE.fullmatch(text) else text


def _frame(request: Request, household: Household, asking: Asking | None) -> dict[str, Any]:
    measures = asking.measures if asking else {}
    return {
        "request": request,
        "path": request.url.path,
        "asking": asking,
        "household": household,
        # The demonstration's own moment, which its entries carry; on the owner's pages the telephone knows.
        "now": asking.moment.isoformat() if asking and household.demo else None,
        "shown": lambda figure, kind="": numbers.shown(figure, measures, kind),
        "text": lambda value: _together(numbers.text(value, measures)),
        "said": lambda said: _together(sentences.sentence(said, measures)),
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
