"""Charts as resources: drawn once for each answer, theme and width, and kept until the answer changes."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from threading import Lock
from typing import TypeVar

from fastapi import Request
from fastapi.responses import Response

from woodreeve.charts.canvas import Chart, svg
from woodreeve.errors import UnknownName
from woodreeve.records.asking import Asking
from woodreeve.web.asking import remembered

__all__ = ["Drawings", "draw_all", "drawing", "kept_drawing"]

A = TypeVar("A")

MOST_KEPT = 64
"""So many drawings are kept; the one asked for longest ago goes first."""


@dataclass(frozen=True, slots=True)
class _Drawn:
    text: str
    mark: str


class Drawings:
    """The drawings that a server has made and may give again."""

    def __init__(self) -> None:
        self._kept: OrderedDict[tuple[object, ...], _Drawn] = OrderedDict()
        self._lock = Lock()

    def of(self, key: tuple[object, ...], chart: Chart, theme: str, width: str) -> _Drawn:
        """A chart in one theme and width; ``key`` changes with everything the chart rests on."""
        whole = (*key, theme, width)
        with self._lock:
            if whole in self._kept:
                self._kept.move_to_end(whole)
                return self._kept[whole]
        text = svg(chart, theme, width)
        drawn = _Drawn(text, f'"{hashlib.sha256(text.encode()).hexdigest()[:16]}"')
        with self._lock:
            self._kept[whole] = drawn
            while len(self._kept) > MOST_KEPT:
                self._kept.popitem(last=False)
        return drawn


def drawing(
    request: Request,
    asking: Asking,
    answer: Callable[[Asking], A],
    charts: Callable[[A], Mapping[str, Chart]],
    name: str,
) -> Response:
    """Send one of an answer's charts, in the ``theme`` and ``width`` that the request names.

    Raises
    ------
    UnknownName
        If there is no such chart, theme or width.
    """
    drawn = charts(remembered(request, asking, answer))
    return kept_drawing(request, (answer.__module__, *asking.key), drawn, name)


def kept_drawing(
    request: Request, key: tuple[object, ...], charts: Mapping[str, Chart], name: str
) -> Response:
    """Send one chart of several, drawn once for its key, theme and width.

    Raises
    ------
    UnknownName
        If there is no such chart, theme or width.
    """
    if name not in charts:
        raise UnknownName("chart", name, charts)
    kept: Drawings = request.app.state.drawings
    theme, width = (
        request.query_params.get(part, usual) for part, usual in (("theme", "light"), ("width", "wide"))
    )
    picture = kept.of((*key, name), charts[name], theme, width)
    headers = {"ETag": picture.mark, "Cache-Control": "private, no-cache"}
    if request.headers.get("if-none-match") == picture.mark:
        return Response(status_code=304, headers=headers)
    return Response(picture.text, media_type="image/svg+xml", headers=headers)


def draw_all(
    kept: Drawings,
    asking: Asking,
    answer: Callable[[Asking], A],
    found: A,
    charts: Callable[[A], Mapping[str, Chart]],
) -> None:
    """Draw an answer's charts ahead, as a page in the light theme asks for them."""
    for name, chart in charts(found).items():
        for width in ("wide", "narrow"):
            kept.of((answer.__module__, *asking.key, name), chart, "light", width)
