"""When somebody can tend the fire: the moments at which wood may be put on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta, tzinfo

import numpy as np

from woodreeve.errors import WrongKind
from woodreeve.firing.fields import Presence, PresenceWindow

__all__ = ["Tending", "attended_spans", "may_tend", "tending_times"]

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")

ODD_BEFORE_H = 6.0
"""A visit to the boiler before this hour of the clock is an odd one. Judgement. [h]"""
ODD_FROM_H = 22.0
"""And so is one from this hour on. Judgement. [h]"""


@dataclass(frozen=True, slots=True)
class Tending:
    """A moment at which somebody may be at the boiler.

    Parameters
    ----------
    hour : float
        Hours from the beginning of the plan.
    light : bool
        Whether a fire may be lit then: somebody stays long enough.
    refill : bool
        Whether wood may be laid on then.
    odd : bool
        Whether it is a visit by night.
    """

    hour: float
    light: bool
    refill: bool
    odd: bool


def attended_spans(
    presence: Presence, begins: datetime, hours: int, zone: tzinfo
) -> tuple[tuple[float, float], ...]:
    """The spans in which somebody is there, in hours from the beginning; touching ones are one.

    Parameters
    ----------
    presence : Presence
        Windows of the week, and days away.
    begins : datetime
        Beginning of the plan, with its offset.
    hours : int
        Length of the plan. [h]
    zone : tzinfo
        The owner's zone, by whose clock the windows go.

    Returns
    -------
    tuple of pairs
        From and until. [h]

    Raises
    ------
    WrongKind
        If the beginning does not know its offset.
    """
    if begins.tzinfo is None:
        raise WrongKind("begins", begins.isoformat(), "a moment with its offset from UTC")
    first = begins.astimezone(zone).date() - timedelta(days=1)
    windows = presence.windows or (PresenceWindow(begins=time(0, 0), ends=time(23, 59, 59)),)
    spans: list[tuple[float, float]] = []
    for number in range(hours // 24 + 3):
        day = first + timedelta(days=number)
        if any(away.begins <= day <= away.ends for away in presence.away):
            continue
        for window in windows:
            if window.days and WEEKDAYS[day.weekday()] not in window.days:
                continue
            spans.append(
                (
                    _since(begins, datetime.combine(day, window.begins, zone)),
                    _since(begins, datetime.combine(day, window.ends, zone)),
                )
            )
    joined: list[tuple[float, float]] = []
    for begin, end in sorted(spans):
        if joined and begin <= joined[-1][1] + 0.02:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((begin, end))
    return tuple((max(begin, 0.0), end) for begin, end in joined if end > 0.0 and begin < hours)


def _since(begins: datetime, moment: datetime) -> float:
    return (moment.astimezone(UTC) - begins.astimezone(UTC)) / timedelta(hours=1)


def may_tend(
    presence: Presence, spans: tuple[tuple[float, float], ...], hour: float, *, lights: bool
) -> bool:
    """Whether a fire may be lit, or wood laid on, at an hour.

    Somebody must stay for the lighting or the refill, and until the watch after the last wood is over.

    Parameters
    ----------
    presence : Presence
        How long a lighting, a refill and the watch take.
    spans : tuple of pairs
        From :func:`attended_spans`.
    hour : float
        Hours from the beginning. [h]
    lights : bool
        Whether it is a lighting.

    Returns
    -------
    bool
        Whether it may.
    """
    work = presence.lighting_minutes if lights else presence.refill_minutes
    needed = max(work, presence.watch_minutes) / 60.0
    return any(begin - 1e-6 <= hour and hour + needed <= end + 0.02 for begin, end in spans)


def tending_times(presence: Presence, begins: datetime, hours: int, zone: tzinfo) -> tuple[Tending, ...]:
    """All moments at which wood may be put on: each whole hour of the presence, and where it begins.

    Parameters
    ----------
    presence : Presence
        Windows, days away, and how long things take.
    begins : datetime
        Beginning of the plan: a whole hour, with its offset.
    hours : int
        Length of the plan. [h]
    zone : tzinfo
        The owner's zone.

    Returns
    -------
    tuple of Tending
        In order; those at which nothing may be done are left out.
    """
    spans = attended_spans(presence, begins, hours, zone)
    offered = {
        float(hour)
        for begin, end in spans
        for hour in range(int(np.ceil(begin - 1e-6)), hours)
        if hour <= end
    }
    # Where presence begins between two hours, to the next quarter; but not just before a whole hour.
    offered |= {q for begin, _ in spans if (q := np.ceil(begin * 4.0 - 1e-6) / 4.0) % 1.0 < 0.8 and q < hours}
    found = []
    for hour in sorted(offered):
        light = may_tend(presence, spans, hour, lights=True)
        refill = may_tend(presence, spans, hour, lights=False)
        if light or refill:
            clock = (begins + timedelta(hours=hour)).astimezone(zone)
            at = clock.hour + clock.minute / 60.0
            odd = at < ODD_BEFORE_H or at >= ODD_FROM_H
            found.append(Tending(hour=float(hour), light=light, refill=refill, odd=odd))
    return tuple(found)
