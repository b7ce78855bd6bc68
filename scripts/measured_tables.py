"""Write the tables of measured figures that the docs show, or check that they are as they should be.

    python -m scripts.measured_tables            write docs/_tables/*.md
    python -m scripts.measured_tables --check    fail if one of them is not what the figures and the code give

A file under measured/ tells the code it was measured with by a hash. Where the code has changed since, the
table says so in a line of its own; it is for a person to decide whether to measure again. A table without
that line does not pass the check.
"""

from __future__ import annotations

import ast
import importlib
import json
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from scripts import firing_tables
from studies.stamp import code_hash
from woodreeve.season.cache import sources_digest

MEASURED = ROOT / "measured"
TABLES = ROOT / "docs" / "_tables"
MADE = "<!-- made by `python -m scripts.measured_tables`; do not edit -->"

Figures = Mapping[str, Any]


def read(name: str, folder: Path = MEASURED) -> dict[str, Any]:
    """The figures of one file."""
    figures: dict[str, Any] = json.loads((folder / f"{name}.json").read_text(encoding="utf-8"))
    return figures


def is_current(name: str, figures: Figures) -> bool | None:
    """Whether the code is still that of the figures; ``None`` where the file does not tell."""
    code = figures.get("code")
    if isinstance(code, dict):
        try:
            return bool(code_hash(code["files"]) == code["hash"])
        except FileNotFoundError:
            return False
    digest = figures.get("sources")
    if not isinstance(digest, str):
        return None
    script = script_of(name)
    if script is not None and "def sources_hash" in script.read_text(encoding="utf-8"):
        module = importlib.import_module(f"{script.parent.name}.{script.stem}")
        return bool(module.sources_hash() == digest)
    return sources_digest().startswith(digest)


def script_of(name: str) -> Path | None:
    """The script that wrote a file, by its name."""
    bench, study = (
        ROOT / "bench" / f"{name.removeprefix('bench_')}.py",
        ROOT / "studies" / f"{name}.py",
    )
    wanted = bench if name.startswith("bench_") else study
    return wanted if wanted.is_file() else None


def what_of(name: str, figures: Figures) -> str:
    """What was measured, in words: as the file tells, or else the first sentence of its script."""
    if isinstance(figures.get("what"), str):
        return str(figures["what"])
    script = script_of(name)
    told = ast.get_docstring(ast.parse(script.read_text(encoding="utf-8"))) if script else None
    return " ".join((told or "").split("\n\n")[0].split())


def age(name: str, figures: Figures) -> str:
    """The line under a table that tells its day, and whether its code is still the same."""
    day = figures.get("date") or str(figures.get("measured", ""))[:10] or "a day not told"
    told = {
        True: f"Measured on {day} with the code as it is.",
        False: f"Measured on {day} with older code.",
        None: f"Measured on {day}; the file does not tell with which code.",
    }
    return told[is_current(name, figures)]


def _table(heads: Sequence[str], rows: Sequence[Sequence[object]]) -> list[str]:
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    return lines + ["| " + " | ".join(str(cell) for cell in row) + " |" for row in rows]


def _signed(value: float, digits: int = 1) -> str:
    return f"{value:+.{digits}f}".replace("-", "−")


WAYS = {"station": "means, swing, spread, persistence", "twelve_means": "twelve mean temperatures alone"}
QUANTITIES = {
    "degree_days_15.5_off_percent": "degree days of the year, base 15.5 °C (%)",
    "degree_days_18_off_percent": "degree days of the year, base 18 °C (%)",
    "month_worst_kd": "degree days of the worst month (K·day)",
    "swing_off_percent": "daily swing (%)",
    "coldest_1_off_k": "coldest day (K)",
    "coldest_3_off_k": "coldest three days (K)",
    "coldest_7_off_k": "coldest seven days (K)",
}


def typical_year(figures: Figures) -> list[str]:
    """How near made years come to real ones."""
    places = len(figures["ways"]["station"]["places"])
    first, last = figures["seeds"]
    lines = [f"{places} places, {last - first + 1} made years each. Data: {figures['data']}.", ""]
    rows = []
    for key, label in QUANTITIES.items():
        row = [label]
        for way in WAYS:
            told = figures["ways"][way]["summary"]
            digits = 2 if "degree_days" in key else 1
            row += [f"{told[f'{key}_mean']:.{digits}f}", _signed(told[f"{key}_worst"], digits)]
        rows.append(row)
    heads = ["how far off", *(f"{text}: {kind}" for text in WAYS.values() for kind in ("mean size", "worst"))]
    lines += _table(heads, rows)
    lines += ["", "Each place, made from twelve mean temperatures alone:", ""]
    lines += _table(
        ["place", "degree days 15.5", "off %", "coldest 3 days °C", "off K"],
        [
            [
                row["place"],
                row["degree_days_15.5"],
                _signed(row["degree_days_15.5_off_percent"], 2),
                row["coldest_3_c"],
                _signed(row["coldest_3_off_k"]),
            ]
            for row in figures["ways"]["twelve_means"]["places"]
        ],
    )
    return lines


HOUSES = {
    "plain": "plain house of 20,000 kWh",
    "farmhouse": "large farmhouse",
    "farmhouse_bare": "the same without set-back and sun",
}


def demand_shape(figures: Figures) -> list[str]:
    """How the house model spreads a year, beside the standard load profile."""
    limits = figures["limits"]
    lines = [f"Data: {figures['data']}.", ""]
    rows = []
    for key, label, unit in (
        ("months", "worst month", "points"),
        ("top_30", "thirty largest days", "points"),
        ("largest_day", "largest day", "%"),
    ):
        row = [f"{label} ({unit})", f"± {limits[key]:g}"]
        field = {
            "months": "month_worst_points",
            "top_30": "top_30_points",
            "largest_day": "largest_day_percent",
        }[key]
        for house in HOUSES:
            found = figures["houses"][house]
            values = [place[field] for place in found]
            within = sum(place["within"][key] for place in found)
            row += [f"{_signed(min(values))} to {_signed(max(values))}", f"{within} of {len(found)}"]
        rows.append(row)
    heads = ["house less profile", "limit"]
    for label in HOUSES.values():
        heads += [label, "places within"]
    return lines + _table(heads, rows)


def overheads(_: Figures) -> list[str]:
    """What checks and traces cost, and how long the diary takes to add up."""
    lines: list[str] = []
    workings = read("bench_workings")
    lines += _table(
        ["worked function", "bare µs", "worked µs", "over µs", "wanted", "traced µs"],
        [
            [
                f"`{name}`",
                row["bare_us"],
                row["worked_us"],
                row["over_us"],
                f"under {row['wanted_over_us']:g}",
                row["traced_us"],
            ]
            for name, row in workings["scalars"].items()
        ],
    )
    lines += ["", age("bench_workings", workings), ""]
    lines += _table(
        ["array of", "checks µs", "one pass for least and greatest µs", "over µs", "wanted"],
        [
            [
                row["size"],
                row["checks_us"],
                row["extremes_us"],
                row["over_extremes_us"],
                f"under {row['wanted_over_extremes_us']:g}",
            ]
            for row in workings["arrays"]
        ],
    )
    lines += ["", age("bench_workings", workings), ""]
    fold = read("bench_fold")
    lines += _table(
        ["what", "best s", "slowest s", "wanted"],
        [[fold["what"], fold["best_s"], max(fold["seconds"]), f"under {fold['wanted_s']:g}"]],
    )
    lines += ["", age("bench_fold", fold), ""]
    for name, part, heading in (
        ("bench_answers", "answers", "answer, in a running program"),
        ("bench_cli", "commands", "command, from a cold start"),
    ):
        figures = read(name)
        rows = [
            [
                what,
                row["best_s"],
                row["median_s"],
                f"under {row['wanted_s']:g}" if row.get("wanted_s") else "",
            ]
            for what, row in figures[part].items()
        ]
        lines += [*_table([heading, "best s", "median s", "wanted"], rows), "", age(name, figures), ""]
    return lines[:-1]


def season(figures: Figures) -> list[str]:
    """How far the simulation is from a much finer one."""
    fine = figures["reference"]
    usual = figures["default"]
    lines = [
        f"A year with {figures['with_backup']['fires']:.0f} fires, beside the same year with "
        f"{fine['layers']} layers and steps of {fine['step_s']} s. The usual setting is "
        f"{usual['layers']} layers and {usual['step_s']} s.",
        "",
    ]
    for key, label in (("with_backup", "with the backup"), ("without_backup", "without the backup")):
        rows = [
            [
                row["layers"],
                row["step_s"],
                f"{row['mean_store_rms_k']:.3f}",
                f"{row['top_tenth_rms_k']:.2f}",
                f"{row['bottom_tenth_rms_k']:.2f}",
                _signed(100 * row["standing_loss"]),
                _signed(100 * row["backup_of_demand"], 2),
            ]
            for row in figures[key]["table"]
        ]
        heads = [
            f"layers, {label}",
            "step s",
            "mean of the store, rms K",
            "top tenth, rms K",
            "bottom tenth, rms K",
            "standing loss off %",
            "backup off, % of demand",
        ]
        lines += [*_table(heads, rows), ""]
    others = figures["other_years"]
    rows = [
        [
            one["seed"],
            f"{one['mean_store_rms_k']:.3f}",
            _signed(100 * one["backup_of_demand"], 2),
            one["hours_switched_otherwise"],
            f"{alone['mean_store_rms_k']:.3f}",
        ]
        for one, alone in zip(others["with_backup"], others["without_backup"], strict=True)
    ]
    heads = [
        "other made years at the usual setting",
        "mean of the store, rms K",
        "backup off, % of demand",
        "hours in which the other feeds the rooms",
        "without the backup, rms K",
    ]
    return [*lines, *_table(heads, rows)]


def kernel(figures: Figures) -> list[str]:
    """How fast the simulation is."""
    c, lsoda, batch, start = (figures[part] for part in ("c", "lsoda", "batch", "start"))
    rows = [
        [
            f"a year, beside the same in C ({name})",
            f"{told['kernel_s']:.3f} s, C {told['c_s']:.3f} s: {told['kernel_over_c']:.2f} times",
            "at most 1.05 times" if "native" not in name else "",
        ]
        for name, told in c.items()
        if isinstance(told, dict)
    ]
    rows += [
        [
            f"{lsoda['days']} days, beside SciPy's LSODA",
            f"{lsoda['kernel_s']:.3f} s, LSODA {lsoda['lsoda_s']:.2f} s: "
            f"{lsoda['lsoda_over_kernel']:.0f} times",
            "at least 60 times",
        ],
        [
            "years side by side over single years, on one processor",
            f"{batch['batch_over_single']:.2f} times",
            "at least 2 times, aim 4",
        ],
        [
            "1,000 years on two threads, by the clock",
            f"{batch['thousand_years_two_threads_s']:.1f} s",
            "at most 20 s, aim 10 s",
        ],
        ["the same, time of the processors", f"{batch['thousand_years_processor_s']:.1f} s", ""],
        ["first year, nothing compiled yet", f"{start['nothing_cached_s']:.1f} s", ""],
        ["first year in a new process", f"{start['cached_new_process_s']:.1f} s", "aim under 3 s"],
        ["a year after that", f"{start['warm_year_s']:.2f} s", ""],
    ]
    return [
        f"{batch['processors']} processors, and a load of {batch['load_while_measuring']:.1f} at the end of "
        "the batches, their own two threads included: more than 2 means that other work shared the "
        "machine, and times by the clock are longer than on a quiet one.",
        "",
        *_table(["what", "measured", "wanted"], rows),
    ]


PAGES: dict[str, Callable[[Figures], list[str]]] = {
    "typical_year": typical_year,
    "demand_shape": demand_shape,
    "convergence": season,
    "bench_kernel": kernel,
    "bench_planner": firing_tables.planner,
    "contest": firing_tables.contest,
}
"""Measured files with a table of their own, and what writes it."""


def listing() -> str:
    """A page that lists every measured file with its day, and whether its code is still the same.

    The documentation makes it anew at each build.
    """
    rows = []
    for path in sorted(MEASURED.glob("*.json")):
        figures = read(path.stem)
        what = what_of(path.stem, figures).replace("|", "/")
        rows.append([f"`{path.name}`", what, age(path.stem, figures)])
    lines = [
        "# What was measured",
        "",
        "Every measured figure in these texts comes from a file under `measured/`, written by a script",
        "under `bench/` or `studies/`. A file tells the day and the code it was measured with; where that",
        "code has changed since, this page and the table say so.",
        "",
        *_table(["file", "what", "when, and with which code"], rows),
    ]
    return "\n".join(lines) + "\n"


def pages() -> dict[Path, str]:
    """Every page as the figures and the code give it now."""
    made: dict[Path, str] = {}
    for name, table in PAGES.items():
        figures = read(name)
        made[TABLES / f"{name}.md"] = "\n".join([MADE, "", *table(figures), "", age(name, figures)]) + "\n"
    made[TABLES / "overheads.md"] = "\n".join([MADE, "", *overheads({})]) + "\n"
    return made


def stale() -> list[Path]:
    """The pages that are missing, or not as they should be."""
    return [
        path
        for path, text in pages().items()
        if not path.is_file() or path.read_text(encoding="utf-8") != text
    ]


def main() -> int:
    """Write the pages, or with ``--check`` only tell which are not as they should be."""
    if "--check" in sys.argv[1:]:
        wrong = stale()
        for path in wrong:
            print(f"{path.relative_to(ROOT)} is out of date: run python -m scripts.measured_tables")
        return 1 if wrong else 0
    for path, text in pages().items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        print(path.relative_to(ROOT))
    return 0


if __name__ == "__main__":
    sys.exit(main())
