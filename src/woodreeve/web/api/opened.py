"""A figure opened, as a JSON resource and as a page."""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock
from typing import Any

from pydantic.dataclasses import dataclass

from woodreeve.answers import plant, stacks, tonight, upkeep, winter
from woodreeve.errors import UnknownName
from woodreeve.records.asking import Asking
from woodreeve.workings import Dated, Figure
from woodreeve.workings.load import load_all
from woodreeve.workings.why import Opened, Step, open_figure

__all__ = ["ANSWERS", "OpenedFigure", "answered", "opened", "opened_figure"]

ANSWERS: dict[str, Callable[[Asking], Any]] = {
    "tonight": tonight.answer,
    "winter": winter.answer,
    "stacks": stacks.answer,
    "plant": plant.answer,
    "upkeep": upkeep.answer,
}
"""The answers whose figures can be opened."""


MOST_KEPT = 4
"""So many answers with their workings are kept; the oldest goes first."""

_kept: dict[tuple[object, ...], Any] = {}
_lock = Lock()


@dataclass(frozen=True)
class OpenedFigure:
    """A figure with the steps behind it and every source in them."""

    path: str
    shown: Figure | Dated
    given: str
    steps: tuple[Step, ...]
    sources: tuple[str, ...]


def answered(question: str, asking: Asking) -> Any:
    """Answer a question by its name, or one stack by ``stacks/`` and its place.

    Raises
    ------
    UnknownName
        If there is no such question.
    """
    name, slash, place = question.partition("/")
    if name == "stacks" and slash:
        return stacks.one_stack(asking, place)
    if question not in ANSWERS:
        raise UnknownName("question", question, ANSWERS)
    return ANSWERS[question](asking)


def opened(question: str, field: str, asking: Asking) -> Opened:
    """Work an answer out once more under a trace and open one of its figures.

    Raises
    ------
    UnknownName
        If there is no such question, or the answer has no such figure.
    """
    return open_figure(_traced(question, asking), field)


def _traced(question: str, asking: Asking) -> Any:
    """An answer worked out under a trace; the last few are kept, as one figure seldom comes alone."""
    key = (question, *asking.key)
    with _lock:
        if key in _kept:
            return _kept[key]
    load_all()
    with asking.traced() as fresh:
        answer = answered(question, fresh)
    with _lock:
        _kept[key] = answer
        while len(_kept) > MOST_KEPT:
            _kept.pop(next(iter(_kept)))
    return answer


def opened_figure(question: str, field: str, asking: Asking) -> OpenedFigure:
    """The same for a JSON resource."""
    found = opened(question, field, asking)
    return OpenedFigure(found.path, found.shown, found.given, found.steps, found.sources)
