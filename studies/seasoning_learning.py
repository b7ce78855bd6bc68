"""What readings buy: stacks made up by the model's own dice, and the two real ones that were read twice.

    python -m studies.seasoning_learning

Writes measured/seasoning_learning.json and the table docs/explanation/seasoning_learning_table.inc. It is
arithmetic, not a field test: the made-up stacks differ from each other as the model believes real ones do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import numpy as np

from studies.drying_candidates import Replay
from studies.stamp import ROOT, write
from woodreeve.learning.stack import DRIFT_SD, MONTH_NOISE_SD, YEAR_NOISE_SD, follow_stack
from woodreeve.units import Floats
from woodreeve.wood.seasoning import drying_days
from woodreeve.wood.seasoning_fit import Cover, fitted, trials
from woodreeve.wood.seasoning_kernel import course
from woodreeve.wood.seasoning_readings import StackReading
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import DryingWeather, trial_climate

CODE = (
    "studies/seasoning_learning.py",
    "src/woodreeve/wood/seasoning*.py",
    "src/woodreeve/wood/data/drying_fit.csv",
    "src/woodreeve/learning/stack.py",
)
"""What the figures depend on."""
MADE_UP = 200
JUDGED_DAY = 150
METER_SD, METER_SD_NEAR_ITS_END = 0.025, 0.035
METER_KNOWS = 0.23
"""Above this a meter says only "wetter than"."""
WHEN = {
    "no reading": (),
    "one, day 60": (60,),
    "two, days 45 and 90": (45, 90),
    "three, days 60, 100 and 135": (60, 100, 135),
}


@dataclass(frozen=True)
class Kind:
    """A kind of stack."""

    name: str
    wood: str
    place: str
    start: date
    start_moisture: float
    thickness_mm: float = 100.0
    length_mm: float = 330.0
    cover: Cover = "roof"

    def stack(self, number: int, start_moisture: float) -> DryingStack:
        """One of them."""
        return DryingStack(
            name=f"{self.name} {number}",
            wood=self.wood,
            start=self.start,
            thickness_mm=self.thickness_mm,
            length_mm=self.length_mm,
            covers=(CoverSpell(since=self.start, cover=self.cover),),
            start_moisture=start_moisture,
        )


SPRING = date(2001, 3, 1)
KINDS = (
    Kind("beech, short, roofed, Straubing", "beech", "Straubing", SPRING, 0.45),
    Kind("spruce, short, roofed, Straubing", "norway_spruce", "Straubing", SPRING, 0.55),
    Kind("birch, short, roofed, As", "silver_birch", "As (Norway)", SPRING, 0.42, 80.0, 300.0),
    Kind("oak, short, roofed, Straubing", "pedunculate_oak", "Straubing", SPRING, 0.45),
    Kind("oak 150 mm, open, Denmark", "pedunculate_oak", "Denmark", SPRING, 0.45, 150.0, 330.0, "none"),
    Kind(
        "beech metre billets from 15 December", "beech", "Straubing", date(2001, 12, 15), 0.45, 140.0, 1000.0
    ),
)


def truth(kind: Kind, stack: DryingStack, weather: DryingWeather, dice: np.random.Generator) -> Floats:
    """A course thrown with the dice that the filter believes in."""
    days = drying_days(stack, weather)
    start = float(np.clip(kind.start_moisture + 0.03 * dice.standard_normal(), 0.08, 0.68))
    calendar = np.datetime64(kind.start, "D") + np.arange(days.rate.size)
    month = calendar.astype("datetime64[M]").astype(int)
    month -= month[0]
    drift = np.concatenate([[0.0], DRIFT_SD * dice.standard_normal(month[-1])]).cumsum()
    noise = YEAR_NOISE_SD * dice.standard_normal() + MONTH_NOISE_SD * dice.standard_normal(month[-1] + 1)
    log_rate = fitted().log_rate_sd * dice.standard_normal() + (drift + noise)[month]
    path: Floats = course(
        start / (1 - start), days.rate * np.exp(log_rate), days.equilibrium_dry_basis, fitted().slow_share
    )
    return path / (1.0 + path)


def read(kind: Kind, day: int, moisture: float, dice: np.random.Generator) -> StackReading:
    """A meter's reading of a known moisture, blind above 23 %."""
    sd = METER_SD if moisture < 0.20 else METER_SD_NEAR_ITS_END
    shown = moisture + sd * float(dice.standard_normal())
    taken = kind.start + timedelta(days=day)
    if shown > METER_KNOWS:
        return StackReading(
            taken=taken, kind="above", moisture=METER_KNOWS, sd=METER_SD_NEAR_ITS_END, how="meter"
        )
    return StackReading(taken=taken, kind="value", moisture=max(shown, 0.02), sd=sd, how="meter")


def made_up(kind: Kind) -> dict[str, Any]:
    """Root mean square error, held share and width of the range on the judged day."""
    dice = np.random.default_rng(1)
    weather = trial_climate(kind.place, start=kind.start, days=JUDGED_DAY + 1)
    errors: dict[str, list[float]] = {when: [] for when in WHEN}
    held: dict[str, list[bool]] = {when: [] for when in WHEN}
    widths: dict[str, list[float]] = {when: [] for when in WHEN}
    for number in range(MADE_UP):
        stack = kind.stack(number, kind.start_moisture)
        true = truth(kind, stack, weather, dice)
        for when, days in WHEN.items():
            readings = tuple(read(kind, day, float(true[day]), dice) for day in days)
            now = kind.start + timedelta(days=JUDGED_DAY)
            found = follow_stack(stack, weather, readings, now=now, every_days=30)
            errors[when].append(100 * (found.moisture_now - float(true[JUDGED_DAY])))
            held[when].append(found.low_now <= true[JUDGED_DAY] <= found.high_now)
            widths[when].append(100 * (found.high_now - found.low_now))
    return {
        "stack": kind.name,
        **{
            when: {
                "rms": round(float(np.sqrt(np.mean(np.square(errors[when])))), 2),
                "held": round(float(np.mean(held[when])), 2),
                "width": round(float(np.mean(widths[when])), 1),
            }
            for when in WHEN
        },
    }


def read_twice() -> list[dict[str, Any]]:
    """Real stacks with two readings: the error of the second, without and with the first."""
    found = []
    for trial in trials():
        values = [reading for reading in trial.readings if reading.kind == "measured"]
        if len(values) < 2:
            continue
        first, second = values[0], values[1]
        replay = Replay.of(trial)
        now = trial.start + timedelta(days=second.day)
        seen = StackReading(
            taken=trial.start + timedelta(days=first.day),
            kind="value",
            moisture=first.moisture,
            sd=0.02,
            how="marker",
        )
        errors = [
            100
            * (
                follow_stack(replay.stack, replay.weather, told, now=now, copies=4000).moisture_now
                - second.moisture
            )
            for told in ((), (seen,))
        ]
        found.append({"trial": trial.name, "without": round(errors[0], 1), "with": round(errors[1], 1)})
    return found


def table(document: Mapping[str, Any]) -> str:
    """The table for the docs."""
    whens = list(WHEN)
    lines = [
        "<!-- Written by studies/seasoning_learning.py from its measured figures: do not edit. -->",
        "",
        "| stack | " + " | ".join(f"{when}: rms (width; held)" for when in whens) + " |",
        "|---" * (len(whens) + 1) + "|",
    ]
    for one in document["made_up"]:
        cells = [f"{one[w]['rms']:.1f} ({one[w]['width']:.1f}; {100 * one[w]['held']:.0f} %)" for w in whens]
        lines.append(f"| {one['stack']} | " + " | ".join(cells) + " |")
    lines += [
        "",
        "| real stack read twice | error of the second, first not used | first used |",
        "|---|---|---|",
    ]
    lines += [
        f"| {one['trial']} | {one['without']:+.1f} | {one['with']:+.1f} |" for one in document["read_twice"]
    ]
    return "\n".join(lines) + "\n"


def main() -> None:
    """Make up, judge, write down."""
    document = {
        "made_up_each": MADE_UP,
        "judged_day": JUDGED_DAY,
        "made_up": [made_up(kind) for kind in KINDS],
        "read_twice": read_twice(),
    }
    write("seasoning_learning", document, CODE)
    (ROOT / "docs" / "explanation" / "seasoning_learning_table.inc").write_text(
        table(document), encoding="utf-8"
    )


if __name__ == "__main__":
    main()
