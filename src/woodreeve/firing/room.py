"""Room for a load: whether store and house take a fire's heat, and when wood may be laid on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

import numpy as np

from woodreeve.firing.flock import Flock, Runner
from woodreeve.firing.ground import limits_of
from woodreeve.firing.lots import Lot
from woodreeve.firing.search import EMBERS_SHARE, LEAST_KG, Laid
from woodreeve.season import slots as s
from woodreeve.season.inputs import Hours
from woodreeve.season.setup import Prepared
from woodreeve.units import Unit

__all__ = ["RefillSpan", "RoomCheck", "refill_span", "room_for_load"]

BURN_HOURS = 14
"""A fire and its tail are followed for so long. [h]"""
LOOK_EVERY_H = 1.0 / 12.0
"""How finely embers are looked for. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomCheck:
    """Whether a load fits.

    Parameters
    ----------
    fits : bool
        Whether it burns out freely and every layer stays below the limit, in each weather looked at.
    kg, most_kg : float
        The load asked about, and the largest that fits; 0 for none. [kg]
    hottest_boiler_c, hottest_store_c : float
        Of the load asked about, in the worst weather. [degC]
    boiler_limit_c, store_limit_c : float
        What they are held against. [degC]
    throttles, over_limit, dumps : bool
        What is wrong with the load asked about: the fire slumbers, a layer gets too hot, heat is dumped.
    """

    fits: bool
    kg: Annotated[float, Unit("kg")]
    most_kg: Annotated[float, Unit("kg")]
    hottest_boiler_c: Annotated[float, Unit("degC")]
    hottest_store_c: Annotated[float, Unit("degC")]
    boiler_limit_c: Annotated[float, Unit("degC")]
    store_limit_c: Annotated[float, Unit("degC")]
    throttles: bool
    over_limit: bool
    dumps: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RefillSpan:
    """From when until when the embers are such that wood may be laid on. [h]."""

    begins_h: Annotated[float, Unit("h")]
    ends_h: Annotated[float, Unit("h")]


def room_for_load(
    prepared: Prepared,
    weathers: Sequence[Hours],
    lot: Lot,
    kg: float,
    *,
    hour: float = 0.0,
    least_share: float | None = None,
) -> RoomCheck:
    """Play a load through with its tail heat in each weather, and the smaller ones beside it.

    It says what happens in normal running only: a power cut or a failed pump is not looked at here, and no
    load is called safe by it.

    Parameters
    ----------
    prepared : Prepared
        Plant and rooms in their present state.
    weathers : sequence of Hours
        The weather ahead in its cases: the mild one decides.
    lot : Lot
        The wood.
    kg : float
        The load. [kg]
    hour : float
        When it is lit, in hours from the beginning. [h]
    least_share : float, optional
        Least output of the boiler over its rated output. [-]

    Returns
    -------
    RoomCheck
        Whether it fits, and the most that would.
    """
    limits = limits_of(prepared, least_share)
    sizes = np.array([kg, *(kg * share for share in (0.85, 0.7, 0.55, 0.4, 0.25))])
    n = sizes.size
    flock = Flock.of(prepared, np.repeat(np.arange(len(weathers)), n))
    runner = Runner(prepared, tuple(weathers))
    runner.advance(flock, 0, runner.step_of(hour))
    loads = np.tile(sizes, len(weathers))
    dumped = flock.rows[s.DISCHARGE_S] + flock.rows[s.STEAM_J]
    flock.load(
        np.arange(flock.size),
        loads,
        np.full(flock.size, lot.heat_kwh_per_kg),
        np.full(flock.size, lot.moisture),
    )
    runner.advance(flock, runner.step_of(hour), min(runner.step_of(hour + BURN_HOURS), runner.last_step))
    shape = (len(weathers), n)
    boiler = flock.rows[s.HOTTEST_BODY_C].reshape(shape).max(axis=0)
    store = np.maximum(flock.rows[s.HOTTEST_STORE_C], flock.store_c.max(axis=0)).reshape(shape).max(axis=0)
    dumps = ((flock.rows[s.DISCHARGE_S] + flock.rows[s.STEAM_J]) > dumped).reshape(shape).any(axis=0)
    refused = (flock.rows[s.REFUSED_KG] > 1e-6).reshape(shape).any(axis=0)
    good = (boiler <= limits.body_c) & (store <= limits.store_c) & ~dumps & ~refused & (sizes >= LEAST_KG)
    return RoomCheck(
        fits=bool(good[0]),
        kg=kg,
        most_kg=float(sizes[np.flatnonzero(good)[0]]) if good.any() else 0.0,
        hottest_boiler_c=float(boiler[0]),
        hottest_store_c=float(store[0]),
        boiler_limit_c=limits.body_c,
        store_limit_c=limits.store_c,
        throttles=bool(boiler[0] > limits.body_c),
        over_limit=bool(store[0] > limits.store_c),
        dumps=bool(dumps[0]),
    )


def refill_span(
    prepared: Prepared, weather: Hours, fires: Sequence[Laid], lots: Sequence[Lot], *, load_kwh: float = 0.0
) -> RefillSpan | None:
    """When the embers of the last of some fires are such that wood may be laid on.

    Parameters
    ----------
    prepared : Prepared
        Plant and rooms in their present state.
    weather : Hours
        The weather ahead.
    fires : sequence of Laid
        The fires up to the one that is to be fed; none for one that burns already.
    lots : sequence of Lot
        Their stacks.
    load_kwh : float
        Net heat of the load that burns at the beginning. [kWh]

    Returns
    -------
    RefillSpan or None
        From when no more than a tenth of the load is left until the fire is out; ``None`` if not seen.
    """
    flock = Flock.of(prepared, np.zeros(1, dtype=np.int64))
    runner = Runner(prepared, (weather,))
    one = np.zeros(1, dtype=np.int64)
    now = 0.0
    for laid in fires:
        runner.advance(flock, runner.step_of(now), runner.step_of(laid.hour))
        now = laid.hour
        lot = lots[laid.lot]
        load_kwh = laid.kg * lot.heat_kwh_per_kg + float(flock.rows[s.FUEL_J, 0]) / 3.6e6
        flock.load(one, np.array([laid.kg]), np.array([lot.heat_kwh_per_kg]), np.array([lot.moisture]))
    begins = None
    end = min(now + BURN_HOURS, float(weather.outdoor_c.size))
    while now < end - 1e-9:
        runner.advance(flock, runner.step_of(now), runner.step_of(now + LOOK_EVERY_H))
        now += LOOK_EVERY_H
        burning = flock.rows[s.BURNING, 0] > 0.0
        if begins is None and burning and flock.rows[s.FUEL_J, 0] / 3.6e6 <= EMBERS_SHARE * load_kwh:
            begins = now
        if not burning:
            return None if begins is None else RefillSpan(begins_h=begins, ends_h=now)
    return None
