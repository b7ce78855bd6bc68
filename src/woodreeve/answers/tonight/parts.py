"""What the answer of the evening is made of: fires, ways, the store, the weather, and all of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from woodreeve.firing.ways import WayName
from woodreeve.plant.cautions import Caution
from woodreeve.workings import Figure, Said, Series

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
]


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
