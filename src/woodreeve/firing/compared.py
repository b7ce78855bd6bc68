"""A span played three times: with plans, with the common evening rule, and with the best of many rules."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, timedelta
from typing import Annotated
from zoneinfo import ZoneInfo

import numpy as np

from woodreeve.errors import OutOfRange, Refused
from woodreeve.firing.fields import Wishes
from woodreeve.firing.lots import Lot
from woodreeve.firing.presence import Tending, tending_times
from woodreeve.firing.prices import PlanPrices, plan_prices
from woodreeve.firing.replay import Forecaster, Replay, hours_from, replay_plans, replay_rule
from woodreeve.firing.rules import RuleRanges, best_rule, evening_rule, rule_candidates, try_rules
from woodreeve.house.describe import House
from woodreeve.money.fields import Prices
from woodreeve.plant.fields import Plant
from woodreeve.season.inputs import FiringRule, Hours
from woodreeve.season.scene import scene
from woodreeve.units import Floats, Ge, Gt, Le, Unit
from woodreeve.weather.cases import weather_paths
from woodreeve.weather.forecast import Outlook
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

__all__ = ["Compared", "rule_hours", "span_replayed"]

WARM_UP_H = 7 * 24
"""Played with the evening rule before anything counts. [h]"""
TO_THE_WATER = 0.85
"""A kWh left in the store is worth what wood costs to give it. Judgement: usual share of wood's heat. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """The span played by plans and by rules, from the same beginning and in the same weather.

    Parameters
    ----------
    planner, evening : Replay
        What each took, week by week.
    tuned : Replay or None
        The same for the best rule; ``None`` without years to tune on.
    planner_money, evening_money, tuned_money : float or None
        What each comes to at the owner's prices, heat left counted. [money]
    evening_rule, tuned_rule : FiringRule or None
        The rules.
    tried : int
        Rules that were tried.
    rule_hours : tuple of int
        Hours of the clock at which the rules may look.
    always_there : bool
        Whether somebody is there at those hours on every day; else on most.
    hours : int
        Length of what counts. [h]
    currency : str
        Of the money.
    assumed : tuple of str
        What was not known.
    """

    planner: Replay
    evening: Replay
    tuned: Replay | None
    planner_money: Annotated[float, Unit("money")]
    evening_money: Annotated[float, Unit("money")]
    tuned_money: Annotated[float | None, Unit("money")]
    evening_rule: FiringRule
    tuned_rule: FiringRule | None
    tried: int
    rule_hours: tuple[int, ...]
    always_there: bool
    hours: Annotated[int, Unit("h")]
    currency: str
    assumed: tuple[str, ...]


@worked
def span_replayed(
    house: House,
    plant: Plant,
    weather: Hourly,
    prices: Prices,
    wishes: Wishes,
    lots: tuple[Lot, ...],
    zone: str,
    *,
    tuned_on: tuple[Hourly, ...] = (),
    trials: Annotated[int, Unit("-"), Ge(8), Le(4096)] = 512,
    error_k: Annotated[float, Unit("K"), Ge(0.0), Le(8.0)] = 2.2,
    seed: Annotated[int, Unit("-"), Ge(0), Le(20000)] = 0,
    horizon_h: Annotated[int, Unit("h"), Gt(11), Le(168)] = 72,
    progress: Callable[[float], bool] | None = None,
) -> Compared:
    r"""Play a span three times: with plans made anew twice a day, with the evening rule, with a tuned rule.

    Parameters
    ----------
    house : House
        The house.
    plant : Plant
        The plant.
    weather : Hourly
        The weather of the span from a midnight on, a week before it first.
    prices : Prices
        The owner's prices.
    wishes : Wishes
        Presence, and how warmth and backup weigh.
    lots : tuple of Lot
        Wood that may be burnt, the cheapest first; the rules burn the first.
    zone : str
        The owner's time zone.
    tuned_on : tuple of Hourly
        Other years, as long as the span, to tune a rule on; none leaves the tuned rule out.
    trials : int
        Rules to try. [-] From 8 to 4096.
    error_k : float
        Error of the forecasts that the plans are made from. [K] From 0 to 8.
    seed : int
        Number of the throw of their errors. [-] From 0 to 20000.
    horizon_h : int
        Length of a plan. [h] More than 11, up to 168.
    progress : callable, optional
        Told the share done; the work stops where it answers False.

    Returns
    -------
    Compared
        What each took in things, and in money.

    Raises
    ------
    Unknown
        If floor area, boiler output or store are not known.
    Refused
        If part of the plant is not modelled, there is no dry wood, or it was stopped.
    OutOfRange
        If the weather is shorter than eight days, or a number lies outside its range.

    Notes
    -----
    .. math:: C = \sum_i p_i x_i - \frac{p_w}{0.85} \Delta Q

    with things :math:`x_i` at their plain prices and heat left :math:`\Delta Q` at the price of wood. The
    first week is played with the evening rule and does not count. The plans see a forecast with errors and
    the true present temperature.

    References
    ----------
    .. [1] Own method; see ``studies/contest.toml`` for the contest that was played by it.
    """
    if not lots:
        raise Refused("There is no wood dry enough to burn, so there is nothing to compare.")
    span = weather.hours - WARM_UP_H
    if span < 24:
        raise OutOfRange("weather", f"{weather.hours} h", "at least 192", "h", "a week is played first")
    priced, assumed = plan_prices(prices, wishes, plant.backup)
    made = scene(house, plant, weather)
    lot = lots[0]
    begins = weather.start + timedelta(hours=WARM_UP_H)
    times = tending_times(wishes.presence, begins, span, ZoneInfo(zone))
    allowed, always = rule_hours(times, begins.astimezone(UTC).hour + weather.utc_offset_h, span)
    looks = min(allowed, key=lambda hour: abs(hour - 17)) if allowed else 17
    common = evening_rule(lot, hour=looks)
    warm = replay_rule(made.prepared, made.rooms, hours_from(made.hours, 0, WARM_UP_H), common)
    hours = hours_from(made.hours, WARM_UP_H, span)
    share = None
    if plant.boiler.least_output_kw is not None and plant.boiler.output_kw:
        share = plant.boiler.least_output_kw / plant.boiler.output_kw
    part = 0.6 if tuned_on else 1.0
    planner = replay_plans(
        made.prepared,
        made.rooms,
        hours,
        lots=lots,
        prices=priced,
        tending=times,
        forecast=_forecaster(hours, weather, error_k, seed),
        error_k=error_k,
        state=warm.end,
        horizon_h=horizon_h,
        least_share=share,
        progress=None if progress is None else lambda done: progress(part * done),
    )
    if sum(week.hour == span for week in planner.weeks) == 0:
        raise Refused("The replay was stopped on request before it was done.")
    evening = replay_rule(made.prepared, made.rooms, hours, common, state=warm.end)
    wood = lot.price_kg / lot.heat_kwh_per_kg
    best, tuned = None, None
    if tuned_on:
        best = _tuned(house, plant, tuned_on, common, allowed, trials, priced, wood, progress, part)
        tuned = replay_rule(made.prepared, made.rooms, hours, best, state=warm.end)

    def money(one: Replay) -> float:
        return one.money(priced, wood, wood / TO_THE_WATER)

    return Compared(
        planner=planner,
        evening=evening,
        tuned=tuned,
        planner_money=money(planner),
        evening_money=money(evening),
        tuned_money=None if tuned is None else money(tuned),
        evening_rule=common,
        tuned_rule=best,
        tried=trials if tuned_on else 0,
        rule_hours=allowed,
        always_there=always,
        hours=span,
        currency=priced.currency,
        assumed=(*made.assumed, *assumed),
    )


def rule_hours(times: tuple[Tending, ...], hour_of_day: float, span: int) -> tuple[tuple[int, ...], bool]:
    """Hours of the clock at which a fire may be lit on every day; or, if there is none, on half the days.

    Parameters
    ----------
    times : tuple of Tending
        When wood may be put on.
    hour_of_day : float
        Hour of the clock at the beginning.
    span : int
        Length of the span. [h]

    Returns
    -------
    tuple
        The hours, and whether they hold on every day.
    """
    counts = np.zeros(24, dtype=int)
    for one in times:
        if one.light and abs(one.hour - round(one.hour)) < 1e-6:
            counts[int(one.hour + hour_of_day) % 24] += 1
    days = max(span // 24, 1)
    always = tuple(int(hour) for hour in np.flatnonzero(counts >= days))
    if always:
        return always, True
    return tuple(int(hour) for hour in np.flatnonzero(counts >= 0.5 * days)), False


def _forecaster(hours: Hours, weather: Hourly, error_k: float, seed: int) -> Forecaster:
    truth = np.asarray(hours.outdoor_c)

    def tell(at: int, count: int) -> Floats:
        true = truth[at : at + count]
        if error_k <= 0.0:
            return true
        outlook = Outlook(
            central=Hourly(start=weather.start, temperature_c=true),
            error_k=np.full(true.size, error_k),
            rests_on="forecast",
            source="made from the weather of the span",
            age_h=0.0,
            covered_h=float(true.size),
        )
        return np.asarray(weather_paths(outlook, 1, seed=seed * 100_000 + at)[0])

    return tell


def _tuned(
    house: House,
    plant: Plant,
    years: tuple[Hourly, ...],
    common: FiringRule,
    allowed: tuple[int, ...],
    trials: int,
    prices: PlanPrices,
    wood: float,
    progress: Callable[[float], bool] | None,
    part: float,
) -> FiringRule:
    scenes = [scene(house, plant, one) for one in years]
    late = tuple(hour for hour in allowed if hour >= 12) or (17,)
    ranges = RuleRanges(evening_hours=late, morning_hours=tuple(h for h in allowed if h < 12)[:2])
    down, up = scenes[0].rooms.downstairs, scenes[0].rooms.upstairs
    found = try_rules(
        scenes[0].prepared,
        [one.hours for one in scenes],
        rule_candidates(common, ranges, trials),
        1000.0 * np.array([down.air_kj_k, down.mass_kj_k, up.air_kj_k, up.mass_kj_k]),
        progress=None if progress is None else lambda done: progress(part + (1.0 - part) * done),
    )
    return best_rule(found, prices, wood, wood / TO_THE_WATER).rule
