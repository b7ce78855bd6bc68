"""Every stack of a household followed to the moment asked about, and foretold from there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from woodreeve.diary.folded import StackContents
from woodreeve.errors import WoodreeveError
from woodreeve.learning.burning import SetAside, burning_plan, set_aside, winter_ahead
from woodreeve.learning.course import RatePrior
from woodreeve.learning.outlook import StackOutlook, stack_outlook
from woodreeve.learning.pooled import FinishedStack, pooled_prior
from woodreeve.learning.present import (
    BothWays,
    FollowedStack,
    main_species,
    moisture_as_reckoned,
    readings_as,
    season_after,
)
from woodreeve.learning.stack import follow_stack
from woodreeve.learning.yard import stack_as_followed
from woodreeve.supply.heat import heating_efficiency, plant_loss
from woodreeve.supply.need import burnt_wood, months_of_wood
from woodreeve.supply.promises import SoldLoad, still_owed
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_usual import usual_drying_weather
from woodreeve.wood.seasoning_weather import DryingWeather
from woodreeve.yard.cover import FIRES_BEGIN
from woodreeve.yard.fields import StackPlace
from woodreeve.yard.order import BurnPlan

if TYPE_CHECKING:
    from woodreeve.records.asking import Asking

__all__ = [
    "Burning",
    "FollowedYard",
    "burning_of",
    "follow_yard",
    "prior_for",
    "usual_weather",
    "weather_for",
]

DAYS_AHEAD = 640
"""A stack is foretold over this autumn and the next: so far from today. [day]"""

MOST_FINISHED = 40
"""Of the owner's used-up stacks the last so many are learned from."""

LEAST_STACKED_M3 = 0.005
"""Less than a few logs is an empty place. [m3]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowedYard:
    """The yard as the drying model sees it.

    Parameters
    ----------
    stacks : mapping
        Each stack that is followed, by place.
    not_followed : mapping
        Why a stack is not, in a sentence, by place.
    weather : DryingWeather or None
        The weather they are followed through; unknown where nobody can say.
    season_start : date
        When the next winter's fires begin.
    finished : tuple of FinishedStack
        Used-up stacks that were learned from.
    """

    stacks: Mapping[str, FollowedStack]
    not_followed: Mapping[str, str]
    weather: DryingWeather | None
    season_start: date
    finished: tuple[FinishedStack, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Burning:
    """The burning order, what is kept for neighbours, and why there is no order if there is none."""

    plan: BurnPlan | None
    kept: tuple[SetAside, ...]
    missing: str = ""


def follow_yard(asking: Asking) -> FollowedYard:
    """Follow every stack.

    Parameters
    ----------
    asking : Asking
        Holding, diary, weather and moment.

    Returns
    -------
    FollowedYard
        The stacks by place. Where weather or a stack's dates are not known, the reason stands in their place.
    """
    today = asking.moment.date()
    piles = {name: pile for name, pile in asking.split_wood.items() if pile.stacked_m3 >= LEAST_STACKED_M3}
    season = season_after(today, FIRES_BEGIN)
    try:
        weather = weather_for(asking, [*piles.values(), *asking.folded.used_up])
    except WoodreeveError as reason:
        return FollowedYard(
            stacks={},
            not_followed=dict.fromkeys(piles, str(reason)),
            weather=None,
            season_start=season,
            finished=(),
        )
    finished = _finished(asking, weather)
    stacks: dict[str, FollowedStack] = {}
    missing: dict[str, str] = {}
    for name, pile in piles.items():
        try:
            prior = prior_for(finished, name, main_species(pile))
            stacks[name] = _follow(asking, pile, weather, prior, season)
        except WoodreeveError as reason:
            missing[name] = str(reason)
    return FollowedYard(
        stacks=stacks, not_followed=missing, weather=weather, season_start=season, finished=finished
    )


def burning_of(asking: Asking) -> Burning:
    """The order in which to burn the stacks until the end of the heating year.

    Parameters
    ----------
    asking : Asking
        Holding, diary, weather and moment.

    Returns
    -------
    Burning
        Without a plan where the house's need is not known.
    """
    holding, stock, folded = asking.holding, asking.stock, asking.folded
    contents = dict(asking.split_wood)
    if folded.boiler_room is not None:
        contents[folded.boiler_room.place] = folded.boiler_room
    today = asking.moment.date()
    kept = set_aside(still_owed(holding.supply.customers, _loads(asking), today), stock, contents)
    try:
        need = asking.demands.used
    except WoodreeveError as reason:
        return Burning(plan=None, kept=kept, missing=str(reason))
    boiler = holding.plant.boiler
    months = months_of_wood(
        need,
        asking.weather,
        plant_loss(holding.plant),
        heating_efficiency(boiler),
        burnt_wood(stock, holding.yard.limits, boiler.log_length_cm),
    )
    ahead = winter_ahead(months, today, stock, contents)
    plan = burning_plan(stock, contents, asking.following.stacks, ahead, kept, holding.yard.limits, boiler)
    return Burning(plan=plan, kept=kept)


def _loads(asking: Asking) -> tuple[SoldLoad, ...]:
    """What the diary says went to customers."""
    customers = {event.id: event.payload.customer for event in asking.folded.of("sold")}  # type: ignore[attr-defined]  # sales have a customer
    return tuple(
        SoldLoad(
            customer=customers[flow.entry],
            on=flow.happened.date(),
            solid_m3=flow.solid_m3,
            mix=flow.mix,
            form="split_33cm",
        )
        for flow in asking.folded.flows
        if customers.get(flow.entry)
    )


def weather_for(asking: Asking, piles: list[StackContents]) -> DryingWeather:
    """Usual days from the oldest stack's first to the end of the forecast.

    Raises
    ------
    Unknown
        If the weather or its humidity is not known.
    """
    told = (day for pile in piles for day in _days_told(pile))
    return usual_weather(asking, min((*told, asking.moment.date())))


def _days_told(pile: StackContents) -> list[date]:
    told = (pile.split_on, pile.stacked_on, pile.felled_on, pile.found_on)
    read = (reading.happened.date() for reading in pile.readings) if pile.found_on else ()
    return [day for day in (*told, *read) if day]


def usual_weather(asking: Asking, first: date) -> DryingWeather:
    """Usual days from a day to the end of the forecast."""
    end = asking.moment.date() + timedelta(days=DAYS_AHEAD)
    return usual_drying_weather(asking.weather, start=first, end=end)


def prior_for(finished: tuple[FinishedStack, ...], place: str, species: str) -> RatePrior:
    """What the owner's used-up stacks teach of one in a place; the trials' spread where there is none."""
    return pooled_prior(finished, place=place, species=species)


def _place(asking: Asking, name: str) -> StackPlace | None:
    return next((place for place in asking.holding.yard.places if place.name == name), None)


def _follow(
    asking: Asking, pile: StackContents, weather: DryingWeather, prior: RatePrior, season: date
) -> FollowedStack:
    yard, today = asking.holding.yard, asking.moment.date()
    followed = stack_as_followed(
        pile, weather, place=_place(asking, pile.place), meters=yard.meters, markers=asking.folded.markers
    )

    def foretold(readings: tuple[StackReading, ...]) -> StackOutlook:
        return stack_outlook(
            followed.stack,
            weather,
            readings,
            now=today,
            season_start=season,
            target=yard.limits.ideal,
            prior=prior,
        )

    outlook = foretold(followed.readings)
    last = pile.last_reading
    unsure = any(one.basis == "not_known" and one.kind == "value" for one in followed.readings)
    return FollowedStack(
        contents=pile,
        followed=followed,
        prior=prior,
        outlook=outlook,
        now=moisture_as_reckoned(outlook, followed.readings, measured_on=last.happened if last else None),
        both_ways=BothWays(
            if_dry_basis=foretold(readings_as(followed.readings, "dry")).ready,
            if_wet_basis=foretold(readings_as(followed.readings, "wet")).ready,
        )
        if unsure
        else None,
    )


def _finished(asking: Asking, weather: DryingWeather) -> tuple[FinishedStack, ...]:
    """What the used-up stacks with readings taught of their own pace."""
    found = []
    yard = asking.holding.yard
    for pile in asking.folded.used_up[-MOST_FINISHED:]:
        try:
            followed = stack_as_followed(
                pile,
                weather,
                place=_place(asking, pile.place),
                meters=yard.meters,
                markers=asking.folded.markers,
            )
            if not followed.readings:
                continue
            course = follow_stack(
                followed.stack,
                weather,
                followed.readings,
                now=followed.readings[-1].taken,
                prior=prior_for((), pile.place, main_species(pile)),
                every_days=30,
            )
        except WoodreeveError:
            continue
        found.append(
            FinishedStack(
                place=pile.place,
                species=main_species(pile),
                log_rate=course.log_rate,
                log_rate_sd=course.log_rate_sd,
            )
        )
    return tuple(found)
