"""How long it takes to follow stacks: one by itself, and 200 over two years with 500 copies each.

Run ``python -m bench.seasoning``; the figures go to the screen and to ``measured/bench_seasoning.json``.
"""

from __future__ import annotations

import hashlib
import json
import os
import platform
import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

from woodreeve.learning.many import StackTask, follow_stacks
from woodreeve.learning.stack import follow_stack
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import trial_climate

STACKS = 200
DAYS = 730
COPIES = 500
ROUNDS = 5
WOODS = ("beech", "ash", "silver_birch", "pedunculate_oak", "norway_spruce")
START = date(2025, 3, 1)
NOW = date(2025, 8, 15)
ROOT = Path(__file__).resolve().parent.parent


def tasks() -> list[StackTask]:
    """Stacks of all kinds, each with two readings."""
    weather = trial_climate("south England", start=START, days=DAYS)
    found = []
    for number in range(STACKS):
        stack = DryingStack(
            name=f"stack {number}",
            wood=WOODS[number % len(WOODS)],
            start=START,
            thickness_mm=80.0 + number % 60,
            length_mm=(250.0, 330.0, 500.0, 1000.0)[number % 4],
            covers=(CoverSpell(since=START + timedelta(days=number % 90), cover="roof"),),
        )
        readings = tuple(
            StackReading(
                taken=START + timedelta(days=day), kind="value", moisture=value, sd=0.025, how="meter"
            )
            for day, value in ((90, 0.27), (150, 0.21))
        )
        found.append(StackTask(stack=stack, weather=weather, readings=readings))
    return found


def timed(work: Callable[[], Any]) -> list[float]:
    """Times of several rounds."""
    seconds = []
    for _ in range(ROUNDS):
        begin = time.perf_counter()
        work()
        seconds.append(round(time.perf_counter() - begin, 4))
    return seconds


def measure() -> dict[str, Any]:
    """Time both, after the kernel has been made ready."""
    all_tasks = tasks()
    first = all_tasks[0]

    def single() -> None:
        follow_stack(first.stack, first.weather, first.readings, now=NOW, copies=COPIES)

    begin = time.perf_counter()
    single()
    ready = time.perf_counter() - begin
    shares: list[float] = []
    one = timed(single)
    many = timed(lambda: follow_stacks(all_tasks, now=NOW, copies=COPIES, progress=shares.append))
    return {
        "what": f"{STACKS} stacks x {DAYS} days x {COPIES} copies, two readings each, two threads",
        "seconds": many,
        "best_s": min(many),
        "wanted_s": 5.0,
        "single_seconds": one,
        "single_best_s": min(one),
        "single_wanted_s": 0.1,
        "first_call_s": round(ready, 2),
        "progress_calls": len(shares) // ROUNDS,
        "date": datetime.now(tz=UTC).date().isoformat(),
        "sources": sources_hash(),
        "python": platform.python_version(),
        "machine": platform.machine(),
        "cores": os.cpu_count(),
    }


def sources_hash() -> str:
    """A digest of all that the figures depend on."""
    digest = hashlib.sha256()
    for path in sorted((ROOT / "src/woodreeve").glob("*/*.py")):
        if path.parent.name in ("learning", "wood", "workings"):
            digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def main() -> None:
    """Measure, say so, and write it down."""
    figures = measure()
    target = ROOT / "measured" / "bench_seasoning.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(json.dumps(figures, indent=2) + "\n", encoding="utf-8")
    print(f"{figures['what']}: best of {ROUNDS} {figures['best_s']:.2f} s (wanted: under 5 s)")
    print(
        f"one stack, every day shown: best of {ROUNDS} {figures['single_best_s']:.3f} s (wanted: under 0.1 s)"
    )


if __name__ == "__main__":
    main()
