"""From a template to text, and from text to a PDF: what all papers share."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any, NoReturn

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from woodreeve.errors import Refused
from woodreeve.wording import installing, numbers, plant, translate
from woodreeve.wording.translate import _

__all__ = ["filled", "one_page_pdf", "pages_pdf", "save"]


@lru_cache(maxsize=1)
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("woodreeve.papers"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n"],
    )
    environment.install_gettext_callables(translate._, translate.ngettext, newstyle=True)  # type: ignore[attr-defined]  # added by the extension
    environment.filters["day"] = numbers.day
    environment.filters["css"] = _in_quotes
    environment.filters.update(plant.FILTERS)
    environment.filters.update(installing.FILTERS)
    return environment


def filled(template: str, **context: Any) -> str:
    """Fill in a template of ``papers/templates``.

    Parameters
    ----------
    template : str
        Its file name.
    **context
        What goes in.

    Returns
    -------
    str
        HTML.
    """
    return _environment().get_template(template).render(**context)


def one_page_pdf(template: str, sizes: Sequence[float], **context: Any) -> bytes:
    """Set a template as a PDF of one page, in the largest type that fits. Nothing is fetched for it.

    Parameters
    ----------
    template : str
        File name of a whole page with its style, whose type has the size ``size``.
    sizes : sequence of float
        Sizes of type to try, the largest first. [pt]
    **context
        What goes in.

    Returns
    -------
    bytes
        The PDF.

    Raises
    ------
    Refused
        If it fits in none of the sizes, or the libraries that set type are not on this computer.
    """
    html = _setter()
    for size in sizes:
        text = filled(template, size=size, **context)
        document = html(string=text, url_fetcher=_fetch_nothing).render()
        if len(document.pages) == 1:
            made: bytes = document.write_pdf()
            return made
    raise Refused(_("This paper has more on it than one page holds."))


def pages_pdf(template: str, **context: Any) -> bytes:
    """Set a template as a PDF of as many pages as it takes. Nothing is fetched for it.

    Parameters
    ----------
    template : str
        File name of a whole page with its style.
    **context
        What goes in.

    Returns
    -------
    bytes
        The PDF.

    Raises
    ------
    Refused
        If the libraries that set type are not on this computer.
    """
    html = _setter()
    made: bytes = html(string=filled(template, **context), url_fetcher=_fetch_nothing).write_pdf()
    return made


def _setter() -> Any:
    """What sets type.

    Raises
    ------
    Refused
        If its libraries are not on this computer.
    """
    try:
        from weasyprint import HTML
    except OSError as error:
        raise Refused(
            _(
                "No PDF can be made here, as the Pango libraries are missing. On Debian: apt install "
                "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0. The page can be printed from the "
                "browser meanwhile."
            )
        ) from error
    return HTML


def _in_quotes(text: str) -> Markup:
    """A text between the quotes of a style sheet."""
    safe = text.replace("\\", "\\\\").replace('"', '\\"').replace("<", "\\3c ").replace("\n", " ")
    return Markup(safe)  # escaped for the style sheet just above, in which HTML's entities are not read


def save(made: bytes, file: Path, *, replace: bool = False) -> None:
    """Write a paper to a file.

    Parameters
    ----------
    made : bytes
        The PDF.
    file : Path
        Where to.
    replace : bool
        Whether a file that is there is written over.

    Raises
    ------
    Refused
        If there is a file already, or it cannot be written.
    """
    try:
        with file.open("wb" if replace else "xb") as target:
            target.write(made)
    except FileExistsError:
        raise Refused(
            _("{file} exists already: name a new file, or give --replace.").format(file=file)
        ) from None
    except OSError as error:
        raise Refused(_("{file} cannot be written: {why}.").format(file=file, why=error.strerror)) from error


def _fetch_nothing(address: str, *_others: Any, **_more: Any) -> NoReturn:
    raise ValueError(f"A paper must not fetch {address}.")
