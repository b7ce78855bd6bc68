"""A chart as a resource: drawn on request in light or dark, with its words and its figures beside it."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from threading import Lock
from typing import TYPE_CHECKING, Any, Literal

from woodreeve.errors import UnknownName

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["PALETTES", "Chart", "Palette", "Theme", "svg"]

Theme = Literal["light", "dark"]


@dataclass(frozen=True, slots=True)
class Palette:
    """The colours of a chart, those of the page it stands on."""

    paper: str
    ink: str
    soft: str
    line: str
    first: str
    second: str
    care: str


PALETTES: dict[Theme, Palette] = {
    "light": Palette("#fdfbf4", "#25271f", "#585a4c", "#d3cebc", "#47593f", "#b08357", "#a06a10"),
    "dark": Palette("#23261f", "#e9e5d7", "#b6b4a3", "#3f4338", "#aec3a0", "#d8b088", "#f3d393"),
}


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart not yet drawn.

    Parameters
    ----------
    summary : str
        What it shows, in a sentence.
    alt : str
        Its name.
    heads, rows : sequences
        The same figures as a table, ready to show.
    width, height : int
        Size. [px]
    draw : callable
        Draws it on axes with a palette.
    """

    summary: str
    alt: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]
    width: int
    height: int
    draw: Callable[[Axes, Palette], None]


_drawing = Lock()


def svg(chart: Chart, theme: str) -> str:
    """Draw a chart as SVG.

    Parameters
    ----------
    chart : Chart
        The chart.
    theme : str
        ``"light"`` or ``"dark"``.

    Returns
    -------
    str
        An SVG document; the same chart gives the same bytes.

    Raises
    ------
    UnknownName
        If there is no such theme.
    """
    if theme not in PALETTES:
        raise UnknownName("theme", theme, PALETTES)
    import matplotlib as mpl
    from matplotlib.figure import Figure

    palette = PALETTES["dark" if theme == "dark" else "light"]
    settings: Any = {
        "svg.hashsalt": "woodreeve",
        "svg.fonttype": "path",
        "font.family": "DejaVu Sans",
        "font.size": 11,
        "axes.edgecolor": palette.line,
        "axes.labelcolor": palette.soft,
        "xtick.color": palette.soft,
        "ytick.color": palette.soft,
        "text.color": palette.ink,
    }
    with _drawing, mpl.rc_context(settings):
        drawn = Figure(figsize=(chart.width / 100, chart.height / 100), dpi=100, layout="constrained")
        drawn.patch.set_facecolor(palette.paper)
        axes = drawn.subplots()
        axes.set_facecolor(palette.paper)
        for side in ("top", "right"):
            axes.spines[side].set_visible(False)
        axes.tick_params(length=0)
        chart.draw(axes, palette)
        out = io.StringIO()
        drawn.savefig(out, format="svg", metadata={"Date": None, "Title": chart.alt})
    return out.getvalue()
