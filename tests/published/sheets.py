"""The sheets of published figures: one CSV file for each room, every row with its source.

Columns
-------
id : the row's name, unique over all sheets.
quantity, inputs : what the source speaks of, in its own words and figures.
expected : the printed figure; several parted by ``/`` or `` to ``; or a word such as ``lawful``.
unit : of ``expected``, as the unit library reads it; ``text`` for words.
tolerance : absolute and in the same unit, or a share of ``expected`` with a ``%`` sign.
source : where it stands.
status : ``printed`` (read at the source), ``rule_computed`` (a rule that was read, worked out by us),
    ``definition`` (true by definition or from first principles), ``memory`` (not re-read).
function : the registered function that must give it; empty when the row stands in ``unbound.csv``.
args : JSON, argument to value, with the unit as printed: ``{"moisture": "20 %"}``. A list of two such
    objects says that the row is the quotient of the first result by the second. A value such as
    ``"TRY2010_05_Jahr.dat: hours"`` stands for the values of that weather file.
pick : the part of the result that the row speaks of (``heat.low``, ``months.0``); several parted by ``/``.
marker : ``misprint`` for a row believed wrong in print: it stays as printed, and must deviate.
"""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, get_type_hints

from tests.published.weather_files import with_weather
from woodreeve.units import convert, unit_of
from woodreeve.workings.load import load_all
from woodreeve.workings.registry import WorkedFunction

FOLDER = Path(__file__).parent
UNBOUND = FOLDER / "unbound.csv"
STATUSES = ("printed", "rule_computed", "definition", "memory")
COLUMNS = (
    "id", "quantity", "inputs", "expected", "unit", "tolerance", "source", "status", "function", "args",
    "pick", "marker",
)  # fmt: skip

Expected = str | tuple[float, ...]


@dataclass(frozen=True)
class Row:
    """One row of a sheet."""

    sheet: str
    id: str
    quantity: str
    inputs: str
    printed: str
    unit: str
    printed_tolerance: str
    source: str
    status: str
    function: str
    args: Any
    pick: str
    marker: str

    @property
    def expected(self) -> Expected:
        """The printed figure or figures, or the printed words."""
        if self.unit == "text":
            return self.printed
        return tuple(float(part) for part in re.split(r"\s*/\s*|\s+to\s+", self.printed))

    @property
    def tolerance(self) -> float | None:
        """How far off a figure may be, in the row's own unit."""
        if self.unit == "text":
            return None
        text = self.printed_tolerance.strip()
        if text.endswith("%") and self.unit != "%":
            return (
                max(abs(number) for number in self.expected if isinstance(number, float))
                * float(text[:-1])
                / 100
            )
        return float(text.removesuffix("%"))

    def answer(self) -> Expected:
        """What the function says, in the row's unit."""
        function = load_all()[self.function]
        if isinstance(self.args, list):
            above, below = (_numbers(function, args, self.pick, None) for args in self.args)
            return tuple(a / b for a, b in zip(above, below, strict=True))
        if self.unit == "text":
            result = function.call_with_units(self.args)
            return " / ".join(_word(_picked(result, path)) for path in self.pick.split("/"))
        return _numbers(function, self.args, self.pick, self.unit)


def _numbers(
    function: WorkedFunction, args: Mapping[str, Any], picks: str, unit: str | None
) -> tuple[float, ...]:
    result = function.call_with_units(with_weather(args))
    found = []
    for path in picks.split("/"):
        own = _unit_of_part(function.returns, result, path)
        number = float(_picked(result, path))
        found.append(
            number if unit is None else convert(number, unit if own is None else own, unit, function.name)
        )
    return tuple(found)


def _word(value: Any) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


def _picked(result: Any, path: str) -> Any:
    for step in filter(None, path.strip().split(".")):
        if isinstance(result, Mapping):
            result = result[step]
        elif step.lstrip("-").isdigit():
            result = result[int(step)]
        else:
            result = getattr(result, step)
    return result


def _unit_of_part(annotation: Any, result: Any, path: str) -> str | None:
    """The unit stated for a result, or for the field of a dataclass that a path leads to."""
    unit = _stated(annotation)
    for step in filter(None, path.strip().split(".")):
        if is_dataclass(result) and not isinstance(result, type):
            names = {item.name for item in fields(result)}
            hints = get_type_hints(type(result), include_extras=True) if step in names else {}
            if step not in names:
                member = getattr(type(result), step)
                hints = {step: get_type_hints(member.fget, include_extras=True)["return"]}
            unit = _stated(hints[step])
        result = _picked(result, step)
    return unit


def _stated(annotation: Any) -> str | None:
    """The unit of an annotation, also inside ``| None``, ``tuple[...]`` and the like."""
    found = unit_of(annotation)
    if found is not None:
        return found
    return next((u for part in getattr(annotation, "__args__", ()) if (u := _stated(part)) is not None), None)


def sheets() -> list[Path]:
    """All sheets of the folder."""
    return sorted(path for path in FOLDER.glob("*.csv") if path != UNBOUND)


@lru_cache(maxsize=1)
def rows() -> tuple[Row, ...]:
    """Every row of every sheet, in their order."""
    found = []
    for sheet in sheets():
        with sheet.open(encoding="utf-8", newline="") as stream:
            for line in csv.DictReader(stream):
                found.append(_row(sheet.stem, line))
    return tuple(found)


def _row(sheet: str, line: Mapping[str, str | None]) -> Row:
    text = {name: (line.get(name) or "").strip() for name in COLUMNS}
    return Row(
        sheet=sheet,
        id=text["id"],
        quantity=text["quantity"],
        inputs=text["inputs"],
        printed=text["expected"],
        unit=text["unit"],
        printed_tolerance=text["tolerance"],
        source=text["source"],
        status=text["status"],
        function=text["function"],
        args=json.loads(text["args"]) if text["args"] else {},
        pick=text["pick"],
        marker=text["marker"],
    )


def bound_rows() -> list[Row]:
    """The rows that a registered function must give."""
    return [row for row in rows() if row.function and row.marker != "misprint"]


def misprints() -> list[Row]:
    """The rows believed wrong in print."""
    return [row for row in rows() if row.marker == "misprint"]


@lru_cache(maxsize=1)
def unbound() -> dict[str, str]:
    """Row id to the reason why no function gives it."""
    with UNBOUND.open(encoding="utf-8", newline="") as stream:
        return {line["id"]: line["reason"] for line in csv.DictReader(stream)}
