"""All that an owner asks of one stack: how wet, when ready, when to cover it, and which readings to doubt."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np

from woodreeve.learning.course import AVERAGE_STACK, RatePrior, StackCourse
from woodreeve.learning.doubts import Doubt, doubts_about
from woodreeve.learning.stack import follow_stack
from woodreeve.units import Moisture, Share
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_stack import DryingStack
from woodreeve.wood.seasoning_weather import DryingWeather
from woodreeve.workings import worked
from woodreeve.yard.ready import (
    ReadyDate,
    ShownMoisture,
    chance_ready_by,
    cover_by,
    ready_date,
    shown_moisture,
)

__all__ = ["OddReading", "StackOutlook", "outlook_of_course", "stack_outlook"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OddReading:
    """A reading far from what was expected, and its likely causes."""

    reading: StackReading
    expected: Moisture
    doubts: tuple[Doubt, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StackOutlook:
    """One stack, as far as it is known and foretold.

    Parameters
    ----------
    course : StackCourse
        Its moisture over time with the range, and each reading against what was expected.
    shown : ShownMoisture
        Today's moisture as it is to be shown.
    ready : ReadyDate
        When it comes to the target.
    chance_by_season : Share
        Chance that it is ready by the start of the heating season. [-]
    moisture_by_season : Moisture
        Its median moisture on that day. [-]
    cover_by : date, optional
        For a stack that lies uncovered: the day by which it should be covered.
    odd : tuple of OddReading
        Readings that need a second look.
    """

    course: StackCourse
    shown: ShownMoisture
    ready: ReadyDate
    chance_by_season: Share
    moisture_by_season: Moisture
    cover_by: date | None
    odd: tuple[OddReading, ...]


@worked
def stack_outlook(
    stack: DryingStack,
    weather: DryingWeather,
    readings: tuple[StackReading, ...] = (),
    *,
    now: date,
    season_start: date,
    target: Moisture = 0.20,
    prior: RatePrior = AVERAGE_STACK,
    copies: int = 500,
) -> StackOutlook:
    r"""How wet a stack is, when it is ready and how sure that is, and what to do about it.

    Parameters
    ----------
    stack : DryingStack
        The stack.
    weather : DryingWeather
        Its weather: measured days first, then a typical year that reaches beyond the season's start.
    readings : tuple of StackReading
        What was found.
    now : date
        Today.
    season_start : date
        The day wood is wanted dry.
    target : Moisture
        The moisture wanted. [-] From 0 to 0.7.
    prior : RatePrior
        What the owner's finished stacks teach.
    copies : int
        How many copies are run.

    Returns
    -------
    StackOutlook
        The course, the present moisture as shown, the ready date, the chance by the season and doubts.

    Raises
    ------
    Unknown
        If the weather begins after the stack, or ends before today.
    OutOfRange
        If a reading was taken before the stack stood, or the target lies outside the range given above.

    Notes
    -----
    The course is that of the stack as it lies: an uncovered one is foretold as staying uncovered.

    .. math:: P = P(d_{ready} \le d_{season})

    References
    ----------
    .. [1] :func:`woodreeve.learning.stack.follow_stack`, :func:`woodreeve.yard.ready.ready_date`.
    """
    course = follow_stack(stack, weather, readings, now=now, prior=prior, targets=(target,), copies=copies)
    return outlook_of_course(course, stack, weather, season_start=season_start)


def outlook_of_course(
    course: StackCourse, stack: DryingStack, weather: DryingWeather, *, season_start: date
) -> StackOutlook:
    """The same for a stack that was followed already, for instance among many; its first target counts."""
    target = course.targets[0]
    days = course.crossing_days[0]
    uncovered = stack.cover_on(course.now) in ("none", "part")
    season_day = np.searchsorted(course.shown_days, (season_start - course.start).days)
    return StackOutlook(
        course=course,
        shown=shown_moisture(course.moisture_now, measured=course.measured),
        ready=ready_date(days, start=course.start, now=course.now, target=target),
        chance_by_season=chance_ready_by(days, start=course.start, by=season_start),
        moisture_by_season=float(course.median[min(int(season_day), course.median.size - 1)]),
        cover_by=cover_by(course.shown_days, course.median, start=course.start, now=course.now)
        if uncovered
        else None,
        odd=tuple(
            OddReading(
                reading=seen.reading,
                expected=seen.expected,
                doubts=doubts_about(
                    seen, stack_since=stack.start, air_c=_air_before(weather, seen.reading.taken)
                ),
            )
            for seen in course.odd_readings
        ),
    )


def _air_before(weather: DryingWeather, day: date) -> float | None:
    """Mean air of the day before, where it was measured."""
    index = (day - weather.start).days - 1
    return float(weather.air_c[index]) if 0 <= index < weather.known_days else None
