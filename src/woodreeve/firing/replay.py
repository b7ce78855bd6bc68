"""A span played once more: with plans made anew twice a day from forecasts that err, or with a rule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from itertools import pairwise

import numpy as np

from woodreeve.firing.account import Things, heat_kept_kwh, things_between
from woodreeve.firing.flock import CHANGING, Flock, PlantState, Runner, begin_from
from woodreeve.firing.ground import limits_of, make_ground
from woodreeve.firing.lots import Lot
from woodreeve.firing.polish import best_plan
from woodreeve.firing.presence import Tending
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.reduced import Rough, rough_plant
from woodreeve.firing.search import EMBERS_SHARE, Laid
from woodreeve.house.dynamic import RoomDynamics
from woodreeve.season import slots as s
from woodreeve.season.inputs import FiringRule, Hours
from woodreeve.season.run import Case, run
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats
from woodreeve.weather.forecast import DAY_CORRELATION

__all__ = [
    "Forecaster",
    "Replay",
    "ReplayWeek",
    "corrected",
    "error_left",
    "hours_from",
    "replay_plans",
    "replay_rule",
]

Forecaster = Callable[[int, int], Floats]
"""Gives the temperatures foretold at an hour of the span, for so many hours ahead. [degC]"""

TEN_IN_A_HUNDRED = 1.2815515655446004
TAIL_HOURS = 36
"""So many hours beyond the plan are looked at for what heat left at its end is worth. [h]"""
WEEK = 168


@dataclass(frozen=True, slots=True, kw_only=True)
class ReplayWeek:
    """One week of a replay."""

    hour: int
    things: Things
    kept_kwh: float
    """Heat at its end less heat at its beginning. [kWh]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Replay:
    """A span played through.

    Parameters
    ----------
    weeks : tuple of ReplayWeek
        Week by week; what is over at the end is a shorter one.
    total : Things
        All of it.
    kept_kwh : float
        Heat at the end less heat at the beginning. [kWh]
    hottest_boiler_c, hottest_store_c : float
        Highest temperatures. [degC]
    over_limit_h, discharge_minutes : float
        Hours with the store's top over its limit, minutes of the thermal discharge. [h] [min]
    throttled_fires : int
        Fires during which the fan throttled below the boiler's least output.
    fires : tuple of Laid
        What was put on, when; empty for a rule.
    plans, changed_plans : int
        How many plans were made, and how many days on which the evening's plan differed from the one shown at
        noon by more than an hour or a quarter load.
    """

    weeks: tuple[ReplayWeek, ...]
    total: Things
    kept_kwh: float
    hottest_boiler_c: float
    hottest_store_c: float
    over_limit_h: float
    discharge_minutes: float
    throttled_fires: int = 0
    fires: tuple[Laid, ...] = ()
    plans: int = 0
    days_compared: int = 0
    days_changed: int = 0
    end: PlantState | None = None

    def money(self, prices: PlanPrices, wood_kwh_price: float, kept_kwh_price: float) -> float:
        """What it comes to; heat left over counts at its price. [money]."""
        return self.total.money(prices, wood_kwh_price) - self.kept_kwh * kept_kwh_price


def hours_from(hours: Hours, first: int, count: int, outdoor_c: Floats | None = None) -> Hours:
    """Some of the hours, with another temperature if given.

    Parameters
    ----------
    hours : Hours
        All hours.
    first, count : int
        From which on, and how many; fewer where they end.
    outdoor_c : array, optional
        Temperature in their place. [degC]

    Returns
    -------
    Hours
        Those hours.
    """
    last = min(first + count, hours.outdoor_c.size)

    def cut(values: Floats | float) -> Floats | float:
        return values[first:last] if isinstance(values, np.ndarray) and values.ndim else values

    return replace(
        hours,
        outdoor_c=np.asarray(hours.outdoor_c[first:last] if outdoor_c is None else outdoor_c[: last - first]),
        sun_downstairs_w=cut(hours.sun_downstairs_w),
        sun_upstairs_w=cut(hours.sun_upstairs_w),
        inside_downstairs_w=cut(hours.inside_downstairs_w),
        inside_upstairs_w=cut(hours.inside_upstairs_w),
        wanted_downstairs_c=cut(hours.wanted_downstairs_c),
        wanted_upstairs_c=cut(hours.wanted_upstairs_c),
        cold_water_c=cut(hours.cold_water_c),
        taps_share=cut(hours.taps_share),
        first_hour_of_day=(hours.first_hour_of_day + first) % 24,
    )


def corrected(foretold_c: Floats, read_c: float, day_correlation: float = DAY_CORRELATION) -> Floats:
    """A forecast set right by the outdoor temperature that is read now; the correction fades with lead.

    Parameters
    ----------
    foretold_c : array
        Temperatures foretold, from the present hour on. [degC]
    read_c : float
        Temperature of the present hour. [degC]
    day_correlation : float
        Correlation of a forecast's error with its error a day on. [-]

    Returns
    -------
    array
        The forecast corrected. [degC]
    """
    lead = np.arange(foretold_c.size)
    return np.asarray(foretold_c - (foretold_c[0] - read_c) * day_correlation ** (lead / 24.0))


def error_left(error_k: float, hours: int, day_correlation: float = DAY_CORRELATION) -> Floats:
    """What error is left after that correction, hour by hour. [K].

    Parameters
    ----------
    error_k : float
        Standard deviation of the forecast's error. [K]
    hours : int
        How many hours.
    day_correlation : float
        Correlation of an error with the error a day on. [-]

    Returns
    -------
    array
        Standard deviation that is left. [K]
    """
    lead = np.arange(hours)
    return np.asarray(error_k * np.sqrt(1.0 - day_correlation ** (2.0 * lead / 24.0)))


@dataclass(slots=True)
class _World:
    """The true plant in the true weather."""

    runner: Runner
    flock: Flock
    house_j_k: Floats
    body_limit_c: float
    now: float = 0.0
    load_kwh: float = 0.0
    odd: float = 0.0
    throttled: int = 0
    hottest_boiler_c: float = 0.0
    hottest_store_c: float = 0.0
    judged: bool = True
    fires: list[Laid] = field(default_factory=list)

    def advance(self, hour: float) -> None:
        self.runner.advance(self.flock, self.runner.step_of(self.now), self.runner.step_of(hour))
        self.now = hour
        rows = self.flock.rows
        self.hottest_boiler_c = max(self.hottest_boiler_c, float(rows[s.HOTTEST_BODY_C, 0]))
        self.hottest_store_c = max(self.hottest_store_c, float(rows[s.HOTTEST_STORE_C, 0]))
        if not self.judged and rows[s.HOTTEST_BODY_C, 0] > self.body_limit_c:
            self.throttled += 1
            self.judged = True

    def state(self) -> PlantState:
        return PlantState(
            rows=self.flock.rows[:CHANGING, 0].copy(),
            store_c=self.flock.store_c[:, 0].copy(),
            cylinder_c=self.flock.cylinder_c[:, 0].copy(),
            load_kwh=self.load_kwh,
        )

    def snapshot(self) -> tuple[Floats, float]:
        rows = self.flock.rows[:, 0].copy()
        kept = heat_kept_kwh(rows, self.flock.store_c[:, 0], self.flock.cylinder_c[:, 0], self.house_j_k)
        return rows, kept

    def put_on(self, laid: Laid, lot: Lot, chance: Tending) -> None:
        """Do what the plan says, as far as the fire allows it when somebody stands before it."""
        rows = self.flock.rows[:, 0]
        burning = rows[s.BURNING] > 0.0
        ember = rows[s.FUEL_J] / 3.6e6 <= EMBERS_SHARE * self.load_kwh
        if (burning and not (ember and chance.refill)) or (not burning and not chance.light):
            return
        kg = min(laid.kg, lot.full_kg - float(rows[s.FUEL_KG]))
        if kg < 1.0:
            return
        self.load_kwh = kg * lot.heat_kwh_per_kg + float(rows[s.FUEL_J]) / 3.6e6
        one = np.zeros(1, dtype=np.int64)
        self.flock.load(one, np.array([kg]), np.array([lot.heat_kwh_per_kg]), np.array([lot.moisture]))
        self.odd += float(chance.odd)
        self.judged = False
        self.fires.append(replace(laid, kg=kg, kind="refill" if burning else "light"))


def replay_plans(
    truth: Prepared,
    rooms: RoomDynamics,
    hours: Hours,
    *,
    lots: tuple[Lot, ...],
    prices: PlanPrices,
    tending: tuple[Tending, ...],
    forecast: Forecaster,
    error_k: float,
    state: PlantState | None = None,
    model: tuple[Prepared, RoomDynamics] | None = None,
    replan_hours: tuple[int, ...] = (6, 16),
    horizon_h: int = 72,
    width: int = 12,
    finer: int = 2,
    least_share: float | None = None,
    progress: Callable[[float], bool] | None = None,
) -> Replay:
    """Play a span with plans made anew at certain hours, each from a forecast of that moment.

    Parameters
    ----------
    truth : Prepared
        The plant as it is.
    rooms : RoomDynamics
        Its rooms.
    hours : Hours
        The weather as it will be, and wishes.
    lots : tuple of Lot
        Wood that may be burnt, cheapest first.
    prices : PlanPrices
        What things cost.
    tending : tuple of Tending
        When wood may be put on, over the whole span.
    forecast : callable
        Temperatures foretold at an hour, for so many hours ahead.
    error_k : float
        What the planner believes of their error, for the mild and the cold case. [K]
    state : PlantState, optional
        Where it begins.
    model : tuple, optional
        The plant and rooms the planner believes in; the true ones if left out.
    replan_hours : tuple of int
        Hours of the clock at which a plan is made.
    horizon_h : int
        Length of a plan. [h]
    width, finer : int
        Of the search.
    least_share : float, optional
        Least output of the boiler over its rated output. [-]
    progress : callable, optional
        Told the share done; the replay ends early where it answers False.

    Returns
    -------
    Replay
        What it took, week by week.
    """
    begun = truth if state is None else begin_from(truth, state)
    span = hours.outdoor_c.size
    capacities = _capacities(rooms)
    world = _World(
        Runner(begun, (hours,)),
        Flock.of(begun, np.zeros(1, dtype=np.int64)),
        capacities,
        limits_of(begun, least_share).body_c,
        load_kwh=state.load_kwh if state is not None else 0.0,
    )
    believed, believed_rooms = model or (truth, rooms)
    rough = rough_plant(believed, believed_rooms, lots[0])
    chances = {one.hour: one for one in tending}
    planned: tuple[Laid, ...] = ()
    weeks: list[ReplayWeek] = []
    mark = world.snapshot()
    first_mark, odd_mark, plans, compared, changed = mark, 0.0, 0, 0, 0
    noon: Laid | None = None
    replans = {n for n in range(span) if (hours.first_hour_of_day + n) % 24 in replan_hours} | {0}
    stops = sorted(
        {float(n) for n in replans} | {h for h in chances if h < span} | set(range(WEEK, span, WEEK))
    )
    for stop in [*stops, float(span)]:
        world.advance(float(stop))
        if stop == span or (stop % WEEK == 0 and stop > 0):
            now = world.snapshot()
            weeks.append(
                ReplayWeek(
                    hour=int(stop),
                    things=things_between(mark[0], now[0], world.odd - odd_mark),
                    kept_kwh=now[1] - mark[1],
                )
            )
            mark, odd_mark = now, world.odd
        if stop == span:
            break
        if stop in replans:
            fires = _planned(
                world, believed, believed_rooms, hours, int(stop), span, lots, prices, tending, forecast,
                error_k, horizon_h, width, finer, least_share, rough,
            )  # fmt: skip
            plans += 1
            clock = (hours.first_hour_of_day + int(stop)) % 24
            if clock >= 12 and noon is not None:
                compared += 1
                changed += int(_differs(noon, _first_today(fires, int(stop), 24 - clock), lots))
            noon = _first_today(fires, int(stop), 24 - clock, since=12 - clock) if clock < 12 else None
            planned = fires
            if progress is not None and not progress(stop / span):
                break
        chance = chances.get(stop)
        if chance is not None:
            for laid in planned:
                if abs(laid.hour - stop) < 1e-6:
                    world.put_on(laid, lots[laid.lot], chance)
    rows, kept = world.snapshot()
    return Replay(
        weeks=tuple(weeks),
        total=things_between(first_mark[0], rows, world.odd),
        kept_kwh=kept - first_mark[1],
        hottest_boiler_c=world.hottest_boiler_c,
        hottest_store_c=world.hottest_store_c,
        over_limit_h=float(rows[s.OVER_LIMIT_S]) / 3600.0,
        discharge_minutes=float(rows[s.DISCHARGE_S]) / 60.0,
        throttled_fires=world.throttled,
        fires=tuple(world.fires),
        plans=plans,
        days_compared=compared,
        days_changed=changed,
        end=world.state(),
    )


def _planned(
    world: _World,
    prepared: Prepared,
    rooms: RoomDynamics,
    hours: Hours,
    at: int,
    span: int,
    lots: tuple[Lot, ...],
    prices: PlanPrices,
    tending: tuple[Tending, ...],
    forecast: Forecaster,
    error_k: float,
    horizon_h: int,
    width: int,
    finer: int,
    least_share: float | None,
    rough: Rough,
) -> tuple[Laid, ...]:
    """The plan of this moment, its hours counted from the beginning of the span."""
    length = min(horizon_h + TAIL_HOURS, span - at)
    told = forecast(at, length)
    central = hours_from(hours, at, length, told)
    central = replace(central, outdoor_c=corrected(central.outdoor_c, float(hours.outdoor_c[at])))
    shift = TEN_IN_A_HUNDRED * error_left(error_k, length)
    ground = make_ground(
        prepared,
        rooms,
        state=world.state(),
        central=central,
        mild=replace(central, outdoor_c=central.outdoor_c + shift),
        cold=replace(central, outdoor_c=central.outdoor_c - shift),
        tending=tuple(replace(one, hour=one.hour - at) for one in tending if at <= one.hour < at + length),
        lots=lots,
        prices=prices,
        hours=min(horizon_h, length),
        least_share=least_share,
        rough=rough,
    )
    found = best_plan(ground, width=width, finer=finer)
    return () if found is None else tuple(replace(one, hour=one.hour + at) for one in found.fires)


def _first_today(fires: tuple[Laid, ...], at: int, hours_left: int, since: int = 0) -> Laid | None:
    return next((one for one in fires if at + since <= one.hour < at + hours_left), None)


def _differs(noon: Laid | None, evening: Laid | None, lots: tuple[Lot, ...]) -> bool:
    """Whether the evening's plan is another than the one shown before."""
    if noon is None or evening is None:
        return (noon is None) != (evening is None)
    return abs(noon.hour - evening.hour) > 1.0 or abs(noon.kg - evening.kg) > 0.25 * lots[noon.lot].full_kg


def replay_rule(
    truth: Prepared,
    rooms: RoomDynamics,
    hours: Hours,
    rule: FiringRule,
    *,
    state: PlantState | None = None,
) -> Replay:
    """Play a span with a firing rule.

    Parameters
    ----------
    truth : Prepared
        The plant.
    rooms : RoomDynamics
        Its rooms.
    hours : Hours
        Weather and wishes.
    rule : FiringRule
        The rule.
    state : PlantState, optional
        Where it begins.

    Returns
    -------
    Replay
        What it took, week by week.
    """
    begun = truth if state is None else begin_from(truth, state)
    result = run(Case(prepared=begun, hours=hours, firing=rule))
    house = _capacities(rooms)
    span = hours.outdoor_c.size
    edges = [*range(0, span, WEEK), span]
    kept = [heat_kept_kwh(result.rows[n], result.store_c[n], result.cylinder_c[n], house) for n in edges]
    weeks = tuple(
        ReplayWeek(
            hour=last,
            things=things_between(result.rows[first], result.rows[last]),
            kept_kwh=kept[number + 1] - kept[number],
        )
        for number, (first, last) in enumerate(pairwise(edges))
    )
    return Replay(
        weeks=weeks,
        total=things_between(result.rows[0], result.rows[-1]),
        kept_kwh=kept[-1] - kept[0],
        hottest_boiler_c=result.total(s.HOTTEST_BODY_C),
        hottest_store_c=result.total(s.HOTTEST_STORE_C),
        over_limit_h=result.total(s.OVER_LIMIT_S) / 3600.0,
        discharge_minutes=result.total(s.DISCHARGE_S) / 60.0,
        end=PlantState(
            rows=np.array(result.rows[-1, :CHANGING]),
            store_c=np.array(result.store_c[-1]),
            cylinder_c=np.array(result.cylinder_c[-1]),
            load_kwh=rule.kg * rule.heat_kwh_per_kg,
        ),
    )


def _capacities(rooms: RoomDynamics) -> Floats:
    down, up = rooms.downstairs, rooms.upstairs
    return 1000.0 * np.array([down.air_kj_k, down.mass_kj_k, up.air_kj_k, up.mass_kj_k])
