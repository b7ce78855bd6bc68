"""How fine is fine enough: the season kernel at several steps and layers against a very fine run.

Run ``python -m studies.convergence``; writes ``measured/convergence.json`` and the table of the docs.
The same fires at the same hours in every run, so that only the reckoning differs, not a rule's choices.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from woodreeve.season.cache import kernel_cache_folder

ROOT = Path(__file__).resolve().parent.parent
os.environ.setdefault("NUMBA_CACHE_DIR", kernel_cache_folder(str(ROOT / ".cache" / "kernels")))

import numpy as np

from bench.kernel import year
from studies import stamp
from tests.season.plants import PLANT, ROOMS, changed
from woodreeve.plant.fields import Plant
from woodreeve.season import slots as s
from woodreeve.season.inputs import Fire
from woodreeve.season.run import Case, Result, run
from woodreeve.season.setup import Settings, prepare

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
    "bench/kernel.py",
    "studies/convergence.py",
)
"""What the figures depend on."""

SEED = 3
REFERENCE = (200, 5)
DEFAULT = (Settings().layers, Settings().step_s)
LADDER = [(10, 60), (20, 60), (30, 60), (40, 30), (80, 15)]
"""Finer from rung to rung; the default is one of them."""
GRID = [*LADDER, (30, 180), (30, 30), (20, 30), (40, 60), (40, 15), (100, 15)]
OTHER_YEARS = (1, 2, 4, 5, 6, 7)
"""Seeds of further made years, run at the default alone: how much one year's figure is worth."""
BANDS = 10
"""Top and bottom are compared over the same tenth of the height, never layer with layer."""


def fires() -> tuple[Fire, ...]:
    """A fire each evening of the heating season, larger in midwinter."""
    return tuple(
        Fire(hour=24.0 * day + 17.0, kg=26.0 if day < 75 or day > 320 else 16.0)
        for day in range(365)
        if day < 120 or day > 280
    )


def simulate(plant: Plant, layers: int, step_s: int, seed: int = SEED) -> Result:
    """The same year at one setting."""
    ready = prepare(plant, ROOMS, settings=Settings(layers=layers, step_s=step_s))
    return run(Case(prepared=ready, hours=year(seed), firing=fires()))


def backup_kwh(result: Result) -> float:
    """Heat that the backup gave."""
    return result.kwh(s.BACKUP_TO_ROOMS_J) + result.kwh(s.BACKUP_TO_COIL_J) + result.kwh(s.BACKUP_TO_STORE_J)


def band(result: Result, number: int) -> Any:
    """Mean temperature of one tenth of the store's height."""
    each = result.store_c.shape[1] // BANDS
    return result.store_c[:, number * each : (number + 1) * each].mean(axis=1)


def rms(difference: Any) -> float:
    """Root of the mean square."""
    return float(np.sqrt(np.mean(difference**2)))


def compared(plant: Plant) -> dict[str, Any]:
    """All settings beside the reference, for one plant."""
    fine = simulate(plant, *REFERENCE)
    demand = sum(fine.kwh(row) for row in (s.RADIATED_1_J, s.RADIATED_2_J, s.TAPPED_J))
    table = []
    for layers, step_s in GRID:
        coarse = simulate(plant, layers, step_s)
        table.append(
            {
                "layers": layers,
                "step_s": step_s,
                "mean_store_rms_k": rms(coarse.store_c.mean(axis=1) - fine.store_c.mean(axis=1)),
                "top_tenth_rms_k": rms(band(coarse, BANDS - 1) - band(fine, BANDS - 1)),
                "bottom_tenth_rms_k": rms(band(coarse, 0) - band(fine, 0)),
                "backup_of_demand": (backup_kwh(coarse) - backup_kwh(fine)) / demand,
                "standing_loss": coarse.kwh(s.STORE_LOSS_J) / fine.kwh(s.STORE_LOSS_J) - 1.0,
                "store_balance_open": coarse.store_balance().open_share,
            }
        )
        print(table[-1], flush=True)
    rungs = [next(row for row in table if (row["layers"], row["step_s"]) == rung) for rung in LADDER]
    errors = [row["mean_store_rms_k"] for row in rungs]
    return {
        "demand_kwh": demand,
        "backup_kwh": backup_kwh(fine),
        "fires": fine.total(s.FIRES),
        "monotone": errors == sorted(errors, reverse=True),
        "table": table,
    }


def other_years(plant: Plant) -> list[dict[str, float]]:
    """The default beside the reference in other weather."""
    told = []
    for seed in OTHER_YEARS:
        fine, coarse = simulate(plant, *REFERENCE, seed), simulate(plant, *DEFAULT, seed)
        demand = sum(fine.kwh(row) for row in (s.RADIATED_1_J, s.RADIATED_2_J, s.TAPPED_J))
        told.append(
            {
                "seed": seed,
                "mean_store_rms_k": rms(coarse.store_c.mean(axis=1) - fine.store_c.mean(axis=1)),
                "backup_of_demand": (backup_kwh(coarse) - backup_kwh(fine)) / demand,
                "hours_switched_otherwise": int(
                    np.sum(coarse.series(s.ON_BACKUP) != fine.series(s.ON_BACKUP))
                ),
            }
        )
        print(told[-1], flush=True)
    return told


def main() -> None:
    """Run all settings and write the figures down."""
    alone = changed(backup={"enabled": "never"})
    figures = {
        "seed": SEED,
        "reference": {"layers": REFERENCE[0], "step_s": REFERENCE[1]},
        "default": {"layers": DEFAULT[0], "step_s": DEFAULT[1]},
        "ladder": LADDER,
        "with_backup": compared(PLANT),
        "without_backup": compared(alone),
        "other_years": {"with_backup": other_years(PLANT), "without_backup": other_years(alone)},
    }
    stamp.write("convergence", figures, CODE)


if __name__ == "__main__":
    main()
