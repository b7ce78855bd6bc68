"""Answers whether to light the boiler tonight, when, with how much and from which stack."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Literal, get_args

import numpy as np

from woodreeve.errors import Unknown
from woodreeve.firing.ways import WayName
from woodreeve.plant.cautions import Caution, situations
from woodreeve.plant.heat_escape import EscapeGap, escape_gap_on, heat_escape_gap
from woodreeve.records.asking import Asking
from woodreeve.units import Floats
from woodreeve.weather.forecast import Outlook
from woodreeve.wood.selling import Nation
from woodreeve.workings import Figure, Said, Series, dated, figure
from woodreeve.yard.containers import fill_mass
from woodreeve.yard.fields import Container
from woodreeve.yard.stock import yard_stock

if TYPE_CHECKING:
    from woodreeve.firing.courses import Terms
    from woodreeve.firing.standing import Standing
    from woodreeve.firing.tonight import PlannedFire, TonightPlan, Way
    from woodreeve.firing.wood_tonight import WoodTonight

__all__ = [
    "Charted",
    "Cost",
    "FireLine",
    "StoreNow",
    "TonightAnswer",
    "Until",
    "WayLine",
    "WeatherUsed",
    "WetStack",
    "answer",
]

DO_NOT_LIGHT = (("water_missing", 0), ("chimney_fire", 4), ("co_alarm", 3), ("power_cut", 3), ("too_hot", 0))
"""Situations, and the line of what to do in each that forbids a fire, or more wood."""


@dataclass(frozen=True, slots=True)
class Until:
    """A time to come: hours from the plan's beginning, and by the clock."""

    hours: Figure
    at: datetime


@dataclass(frozen=True, slots=True)
class FireLine:
    """Wood to put on."""

    when: Until
    kg: Figure
    fills: Figure | None
    carried: Figure | None
    stack: str
    species: str
    kind: Literal["light", "refill"]
    by_night: bool


@dataclass(frozen=True, slots=True)
class Cost:
    """One part of what a way costs."""

    name: str
    money: Figure


@dataclass(frozen=True, slots=True)
class WayLine:
    """One way to spend the next days."""

    name: WayName
    fires: tuple[FireLine, ...]
    more: Figure
    backup_kwh: Figure
    cold_kh: Figure
    lasts: Until | None
    lasts_cold: Until | None
    costs: tuple[Cost, ...]
    keeps_limits: bool


@dataclass(frozen=True, slots=True)
class StoreNow:
    """The store at the plan's beginning, from the foot up, and how that is known."""

    mean_c: Figure
    usable_kwh: Figure
    room_kwh: Figure | None
    load_kwh: Figure | None
    useful_above_c: Figure
    limit_c: Figure
    layers_c: Series
    layers_low_c: Series
    layers_high_c: Series
    height_m: Figure | None
    fuel_kg: Figure
    rests_on: Literal["gauge", "fires", "nothing"]
    age_h: Figure
    fires: int


@dataclass(frozen=True, slots=True)
class WeatherUsed:
    """Which weather the plan was made with."""

    rests_on: Literal["forecast", "reading", "usual"]
    source: str
    attribution: str
    age_h: Figure | None
    covered_h: Figure
    service: str


@dataclass(frozen=True, slots=True)
class WetStack:
    """A stack that is not burnt."""

    name: str
    moisture: Figure
    measured: bool


@dataclass(frozen=True, slots=True)
class Charted:
    """The hours ahead, for a chart: store with the plan, in the cold case and with nothing, and outdoors."""

    store_c: Series
    store_cold_c: Series
    store_nothing_c: Series
    outdoor_c: Series
    outdoor_cold_c: Series


@dataclass(frozen=True, slots=True)
class TonightAnswer:
    """Whether to light, with all that it rests on."""

    moment: datetime
    begins: datetime
    sentence: Said
    gap: Said | None
    gap_verdict: str
    verdict: str
    missing: str
    plan: WayLine | None
    ways: tuple[WayLine, ...]
    against: WayName | None
    reasons: tuple[str, ...]
    store: StoreNow | None
    lowest_c: Figure | None
    lowest_at: Until | None
    ahead: Charted | None
    weather: WeatherUsed | None
    wettest: Figure | None
    wettest_by: str
    refused: tuple[WetStack, ...]
    by_boiler_kg: Figure | None
    do_not_light: tuple[Caution, ...]
    boiler_room: str
    fill: str
    carried_in: str
    carried_in_many: str
    currency: str
    assumed: tuple[str, ...]


def answer(asking: Asking) -> TonightAnswer:
    """Answer for one holding at one moment.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather, forecast and the moment.

    Returns
    -------
    TonightAnswer
        The sentence, the plan and what stands beside it. Where the plant or the house is not known enough,
        the answer says what is missing.
    """
    gap = escape_gap_on(asking.holding.plant, asking.folded.events, asking.moment.date())
    try:
        return _planned(asking, gap)
    except Unknown as missing:
        return replace(_empty(asking, gap), missing=str(missing))


def _empty(asking: Asking, gap: EscapeGap) -> TonightAnswer:
    return TonightAnswer(
        moment=asking.moment,
        begins=asking.moment,
        sentence=Said("tonight.unknown"),
        gap=_gap_said(gap),
        gap_verdict=gap.verdict,
        verdict="unknown",
        missing="",
        plan=None,
        ways=(),
        against=None,
        reasons=(),
        store=None,
        lowest_c=None,
        lowest_at=None,
        ahead=None,
        weather=None,
        wettest=None,
        wettest_by="",
        refused=(),
        by_boiler_kg=None,
        do_not_light=_do_not_light(),
        boiler_room=asking.folded.boiler_room.place if asking.folded.boiler_room else "",
        fill=_named(_measure(asking, "boiler_fill"))[0],
        carried_in=_named(_measure(asking, "carrying"))[0],
        carried_in_many=_named(_measure(asking, "carrying"))[1],
        currency=asking.holding.prices.currency,
        assumed=(),
    )


def _do_not_light() -> tuple[Caution, ...]:
    """The lines of the emergency card that speak of the next fire."""
    known = {one.key: one for one in situations()}
    return tuple(known[key].do[number] for key, number in DO_NOT_LIGHT)


def _planned(asking: Asking, gap: EscapeGap) -> TonightAnswer:
    # The compiler is only loaded when it is needed, after its folder has been named.
    from woodreeve.firing.tonight import tonight_plan, weather_of_plan
    from woodreeve.firing.wood_tonight import wood_tonight

    holding, folded = asking.holding, asking.folded
    fill, barrow = _measure(asking, "boiler_fill"), _measure(asking, "carrying")
    wood = wood_tonight(
        asking.stock.stacks,
        asking.stock.order,
        holding.plant.boiler,
        holding.prices,
        holding.yard.limits,
        _nation(holding.place.nation),
        asking.moment.date(),
        fill,
        folded.boiler_room.place if folded.boiler_room else None,
    )
    standing = _standing(asking, wood)
    spread = _spread(asking)
    weather = (
        weather_of_plan(asking.weather, standing.begins, asking.forecast)
        if spread is None
        else weather_of_plan(asking.weather, standing.begins, asking.forecast, spread)
    )
    plan = tonight_plan(
        holding.house,
        holding.plant,
        holding.prices,
        holding.wishes,
        standing,
        wood,
        weather,
        holding.place.zone_name,
        _barrow_kg(asking, barrow),
    )
    lines = _Lines(asking, standing, plan)
    way = lines.way(plan.plan)
    verdict = "failed_test" if gap.verdict == "failed_test" else plan.verdict
    ways = tuple(lines.way(one) for one in plan.ways)
    by_boiler = next((one for one in asking.stock.stacks if _is_boiler_room(asking, one.place)), None)
    return replace(
        _empty(asking, gap),
        begins=standing.begins.astimezone(asking.zone),
        sentence=_sentence(asking, verdict, lines, way, ways, wood),
        verdict=verdict,
        plan=way,
        ways=ways,
        against=plan.against,
        reasons=plan.reasons,
        store=_store(asking, standing, plan),
        lowest_c=figure(plan.low_c, "degC", "tonight_plan", basis="where the heating draws"),
        lowest_at=lines.until(plan.low_h),
        ahead=_ahead(plan),
        weather=_weather(asking, weather.outlook),
        wettest=figure(wood.limit.moisture, "-", "wood_tonight", basis="wet basis"),
        wettest_by=wood.limit.by,
        refused=tuple(
            WetStack(one.name, figure(one.moisture, "-", "wood_tonight", basis="wet basis"), one.measured)
            for one in wood.refused
        ),
        by_boiler_kg=None if by_boiler is None else figure(by_boiler.mass_kg, "kg", yard_stock),
        assumed=tuple(dict.fromkeys((*standing.assumed, *plan.assumed))),
    )


def _standing(asking: Asking, wood: WoodTonight) -> Standing:
    from woodreeve.firing.standing import how_things_stand

    folded, spread = asking.folded, _spread(asking)
    known = (
        asking.holding.house,
        asking.holding.plant,
        asking.weather,
        asking.moment,
        folded.fires,
        folded.of("lit", "refilled"),
        wood.lots[0] if wood.lots else None,
    )
    return how_things_stand(*known) if spread is None else how_things_stand(*known, spread)


def _nation(told: str | None) -> Nation | None:
    """The nation, where its rules on wood are known."""
    return next((one for one in get_args(Nation) if one == told), None)


def _spread(asking: Asking) -> float | None:
    """How much daily means spread in this month, where the climate tells it."""
    normals = asking.holding.climate.normals
    told = None if normals is None else normals.day_noise_sd_k
    return None if not told else told[asking.moment.month - 1]


def _measure(asking: Asking, use: str) -> Container | None:
    return next((one for one in asking.holding.yard.containers if one.use == use), None)


def _named(container: Container | None) -> tuple[str, str]:
    if container is None:
        return "", ""
    return container.name, container.plural or f"{container.name}s"


def _is_boiler_room(asking: Asking, place: str) -> bool:
    room = asking.folded.boiler_room
    return room is not None and room.place == place


def _barrow_kg(asking: Asking, barrow: Container | None) -> float | None:
    """What one barrow of the wood by the boiler, or of the first dry stack, weighs."""
    stacks = asking.stock.stacks
    if barrow is None or not stacks:
        return None
    turns = {one.place: one.turn for one in asking.stock.order}
    first = min(stacks, key=lambda one: (not _is_boiler_room(asking, one.place), turns[one.place]))
    return fill_mass(barrow, dict(first.mix), first.moisture.moisture).mass_kg


def _gap_said(gap: EscapeGap) -> Said | None:
    if not gap.is_gap:
        return None
    return Said(gap.key, {"day": dated(gap.tested_on, heat_escape_gap, of=gap)} if gap.tested_on else {})


@dataclass(frozen=True, slots=True)
class _Lines:
    """Turns ways into lines of figures."""

    asking: Asking
    standing: Standing
    plan: TonightPlan

    def until(self, hours: float) -> Until:
        at = (self.standing.begins + timedelta(hours=hours)).astimezone(UTC).astimezone(self.asking.zone)
        return Until(figure(hours, "h", "tonight_plan", basis="from the plan's beginning"), at)

    def way(self, way: Way) -> WayLine:
        currency = self.asking.holding.prices.currency
        terms: Terms = way.terms
        return WayLine(
            name=way.name,
            fires=tuple(self.fire(one) for one in way.fires),
            more=figure(way.more, currency, "tonight_plan", basis="over the plan, heat left counted"),
            backup_kwh=figure(terms.backup_kwh, "kWh", "tonight_plan", basis="fuel, net"),
            cold_kh=figure(terms.cold_kh, "K*h", "tonight_plan"),
            lasts=None if way.lasts_h is None else self.until(way.lasts_h),
            lasts_cold=None if way.cold_lasts_h is None else self.until(way.cold_lasts_h),
            costs=tuple(
                Cost(name, figure(getattr(terms, name), currency, "tonight_plan"))
                for name in (
                    "wood",
                    "visits",
                    "backup",
                    "cold_rooms",
                    "hot_water",
                    "electricity",
                    "heat_left",
                )
            ),
            keeps_limits=way.keeps_limits,
        )

    def fire(self, fire: PlannedFire) -> FireLine:
        return FireLine(
            when=self.until(fire.hour),
            kg=figure(fire.kg, "kg", "tonight_plan"),
            fills=None if fire.fills is None else figure(fire.fills, "1", "tonight_plan"),
            carried=None if fire.barrows is None else figure(fire.barrows, "1", "tonight_plan"),
            stack=fire.stack,
            species=fire.species,
            kind=fire.kind,
            by_night=fire.odd,
        )


def _sentence(
    asking: Asking,
    verdict: str,
    lines: _Lines,
    plan: WayLine,
    ways: tuple[WayLine, ...],
    wood: WoodTonight,
) -> Said:
    nothing = next(way for way in ways if way.name == "nothing")
    values: dict[str, object] = {"now": lines.standing.begins.astimezone(asking.zone).isoformat()}
    first = plan.fires[0] if plan.fires else None
    fill, barrow = _measure(asking, "boiler_fill"), _measure(asking, "carrying")
    if first is not None:
        values |= {"at": first.when.at.isoformat(), "kg": first.kg, "species": first.species}
        values["stack"] = first.stack
        if first.fills is not None:
            values |= {"fills": first.fills, "fill": _named(fill)[0], "fill_many": _named(fill)[1]}
        if first.carried is not None:
            values |= {"carried": first.carried, "barrow": _named(barrow)[0], "barrows": _named(barrow)[1]}
    lasts = plan.lasts if verdict in ("light", "refill") else nothing.lasts
    if lasts is not None:
        values["until"] = lasts.at.isoformat()
        values["until_h"] = lasts.hours
    if verdict == "nobody" and lines.plan.next_chance_h is not None:
        values["chance"] = lines.until(lines.plan.next_chance_h).at.isoformat()
    if verdict == "no_wood" and wood.refused:
        driest = wood.refused[0]
        values |= {
            "stack": driest.name,
            "moisture": figure(driest.moisture, "-", "wood_tonight", basis="wet basis"),
            "limit": figure(wood.limit.moisture, "-", "wood_tonight", basis="wet basis"),
            "by": wood.limit.by,
            "measured": int(driest.measured),
        }
    return Said(f"tonight.{verdict}", values)  # type: ignore[arg-type]  # texts, figures and whole numbers, all of them


def _store(asking: Asking, standing: Standing, plan: TonightPlan) -> StoreNow:
    return StoreNow(
        mean_c=figure(standing.mean_c, "degC", "how_things_stand", low=standing.low_c, high=standing.high_c),
        usable_kwh=figure(
            standing.usable_kwh, "kWh", "how_things_stand", low=standing.low_kwh, high=standing.high_kwh
        ),
        room_kwh=figure(plan.free_kwh, "kWh", "tonight_plan", basis="up to its limit, nothing drawn"),
        load_kwh=figure(plan.load_kwh, "kWh", "tonight_plan", basis="heat to the water"),
        useful_above_c=figure(standing.useful_above_c, "degC", "how_things_stand"),
        limit_c=figure(asking.holding.plant.store.limit_c, "degC", "holding: plant.store.limit_c"),
        layers_c=_series(standing.layers_c),
        layers_low_c=_series(standing.layers_low_c),
        layers_high_c=_series(standing.layers_high_c),
        height_m=None
        if standing.height_m is None
        else figure(standing.height_m, "m", "holding: plant.store.height_m"),
        fuel_kg=figure(standing.fuel_kg, "kg", "how_things_stand"),
        rests_on=standing.rests_on,
        age_h=figure(standing.age_h, "h", "how_things_stand"),
        fires=standing.fires,
    )


def _series(values: tuple[float, ...]) -> Series:
    return Series(
        tuple(round(value, 1) for value in values), "degC", "how_things_stand", "layer, from the foot"
    )


def _ahead(plan: TonightPlan) -> Charted:
    def hourly(values: Floats) -> Series:
        told = tuple(round(float(one), 1) for one in np.asarray(values))
        return Series(told, "degC", "tonight_plan", "hour")

    return Charted(
        store_c=hourly(plan.course.mean_c),
        store_cold_c=hourly(plan.cold.mean_c),
        store_nothing_c=hourly(plan.nothing.mean_c),
        outdoor_c=hourly(plan.outdoor_c),
        outdoor_cold_c=hourly(plan.outdoor_cold_c),
    )


def _weather(asking: Asking, outlook: Outlook) -> WeatherUsed:
    age = outlook.age_h
    return WeatherUsed(
        rests_on=outlook.rests_on,
        source=outlook.source,
        attribution=outlook.attribution,
        age_h=None if age is None else figure(age, "h", "weather_of_plan"),
        covered_h=figure(outlook.covered_h, "h", "weather_of_plan"),
        service=asking.holding.climate.forecast,
    )
