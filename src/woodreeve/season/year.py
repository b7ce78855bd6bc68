"""A span simulated and added up: fires, wood, backup, rooms and taps, month by month."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Annotated

import numpy as np

from woodreeve.house.describe import House
from woodreeve.plant.fields import Plant
from woodreeve.season import slots as s
from woodreeve.season.batch import run_many
from woodreeve.season.inputs import FiringRule
from woodreeve.season.run import Case, Result, run
from woodreeve.season.scene import Scene, scene
from woodreeve.units import Floats, Ge, Gt, KwhPerKg, Le, Moisture, Unit
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

__all__ = [
    "RuleScore",
    "SeasonMonth",
    "SeasonRun",
    "TunedRule",
    "common_evening_rule",
    "rolled",
    "season_run",
    "tuned_rule",
]

WARM_UP_DAYS = 21
"""Days run before the span, so that walls and store are as they would be. [day]"""

WORTH_OF_LIGHTING_KWH = 5.0
"""What one lighting is worth, in heat of the backup: the owner's trouble. Judgement. [kWh]"""

WORTH_OF_COLD_KWH = 0.5
"""What a degree-hour under the wanted temperature is worth, in heat of the backup. Judgement. [kWh/(K*h)]"""

WORTH_OF_WOOD = 0.35
"""Worth of a kWh of wood over one of the backup. Judgement. [-]"""

Days = Annotated[int, Unit("day"), Ge(1), Le(3660)]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonMonth:
    """One month of a run, or a part of one at its ends.

    Parameters
    ----------
    month : int
        1 to 12.
    hours : int
        Hours of it that were run. [h]
    outdoor_c : float
        Mean outdoor temperature. [degC]
    fires, refills : float
        Lightings and refills. [-]
    wood_kg : float
        Wood put in. [kg]
    wood_kwh : float
        Its net heat. [kWh]
    water_kwh : float
        Of it, what reached store and rooms. [kWh]
    backup_kwh, backup_fuel_kwh : float
        Heat of the backup, and its fuel. [kWh]
    rooms_kwh, taps_kwh : float
        Heat to rooms and taps. [kWh]
    store_loss_kwh : float
        Lost from the store. [kWh]
    cold_kh : float
        Degree-hours under the wanted temperature, worse of the two zones. [K*h]
    tap_short_h : float
        Hours in which taps ran too cool. [h]
    """

    month: int
    hours: int
    outdoor_c: Annotated[float, Unit("degC")]
    fires: Annotated[float, Unit("-")]
    refills: Annotated[float, Unit("-")]
    wood_kg: Annotated[float, Unit("kg")]
    wood_kwh: Annotated[float, Unit("kWh")]
    water_kwh: Annotated[float, Unit("kWh")]
    backup_kwh: Annotated[float, Unit("kWh")]
    backup_fuel_kwh: Annotated[float, Unit("kWh")]
    rooms_kwh: Annotated[float, Unit("kWh")]
    taps_kwh: Annotated[float, Unit("kWh")]
    store_loss_kwh: Annotated[float, Unit("kWh")]
    cold_kh: Annotated[float, Unit("K*h")]
    tap_short_h: Annotated[float, Unit("h")]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonRun:
    """A span run through, added up, with the hours for charts.

    Parameters
    ----------
    months : tuple of SeasonMonth
        Month by month, in the order of the run.
    total : SeasonMonth
        All of it; its ``month`` is 0.
    efficiency : float
        Heat to the water over net heat of the wood burnt. [-]
    backup_share : float
        Part of all heat given that came from the backup. [-]
    hottest_store_c, hottest_boiler_c : float
        Highest temperatures met. [degC]
    over_limit_h : float
        Hours with the store's top over its limit. [h]
    store_open, boiler_open : float
        Share of the heat that the accounts of store and boiler do not close by. [-]
    outdoor_c, downstairs_c, upstairs_c, burning : array
        Each hour. [degC] [-]
    store_c : array
        Each hour and layer, from the lowest. [degC]
    assumed : tuple of str
        What was left blank and is assumed.
    """

    months: tuple[SeasonMonth, ...]
    total: SeasonMonth
    efficiency: Annotated[float, Unit("-")]
    backup_share: Annotated[float, Unit("-")]
    hottest_store_c: Annotated[float, Unit("degC")]
    hottest_boiler_c: Annotated[float, Unit("degC")]
    over_limit_h: Annotated[float, Unit("h")]
    store_open: Annotated[float, Unit("-")]
    boiler_open: Annotated[float, Unit("-")]
    outdoor_c: Floats
    downstairs_c: Floats
    upstairs_c: Floats
    burning: Floats
    store_c: Floats
    assumed: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleScore:
    """What a rule costs in a run: backup, trouble, cold and wood, in kWh of backup heat."""

    worth_kwh: Annotated[float, Unit("kWh")]
    backup_kwh: Annotated[float, Unit("kWh")]
    fires: Annotated[float, Unit("-")]
    cold_kh: Annotated[float, Unit("K*h")]
    wood_kwh: Annotated[float, Unit("kWh")]


@dataclass(frozen=True, slots=True, kw_only=True)
class TunedRule:
    """The best of many rules tried, beside the common evening rule.

    Parameters
    ----------
    rule : FiringRule
        The best one.
    score, evening : RuleScore
        What it costs, and what the common rule costs in the same weather.
    tried : int
        How many rules were tried. [-]
    """

    rule: FiringRule
    score: RuleScore
    evening: RuleScore
    tried: int


@worked
def common_evening_rule(
    load_kg: Annotated[float, Unit("kg"), Gt(0.0), Le(500.0)],
    moisture: Moisture,
    heat_kwh_kg: KwhPerKg,
    efficiency: Annotated[float, Unit("-"), Gt(0.1), Le(1.05)] = 0.80,
) -> FiringRule:
    r"""The rule that most owners go by: look at the store each evening, and light when it is cool.

    Parameters
    ----------
    load_kg : float
        A full load of wood. [kg] Above 0, up to 500.
    moisture : Moisture
        Its water over wet mass. [-] From 0 to 0.70.
    heat_kwh_kg : KwhPerKg
        Its net heat. [kWh/kg]
    efficiency : float
        Part of it that reaches the water, for judging what fits. [-]

    Returns
    -------
    FiringRule
        At 17 o'clock, when the store's mean is below 45 °C; a full load, or what store and house can take.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \bar T_\text{store} < 45\,^\circ\mathrm{C} \;\Rightarrow\; \text{light at 17:00}

    References
    ----------
    .. [1] Common practice, no published source.
    """
    usual = FiringRule()
    return FiringRule(
        hours=usual.hours,
        below_c=usual.below_c + 0.0,
        per_degree=usual.per_degree + 0.0,
        kg=load_kg,
        least_kg=usual.least_kg + 0.0,
        fit=True,
        moisture=moisture,
        heat_kwh_per_kg=heat_kwh_kg,
        efficiency=efficiency,
    )


@worked
def season_run(
    house: House,
    plant: Plant,
    weather: Hourly,
    rule: FiringRule,
    first_day: Annotated[int, Unit("day"), Ge(0), Le(365)] = 181,
    days: Days = 365,
) -> SeasonRun:
    r"""Run plant and house through a span, minute by minute, with fires by a rule.

    Parameters
    ----------
    house : House
        The house.
    plant : Plant
        The plant.
    weather : Hourly
        A whole year from the first of January; longer spans go round it.
    rule : FiringRule
        When a fire is lit, and with how much.
    first_day : int
        Day of the year on which the span begins: 0 is the first of January, 181 the first of July. [day]
    days : int
        Length of the span. [day]

    Returns
    -------
    SeasonRun
        Months, sums and hours.

    Raises
    ------
    Unknown
        If the house has no floor area, or boiler output or store content are not known.
    Refused
        If part of the plant is not modelled.
    OutOfRange
        If the rule or the span is out of range.

    Notes
    -----
    Steps of 60 s, 30 layers of the store. For each layer :math:`i` of volume :math:`V`, with flow
    :math:`u`, conduction and loss:

    .. math:: \rho c V \dot T_i = \rho c A\,[u T]_{i-1/2}^{i+1/2}
        + \frac{\lambda A}{h} (T_{i+1} - 2 T_i + T_{i-1}) - U A_i (T_i - T_r) + Q_i

    with a second-order limited face value, and layers that lie the wrong way round mixed. The fire gives
    :math:`P = \eta(M, P) \dot m q`, and dies away as :math:`e^{-t/\tau}`; rooms are two zones of air and
    mass, stepped exactly. 21 days are run first. The store model has not been compared with a measured
    tank, nor the boiler model with a measured burn.

    References
    ----------
    .. [1] As :func:`limited_half_step`, :func:`step_at_rest`, :func:`flue_loss_share`,
       :func:`wet_fire_share`, :func:`radiator_factor`, :func:`heating_curve`, :func:`mixing_share`,
       :func:`zone_dynamics`, :func:`sun_on_surface`.
    """
    made = scene(house, plant, rolled(weather, first_day - WARM_UP_DAYS, days + WARM_UP_DAYS))
    result = run(Case(prepared=made.prepared, hours=made.hours, firing=rule))
    return _added_up(result, made, _months(first_day, days))


def rolled(weather: Hourly, first_day: int, days: int) -> Hourly:
    """So many days of a year's weather from a day on, going round its end."""
    at = (first_day * 24 + np.arange(days * 24)) % weather.hours

    def of(values: Floats | None) -> Floats | None:
        return None if values is None else values[at]

    return replace(
        weather,
        start=weather.start + timedelta(hours=int(at[0])),
        temperature_c=weather.temperature_c[at],
        relative_humidity=of(weather.relative_humidity),
        wind_m_s=of(weather.wind_m_s),
        rain_mm=of(weather.rain_mm),
        sun_w_m2=of(weather.sun_w_m2),
        diffuse_w_m2=of(weather.diffuse_w_m2),
    )


def _months(first_day: int, days: int) -> Sequence[int]:
    """Month number of each day of the span."""
    of_year = np.repeat(np.arange(1, 13), (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31))
    return [int(of_year[(first_day + day) % 365]) for day in range(days)]


def _added_up(result: Result, made: Scene, month_of_day: Sequence[int]) -> SeasonRun:
    first = WARM_UP_DAYS * 24
    edges = [0, *(n for n in range(1, len(month_of_day)) if month_of_day[n] != month_of_day[n - 1])]
    spans = [
        (month_of_day[begin], first + 24 * begin, first + 24 * end)
        for begin, end in zip(edges, [*edges[1:], len(month_of_day)], strict=True)
    ]
    last = first + 24 * len(month_of_day)
    total = _month(result, made, 0, first, last)
    store, boiler = result.store_balance(), result.boiler_balance()
    burnt = (result.rows[last, s.BURNT_J] - result.rows[first, s.BURNT_J]) / 3.6e6
    heat = total.water_kwh + total.backup_kwh
    kept = slice(first, last)
    return SeasonRun(
        months=tuple(_month(result, made, month, begin, end) for month, begin, end in spans),
        total=total,
        efficiency=total.water_kwh / burnt if burnt > 0.0 else 0.0,
        backup_share=total.backup_kwh / heat if heat > 0.0 else 0.0,
        hottest_store_c=float(result.store_c[kept].max()),
        hottest_boiler_c=float(result.rows[kept, s.BODY_C].max()),
        over_limit_h=float(result.rows[last, s.OVER_LIMIT_S] - result.rows[first, s.OVER_LIMIT_S]) / 3600.0,
        store_open=store.open_share,
        boiler_open=boiler.open_share,
        outdoor_c=np.array(result.rows[kept, s.OUTDOOR_C]),
        downstairs_c=np.array(result.rows[kept, s.AIR_1_C]),
        upstairs_c=np.array(result.rows[kept, s.AIR_2_C]),
        burning=np.array(result.rows[kept, s.BURNING]),
        store_c=np.array(result.store_c[kept]),
        assumed=made.assumed,
    )


def _month(result: Result, made: Scene, month: int, begin: int, end: int) -> SeasonMonth:
    change = result.rows[end] - result.rows[begin]

    def kwh(*rows: int) -> float:
        return float(sum(change[row] for row in rows)) / 3.6e6

    return SeasonMonth(
        month=month,
        hours=end - begin,
        outdoor_c=float(np.asarray(made.hours.outdoor_c)[begin:end].mean()),
        fires=float(change[s.FIRES]),
        refills=float(change[s.REFILLS]),
        wood_kg=float(change[s.LOADED_KG]),
        wood_kwh=kwh(s.LOADED_J),
        water_kwh=kwh(s.CHARGED_J, s.DIRECT_J),
        backup_kwh=kwh(s.BACKUP_HEAT_J, s.IMMERSION_J),
        backup_fuel_kwh=kwh(s.BACKUP_FUEL_J, s.IMMERSION_J),
        rooms_kwh=kwh(s.ROOMS_J),
        taps_kwh=kwh(s.TAPPED_J),
        store_loss_kwh=kwh(s.STORE_LOSS_J),
        cold_kh=float(max(change[s.COLD_ROOM_1_KS], change[s.COLD_ROOM_2_KS])) / 3600.0,
        tap_short_h=float(change[s.TAP_SHORT_S]) / 3600.0,
    )


@worked
def tuned_rule(
    house: House,
    plant: Plant,
    weather: Hourly,
    common: FiringRule,
    trials: Annotated[int, Unit("-"), Ge(8), Le(5000)] = 192,
    progress: Callable[[float], bool] | None = None,
) -> TunedRule:
    r"""Find the best simple rule for a house by trying many on a year of weather.

    The common rule lights every evening when the store is cool. A rule with other hours, another limit,
    one that rises with the frost, and less wood when less fits, is no harder to follow and costs less.

    Parameters
    ----------
    house : House
        The house.
    plant : Plant
        The plant.
    weather : Hourly
        A whole year from the first of January.
    common : FiringRule
        The common rule; its wood is kept.
    trials : int
        How many rules to try. [-] From 8 to 5000.
    progress : callable, optional
        Told the share done; stops where it answers False.

    Returns
    -------
    TunedRule
        The best rule and what it costs.

    Raises
    ------
    Refused
        If it was stopped, or part of the plant is not modelled.
    Unknown
        If boiler output, store content or floor area are not known.

    Notes
    -----
    Rules are drawn evenly (Sobol sequence, the same every time) over hours, limit, slope and least load,
    and scored by

    .. math:: W = Q_b + 5\,n + 0.5\,D + 0.35\,Q_w

    with backup heat :math:`Q_b`, lightings :math:`n`, degree-hours of cold :math:`D` and heat of the wood
    :math:`Q_w`: judgement, in kWh.

    References
    ----------
    .. [1] I. M. Sobol, low-discrepancy sequence, as in SciPy; the weights are judgement.
    """
    made = scene(house, plant, weather)
    rules = [common, *_rules(common, trials - 1)]
    cases = [Case(prepared=made.prepared, hours=made.hours, firing=rule) for rule in rules]
    results = run_many(cases, progress=progress)
    scores = [_score(result) for result in results]
    best = min(range(len(rules)), key=lambda number: (scores[number].worth_kwh, number))
    return TunedRule(rule=rules[best], score=scores[best], evening=scores[0], tried=len(rules))


def _rules(common: FiringRule, count: int) -> list[FiringRule]:
    from scipy.stats import qmc

    draws = qmc.Sobol(4, scramble=False).random_base2(int(np.ceil(np.log2(max(count + 1, 2)))))[1 : count + 1]
    second = (None, 6, 7, 8, 12, 21)
    rules = []
    for hour, limit, slope, least in draws:
        morning = second[int(hour * 48) % len(second)]
        evening = 16 + int(hour * 5.999)
        rules.append(
            replace(
                common,
                hours=(evening,) if morning is None else (morning, evening),
                below_c=35.0 + 35.0 * float(limit),
                per_degree=1.5 * float(slope),
                least_kg=common.kg * 0.7 * float(least),
                fit=True,
            )
        )
    return rules


def _score(result: Result) -> RuleScore:
    backup = result.kwh(s.BACKUP_HEAT_J) + result.kwh(s.IMMERSION_J)
    fires = result.total(s.FIRES)
    cold = max(result.total(s.COLD_ROOM_1_KS), result.total(s.COLD_ROOM_2_KS)) / 3600.0
    wood = result.kwh(s.LOADED_J)
    worth = backup + WORTH_OF_LIGHTING_KWH * fires + WORTH_OF_COLD_KWH * cold + WORTH_OF_WOOD * wood
    return RuleScore(worth_kwh=worth, backup_kwh=backup, fires=fires, cold_kh=cold, wood_kwh=wood)
