"""Charts of the answer ``stacks``: how wet each stack is against the owner's target."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodreeve.charts.canvas import Chart, Palette
from woodreeve.wording.numbers import day, number
from woodreeve.wording.translate import _

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from woodreeve.answers.stacks import StackLine, StacksAnswer

__all__ = ["moisture", "of"]


def moisture(answer: StacksAnswer) -> Chart:
    """A dot and a range for each stack, and the line it has to come under."""
    lines = [line for line in answer.stacks if line.moisture is not None]
    target = answer.target_moisture.value * 100.0
    limit = answer.wet_limit.value * 100.0

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        for row, line in enumerate(reversed(lines)):
            figure = line.moisture
            assert figure is not None
            low, high = (
                100 * (end if end is not None else figure.value) for end in (figure.low, figure.high)
            )
            axes.plot(
                [low, high], [row, row], color=palette.first, linewidth=5, alpha=0.45, solid_capstyle="round"
            )
            axes.plot([100 * figure.value], [row], "o", color=palette.first, markersize=9)
        foot, top = -0.6, len(lines) - 0.4
        axes.plot([target, target], [foot, top], color=palette.ink, linewidth=1.4)
        axes.plot([limit, limit], [foot, top], color=palette.care, linewidth=1.4, linestyle=(0, (5, 3)))
        axes.text(target, top, _("ideal"), color=palette.ink, va="bottom", ha="center")
        axes.text(limit, top, _("too wet"), color=palette.care, va="bottom", ha="center")
        axes.set_yticks(range(len(lines)), [line.name for line in reversed(lines)])
        axes.tick_params(axis="y", labelcolor=palette.ink)
        axes.set_ylim(foot, len(lines) - 0.05)
        axes.set_xlim(left=min(10.0, axes.get_xlim()[0]))
        if narrow:
            axes.locator_params(axis="x", nbins=5)
        axes.set_xlabel(_("moisture, % of wet mass"))
        axes.grid(axis="x", color=palette.line, linewidth=0.8)
        axes.set_axisbelow(True)

    return Chart(
        summary=_(
            "Each dot is what the readings say, its bar the range; left of the full line is ideal to burn."
        ),
        alt=_("Moisture of each stack"),
        heads=[_("Stack"), _("Moisture %"), _("Range"), _("Measured")],
        rows=[_row(line) for line in lines],
        width=680,
        height=110 + 46 * max(1, len(lines)),
        narrow_height=90 + 44 * max(1, len(lines)),
        draw=draw,
    )


def _row(line: StackLine) -> list[str]:
    figure = line.moisture
    assert figure is not None
    span = "–"
    if figure.low is not None and figure.high is not None:
        span = _("{low} to {high}").format(low=number(100 * figure.low), high=number(100 * figure.high))
    return [line.name, number(100 * figure.value), span, day(line.measured_on) if line.measured_on else "–"]


def of(answer: StacksAnswer) -> dict[str, Chart]:
    """The charts of an answer by name; none where there is nothing to draw."""
    return {"moisture": moisture(answer)} if any(line.moisture for line in answer.stacks) else {}
