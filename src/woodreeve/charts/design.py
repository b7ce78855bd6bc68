"""Charts of the design helper: what store, boiler and presence buy; readable without colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodreeve.charts.canvas import Chart, Palette
from woodreeve.wording.design import design_words
from woodreeve.wording.numbers import number
from woodreeve.wording.translate import _

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from woodreeve.answers.design import DesignAnswer

__all__ = ["cold", "cost", "fires", "of", "trade"]

LOOKS = (("o", "-"), ("s", "--"), ("^", ":"), ("D", "-."))
"""Mark and stroke of each curve: they tell curves apart where there is no colour."""


def of(answer: DesignAnswer) -> dict[str, Chart]:
    """The charts of an answer by name."""
    found = {"fires": fires(answer), "trade": trade(answer), "cold": cold(answer)}
    if answer.picked_line.cost is not None:
        found["cost"] = cost(answer)
    return found


def _curves(
    axes: Axes,
    palette: Palette,
    names: Sequence[str],
    xs: Sequence[Sequence[float]],
    ys: Sequence[Sequence[float]],
) -> None:
    tones = (palette.ink, palette.first, palette.second, palette.soft)
    for (mark, stroke), tone, name, x, y in zip(LOOKS, tones, names, xs, ys, strict=False):
        axes.plot(
            x,
            y,
            marker=mark,
            linestyle=stroke,
            color=tone,
            markerfacecolor=palette.paper,
            linewidth=1.5,
            markersize=5,
            label=name,
        )


def _framed(axes: Axes, palette: Palette, narrow: bool, columns: int = 4) -> None:
    axes.grid(color=palette.line, linewidth=0.7)
    axes.set_axisbelow(True)
    axes.set_ylim(bottom=0)
    axes.legend(
        frameon=False,
        ncols=2 if narrow else columns,
        loc="lower center",
        bbox_to_anchor=(0.5, 1.0),
        fontsize=9.5,
        handlelength=3.2,
    )


def _litres(answer: DesignAnswer) -> list[str]:
    return [number(one) for one in answer.stores_litres]


def fires(answer: DesignAnswer) -> Chart:
    """Firings for all heat over the store, a curve for each boiler, the knee marked."""
    picked = answer.picked
    names = [_("{kw} kW").format(kw=number(one)) for one in answer.boilers_kw]
    curves = [
        [line.fires_for_all.value for line in answer.lines_of(kw, picked.insulation, picked.presence)]
        for kw in answer.boilers_kw
    ]
    at = answer.boilers_kw.index(picked.boiler_kw or 0.0)
    knee = answer.knees[at].value
    height = curves[at][answer.stores_litres.index(knee)]

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        _curves(axes, palette, names, [answer.stores_litres] * len(names), curves)
        _framed(axes, palette, narrow)
        if answer.knees_reached[at]:
            axes.annotate(
                _("knee of {kw} kW").format(kw=number(answer.boilers_kw[at])),
                (knee, height),
                xytext=(12, 34),
                textcoords="offset points",
                arrowprops={"arrowstyle": "-|>", "color": palette.ink},
                color=palette.ink,
                fontsize=10,
            )
            axes.plot([knee, knee], [0, height], color=palette.ink, linewidth=0.9, linestyle=(0, (2, 2)))
        axes.set_xlabel(_("store, litres"))
        axes.set_ylabel(_("firings a winter"))

    rows = [[litres, *(number(curve[n]) for curve in curves)] for n, litres in enumerate(_litres(answer))]
    return Chart(
        summary=_(
            "Firings it would take to give all heat, the backup's too, over the store's size: each curve is "
            "a boiler; past the knee a bigger store spares few."
        ),
        alt=_("Firings over the size of the store"),
        heads=[_("Store, litres"), *names],
        rows=rows,
        width=680,
        height=360,
        narrow_height=340,
        draw=draw,
    )


def trade(answer: DesignAnswer) -> Chart:
    """Firings against the backup's share: a curve for each presence, a mark for each store."""
    picked = answer.picked
    names = [design_words(one) for one in answer.presences]
    lines = [answer.lines_of(picked.boiler_kw or 0.0, picked.insulation, one) for one in answer.presences]
    xs = [[100.0 * line.backup_share[0].value for line in row] for row in lines]
    ys = [[line.fires[0].value for line in row] for row in lines]

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        _curves(axes, palette, names, xs, ys)
        for row_x, row_y in zip(xs, ys, strict=True):
            axes.annotate(
                _("{litres} l").format(litres=number(answer.stores_litres[0])),
                (row_x[0], row_y[0]),
                xytext=(6, 5),
                textcoords="offset points",
                fontsize=9,
                color=palette.soft,
            )
        _framed(axes, palette, narrow, 3)
        axes.margins(x=0.1)
        axes.set_xlabel(_("heat from the backup, %"))
        axes.set_ylabel(_("firings a winter"))

    heads = [_("Store, litres")]
    for name in names:
        heads += [_("{who}: firings").format(who=name), _("{who}: backup %").format(who=name)]
    rows = [
        [
            litres,
            *(cell for x, y in zip(xs, ys, strict=True) for cell in (number(y[n]), number(x[n]))),
        ]
        for n, litres in enumerate(_litres(answer))
    ]
    return Chart(
        summary=_(
            "Firings against the backup's share, with the boiler picked: each mark is a store, each curve "
            "who is at home, from the smallest store on. Down and to the left is better."
        ),
        alt=_("Firings against the share of the backup"),
        heads=heads,
        rows=rows,
        width=680,
        height=360,
        narrow_height=340,
        draw=draw,
    )


def _by_insulation(
    answer: DesignAnswer, values: Sequence[Sequence[float]], summary: str, alt: str, label: str
) -> Chart:
    names = [design_words(one) for one in answer.insulations]

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        _curves(axes, palette, names, [answer.stores_litres] * len(names), values)
        _framed(axes, palette, narrow, 3)
        axes.set_xlabel(_("store, litres"))
        axes.set_ylabel(label)
        if narrow:
            axes.legend(
                frameon=False,
                ncols=1,
                loc="lower center",
                bbox_to_anchor=(0.5, 1.0),
                fontsize=9,
                handlelength=3.2,
            )

    rows = [[litres, *(number(row[n]) for row in values)] for n, litres in enumerate(_litres(answer))]
    return Chart(
        summary=summary,
        alt=alt,
        heads=[_("Store, litres"), *names],
        rows=rows,
        width=680,
        height=330,
        narrow_height=330,
        draw=draw,
    )


def cold(answer: DesignAnswer) -> Chart:
    """Cold degree-hours of a hard winter over the store, a curve for each insulation."""
    picked = answer.picked
    values = [
        [line.cold_kh[-1].value for line in answer.lines_of(picked.boiler_kw or 0.0, one, picked.presence)]
        for one in answer.insulations
    ]
    summary = _("Degree-hours under the wanted temperature in a hard winter, in the worse of the two zones.")
    return _by_insulation(
        answer, values, summary, _("Cold rooms over the size of the store"), _("K h a winter")
    )


def cost(answer: DesignAnswer) -> Chart:
    """Running cost of a typical winter over the store, a curve for each insulation."""
    picked = answer.picked
    values = [
        [
            line.cost.value
            for line in answer.lines_of(picked.boiler_kw or 0.0, one, picked.presence)
            if line.cost is not None
        ]
        for one in answer.insulations
    ]
    summary = _(
        "Wood, backup fuel and lightings of a typical winter at your prices; the plant itself is left out."
    )
    return _by_insulation(
        answer, values, summary, _("Running cost over the size of the store"), _("cost a winter")
    )
