"""Times without daily fires: days away in frost, and summer, when only the taps want heat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

import numpy as np

from woodreeve.firing.account import Things, heat_kept_kwh, things_between
from woodreeve.firing.lots import Lot
from woodreeve.firing.prices import PlanPrices
from woodreeve.season import slots as s
from woodreeve.season.batch import run_many
from woodreeve.season.inputs import Fire, Hours
from woodreeve.season.run import Case, Result, run
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats, Unit

__all__ = ["AwayPlan", "SummerWay", "away_plan", "summer_plan"]

FROST_C = 5.0
"""Rooms colder than this put pipes in outer walls at risk. Common practice, no published source. [degC]"""
KEPT_C = 8.0
"""What the heating is set to while nobody is there. Common practice, no published source. [degC]"""
EVERY_DAYS = (1, 2, 3, 4, 5, 7)
"""Days between two fires of the summer that are tried."""
SUMMER_SIZES = (0.3, 0.5, 0.75)
"""Sizes of a fire of the summer that are tried, over a full load."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AwayPlan:
    """What happens while nobody is there.

    Parameters
    ----------
    frost_at_h : float or None
        When a room falls to 5 °C without any heating; ``None`` if not in the time. [h]
    store_useless_at_h : float or None
        When the store no longer helps. [h]
    backup_kwh : float
        Fuel of the backup that keeps the rooms at 8 °C. [kWh]
    coldest_c, coldest_with_backup_c : float
        Coldest room without and with it. [degC]
    backup_holds : bool
        Whether the backup keeps the rooms above 5 °C.
    keep_c : float
        What the heating is to be set to. [degC]
    """

    frost_at_h: Annotated[float | None, Unit("h")]
    store_useless_at_h: Annotated[float | None, Unit("h")]
    backup_kwh: Annotated[float, Unit("kWh")]
    coldest_c: Annotated[float, Unit("degC")]
    coldest_with_backup_c: Annotated[float, Unit("degC")]
    backup_holds: bool
    keep_c: Annotated[float, Unit("degC")]


def away_plan(
    prepared: Prepared, cold: Hours, *, frost_c: float = FROST_C, keep_c: float = KEPT_C
) -> AwayPlan:
    """Play days away in the cold case, without fires: with no backup, and with one that keeps 8 °C.

    Parameters
    ----------
    prepared : Prepared
        Plant and rooms as they are left.
    cold : Hours
        Weather of the days away, best the cold case.
    frost_c, keep_c : float
        Where frost threatens, and what the heating is to be set to. [degC]

    Returns
    -------
    AwayPlan
        When frost protection ends, and what the backup must do.
    """
    low = replace(cold, wanted_downstairs_c=keep_c, wanted_upstairs_c=keep_c, taps_share=0.0)
    values = prepared.values.copy()
    values[s.BACKUP_ALLOWED] = 0.0
    values[[s.IMMERSION_RATED_W, s.COIL_FLOW_KG_S]] = 0.0
    alone = run(Case(prepared=replace(prepared, values=values), hours=low))
    helped = run(Case(prepared=prepared, hours=low))
    rooms = _coldest_room(alone)
    frozen = np.flatnonzero(rooms < frost_c)
    port = prepared.store.loops[1][1]
    useless = np.flatnonzero(alone.store_c[:, port] < keep_c + 15.0)
    with_backup = float(_coldest_room(helped).min())
    return AwayPlan(
        frost_at_h=float(frozen[0]) if frozen.size else None,
        store_useless_at_h=float(useless[0]) if useless.size else None,
        backup_kwh=helped.kwh(s.BACKUP_FUEL_J),
        coldest_c=float(rooms.min()),
        coldest_with_backup_c=with_backup,
        backup_holds=with_backup >= frost_c,
        keep_c=keep_c,
    )


def _coldest_room(result: Result) -> Floats:
    return np.minimum(result.series(s.AIR_1_C), result.series(s.AIR_2_C))


@dataclass(frozen=True, slots=True, kw_only=True)
class SummerWay:
    """One way to hot water in summer.

    Parameters
    ----------
    every_days : int
        Days between fires; 0 for no fire: immersion heater or backup alone.
    kg : float
        Wood of each. [kg]
    money_day : float
        Cost of a day, heat left counted. [money]
    things : Things
        What the whole span took.
    """

    every_days: Annotated[int, Unit("day")]
    kg: Annotated[float, Unit("kg")]
    money_day: Annotated[float, Unit("money")]
    things: Things


def summer_plan(
    prepared: Prepared,
    hours: Hours,
    lot: Lot,
    prices: PlanPrices,
    house_j_k: Floats,
    *,
    at_hour: int = 18,
    every: Sequence[int] = EVERY_DAYS,
) -> tuple[SummerWay, ...]:
    """A fire every so many days against none, cheapest first.

    Asked for each month of the year, the cheapest way tells when to stop and when to restart.

    Parameters
    ----------
    prepared : Prepared
        Plant and rooms.
    hours : Hours
        Some weeks of the weather, from a midnight on.
    lot : Lot
        The wood.
    prices : PlanPrices
        What things cost.
    house_j_k : array
        Heat capacities of the rooms. [J/K]
    at_hour : int
        Hour of the clock at which it is lit.
    every : sequence of int
        Days between fires that are tried.

    Returns
    -------
    tuple of SummerWay
        Cheapest first. A way in which taps run short pays for it.
    """
    days = hours.outdoor_c.size // 24
    ways: list[tuple[int, float]] = [(0, 0.0)]
    ways += [(n, share * lot.full_kg) for n in every for share in SUMMER_SIZES if n <= days]
    cases = [Case(prepared=prepared, hours=hours, firing=_every(n, kg, days, at_hour, lot)) for n, kg in ways]
    wood = lot.price_kg / lot.heat_kwh_per_kg
    found = []
    for (n, kg), result in zip(ways, run_many(cases, threads=1)):
        things = things_between(result.rows[0], result.rows[-1])
        kept = _kept(result, house_j_k)
        money = things.money(prices, wood) - kept * wood / 0.85
        found.append(SummerWay(every_days=n, kg=kg, money_day=money / days, things=things))
    return tuple(sorted(found, key=lambda way: way.money_day))


def _every(n: int, kg: float, days: int, at_hour: int, lot: Lot) -> tuple[Fire, ...]:
    if n == 0:
        return ()
    return tuple(
        Fire(hour=24.0 * day + at_hour, kg=kg, moisture=lot.moisture, heat_kwh_per_kg=lot.heat_kwh_per_kg)
        for day in range(0, days, n)
    )


def _kept(result: Result, house_j_k: Floats) -> float:
    first, last = (
        heat_kept_kwh(result.rows[n], result.store_c[n], result.cylinder_c[n], house_j_k) for n in (0, -1)
    )
    return last - first
