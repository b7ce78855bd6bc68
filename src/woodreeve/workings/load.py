"""Fill the list of worked functions: import the domain's modules, all of them."""

from __future__ import annotations

import importlib
import pkgutil
from functools import lru_cache

import woodreeve
from woodreeve.workings.registry import Registry, registry

__all__ = ["DOMAIN", "load_all"]

DOMAIN = (
    "weather",
    "wood",
    "diary",
    "house",
    "plant",
    "yard",
    "woodland",
    "money",
    "supply",
    "season",
    "firing",
    "learning",
)
"""The packages whose modules hold worked functions."""


@lru_cache(maxsize=1)
def load_all() -> Registry:
    """Import every module of the domain, so that the registry is complete.

    Returns
    -------
    Registry
        The registry, with every worked function on it.
    """
    for found in pkgutil.walk_packages(woodreeve.__path__, "woodreeve."):
        if found.name.split(".")[1] in DOMAIN:
            importlib.import_module(found.name)
    return registry
