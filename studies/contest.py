"""The contest of planner, common evening rule and tuned rule, as written down in ``studies/contest.toml``.

Run ``nice -n 10 python -m studies.contest``; it goes on where it was stopped, keeps each season under
``.cache/contest/`` and writes ``measured/contest.json`` after each. ``--minutes`` ends it in time.
"""

from __future__ import annotations

import argparse
import json
import os
import time as clock
import tomllib
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from typing import Any

from woodreeve.season.cache import kernel_cache_folder

ROOT = Path(__file__).resolve().parent.parent
os.environ.setdefault("NUMBA_CACHE_DIR", kernel_cache_folder(str(ROOT / ".cache" / "kernels")))

import numpy as np
from scipy import stats

from studies.stamp import code_hash, write
from woodreeve.firing.account import Things
from woodreeve.firing.fields import Presence, PresenceWindow
from woodreeve.firing.flock import PlantState
from woodreeve.firing.lots import Lot
from woodreeve.firing.presence import Tending, tending_times
from woodreeve.firing.prices import PlanPrices
from woodreeve.firing.replay import Replay, replay_plans, replay_rule
from woodreeve.firing.rules import RuleRanges, RuleTrial, best_rule, evening_rule, rule_candidates, try_rules
from woodreeve.house.dynamic import RoomDynamics, zone_dynamics
from woodreeve.plant.fields import BackupBoiler, Circuit, Cylinder, HeatEscape, LogBoiler, Plant, Store
from woodreeve.plant.hot_water import tapping_powers
from woodreeve.season.inputs import FiringRule, Hours, day_pattern
from woodreeve.season.setup import Prepared, prepare
from woodreeve.units import Floats
from woodreeve.weather.cases import weather_paths
from woodreeve.weather.forecast import Outlook
from woodreeve.weather.normals import Normals
from woodreeve.weather.series import Hourly
from woodreeve.weather.typical import hard_winter_year, typical_year

TOLD: dict[str, Any] = tomllib.loads((ROOT / "studies" / "contest.toml").read_text("utf-8"))
CODE = [
    *(
        f"src/woodreeve/firing/{name}.py"
        for name in (
            "account", "flock", "ground", "lots", "polish", "presence", "prices", "reduced", "replay",
            "rules", "search",
        )
    ),
    "src/woodreeve/season/*.py",
    "studies/contest.py",
    "studies/contest.toml",
]  # fmt: skip
RULES_CODE = [one for one in CODE if one.rsplit("/", 1)[-1] in ("account.py", "rules.py", "contest.toml")]
"""What the trials of rules hang on."""
FOLDER = ROOT / ".cache" / "contest"
WOOD_KWH_KG, MOISTURE, KG_L = 4.1, 0.18, 0.40
WIDTH = 16
DAYS_WEEK = ("monday", "tuesday", "wednesday", "thursday", "friday")


@dataclass(frozen=True)
class Stage:
    """A plant in its house, ready to run."""

    name: str
    prepared: Prepared
    rooms: RoomDynamics
    lot: Lot
    least_share: float
    electric: bool
    tap_scale: float
    sun_m2: float

    @property
    def house_j_k(self) -> Floats:
        """Heat capacities of the rooms."""
        down, up = self.rooms.downstairs, self.rooms.upstairs
        return 1000.0 * np.array([down.air_kj_k, down.mass_kj_k, up.air_kj_k, up.mass_kj_k])


def stage(told: dict[str, Any], loss_share: float = 1.0) -> Stage:
    """A plant of the contest; the house's loss may be taken wrong."""
    rooms = RoomDynamics(
        downstairs=zone_dynamics(told["loss_down_w_k"] * loss_share, told["area_m2"], told["weight"]),
        upstairs=zone_dynamics(told["loss_up_w_k"] * loss_share, told["area_m2"], told["weight"]),
    )
    loss = told["loss_down_w_k"], told["loss_up_w_k"]
    plant = Plant(
        boiler=LogBoiler(
            output_kw=told["output_kw"],
            least_output_kw=told["least_output_kw"],
            efficiency_net=told["efficiency"],
            fuel_space_litres=told["fuel_space_litres"],
            return_c=60.0,
            air="induced_fan",
        ),
        store=Store(
            litres=told["store_litres"], height_m=2.0, energy_class="C", limit_c=told["limit_c"],
            stands_in="unheated_room",
        ),
        backup=BackupBoiler(
            fuel=told["backup"], output_kw=told["backup_kw"], store_below_c=told["backup_below_c"],
            efficiency_net=1.0 if told["backup"] == "electricity" else 0.88,
        ),
        cylinder=Cylinder(litres=told["cylinder_litres"], coil_kw=20.0, immersion_kw=3.0, target_c=60.0),
        circuits=tuple(
            Circuit(name=name, design_outdoor_c=-6.0, design_flow_c=55.0, rated_w=1.2 * w_k * 26.0 * 1.9)
            for name, w_k in zip(("downstairs", "upstairs"), loss)
        ),
        heat_escapes=(HeatEscape(kind="thermal_discharge", supply="mains", opens_at_c=95.0),),
    )  # fmt: skip
    prepared = prepare(plant, rooms)
    price = TOLD["prices"]["wood_kwh"] * WOOD_KWH_KG
    return Stage(
        name=told["name"],
        prepared=prepared,
        rooms=rooms,
        lot=Lot(
            name="dry stack",
            moisture=MOISTURE,
            heat_kwh_per_kg=WOOD_KWH_KG,
            full_kg=told["fuel_space_litres"] * KG_L,
            price_kg=price,
        ),
        least_share=told["least_output_kw"] / told["output_kw"],
        electric=told["backup"] == "electricity",
        tap_scale=told["tap_scale"],
        sun_m2=0.012 * told["area_m2"],
    )


def year(told: dict[str, Any]) -> Hourly:
    """A year of weather of the contest."""
    weather = TOLD["weather"]
    normals = Normals(
        temperature_c=tuple(weather["temperature_c"]),
        swing_k=tuple(weather["swing_k"]),
        day_noise_sd_k=tuple(weather["day_noise_sd_k"]),
        sun_kwh_m2=tuple(weather["sun_kwh_m2"]),
        latitude_deg=weather["latitude_deg"],
        longitude_deg=weather["longitude_deg"],
    )
    if told["kind"] == "hard":
        return hard_winter_year(normals, seed=told["seed"])
    return typical_year(normals, seed=told["seed"], free=told["kind"] == "free")


def wishes(weather: Hourly, on: Stage, first_day: int, days: int) -> Hours:
    """Weather and wishes of a span; the sun comes in by a plain share of that on level ground."""
    at = (first_day * 24 + np.arange(days * 24)) % weather.hours
    sun = np.zeros(at.size) if weather.sun_w_m2 is None else weather.sun_w_m2[at]
    night = (np.arange(24) < 6) | (np.arange(24) >= 22)
    return Hours(
        outdoor_c=weather.temperature_c[at],
        sun_downstairs_w=sun * on.sun_m2,
        sun_upstairs_w=sun * on.sun_m2 * 0.7,
        inside_downstairs_w=250.0,
        inside_upstairs_w=120.0,
        wanted_downstairs_c=day_pattern(at.size, np.where(night, 17.0, 20.0)),
        wanted_upstairs_c=day_pattern(at.size, np.where(night, 16.0, 18.0)),
        tap_powers_w=tapping_powers("M") * on.tap_scale,
    )


def presence() -> Presence:
    """When somebody is there."""
    told = TOLD["presence"]

    def windows(days: tuple[Any, ...], spans: list[list[str]]) -> list[PresenceWindow]:
        return [
            PresenceWindow(days=days, begins=time.fromisoformat(a), ends=time.fromisoformat(b))
            for a, b in spans
        ]

    return Presence(
        windows=(
            *windows(DAYS_WEEK, told["weekday"]),
            *windows(("saturday", "sunday"), told["weekend"]),
        ),
        lighting_minutes=told["lighting_minutes"],
        refill_minutes=told["refill_minutes"],
        watch_minutes=told["watch_minutes"],
    )


def tending(first_day: int, days: int) -> tuple[Tending, ...]:
    """When wood may be put on, over a span."""
    begins = datetime(2025, 1, 1, tzinfo=UTC) + timedelta(days=first_day)
    return tending_times(presence(), begins, days * 24, UTC)


class Forecasts:
    """Forecasts made from the truth, each with fresh errors of one size at every lead."""

    def __init__(self, hours: Hours, seed: int) -> None:
        self.truth, self.seed = np.asarray(hours.outdoor_c), seed

    def __call__(self, at: int, count: int) -> Floats:
        """Temperatures foretold."""
        true = self.truth[at : at + count]
        told = TOLD["forecast"]
        outlook = Outlook(
            central=Hourly(start=datetime(2025, 1, 1, tzinfo=UTC), temperature_c=true),
            error_k=np.full(true.size, float(told["error_k"])),
            rests_on="forecast",
            source="made",
            age_h=0.0,
            covered_h=float(true.size),
        )
        row = weather_paths(
            outlook, 1, seed=self.seed * 100_000 + at, day_correlation=told["day_correlation"]
        )
        return np.asarray(row[0])


def price_sets() -> dict[str, dict[str, float]]:
    """Names of the price sets, and by what each price is multiplied."""
    sets: dict[str, dict[str, float]] = {"base": {}}
    for name in TOLD["prices"]["sets"]["halved_and_doubled"]:
        sets[f"{name} halved"] = {name: 0.5}
        sets[f"{name} doubled"] = {name: 2.0}
    return sets


def prices_of(on: Stage, shares: dict[str, float]) -> tuple[PlanPrices, float, float]:
    """Prices, what a kWh of wood costs, and what a kWh left in the store is worth."""
    told = TOLD["prices"]
    wood = told["wood_kwh"] * shares.get("wood_kwh", 1.0)
    base = PlanPrices(
        lighting=told["lighting"],
        refill=told["refill"],
        odd_visit=0.0,
        backup_fuel_kwh=told["electricity_kwh"] if on.electric else told["backup_fuel_kwh"],
        electricity_kwh=told["electricity_kwh"],
        cold_kh=told["cold_kh"],
        currency=told["currency"],
    )
    return base.scaled(**{name: x for name, x in shares.items() if name != "wood_kwh"}), wood, wood / 0.85


def kept(name: str, make: Any, code: list[str] = CODE) -> Any:
    """A piece of work, done once for this code; the kernel's own is told beside the figures."""
    folder = FOLDER / code_hash([one for one in code if "season" not in one])
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name.replace(' ', '_')}.json"
    if path.exists():
        return json.loads(path.read_text("utf-8"))
    made = make()
    path.write_text(json.dumps(made), "utf-8")
    return made


def tuned_trials(on: Stage) -> list[RuleTrial]:
    """All rules on the years for tuning."""
    span, told = TOLD["span"], TOLD["rules"]["tuned"]
    years = [wishes(year(one), on, span["first_day"], span["days"]) for one in TOLD["weather"]["tuned_on"]]
    ranges = RuleRanges(
        evening_hours=tuple(told["evening_hours"]),
        below_c=tuple(told["below_c"]),
        per_degree=tuple(told["per_degree"]),
        load_share=tuple(told["load_share"]),
        least_share=tuple(told["least_share"]),
        use_kwh=tuple(told["use_kwh"]),
    )
    rules = rule_candidates(evening_rule(on.lot), ranges, told["trials"])

    def make() -> list[Any]:
        return [asdict(one) for one in try_rules(on.prepared, years, rules, on.house_j_k, threads=1)]

    return [
        RuleTrial(
            rule=FiringRule(**{**one["rule"], "hours": tuple(one["rule"]["hours"])}),
            years=tuple(Things(**things) for things in one["years"]),
            kept_kwh=tuple(one["kept_kwh"]),
        )
        for one in kept(f"trials {on.name}", make, RULES_CODE)
    ]


def season(on: Stage, scored: dict[str, Any], set_name: str, seed: int, model: float = 1.0) -> dict[str, Any]:
    """One season or part of one: planner, evening rule and tuned rule, from the same beginning."""
    span, sets = TOLD["span"], TOLD["prices"]["sets"]
    whole = set_name == "base" and model == 1.0
    first, days = (
        (span["first_day"], span["days"])
        if whole
        else (sets["other_sets_first_day"], sets["other_sets_days"])
    )
    shares = price_sets()[set_name]
    prices, wood, worth = prices_of(on, shares)
    lot = replace(on.lot, price_kg=wood * WOOD_KWH_KG)
    weather = year(scored)
    warm = replay_rule(
        on.prepared, on.rooms, wishes(weather, on, first - span["warm_up_days"], span["warm_up_days"]),
        evening_rule(on.lot),
    )  # fmt: skip
    state: PlantState | None = warm.end
    hours = wishes(weather, on, first, days)
    best = best_rule(tuned_trials(on), prices, wood, worth)
    told = next(one for one in TOLD["plants"] if one["name"] == on.name)
    believed = stage(told, model)
    begun = clock.perf_counter()
    plan = replay_plans(
        on.prepared,
        on.rooms,
        hours,
        lots=(lot,),
        prices=prices,
        tending=tending(first, days),
        forecast=Forecasts(hours, seed),
        error_k=TOLD["forecast"]["error_k"],
        state=state,
        model=None if model == 1.0 else (believed.prepared, believed.rooms),
        replan_hours=tuple(TOLD["forecast"]["replan_hours"]),
        horizon_h=24 * TOLD["forecast"]["horizon_days"],
        width=WIDTH,
        least_share=on.least_share,
    )
    seconds = clock.perf_counter() - begun
    evening = replay_rule(on.prepared, on.rooms, hours, evening_rule(on.lot), state=state)
    tuned = replay_rule(on.prepared, on.rooms, hours, best.rule, state=state)
    runs = {"planner": plan, "evening": evening, "tuned": tuned}
    return {
        "plant": on.name,
        "year": scored["name"],
        "prices": set_name,
        "seed": seed,
        "model": model,
        "days": days,
        "tuned_rule": asdict(best.rule),
        "plans": plan.plans,
        "days_compared": plan.days_compared,
        "days_changed": plan.days_changed,
        "seconds": seconds,
        "runs": {name: _told(one, prices, wood, worth) for name, one in runs.items()},
        "against_evening": _paired(plan, evening, prices, wood, worth),
        "against_tuned": _paired(plan, tuned, prices, wood, worth),
    }


def _told(one: Replay, prices: PlanPrices, wood: float, worth: float) -> dict[str, float]:
    things = one.total
    return {
        "backup_kwh": things.backup_fuel_kwh,
        "cold_kh": things.cold_kh,
        "lightings": things.lightings,
        "refills": things.refills,
        "wood_kg": things.wood_kg,
        "efficiency": things.efficiency,
        "tap_short_kwh": things.tap_short_kwh,
        "kept_kwh": one.kept_kwh,
        "money": one.money(prices, wood, worth),
        "hottest_boiler_c": one.hottest_boiler_c,
        "hottest_store_c": one.hottest_store_c,
        "over_limit_h": one.over_limit_h,
        "discharge_minutes": one.discharge_minutes,
        "throttled_fires": one.throttled_fires,
    }


def _paired(plan: Replay, rule: Replay, prices: PlanPrices, wood: float, worth: float) -> dict[str, float]:
    """Mean of the paired differences of whole weeks, over the rule's mean week, with its interval."""

    def weeks(one: Replay) -> Floats:
        return np.array(
            [
                week.things.money(prices, wood) - week.kept_kwh * worth
                for week in one.weeks
                if week.hour % 168 == 0
            ]
        )

    a, b = weeks(plan), weeks(rule)
    difference = a - b
    mean = float(b.mean())
    half = float(
        stats.t.ppf(0.5 + TOLD["score"]["interval"] / 2.0, difference.size - 1)
        * difference.std(ddof=1)
        / np.sqrt(difference.size)
    )
    return {
        "weeks": int(difference.size),
        "share": float(difference.mean()) / mean,
        "low": (float(difference.mean()) - half) / mean,
        "high": (float(difference.mean()) + half) / mean,
        "money_a_week": float(difference.mean()),
    }


def jobs() -> Iterator[tuple[str, str, str, int, float]]:
    """Plant, year, prices, seed and model of each season, the most telling first."""
    plants = [one["name"] for one in TOLD["plants"]]
    years = [one["name"] for one in TOLD["weather"]["scored"]]
    seeds = TOLD["forecast"]["seeds"]
    for name in years:
        for plant in plants:
            yield plant, name, "base", seeds[0], 1.0
    for set_name in price_sets():
        for name in years:
            for plant in plants:
                if set_name != "base":
                    yield plant, name, set_name, seeds[0], 1.0
    wrong = TOLD["model"]["wrong_share"]
    for model in (1.0 - wrong, 1.0 + wrong):
        for name in years:
            for plant in plants:
                yield plant, name, "base", seeds[0], model


def main() -> None:
    """Run what is not done yet, as long as time allows."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=1e9)
    minutes = parser.parse_args().minutes
    until = clock.monotonic() + 60.0 * minutes
    stages = {one["name"]: stage(one) for one in TOLD["plants"]}
    scored = {one["name"]: one for one in TOLD["weather"]["scored"]}
    done: list[dict[str, Any]] = []
    wanted = list(jobs())
    for plant, name, set_name, seed, model in wanted:
        if clock.monotonic() > until:
            break
        key = f"{plant} {name} {set_name} {seed} {model:g}"
        one = kept(key, lambda: season(stages[plant], scored[name], set_name, seed, model))  # noqa: B023  # called at once
        done.append(one)
        versus = one["against_evening"], one["against_tuned"]
        print(
            f"{key}: "
            + ", ".join(f"{v['share']:+.1%} ({v['low']:+.1%} to {v['high']:+.1%})" for v in versus)
            + f", {one['seconds']:.0f} s",
            flush=True,
        )
        write(
            "contest",
            {
                "what": "python -m studies.contest; see studies/contest.toml",
                "seasons_wanted": len(wanted),
                "seasons_done": len(done),
                "mean_base_against_evening": _mean(done, "against_evening"),
                "mean_base_against_tuned": _mean(done, "against_tuned"),
                "seasons": done,
            },
            CODE,
        )


def _mean(done: list[dict[str, Any]], against: str) -> float:
    base = [one[against]["share"] for one in done if one["prices"] == "base" and one["model"] == 1.0]
    return float(np.mean(base)) if base else float("nan")


if __name__ == "__main__":
    main()
