"""What a search stands on, made from plant, state, weather, wood and prices."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.firing.flock import PlantState, Runner, begin_from
from woodreeve.firing.lots import Lot
from woodreeve.firing.presence import Tending
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.reduced import Rough, cost_to_go, heat_wanted, rough_plant
from woodreeve.firing.search import Ground, Limits
from woodreeve.house.dynamic import RoomDynamics
from woodreeve.season import slots as s
from woodreeve.season.inputs import Hours
from woodreeve.season.setup import Prepared

__all__ = ["LEAST_SHARE", "limits_of", "make_ground"]

LEAST_SHARE = 0.5
"""Least output over rated where the maker's figure is not known. Judgement: makers of fan boilers name
30 to 60 %. [-]"""
ROUNDING_K = 0.02
"""A limit counts as kept when it is met within so much: rounding of the steps. [K]"""


def limits_of(prepared: Prepared, least_share: float | None = None) -> Limits:
    """What no plan may pass.

    Parameters
    ----------
    prepared : Prepared
        The plant.
    least_share : float, optional
        Least output at which the maker lets it burn, over the rated output. [-]

    Returns
    -------
    Limits
        Boiler water, store and firebox.
    """
    x = prepared.values
    share = LEAST_SHARE if least_share is None else min(max(least_share, 0.0), 1.0)
    throttled = float(x[s.FAN_STOP_C] - x[s.FAN_BAND_K] * share)
    discharge = float(x[s.DISCHARGE_AT_C])
    return Limits(
        body_c=min(throttled, discharge - 2.0) + ROUNDING_K,
        store_c=float(x[s.STORE_LIMIT_C]) + ROUNDING_K,
        space_kg=float(x[s.SPACE_KG]),
    )


def make_ground(
    prepared: Prepared,
    rooms: RoomDynamics,
    *,
    state: PlantState | None,
    central: Hours,
    mild: Hours,
    cold: Hours,
    tending: tuple[Tending, ...],
    lots: tuple[Lot, ...],
    prices: PlanPrices,
    hours: int,
    least_share: float | None = None,
    rough: Rough | None = None,
) -> Ground:
    """Make all that a search stands on.

    Parameters
    ----------
    prepared : Prepared
        Plant and rooms.
    rooms : RoomDynamics
        The rooms alone.
    state : PlantState, optional
        Where things stand; the plant's own beginning if left out.
    central, mild, cold : Hours
        Weather and wishes ahead: those to expect, and the mild and the cold case. They may be longer
        than the plan: what lies beyond it tells what heat left at the end is worth.
    tending : tuple of Tending
        When wood may be put on, over all those hours.
    lots : tuple of Lot
        Wood that may be burnt, cheapest first.
    prices : PlanPrices
        What things cost.
    hours : int
        Length of the plan. [h]
    least_share : float, optional
        Least output of the boiler over its rated output. [-]
    rough : Rough, optional
        The rough plant, where it is known from before: it hangs on the plant and the wood alone.

    Returns
    -------
    Ground
        What :func:`~woodreeve.firing.search.search` wants.

    Raises
    ------
    OutOfRange
        If the plan is longer than the weather.
    """
    known = central.outdoor_c.size
    if not 1 <= hours <= known:
        raise OutOfRange("hours", hours, f"between 1 and {known}, the weather that is known", "h")
    if state is not None:
        prepared = begin_from(prepared, state)
    limits = limits_of(prepared, least_share)
    # How much fits at the stacked density of each stack is looked at lot by lot.
    roomy = prepared.values.copy()
    roomy[s.SPACE_KG] = max([limits.space_kg, *(lot.full_kg for lot in lots)])
    prepared = replace(prepared, values=roomy)
    limits = replace(limits, space_kg=float(roomy[s.SPACE_KG]))
    wanted = heat_wanted(prepared, central)
    if rough is None:
        stand_in = Lot(name="", moisture=0.18, heat_kwh_per_kg=4.1, full_kg=limits.space_kg)
        rough = rough_plant(prepared, rooms, lots[0] if lots else stand_in)
    guide = cost_to_go(
        rough, wanted.heat_kwh, tending, lots, prices, central.first_hour_of_day, limits.space_kg
    )
    return Ground(
        prepared=prepared,
        runner=Runner(prepared, (central, mild, cold)),
        rough=rough,
        guide=guide,
        house_c=np.asarray(wanted.mass_c),
        tending=tending,
        lots=lots,
        prices=prices,
        limits=limits,
        hours=hours,
        hour_of_day=central.first_hour_of_day,
        load_kwh=state.load_kwh if state is not None else 0.0,
    )
