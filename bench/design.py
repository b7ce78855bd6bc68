"""How long the design helper's sweep takes: at least 300 plants through three winters, on two cores.

Run ``python -m bench.design``; the figures go to the screen and to ``measured/bench_design.json``.
"""

from __future__ import annotations

import os
import time
from pathlib import Path
from typing import Any

from woodreeve.season.cache import kernel_cache_folder

ROOT = Path(__file__).resolve().parent.parent
os.environ.setdefault("NUMBA_CACHE_DIR", kernel_cache_folder(str(ROOT / ".cache" / "kernels")))

from studies import stamp
from tests.answers.demo import demo
from woodreeve.answers import design
from woodreeve.errors import Refused
from woodreeve.season.sizes import Choices

CODE = (
    "src/woodreeve/season/*.py",
    "src/woodreeve/plant/boiler.py",
    "src/woodreeve/plant/layers.py",
    "src/woodreeve/plant/radiators.py",
    "src/woodreeve/house/dynamic.py",
    "src/woodreeve/answers/design.py",
    "bench/design.py",
)
"""What the figures depend on."""

WARM = Choices(
    boilers_kw=(25.0,), stores_litres=(1000.0, 1500.0), insulations=("as_it_is",), presences=("evening",)
)


def main() -> None:
    """Measure the sweep, the time a stop takes, and picking among runs that are done."""
    asking = demo()
    design.answer(asking, choices=WARM)
    told: list[float] = []
    begun, worked = time.perf_counter(), time.process_time()
    done = design.tried(asking, progress=lambda share: told.append(share) is None)
    seconds, processor = time.perf_counter() - begun, time.process_time() - worked
    begun = time.perf_counter()
    answer = design.weighed(asking, done, design.Picked())
    weighed = time.perf_counter() - begun
    begun = time.perf_counter()
    try:
        design.tried(asking, progress=lambda _: False)
    except Refused:
        stopped = time.perf_counter() - begun
    figures: dict[str, Any] = {
        "what": "The design helper's sweep on the demonstration holding, warm, two threads.",
        "variants": len(answer.lines),
        "winters": len(answer.weathers),
        "runs": len(answer.lines) * len(answer.weathers),
        "seconds": seconds,
        "processor_seconds": processor,
        "processor_seconds_halved": processor / 2.0,
        "times_progress_was_told": len(told),
        "seconds_until_stopped": stopped,
        "seconds_to_pick_anew": weighed,
        "load_while_measuring": os.getloadavg()[0],
        "processors": os.cpu_count(),
    }
    for name, value in figures.items():
        print(f"{name}: {value}")
    print(stamp.write("bench_design", figures, CODE))


if __name__ == "__main__":
    main()
