"""Workings: every formula is listed once, checks its arguments, and can show how a figure came about."""

from woodreeve.workings.figure import Dated, Figure, Said, Series, dated, figure
from woodreeve.workings.registry import registry, worked
from woodreeve.workings.trace import Trace

__all__ = ["Dated", "Figure", "Said", "Series", "Trace", "dated", "figure", "registry", "worked"]
