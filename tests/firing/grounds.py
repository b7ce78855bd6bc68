"""The plant, wood and days on which the tests of the planner stand."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, time
from typing import Any

import numpy as np

from tests.season.plants import ROOMS, prepared, winter
from woodreeve.firing.fields import Presence, PresenceWindow
from woodreeve.firing.flock import PlantState
from woodreeve.firing.ground import make_ground
from woodreeve.firing.lots import Lot
from woodreeve.firing.presence import tending_times
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.search import Ground
from woodreeve.season.inputs import Hours
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats

MONDAY = datetime(2026, 1, 12, 0, tzinfo=UTC)
WORKING = ("monday", "tuesday", "wednesday", "thursday", "friday")
PRESENCE = Presence(
    windows=(
        PresenceWindow(days=WORKING, begins=time(6, 30), ends=time(8, 0)),
        PresenceWindow(days=WORKING, begins=time(16, 30), ends=time(22, 0)),
        PresenceWindow(days=("saturday", "sunday"), begins=time(7, 0), ends=time(22, 0)),
    )
)
ASH = Lot(name="gable", moisture=0.18, heat_kwh_per_kg=4.1, full_kg=40.0, price_kg=0.18)
PLANT: Prepared = prepared()


def days_ahead(days: int, **more: Any) -> Hours:
    """Winter weather from a midnight on."""
    return winter(days, **more)


def ground(
    hours: int = 48,
    *,
    tail: int = 24,
    presence: Presence = PRESENCE,
    lots: tuple[Lot, ...] = (ASH,),
    prices: PlanPrices | None = None,
    begins: datetime = MONDAY,
    plant: Prepared = PLANT,
    state: PlantState | None = None,
    store_c: Floats | float | None = None,
    weather: dict[str, Any] | None = None,
    spread_k: float = 2.0,
) -> Ground:
    """What a search stands on, with weather that may be off by some degrees."""
    central = days_ahead((hours + tail) // 24, **(weather or {}))
    if store_c is not None:
        plant = replace(plant, store_c=np.broadcast_to(store_c, plant.store_c.shape).astype(float))
    return make_ground(
        plant,
        ROOMS,
        state=state,
        central=central,
        mild=replace(central, outdoor_c=central.outdoor_c + spread_k),
        cold=replace(central, outdoor_c=central.outdoor_c - spread_k),
        tending=tending_times(presence, begins, hours + tail, UTC),
        lots=lots,
        prices=prices or PlanPrices(),
        hours=hours,
        least_share=0.5,
    )
