"""How long the commands take from a cold start: each in a new process, its bytecode already written.

Run ``python -m bench.cli``; the figures go to the screen and to ``measured/bench_cli.json``.
"""

from __future__ import annotations

import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from typing import Any

from studies.stamp import ROOT, write

ROUNDS = 7

COMMANDS: dict[str, float | None] = {
    "--help": 0.15,
    "stacks --demo": 1.5,
    "winter --demo": 2.5,
    "winter --demo --json": None,
    "diary list --demo": None,
    "why stacks stacks.0.heat_kwh --demo": None,
    "holding show --demo": None,
    "work-out": None,
    "work-out net_heat": None,
    "doctor": None,
}
"""Commands, and the seconds that each may take where somebody has said so."""

CODE = ["src/woodreeve/**/*.py"]


def _run(command: str, folder: str) -> tuple[float, float]:
    """Seconds on the clock and of the processor for one run."""
    program = [sys.executable, "-c", "from woodreeve.cli.main import main; main()", *command.split()]
    environment = {**os.environ, "XDG_DATA_HOME": folder, "XDG_CACHE_HOME": folder, "COLUMNS": "80"}
    before, begin = os.times(), time.perf_counter()
    subprocess.run(program, check=True, capture_output=True, env=environment, cwd=ROOT)
    seconds, after = time.perf_counter() - begin, os.times()
    used = after.children_user - before.children_user + after.children_system - before.children_system
    return seconds, used


def measure() -> dict[str, Any]:
    """Run each command several times; the first run, which writes bytecode, does not count."""
    found: dict[str, Any] = {}
    with tempfile.TemporaryDirectory() as folder:
        for command, wanted in COMMANDS.items():
            _run(command, folder)
            runs = [_run(command, folder) for _ in range(ROUNDS)]
            seconds = [run[0] for run in runs]
            found[command] = {
                "best_s": round(min(seconds), 3),
                "median_s": round(statistics.median(seconds), 3),
                "processor_s": round(min(run[1] for run in runs), 3),
                "wanted_s": wanted,
            }
    return {
        "what": f"commands from a cold start, {ROUNDS} runs each",
        "commands": found,
        "load_average": round(os.getloadavg()[0], 2),
        "processors": os.cpu_count(),
        "machine": platform.machine(),
    }


def main() -> None:
    """Measure, say so, and write it down."""
    figures = measure()
    for command, one in figures["commands"].items():
        limit = f"(wanted: under {one['wanted_s']} s)" if one["wanted_s"] else ""
        print(f"{command:38} best {one['best_s']:.3f} s, median {one['median_s']:.3f} s {limit}")
    print(f"load average {figures['load_average']}, {figures['processors']} processors")
    write("bench_cli", figures, CODE)


if __name__ == "__main__":
    main()
