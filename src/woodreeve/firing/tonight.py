"""The plan of an evening: whether to light, when, with how much, from which stack, and against what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Annotated, Literal
from zoneinfo import ZoneInfo

import numpy as np

from woodreeve.firing.courses import Course, Terms, courses, lasts_until, rule_fires, terms_of
from woodreeve.firing.fields import Wishes
from woodreeve.firing.ground import make_ground
from woodreeve.firing.presence import Tending, tending_times
from woodreeve.firing.prices import plan_prices
from woodreeve.firing.rules import evening_rule
from woodreeve.firing.search import Found, Ground, Laid, Only, play, search
from woodreeve.firing.standing import Standing
from woodreeve.firing.ways import Verdict, WayName
from woodreeve.firing.wood_tonight import WoodTonight
from woodreeve.house.describe import House
from woodreeve.money.fields import Prices
from woodreeve.plant.fields import Plant
from woodreeve.season import slots as s
from woodreeve.season.inputs import Hours
from woodreeve.season.scene import scene
from woodreeve.units import Floats, Ge, Gt, Le, Unit
from woodreeve.weather.cases import weather_case
from woodreeve.weather.forecast import Forecast, Outlook, weather_ahead
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked
from woodreeve.yard.containers import fills_of

__all__ = [
    "HOURS_KNOWN",
    "PlannedFire",
    "TonightPlan",
    "Way",
    "WeatherCases",
    "tonight_plan",
    "weather_of_plan",
]

HOURS_KNOWN = 144
"""So many hours of weather a plan wants: three days of fires, and how long the store lasts after them. [h]"""
HORIZON_H = 72
"""Fires are planned for so long ahead. [h]"""
WIDTH = 12
"""Futures followed from choice to choice."""
NARROW = 6
"""The same for what stands beside the plan."""
TONIGHT_ENDS = 4.0
"""An evening lasts until this hour of the clock. [h]"""
LATER_H = 1.0
"""The plan an hour later. [h]"""
LESS_SHARE = 0.25
"""And with so much of a full load less. [-]"""
FILL_STEP = 1.0 / 12.0
"""Parts of a boiler's fill are told to the twelfth, so that thirds and quarters have their names. [-]"""
SAME_SESSION_H = 14.0
"""Wood laid on within so long of a lighting belongs to the same fire. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedFire:
    """Wood to put on.

    Parameters
    ----------
    hour : float
        Hours from the plan's beginning. [h]
    kg, fills, barrows : float
        How much: by weight, in fills of the boiler and in what is carried; ``None`` where nobody has told
        these measures. [kg] [-]
    stack, species : str
        Which.
    kind : str
        ``light`` or ``refill``.
    odd : bool
        Whether it is a visit by night.
    """

    hour: Annotated[float, Unit("h")]
    kg: Annotated[float, Unit("kg")]
    fills: Annotated[float | None, Unit("-")]
    barrows: Annotated[float | None, Unit("-")]
    stack: str
    species: str
    kind: Literal["light", "refill"]
    odd: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to spend the next days: the plan, nothing, an hour later, less, another stack, or the rule.

    Parameters
    ----------
    name : str
        Which.
    fires : tuple of PlannedFire
        Its fires.
    money, more : float
        What it costs in all, heat left counted; and how much more than the plan. [money]
    lasts_h, cold_lasts_h : float or None
        How long the store lasts with its next fire and no other, in the central and the cold case; ``None``
        beyond what is known. [h]
    terms : Terms
        What the cost is made of.
    keeps_limits : bool
        Whether it keeps the plant's limits.
    """

    name: WayName
    fires: tuple[PlannedFire, ...]
    money: Annotated[float, Unit("money")]
    more: Annotated[float, Unit("money")]
    lasts_h: Annotated[float | None, Unit("h")]
    cold_lasts_h: Annotated[float | None, Unit("h")]
    terms: Terms
    keeps_limits: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TonightPlan:
    """The plan, what stands beside it, and why.

    Parameters
    ----------
    verdict : str
        ``light`` or ``refill`` tonight; or why not: ``warm_enough`` for all the hours planned, ``wait`` for a
        later evening, ``nobody`` there, ``no_room`` in the store, ``no_wood``, ``cheaper_not``: letting the
        backup help costs less.
    plan : Way
        The best found.
    ways : tuple of Way
        The others, each worked out anew.
    against : str
        The way that the reasons compare the plan with.
    reasons : tuple of str
        The terms of the cost that speak for the plan, the largest first.
    next_chance_h : float or None
        Hours until somebody is there to light. [h]
    free_kwh, load_kwh : float
        Heat that the store still takes below its limit, and heat to the water of a full load. [kWh]
    course, nothing, cold : Course
        Hour by hour: the plan, nothing, and the plan in the cold case.
    low_c, low_h : float
        Lowest the store gets at the heating's port with the plan, and when. [degC] [h]
    outdoor_c, outdoor_cold_c : array
        Outdoor temperature of both cases. [degC]
    assumed : tuple of str
        What was not known.
    """

    verdict: Verdict
    plan: Way
    ways: tuple[Way, ...]
    against: WayName
    reasons: tuple[str, ...]
    next_chance_h: Annotated[float | None, Unit("h")]
    free_kwh: Annotated[float, Unit("kWh")]
    load_kwh: Annotated[float, Unit("kWh")]
    course: Course
    nothing: Course
    cold: Course
    low_c: Annotated[float, Unit("degC")]
    low_h: Annotated[float, Unit("h")]
    outdoor_c: Floats
    outdoor_cold_c: Floats
    assumed: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherCases:
    """The weather of a plan: what it rests on, and three courses."""

    outlook: Outlook
    central: Hourly
    cold: Hourly
    mild: Hourly


@worked
def weather_of_plan(
    usual: Hourly,
    begins: datetime,
    forecast: Forecast | None = None,
    climate_sd_k: Annotated[float, Unit("K"), Gt(0.0), Le(12.0)] = 3.0,
) -> WeatherCases:
    r"""The weather that a plan is made with: six days ahead, to be expected, and a cold and a mild case.

    Parameters
    ----------
    usual : Hourly
        A year of usual weather.
    begins : datetime
        Beginning of the plan.
    forecast : Forecast, optional
        The newest there is.
    climate_sd_k : float
        How much daily means spread at this time of year. [K] More than 0, up to 12.

    Returns
    -------
    WeatherCases
        Three courses of 144 hours, and what they rest on.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T = T_\text{central} \pm 1.28\,\sigma

    References
    ----------
    .. [1] As :func:`weather_ahead` and :func:`weather_case`.
    """
    outlook = weather_ahead(usual, begins, HOURS_KNOWN, forecast=forecast, climate_sd_k=climate_sd_k)
    return WeatherCases(
        outlook=outlook,
        central=weather_case(outlook, "central"),
        cold=weather_case(outlook, "cold"),
        mild=weather_case(outlook, "mild"),
    )


@worked
def tonight_plan(
    house: House,
    plant: Plant,
    prices: Prices,
    wishes: Wishes,
    standing: Standing,
    wood: WoodTonight,
    weather: WeatherCases,
    zone: str,
    barrow_kg: Annotated[float | None, Unit("kg"), Gt(0.0), Le(5000.0)] = None,
    hours: Annotated[int, Unit("h"), Ge(6), Le(96)] = HORIZON_H,
) -> TonightPlan:
    r"""Whether to light tonight, when, with how much and from which stack.

    Every hour at which somebody is there is looked at, with no wood and with wood of each dry stack; what
    follows is played in the full simulation of plant and house, and the cheapest course is the plan. It
    never passes the plant's limits, never lights on wet wood, and never when nobody is there.

    Parameters
    ----------
    house : House
        The house.
    plant : Plant
        The plant.
    prices : Prices
        The owner's prices.
    wishes : Wishes
        Presence, and how warmth and backup are to weigh.
    standing : Standing
        Store, fire and rooms at the beginning.
    wood : WoodTonight
        The stacks that may be burnt.
    weather : WeatherCases
        The weather ahead in three cases.
    zone : str
        The owner's time zone.
    barrow_kg : float, optional
        Wood in one of what it is carried in. [kg] More than 0, up to 5000.
    hours : int
        How far fires are planned. [h] From 6 to 96.

    Returns
    -------
    TonightPlan
        The plan, the ways beside it, and the reasons.

    Raises
    ------
    Unknown
        If floor area, boiler output, store or fuel space are not known.
    Refused
        If part of the plant is not modelled.
    OutOfRange
        If a number lies outside its range.

    Notes
    -----
    .. math:: \min \sum_t \left( p_w m_t + p_l n_t + p_b Q_{b,t} + p_c \theta_t \right) - V(T_\text{end})

    with wood :math:`m`, lightings :math:`n`, fuel of the backup :math:`Q_b`, degree-hours too cold
    :math:`\theta` and the worth :math:`V` of heat left. A narrow beam of futures, guided by a rough plant
    solved backwards, so the plan is good and not proven best. A store lasts until the layer from which the
    heating draws falls below the temperature at which the backup takes over.

    References
    ----------
    .. [1] Own method; R. Bellman, "Dynamic Programming", 1957, for the guide; see the contest's study for
       how it does against rules of thumb.
    """
    where = ZoneInfo(zone)
    known = weather.central.hours
    ahead = scene(house, plant, weather.central)
    at_hours = {
        name: replace(ahead.hours, outdoor_c=hourly.temperature_c)
        for name, hourly in (("central", weather.central), ("cold", weather.cold), ("mild", weather.mild))
    }
    priced, assumed = plan_prices(prices, wishes, plant.backup)
    chances = tending_times(wishes.presence, standing.begins, known, where)
    boiler = plant.boiler
    share = None
    if boiler.least_output_kw is not None and boiler.output_kw:
        share = boiler.least_output_kw / boiler.output_kw
    ground = make_ground(
        ahead.prepared,
        ahead.rooms,
        state=standing.state,
        central=at_hours["central"],
        mild=at_hours["mild"],
        cold=at_hours["cold"],
        tending=chances,
        lots=wood.lots,
        prices=priced,
        hours=min(hours, known),
        least_share=share,
    )
    clock = standing.begins.astimezone(where)
    ends = (TONIGHT_ENDS - clock.hour - clock.minute / 60.0) % 24.0 or 24.0
    desk = _Desk(ground, wood, barrow_kg, ends)
    found = desk.ways(at_hours["central"])
    played = courses(
        ground.prepared,
        (at_hours["central"], at_hours["cold"]),
        wood.lots,
        [(fires, case) for _, fires, _ in found for case in (0, 1)]
        + [(_session(fires), case) for _, fires, _ in found for case in (0, 1)],
        known,
    )
    best = found[0][2].money
    ways: list[Way] = []
    port = ground.prepared.store.loops[1][1]
    for number, (name, fires, result) in enumerate(found):
        whole = played[2 * number]
        once, once_cold = (played[2 * (len(found) + number) + case] for case in (0, 1))
        ways.append(
            Way(
                name=name,
                fires=tuple(desk.told(one) for one in fires),
                money=float(result.money),
                more=float(result.money - best),
                lasts_h=lasts_until(once, port, standing.useful_above_c, _last_hour(fires)),
                cold_lasts_h=lasts_until(once_cold, port, standing.useful_above_c, _last_hour(fires)),
                terms=terms_of(whole, priced, wood.lots, fires, ground, result),
                keeps_limits=result.keeps_limits,
            )
        )
    plan = ways[0]
    nothing = next(n for n, way in enumerate(ways) if way.name == "nothing")
    verdict = desk.verdict(plan, ways)
    lights_now = verdict in ("light", "refill")
    against = _against(ways, lights_now)
    top = played[0].store_c[: ground.hours + 1, port]
    low = int(np.argmin(top))
    return TonightPlan(
        verdict=verdict,
        plan=plan,
        ways=tuple(ways[1:]),
        against=against.name,
        reasons=plan.terms.for_it(against.terms),
        next_chance_h=next((one.hour for one in chances if one.light), None),
        free_kwh=_free_kwh(ground),
        load_kwh=float(ground.rough.useful_kwh(wood.lots[0].full_kg * wood.lots[0].heat_kwh_per_kg))
        if wood.lots
        else 0.0,
        course=played[0],
        nothing=played[2 * nothing],
        cold=played[1],
        low_c=float(top[low]),
        low_h=float(low),
        outdoor_c=np.asarray(weather.central.temperature_c),
        outdoor_cold_c=np.asarray(weather.cold.temperature_c),
        assumed=(*ahead.assumed, *assumed),
    )


@dataclass(frozen=True, slots=True)
class _Desk:
    """Where the ways are worked out."""

    ground: Ground
    wood: WoodTonight
    barrow_kg: float | None
    tonight_ends: float

    def ways(self, weather: Hours) -> list[tuple[WayName, tuple[Laid, ...], Found]]:
        """The plan first, then what stands beside it."""
        found = search(self.ground, width=WIDTH, finer=2)
        nothing = play(self.ground, [()])[0]
        best = found[0] if found else nothing
        ways: list[tuple[WayName, tuple[Laid, ...], Found]] = [
            ("plan", best.fires, best),
            ("nothing", (), nothing),
        ]
        first = best.fires[0] if best.fires else None
        tonight = first is not None and first.hour < self.tonight_ends
        asked: list[tuple[WayName, Only]] = []
        if first is not None and tonight:
            later = [one.hour for one in self._chances() if one.hour >= first.hour + LATER_H]
            asked += [("later", Only(not_before_h=hour, must_at_h=hour)) for hour in later[:1]]
            size = first.kg / min(self.ground.limits.space_kg, self.wood.lots[first.lot].full_kg)
            if size > LESS_SHARE + 0.2:
                asked.append(
                    (
                        "less",
                        Only(not_before_h=first.hour, must_at_h=first.hour, first_at_most=size - LESS_SHARE),
                    )
                )
            others = tuple(n for n in range(len(self.wood.lots)) if n != first.lot)
            if others:
                asked.append(("other_stack", Only(lots=others)))
        else:
            asked += [("tonight", Only(must_at_h=one.hour)) for one in self._chances()[:1]]
        for name, only in asked:
            tried = search(self.ground, width=NARROW, only=only, finer=1)
            if tried:
                ways.append((name, tried[0].fires, tried[0]))
        if self.wood.lots:
            rule = evening_rule(self.wood.lots[0])
            fires = rule_fires(self.ground.prepared, weather, rule, self.ground.hours)
            ways.append(("rule", fires, play(self.ground, [fires])[0]))
        return ways

    def _chances(self) -> list[Tending]:
        return [one for one in self.ground.tending if one.light and one.hour < self.tonight_ends]

    def verdict(self, plan: Way, ways: Sequence[Way]) -> Verdict:
        """Whether to light tonight, or why not."""
        if not self.wood.lots:
            return "no_wood"
        if plan.fires and plan.fires[0].hour < self.tonight_ends:
            return plan.fires[0].kind
        if not self._chances():
            return "nobody"
        if not any(way.name == "tonight" for way in ways):
            return "no_room"
        if plan.fires:
            return "wait"
        return "warm_enough" if plan.lasts_h is None or plan.lasts_h >= self.ground.hours else "cheaper_not"

    def told(self, laid: Laid) -> PlannedFire:
        """A fire in the owner's measures."""
        lot = self.wood.lots[laid.lot]
        fill = self.wood.fill_kg[laid.lot]
        odd = any(one.odd and abs(one.hour - laid.hour) < 1e-6 for one in self.ground.tending)
        kg = float(laid.kg)
        return PlannedFire(
            hour=float(laid.hour),
            kg=kg,
            fills=None if fill is None else fills_of(kg, fill, FILL_STEP),
            barrows=None if self.barrow_kg is None else fills_of(kg, self.barrow_kg),
            stack=lot.name,
            species=self.wood.species[laid.lot],
            kind=laid.kind,
            odd=odd,
        )


def _session(fires: tuple[Laid, ...]) -> tuple[Laid, ...]:
    """The first fire with what is laid on it."""
    taken: list[Laid] = []
    for one in fires:
        if taken and (one.kind == "light" or one.hour - taken[-1].hour > SAME_SESSION_H):
            break
        taken.append(one)
    return tuple(taken)


def _last_hour(fires: tuple[Laid, ...]) -> float:
    session = _session(fires)
    return session[-1].hour if session else 0.0


def _against(ways: Sequence[Way], lights: bool) -> Way:
    """What the plan is set against: nothing where it lights, a fire tonight where it does not."""
    wanted = "nothing" if lights else "tonight"
    return next((way for way in ways if way.name == wanted), ways[1])


def _free_kwh(ground: Ground) -> float:
    """Heat that the store takes until every layer is at its limit."""
    limit = float(ground.prepared.values[s.STORE_LIMIT_C])
    capacity = float(ground.prepared.values[s.STORE_LAYER_J_K]) / 3.6e6
    return float(np.clip(limit - ground.prepared.store_c, 0.0, None).sum() * capacity)
