"""What a new stack would do: split size, start and cover tried against each other before the work is done."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from woodreeve.errors import OutOfRange
from woodreeve.learning.course import AVERAGE_STACK, RatePrior
from woodreeve.learning.stack import follow_stack
from woodreeve.units import Moisture, Share
from woodreeve.wood.kinds import Wood
from woodreeve.wood.seasoning_fit import Cover
from woodreeve.wood.seasoning_pace import Length, Thickness
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import DryingWeather
from woodreeve.workings import worked
from woodreeve.yard.ready import ReadyDate, chance_ready_by, ready_date

__all__ = ["NewStack", "TriedStack", "try_new_stacks", "usual_choices"]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewStack:
    """A stack that might be made."""

    wood: Wood
    start: date
    cover: Cover
    thickness_mm: Thickness = 100.0
    length_mm: Length = 330.0
    unsplit_bark: bool = False
    start_moisture: Moisture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedStack:
    """What a stack that might be made would do."""

    choice: NewStack
    ready: ReadyDate
    chance_by_season: Share
    moisture_by_season: Moisture
    """Median moisture on the first day of the season. [-]"""


THIN_MM, USUAL_MM, THICK_MM = 60.0, 100.0, 150.0
"""Short sides that a splitter makes: thin, usual, thick; common practice, no published source. [mm]"""


@worked
def usual_choices(wood: Wood, today: date) -> tuple[NewStack, ...]:
    """The choices an owner has for his next stack: how thick to split, when to start, how to cover.

    Each differs from the first, which is split as usual, today, under a roof, in one thing only.

    Parameters
    ----------
    wood : str or mapping
        Its species.
    today : date
        The day it would be started.

    Returns
    -------
    tuple of NewStack
        Thin, usual and thick; under a roof, a sheet and nothing; today, in two months and in four.

    Notes
    -----
    Short sides of 60, 100 and 150 mm; two months are 61 days.

    References
    ----------
    .. [1] Common practice, no published source.
    """
    usual = NewStack(wood=wood, start=today, cover="roof", thickness_mm=USUAL_MM)
    return (
        usual,
        replace(usual, thickness_mm=THIN_MM),
        replace(usual, thickness_mm=THICK_MM),
        replace(usual, cover="top_sheet"),
        replace(usual, cover="none"),
        replace(usual, start=today + timedelta(days=61)),
        replace(usual, start=today + timedelta(days=122)),
    )


@worked
def try_new_stacks(
    choices: tuple[NewStack, ...],
    weather: DryingWeather,
    *,
    season_start: date,
    target: Moisture = 0.20,
    prior: RatePrior = AVERAGE_STACK,
    copies: int = 500,
) -> tuple[TriedStack, ...]:
    r"""When each of some possible stacks would be ready, and how sure that is by the season.

    Parameters
    ----------
    choices : tuple of NewStack
        What might be done: wood, split size, start and cover.
    weather : DryingWeather
        A typical course of the weather from the earliest start on.
    season_start : date
        The day wood is wanted dry.
    target : Moisture
        The moisture wanted. [-] From 0 to 0.7.
    prior : RatePrior
        What the owner's finished stacks teach.
    copies : int
        How many copies of each are run.

    Returns
    -------
    tuple of TriedStack
        In the order given. All are thrown with the same dice, so that differences are real.

    Raises
    ------
    OutOfRange
        If a stack would start after the season.
    Unknown
        If the weather does not reach that far.

    Notes
    -----
    .. math:: P = P(d_{ready} \le d_{season})

    References
    ----------
    .. [1] :func:`woodreeve.learning.stack.follow_stack`.
    """
    tried = []
    for choice in choices:
        if choice.start > season_start:
            raise OutOfRange("start", str(choice.start), f"on or before the season's start, {season_start}")
        stack = DryingStack(
            name="tried",
            wood=choice.wood,
            start=choice.start,
            thickness_mm=choice.thickness_mm,
            length_mm=choice.length_mm,
            unsplit_bark=choice.unsplit_bark,
            covers=(CoverSpell(since=choice.start, cover=choice.cover),),
            start_moisture=choice.start_moisture,
        )
        typical = replace(weather, known_days=0)
        course = follow_stack(stack, typical, now=choice.start, prior=prior, targets=(target,), copies=copies)
        days = course.crossing_days[0]
        tried.append(
            TriedStack(
                choice=choice,
                ready=ready_date(days, start=choice.start, now=choice.start, target=target),
                chance_by_season=chance_ready_by(days, start=choice.start, by=season_start),
                moisture_by_season=float(course.median[(season_start - choice.start).days]),
            )
        )
    return tuple(tried)
