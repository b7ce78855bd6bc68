"""When a stack is ready, with its range, its chances, and the words for it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from woodreeve.learning.outlook import StackOutlook
from woodreeve.learning.present import FollowedStack
from woodreeve.workings import Dated, Figure, Said, dated, figure
from woodreeve.yard.ready import ReadyDate, chance_ready_by, cover_by, ready_date, shown_moisture

__all__ = [
    "ReadyWhen",
    "Verdict",
    "foretold",
    "foretold_said",
    "ready_day",
    "ready_of",
    "ready_said",
]

Verdict = Literal["ready", "likely_ready", "date", "perhaps_spring", "next_spring", "not_in_sight"]


@dataclass(frozen=True, slots=True)
class ReadyWhen:
    """When a stack is ready, how sure that is, and what to do about it.

    Parameters
    ----------
    said : Said
        All that in a few words.
    verdict : str
        Which kind of words these are.
    day : Dated, optional
        The median day with its range of 8 cases in 10; unknown beyond the forecast.
    said_as_spring : tuple of str
        Which of ``low``, ``median`` and ``high`` fall in winter, when wood hardly dries.
    chance_now, chance_by_season, moisture_by_season : Figure
        Chance that it is ready today and by the season's start, and its median moisture then.
    season_said : Said
        That moisture in words: a forecast never says less than 18 %.
    cover_by : Dated, optional
        For a stack that lies open: the day by which to cover it.
    if_dry_basis, if_wet_basis : Dated, optional
        Where nobody knows what the meter's number means: the day for either way of reading it.
    promise : Dated, optional
        The day to tell a customer.
    """

    said: Said
    verdict: Verdict
    day: Dated | None
    said_as_spring: tuple[str, ...]
    chance_now: Figure
    season_start: date
    chance_by_season: Figure
    moisture_by_season: Figure
    season_said: Said
    cover_by: Dated | None
    promise: Dated | None
    if_dry_basis: Dated | None = None
    if_wet_basis: Dated | None = None


def ready_of(followed: FollowedStack, season_start: date, today: date) -> ReadyWhen:
    """When a followed stack is ready."""
    outlook, both = followed.outlook, followed.both_ways
    day = ready_day(outlook.ready)
    then, or_less = foretold(outlook.moisture_by_season)
    chance = figure(outlook.ready.chance_now, "-", chance_ready_by, basis="of the possible courses")
    return ReadyWhen(
        said=ready_said(outlook.ready, day, today, chance),
        verdict=outlook.ready.verdict,
        day=day,
        said_as_spring=outlook.ready.said_as_spring,
        chance_now=chance,
        season_start=season_start,
        chance_by_season=figure(
            outlook.chance_by_season, "-", chance_ready_by, basis="of the possible courses"
        ),
        moisture_by_season=then,
        season_said=foretold_said(then, or_less=or_less),
        cover_by=_cover_by(outlook),
        promise=dated(outlook.ready.promise, ready_date, basis="9 cases of 10", of=outlook.ready)
        if outlook.ready.promise is not None
        else None,
        if_dry_basis=None if both is None else ready_day(both.if_dry_basis),
        if_wet_basis=None if both is None else ready_day(both.if_wet_basis),
    )


def foretold(moisture: float) -> tuple[Figure, bool]:
    """A moisture that is foretold, and whether it is to be said as "so much or less"."""
    seen = shown_moisture(moisture, measured=False)
    return figure(seen.moisture, "-", shown_moisture, basis="wet basis, median"), seen.or_less


def foretold_said(moisture: Figure, *, or_less: bool) -> Said:
    """The same in words."""
    return Said("stacks.moisture.or_less" if or_less else "stacks.moisture.measured", {"moisture": moisture})


def ready_day(ready: ReadyDate) -> Dated | None:
    """The median day with its range, if most courses come there at all."""
    if ready.median is None:
        return None
    return dated(ready.median, ready_date, basis="median", low=ready.low, high=ready.high, of=ready)


def _cover_by(outlook: StackOutlook) -> Dated | None:
    if outlook.cover_by is None:
        return None
    return dated(outlook.cover_by, cover_by, basis="if it stays open until then", of=outlook)


def ready_said(ready: ReadyDate, day: Dated | None, today: date, chance: Figure) -> Said:
    """When a stack is ready, in a few words: a day and its range, the spring, or that it is.

    Parameters
    ----------
    ready : ReadyDate
        What the model says.
    day : Dated, optional
        Its day as a figure.
    today : date
        The day asked about.
    chance : Figure
        Chance that it is ready today.

    Returns
    -------
    Said
        To follow "is".
    """
    verdict = ready.verdict
    if day is None or verdict in ("ready", "likely_ready", "next_spring", "not_in_sight"):
        return Said(f"stacks.ready.{verdict}", {"chance": chance})
    late = "beyond" if ready.high is None else "range"
    values = {
        "day": _said_day(ready, "median", ready.median, today),
        "low": _said_day(ready, "low", ready.low, today),
        "high": _said_day(ready, "high", ready.high, today),
    }
    return Said(f"stacks.ready.{verdict}.{late}", {name: one for name, one in values.items() if one})


def _said_day(ready: ReadyDate, name: str, day: date | None, today: date) -> Dated | Said | None:
    """A day as it is to be said: "now", "spring 2027" where it falls in winter, or the day itself."""
    if day is None:
        return None
    if day <= today:
        return Said("stacks.day.now")
    if name in ready.said_as_spring:
        return Said("stacks.day.spring", {"year": str(day.year if day.month < 7 else day.year + 1)})
    return dated(day, ready_date, of=ready)
