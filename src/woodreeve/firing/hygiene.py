"""Whether the hot water gets as hot as hygiene asks, often enough, and by which source."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np

from woodreeve.firing.flock import Flock, Runner
from woodreeve.firing.lots import Lot
from woodreeve.firing.search import Laid
from woodreeve.plant.fields import Plant
from woodreeve.season import slots as s
from woodreeve.season.inputs import Hours
from woodreeve.season.setup import Prepared
from woodreeve.units import Unit

__all__ = ["HygieneKept", "hygiene_kept"]

LOOKED_AT = 6
"""The cylinder is looked at so many times in an hour."""
WITHIN_K = 0.5
"""A thermostat's own difference: this near counts as reached. Judgement. [K]"""
COIL_NEEDS_K = 5.0
"""A source must be so much hotter than what the cylinder is to reach. Judgement. [K]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class HygieneKept:
    """When the whole cylinder next reaches its hygiene temperature, and what must see to it.

    Parameters
    ----------
    kept : bool
        Whether some source sees to it in time.
    by : str
        Which source brings it there: ``fires``, ``backup``, ``immersion`` or ``nobody``.
    at_h : float or None
        Hours until the fires, or the backup running by itself, reach it; ``None`` if not within the plan. [h]
    due_h : float
        Hours until it is due. [h]
    heat_kwh : float
        Heat that the other source must add, if the fires do not. [kWh]
    """

    kept: bool
    by: Literal["fires", "backup", "immersion", "nobody"]
    at_h: Annotated[float | None, Unit("h")]
    due_h: Annotated[float, Unit("h")]
    heat_kwh: Annotated[float, Unit("kWh")]


def hygiene_kept(
    plant: Plant,
    prepared: Prepared,
    weather: Hours,
    fires: Sequence[Laid],
    lots: Sequence[Lot],
    hours: int,
    *,
    hours_since: float | None = None,
) -> HygieneKept:
    """Play a plan and see when the cylinder's thermostat shows the hygiene temperature.

    Parameters
    ----------
    plant : Plant
        The plant: its hygiene temperature, and what else heats the cylinder.
    prepared : Prepared
        The plant at the beginning.
    weather : Hours
        Weather and wishes, best the cold case.
    fires : sequence of Laid
        The plan.
    lots : sequence of Lot
        Its stacks.
    hours : int
        Length of the plan. [h]
    hours_since : float, optional
        Hours since it was last reached; unknown counts as due now. [h]

    Returns
    -------
    HygieneKept
        When, and by what.
    """
    cylinder = plant.cylinder
    wanted = cylinder.hygiene_c - WITHIN_K
    every = 24.0 * cylinder.hygiene_every_days
    due = 0.0 if hours_since is None else max(every - hours_since, 0.0)
    flock = Flock.of(prepared, np.zeros(1, dtype=np.int64))
    runner = Runner(prepared, (weather,))
    sensor = prepared.cylinder.sensor
    one = np.zeros(1, dtype=np.int64)
    waiting = sorted(fires, key=lambda laid: laid.hour)
    at: float | None = None
    now = 0.0
    ticks = hours * LOOKED_AT
    for tick in range(1, ticks + 1):
        hour = tick / LOOKED_AT
        while waiting and waiting[0].hour < hour:
            laid = waiting.pop(0)
            runner.advance(flock, runner.step_of(now), runner.step_of(laid.hour))
            now = max(now, laid.hour)
            lot = lots[laid.lot]
            flock.load(one, np.array([laid.kg]), np.array([lot.heat_kwh_per_kg]), np.array([lot.moisture]))
        runner.advance(flock, runner.step_of(now), runner.step_of(hour))
        now = hour
        if flock.cylinder_c[sensor, 0] >= wanted:
            at = hour
            break
    if at is not None and at <= max(due, float(hours)):
        by: Literal["fires", "backup", "immersion"] = "fires"
        if flock.rows[s.IMMERSION_ON, 0] > 0.0:
            by = "immersion"
        elif flock.rows[s.COIL_FROM_BACKUP, 0] > 0.0:
            by = "backup"
        return HygieneKept(kept=True, by=by, at_h=at, due_h=due, heat_kwh=0.0)
    capacity = float(prepared.values[s.CYLINDER_LAYER_J_K]) / 3.6e6
    missing = float(np.clip(cylinder.hygiene_c - flock.cylinder_c[:, 0], 0.0, None).sum() * capacity)
    if cylinder.immersion_kw:
        return HygieneKept(kept=True, by="immersion", at_h=None, due_h=due, heat_kwh=missing)
    backup = plant.backup
    able = (
        backup.fuel not in (None, "none")
        and backup.enabled != "never"
        and backup.feeds in ("heating_and_hot_water", "hot_water_only")
        and backup.flow_target_c >= cylinder.hygiene_c + COIL_NEEDS_K
    )
    return HygieneKept(kept=able, by="backup" if able else "nobody", at_h=None, due_h=due, heat_kwh=missing)
