"""What answers are made of: figures that know their unit, their range and where they came from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from woodreeve.workings.trace import Given, Node, current_trace

__all__ = ["Dated", "Figure", "Said", "Series", "dated", "figure", "node_of"]


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of an answer: never bare.

    Parameters
    ----------
    value : float
        The central value, in ``unit``.
    unit : str
        Unit name as in :mod:`woodreeve.units`; ``"-"`` for a share.
    by : str
        Name of the worked function that made it, or ``holding: ...`` or ``diary: ...`` for a value
        the owner gave.
    basis : str
        On which footing the number stands, for instance ``"net, wet basis"``; may be empty.
    low, high : float, optional
        The range that holds the true value in 8 cases of 10, where one is known.
    """

    value: float
    unit: str
    by: str
    basis: str = ""
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class TracedFigure(Figure):
    """A figure made while a trace was on: it knows the node behind its value."""

    node: Node | Given | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Dated:
    """A day of an answer, with its range and what made it."""

    value: date
    by: str
    basis: str = ""
    low: date | None = None
    high: date | None = None


@dataclass(frozen=True, slots=True)
class TracedDated(Dated):
    """A day made while a trace was on."""

    node: Node | Given | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Series:
    """Numbers of an answer one after another: never bare.

    Parameters
    ----------
    values : tuple of float
        The numbers, in ``unit``.
    unit : str
        Unit name.
    by : str
        Name of the worked function that made them.
    step : str
        What one number stands for, for instance ``"day"``.
    """

    values: tuple[float, ...]
    unit: str
    by: str
    step: str = "day"


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence not yet put into words: its key, and the figures, names and further parts that go in."""

    key: str
    values: Mapping[str, Figure | Dated | Said | str | int] = field(default_factory=dict)


def _behind(value: Any, by: str) -> Node | Given | None:
    trace = current_trace()
    if trace is None:
        return None
    found = trace.node_behind(value)
    if found is None and not isinstance(value, float):
        found = trace.last_named(by)
    return found


def _name(by: Callable[..., Any] | str) -> str:
    return by if isinstance(by, str) else by.__name__


def figure(
    value: float,
    unit: str,
    by: Callable[..., Any] | str,
    *,
    basis: str = "",
    low: float | None = None,
    high: float | None = None,
) -> Figure:
    """Make a figure; while a trace is on it is tied to the node that made its value.

    Parameters
    ----------
    value : float
        The very object a worked function returned (or a part of it), or the owner gave: that is how
        its workings are found, so do not compute on it after.
    unit : str
        Its unit.
    by : callable or str
        The worked function, or where the owner's value stands.
    basis, low, high
        As in :class:`Figure`.

    Returns
    -------
    Figure
        The figure.
    """
    name = _name(by)
    if current_trace() is None:
        return Figure(value, unit, name, basis, low, high)
    return TracedFigure(value, unit, name, basis, low, high, _behind(value, name))


def dated(
    value: date,
    by: Callable[..., Any] | str,
    *,
    basis: str = "",
    low: date | None = None,
    high: date | None = None,
    of: Any = None,
) -> Dated:
    """Make a dated figure; while a trace is on it is tied to what made it.

    A day carries no identity: name in ``of`` the result it is a part of, where ``by`` was called more than
    once; else the last call counts.
    """
    name = _name(by)
    if current_trace() is None:
        return Dated(value, name, basis, low, high)
    behind = _behind(value, name) if of is None else _behind(of, name)
    return TracedDated(value, name, basis, low, high, behind)


def node_of(shown: Figure | Dated) -> Node | Given | None:
    """What made a figure, if it was made under a trace."""
    return getattr(shown, "node", None)
