"""What a stack that is started now would do: split size, start and cover against each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from woodreeve.answers.stacks.ready import Verdict, foretold, foretold_said, ready_day, ready_said
from woodreeve.errors import Unknown
from woodreeve.learning.present import season_after
from woodreeve.learning.whatif import NewStack, TriedStack, try_new_stacks, usual_choices
from woodreeve.records.asking import Asking
from woodreeve.records.following import prior_for, usual_weather
from woodreeve.wood.seasoning_fit import Cover
from woodreeve.workings import Dated, Figure, Said, figure
from woodreeve.yard.cover import FIRES_BEGIN
from woodreeve.yard.ready import chance_ready_by

__all__ = ["TriedAnswer", "TriedLine", "tried", "tried_lines"]

LEAST_DAYS_TO_SEASON = 150
"""The season that a new stack is held against lies so far ahead at least. [day]"""


@dataclass(frozen=True, slots=True)
class TriedLine:
    """One way of making a stack, and what would come of it."""

    start: date
    thickness_mm: Figure
    cover: Cover
    said: Said
    verdict: Verdict
    day: Dated | None
    said_as_spring: tuple[str, ...]
    chance_by_season: Figure
    moisture_by_season: Figure
    season_said: Said


@dataclass(frozen=True, slots=True)
class TriedAnswer:
    """Ways of making a stack of one wood."""

    moment: datetime
    mix: Mapping[str, float]
    season_start: date
    target_moisture: Figure
    lines: tuple[TriedLine, ...]


def tried(
    asking: Asking,
    wood: str,
    *,
    place: str = "",
    thickness_mm: float | None = None,
    month: int | None = None,
    cover: Literal["none", "top_sheet", "roof", "shed"] | None = None,
) -> TriedAnswer:
    """Try a stack that might be made.

    Parameters
    ----------
    asking : Asking
        Holding, weather and moment.
    wood : str
        Its species.
    place : str
        Where it would stand: what was learned there counts.
    thickness_mm : float, optional
        Short side of the pieces. [mm]
    month : int, optional
        The month in whose middle it would be started, 1 to 12; today if left out.
    cover : str, optional
        What it would lie under.

    Returns
    -------
    TriedAnswer
        The stack asked for first, if anything was asked for, and the usual choices.

    Raises
    ------
    UnknownName
        If the species is not known.
    Unknown
        If the weather is not known.
    """
    from woodreeve.wood.kinds import shares_of

    mix = shares_of(wood)
    today = asking.moment.date()
    own: tuple[NewStack, ...] = ()
    if not (thickness_mm is None and month is None and cover is None):
        start = _middle_of(month, today) if month is not None else today
        own = (
            NewStack(wood=dict(mix), start=start, cover=cover or "roof", thickness_mm=thickness_mm or 100.0),
        )
    lines, season = _tried(asking, dict(mix), place, own)
    limit = asking.holding.yard.limits.ideal
    return TriedAnswer(
        moment=asking.moment,
        mix=dict(mix),
        season_start=season,
        target_moisture=figure(limit, "-", "holding: yard.limits.ideal", basis="wet basis"),
        lines=lines,
    )


def tried_lines(asking: Asking, mix: Mapping[str, float], place: str) -> tuple[tuple[TriedLine, ...], date]:
    """The usual choices for one more stack of a wood in a place, and the season they are held against."""
    return _tried(asking, mix, place, ())


def _tried(
    asking: Asking, mix: Mapping[str, float], place: str, own: tuple[NewStack, ...]
) -> tuple[tuple[TriedLine, ...], date]:
    weather = asking.following.weather
    if weather is None:
        weather = usual_weather(asking, asking.moment.date())
    if not mix:
        raise Unknown("Nobody has told what wood it is.")
    today = asking.moment.date()
    last = max((one.start for one in own), default=today)
    season = season_after(last + timedelta(days=LEAST_DAYS_TO_SEASON), FIRES_BEGIN)
    main = max(mix.items(), key=lambda part: part[1])[0]
    found = try_new_stacks(
        (*own, *usual_choices(mix, today)) if own else usual_choices(mix, today),
        weather,
        season_start=season,
        target=asking.holding.yard.limits.ideal,
        prior=prior_for(asking.following.finished, place, main),
    )
    return tuple(_line(one) for one in found), season


def _line(one: TriedStack) -> TriedLine:
    day = ready_day(one.ready)
    then, or_less = foretold(one.moisture_by_season)
    chance = figure(one.ready.chance_now, "-", chance_ready_by, basis="of the possible courses")
    return TriedLine(
        start=one.choice.start,
        thickness_mm=figure(one.choice.thickness_mm, "mm", usual_choices, basis="short side of the pieces"),
        cover=one.choice.cover,
        said=ready_said(one.ready, day, one.choice.start, chance),
        verdict=one.ready.verdict,
        day=day,
        said_as_spring=one.ready.said_as_spring,
        chance_by_season=figure(one.chance_by_season, "-", chance_ready_by, basis="of the possible courses"),
        moisture_by_season=then,
        season_said=foretold_said(then, or_less=or_less),
    )


def _middle_of(month: int, today: date) -> date:
    """The next middle of a month, today if it is this month and past it."""
    day = date(today.year, month, 15)
    if day < today:
        day = today if month == today.month else day.replace(year=today.year + 1)
    return day
