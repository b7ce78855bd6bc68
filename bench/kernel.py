"""How fast the season kernel is: beside C, beside a general solver, in batches, and from a cold start.

Run ``python -m bench.kernel``; the figures go to the screen and to ``measured/bench_kernel.json``.
"""

from __future__ import annotations

import ctypes
import json
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from woodreeve.season.cache import kernel_cache_folder

ROOT = Path(__file__).resolve().parent.parent
os.environ.setdefault("NUMBA_CACHE_DIR", kernel_cache_folder(str(ROOT / ".cache" / "kernels")))

import numpy as np
from scipy.integrate import solve_ivp

from bench import _equations as ode
from bench._to_c import source
from studies import stamp
from tests.season.plants import CAPACITIES, ROOMS, changed, prepared
from woodreeve.plant.hot_water import tapping_powers
from woodreeve.season import slots as s
from woodreeve.season.batch import LANES, run_many
from woodreeve.season.inputs import Fire, FiringRule, Hours, day_pattern
from woodreeve.season.run import Case, Lanes

CODE = (
    "src/woodreeve/season/slots.py",
    "src/woodreeve/season/column.py",
    "src/woodreeve/season/compiled.py",
    "src/woodreeve/season/fire.py",
    "src/woodreeve/season/kernel.py",
    "src/woodreeve/season/plans.py",
    "src/woodreeve/season/run.py",
    "src/woodreeve/season/settle.py",
    "src/woodreeve/season/setup.py",
    "src/woodreeve/plant/boiler.py",
    "src/woodreeve/plant/layers.py",
    "src/woodreeve/plant/radiators.py",
    "src/woodreeve/house/dynamic.py",
    "tests/season/plants.py",
    "src/woodreeve/season/batch.py",
    "bench/kernel.py",
    "bench/_to_c.py",
    "bench/_equations.py",
)
"""What the figures depend on."""

PAIRS = 15
FLAGS = {
    "gcc -O3 -ffast-math": ["-O3", "-ffast-math"],
    "gcc -O3 -ffast-math -march=native": ["-O3", "-ffast-math", "-march=native"],
}
PER_YEAR = 8760 * 60


def year(seed: int = 3, hours: int = 8760) -> Hours:
    """A made-up year: seasons, days, weather that drifts, sun, set-back at night and draws."""
    t = np.arange(hours)
    drift = np.repeat(np.random.default_rng(seed).normal(0.0, 2.5, -(-hours // 24)), 24)[:hours]
    outdoor = 9.0 - 6.5 * np.cos((t / 24 - 20) / 365 * 2 * np.pi) + 3.0 * np.sin((t % 24 - 9) / 12 * np.pi)
    sun = (
        400.0
        * np.clip(np.sin((t % 24 - 6) / 12 * np.pi), 0, None)
        * (1 - 0.6 * np.cos((t / 24 - 10) / 365 * 2 * np.pi))
    )
    return Hours(
        outdoor_c=outdoor + drift,
        sun_downstairs_w=sun,
        sun_upstairs_w=0.7 * sun,
        wanted_downstairs_c=day_pattern(hours, np.where(np.arange(24) < 6, 17.0, 20.0)),
        tap_powers_w=tapping_powers("M"),
    )


def evening(number: int = 0) -> FiringRule:
    """The common evening rule, a little different for each number."""
    return FiringRule(kg=22.0 + 0.05 * (number % 40), below_c=50.0 + 0.2 * (number % 25))


def cases(count: int, hours: list[Hours]) -> list[Case]:
    """Variants of the farmhouse: store, boiler and rule differ."""
    plants = [
        prepared(changed(store={"litres": 1500.0 + 10.0 * n}, boiler={"output_kw": 25.0 + 0.1 * n}))
        for n in range(20)
    ]
    return [
        Case(prepared=plants[n % 20], hours=hours[n % len(hours)], firing=evening(n)) for n in range(count)
    ]


def timed(act: Callable[[], object]) -> float:
    """Seconds that something takes."""
    begun = time.perf_counter()
    act()
    return time.perf_counter() - begun


def arrays(lanes: Lanes) -> list[Any]:
    """The kernel's arguments from the step numbers on."""
    return [
        lanes.X, lanes.T, lanes.U, lanes.store, lanes.cylinder, lanes.hours, lanes.weather_of, lanes.taps,
        lanes.event_step, lanes.event_row, lanes.event_value, lanes.cursor, lanes.record_step, lanes.history,
        lanes.table_1, lanes.table_2, lanes.work, lanes.net, lanes.drawn, lanes.warmth,
    ]  # fmt: skip


def in_c(folder: Path, name: str, flags: list[str]) -> Callable[[Lanes], None]:
    """The kernel in C, compiled with these flags."""
    (folder / "kernel.c").write_text(source())
    library = folder / f"{name}.so"
    subprocess.run(
        ["gcc", *flags, "-shared", "-fPIC", str(folder / "kernel.c"), "-o", str(library), "-lm"], check=True
    )
    loaded = ctypes.CDLL(str(library))

    def advance(lanes: Lanes) -> None:
        sizes = (ctypes.c_long * 5)(
            lanes.hours.shape[1],
            lanes.drawn.size,
            lanes.event_step.size,
            lanes.record_step.size,
            lanes.taps.size,
        )
        loaded.set_sizes(sizes)
        pointers = [array.ctypes.data_as(ctypes.c_void_p) for array in arrays(lanes)]
        loaded.advance(
            ctypes.c_long(0), ctypes.c_long(lanes.steps), ctypes.c_double(lanes.settings.step_s),
            ctypes.c_long(lanes.steps_per_hour), ctypes.c_long(0), *pointers,
        )  # fmt: skip

    return advance


def beside_c() -> dict[str, Any]:
    """One year, kernel and C in turn, 15 pairs for each set of flags."""
    case = Case(prepared=prepared(), hours=year(), firing=evening())
    told: dict[str, Any] = {"numba": "njit(nogil, error_model=numpy), strict IEEE, for this processor"}
    with tempfile.TemporaryDirectory() as folder:
        for number, (name, flags) in enumerate(FLAGS.items()):
            advance = in_c(Path(folder), str(number), flags)
            ours, theirs = [], []
            for _ in range(PAIRS + 1):
                one, two = Lanes([case], 1, None), Lanes([case], 1, None)
                ours.append(timed(lambda lanes=one: lanes.advance(lanes.steps)))
                theirs.append(timed(lambda lanes=two, c=advance: c(lanes)))
            differ = abs(two.X[s.CHARGED_J] - one.X[s.CHARGED_J]) / one.X[s.CHARGED_J]
            told[name] = {
                "kernel_s": statistics.median(ours[1:]),
                "c_s": statistics.median(theirs[1:]),
                "kernel_over_c": statistics.median(a / b for a, b in zip(ours[1:], theirs[1:])),
                "charged_heat_differs": differ,
                "least_ns_a_step": [min(ours[1:]) / PER_YEAR * 1e9, min(theirs[1:]) / PER_YEAR * 1e9],
            }
    return told


def beside_lsoda(days: int = 40) -> dict[str, Any]:
    """So many winter days by scipy's LSODA with a compiled right-hand side, and by the kernel."""
    hours = year(hours=24 * days)
    fires = tuple(Fire(hour=17.0 + 24 * day, kg=22.0) for day in range(days))
    case = Case(prepared=prepared(), hours=hours, firing=fires)
    ours = Lanes([case], 1, 1.0)
    Lanes([case], 1, 1.0).advance(60)
    kernel_s = timed(lambda: ours.advance(ours.steps))
    lanes = Lanes([case], 1, None)
    conductance, outward = _rooms()
    y = np.empty(ode.STORE + lanes.T.size - 1 + lanes.U.size - 1)
    y[:] = np.concatenate([[0.0, 15.0, 18.0, 18.0, 18.0, 18.0, 18.0, 18.0, 18.0], lanes.T[:-1], lanes.U[:-1]])
    taps = tapping_powers("M").reshape(24, 60)
    layers = lanes.T.size - 1
    evaluations = 0
    mean_store = []

    def whole() -> None:
        nonlocal y, evaluations
        lit = False
        for hour in range(24 * days):
            X = lanes.X
            for row, column in _HOURLY:
                X[row] = lanes.hours[0, hour, column]
            _curves(X)
            if hour % 24 == 17:
                lit = True
                y[ode.FUEL] += 22.0 * 4.1 * 3.6e6
                X[s.FUEL_MOISTURE] = 0.18
            for minutes in _pieces(taps[hour % 24]):
                on_backup = float(y[ode.STORE + layers - 1] < X[s.BACKUP_BELOW_C] and not lit)
                first, last = minutes[0] * 60.0, (minutes[-1] + 1) * 60.0
                found = solve_ivp(
                    ode.right_side, (first, last), y, method="LSODA", rtol=1e-3, atol=1e-3, t_eval=[last],
                    args=(X, lanes.store, lanes.cylinder, conductance, CAPACITIES, outward,
                          taps[hour % 24, minutes[0]], lit, on_backup),
                )  # fmt: skip
                if not found.success:
                    raise RuntimeError(found.message)
                y = found.y[:, -1]
                evaluations += found.nfev
                if lit and y[ode.FUEL] / 3960.0 < X[s.END_W]:
                    lit = False
            mean_store.append(y[ode.STORE : ode.STORE + layers].mean())

    ode.right_side(
        0.0, y, lanes.X, lanes.store, lanes.cylinder, conductance, CAPACITIES, outward, 0.0, False, 0.0
    )
    lsoda_s = timed(whole)
    kernel_mean = ours.results()[0].store_c[1:].mean(axis=1)
    return {
        "days": days,
        "kernel_s": kernel_s,
        "lsoda_s": lsoda_s,
        "lsoda_over_kernel": lsoda_s / kernel_s,
        "right_side_calls": evaluations,
        "mean_store_rms_k": float(np.sqrt(np.mean((kernel_mean - np.array(mean_store)) ** 2))),
    }


_HOURLY = (
    (s.OUTDOOR_C, s.HOUR_OUTDOOR_C), (s.SUN_1_W, s.HOUR_SUN_1_W), (s.SUN_2_W, s.HOUR_SUN_2_W),
    (s.INSIDE_1_W, s.HOUR_INSIDE_1_W), (s.INSIDE_2_W, s.HOUR_INSIDE_2_W), (s.SET_1_C, s.HOUR_SET_1_C),
    (s.SET_2_C, s.HOUR_SET_2_C), (s.COLD_WATER_C, s.HOUR_COLD_WATER_C),
)  # fmt: skip


def _rooms() -> tuple[Any, Any]:
    outward, between = np.zeros(4), np.zeros((4, 4))
    for number, zone in enumerate((ROOMS.downstairs, ROOMS.upstairs)):
        outward[2 * number : 2 * number + 2] = zone.air_out_w_k, zone.mass_out_w_k
        pairs = [(2 * number, 2 * number + 1, zone.between_w_k)]
        for i, j, value in [*pairs, *([(0, 2, ROOMS.across_w_k)] if number else [])]:
            between[i, i] += value
            between[j, j] += value
            between[i, j] -= value
            between[j, i] -= value
    return between, outward


def _curves(X: Any) -> None:
    from woodreeve.plant.radiators import heating_curve

    for z in range(2):
        X[s.CURVE_1_C + z] = heating_curve(
            float(X[s.OUTDOOR_C]), X[s.DESIGN_OUT_1_C + z], X[s.DESIGN_FLOW_1_C + z], X[s.MILD_OUT_1_C + z],
            X[s.MILD_FLOW_1_C + z], X[s.MOST_FLOW_1_C + z], X[s.EXPONENT_1 + z],
        )  # fmt: skip
        X[s.HEATING_1 + z] = float(X[s.OUTDOOR_C] < X[s.MILD_OUT_1_C + z])


def _pieces(taps: Any) -> list[list[int]]:
    """Minutes of an hour in stretches of equal draw."""
    pieces = [[0]]
    for minute in range(1, 60):
        if taps[minute] == taps[minute - 1]:
            pieces[-1].append(minute)
        else:
            pieces.append([minute])
    return pieces


def batches() -> dict[str, Any]:
    """Throughput of variants on one thread, of 1,000 years on two, and of single runs for comparison."""
    hours = [year(seed, 8760) for seed in range(4)]
    group = cases(LANES * 2, hours)
    run_many(group[:LANES], threads=1)
    single, batch = [], []
    for _ in range(5):
        alone = Lanes(group[:1], 1, None)
        single.append(timed(lambda lanes=alone: lanes.advance(lanes.steps)))
        batch.append(timed(lambda: run_many(group, threads=1)) / len(group))
    used = time.process_time()
    thousand = timed(lambda: run_many(cases(1000, hours), threads=2))
    used = time.process_time() - used
    return {
        "single_year_s": statistics.median(single),
        "batch_year_s": statistics.median(batch),
        "batch_over_single": statistics.median(a / b for a, b in zip(single, batch)),
        "thousand_years_two_threads_s": thousand,
        "thousand_years_processor_s": used,
        "load_while_measuring": os.getloadavg()[0],
        "processors": os.cpu_count(),
    }


START = """
import time
begun = time.perf_counter()
from tests.season.plants import prepared, winter
from woodreeve.season.inputs import FiringRule
from woodreeve.season.run import Case, run
case = Case(prepared=prepared(), hours=winter(365), firing=FiringRule(kg=22.0, below_c=50.0))
run(case, record_every_h=None)
first = time.perf_counter() - begun
begun = time.perf_counter()
run(case, record_every_h=None)
print(first, time.perf_counter() - begun)
"""


def starts() -> dict[str, float]:
    """First year from an empty cache, from a filled one in a new process, and once more in the same."""
    with tempfile.TemporaryDirectory() as folder:
        place = os.environ | {"NUMBA_CACHE_DIR": kernel_cache_folder(folder)}
        told = []
        for _ in range(4):
            done = subprocess.run(
                [sys.executable, "-c", START], env=place, cwd=ROOT, check=True, capture_output=True, text=True
            )
            told.append([float(part) for part in done.stdout.split()])
    return {
        "nothing_cached_s": told[0][0],
        "cached_new_process_s": statistics.median(first for first, _ in told[1:]),
        "warm_year_s": statistics.median(second for _, second in told[1:]),
    }


def main() -> None:
    """Measure all, say it and write it down."""
    figures: dict[str, Any] = {}
    for name, measure in (("c", beside_c), ("lsoda", beside_lsoda), ("batch", batches), ("start", starts)):
        print(f"{name} ...", flush=True)
        figures[name] = measure()
        print(json.dumps(figures[name], indent=1), flush=True)
    figures |= {
        "python": platform.python_version(),
        "machine": platform.machine(),
        "load": os.getloadavg()[0],
    }
    stamp.write("bench_kernel", figures, CODE)


if __name__ == "__main__":
    main()
