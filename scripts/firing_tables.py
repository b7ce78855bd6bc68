"""The tables of the contest of planner and rules, and of the planner's pace, for the documentation."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import mean
from typing import Any

__all__ = ["contest", "planner"]

Figures = Mapping[str, Any]
RUNS = {"planner": "planner", "evening": "evening rule", "tuned": "tuned rule"}


def _table(heads: Sequence[str], rows: Sequence[Sequence[object]]) -> list[str]:
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    return lines + ["| " + " | ".join(str(cell) for cell in row) + " |" for row in rows]


def _percent(share: float) -> str:
    return f"{100.0 * share:+.1f}".replace("-", "−")


def _between(told: Mapping[str, float]) -> str:
    return f"{_percent(told['share'])} ({_percent(told['low'])} to {_percent(told['high'])})"


def contest(figures: Figures) -> list[str]:
    """Planner against rules: in things, in money with intervals, and at other prices."""
    done = figures["seasons"]
    base = [one for one in done if one["prices"] == "base" and one["model"] == 1.0]
    things = [
        [
            one["plant"],
            one["year"],
            RUNS[name],
            f"{run['backup_kwh']:.0f}",
            f"{run['cold_kh']:.0f}",
            f"{run['lightings']:.0f}",
            f"{run['refills']:.0f}",
            f"{run['wood_kg']:.0f}",
            f"{run['money']:.0f}",
            f"{run['over_limit_h']:.1f}",
        ]
        for one in base
        for name, run in one["runs"].items()
    ]
    money = [
        [one["plant"], one["year"], _between(one["against_evening"]), _between(one["against_tuned"])]
        for one in base
    ]
    lines = [
        f"{figures['seasons_done']} of {figures['seasons_wanted']} runs are done. "
        f"{mean([one['days'] for one in base]):.0f} days each, in years that nothing was tuned on.",
        "",
        *_table(
            [
                "plant", "year", "who", "backup kWh", "too cold K·h", "lightings", "refills", "wood kg",
                "money", "store over limit h",
            ],
            things,
        ),
        "",
        "Priced total of the planner less the rule's, % of it, with the 90 % interval over the weeks:",
        "",
        *_table(["plant", "year", "against the evening rule", "against the tuned rule"], money),
    ]  # fmt: skip
    others: dict[tuple[str, float], list[Any]] = {}
    for one in done:
        others.setdefault((one["prices"], one["model"]), []).append(one)
    rows = [
        [
            name if model == 1.0 else f"{name}, house believed to lose {model:.2f} times what it does",
            len(runs),
            _percent(mean([one["against_evening"]["share"] for one in runs])),
            _percent(mean([one["against_tuned"]["share"] for one in runs])),
            _percent(max(one["against_tuned"]["share"] for one in runs)),
        ]
        for (name, model), runs in others.items()
    ]
    heads = ["prices", "runs", "mean against evening %", "mean against tuned %", "worst against tuned %"]
    compared = sum(one["days_compared"] for one in base)
    changed = sum(one["days_changed"] for one in base)
    steady = (
        f"Of {compared} plans shown in the morning for the evening, {changed} were changed by 16 o'clock."
    )
    return [*lines, "", *_table(heads, rows), "", *([steady] if compared else [])]


def planner(figures: Figures) -> list[str]:
    """How fast plans come and how near the best they are."""
    small = figures["small"]
    rows: list[list[object]] = []
    for name in ("usual", "thorough"):
        told = small[name]
        rows.append(
            [
                f"{name}: two evenings, {small['cases']} cases, over the best of every plan",
                f"{100.0 * told['mean']:.2f} % on the mean, {100.0 * told['worst']:.2f} % at worst",
                "at most 0.1 %",
            ]
        )
        for length, most in (("three_days", 0.15), ("seven_days", 0.4)):
            days, told = figures[length]["days"], figures[length][name]
            rows += [
                [
                    f"{name}: {days} days, by the clock (time of the processor)",
                    f"{told['seconds_median']:.2f} s ({told['processor_seconds_median']:.2f} s)",
                    f"at most {most} s",
                ],
                [
                    f"{name}: {days} days, over a search {told['longer_search_times']:.0f} times as long",
                    f"{100.0 * told['over_longer_search_mean']:.2f} % on the mean, "
                    f"{100.0 * told['over_longer_search_worst']:.2f} % at worst",
                    "at most 0.5 %" if days == 7 else "",
                ],
            ]
    load = figures["load_average_at_end"]
    return [
        f"A load of {load:.1f} on the machine at the end: with more than 2 it shared its two processors, and "
        "times by the clock are longer than on a quiet one. The contest is played with usual plans.",
        "",
        *_table(["what", "measured", "wanted"], rows),
    ]
