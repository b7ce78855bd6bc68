"""A formula's text as a page: reStructuredText of the docstring to HTML, equations to MathML."""

from __future__ import annotations

from functools import lru_cache

from docutils.core import publish_parts

__all__ = ["equation_html", "rst_html"]

_SETTINGS = {
    "math_output": "MathML",
    "raw_enabled": False,
    "file_insertion_enabled": False,
    "report_level": 5,
    "halt_level": 5,
    "_disable_config": True,
    "input_encoding": "unicode",
    "syntax_highlight": "none",
    "initial_header_level": 4,
    "embed_stylesheet": False,
    "smart_quotes": False,
}


@lru_cache(maxsize=2048)
def rst_html(source: str) -> str:
    """Turn a docstring's text into HTML.

    Parameters
    ----------
    source : str
        reStructuredText, for instance a Notes section; nothing in it can read files or pass raw HTML.

    Returns
    -------
    str
        HTML for inside a page; equations are MathML.
    """
    parts = publish_parts(source, writer="html5", settings_overrides=_SETTINGS)
    return str(parts["fragment"])


def equation_html(latex: str) -> str:
    """Turn one LaTeX equation into MathML."""
    return rst_html(f".. math::\n\n   {latex}\n")
