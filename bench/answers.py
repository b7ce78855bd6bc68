"""How long the first answers take in a running program, on the demo's diary and on one of 20,000 entries.

Run ``python -m bench.answers``; the figures go to the screen and to ``measured/bench_answers.json``.
"""

from __future__ import annotations

import os
import platform
import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

from bench.fold import BEGIN, ENTRIES, busy_years
from studies.stamp import write
from woodreeve.answers import diary, stacks, winter
from woodreeve.holding.demo import DEMO_MOMENT, demo_entries, demo_holding_text
from woodreeve.records.asking import Asking
from woodreeve.records.demo import demo_household
from woodreeve.workings.load import load_all
from woodreeve.workings.why import figures_of, open_figure

ROUNDS = 15
WANTED_WINTER_S = 0.3

CODE = ["src/woodreeve/**/*.py", "bench/fold.py"]


def _seconds(work: Callable[[], object], rounds: int = ROUNDS) -> dict[str, float]:
    work()
    taken = []
    for _ in range(rounds):
        begin = time.perf_counter()
        work()
        taken.append(time.perf_counter() - begin)
    return {"best_s": round(min(taken), 4), "median_s": round(statistics.median(taken), 4)}


def _traced() -> object:
    """The winter answer under a trace, and its cover opened: a click on a figure."""
    with Asking(demo_holding_text(), DEMO_MOMENT, entries=demo_entries()).traced() as fresh:
        answer = winter.answer(fresh)
    return open_figure(answer, "cover")


def _every_figure() -> int:
    with Asking(demo_holding_text(), DEMO_MOMENT, entries=demo_entries()).traced() as fresh:
        answer = winter.answer(fresh)
    return sum(len(open_figure(answer, path).steps) for path, _ in figures_of(answer))


def measure() -> dict[str, Any]:
    """Each answer as a page asks it: holding and diary read from the records, nothing remembered."""
    load_all()
    found: dict[str, Any] = {}
    with tempfile.TemporaryDirectory() as folder:
        household = demo_household(path=Path(folder) / "demonstration.sqlite3")
        for question in (winter, stacks, diary):
            name = question.__name__.rsplit(".", 1)[-1]
            found[name] = _seconds(lambda asked=question.answer: asked(household.ask()))
        asking = household.ask()
        found["winter, remembered"] = _seconds(
            lambda: household.remembered(winter.answer, household.ask(asking.moment))
        )
        household.close()
    found["winter, one figure opened"] = _seconds(_traced, 5)
    found["winter, every figure opened"] = _seconds(_every_figure, 3)
    entries = tuple(busy_years(ENTRIES))
    last = BEGIN + timedelta(minutes=262 * ENTRIES)
    found[f"winter, {ENTRIES} entries"] = _seconds(
        lambda: winter.answer(Asking(demo_holding_text(), last, entries=entries)), 3
    )
    found["winter"]["wanted_s"] = WANTED_WINTER_S
    return {
        "what": f"answers of a running program, {ROUNDS} runs or fewer",
        "answers": found,
        "load_average": round(os.getloadavg()[0], 2),
        "processors": os.cpu_count(),
        "machine": platform.machine(),
    }


def main() -> None:
    """Measure, say so, and write it down."""
    figures = measure()
    for name, one in figures["answers"].items():
        limit = f" (wanted: under {one['wanted_s']} s)" if "wanted_s" in one else ""
        print(f"{name:30} best {one['best_s']:.4f} s, median {one['median_s']:.4f} s{limit}")
    write("bench_answers", figures, CODE)


if __name__ == "__main__":
    main()
