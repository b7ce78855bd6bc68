"""The fires of the demo's diary: Aldermoor's two winters, run by the season kernel.

Run ``python -m studies.demo_fires``; writes ``holding/demo/fires.csv``, which the demo's diary reads.
Each winter has weather of its own, a made year free to fall as one of many does. At 17 o'clock the owner
looks at his three thermometers; when their mean is below 45 °C he lights with as much as store and house
can take, a whole fill or half of one; at half past eight he lays on half a fill if the store is not warm
yet. After a cold night he lights in the morning. He lights and lays on only while he is there.

Where the code has changed and the diary is to stay as it is: ``python -m studies.demo_fires --keep``
writes "made with older code" into the file's head.
"""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import Any

from woodreeve.season.cache import kernel_cache_folder

ROOT = Path(__file__).resolve().parent.parent
os.environ.setdefault("NUMBA_CACHE_DIR", kernel_cache_folder(str(ROOT / ".cache" / "kernels")))

import numpy as np

from studies.stamp import code_hash
from woodreeve.firing.presence import attended_spans, may_tend
from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.demo.diary import ENDS, ZONE
from woodreeve.holding.document import Holding
from woodreeve.holding.toml import load
from woodreeve.season import slots as s
from woodreeve.season.inputs import Fire
from woodreeve.season.run import Case, Result, run
from woodreeve.season.scene import scene
from woodreeve.season.year import rolled
from woodreeve.weather.typical import typical_year

CODE = (
    "src/woodreeve/season/slots.py",
    "src/woodreeve/season/column.py",
    "src/woodreeve/season/compiled.py",
    "src/woodreeve/season/fire.py",
    "src/woodreeve/season/kernel.py",
    "src/woodreeve/season/plans.py",
    "src/woodreeve/season/scene.py",
    "src/woodreeve/season/settle.py",
    "src/woodreeve/season/setup.py",
    "src/woodreeve/plant/boiler.py",
    "src/woodreeve/plant/layers.py",
    "src/woodreeve/plant/radiators.py",
    "src/woodreeve/house/dynamic.py",
    "src/woodreeve/weather/typical.py",
    "src/woodreeve/holding/demo/aldermoor.toml",
    "studies/demo_fires.py",
)
"""What the fires depend on."""
OUT = ROOT / "src" / "woodreeve" / "holding" / "demo" / "fires.csv"
OLDER = "made with older code"

SEED = 2024
WINTERS = ((date(2024, 9, 28), date(2025, 4, 29)), (date(2025, 9, 28), ENDS.date()))
"""First and last day on which a fire may be lit; the second winter ends where the demo opens."""
WARM_UP_DAYS = 14
"""Days run before the first fire, so that walls and store are as they would be. [day]"""
EVENING, LATE, MORNING, WEEKEND_MORNING = time(17), time(20, 30), time(6, 30), time(8, 30)
"""When the owner looks at the store."""
BELOW_C = {"evening": 45.0, "late": 62.0, "morning": 34.0}
"""The common evening rule's limit on the mean of the store, and his own for late and morning. [degC]"""
MOISTURE, HEAT_KWH_KG, EFFICIENCY = 0.18, 4.1, 0.80
"""Of the wood as he reckons with it. [-] [kWh/kg] [-]"""
HOUSE_KW_K, WARM_C, BURN_H = 0.43, 15.5, 8.0
"""What he reckons that the house takes while a fire burns: for each degree below. [kW/K] [degC] [h]"""


@dataclass(frozen=True, slots=True)
class Laid:
    """Wood laid on: when by the clock, lighting or refill, how much, and what the thermometers showed."""

    moment: datetime
    kind: str
    fills: float
    shown_c: tuple[float, ...]


def winter(holding: Holding, first: date, last: date, seed: int) -> list[Laid]:
    """One winter, looked at day by day: each look sees the store as all fires before it have left it."""
    normals = holding.normals()
    if normals is None:
        raise SystemExit("The demo holding has no climate normals.")
    before = first - timedelta(days=WARM_UP_DAYS)
    days = (last - before).days + 2
    weather = rolled(typical_year(normals, seed=seed, free=True), before.timetuple().tm_yday - 1, days)
    made = scene(holding.house, holding.plant, weather)
    begins = datetime.combine(before, time(), UTC)
    spans = attended_spans(holding.wishes.presence, begins, 24 * days, ZONE)
    dice = np.random.default_rng(seed)
    fill_kg = float(made.prepared.values[s.SPACE_KG])
    heights = [sensor.height for sensor in holding.plant.store.sensors]
    laid: list[Laid] = []
    fires: list[Fire] = []
    result: Result | None = None
    for look, when in _looks(first, last):
        moment = look + timedelta(minutes=int(dice.integers(0, 15)))
        hour = (moment.astimezone(UTC) - begins) / timedelta(hours=1)
        late = when == "late"
        if moment >= ENDS or not may_tend(holding.wishes.presence, spans, hour, lights=not late):
            continue
        if result is None:
            result = run(Case(prepared=made.prepared, hours=made.hours, firing=tuple(fires)))
        row = int(hour)
        shown = tuple(_at_height(result.store_c[row], height) for height in heights)
        mean = sum(shown) / len(shown)
        if mean >= BELOW_C[when] or late != bool(result.rows[row, s.BURNING] > 0.0):
            continue
        capacity = made.prepared.values[s.STORE_LAYER_J_K] * made.prepared.store.layers / 3.6e6
        room = (float(made.prepared.values[s.STORE_LIMIT_C]) - mean) * capacity
        use = HOUSE_KW_K * max(0.0, WARM_C - float(weather.temperature_c[row])) * BURN_H
        fits = (room + use) / (HEAT_KWH_KG * EFFICIENCY * fill_kg)
        fills = min(0.5 if late else 1.0, round(fits * 2.0) / 2.0)
        if fills < 0.5:
            continue
        laid.append(Laid(moment, "refilled" if late else "lit", fills, shown))
        fires.append(Fire(hour=hour, kg=fills * fill_kg, moisture=MOISTURE, heat_kwh_per_kg=HEAT_KWH_KG))
        result = None
    _say(run(Case(prepared=made.prepared, hours=made.hours, firing=tuple(fires))), laid)
    return laid


def _looks(first: date, last: date) -> Iterator[tuple[datetime, str]]:
    """The moments at which the owner looks at the store."""
    for number in range((last - first).days + 1):
        day = first + timedelta(days=number)
        yield datetime.combine(day, WEEKEND_MORNING if day.weekday() >= 5 else MORNING, ZONE), "morning"
        yield datetime.combine(day, EVENING, ZONE), "evening"
        yield datetime.combine(day, LATE, ZONE), "late"


def _at_height(column: Any, height: float) -> float:
    """What a thermometer shows at a height of the store."""
    middles = (np.arange(column.size) + 0.5) / column.size
    return float(np.interp(height, middles, column))


def _say(result: Result, laid: list[Laid]) -> None:
    print(
        f"{result.total(s.FIRES):.0f} fires, {result.total(s.REFILLS):.0f} refills, "
        f"{sum(one.fills for one in laid):g} fills, {result.total(s.LOADED_KG):.0f} kg "
        f"(no room for {result.total(s.REFUSED_KG):.0f} more), "
        f"backup {result.kwh(s.BACKUP_HEAT_J):.0f} kWh, "
        f"hottest store {result.total(s.HOTTEST_STORE_C):.0f} degC",
        flush=True,
    )


def _rows(laid: list[Laid]) -> str:
    """The table under the head of the file."""
    lines = ["moment,kind,fills,store_top_c,store_middle_c,store_bottom_c"]
    for one in sorted(laid, key=lambda each: each.moment):
        shown = [f"{value:.0f}" for value in one.shown_c]
        lines.append(",".join([f"{one.moment:%Y-%m-%dT%H:%M}", one.kind, f"{one.fills:g}", *shown]))
    return "\n".join(lines) + "\n"


def written(rows: str, day: str) -> str:
    """The whole file: what it is, its seed and day, and digests of the code and of the rows."""
    return (
        "# Fires of the demo's two winters, made by python -m studies.demo_fires; do not edit.\n"
        f"# seed {SEED}; made {day}; code {code_hash(CODE)}; rows {digest(rows)}\n{rows}"
    )


def digest(rows: str) -> str:
    """A digest of the table, so that a line changed by hand is noticed."""
    return hashlib.sha256(rows.encode()).hexdigest()[:16]


def main() -> None:
    """Run both winters and write the file, or mark it as made with older code."""
    if "--keep" in sys.argv:
        text = OUT.read_text(encoding="utf-8")
        if code_hash(CODE) not in text and OLDER not in text:
            OUT.write_text(text.replace("; code ", f"; {OLDER}; code ", 1), encoding="utf-8")
        return
    holding = load(demo_holding_text())
    laid = [
        one
        for number, (first, last) in enumerate(WINTERS)
        for one in winter(holding, first, last, SEED + number)
    ]
    OUT.write_text(written(_rows(laid), datetime.now(tz=UTC).date().isoformat()), encoding="utf-8")


if __name__ == "__main__":
    main()
