"""How things stand: the store's heat now, from the diary's fires, the gauge, and a simulation between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Annotated, Literal

import numpy as np

from woodreeve.diary.folded import Event, Fire
from woodreeve.diary.payloads_plant import Lit
from woodreeve.firing.flock import CHANGING, Flock, PlantState, Runner
from woodreeve.firing.lots import Lot
from woodreeve.firing.reduced import NO_BACKUP_BELOW_C
from woodreeve.house.describe import House
from woodreeve.plant.fields import Plant, Store
from woodreeve.season import slots as s
from woodreeve.season.scene import Scene, scene
from woodreeve.units import Floats, Gt, Le, Unit
from woodreeve.weather.series import Hourly
from woodreeve.weather.usual import usual_course, whole_hour
from woodreeve.workings import worked

__all__ = ["Standing", "beginning_hour", "how_things_stand", "useful_above"]

WARM_UP_H = 14 * 24
"""So long before now the simulation begins, so that walls are as they would be. [h]"""
ODD_WEATHER_SHARE = 1.0
"""The colder and the milder course depart from the usual by so many spreads of daily means. Judgement. [-]"""
ODD_FILL_SHARE = 0.1
"""And their fires by so much wood. Judgement. [-]"""
BEGUN_C = 45.0
"""Store at the beginning of the simulation; after two weeks it is forgotten. [degC]"""
COMMON = Lot(name="", moisture=0.18, heat_kwh_per_kg=4.1, full_kg=35.0)
"""Wood where none is left to reckon by. Judgement."""
HEIGHTS = {"top": 0.92, "middle": 0.5, "bottom": 0.08}
"""Where gauges sit on a store of which nobody has told. Common practice, no published source. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The store and the fire at the beginning of a plan.

    Parameters
    ----------
    begins : datetime
        The whole hour at which the plan begins.
    mean_c, low_c, high_c : float
        Mean temperature of the store, and with colder or milder weather and less or more wood. [degC]
    usable_kwh, low_kwh, high_kwh : float
        Heat in it that rooms can still use. [kWh]
    useful_above_c : float
        Store at the heating's port below which it hardly helps, or the backup takes over. [degC]
    layers_c : tuple of float
        Temperatures from the foot up. [degC]
    layers_low_c, layers_high_c : tuple of float
        The same with colder or milder weather. [degC]
    height_m : float or None
        Height of the store. [m]
    fuel_kg : float
        Wood still in the fire. [kg]
    rests_on : str
        ``gauge``: the store was read; ``fires``: only fires are in the diary; ``nothing``: neither in
        two weeks.
    age_h : float
        Hours since the last reading, or else since the last fire; two weeks if there was neither. [h]
    fires : int
        Fires and refills of the last two weeks.
    state : PlantState
        All of it for the kernel, in the central case.
    assumed : tuple of str
        What was not known of house and plant.
    """

    begins: datetime
    mean_c: Annotated[float, Unit("degC")]
    low_c: Annotated[float, Unit("degC")]
    high_c: Annotated[float, Unit("degC")]
    usable_kwh: Annotated[float, Unit("kWh")]
    low_kwh: Annotated[float, Unit("kWh")]
    high_kwh: Annotated[float, Unit("kWh")]
    useful_above_c: Annotated[float, Unit("degC")]
    layers_c: tuple[float, ...]
    layers_low_c: tuple[float, ...]
    layers_high_c: tuple[float, ...]
    height_m: Annotated[float | None, Unit("m")]
    fuel_kg: Annotated[float, Unit("kg")]
    rests_on: Literal["gauge", "fires", "nothing"]
    age_h: Annotated[float, Unit("h")]
    fires: int
    state: PlantState
    assumed: tuple[str, ...]


def beginning_hour(moment: datetime) -> datetime:
    """The whole hour at which a plan made at a moment begins: this one, or the next."""
    hour = whole_hour(moment)
    return hour if hour >= moment else hour + timedelta(hours=1)


def useful_above(values: Floats) -> float:
    """Store temperature below which rooms get little from it, or the backup takes over. [degC]."""
    by_store = values[s.BACKUP_ALLOWED] > 0.0 and not values[s.BACKUP_FOLLOWS_CURVE]
    return float(values[s.BACKUP_BELOW_C]) if by_store else NO_BACKUP_BELOW_C


@worked
def how_things_stand(
    house: House,
    plant: Plant,
    usual: Hourly,
    moment: datetime,
    fires: Sequence[Fire],
    gauges: Sequence[Event],
    lot: Lot | None,
    climate_sd_k: Annotated[float, Unit("K"), Gt(0.0), Le(12.0)] = 3.0,
) -> Standing:
    r"""How warm the store is now, from the fires that were noted and the gauge that was read.

    "I lit it at six with a full load" is enough: plant and house are simulated through the last two weeks
    with the fires of the diary. Each reading of the store sets the simulation right where it was taken.

    Parameters
    ----------
    house : House
        The house.
    plant : Plant
        The plant.
    usual : Hourly
        A year of usual weather.
    moment : datetime
        Now.
    fires : sequence of Fire
        Fires and refills, as the diary tells them; one without an amount counts as a full load.
    gauges : sequence of Event
        Entries that may tell the store's temperatures.
    lot : Lot or None
        The wood that is burnt now, which stands for what was burnt; without any, common dry wood.
    climate_sd_k : float
        How much daily means spread at this time of year. [K] More than 0, up to 12.

    Returns
    -------
    Standing
        The store by height, its heat, how old that knowledge is and how sure.

    Raises
    ------
    Unknown
        If floor area, boiler output or store are not known.
    Refused
        If part of the plant is not modelled.
    OutOfRange
        If a number lies outside its range.

    Notes
    -----
    .. math:: T(z) \leftarrow T(z) + \left(T_\text{gauge} - T_\text{sim}\right)(z)

    The difference between gauge and simulation is drawn straight between the gauges and kept beyond the
    last one, so that a front in the store stays a front. The range comes from two further runs: weather
    colder than usual by one spread of daily means with a tenth less wood, and the opposite: judgement. The
    weather of the past days is the usual one. Not compared with a measured store.

    References
    ----------
    .. [1] Own method; the plant's equations as in the season's simulation.
    """
    begins = beginning_hour(moment)
    burnt = lot or COMMON
    first = begins - timedelta(hours=WARM_UP_H)
    course = usual_course(usual, first, WARM_UP_H)
    one = scene(house, plant, course, store_c=BEGUN_C)
    shift = ODD_WEATHER_SHARE * climate_sd_k
    weathers = (0.0, -shift, shift)
    hours = tuple(replace(one.hours, outdoor_c=one.hours.outdoor_c + by) for by in weathers)
    runner = Runner(one.prepared, hours)
    flock = Flock.of(one.prepared, np.arange(3))
    deeds = _deeds(fires, gauges, first, moment)
    now, load_kwh, last_gauge, last_fire, count = 0.0, 0.0, None, None, 0
    for hour, deed in deeds:
        runner.advance(flock, runner.step_of(now), runner.step_of(hour))
        now = hour
        if isinstance(deed, Fire):
            kg = burnt.full_kg if deed.mass_kg is None else deed.mass_kg
            wood = kg * np.array([1.0, 1.0 - ODD_FILL_SHARE, 1.0 + ODD_FILL_SHARE])
            load_kwh = kg * burnt.heat_kwh_per_kg + float(flock.rows[s.FUEL_J, 0]) / 3.6e6
            flock.load(np.arange(3), wood, np.full(3, burnt.heat_kwh_per_kg), np.full(3, burnt.moisture))
            last_fire, count = hour, count + 1
        else:
            flock.store_c = _set_right(flock.store_c, plant.store, deed)
            last_gauge = hour
    runner.advance(flock, runner.step_of(now), runner.step_of(float(WARM_UP_H)))
    since = last_gauge if last_gauge is not None else last_fire
    return _told(one, flock, plant.store, load_kwh, begins, count, last_gauge is not None, since)


def _deeds(
    fires: Sequence[Fire], gauges: Sequence[Event], first: datetime, moment: datetime
) -> list[tuple[float, Fire | Lit]]:
    """Readings and fires of the last two weeks; a reading taken at a lighting comes before it."""
    found: list[tuple[float, int, Fire | Lit]] = []
    for fire in fires:
        if first <= fire.happened <= moment:
            found.append(((fire.happened - first) / timedelta(hours=1), 1, fire))
    for event in gauges:
        told = event.payload
        if isinstance(told, Lit) and first <= event.happened <= moment and _gauges_of(told):
            found.append(((event.happened - first) / timedelta(hours=1), 0, told))
    return [(hour, deed) for hour, _, deed in sorted(found, key=lambda one: one[:2])]


def _gauges_of(told: Lit) -> dict[str, float]:
    values = {"top": told.store_top_c, "middle": told.store_middle_c, "bottom": told.store_bottom_c}
    return {name: value for name, value in values.items() if value is not None}


def _set_right(store_c: Floats, store: Store, told: Lit) -> Floats:
    """Each run's layers moved so that they show at the gauges what was read there."""
    heights = {**HEIGHTS, **{sensor.name: sensor.height for sensor in store.sensors}}
    read = sorted((heights[name], value) for name, value in _gauges_of(told).items())
    layers = store_c.shape[0]
    middles = (np.arange(layers) + 0.5) / layers
    at = np.array([height for height, _ in read])
    moved = np.empty_like(store_c)
    for run in range(store_c.shape[1]):
        off = np.array([value for _, value in read]) - np.interp(at, middles, store_c[:, run])
        moved[:, run] = store_c[:, run] + np.interp(middles, at, off)
    return np.sort(moved, axis=0)


def _told(
    one: Scene,
    flock: Flock,
    store: Store,
    load_kwh: float,
    begins: datetime,
    count: int,
    was_read: bool,
    since: float | None,
) -> Standing:
    values = one.prepared.values
    useful = useful_above(values)
    capacity = float(values[s.STORE_LAYER_J_K]) / 3.6e6
    usable = np.clip(flock.store_c - useful, 0.0, None).sum(axis=0) * capacity
    means = flock.store_c.mean(axis=0)
    return Standing(
        begins=begins,
        mean_c=float(means[0]),
        low_c=float(means.min()),
        high_c=float(means.max()),
        usable_kwh=float(usable[0]),
        low_kwh=float(usable.min()),
        high_kwh=float(usable.max()),
        useful_above_c=useful,
        layers_c=tuple(float(t) for t in flock.store_c[:, 0]),
        layers_low_c=tuple(float(t) for t in flock.store_c.min(axis=1)),
        layers_high_c=tuple(float(t) for t in flock.store_c.max(axis=1)),
        height_m=store.height_m,
        fuel_kg=float(flock.rows[s.FUEL_KG, 0]),
        rests_on="gauge" if was_read else "nothing" if since is None else "fires",
        age_h=float(WARM_UP_H if since is None else max(WARM_UP_H - since, 0.0)),
        fires=count,
        state=PlantState(
            rows=flock.rows[:CHANGING, 0].copy(),
            store_c=flock.store_c[:, 0].copy(),
            cylinder_c=flock.cylinder_c[:, 0].copy(),
            load_kwh=load_kwh,
        ),
        assumed=one.assumed,
    )
