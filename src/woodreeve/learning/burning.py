"""The burning order of a yard as it will dry: its stacks, the winter ahead, what is owed to neighbours."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated

import numpy as np

from woodreeve.diary.folded import StackContents
from woodreeve.learning.present import FollowedStack
from woodreeve.plant.fields import LogBoiler
from woodreeve.supply.need import MonthOfWood
from woodreeve.supply.promises import Owed
from woodreeve.units import Ge, KilowattHour, Le, Unit
from woodreeve.wood.heat import energy_per_stacked_m3
from woodreeve.wood.kinds import species
from woodreeve.workings import worked
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.order import BurnPeriod, BurnPlan, BurnStack, burning_order
from woodreeve.yard.stacks import StackHeat
from woodreeve.yard.stock import YardStock

__all__ = ["SetAside", "WinterAhead", "burning_plan", "set_aside", "winter_ahead"]

WOOD_YEAR_ENDS = (6, 30)
LEAST_DAYS_AHEAD = 60
"""A plan reaches so far at least: in June it is made for the next winter. [day]"""
WETTEST_FOR_HEAT = 0.60
"""Heat of a fill is not told of wetter wood. [-]"""
LENGTH_SLACK_CM = 0.5
"""Logs are cut no more exactly than this. [cm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """Wood kept for a customer in a stack that suits the agreement; no stack where none does."""

    customer: str
    stacked_m3: Annotated[float, Unit("m3"), Ge(0.0), Le(10_000.0)]
    by: date | None
    place: str | None
    heat_kwh: KilowattHour


@dataclass(frozen=True, slots=True, kw_only=True)
class WinterAhead:
    """The months from today to the end of the heating year: what each wants, its middle, how cold it is."""

    periods: tuple[BurnPeriod, ...]
    middles: tuple[date, ...]


@worked
def winter_ahead(
    months: tuple[MonthOfWood, ...], today: date, stock: YardStock, contents: Mapping[str, StackContents]
) -> WinterAhead:
    r"""What each month from today to the end of June wants of the stacks.

    Parameters
    ----------
    months : tuple of MonthOfWood
        A usual year, month by month.
    today : date
        The day asked about.
    stock : YardStock
        The yard: the wood that stands by the boiler already is burnt first.
    contents : mapping
        The same as the diary tells it.

    Returns
    -------
    WinterAhead
        Months with heat wanted, coldness from 0 for the mildest to 1 for the hardest of them. [kWh]

    Notes
    -----
    .. math:: c_p = \frac{q_p - q_{min}}{q_{max} - q_{min}}

    with the heat wanted a day :math:`q`; of the running month only the days that are left count.

    References
    ----------
    .. [1] :func:`woodreeve.supply.need.months_of_wood`.
    """
    a_day = {one.month: one.wood.need.kwh / _days_in(date(2025, one.month, 1)) for one in months}
    end = date(today.year, *WOOD_YEAR_ENDS)
    while (end - today).days < LEAST_DAYS_AHEAD:
        end = end.replace(year=end.year + 1)
    least, most = min(a_day.values()), max(a_day.values())
    left_by_boiler = sum(one.heat_kwh for one in stock.stacks if contents[one.place].stage == "boiler_room")
    periods, middles = [], []
    first = today
    while first <= end:
        last = first.replace(day=_days_in(first))
        days = (last - first).days + 1
        wanted = a_day[first.month] * days
        from_boiler = min(wanted, left_by_boiler)
        left_by_boiler -= from_boiler
        periods.append(
            BurnPeriod(
                name=first.strftime("%Y-%m"),
                wanted_kwh=wanted - from_boiler,
                coldness=(a_day[first.month] - least) / (most - least) if most > least else 0.5,
            )
        )
        middles.append(first + timedelta(days=days // 2))
        first = last + timedelta(days=1)
    return WinterAhead(periods=tuple(periods), middles=tuple(middles))


@worked
def set_aside(
    owed: tuple[Owed, ...], stock: YardStock, contents: Mapping[str, StackContents]
) -> tuple[SetAside, ...]:
    r"""Which stack each promised load is kept in.

    Parameters
    ----------
    owed : tuple of Owed
        What customers still have to get.
    stock : YardStock
        The stacks with their moisture today.
    contents : mapping
        The same as the diary tells them, for the length of their logs.

    Returns
    -------
    tuple of SetAside
        The load's stack, the one with most wood left of those dry enough, of an agreed species and short
        enough; none where there is no such stack. [m3] [kWh]

    Notes
    -----
    .. math:: Q = Q_{stack} \frac{V}{V_{stack}}

    Where no moisture was agreed, wood must be at 25 % or less, or what the owner counts as dry enough.

    References
    ----------
    .. [1] The agreements in the holding; a load of one stack for one customer is this project's own rule.
    """
    left = {one.place: one.stacked_m3 for one in stock.stacks if contents[one.place].stage != "boiler_room"}
    by_place = {one.place: one for one in stock.stacks}
    kept = []
    for load in owed:
        fits = [
            place
            for place in left
            if left[place] >= load.stacked_m3 and _suits(load, by_place[place], contents[place])
        ]
        place = max(fits, key=lambda name: left[name], default=None)
        heat = 0.0
        if place is not None:
            stack = by_place[place]
            left[place] -= load.stacked_m3
            heat = stack.heat_kwh * load.stacked_m3 / stack.stacked_m3
        kept.append(
            SetAside(
                customer=load.customer,
                stacked_m3=load.stacked_m3 + 0.0,
                by=load.by,
                place=place,
                heat_kwh=heat,
            )
        )
    return tuple(kept)


def _days_in(day: date) -> int:
    return monthrange(day.year, day.month)[1]


def _suits(load: Owed, stack: StackHeat, contents: StackContents) -> bool:
    if load.most_moisture is None:
        dry = stack.dryness in ("ideal", "fine")
    else:
        dry = stack.dryness != "not_known" and round(stack.moisture.moisture, 4) <= load.most_moisture
    length = load.log_length_cm
    short = length is None or contents.log_cm is None or contents.log_cm <= length + LENGTH_SLACK_CM
    agreed = {species(name).key for name in load.species}
    return dry and short and (not agreed or set(stack.mix) <= agreed)


@worked
def burning_plan(
    stock: YardStock,
    contents: Mapping[str, StackContents],
    followed: Mapping[str, FollowedStack],
    winter: WinterAhead,
    kept: tuple[SetAside, ...],
    limits: WoodLimits,
    boiler: LogBoiler,
) -> BurnPlan:
    r"""Which stack to burn when, with every stack drying on meanwhile.

    Parameters
    ----------
    stock : YardStock
        The stacks with their heat; the stock by the boiler is not in the order, it is burnt first anyway.
    contents : mapping
        The same as the diary tells them.
    followed : mapping
        The stacks that the drying model follows.
    winter : WinterAhead
        What each month wants.
    kept : tuple of SetAside
        What is kept for customers.
    limits : WoodLimits
        How wet is too wet.
    boiler : LogBoiler
        Tells the longest log, and the wettest wood its maker allows.

    Returns
    -------
    BurnPlan
        The order with its reasons. [kWh]

    Raises
    ------
    OutOfRange
        If a number lies outside its range.

    Notes
    -----
    A stack's moisture in a month is its median course at the middle of it, with the doubt of an unknown
    meter basis on top; of a stack that is not followed, today's, and the wet end where nobody knows it:
    :math:`M_{sp} = M_{50,s}(d_p) + d_s`. Wood above the maker's limit or the owner's is not burnt.

    References
    ----------
    .. [1] :func:`woodreeve.yard.order.burning_order`.
    """
    turns = {turn.place: turn.turn for turn in stock.order}
    stacks = []
    for one in sorted(stock.stacks, key=lambda held: turns[held.place]):
        pile = contents[one.place]
        if pile.stage == "boiler_room":
            continue
        promised = sum(load.heat_kwh for load in kept if load.place == one.place)
        stacks.append(
            BurnStack(
                name=one.place,
                wood=dict(one.mix),
                heat_kwh=one.heat_kwh,
                moisture=_course(one, followed.get(one.place), winter.middles),
                promised_kwh=min(promised, one.heat_kwh),
                heat_per_fill_kwh=energy_per_stacked_m3(
                    dict(one.mix), min(one.moisture.moisture, WETTEST_FOR_HEAT), pile.form
                ),
                log_length_cm=pile.log_cm,
            )
        )
    allowed = [limits.wet, *([boiler.most_moisture] if boiler.most_moisture is not None else [])]
    return burning_order(
        tuple(stacks),
        winter.periods,
        ideal=limits.ideal,
        wet_limit=min(allowed),
        longest_log_cm=boiler.log_length_cm,
    )


def _course(one: StackHeat, followed: FollowedStack | None, middles: tuple[date, ...]) -> tuple[float, ...]:
    if followed is None:
        sure = one.moisture.known_by == "measured"
        return (one.moisture.moisture if sure else one.moisture.high,) * len(middles)
    course = followed.outlook.course
    doubt = followed.now.moisture - followed.outlook.shown.moisture
    at = np.searchsorted(course.shown_days, [(day - course.start).days for day in middles])
    return tuple(
        min(float(value) + doubt, 0.7) for value in course.median[np.minimum(at, course.median.size - 1)]
    )
