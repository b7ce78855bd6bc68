"""Charts of the answer ``stacks``: how wet each stack is against the target, and one stack over time."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from babel.dates import format_date

from woodreeve.charts.canvas import Chart, Palette
from woodreeve.wording.numbers import LOCALE, day, number
from woodreeve.wording.stacks import known_by_words
from woodreeve.wording.translate import _
from woodreeve.yard.ready import LEAST_SHOWN

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from woodreeve.answers.stacks import StackAnswer, StackLine, StacksAnswer

__all__ = ["course", "moisture", "of", "of_one"]

DAYS_BACK = 420
"""A stack's course is drawn from so long ago on, or from its start. [day]"""

DAYS_PAST_SEASON = 60
"""It is drawn so far beyond the season's start, or to the end of the ready date's range. [day]"""

SURE_ABOVE = 100.0 * LEAST_SHOWN
"""Below this a forecast only says "or less". [%]"""

ROWS_EVERY = 4
"""The table beside it takes every fourth week."""


def of(answer: StacksAnswer) -> dict[str, Chart]:
    """The charts of the yard by name; none where there is nothing to draw."""
    return {"moisture": moisture(answer)} if any(line.moisture for line in answer.stacks) else {}


def of_one(answer: StackAnswer) -> dict[str, Chart]:
    """The charts of one stack by name; none where it cannot be followed."""
    return {"course": course(answer)} if answer.median is not None else {}


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
            filled = palette.first if line.known_by == "measured" else palette.paper
            mark = "<" if line.or_less else "o"
            axes.plot(
                [100 * figure.value],
                [row],
                mark,
                color=palette.first,
                markerfacecolor=filled,
                markeredgewidth=2,
                markersize=9,
            )
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
            "Full dots rest on a recent reading, hollow ones are reckoned; an arrow means so much or less. "
            "The bar holds the true value in 8 cases of 10; left of the full line is ideal to burn."
        ),
        alt=_("Moisture of each stack"),
        heads=[_("Stack"), _("Moisture %"), _("Range"), _("Known"), _("Measured")],
        rows=[_row(line) for line in lines],
        width=680,
        height=110 + 46 * max(1, len(lines)),
        narrow_height=90 + 44 * max(1, len(lines)),
        draw=draw,
    )


def _row(line: StackLine) -> list[str]:
    figure = line.moisture
    assert figure is not None
    span = _("or less") if line.or_less else "–"
    if figure.low is not None and figure.high is not None:
        span = _("{low} to {high}").format(low=number(100 * figure.low, 5), high=number(100 * figure.high, 5))
    return [
        line.name,
        number(100 * figure.value, 5),
        span,
        known_by_words(line.known_by),
        day(line.measured_on) if line.measured_on else "–",
    ]


def course(answer: StackAnswer) -> Chart:
    """Moisture of one stack over time: median, range, readings, target and today."""
    assert answer.low is not None
    assert answer.median is not None
    assert answer.high is not None
    assert answer.course_begins is not None
    begins, today = answer.course_begins, answer.moment.date()
    dates = [begins + timedelta(weeks=k) for k in range(len(answer.median.values))]
    first, last = _window(answer, dates[-1])
    kept = [k for k, one in enumerate(dates) if first <= one <= last]
    low, median, high = (
        [100.0 * series.values[k] for k in kept] for series in (answer.low, answer.median, answer.high)
    )
    at = [(dates[k] - first).days for k in kept]
    target = 100.0 * answer.target_moisture.value
    line = answer.line
    shown = [one for one in answer.readings if first <= one.taken <= last]

    def draw(axes: Axes, palette: Palette, narrow: bool) -> None:
        now = (today - first).days
        axes.fill_between(at, low, high, color=palette.first, alpha=0.22, linewidth=0)
        past = [k for k, x in enumerate(at) if x <= now + 6]
        ahead = [k for k, x in enumerate(at) if x >= now]
        axes.plot([at[k] for k in past], [median[k] for k in past], color=palette.first, linewidth=2)
        axes.plot(
            [at[k] for k in ahead],
            [median[k] for k in ahead],
            color=palette.first,
            linewidth=2,
            linestyle=(0, (4, 2)),
        )
        axes.axhspan(0.0, SURE_ABOVE, color=palette.line, alpha=0.45, linewidth=0)
        axes.text(4, SURE_ABOVE, _("18 or less"), color=palette.soft, va="top", fontsize=9.5)
        axes.axhline(target, color=palette.ink, linewidth=1.2)
        axes.axvline(now, color=palette.soft, linewidth=1.0)
        top = max([*high, target + 2.0])
        axes.set_ylim(min([10.0, *low]), top * 1.06)
        axes.set_xlim(0, (last - first).days)
        axes.text(now, top * 1.06, _("today"), color=palette.soft, ha="center", va="bottom", fontsize=9.5)
        axes.text(
            (last - first).days, target, _("ideal"), color=palette.ink, ha="right", va="bottom", fontsize=9.5
        )
        for one in shown:
            colour = palette.care if one.odd else palette.ink
            x, value = (one.taken - first).days, 100.0 * one.moisture.value
            if one.kind == "above":
                axes.plot([x], [value], "^", color=colour, markersize=8)
                continue
            ends = [
                100.0 * (end if end is not None else one.moisture.value)
                for end in (one.moisture.low, one.moisture.high)
            ]
            axes.plot([x, x], ends, color=colour, linewidth=1.4)
            axes.plot([x], [value], "X" if one.odd else "o", color=colour, markersize=8 if one.odd else 6)
        _mark_months(axes, first, last, narrow)
        axes.set_ylabel(_("moisture, % of wet mass"))
        axes.grid(axis="y", color=palette.line, linewidth=0.8)
        axes.set_axisbelow(True)

    readings = {one.taken: one for one in shown}
    rows = [
        [
            day(dates[k]),
            *(_percent(100.0 * part.values[k]) for part in (answer.low, answer.median, answer.high)),
            "–",
        ]
        for k in kept[::ROWS_EVERY]
    ]
    rows += [
        [day(taken), "–", _percent(100.0 * one.expected.value), "–", number(100.0 * one.moisture.value, 5)]
        for taken, one in readings.items()
    ]
    return Chart(
        summary=_(
            "Moisture of {stack} over time: the line is the middle, the band holds it in 8 cases of 10, dots "
            "are readings with their own range, dashes are what is foretold."
        ).format(stack=line.name)
        + (
            " " + _("A triangle means wetter than the meter can tell.")
            if any(one.kind == "above" for one in shown)
            else ""
        )
        + (" " + _("A cross is a reading that needs a second look.") if any(r.odd for r in shown) else ""),
        alt=_("Moisture over time"),
        heads=[_("Day"), _("10 %"), _("Middle"), _("90 %"), _("Read")],
        rows=rows,
        width=680,
        height=320,
        narrow_height=300,
        draw=draw,
    )


def _percent(value: float) -> str:
    """A foretold moisture for the table."""
    return number(value, 5.0) if value >= SURE_ABOVE else _("18 or less")


def _window(answer: StackAnswer, end: date) -> tuple[date, date]:
    """From the start, or a year and more ago, to beyond the season's start or the last ready day."""
    assert answer.course_begins is not None
    today = answer.moment.date()
    first = max(answer.course_begins, today - timedelta(days=DAYS_BACK))
    ready = answer.line.ready
    assert ready is not None
    last = ready.season_start + timedelta(days=DAYS_PAST_SEASON)
    if ready.day is not None and ready.day.high is not None:
        last = max(last, ready.day.high + timedelta(days=14))
    return first, min(last, end)


def _mark_months(axes: Axes, first: date, last: date, narrow: bool) -> None:
    """Ticks at the first of a month, every second or, on a phone, every fourth."""
    every = 2 if (last - first).days < 500 else 3
    every = 2 * every if narrow else every
    ticks, names = [], []
    year, month = first.year, first.month
    while date(year, month, 1) <= last:
        here = date(year, month, 1)
        if here >= first and (month - 1) % every == 0:
            ticks.append((here - first).days)
            names.append(format_date(here, "MMM" if month != 1 else "MMM\ny", locale=LOCALE))
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
    axes.set_xticks(ticks, names)
