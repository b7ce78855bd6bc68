"""Charts of the answer ``season``: the store by height, the rooms, and fires and backup by month."""

from __future__ import annotations

from typing import TYPE_CHECKING

from babel.dates import format_date

from woodreeve.charts.canvas import Chart, Palette
from woodreeve.wording.numbers import LOCALE, number
from woodreeve.wording.translate import _

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from woodreeve.answers.season import MonthLine, SeasonAnswer

__all__ = ["of", "rooms", "store", "work"]


def of(answer: SeasonAnswer) -> dict[str, Chart]:
    """The charts of an answer by name."""
    return {"work": work(answer), "store": store(answer), "rooms": rooms(answer)}


def _names(answer: SeasonAnswer, narrow: bool = False) -> list[str]:
    pattern = "MMMMM" if narrow else "MMM"
    return [format_date(m.month, pattern, locale=LOCALE) for m in answer.months if m.month]


def _month_starts(answer: SeasonAnswer) -> list[int]:
    return [(m.month - answer.begins).days for m in answer.months if m.month]


def work(answer: SeasonAnswer) -> Chart:
    """Heat from wood and from the backup, month by month, and the fires it took."""
    names = _names(answer)
    wood = [m.water_kwh.value for m in answer.months]
    backup = [m.backup_kwh.value for m in answer.months]
    fires = [m.fires.value for m in answer.months]

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        x = range(len(names))
        axes.bar(x, wood, color=palette.first, width=0.72, label=_("wood"))
        axes.bar(x, backup, bottom=wood, color=palette.care, width=0.72, hatch="///", label=_("backup"))
        for at, (low, high, count) in enumerate(zip(wood, backup, fires, strict=True)):
            axes.text(
                at, low + high, f" {count:.0f}", ha="center", va="bottom", color=palette.ink, fontsize=10
            )
        axes.set_xticks(list(x), [name[:1] for name in names] if narrow else names)
        axes.set_ylabel(_("kWh a month"))
        axes.grid(axis="y", color=palette.line, linewidth=0.8)
        axes.set_axisbelow(True)
        axes.margins(y=0.16)
        axes.legend(frameon=False, ncols=2, loc="lower center", bbox_to_anchor=(0.5, 1.0), fontsize=9.5)

    return Chart(
        summary=_("Heat from wood and from the backup; the number over each month is its fires."),
        alt=_("Heat and fires by month"),
        heads=[
            _("Month"),
            _("Fires"),
            _("Wood kg"),
            _("From wood kWh"),
            _("Backup kWh"),
            _("Rooms kWh"),
            _("Taps kWh"),
            _("Store loss kWh"),
            _("Cold rooms K h"),
        ],
        rows=[_row(m) for m in answer.months],
        width=680,
        height=320,
        narrow_height=300,
        draw=draw,
    )


def _row(m: MonthLine) -> list[str]:
    parts = (
        m.fires,
        m.wood_kg,
        m.water_kwh,
        m.backup_kwh,
        m.rooms_kwh,
        m.taps_kwh,
        m.store_loss_kwh,
        m.cold_kh,
    )
    name = format_date(m.month, "MMM y", locale=LOCALE) if m.month else _("All")
    return [name, *(number(part.value) for part in parts)]


def store(answer: SeasonAnswer) -> Chart:
    """The store's temperature by height, day by day."""
    layers = [series.values for series in answer.store_layers_c]

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        days = len(layers[0])
        image = axes.imshow(
            layers,
            origin="lower",
            aspect="auto",
            extent=(0.0, float(days), 0.0, 1.0),
            cmap="cividis",
            interpolation="nearest",
        )
        axes.set_xticks(_month_starts(answer), _names(answer, narrow))
        axes.set_yticks([0.0, 0.5, 1.0], [_("foot"), _("middle"), _("top")])
        bar = axes.figure.colorbar(image, ax=axes, pad=0.02)
        bar.set_label(_("°C, mean of the day"), color=palette.soft)
        bar.outline.set_visible(False)

    tops, feet = answer.store_layers_c[-1].values, answer.store_layers_c[0].values
    rows = [
        [
            format_date(m.month, "MMM y", locale=LOCALE) if m.month else "",
            number(_mean(tops, begin, end)),
            number(_mean(feet, begin, end)),
        ]
        for m, begin, end in _spans(answer)
    ]
    return Chart(
        summary=_("The store by height through the year: light is hot, dark is cool."),
        alt=_("Store temperature by height"),
        heads=[_("Month"), _("Top °C"), _("Foot °C")],
        rows=rows,
        width=680,
        height=280,
        narrow_height=260,
        draw=draw,
    )


def rooms(answer: SeasonAnswer) -> Chart:
    """Rooms and outdoors, day by day."""

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        axes.plot(answer.downstairs_c.values, color=palette.first, linewidth=1.4, label=_("downstairs"))
        axes.plot(answer.upstairs_c.values, color=palette.second, linewidth=1.4, label=_("upstairs"))
        axes.plot(answer.outdoor_c.values, color=palette.soft, linewidth=0.9, label=_("outdoors"))
        axes.set_xticks(_month_starts(answer), _names(answer, narrow))
        axes.set_xlim(0, len(answer.outdoor_c.values))
        axes.set_ylabel(_("°C, mean of the day"))
        axes.grid(axis="y", color=palette.line, linewidth=0.8)
        axes.legend(
            frameon=False,
            ncols=2 if narrow else 3,
            loc="lower center",
            bbox_to_anchor=(0.5, 1.0),
            fontsize=9.5,
        )

    rows = [
        [
            format_date(m.month, "MMM y", locale=LOCALE) if m.month else "",
            number(_mean(answer.downstairs_c.values, begin, end)),
            number(_mean(answer.upstairs_c.values, begin, end)),
            number(_mean(answer.outdoor_c.values, begin, end)),
        ]
        for m, begin, end in _spans(answer)
    ]
    return Chart(
        summary=_("Rooms and outdoors, means of each day."),
        alt=_("Room and outdoor temperature"),
        heads=[_("Month"), _("Downstairs °C"), _("Upstairs °C"), _("Outdoors °C")],
        rows=rows,
        width=680,
        height=300,
        narrow_height=280,
        draw=draw,
    )


def _spans(answer: SeasonAnswer) -> list[tuple[MonthLine, int, int]]:
    starts = [*_month_starts(answer), len(answer.outdoor_c.values)]
    return [(m, starts[n], starts[n + 1]) for n, m in enumerate(answer.months)]


def _mean(values: tuple[float, ...], begin: int, end: int) -> float:
    part = values[begin:end]
    return sum(part) / max(len(part), 1)
