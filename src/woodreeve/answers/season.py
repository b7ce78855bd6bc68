"""Answers how the plant runs through a year with a firing rule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

import numpy as np

from woodreeve.records.asking import Asking
from woodreeve.season.inputs import FiringRule
from woodreeve.season.year import (
    SeasonMonth,
    SeasonRun,
    TunedRule,
    common_evening_rule,
    season_run,
    tuned_rule,
)
from woodreeve.supply.need import burnt_wood, full_load_kg
from woodreeve.units import Floats
from woodreeve.wood.heat import energy_per_kg
from woodreeve.workings import Figure, Said, Series, figure
from woodreeve.workings.trace import current_trace

__all__ = ["MonthLine", "Rule", "RuleName", "SeasonAnswer", "answer"]

RuleName = Literal["evening", "tuned"]

FIRST_OF_JULY = 181
"""Day of the year with which a heating year begins, counted from 0."""

COLD_IF_OVER_K = 0.25
"""Rooms count as often cold when they are colder than wanted by more than this on the mean. Judgement. [K]"""


@dataclass(frozen=True, slots=True)
class MonthLine:
    """One month of the run, or all of it."""

    month: date | None
    outdoor_c: Figure
    fires: Figure
    wood_kg: Figure
    water_kwh: Figure
    backup_kwh: Figure
    rooms_kwh: Figure
    taps_kwh: Figure
    store_loss_kwh: Figure
    cold_kh: Figure
    tap_short_h: Figure


@dataclass(frozen=True, slots=True)
class Rule:
    """When a fire is lit."""

    name: RuleName
    hours: tuple[int, ...]
    below_c: Figure
    per_degree: Figure
    load_kg: Figure
    least_kg: Figure
    fitted: bool
    tried: int
    worth_kwh: Figure | None
    evening_worth_kwh: Figure | None


@dataclass(frozen=True, slots=True)
class SeasonAnswer:
    """A year of the plant, month by month, and its course day by day."""

    moment: datetime
    sentence: Said
    begins: date
    ends: date
    rule: Rule
    months: tuple[MonthLine, ...]
    total: MonthLine
    efficiency: Figure
    backup_share: Figure
    hottest_store_c: Figure
    over_limit_h: Figure
    store_limit_c: Figure
    outdoor_c: Series
    downstairs_c: Series
    upstairs_c: Series
    fires: Series
    store_layers_c: tuple[Series, ...]
    weather: str
    assumed: tuple[str, ...]


def answer(
    asking: Asking,
    rule: RuleName = "evening",
    *,
    begins: date | None = None,
    days: int = 365,
    trials: int = 192,
    progress: Callable[[float], bool] | None = None,
) -> SeasonAnswer:
    """Answer for one holding: a heating year, or another span of a usual year.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather and the moment.
    rule : {"evening", "tuned"}
        The common evening rule, or the best of many simple rules.
    begins : date, optional
        First day of the span; the first of July if left out.
    days : int
        Length of the span. [day]
    trials : int
        Rules to try for the tuned one. [-]
    progress : callable, optional
        Told the share done; the work stops where it answers False.

    Returns
    -------
    SeasonAnswer
        Months, sums and daily course.

    Raises
    ------
    Unknown
        If something is missing that has no honest fall-back: floor area, boiler output, fuel space or store.
    Refused
        If part of the plant is not modelled, or the work was stopped.
    """
    holding, weather = asking.holding, asking.weather
    common = _common_rule(asking)
    _declare(trials=trials)
    tuned = None
    if rule == "tuned":
        tuned = tuned_rule(holding.house, holding.plant, weather, common, trials, _up_to(progress, 0.95))
    used = tuned.rule if tuned else common
    first_day = FIRST_OF_JULY if begins is None else min(begins.timetuple().tm_yday, 365) - 1
    _declare(first_day=first_day, days=days)
    run = season_run(holding.house, holding.plant, weather, used, first_day, days)
    if progress is not None:
        progress(1.0)
    start = begins or _first_of_july_before(asking.moment.date())
    return SeasonAnswer(
        moment=asking.moment,
        sentence=_sentence(run),
        begins=start,
        ends=start + timedelta(days=days - 1),
        rule=_rule(rule, used, tuned),
        months=tuple(_line(month, day) for month, day in _with_days(run.months, start)),
        total=_line(run.total, None),
        efficiency=figure(run.efficiency, "-", season_run, basis="net, over the whole span"),
        backup_share=figure(run.backup_share, "-", season_run, basis="of all heat given"),
        hottest_store_c=figure(run.hottest_store_c, "degC", season_run),
        over_limit_h=figure(run.over_limit_h, "h", season_run),
        store_limit_c=figure(holding.plant.store.limit_c, "degC", "holding: plant.store.limit_c"),
        outdoor_c=_daily(run.outdoor_c, "degC"),
        downstairs_c=_daily(run.downstairs_c, "degC"),
        upstairs_c=_daily(run.upstairs_c, "degC"),
        fires=_daily(run.burning, "-", "share of the day with a fire"),
        store_layers_c=tuple(_daily(run.store_c[:, layer], "degC") for layer in range(run.store_c.shape[1])),
        weather=weather.source,
        assumed=run.assumed,
    )


def _declare(**asked: int) -> None:
    """Tell a trace what came with the question."""
    trace = current_trace()
    if trace is not None:
        for name, value in asked.items():
            trace.given(value, f"question.{name}", "asked for")


def _up_to(progress: Callable[[float], bool] | None, share: float) -> Callable[[float], bool] | None:
    return None if progress is None else lambda done: progress(share * done)


def _common_rule(asking: Asking) -> FiringRule:
    """The common evening rule with the owner's own full load."""
    boiler = asking.holding.plant.boiler
    wood = burnt_wood(asking.stock, asking.holding.yard.limits, boiler.log_length_cm)
    load_kg = full_load_kg(boiler, wood)
    heat = energy_per_kg(wood.mix, wood.moisture)
    if boiler.efficiency_net is None:
        return common_evening_rule(load_kg, wood.moisture, heat)
    return common_evening_rule(load_kg, wood.moisture, heat, boiler.efficiency_net)


def _first_of_july_before(day: date) -> date:
    begins = date(day.year, 7, 1)
    return begins if day >= begins else date(day.year - 1, 7, 1)


def _with_days(months: tuple[SeasonMonth, ...], start: date) -> list[tuple[SeasonMonth, date]]:
    day, found = start, []
    for month in months:
        found.append((month, day))
        day += timedelta(hours=month.hours)
    return found


def _line(month: SeasonMonth, day: date | None) -> MonthLine:
    return MonthLine(
        month=day,
        outdoor_c=figure(month.outdoor_c, "degC", season_run, basis="mean"),
        fires=figure(month.fires, "1", season_run),
        wood_kg=figure(month.wood_kg, "kg", season_run, basis="as burnt"),
        water_kwh=figure(month.water_kwh, "kWh", season_run, basis="heat to store and rooms"),
        backup_kwh=figure(month.backup_kwh, "kWh", season_run, basis="heat"),
        rooms_kwh=figure(month.rooms_kwh, "kWh", season_run),
        taps_kwh=figure(month.taps_kwh, "kWh", season_run),
        store_loss_kwh=figure(month.store_loss_kwh, "kWh", season_run),
        cold_kh=figure(month.cold_kh, "K*h", season_run, basis="under the wanted temperature"),
        tap_short_h=figure(month.tap_short_h, "h", season_run),
    )


def _rule(name: RuleName, used: FiringRule, tuned: TunedRule | None) -> Rule:
    by = tuned_rule if tuned else common_evening_rule
    return Rule(
        name=name,
        hours=used.hours,
        below_c=figure(used.below_c, "degC", by, basis="mean of the store"),
        per_degree=figure(used.per_degree, "1", by, basis="for each degree of frost"),
        load_kg=figure(used.kg, "kg", full_load_kg, basis="as burnt"),
        least_kg=figure(used.least_kg, "kg", by, basis="as burnt"),
        fitted=used.fit,
        tried=tuned.tried if tuned else 0,
        worth_kwh=figure(tuned.score.worth_kwh, "kWh", tuned_rule, basis="of backup heat") if tuned else None,
        evening_worth_kwh=figure(tuned.evening.worth_kwh, "kWh", tuned_rule, basis="of backup heat")
        if tuned
        else None,
    )


def _daily(hourly: Floats, unit: str, step: str = "mean of the day") -> Series:
    days = hourly.size // 24
    means = np.asarray(hourly[: days * 24]).reshape(days, 24).mean(axis=1)
    return Series(tuple(round(float(one), 2) for one in means), unit, season_run.__name__, step)


def _sentence(run: SeasonRun) -> Said:
    total = run.total
    return Said(
        "season.cold" if total.cold_kh > COLD_IF_OVER_K * total.hours else "season.year",
        {
            "fires": figure(total.fires, "1", season_run),
            "wood": figure(total.wood_kg, "kg", season_run),
            "backup": figure(total.backup_kwh, "kWh", season_run),
            "share": figure(run.backup_share, "-", season_run),
            "cold": figure(total.cold_kh, "K*h", season_run),
        },
    )
