"""Ways to spend the next days, hour by hour: the store's course, how long it lasts, and what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Annotated

import numpy as np

from woodreeve.firing.flock import Flock, Runner
from woodreeve.firing.lots import Lot
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.search import Found, Ground, Laid
from woodreeve.season import slots as s
from woodreeve.season.inputs import FiringRule, Hours
from woodreeve.season.run import Case, run
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats, Unit

__all__ = ["Course", "Terms", "courses", "lasts_until", "rule_fires", "terms_of"]

_KEPT = (
    s.BURNING,
    s.BACKUP_FUEL_J,
    s.ELECTRIC_J,
    s.COLD_ROOM_1_KS,
    s.COLD_ROOM_2_KS,
    s.TAP_SHORT_J,
    s.IMMERSION_J,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One way, hour by hour; the first values are those of the beginning.

    Parameters
    ----------
    store_c : array
        Hour by layer, from the foot up. [degC]
    rows : array
        Hour by what is kept of the kernel's sums.
    """

    store_c: Floats
    rows: Floats

    @property
    def mean_c(self) -> Floats:
        """Mean temperature of the store. [degC]."""
        return np.asarray(self.store_c.mean(axis=1))

    def row(self, slot: int) -> Floats:
        """One of the kernel's sums."""
        return np.asarray(self.rows[:, _KEPT.index(slot)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What the cost of a way is made of, at the weights of the owner's wishes; heat left counts against it.

    Parameters
    ----------
    wood, visits, backup, cold_rooms, hot_water, electricity, heat_left : float
        Each part. [money]
    backup_kwh : float
        Fuel of the backup. [kWh]
    cold_kh : float
        Degree-hours under the wanted temperature. [K*h]
    """

    wood: Annotated[float, Unit("money")]
    visits: Annotated[float, Unit("money")]
    backup: Annotated[float, Unit("money")]
    cold_rooms: Annotated[float, Unit("money")]
    hot_water: Annotated[float, Unit("money")]
    electricity: Annotated[float, Unit("money")]
    heat_left: Annotated[float, Unit("money")]
    backup_kwh: Annotated[float, Unit("kWh")]
    cold_kh: Annotated[float, Unit("K*h")]

    def for_it(self, other: Terms) -> tuple[str, ...]:
        """The parts in which this way is cheaper than another, the largest saving first."""
        names = [f.name for f in fields(Terms) if f.name not in ("backup_kwh", "cold_kh")]
        saved = {name: getattr(other, name) - getattr(self, name) for name in names}
        return tuple(name for name in sorted(names, key=lambda name: -saved[name]) if saved[name] > 0.005)


def courses(
    prepared: Prepared,
    weathers: tuple[Hours, ...],
    lots: Sequence[Lot],
    ways: Sequence[tuple[tuple[Laid, ...], int]],
    hours: int,
) -> list[Course]:
    """Play several ways side by side and keep every hour.

    Parameters
    ----------
    prepared : Prepared
        The plant at the beginning.
    weathers : tuple of Hours
        The cases of the weather.
    lots : sequence of Lot
        The stacks that the fires name.
    ways : sequence
        Fires, and the number of the weather, of each way.
    hours : int
        How long. [h]

    Returns
    -------
    list of Course
        In the order of the ways.
    """
    runner = Runner(prepared, weathers)
    flock = Flock.of(prepared, np.array([case for _, case in ways], dtype=np.int64))
    deeds = sorted((one.hour, n, one) for n, (fires, _) in enumerate(ways) for one in fires)
    kept = list(_KEPT)
    stores, rows = [flock.store_c.copy()], [flock.rows[kept].copy()]
    now, at = 0.0, 0
    for hour in range(1, hours + 1):
        while at < len(deeds) and deeds[at][0] < hour:
            when, n, laid = deeds[at]
            runner.advance(flock, runner.step_of(now), runner.step_of(when))
            now, at = when, at + 1
            lot = lots[laid.lot]
            flock.load(
                np.array([n]),
                np.array([laid.kg]),
                np.array([lot.heat_kwh_per_kg]),
                np.array([lot.moisture]),
            )
        runner.advance(flock, runner.step_of(now), runner.step_of(float(hour)))
        now = float(hour)
        stores.append(flock.store_c.copy())
        rows.append(flock.rows[kept].copy())
    store_c, kept_rows = np.stack(stores), np.stack(rows)
    return [Course(store_c=store_c[:, :, n], rows=kept_rows[:, :, n]) for n in range(len(ways))]


def lasts_until(course: Course, port: int, useful_c: float, last_wood_h: float) -> float | None:
    """The first whole hour at which the store no longer helps, once the fire is out.

    Parameters
    ----------
    course : Course
        A way with one fire at most.
    port : int
        Layer from which the heating draws.
    useful_c : float
        Temperature below which it hardly helps. [degC]
    last_wood_h : float
        Hour at which the last wood is laid on; the fire is looked for from there. [h]

    Returns
    -------
    float or None
        Hours from the beginning; ``None`` where no end is in sight. [h]
    """
    burning = np.flatnonzero(course.row(s.BURNING) > 0.0)
    after = burning[burning >= last_wood_h]
    begin = int(after[-1]) if after.size else int(np.ceil(last_wood_h))
    cool = np.flatnonzero(course.store_c[begin:, port] < useful_c)
    return float(begin + int(cool[0])) if cool.size else None


def rule_fires(prepared: Prepared, weather: Hours, rule: FiringRule, until_h: int) -> tuple[Laid, ...]:
    """The fires that a rule would lay over the hours of a plan, as a plan tells them.

    Parameters
    ----------
    prepared : Prepared
        The plant at the beginning.
    weather : Hours
        Weather and wishes.
    rule : FiringRule
        The rule.
    until_h : int
        Length of the plan. [h]

    Returns
    -------
    tuple of Laid
        Lightings at the hours at which the rule looks.
    """
    result = run(Case(prepared=prepared, hours=weather, firing=rule))
    loaded = result.rows[: until_h + 1, s.LOADED_KG]
    put_on = np.diff(loaded)
    return tuple(Laid(float(hour), float(put_on[hour]), 0, "light") for hour in np.flatnonzero(put_on > 0.5))


def terms_of(
    course: Course,
    prices: PlanPrices,
    lots: Sequence[Lot],
    fires: Sequence[Laid],
    ground: Ground,
    found: Found,
) -> Terms:
    """What the cost of a way is made of.

    Parameters
    ----------
    course : Course
        The way, hour by hour, in the central case.
    prices : PlanPrices
        The prices of the plan.
    lots : sequence of Lot
        The stacks.
    fires : sequence of Laid
        Its fires.
    ground : Ground
        What it was searched on.
    found : Found
        What the search says it costs.

    Returns
    -------
    Terms
        Its parts.
    """
    end = ground.hours
    clock = (ground.hour_of_day + np.arange(end)) % 24
    weight = np.where((clock < 6) | (clock >= 22), prices.backup_weight_night, prices.backup_weight_day)

    def by_hour(slot: int) -> Floats:
        return np.diff(course.row(slot)[: end + 1])

    fuel_kwh = by_hour(s.BACKUP_FUEL_J) / 3.6e6
    immersion_kwh = by_hour(s.IMMERSION_J) / 3.6e6
    cold = max(float(by_hour(row).sum()) / 3600.0 for row in (s.COLD_ROOM_1_KS, s.COLD_ROOM_2_KS))
    odd = {one.hour: one.odd for one in ground.tending}
    visits = sum(
        (prices.lighting if one.kind == "light" else prices.refill)
        + (prices.odd_visit if odd.get(one.hour, False) else 0.0)
        for one in fires
    )
    backup = float((fuel_kwh * weight).sum()) * prices.backup_fuel_kwh
    backup += float((immersion_kwh * weight).sum()) * prices.electricity_kwh
    electricity = float((by_hour(s.ELECTRIC_J) / 3.6e6 - immersion_kwh).sum()) * prices.electricity_kwh
    wood = sum(one.kg * lots[one.lot].price_kg for one in fires)
    hot_water = float(by_hour(s.TAP_SHORT_J).sum()) / 3.6e6 * prices.tap_short_kwh
    cold_rooms = cold * prices.cold_kh
    spent = wood + visits + backup + electricity + hot_water + cold_rooms
    return Terms(
        wood=float(wood),
        visits=float(visits),
        backup=backup,
        cold_rooms=cold_rooms,
        hot_water=hot_water,
        electricity=electricity,
        heat_left=float(found.money - spent),
        backup_kwh=float(fuel_kwh.sum() + immersion_kwh.sum()),
        cold_kh=cold,
    )
