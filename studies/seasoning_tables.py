"""The tables of docs/explanation/seasoning.md, made from measured/seasoning.json."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

__all__ = ["tables"]


def tables(document: Mapping[str, Any]) -> str:
    """All tables as one text; the same document gives the same text."""
    parts = [
        "<!-- Written by studies/seasoning.py from measured/seasoning.json: do not edit. -->",
        "### Against the reference, each source left out in turn",
        _against(document),
        "### The range, each source left out in turn",
        _ranges(document),
        "### The day it is ready, each source left out in turn",
        _ready(document),
        "### What was tried",
        _tried(document),
        "### The fitted figures",
        _fit(document),
        "### Every trial",
        _rows(document),
    ]
    return "\n\n".join(parts) + "\n"


def _table(heads: Sequence[str], lines: Iterable[Sequence[Any]]) -> str:
    text = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    text += ["| " + " | ".join("" if cell is None else str(cell) for cell in line) + " |" for line in lines]
    return "\n".join(text)


def _named(document: Mapping[str, Any], name: str) -> Mapping[str, Any]:
    return next(c for c in document["candidates"] if c["name"] == name)


def _score_line(name: str, rows: str, score: Mapping[str, Any]) -> list[Any]:
    return [
        name,
        rows,
        score["readings"],
        f"{score['bias']:+.2f}",
        f"{score['mean_absolute']:.2f}",
        f"{score['root_mean_square']:.2f}",
        f"{100 * score['within_3']:.0f} %",
    ]


def _difference(pair: Mapping[str, Any]) -> str:
    return (
        f"{pair['difference']:+.2f} (8 in 10: {pair['low_10']:+.2f} to {pair['high_90']:+.2f}; "
        f"better in {100 * pair['better_in']:.0f} % of {pair['sources']} sources drawn again)"
    )


def _against(document: Mapping[str, Any]) -> str:
    words = {"values": "values", "values_and_rules": "values and rules"}
    lines = []
    for key, rows in words.items():
        for name in ("reference", "chosen"):
            lines.append(_score_line(name, rows, _named(document, name)[key]))
        if "nested_choice" in document:
            lines.append(_score_line("chosen afresh for each source", rows, document["nested_choice"][key]))
    text = _table(["model", "rows", "n", "bias", "mean abs.", "rms", "within ±3"], lines)
    for key, rows in words.items():
        text += f"\n\nChosen minus reference, mean absolute error, {rows}: "
        text += _difference(document["paired_absolute_error"][key]) + "."
        if "nested_choice" in document:
            text += f"\n\nChosen afresh minus reference, {rows}: "
            text += _difference(document["nested_choice"]["paired"][key]) + "."
    return text


def _ranges(document: Mapping[str, Any]) -> str:
    found = document["ranges"]
    lines = []
    for name, key in (
        ("reference, spread 0.45", "reference"),
        ("chosen, spread chosen on the other sources", "chosen"),
        ("chosen, spread 0.45", "chosen_with_reference_sd"),
    ):
        for rows, words in (("values", "values"), ("values_and_rules", "values and rules")):
            score = found[key][rows]
            lines.append(
                [
                    name,
                    words,
                    f"{score['held']} of {score['readings']}",
                    f"{score['held_widened_by_1']} of {score['readings']}",
                    score["mean_width"],
                    score["interval_score"],
                ]
            )
    heads = ["model", "rows", "held", "held, widened by 1 point", "mean width", "interval score"]
    text = _table(heads, lines)
    text += "\n\n" + _table(
        [
            "spread between stacks, chosen model",
            "values held",
            "values and rules held",
            "mean width",
            "interval score",
        ],
        [
            [
                sd + (" (taken)" if float(sd) == found["chosen_sd"] else ""),
                f"{s['values']['held']} of {s['values']['readings']}",
                f"{s['values_and_rules']['held']} of {s['values_and_rules']['readings']}",
                s["values_and_rules"]["mean_width"],
                s["values_and_rules"]["interval_score"],
            ]
            for sd, s in found["by_sd"].items()
        ],
    )
    for rows, words in (("values", "values"), ("values_and_rules", "values and rules")):
        text += f"\n\nChosen minus reference, interval score, {words}: "
        text += _difference(found["paired_interval_score"][rows]) + "."
    return text


def _ready(document: Mapping[str, Any]) -> str:
    return _table(
        ["model", "findings", "never came there", "median days off", "mean days off", "8 in 10 within"],
        [
            [
                name,
                s["findings"],
                s["never_reached"],
                f"{s['median_days']:.0f}",
                f"{s['mean_days']:.0f}",
                f"{s['eight_in_ten_within_days']:.0f}",
            ]
            for name, s in document["ready_days"].items()
        ],
    )


def _tried(document: Mapping[str, Any]) -> str:
    return _table(
        ["candidate", "what it is", "values: mean abs.", "rms", "values and rules: mean abs.", "rms"],
        [
            [
                c["name"],
                c["what"],
                f"{c['values']['mean_absolute']:.2f}",
                f"{c['values']['root_mean_square']:.2f}",
                f"{c['values_and_rules']['mean_absolute']:.2f}",
                f"{c['values_and_rules']['root_mean_square']:.2f}",
            ]
            for c in document["candidates"]
        ],
    )


def _fit(document: Mapping[str, Any]) -> str:
    fit = document["fit"]
    lines = [[name, f"{value:.3f}", f"{fit['sds'][name]:.3f}"] for name, value in fit["values"].items()]
    lines.append(["log_rate_sd", f"{fit['log_rate_sd']:.2f}", ""])
    return _table(["figure (factors as logarithms)", "value", "1 sd"], lines)


def _rows(document: Mapping[str, Any]) -> str:
    kinds = {"measured": "", "rule": "rule", "at_most": "or less", "at_least": "or more"}
    return _table(
        ["trial", "day", "reported %", "fitted", "left out", "10-90 %", "reference left out", "days off"],
        [
            [
                row["trial"],
                row["day"],
                f"{row['reported']} {kinds[row['kind']]}".strip(),
                row["fitted"],
                row["left_out"],
                f"{row['low']}-{row['high']}",
                row["reference_left_out"],
                row["days_off"],
            ]
            for row in document["rows"]
        ],
    )
