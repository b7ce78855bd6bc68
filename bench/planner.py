"""How fast plans come, and how near they are to the best of all and to a search a hundred times longer.

Run ``python -m bench.planner``; the figures go to the screen and to ``measured/bench_planner.json``.
"""

from __future__ import annotations

import os
import statistics
import time
from collections.abc import Callable
from itertools import product
from pathlib import Path
from typing import Any

from woodreeve.season.cache import kernel_cache_folder

ROOT = Path(__file__).resolve().parent.parent
os.environ.setdefault("NUMBA_CACHE_DIR", kernel_cache_folder(str(ROOT / ".cache" / "kernels")))

import numpy as np

from studies.stamp import write
from tests.firing.grounds import ASH, ground
from tests.firing.test_search import EVENING
from woodreeve.firing.polish import best_plan, polished
from woodreeve.firing.search import SIZES, Ground, Laid, play, search

CASES = ((42.0, 2.0, 7), (60.0, -2.0, 8), (45.0, 6.0, 9), (38.0, -5.0, 10), (70.0, 3.0, 11), (42.0, 0.0, 12))
"""Store [degC], mean outdoors [degC] and seed of the weather."""
REPEATS = 5
WIDE, POLISHED = 1000, 40


def on(hours: int, tail: int, case: tuple[float, float, int]) -> Ground:
    """The ground of one case."""
    store_c, mean_c, seed = case
    return ground(hours, tail=tail, store_c=store_c, weather={"mean_c": mean_c, "seed": seed})


def seconds(work: Callable[[], Any]) -> tuple[float, float]:
    """Median time of a piece of work, once warm: by the clock, and of the processor (it is one thread)."""
    work()
    clock, processor = [], []
    for _ in range(REPEATS):
        begun, spent = time.perf_counter(), time.process_time()
        work()
        clock.append(time.perf_counter() - begun)
        processor.append(time.process_time() - spent)
    return statistics.median(clock), statistics.median(processor)


def long_search(here: Ground) -> float:
    """The best of three wide searches with other sizes, the best forty plans of each polished to the end."""
    found = []
    for finer in (3, 4, 5):
        wide = search(here, width=WIDE, finer=finer)[:POLISHED]
        found += [polished(here, one, 12).money for one in wide]
    return min(found)


PLANS: dict[str, dict[str, int]] = {
    "usual": {"width": 16, "rounds": 1},
    "thorough": {"width": 24, "rounds": 4},
}
"""How a plan is asked for."""


def of_length(days: int, tail: int) -> dict[str, Any]:
    """Time and closeness of plans of so many days."""
    hours = 24 * days
    told: dict[str, Any] = {"days": days}
    for name, how in PLANS.items():
        times = [
            seconds(lambda case=case, how=how: best_plan(on(hours, tail, case), **how)) for case in CASES
        ]  # type: ignore[misc]  # defaults bind them
        told[name] = {
            "seconds_median": statistics.median(clock for clock, _ in times),
            "processor_seconds_median": statistics.median(processor for _, processor in times),
            "processor_seconds_worst": max(processor for _, processor in times),
        }
    gaps: dict[str, list[float]] = {name: [] for name in PLANS}
    longer = []
    for case in CASES[: 6 if days <= 3 else 3]:
        here = on(hours, tail, case)
        spent = time.process_time()
        best = long_search(here)
        longer.append(time.process_time() - spent)
        plans = {name: best_plan(here, **how) for name, how in PLANS.items()}
        best = min([best, *(plan.money for plan in plans.values() if plan is not None)])
        for name, plan in plans.items():
            assert plan is not None
            gaps[name].append(plan.money / best - 1.0)
    for name in PLANS:
        told[name] |= {
            "longer_search_times": statistics.median(longer) / told[name]["processor_seconds_median"],
            "over_longer_search_mean": statistics.mean(gaps[name]),
            "over_longer_search_worst": max(gaps[name]),
        }
    return told


def small() -> dict[str, Any]:
    """Every plan of two evenings, one fire each at most and six sizes, against what a plan takes."""
    gaps: dict[str, list[float]] = {name: [] for name in PLANS}
    for store_c, mean_c, seed in CASES:
        here = ground(48, presence=EVENING, store_c=store_c, weather={"mean_c": mean_c, "seed": seed})
        hours = [one.hour for one in here.tending if one.hour < 48]
        first = [hour for hour in hours if hour < 24]
        second = [hour for hour in hours if hour >= 24]
        singles: list[tuple[Laid, ...]] = [
            (),
            *((Laid(h, x * ASH.full_kg, 0, "light"),) for h in hours for x in SIZES),
        ]
        both: list[tuple[Laid, ...]] = [
            (Laid(a, x * ASH.full_kg, 0, "light"), Laid(b, y * ASH.full_kg, 0, "light"))
            for a, b, x, y in product(first, second, SIZES, SIZES)
        ]
        best = min(one.money for one in play(here, [*singles, *both]) if one.keeps_limits)
        for name, how in PLANS.items():
            plan = best_plan(here, **how)
            assert plan is not None
            gaps[name].append(max(plan.money / best - 1.0, 0.0))
    return {
        "cases": len(CASES),
        **{name: {"mean": float(np.mean(row)), "worst": max(row)} for name, row in gaps.items()},
    }


def main() -> None:
    """Measure and write."""
    figures = {
        "what": "python -m bench.planner; times with what a search stands on, without weather and house",
        "small": small(),
        "three_days": of_length(3, 48),
        "seven_days": of_length(7, 48),
        "load_average_at_end": os.getloadavg()[0],
    }
    print(figures)
    write(
        "bench_planner",
        figures,
        ["src/woodreeve/firing/*.py", "src/woodreeve/season/*.py", "bench/planner.py"],
    )


if __name__ == "__main__":
    main()
