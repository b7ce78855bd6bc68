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

import numpy as np  # noqa: E402  # the cache folder must be named before the compiler is imported

from studies.stamp import write  # noqa: E402
from tests.firing.grounds import ASH, ground  # noqa: E402
from tests.firing.test_search import EVENING  # noqa: E402
from woodreeve.firing.polish import best_plan  # noqa: E402
from woodreeve.firing.search import SIZES, Ground, Laid, play, search  # noqa: E402

CASES = ((42.0, 2.0, 7), (60.0, -2.0, 8), (45.0, 6.0, 9), (38.0, -5.0, 10), (70.0, 3.0, 11), (42.0, 0.0, 12))
"""Store [degC], mean outdoors [degC] and seed of the weather."""
REPEATS = 7


def on(hours: int, tail: int, case: tuple[float, float, int]) -> Ground:
    """The ground of one case."""
    store_c, mean_c, seed = case
    return ground(hours, tail=tail, store_c=store_c, weather={"mean_c": mean_c, "seed": seed})


def seconds(work: Callable[[], Any]) -> float:
    """Median time of a piece of work, once warm."""
    work()
    times = []
    for _ in range(REPEATS):
        begun = time.perf_counter()
        work()
        times.append(time.perf_counter() - begun)
    return statistics.median(times)


def of_length(days: int, tail: int) -> dict[str, Any]:
    """Time and closeness of plans of so many days."""
    hours = 24 * days
    times = [seconds(lambda case=case: best_plan(on(hours, tail, case))) for case in CASES]  # type: ignore[misc]  # a default binds the case
    gaps, longer = [], []
    for case in CASES:
        here = on(hours, tail, case)
        begun = time.perf_counter()
        plan = best_plan(here)
        short = time.perf_counter() - begun
        begun = time.perf_counter()
        best = search(here, width=1000 if days <= 3 else 1400, finer=4)[0].money
        longer.append((time.perf_counter() - begun) / short)
        assert plan is not None
        gaps.append(plan.money / min(best, plan.money) - 1.0)
    return {
        "days": days,
        "seconds_median": statistics.median(times),
        "seconds_worst": max(times),
        "longer_search_times": statistics.median(longer),
        "over_longer_search_mean": statistics.mean(gaps),
        "over_longer_search_worst": max(gaps),
    }


def small() -> dict[str, Any]:
    """Every plan of two evenings, one fire each at most, against what the search finds with the same sizes."""
    gaps = []
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
        best = min((one.money for one in play(here, [*singles, *both]) if one.keeps_limits))
        gaps.append(search(here, finer=1)[0].money / best - 1.0)
    return {
        "cases": len(gaps),
        "over_best_of_all_worst": max(gaps),
        "over_best_of_all_mean": float(np.mean(gaps)),
    }


def main() -> None:
    """Measure and write."""
    figures = {
        "what": "python -m bench.planner; times include what the search stands on, not the weather and the house",
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
