"""Words of the installer's paper and its drawing: trades, fuels, and what the backup heats."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from woodreeve.wording.translate import N_, _

__all__ = ["FILTERS", "installing_words"]

_WORDS: Mapping[str, str] = {
    "owner": N_("owner"),
    "builder": N_("builder"),
    "sweep": N_("sweep"),
    "fitter": N_("fitter"),
    "electrician": N_("electrician"),
    "competent_person": N_("competent person"),
    "oil": N_("oil"),
    "lpg": N_("LPG"),
    "natural_gas": N_("natural gas"),
    "electricity": N_("electricity"),
    "heating_and_hot_water": N_("heats rooms and hot water"),
    "heating_only": N_("heats rooms only"),
    "hot_water_only": N_("heats hot water only"),
    "store": N_("heats the store"),
    "series": N_("in series"),
    "parallel": N_("side by side"),
    "single": N_("not joined"),
}


def installing_words(code: str) -> str:
    """A trade, a fuel or a way of feeding in words."""
    return _(_WORDS[code])


FILTERS: Mapping[str, Callable[..., Any]] = {"installing_words": installing_words}
"""Filters for templates."""
