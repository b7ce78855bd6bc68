"""When somebody can tend the fire, and what the owner wishes for: the bounds of every plan."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, time
from typing import Annotated, Literal, TypeAlias

from woodreeve.units import Asks, Ge, Le, Unit

__all__ = ["Away", "Presence", "PresenceWindow", "Weekday", "Wishes"]

Weekday: TypeAlias = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PresenceWindow:
    """A time of the week at which somebody can light and refill."""

    days: Annotated[tuple[Weekday, ...], Asks("Days", "Days of the week; none named means every day.")] = ()
    begins: Annotated[time, Asks("From", "Local time, for instance 17:00.")]
    ends: Annotated[time, Asks("Until", "Local time, later on the same day.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Away:
    """Days on which nobody is there."""

    begins: Annotated[date, Asks("Away from", "First day away.")]
    ends: Annotated[date, Asks("Away until", "Last day away.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Presence:
    """When somebody can tend the fire. The three spans are judgement, no published source: set your own."""

    windows: Annotated[
        tuple[PresenceWindow, ...],
        Asks("Times to light", "When somebody can light or refill; none means at any hour."),
    ] = ()
    away: Annotated[tuple[Away, ...], Asks("Away", "Days on which nobody is at home.")] = ()
    lighting_minutes: Annotated[
        float,
        Unit("min"),
        Ge(5),
        Le(180),
        Asks("Time to light", "Minutes somebody stays with a fire just lit."),
    ] = 30.0
    refill_minutes: Annotated[
        float, Unit("min"), Ge(1), Le(60), Asks("Time to refill", "Minutes that one refill takes.")
    ] = 10.0
    watch_minutes: Annotated[
        float,
        Unit("min"),
        Ge(0),
        Le(240),
        Asks("Watch before bed", "Minutes from the last wood put on until you leave the fire alone."),
    ] = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What the owner wishes for."""

    warm_first: Annotated[
        Literal["comfort", "balanced", "thrift"],
        Asks("Weigh", "Whether warm rooms or spared wood and backup weigh more where they disagree."),
    ] = "balanced"
    backup: Annotated[
        Literal["avoid", "by_price", "nights_only"],
        Asks("Use of the backup", "Avoid it, use it where it is cheaper, or let it help at night only."),
    ] = "avoid"
    spare_winters: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(5),
        Asks("Winters in reserve", "How many winters of dry wood you want beyond the running one."),
    ] = 1.0
    burn_first: Annotated[
        Literal["driest", "oldest", "spoiling"],
        Asks("Burn first", "The driest stack, the oldest, or what spoils first."),
    ] = "driest"
    notes: Annotated[str | None, Asks("Notes", "Anything else, for yourself.")] = None
    presence: Annotated[Presence, Asks("Times to tend the fire", "When somebody can light and refill.")] = (
        field(default_factory=Presence)
    )
