"""Charts of the answer ``tonight``: the store by height, and the hours ahead."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from babel.dates import format_datetime

from woodreeve.charts.canvas import Chart, Palette
from woodreeve.wording.numbers import LOCALE, number
from woodreeve.wording.tonight import weekday_words
from woodreeve.wording.translate import _

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from woodreeve.answers.tonight import Charted, StoreNow, TonightAnswer

__all__ = ["ahead", "of", "profile"]

HOURS_SHOWN = 72
"""So many hours ahead are drawn. [h]"""
USUAL_HEIGHT_M = 1.0
"""Without a told height the store is drawn as so high, and the axis says parts of it."""


def of(answer: TonightAnswer) -> dict[str, Chart]:
    """The charts of an answer by name; none where nothing could be reckoned."""
    if answer.store is None or answer.ahead is None:
        return {}
    return {"ahead": ahead(answer, answer.ahead), "profile": profile(answer.store)}


def profile(store: StoreNow) -> Chart:
    """The store's temperature against its height."""
    height = store.height_m.value if store.height_m else USUAL_HEIGHT_M
    layers, low, high = (one.values for one in (store.layers_c, store.layers_low_c, store.layers_high_c))
    middles = [(n + 0.5) / len(layers) * height for n in range(len(layers))]
    limit, useful = store.limit_c.value, store.useful_above_c.value

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        axes.fill_betweenx(middles, low, high, color=palette.second, alpha=0.3, linewidth=0)
        axes.plot(layers, middles, color=palette.first, linewidth=2.2)
        for at, words in ((useful, _("useful above")), (limit, _("limit"))):
            axes.axvline(at, color=palette.care, linewidth=1.0, linestyle=(0, (4, 3)))
            axes.text(
                at, height, f"{words} ", ha="right", va="top", rotation=90, color=palette.ink, fontsize=9.5
            )
        axes.set_xlim(min(20.0, *low), max(95.0, *high))
        axes.set_ylim(0.0, height)
        axes.set_xlabel(_("°C"))
        axes.set_ylabel(_("height, m") if store.height_m else _("height, part of the store"))
        axes.grid(axis="x", color=palette.line, linewidth=0.8)

    rows = [
        [f"{at:.2f}", number(now), number(cold), number(mild)]
        for at, now, cold, mild in reversed(list(zip(middles, layers, low, high, strict=True)))
    ]
    return Chart(
        summary=_(
            "The store now: {top} °C at the top, {foot} °C at the foot. The band is what it may be instead."
        ).format(top=number(layers[-1], 2.0), foot=number(layers[0], 2.0)),
        alt=_("Store temperature by height"),
        heads=[
            _("Height m") if store.height_m else _("Height"),
            _("Now °C"),
            _("At least °C"),
            _("At most °C"),
        ],
        rows=rows,
        width=680,
        height=330,
        narrow_height=300,
        draw=draw,
    )


def ahead(answer: TonightAnswer, told: Charted) -> Chart:
    """The next three days: store with the plan, in the cold case and with no fire; fires and outdoors."""
    hours = list(range(min(HOURS_SHOWN, len(told.store_c.values) - 1) + 1))
    end = len(hours)
    plan, cold, nothing = (
        one.values[:end] for one in (told.store_c, told.store_cold_c, told.store_nothing_c)
    )
    outdoor = told.outdoor_c.values[:end]
    fires = answer.plan.fires if answer.plan else ()
    at_fires = [(fire.when.hours.value, fire) for fire in fires if fire.when.hours.value < end]
    lowest = min(range(end), key=lambda hour: plan[hour])

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        axes.plot(hours, nothing, color=palette.soft, linewidth=1.3, linestyle=":", label=_("no fire"))
        axes.plot(
            hours,
            cold,
            color=palette.second,
            linewidth=1.4,
            linestyle=(0, (5, 2)),
            label=_("plan, cold case"),
        )
        axes.plot(hours, plan, color=palette.first, linewidth=2.2, label=_("plan"))
        axes.plot(hours, outdoor, color=palette.care, linewidth=1.0, label=_("outdoors"))
        for hour, _fire in at_fires:
            axes.plot([hour], [2.0], marker="^", markersize=7, color=palette.ink, clip_on=False)
        axes.plot([lowest], [plan[lowest]], marker="o", markersize=5, color=palette.ink)
        axes.annotate(
            _("lowest {c} °C").format(c=number(plan[lowest], 2.0)),
            (lowest, plan[lowest]),
            xytext=(0, -14),
            textcoords="offset points",
            ha="left" if lowest < end / 2 else "right",
            color=palette.ink,
            fontsize=9.5,
        )
        ticks, names = _ticks(answer.begins, end, narrow)
        axes.set_xticks(ticks, names)
        axes.set_xlim(0, end - 1)
        axes.set_ylim(min(0.0, *outdoor) - 1.0, max(90.0, *plan))
        axes.set_ylabel(_("°C, store on the mean"))
        axes.grid(color=palette.line, linewidth=0.8)
        axes.legend(
            frameon=False,
            ncols=2 if narrow else 4,
            loc="lower center",
            bbox_to_anchor=(0.5, 1.0),
            fontsize=9.5,
        )

    rows = [
        [
            weekday_words(answer.begins + timedelta(hours=hour)),
            number(plan[hour]),
            number(cold[hour]),
            number(nothing[hour]),
            number(outdoor[hour]),
            ", ".join(f"{number(fire.kg.value)} kg" for at, fire in at_fires if hour <= at < hour + 3),
        ]
        for hour in hours[::3]
    ]
    return Chart(
        summary=_(
            "The next three days. With the plan the store is lowest on {when}, {c} °C on the mean; triangles "
            "are fires."
        ).format(when=weekday_words(answer.begins + timedelta(hours=lowest)), c=number(plan[lowest], 2.0)),
        alt=_("Store and outdoor temperature of the next three days"),
        heads=[
            _("Time"),
            _("Plan °C"),
            _("Cold case °C"),
            _("No fire °C"),
            _("Outdoors °C"),
            _("Fires"),
        ],
        rows=rows,
        width=680,
        height=340,
        narrow_height=320,
        draw=draw,
    )


def _ticks(begins: datetime, end: int, narrow: bool) -> tuple[list[int], list[str]]:
    """A tick at each midnight and noon, midnights with the day's name."""
    ticks, names = [], []
    for hour in range(end):
        clock = begins + timedelta(hours=hour)
        if clock.hour == 0 or (clock.hour == 12 and not narrow):
            ticks.append(hour)
            pattern = "EEE" if clock.hour == 0 else "HH:mm"
            names.append(format_datetime(clock, pattern, tzinfo=clock.tzinfo, locale=LOCALE))
    return ticks, names
