"""Words of the design helper: insulation, who is at home, and the winters."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from woodreeve.wording.translate import N_, _

__all__ = ["FILTERS", "design_words"]

_WORDS: Mapping[str, str] = {
    "as_it_is": N_("as it is told"),
    "store_lagged": N_("store in class A+"),
    "house_insulated": N_("house losing 30 % less through its shell"),
    "evening": N_("evenings only"),
    "morning_and_evening": N_("morning and evening"),
    "all_day": N_("all day"),
    "typical": N_("typical winter"),
    "free": N_("a winter as it may fall"),
    "hard": N_("hard winter"),
}


def design_words(code: str) -> str:
    """A code of the design helper in words."""
    return _(_WORDS[code])


FILTERS: Mapping[str, Callable[..., Any]] = {"design_words": design_words}
"""Filters for templates."""
