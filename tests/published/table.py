"""Write the docs page that lists every check against a published figure.

Run as ``python -m tests.published.table``.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from tests.published.sheets import STATUSES, Row, bound_rows, misprints, rows, unbound

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "published.md"

WORDS = {
    "printed": "printed figure, read at its source",
    "rule_computed": "rule read at its source, figure worked out by us",
    "definition": "definition, or worked out from first principles",
    "memory": "from memory, not re-read",
}


def page() -> str:
    """The page as the sheets give it now."""
    counts = Counter(row.status for row in bound_rows())
    lines = [
        "# Checks against published figures",
        "",
        "<!-- made by `python -m tests.published.table`; do not edit -->",
        "",
        "Each row is a figure from outside, and a test that the named formula gives it in the tolerance.",
        "Only the first kind counts as a check against the world; the others guard against slips of our own.",
        "",
        "| kind | rows |",
        "|---|---|",
        *(f"| {WORDS[status]} | {counts[status]} |" for status in STATUSES),
        "",
    ]
    for sheet in dict.fromkeys(row.sheet for row in rows()):
        lines += [f"## {sheet.replace('_', ' ').capitalize()}", ""]
        lines += [
            "| row | quantity | inputs | printed | within | kind | formula | source |",
            "|---|---|---|---|---|---|---|---|",
        ]
        lines += [_line(row) for row in bound_rows() if row.sheet == sheet]
        lines.append("")
    lines += ["## Rows that no formula gives", "", "| row | quantity | printed | why |", "|---|---|---|---|"]
    by_id = {row.id: row for row in rows()}
    lines += [
        f"| {name} | {cell(by_id[name].quantity)} | {_printed(by_id[name])} | {cell(reason)} |"
        for name, reason in unbound().items()
    ]
    lines += ["", "## Rows believed to be misprints", ""]
    lines += ["They stay as printed, and a test sees that our figure differs.", ""]
    lines += ["| row | quantity | inputs | printed | source |", "|---|---|---|---|---|"]
    lines += [
        f"| {row.id} | {cell(row.quantity)} | {cell(row.inputs)} | {_printed(row)} | {cell(row.source)} |"
        for row in misprints()
    ]
    return "\n".join(lines) + "\n"


def _line(row: Row) -> str:
    within = f"± {row.printed_tolerance}" if row.printed_tolerance else "exactly"
    cells = (
        row.id,
        row.quantity,
        row.inputs,
        _printed(row),
        within,
        row.status.replace("_", " "),
    )
    return "| " + " | ".join(map(cell, cells)) + f" | `{row.function}` | {cell(row.source)} |"


def _printed(row: Row) -> str:
    return f"{cell(row.printed)} {_unit(row)}".strip()


def _unit(row: Row) -> str:
    return "" if row.unit in ("text", "-") else row.unit


def cell(text: str) -> str:
    """Make a text fit into a cell of a table."""
    return text.replace("|", "\\|").replace("<", "&lt;").replace("\n", " ").strip()


if __name__ == "__main__":
    PAGE.parent.mkdir(parents=True, exist_ok=True)
    PAGE.write_text(page(), encoding="utf-8")
    print(f"{PAGE.name}: {len(bound_rows())} rows bound, {len(unbound())} not")
