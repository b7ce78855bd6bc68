"""Answers how much wood this winter and the next need, and whether it is there and dry."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Literal

from woodreeve.diary.findings import Finding
from woodreeve.errors import Unknown
from woodreeve.house.demand import Demand, demand
from woodreeve.house.from_fuel import demand_from_fuel, weighed_demand
from woodreeve.records.asking import Asking
from woodreeve.supply.heat import (
    Efficiency,
    PlantLoss,
    SpanHeat,
    heat_of_span,
    heat_until_july,
    heating_efficiency,
    plant_loss,
)
from woodreeve.supply.need import (
    BurntWood,
    MonthOfWood,
    WoodForSpan,
    burnt_wood,
    months_of_wood,
    wood_for_span,
)
from woodreeve.workings import Dated, Figure, Said, dated, figure
from woodreeve.yard.cover import FIRES_BEGIN, Cover, SplitBy, amount_for_heat, split_by, winter_cover
from woodreeve.yard.stock import YardStock, yard_stock

__all__ = ["MonthNeed", "Way", "WinterAnswer", "WinterNeed", "answer"]

HEATING_YEAR_BEGINS = (7, 1)
"""A winter is counted from July to June."""


@dataclass(frozen=True, slots=True)
class MonthNeed:
    """One month of a usual year."""

    month: date
    space_heat_kwh: Figure
    hot_water_kwh: Figure
    plant_loss_kwh: Figure
    heat_kwh: Figure
    wood_t: Figure
    wood_stacked_m3: Figure


@dataclass(frozen=True, slots=True)
class WinterNeed:
    """What a winter, or the rest of it, takes."""

    begins: date
    ends: date
    heat_kwh: Figure
    wood_t: Figure
    wood_stacked_m3: Figure


@dataclass(frozen=True, slots=True)
class Way:
    """One way in which the house's heat was found."""

    key: Literal["fabric", "past_fuel"]
    year_kwh: Figure | None
    heat_loss_w_k: Figure | None
    missing: str
    used: bool


@dataclass(frozen=True, slots=True)
class WinterAnswer:
    """Need and stock of wood, for this winter and the next."""

    moment: datetime
    sentence: Said
    rest: WinterNeed | None
    next: WinterNeed | None
    months: tuple[MonthNeed, ...]
    ways: tuple[Way, ...]
    base_temperature_c: Figure | None
    design_load_kw: Figure | None
    hot_water_kwh: Figure | None
    plant_loss_w: Figure
    efficiency: Figure
    burnt_moisture: Figure
    stock_stacked_m3: Figure
    stock_heat_kwh: Figure
    dry_heat_kwh: Figure
    dry_share: Figure
    cover: Figure | None
    dry_cover: Figure | None
    short_now_kwh: Figure | None
    short_next_kwh: Figure | None
    short_next_m3: Figure | None
    split_by: Dated | None
    split_safe_by: Dated | None
    weather: str
    assumed: tuple[str, ...]
    findings: tuple[Finding, ...]


def answer(asking: Asking) -> WinterAnswer:
    """Answer for one holding at one moment.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather and the moment.

    Returns
    -------
    WinterAnswer
        Need month by month, stock, cover, and what must be split by when. Where the house is not known
        enough, the answer says what is missing and still tells the stock.
    """
    holding = asking.holding
    stock = asking.stock
    loss = plant_loss(holding.plant)
    efficiency = heating_efficiency(holding.plant.boiler)
    wood = burnt_wood(stock, holding.yard.limits, holding.plant.boiler.log_length_cm)
    base: dict[str, Any] = {
        "moment": asking.moment,
        "plant_loss_w": figure(loss.mean_w, "W", plant_loss, basis="mean of the year"),
        "efficiency": figure(
            efficiency.net, "-", heating_efficiency, basis="net", low=efficiency.low, high=efficiency.high
        ),
        "burnt_moisture": figure(wood.moisture, "-", burnt_wood, basis="wet basis"),
        "stock_stacked_m3": figure(stock.stacked_m3, "m3", yard_stock, basis="stacked"),
        "stock_heat_kwh": figure(
            stock.heat_kwh,
            "kWh",
            yard_stock,
            basis="net heat of the wood",
            low=stock.low_kwh,
            high=stock.high_kwh,
        ),
        "dry_heat_kwh": figure(
            stock.dry_kwh,
            "kWh",
            yard_stock,
            basis="net heat of the wood",
            low=stock.dry_low_kwh,
            high=stock.dry_high_kwh,
        ),
        "dry_share": figure(stock.share_dry_enough, "-", yard_stock, basis="of the heat in split wood"),
        "findings": asking.folded.findings,
    }
    try:
        return _whole(asking, base, stock, loss, efficiency, wood)
    except Unknown as missing:
        return _without_house(base, str(missing), holding.house.past_fuel != ())


def _whole(
    asking: Asking,
    base: dict[str, Any],
    stock: YardStock,
    loss: PlantLoss,
    efficiency: Efficiency,
    wood: BurntWood,
) -> WinterAnswer:
    weather = asking.weather
    found = asking.demands
    fabric, fuel, used, missing = found.fabric, found.fuel, found.used, found.missing
    today = asking.moment.date()
    ends = _first_of_july_after(today) - timedelta(days=1)
    rest_heat = heat_until_july(used, weather, loss, asking.moment)
    rest = wood_for_span(rest_heat, efficiency, wood)
    year_heat = heat_of_span(used, weather, loss)
    year = wood_for_span(year_heat, efficiency, wood)
    cover = winter_cover(stock, year.need, rest.need)
    short = amount_for_heat(cover.short_next_kwh, wood.mix, wood.moisture, wood.form)
    by = split_by(date(ends.year, *FIRES_BEGIN), today, asking.holding.yard.limits.months_under_cover)
    months = months_of_wood(used, weather, loss, efficiency, wood)
    next_begins = ends + timedelta(days=1)
    needs = (
        _need(today, ends, rest_heat, rest),
        _need(next_begins, _first_of_july_after(next_begins) - timedelta(days=1), year_heat, year),
    )
    reach: dict[str, Any] = {
        "cover": figure(
            cover.winters, "winter", winter_cover, basis="all split wood", low=cover.low, high=cover.high
        ),
        "dry_cover": figure(cover.dry_winters, "winter", winter_cover, basis="wood that is dry enough now"),
        "short_now_kwh": figure(
            cover.short_now_kwh,
            "kWh",
            winter_cover,
            basis="net heat of wood",
            low=cover.short_now_low_kwh,
            high=cover.short_now_high_kwh,
        ),
        "short_next_kwh": figure(
            cover.short_next_kwh,
            "kWh",
            winter_cover,
            basis="net heat of wood",
            low=cover.short_next_low_kwh,
            high=cover.short_next_high_kwh,
        ),
        "short_next_m3": figure(short.stacked_m3, "m3", amount_for_heat, basis="stacked"),
        "split_by": dated(by.latest, split_by),
        "split_safe_by": dated(by.safe, split_by, basis="for oak, thick logs or a damp yard"),
    }
    return WinterAnswer(
        **base,
        **reach,
        sentence=Said(
            _key(cover, stock, by),
            {
                "rest": needs[0].wood_stacked_m3,
                "next": needs[1].wood_stacked_m3,
                "winters": reach["cover"],
                "share": base["dry_share"],
                "short": reach["short_next_m3"],
                "short_now": reach["short_now_kwh"],
                "day": reach["split_by"],
            },
        ),
        rest=needs[0],
        next=needs[1],
        months=tuple(_month(one, ends.year) for one in months),
        ways=(_way("fabric", fabric, "", True), _way("past_fuel", fuel, missing, fuel is not None)),
        base_temperature_c=figure(used.base_temperature_c, "degC", demand),
        design_load_kw=figure(used.design_load_kw, "kW", _made(used)),
        hot_water_kwh=figure(
            used.hot_water_year_kwh, "kWh", _made(used), basis="useful heat, pipes included"
        ),
        weather=weather.source,
        assumed=(*used.assumed, *loss.assumed),
    )


def _made(used: Demand) -> Callable[..., Demand]:
    return weighed_demand if used.method == "both" else demand


def _first_of_july_after(day: date) -> date:
    begins = date(day.year, *HEATING_YEAR_BEGINS)
    return begins if day < begins else date(day.year + 1, *HEATING_YEAR_BEGINS)


def _need(begins: date, ends: date, heat: SpanHeat, wood: WoodForSpan) -> WinterNeed:
    return WinterNeed(
        begins=begins,
        ends=ends,
        heat_kwh=figure(
            heat.heat_kwh,
            "kWh",
            heat_of_span,
            basis="useful heat, plant losses included",
            low=heat.low_kwh,
            high=heat.high_kwh,
        ),
        wood_t=figure(
            wood.mass_t, "t", wood_for_span, basis="as burnt", low=wood.mass_low_t, high=wood.mass_high_t
        ),
        wood_stacked_m3=figure(
            wood.stacked_m3,
            "m3",
            wood_for_span,
            basis="stacked",
            low=wood.stacked_low_m3,
            high=wood.stacked_high_m3,
        ),
    )


def _month(one: MonthOfWood, spring_year: int) -> MonthNeed:
    heat, wood = one.heat, one.wood
    return MonthNeed(
        month=date(spring_year if one.month < HEATING_YEAR_BEGINS[0] else spring_year - 1, one.month, 1),
        space_heat_kwh=figure(heat.rooms_kwh, "kWh", heat_of_span, basis="useful heat"),
        hot_water_kwh=figure(heat.hot_water_kwh, "kWh", heat_of_span, basis="useful heat, pipes included"),
        plant_loss_kwh=figure(heat.plant_kwh, "kWh", heat_of_span, basis="standing losses"),
        heat_kwh=figure(
            heat.heat_kwh,
            "kWh",
            heat_of_span,
            basis="useful heat, plant losses included",
            low=heat.low_kwh,
            high=heat.high_kwh,
        ),
        wood_t=figure(
            wood.mass_t, "t", wood_for_span, basis="as burnt", low=wood.mass_low_t, high=wood.mass_high_t
        ),
        wood_stacked_m3=figure(
            wood.stacked_m3,
            "m3",
            wood_for_span,
            basis="stacked",
            low=wood.stacked_low_m3,
            high=wood.stacked_high_m3,
        ),
    )


def _way(key: Literal["fabric", "past_fuel"], found: Demand | None, missing: str, used: bool) -> Way:
    if found is None:
        return Way(key, None, None, missing, used)
    by = demand if key == "fabric" else demand_from_fuel
    return Way(
        key,
        figure(
            found.year_kwh,
            "kWh",
            by,
            basis="useful heat of a usual year",
            low=found.year_low_kwh,
            high=found.year_high_kwh,
        ),
        figure(found.heat_loss_w_k, "W/K", by, low=found.heat_loss_low_w_k, high=found.heat_loss_high_w_k),
        missing,
        used,
    )


def _key(cover: Cover, stock: YardStock, by: SplitBy) -> str:
    """Which sentence says it."""
    if stock.stacked_m3 <= 0.0:
        return "winter.no_wood"
    if cover.short_now_kwh > 0.0:
        return "winter.short_now_late" if by.passed else "winter.short_now"
    if cover.short_next_kwh <= 0.0:
        return "winter.enough"
    return "winter.late" if by.passed else "winter.split"


def _without_house(base: dict[str, Any], missing: str, has_fuel: bool) -> WinterAnswer:
    return WinterAnswer(
        **base,
        sentence=Said("winter.unknown", {"missing": missing.rstrip(".")}),
        rest=None,
        next=None,
        months=(),
        ways=(
            Way("fabric", None, None, missing, False),
            Way("past_fuel", None, None, missing if has_fuel else "no past fuel has been told", False),
        ),
        base_temperature_c=None,
        design_load_kw=None,
        hot_water_kwh=None,
        cover=None,
        dry_cover=None,
        short_now_kwh=None,
        short_next_kwh=None,
        short_next_m3=None,
        split_by=None,
        split_safe_by=None,
        weather="",
        assumed=(),
    )
