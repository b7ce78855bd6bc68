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

__all__ = ["NARROW_WIDTH", "PALETTES", "WIDTHS", "Chart", "Palette", "Theme", "svg"]

Theme = Literal["light", "dark"]

WIDTHS = ("wide", "narrow")
"""A chart is drawn for a desk or, upright and with fewer words, for a phone."""

NARROW_WIDTH = 360
"""Width of a chart for a phone. [px]"""


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
        Size of the wide drawing. [px]
    narrow_height : int
        Height of the narrow one, which is :data:`NARROW_WIDTH` wide. [px]
    draw : callable
        Draws it on axes with a palette, and is told whether it is the narrow drawing.
    """

    summary: str
    alt: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]
    width: int
    height: int
    narrow_height: int
    draw: Callable[[Axes, Palette, bool], None]


_drawing = Lock()


def svg(chart: Chart, theme: str, width: str = "wide") -> str:
    """Draw a chart as SVG.

    Parameters
    ----------
    chart : Chart
        The chart.
    theme : str
        ``"light"`` or ``"dark"``.
    width : str
        ``"wide"`` or ``"narrow"``.

    Returns
    -------
    str
        An SVG document; the same chart gives the same bytes.

    Raises
    ------
    UnknownName
        If there is no such theme or width.
    """
    if theme not in PALETTES:
        raise UnknownName("theme", theme, PALETTES)
    if width not in WIDTHS:
        raise UnknownName("width", width, WIDTHS)
    import matplotlib as mpl
    from matplotlib.figure import Figure

    palette = PALETTES["dark" if theme == "dark" else "light"]
    narrow = width == "narrow"
    size = (NARROW_WIDTH, chart.narrow_height) if narrow else (chart.width, chart.height)
    settings: Any = {
        "svg.hashsalt": "woodreeve",
        "svg.fonttype": "path",
        "font.family": "DejaVu Sans",
        "font.size": 10.5,
        "axes.edgecolor": palette.line,
        "axes.labelcolor": palette.soft,
        "xtick.color": palette.soft,
        "ytick.color": palette.soft,
        "text.color": palette.ink,
    }
    with _drawing, mpl.rc_context(settings):
        drawn = Figure(figsize=(size[0] / 100, size[1] / 100), dpi=100, layout="constrained")
        drawn.patch.set_facecolor(palette.paper)
        axes = drawn.subplots()
        axes.set_facecolor(palette.paper)
        for side in ("top", "right"):
            axes.spines[side].set_visible(False)
        axes.tick_params(length=0)
        chart.draw(axes, palette, narrow)
        out = io.StringIO()
        drawn.savefig(out, format="svg", metadata={"Date": None, "Title": chart.alt})
    return out.getvalue()
