"""A formula's text as a page: reStructuredText of the docstring to HTML, equations to MathML."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from docutils.core import publish_parts

__all__ = ["equation_html", "plain_result", "rst_html"]

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


def plain_result(result: Any) -> Any:
    """Turn a formula's result into plain numbers and texts for showing.

    Parameters
    ----------
    result : object
        What it returned: a number, an array, a dataclass, text.

    Returns
    -------
    object
        A number rounded to nine digits, text, or a dict or list of these.
    """
    if is_dataclass(result) and not isinstance(result, type):
        return {item.name: plain_result(getattr(result, item.name)) for item in fields(result)}
    if isinstance(result, np.ndarray | list | tuple):
        return [plain_result(item) for item in result]
    if isinstance(result, Mapping):
        return {str(key): plain_result(item) for key, item in result.items()}
    if isinstance(result, bool | str) or result is None:
        return result
    if isinstance(result, int | np.integer):
        return int(result)
    if isinstance(result, float | np.floating):
        return float(f"{float(result):.9g}")
    return str(result)
