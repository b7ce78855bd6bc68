"""From a plan to lines of figures: fires and ways, the store, the weather, and the sentence."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, timedelta
from typing import TYPE_CHECKING

import numpy as np

from woodreeve.answers.tonight.parts import Charted, Cost, FireLine, StoreNow, Until, WayLine, WeatherUsed
from woodreeve.records.asking import Asking
from woodreeve.units import Floats
from woodreeve.weather.forecast import Outlook
from woodreeve.workings import Said, Series, figure
from woodreeve.yard.fields import Container

if TYPE_CHECKING:
    from woodreeve.firing.courses import Terms
    from woodreeve.firing.standing import Standing
    from woodreeve.firing.tonight import PlannedFire, TonightPlan, Way
    from woodreeve.firing.wood_tonight import WoodTonight

__all__ = [
    "Lines",
    "charted",
    "measure_of",
    "names_of",
    "sentence_of",
    "store_now",
    "weather_used",
]


@dataclass(frozen=True, slots=True)
class Lines:
    """Turns ways into lines of figures."""

    asking: Asking
    standing: Standing
    plan: TonightPlan

    def until(self, hours: float) -> Until:
        """A time to come."""
        at = (self.standing.begins + timedelta(hours=hours)).astimezone(UTC).astimezone(self.asking.zone)
        return Until(figure(hours, "h", "tonight_plan", basis="from the plan's beginning"), at)

    def way(self, way: Way) -> WayLine:
        """One way to spend the next days."""
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
        """Wood to put on."""
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


def sentence_of(
    asking: Asking,
    verdict: str,
    lines: Lines,
    plan: WayLine,
    ways: tuple[WayLine, ...],
    wood: WoodTonight,
) -> Said:
    """The sentence of the evening: its verdict, and the values that go in."""
    nothing = next(way for way in ways if way.name == "nothing")
    values: dict[str, object] = {"now": lines.standing.begins.astimezone(asking.zone).isoformat()}
    first = plan.fires[0] if plan.fires else None
    fill, barrow = measure_of(asking, "boiler_fill"), measure_of(asking, "carrying")
    if first is not None:
        values |= {"at": first.when.at.isoformat(), "kg": first.kg, "species": first.species}
        values["stack"] = first.stack
        if first.fills is not None:
            values |= {"fills": first.fills, "fill": names_of(fill)[0], "fill_many": names_of(fill)[1]}
        if first.carried is not None:
            values |= {
                "carried": first.carried,
                "barrow": names_of(barrow)[0],
                "barrows": names_of(barrow)[1],
            }
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


def measure_of(asking: Asking, use: str) -> Container | None:
    """The owner's first measure for a use."""
    return next((one for one in asking.holding.yard.containers if one.use == use), None)


def names_of(container: Container | None) -> tuple[str, str]:
    """What one and several of a measure are called; empty without one."""
    if container is None:
        return "", ""
    return container.name, container.plural or f"{container.name}s"


def store_now(asking: Asking, standing: Standing, plan: TonightPlan) -> StoreNow:
    """The store at the plan's beginning."""
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


def charted(plan: TonightPlan) -> Charted:
    """The hours ahead, for a chart."""

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


def weather_used(asking: Asking, outlook: Outlook) -> WeatherUsed:
    """Which weather it is."""
    age = outlook.age_h
    return WeatherUsed(
        rests_on=outlook.rests_on,
        source=outlook.source,
        attribution=outlook.attribution,
        age_h=None if age is None else figure(age, "h", "weather_of_plan"),
        covered_h=figure(outlook.covered_h, "h", "weather_of_plan"),
        service=asking.holding.climate.forecast,
    )
