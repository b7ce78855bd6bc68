"""Charts of the answer ``winter``: what each month takes, and what the yard holds against it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from babel.dates import format_date

from woodreeve.charts.canvas import Chart, Palette
from woodreeve.wording.numbers import LOCALE, number, summed, typed
from woodreeve.wording.translate import _

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from woodreeve.answers.winter import WinterAnswer

__all__ = ["months", "of"]


def months(answer: WinterAnswer) -> Chart:
    """Heat that each month takes: rooms, hot water and standing losses apart."""
    names = [format_date(m.month, "MMM", locale=LOCALE) for m in answer.months]
    rooms = [m.space_heat_kwh.value for m in answer.months]
    water = [m.hot_water_kwh.value for m in answer.months]
    losses = [m.plant_loss_kwh.value for m in answer.months]
    low = [m.heat_kwh.low or m.heat_kwh.value for m in answer.months]
    high = [m.heat_kwh.high or m.heat_kwh.value for m in answer.months]

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        x = range(len(names))
        axes.bar(x, rooms, color=palette.first, width=0.72, label=_("rooms"))
        axes.bar(x, water, bottom=rooms, color=palette.second, width=0.72, label=_("hot water"))
        both = [a + b for a, b in zip(rooms, water, strict=True)]
        axes.bar(x, losses, bottom=both, color=palette.line, width=0.72, label=_("losses"))
        tops = [a + b for a, b in zip(both, losses, strict=True)]
        below = [max(0.0, t - v) for t, v in zip(tops, low, strict=True)]
        above = [max(0.0, v - t) for t, v in zip(tops, high, strict=True)]
        axes.errorbar(x, tops, yerr=[below, above], fmt="none", ecolor=palette.ink, elinewidth=1.2, capsize=3)
        axes.set_xticks(list(x), [name[0] for name in names] if narrow else names)
        axes.yaxis.set_major_formatter(lambda value, _position: typed(value))
        axes.grid(axis="y", color=palette.line, linewidth=0.8)
        axes.set_axisbelow(True)
        axes.set_title(
            _("kWh") if narrow else _("kWh a month"), loc="left", color=palette.soft, fontsize="medium"
        )
        axes.legend(frameon=False, ncols=3, loc="lower right", bbox_to_anchor=(1.02, 0.98), handlelength=1.0)

    unit, heats = summed(
        [(m.space_heat_kwh, m.hot_water_kwh, m.plant_loss_kwh, m.heat_kwh) for m in answer.months]
    )
    most = max(answer.months, key=lambda m: m.heat_kwh.value)
    return Chart(
        summary=_("{month} takes most: {kwh} kWh. The thin lines span 8 years of 10.").format(
            month=format_date(most.month, "MMMM", locale=LOCALE), kwh=number(most.heat_kwh.value)
        ),
        alt=_("Heat by month"),
        heads=[
            _("Month"),
            _("Rooms {unit}").format(unit=unit),
            _("Hot water {unit}").format(unit=unit),
            _("Standing losses {unit}").format(unit=unit),
            _("Together {unit}").format(unit=unit),
            _("Wood t"),
            _("Stacked m³"),
        ],
        rows=[
            [
                format_date(m.month, "MMM y", locale=LOCALE),
                *heat,
                number(m.wood_t.value),
                number(m.wood_stacked_m3.value),
            ]
            for m, heat in zip(answer.months, heats, strict=True)
        ],
        width=680,
        height=320,
        narrow_height=300,
        draw=draw,
    )


def of(answer: WinterAnswer) -> dict[str, Chart]:
    """The charts of an answer by name; none where there is nothing to draw."""
    return {"months": months(answer)} if answer.months else {}
