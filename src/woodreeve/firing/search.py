"""The search for the best fires: a narrow beam of futures in the full kernel, guided by the rough plant."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from woodreeve.firing.flock import Flock, Ints, Runner
from woodreeve.firing.lots import Lot
from woodreeve.firing.presence import Tending
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.reduced import CostToGo, Rough
from woodreeve.season import slots as s
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats

__all__ = ["EMBERS_SHARE", "Found", "Ground", "Laid", "Limits", "Only", "play", "search"]

SIZES = (0.25, 0.4, 0.55, 0.7, 0.85, 1.0)
"""Sizes of a fire that the search tries, over a full load."""
EMBERS_SHARE = 0.10
"""Wood is laid on only when no more than this share of the last load's heat is left. All that is left is
counted as fuel that may still gas; so the volatile part is never more. [-]"""
LEAST_KG = 3.0
"""A fire smaller than this is none. Judgement. [kg]"""
CASES_HOURS = 24.0
"""The cold and the mild case are played for so many hours: later fires will be planned anew. [h]"""
CASES_WEIGHT = 0.33
"""Weight of the cold and of the mild case beside the central one: of three cases nearly alike,
found better than 0.25 and 0.40 on the years for tuning. [-]"""


@dataclass(frozen=True, slots=True)
class Laid:
    """Wood put on: at which hour, how much, of which stack, and whether it lights a fire or feeds one."""

    hour: float
    kg: float
    lot: int
    kind: Literal["light", "refill"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What no plan may pass, at no price."""

    body_c: float
    """Boiler water at which the fan has throttled the fire to the least output. [degC]"""
    store_c: float
    """Hottest layer of the store. [degC]"""
    space_kg: float
    """Wood that the firebox holds. [kg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """All that a search stands on."""

    prepared: Prepared
    runner: Runner
    rough: Rough
    guide: CostToGo
    house_c: Floats
    """Temperatures of air and mass that the house would have if it never lacked heat, hour by hour. [degC]"""
    tending: tuple[Tending, ...]
    lots: tuple[Lot, ...]
    prices: PlanPrices
    limits: Limits
    hours: int
    hour_of_day: int
    load_kwh: float = 0.0
    """Net heat of the load that burns at the beginning. [kWh]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Only:
    """What a search is bound to, for asking what if."""

    not_before_h: float = 0.0
    """No wood before this hour. [h]"""
    first_at_most: float = 1.0
    """The first fire no larger than this share of a full load. [-]"""
    lots: tuple[int, ...] | None = None
    """Only these stacks."""
    must_at_h: float | None = None
    """A fire must be lit at this hour. [h]"""


FREE = Only()


@dataclass(slots=True, kw_only=True)
class Found:
    """Fires and what they cost over the hours planned, what is left at the end included."""

    fires: tuple[Laid, ...]
    money: float
    """What is spent and what follows, on the mean of the cases: the lower, the better. [money]"""
    spent: float
    """What is spent within the plan in the central case. [money]"""
    keeps_limits: bool


@dataclass(slots=True)
class _Branches:
    """The beam: futures in the central, mild and cold case, what they have cost, and how they came about."""

    central: Flock
    others: list[Flock]
    """The mild and the cold case, while they are looked at."""
    spent: Floats
    others_spent: list[Floats]
    surcharge: Floats
    """What the cases cost on the mean more than the central one, once they are no longer looked at."""
    keeps: np.ndarray[tuple[int], np.dtype[np.bool_]]
    load_kwh: Floats
    fired: np.ndarray[tuple[int], np.dtype[np.bool_]]
    used_kg: Floats
    """Stack by future. [kg]"""
    fires: list[tuple[Laid, ...]] = field(default_factory=list)

    def take(self, which: Ints) -> _Branches:
        return _Branches(
            self.central.take(which),
            [one.take(which) for one in self.others],
            self.spent[which],
            [spent[which] for spent in self.others_spent],
            self.surcharge[which],
            self.keeps[which],
            self.load_kwh[which],
            self.fired[which],
            self.used_kg[:, which],
            [self.fires[number] for number in which],
        )


def _beginning(ground: Ground, number: int) -> _Branches:
    return _Branches(
        Flock.of(ground.prepared, np.zeros(number, dtype=np.int64)),
        [Flock.of(ground.prepared, np.full(number, case)) for case in (1, 2)],
        np.zeros(number),
        [np.zeros(number), np.zeros(number)],
        np.zeros(number),
        np.ones(number, dtype=np.bool_),
        np.full(number, ground.load_kwh),
        np.zeros(number, dtype=np.bool_),
        np.zeros((max(len(ground.lots), 1), number)),
        [()] * number,
    )


def _advance(ground: Ground, branches: _Branches, first: float, last: float) -> None:
    """Advance all futures, add up what it costs, and mark those that pass a limit."""
    if branches.others and first < CASES_HOURS < last:
        _advance(ground, branches, first, CASES_HOURS)
        first = CASES_HOURS
    by_night = not 6.0 <= (ground.hour_of_day + first) % 24.0 < 22.0
    branches.spent = branches.spent + _play_on(ground, branches.central, first, last, by_night)
    branches.keeps &= _keeps(ground.limits, branches.central, branches.fired)
    for number, flock in enumerate(branches.others):
        spent = _play_on(ground, flock, first, last, by_night)
        branches.others_spent[number] = branches.others_spent[number] + spent
        branches.keeps &= _keeps(ground.limits, flock, branches.fired)
    if branches.others and last >= CASES_HOURS:
        branches.surcharge = _total(ground, branches, last) - _central_total(ground, branches, last)
        branches.others = []


def _play_on(ground: Ground, flock: Flock, first: float, last: float, by_night: bool) -> Floats:
    """Advance a flock; gives what it costs. [money]."""
    before = _sums(flock)
    ground.runner.advance(flock, ground.runner.step_of(first), ground.runner.step_of(last))
    return _price(ground.prices, _sums(flock) - before, by_night)


def _sums(flock: Flock) -> Floats:
    rows = flock.rows
    return np.stack(
        [
            rows[s.BACKUP_FUEL_J],
            rows[s.ELECTRIC_J],
            np.maximum(rows[s.COLD_ROOM_1_KS], rows[s.COLD_ROOM_2_KS]),
            rows[s.TAP_SHORT_J],
            rows[s.IMMERSION_J],
        ]
    )


def _price(prices: PlanPrices, sums: Floats, by_night: bool) -> Floats:
    weight = prices.backup_weight_night if by_night else prices.backup_weight_day
    fuel, electric, cold, short, immersion = sums
    return np.asarray(
        fuel / 3.6e6 * prices.backup_fuel_kwh * weight
        + electric / 3.6e6 * prices.electricity_kwh
        + immersion / 3.6e6 * prices.electricity_kwh * (weight - 1.0)
        + cold / 3600.0 * prices.cold_kh
        + short / 3.6e6 * prices.tap_short_kwh
    )


def _keeps(
    limits: Limits, flock: Flock, fired: np.ndarray[tuple[int], np.dtype[np.bool_]]
) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Whether the fires of the plan burn freely, the store stays below its limit and nothing is dumped."""
    rows = flock.rows
    good = (
        (rows[s.HOTTEST_BODY_C] <= limits.body_c)
        & (np.maximum(rows[s.HOTTEST_STORE_C], flock.store_c.max(axis=0)) <= limits.store_c)
        & (rows[s.DISCHARGE_S] <= 0.0)
        & (rows[s.STEAM_J] <= 0.0)
        & (rows[s.REFUSED_KG] <= 1e-6)
    )
    return np.asarray(good | ~fired)


def _ahead(ground: Ground, flock: Flock, hour: float) -> Floats:
    """What each future will cost from an hour on, by the rough plant. [money]."""
    at = min(round(hour), ground.house_c.shape[0] - 1)
    energy = ground.rough.energy_kwh(flock, ground.house_c[at])
    return ground.guide.at(hour, energy, ground.rough.fire_kwh(flock))


def _central_total(ground: Ground, branches: _Branches, hour: float) -> Floats:
    return branches.spent + _ahead(ground, branches.central, hour)


def _total(ground: Ground, branches: _Branches, hour: float) -> Floats:
    """What each future costs in all, on the mean of the cases as far as they are played. [money]."""
    total = _central_total(ground, branches, hour)
    if not branches.others:
        return total + branches.surcharge
    weight = CASES_WEIGHT
    total = total * (1.0 - weight * len(branches.others))
    for flock, spent in zip(branches.others, branches.others_spent):
        total = total + weight * (spent + _ahead(ground, flock, hour))
    return total


def search(ground: Ground, *, width: int = 16, only: Only = FREE, finer: int = 2) -> list[Found]:
    """Search for the best fires.

    Parameters
    ----------
    ground : Ground
        Plant, weather, wood, prices and limits.
    width : int
        How many futures are followed from choice to choice.
    only : Only
        What the search is bound to.
    finer : int
        So many times more sizes of a fire are tried.

    Returns
    -------
    list of Found
        The best first. Empty only if every choice passes a limit.
    """
    sizes = SIZES if finer <= 1 else tuple(np.linspace(0.2, 1.0, (len(SIZES) - 1) * finer + 1).tolist())
    branches = _beginning(ground, 1)
    now = 0.0
    for hour, chance in _stops(ground):
        _advance(ground, branches, now, hour)
        now = hour
        branches = _best(ground, branches, hour, width)
        if branches.central.size == 0:
            return []
        if chance is not None:
            branches = _branched(ground, branches, chance, only, sizes)
    _advance(ground, branches, now, float(ground.hours))
    total = _total(ground, branches, float(ground.hours))
    order = [int(n) for n in np.argsort(total, kind="stable") if branches.keeps[n]]
    return [
        Found(
            fires=branches.fires[n],
            money=float(total[n]),
            spent=float(branches.spent[n]),
            keeps_limits=True,
        )
        for n in order
    ]


def _stops(ground: Ground) -> list[tuple[float, Tending | None]]:
    """Each hour of choice, and one hour after the last of a row, where the beam is only thinned."""
    stops: list[tuple[float, Tending | None]] = []
    chances = [one for one in ground.tending if one.hour < ground.hours]
    for number, one in enumerate(chances):
        stops.append((one.hour, one))
        following = chances[number + 1].hour if number + 1 < len(chances) else float(ground.hours)
        if following - one.hour > 2.0:
            stops.append((one.hour + 1.0, None))
    return stops


def _best(ground: Ground, branches: _Branches, hour: float, width: int) -> _Branches:
    """Keep the most promising futures, of those much alike only the best."""
    if branches.central.size <= 1:
        return branches if branches.keeps.all() else branches.take(np.zeros(0, dtype=np.int64))
    at = min(round(hour), ground.house_c.shape[0] - 1)
    energy = ground.rough.energy_kwh(branches.central, ground.house_c[at])
    fire = ground.rough.fire_kwh(branches.central)
    total = _total(ground, branches, hour)
    # The future in which nobody lights is never lost: it passes no limit, and is told beside the plan.
    waiting = np.flatnonzero(~branches.fired)
    kept = [int(waiting[np.argmin(total[waiting])])] if waiting.size else []
    seen: set[tuple[int, int]] = set()
    for n in np.argsort(total, kind="stable"):
        alike = (round(float(energy[n])), round(float(fire[n]) / 2.0))
        if not branches.keeps[n] or alike in seen or int(n) in kept:
            continue
        seen.add(alike)
        kept.append(int(n))
        if len(kept) > width:
            break
    return branches.take(np.array(kept, dtype=np.int64))


def _branched(
    ground: Ground, branches: _Branches, chance: Tending, only: Only, sizes: Sequence[float]
) -> _Branches:
    """Every future once without wood, and once for each stack and size that may be put on."""
    if chance.hour < only.not_before_h - 1e-9:
        return branches
    rows = branches.central.rows
    burning = rows[s.BURNING] > 0.0
    fuel_kwh = rows[s.FUEL_J] / 3.6e6
    ember = fuel_kwh <= EMBERS_SHARE * branches.load_kwh
    must = only.must_at_h is not None and abs(chance.hour - only.must_at_h) < 1e-6
    parents: list[int] = []
    laid: list[Laid | None] = []
    for n in range(branches.central.size):
        if not must:
            parents.append(n)
            laid.append(None)
        lights = not burning[n]
        if (lights and not chance.light) or (not lights and not (chance.refill and ember[n])):
            continue
        for number, lot in enumerate(ground.lots):
            if only.lots is not None and number not in only.lots:
                continue
            room = min(ground.limits.space_kg, lot.full_kg) - float(rows[s.FUEL_KG, n])
            most = min(room, lot.left_kg - float(branches.used_kg[number, n]))
            full = min(ground.limits.space_kg, lot.full_kg)
            for size in sizes:
                if not branches.fired[n] and size > only.first_at_most + 1e-9:
                    continue
                kg = min(size * full, most)
                if kg >= LEAST_KG and (kg > size * full - 0.5 or size == sizes[-1]):
                    parents.append(n)
                    laid.append(Laid(chance.hour, kg, number, "light" if lights else "refill"))
    grown = branches.take(np.array(parents, dtype=np.int64))
    _put_on(ground, grown, laid, chance.odd)
    return grown


def _put_on(ground: Ground, branches: _Branches, laid: Sequence[Laid | None], odd: bool) -> None:
    """Load the boilers of those futures that get wood, and pay for it."""
    which = np.array([n for n, one in enumerate(laid) if one is not None], dtype=np.int64)
    if which.size == 0:
        return
    given = [one for one in laid if one is not None]
    kg = np.array([one.kg for one in given])
    lots = [ground.lots[one.lot] for one in given]
    heat = np.array([lot.heat_kwh_per_kg for lot in lots])
    moisture = np.array([lot.moisture for lot in lots])
    left_kwh = branches.central.rows[s.FUEL_J, which] / 3.6e6
    for flock in (branches.central, *branches.others):
        flock.load(which, kg, heat, moisture)
    prices = ground.prices
    visit = np.array([prices.lighting if one.kind == "light" else prices.refill for one in given])
    paid = kg * np.array([lot.price_kg for lot in lots]) + visit + (prices.odd_visit if odd else 0.0)
    for spent in (branches.spent, *(branches.others_spent if branches.others else ())):
        spent[which] += paid
    branches.load_kwh[which] = kg * heat + left_kwh
    branches.fired[which] = True
    for n, one in zip(which, given):
        branches.used_kg[one.lot, n] += one.kg
        branches.fires[n] = (*branches.fires[n], one)


def play(ground: Ground, plans: Iterable[tuple[Laid, ...]]) -> list[Found]:
    """Play whole plans through in the full kernel, and say what each costs and whether it keeps the limits.

    Parameters
    ----------
    ground : Ground
        Plant, weather, wood, prices and limits.
    plans : iterable of tuple of Laid
        The plans.

    Returns
    -------
    list of Found
        In their order. Wood before the embers is against the limits; what does not fit is left out.
    """
    plans = list(plans)
    branches = _beginning(ground, len(plans))
    odd = {one.hour: one.odd for one in ground.tending}
    now = 0.0
    for hour in sorted({one.hour for plan in plans for one in plan if one.hour < ground.hours}):
        _advance(ground, branches, now, hour)
        now = hour
        laid: list[Laid | None] = [next((one for one in plan if one.hour == hour), None) for plan in plans]
        rows = branches.central.rows
        for n, one in enumerate(laid):
            if one is None:
                continue
            burning = bool(rows[s.BURNING, n] > 0.0)
            ember = rows[s.FUEL_J, n] / 3.6e6 <= EMBERS_SHARE * branches.load_kwh[n]
            if burning and not ember:
                branches.keeps[n] = False
            else:
                room = min(ground.limits.space_kg, ground.lots[one.lot].full_kg) - float(rows[s.FUEL_KG, n])
                kind: Literal["light", "refill"] = "refill" if burning else "light"
                laid[n] = replace(one, kg=min(one.kg, max(room, 0.0)), kind=kind)
        _put_on(ground, branches, laid, odd.get(hour, False))
    _advance(ground, branches, now, float(ground.hours))
    total = _total(ground, branches, float(ground.hours))
    return [
        Found(
            fires=branches.fires[n],
            money=float(total[n]),
            spent=float(branches.spent[n]),
            keeps_limits=bool(branches.keeps[n]),
        )
        for n in range(len(plans))
    ]
