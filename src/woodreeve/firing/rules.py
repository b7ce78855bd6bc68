"""Rules of thumb to measure a plan by: the common evening rule, and the best of many simple rules."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.firing.account import Things, heat_kept_kwh, things_between
from woodreeve.firing.flock import PlantState, begin_from
from woodreeve.firing.lots import Lot
from woodreeve.firing.prices import PlanPrices
from woodreeve.season.batch import run_many
from woodreeve.season.inputs import FiringRule, Hours
from woodreeve.season.run import Case, Result
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats

__all__ = ["RuleRanges", "RuleTrial", "best_rule", "evening_rule", "rule_candidates", "try_rules"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleRanges:
    """Within what a rule is tuned."""

    evening_hours: tuple[int, ...] = (17, 18, 19, 20, 21)
    morning_hours: tuple[int, ...] = (7,)
    below_c: tuple[float, float] = (32.0, 72.0)
    per_degree: tuple[float, float] = (0.0, 1.8)
    load_share: tuple[float, float] = (0.35, 1.0)
    least_share: tuple[float, float] = (0.0, 0.7)
    use_kwh: tuple[float, float] = (5.0, 50.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleTrial:
    """A rule and what it took in each year it was tried on."""

    rule: FiringRule
    years: tuple[Things, ...]
    kept_kwh: tuple[float, ...]
    """Heat at the end of each year less that at its beginning. [kWh]"""

    def money(self, prices: PlanPrices, wood_kwh_price: float, kept_kwh_price: float) -> float:
        """Mean cost of a year; heat left over counts at its price. [money]."""
        return float(
            np.mean(
                [
                    things.money(prices, wood_kwh_price) - kept * kept_kwh_price
                    for things, kept in zip(self.years, self.kept_kwh)
                ]
            )
        )


def evening_rule(lot: Lot, efficiency: float = 0.80, hour: int = 17) -> FiringRule:
    """The common evening rule: look at 17 o'clock, and lay a full load when the store's mean is under 45 °C.

    Parameters
    ----------
    lot : Lot
        The wood.
    efficiency : float
        Part of its heat that reaches the water, for judging what fits. [-]
    hour : int
        Hour of the clock at which somebody looks.

    Returns
    -------
    FiringRule
        A full load, or what store and house can take.
    """
    return FiringRule(
        hours=(hour,),
        kg=lot.full_kg,
        fit=True,
        moisture=lot.moisture,
        heat_kwh_per_kg=lot.heat_kwh_per_kg,
        efficiency=efficiency,
    )


def rule_candidates(common: FiringRule, ranges: RuleRanges, trials: int) -> list[FiringRule]:
    """The common rule, and others drawn evenly (Sobol sequence, the same every time) from the ranges.

    Parameters
    ----------
    common : FiringRule
        The common rule; its wood is kept.
    ranges : RuleRanges
        Within what to draw.
    trials : int
        How many rules in all. [-]

    Returns
    -------
    list of FiringRule
        The common rule first.

    Raises
    ------
    OutOfRange
        If there are fewer than 8 trials.
    """
    from scipy.stats import qmc

    if trials < 8:
        raise OutOfRange("trials", trials, "at least 8")
    power = int(np.ceil(np.log2(trials)))
    draws = qmc.Sobol(7, scramble=False).random_base2(power)[1:trials]

    def between(span: tuple[float, float], part: float) -> float:
        return span[0] + (span[1] - span[0]) * float(part)

    second: list[int | None] = [None, *ranges.morning_hours, *ranges.evening_hours[2:]]
    rules = [common]
    for draw in draws:
        evening = ranges.evening_hours[int(draw[0] * len(ranges.evening_hours))]
        other = second[int(draw[1] * len(second))]
        hours = (evening,) if other is None or other == evening else tuple(sorted((other, evening)))
        rules.append(
            replace(
                common,
                hours=hours,
                below_c=between(ranges.below_c, draw[2]),
                per_degree=between(ranges.per_degree, draw[3]),
                kg=common.kg * between(ranges.load_share, draw[4]),
                least_kg=common.kg * between(ranges.least_share, draw[5]),
                use_kwh=between(ranges.use_kwh, draw[6]),
                fit=True,
            )
        )
    return rules


def try_rules(
    prepared: Prepared,
    years: Sequence[Hours],
    rules: Sequence[FiringRule],
    house_j_k: Floats,
    *,
    state: PlantState | None = None,
    threads: int = 1,
    progress: Callable[[float], bool] | None = None,
) -> list[RuleTrial]:
    """Run every rule through every year.

    Parameters
    ----------
    prepared : Prepared
        Plant and rooms.
    years : sequence of Hours
        Weather and wishes of each year.
    rules : sequence of FiringRule
        The rules.
    house_j_k : array
        Heat capacities of the rooms. [J/K]
    state : PlantState, optional
        Where all begin.
    threads : int
        How many pieces of work at the same time.
    progress : callable, optional
        Told the share done; stops where it answers False.

    Returns
    -------
    list of RuleTrial
        In the order of the rules.

    Raises
    ------
    Refused
        If it was stopped.
    """
    begun = prepared if state is None else begin_from(prepared, state)
    cases = [Case(prepared=begun, hours=hours, firing=rule) for rule in rules for hours in years]
    results = run_many(cases, threads=threads, progress=progress)
    trials = []
    for number, rule in enumerate(rules):
        mine = results[number * len(years) : (number + 1) * len(years)]
        trials.append(
            RuleTrial(
                rule=rule,
                years=tuple(things_between(one.rows[0], one.rows[-1]) for one in mine),
                kept_kwh=tuple(_kept(one, house_j_k) for one in mine),
            )
        )
    return trials


def _kept(result: Result, house_j_k: Floats) -> float:
    first, last = (
        heat_kept_kwh(result.rows[n], result.store_c[n], result.cylinder_c[n], house_j_k) for n in (0, -1)
    )
    return last - first


def best_rule(
    trials: Sequence[RuleTrial], prices: PlanPrices, wood_kwh_price: float, kept_kwh_price: float
) -> RuleTrial:
    """The rule that costs least on the mean of its years; of two alike the earlier.

    Parameters
    ----------
    trials : sequence of RuleTrial
        What :func:`try_rules` gave.
    prices : PlanPrices
        What things cost.
    wood_kwh_price, kept_kwh_price : float
        A kWh of wood, and one left in the store. [money/kWh]

    Returns
    -------
    RuleTrial
        The best.
    """
    return min(trials, key=lambda trial: trial.money(prices, wood_kwh_price, kept_kwh_price))
