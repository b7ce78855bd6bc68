"""What it costs that a formula checks its arguments and can be traced.

Run ``python -m bench.workings``; the figures go to the screen and to ``measured/bench_workings.json``.
"""

from __future__ import annotations

import hashlib
import json
import platform
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from timeit import Timer
from typing import Any

import numpy as np

from woodreeve.units import Celsius, RelativeHumidity
from woodreeve.workings import Trace
from woodreeve.workings.load import load_all
from woodreeve.workings.registry import WorkedFunction, _write_wrapper, registry

ROOT = Path(__file__).resolve().parent.parent
REPEATS = 9
WANTED_SCALAR_US = 1.0
WANTED_ARRAY_US = 3.0

SCALARS: dict[str, tuple[Any, ...]] = {
    "to_dry_basis": (0.2,),
    "net_heat": (18.9, 0.2),
    "equilibrium_moisture": (10.0, 0.8),
    "ash_mass": (8000.0, 0.0046),
}
SIZES = (12, 8760, 100_000)


def best_us(call: Callable[[], object], number: int) -> float:
    """The quickest of several repeats, for one call."""
    return min(Timer(call).repeat(REPEATS, number)) / number * 1e6


def scalar(name: str, arguments: tuple[Any, ...]) -> dict[str, Any]:
    """One formula on plain numbers: bare, worked, and worked under a trace."""
    bare, worked = registry[name].bare, registry[name].call
    plain = best_us(lambda: bare(*arguments), 100_000)
    checked = best_us(lambda: worked(*arguments), 100_000)

    def in_a_trace() -> None:
        with Trace():
            for _ in range(100):
                worked(*arguments)

    return {
        "bare_us": round(plain, 3),
        "worked_us": round(checked, 3),
        "ratio": round(checked / plain, 2),
        "over_us": round(checked - plain, 3),
        "wanted_over_us": WANTED_SCALAR_US,
        "traced_us": round(best_us(in_a_trace, 20) / 100, 2),
    }


def _nothing(air_c: Celsius, relative_humidity: RelativeHumidity) -> Celsius:
    """Do nothing, so that the checks alone are timed."""
    return air_c


def array(size: int) -> dict[str, Any]:
    """Many hours at once: the checks alone, against a lone pass for least and greatest of each argument."""
    dice = np.random.default_rng(1)
    air, humidity = dice.uniform(-5.0, 30.0, size), dice.uniform(0.3, 1.0, size)
    empty = WorkedFunction(_nothing)
    checked = _write_wrapper(empty)
    number = 20_000 if size < 10_000 else 2_000
    plain_us = best_us(lambda: _nothing(air, humidity), number)  # type: ignore[arg-type]  # arrays on purpose
    checked_us = best_us(lambda: checked(air, humidity), number)
    extremes_us = best_us(lambda: (air.min(), air.max(), humidity.min(), humidity.max()), number)
    formula = registry["equilibrium_moisture"]
    rounds = max(20, 200_000 // size)
    return {
        "size": size,
        "checks_us": round(checked_us - plain_us, 2),
        "extremes_us": round(extremes_us, 2),
        "over_extremes_us": round(checked_us - plain_us - extremes_us, 2),
        "wanted_over_extremes_us": WANTED_ARRAY_US,
        "equilibrium_bare_us": round(best_us(lambda: formula.bare(air, humidity), rounds), 1),
        "equilibrium_worked_us": round(best_us(lambda: formula.call(air, humidity), rounds), 1),
    }


def sources_hash() -> str:
    """A digest of all that the figures depend on."""
    digest = hashlib.sha256()
    paths = [*(ROOT / "src/woodreeve/workings").glob("*.py"), ROOT / "src/woodreeve/units.py"]
    for path in sorted(paths):
        digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def measure() -> dict[str, Any]:
    """All of it."""
    load_all()
    return {
        "what": "a worked call over the bare function, quickest of several repeats",
        "scalars": {name: scalar(name, arguments) for name, arguments in SCALARS.items()},
        "arrays": [array(size) for size in SIZES],
        "date": datetime.now(UTC).date().isoformat(),
        "sources": sources_hash(),
        "python": platform.python_version(),
        "numpy": np.__version__,
        "machine": platform.machine(),
    }


def main() -> None:
    """Measure, print side by side and write down."""
    found = measure()
    columns = ("bare us", "worked us", "ratio", "over us", "traced us")
    print(
        f"{'plain numbers':22}" + "".join(f"{name:>11}" for name in columns) + f"  over < {WANTED_SCALAR_US}"
    )
    for name, row in found["scalars"].items():
        figures = (row[key] for key in ("bare_us", "worked_us", "ratio", "over_us", "traced_us"))
        print(f"{name:22}" + "".join(f"{figure:11.3f}" for figure in figures))
    columns = ("checks us", "min/max us", "beyond us", "bare us", "worked us")
    print(f"{'arrays of':22}" + "".join(f"{name:>11}" for name in columns) + f"  beyond <= {WANTED_ARRAY_US}")
    for row in found["arrays"]:
        keys = (
            "checks_us",
            "extremes_us",
            "over_extremes_us",
            "equilibrium_bare_us",
            "equilibrium_worked_us",
        )
        print(f"{row['size']:<22}" + "".join(f"{row[key]:11.2f}" for key in keys))
    target = ROOT / "measured" / "bench_workings.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(json.dumps(found, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
