"""How long the diary takes to add up: 20,000 entries, as ten busy years would leave them.

Run ``python -m bench.fold``; the figures go to the screen and to ``measured/bench_fold.json``.
"""

from __future__ import annotations

import hashlib
import json
import platform
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import numpy as np

from woodreeve.diary.amounts import ContainerSize
from woodreeve.diary.fold import fold
from woodreeve.diary.kinds import Entry, current_form

ENTRIES = 20_000
ROUNDS = 5
ROOT = Path(__file__).resolve().parent.parent
BEGIN = datetime(2015, 9, 1, 8, 0, tzinfo=timezone(timedelta(hours=1)))
STACKS = [f"stack {number}" for number in range(1, 13)]
CONTAINERS = [ContainerSize(name="barrow", litres=90.0), ContainerSize(name="basket", litres=45.0)]


def busy_years(count: int, seed: int = 1) -> Iterator[Entry]:
    """Make up a diary in which everything is written down, corrections included."""
    dice = np.random.default_rng(seed)
    kinds = [
        "lit",
        "refilled",
        "brought_in",
        "measured",
        "stacked",
        "counted",
        "sold",
        "ash_out",
        "correction",
    ]
    chances = [0.3, 0.2, 0.2, 0.1, 0.05, 0.03, 0.03, 0.04, 0.05]
    fires: list[str] = []
    for number in range(count):
        kind = str(dice.choice(kinds, p=chances))
        happened = BEGIN + timedelta(minutes=int(number * 262))
        stack = str(dice.choice(STACKS))
        fills: dict[str, Any] = {"count": int(dice.integers(1, 4)), "container": "barrow"}
        if kind == "correction" and not fires:
            kind = "lit"
        payload: dict[str, Any] = {
            "lit": fills | {"store_top_c": 48.5},
            "refilled": {"mass_kg": 32.5, "moisture": 0.18},
            "brought_in": fills | {"from_place": stack},
            "measured": {"place": stack, "shown_percent": [19.5, 21.0, 18.0, 24.5, 20.0], "basis": "dry"},
            "stacked": {"place": stack, "stacked_m3": 6.5, "species": "ash", "log_cm": 50},
            "counted": {"place": stack, "rows": [{"length_m": 4.2, "height_m": 1.6, "log_cm": 50}]},
            "sold": {"place": stack, "stacked_m3": 0.5, "customer": "Mill Cottage", "price": 55},
            "ash_out": {"litres": 10},
            "correction": {"target": str(dice.choice(fires)) if fires else "", "payload": fills},
        }[kind]
        entry_id = dice.bytes(16).hex()
        if kind == "lit":
            fires.append(entry_id)
        yield Entry(
            id=entry_id,
            holding="bench",
            kind=kind,
            form=current_form(kind),
            happened=happened,
            entered=happened + timedelta(minutes=5),
            by="owner",
            payload=payload,
        )


def sources_hash() -> str:
    """A digest of all that the figures depend on."""
    digest = hashlib.sha256()
    for path in sorted((ROOT / "src/woodreeve").glob("[dw]*/*.py")):
        if path.parent.name in ("diary", "wood", "workings"):
            digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def measure() -> dict[str, Any]:
    """Fold the same diary several times and keep every time taken."""
    entries = list(busy_years(ENTRIES))
    seconds, processor_seconds = [], []
    for _ in range(ROUNDS):
        begin, processor_begin = time.perf_counter(), time.process_time()
        folded = fold(entries, CONTAINERS)
        seconds.append(round(time.perf_counter() - begin, 4))
        processor_seconds.append(round(time.process_time() - processor_begin, 4))
    return {
        "what": f"fold of {ENTRIES} diary entries",
        "seconds": seconds,
        "processor_seconds": processor_seconds,
        "best_s": min(seconds),
        "wanted_s": 1.0,
        "entries_standing": folded.count,
        "date": datetime.now(tz=UTC).date().isoformat(),
        "sources": sources_hash(),
        "python": platform.python_version(),
        "machine": platform.machine(),
    }


def main() -> None:
    """Measure, say so, and write it down."""
    figures = measure()
    target = ROOT / "measured" / "bench_fold.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(json.dumps(figures, indent=2) + "\n")
    print(f"{figures['what']}: best of {ROUNDS} {figures['best_s']:.2f} s (wanted: under 1 s)")


if __name__ == "__main__":
    main()
