"""Fit the drying model on published trials, judge it on sources left out of the fit, and write it down.

    python -m studies.seasoning            everything, about ten minutes
    python -m studies.seasoning --quick    without the nested choice between candidates

Writes measured/seasoning.json and, from it, src/woodreeve/wood/data/drying_fit.csv and the tables of
docs/explanation/seasoning_tables.inc. The judge is the mean absolute error on trials of a source that the
fit has not seen; the reference model is scored on the same rows.
"""

from __future__ import annotations

import argparse
import csv
import json
import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import least_squares

from studies.drying_candidates import (
    CANDIDATES,
    CHOSEN,
    LOGARITHMIC,
    NEUTRAL,
    REFERENCE,
    Candidate,
    Replay,
)
from studies.seasoning_tables import tables
from studies.stamp import ROOT, write
from woodreeve.learning.course import RatePrior
from woodreeve.learning.stack import follow_stack
from woodreeve.wood.seasoning_fit import TrialReading, trials

ERROR_UNIT = 0.03
"""An error of three points counts as one in the fit, as in the reference."""
NESTED = (
    "reference",
    "surface limited",
    "with falling pace",
    "with rain hindrance",
    "chosen",
    "chosen with density",
)
"""Candidates between which the nested choice is made."""
CODE = (
    "studies/seasoning.py",
    "studies/drying_candidates.py",
    "src/woodreeve/wood/seasoning*.py",
    "src/woodreeve/wood/moisture.py",
    "src/woodreeve/wood/data/drying_trials.csv",
    "src/woodreeve/wood/data/drying_climates.csv",
    "src/woodreeve/learning/stack.py",
)
"""What the figures depend on."""
SD_GRID = (0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50)
RANGE_MISSES = 0.2
ROUNDING = 0.01
ONE_ROW = 0.05
"""With some twenty values, a share may be one value short of the promise."""

Values = dict[str, float]


@dataclass(frozen=True)
class Row:
    """One finding of a trial and what a model that had not seen its source said."""

    trial: str
    source: str
    day: int
    kind: str
    reported: float
    modelled: float

    @property
    def error(self) -> float:
        """Model minus report, in points."""
        return 100.0 * (self.modelled - self.reported)


def residual(reading: TrialReading, modelled: float) -> float:
    """Robust, weighted error of one finding; a bound counts only where it is broken."""
    error = (modelled - reading.moisture) / ERROR_UNIT
    if reading.kind == "at_least":
        error = min(error, 0.0)
    elif reading.kind == "at_most":
        error = max(error, 0.0)
    error *= math.sqrt(reading.weight)
    return math.copysign(math.sqrt(2.0 * (math.sqrt(1.0 + error * error) - 1.0)), error)


def fit(candidate: Candidate, replays: Sequence[Replay]) -> tuple[Values, Values]:
    """Fit a candidate; values and standard deviations by name."""
    means = np.array([candidate.prior(name)[0] for name in candidate.names])
    spreads = np.array([candidate.prior(name)[1] for name in candidate.names])

    def residuals(x: Any) -> Any:
        values = dict(zip(candidate.names, x, strict=True))
        found = []
        for replay in replays:
            path = replay.course(candidate, values, replay.trial.days)
            found += [residual(r, float(path[r.day - 1])) for r in replay.trial.readings]
        return np.concatenate([found, (x - means) / spreads])

    solution = least_squares(residuals, means, x_scale=np.clip(spreads, 0.02, 0.5), diff_step=1e-4, ftol=1e-6)
    covariance = np.linalg.inv(solution.jac.T @ solution.jac)
    names = candidate.names
    return (
        {name: float(v) for name, v in zip(names, solution.x, strict=True)},
        {name: float(math.sqrt(v)) for name, v in zip(names, np.diag(covariance), strict=True)},
    )


def sources(replays: Iterable[Replay]) -> list[str]:
    """The sources, each once."""
    return list(dict.fromkeys(replay.trial.source_group for replay in replays))


def left_out(candidate: Candidate, replays: Sequence[Replay]) -> tuple[list[Row], dict[str, Values]]:
    """Leave each source out in turn, fit on the rest, and predict it."""
    rows: list[Row] = []
    folds: dict[str, Values] = {}
    for source in sources(replays):
        values, _ = fit(candidate, [r for r in replays if r.trial.source_group != source])
        folds[source] = values
        for replay in replays:
            if replay.trial.source_group == source:
                path = replay.course(candidate, values, replay.trial.days)
                rows += [
                    row_of(replay, reading, float(path[reading.day - 1])) for reading in replay.trial.readings
                ]
    return rows, folds


def row_of(replay: Replay, reading: TrialReading, modelled: float) -> Row:
    """Put a finding and a prediction side by side."""
    trial = replay.trial
    return Row(trial.name, trial.source_group, reading.day, reading.kind, reading.moisture, modelled)


def values_only(rows: Iterable[Row]) -> list[Row]:
    """Rows with a measured value."""
    return [row for row in rows if row.kind == "measured"]


def two_sided(rows: Iterable[Row]) -> list[Row]:
    """Rows with a measured value or a rule."""
    return [row for row in rows if row.kind in ("measured", "rule")]


def score(rows: Sequence[Row]) -> dict[str, float]:
    """Bias, mean absolute and root mean square error in points, and the share within three."""
    errors = np.array([row.error for row in rows])
    return {
        "readings": len(rows),
        "bias": round(float(errors.mean()), 2),
        "mean_absolute": round(float(np.abs(errors).mean()), 2),
        "root_mean_square": round(float(np.sqrt((errors**2).mean())), 2),
        "within_3": round(float((np.abs(errors) <= 3.0).mean()), 2),
    }


def both_scores(rows: Sequence[Row]) -> dict[str, dict[str, float]]:
    """Scores on values, and on values and rules."""
    return {"values": score(values_only(rows)), "values_and_rules": score(two_sided(rows))}


def paired(
    a: Mapping[str, Sequence[float]], b: Mapping[str, Sequence[float]], *, draws: int = 10_000
) -> dict[str, Any]:
    """Mean of a minus b over all rows, with its range when whole sources are drawn again (bootstrap)."""
    dice = np.random.default_rng(20261125)
    names = list(a)
    sums = np.array([sum(a[n]) - sum(b[n]) for n in names])
    counts = np.array([len(a[n]) for n in names])
    drawn = dice.integers(0, len(names), (draws, len(names)))
    means = sums[drawn].sum(axis=1) / counts[drawn].sum(axis=1)
    low, high = np.quantile(means, [0.1, 0.9])
    return {
        "difference": round(float(sums.sum() / counts.sum()), 3),
        "low_10": round(float(low), 3),
        "high_90": round(float(high), 3),
        "better_in": round(float((means < 0.0).mean()), 3),
        "sources": len(names),
    }


def by_source(rows: Iterable[Row], loss: Callable[[Row], float]) -> dict[str, list[float]]:
    """Losses of the rows of each source."""
    found: dict[str, list[float]] = {}
    for row in rows:
        found.setdefault(row.source, []).append(loss(row))
    return found


def nested(replays: Sequence[Replay], full: Mapping[str, list[Row]]) -> tuple[list[Row], dict[str, str]]:
    """Choose the candidate afresh for each source, without looking at it: the honest price of choosing."""
    pool = [c for c in CANDIDATES if c.name in NESTED]
    rows: list[Row] = []
    picked: dict[str, str] = {}
    for source in sources(replays):
        rest = [r for r in replays if r.trial.source_group != source]
        losses = {}
        for candidate in pool:
            inner, _ = left_out(candidate, rest)
            losses[candidate.name] = score(two_sided(inner))["mean_absolute"]
        picked[source] = min(losses, key=lambda name: losses[name])
        rows += [row for row in full[picked[source]] if row.source == source]
        print(f"  {source}: {picked[source]}", flush=True)
    return rows, picked


def ranges(
    candidate: Candidate, replays: Sequence[Replay], folds: Mapping[str, Values], sd: float
) -> dict[tuple[str, int], tuple[float, float]]:
    """10 and 90 % values for each finding, by a model that had not seen its source."""
    found = {}
    for replay in replays:
        trial = replay.trial
        course = follow_stack(
            replay.stack,
            replay.weather.span(trial.start, trial.days),
            now=trial.start,
            prior=RatePrior(sd=sd),
            copies=2000,
            parameters=candidate.parameters(folds[trial.source_group]),
        )
        for reading in trial.readings:
            found[trial.name, reading.day] = (
                float(course.low[reading.day - 1]),
                float(course.high[reading.day - 1]),
            )
    return found


def interval_score(row: Row, low: float, high: float) -> float:
    """Width of the range, and ten times any miss, in points (80 % range)."""
    miss = max(low - row.reported, 0.0) + max(row.reported - high, 0.0)
    return 100.0 * ((high - low) + 2.0 / RANGE_MISSES * miss)


def range_scores(rows: Sequence[Row], found: Mapping[tuple[str, int], tuple[float, float]]) -> dict[str, Any]:
    """How often the range held, as it is and widened by the reports' rounding, its width and its score."""
    judged = two_sided(rows)
    result: dict[str, Any] = {}
    for name, some in (("values", values_only(judged)), ("values_and_rules", judged)):
        pairs = [(row, *found[row.trial, row.day]) for row in some]
        result[name] = {
            "readings": len(pairs),
            "held": sum(low <= row.reported <= high for row, low, high in pairs),
            "held_widened_by_1": sum(
                low - ROUNDING <= row.reported <= high + ROUNDING for row, low, high in pairs
            ),
            "mean_width": round(float(np.mean([100 * (high - low) for _, low, high in pairs])), 2),
            "interval_score": round(
                float(np.mean([interval_score(row, low, high) for row, low, high in pairs])), 2
            ),
        }
    return result


def choose_sd(
    candidate: Candidate, replays: Sequence[Replay], rows: Sequence[Row], folds: Mapping[str, Values]
) -> tuple[float, dict[tuple[str, int], tuple[float, float]], dict[str, dict[str, Any]]]:
    """The spread between stacks: of those that hold what they promise, the one with the best score.

    It is chosen for each source on the other sources, which gives the ranges to be judged; the one
    for the package is chosen on all.
    """
    grid = {sd: ranges(candidate, replays, folds, sd) for sd in SD_GRID}

    def best(some: Sequence[Row]) -> float:
        scored = {sd: range_scores(some, grid[sd]) for sd in SD_GRID}
        holding = [sd for sd in SD_GRID if _held(scored[sd]["values"]) >= 1.0 - RANGE_MISSES - ONE_ROW]
        return min(holding or SD_GRID[-1:], key=lambda sd: scored[sd]["values_and_rules"]["interval_score"])

    chosen: dict[tuple[str, int], tuple[float, float]] = {}
    for source in sources(replays):
        sd = best([row for row in rows if row.source != source])
        chosen |= {(row.trial, row.day): grid[sd][row.trial, row.day] for row in rows if row.source == source}
    return best(rows), chosen, {f"{sd:.2f}": range_scores(rows, grid[sd]) for sd in SD_GRID}


def _held(scored: Mapping[str, float]) -> float:
    return scored["held"] / scored["readings"]


def ready_errors(
    candidate: Candidate, replays: Sequence[Replay], folds: Mapping[str, Values]
) -> list[dict[str, Any]]:
    """Days by which the model comes later (+) or earlier (-) to the moisture that was found."""
    found = []
    for replay in replays:
        trial = replay.trial
        path = replay.course(candidate, folds[trial.source_group], 730)
        for reading in trial.readings:
            if reading.kind not in ("measured", "rule"):
                continue
            below = np.nonzero(path <= reading.moisture)[0]
            days = int(below[0]) + 1 - reading.day if below.size else None
            found.append({"trial": trial.name, "day": reading.day, "kind": reading.kind, "days_off": days})
    return found


def ready_summary(errors: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Median and mean of the days off, and how many never came there."""
    reached = [abs(e["days_off"]) for e in errors if e["days_off"] is not None]
    return {
        "findings": len(errors),
        "never_reached": len(errors) - len(reached),
        "median_days": float(np.median(reached)),
        "mean_days": round(float(np.mean(reached)), 1),
        "eight_in_ten_within_days": float(np.quantile(reached, 0.8)),
    }


def write_fit(values: Values, sds: Values, log_rate_sd: float, where: Path) -> None:
    """Write the fitted figures for the package."""
    meanings = {
        "rate": "1/day, split broadleaved wood 100 x 330 mm at 0.5 kPa",
        "thickness_exponent": "set",
        "end_grain": "assumed",
        "log_rate_sd": "chosen by interval score",
    }
    with where.open("w", encoding="utf-8", newline="") as sheet:
        writer = csv.writer(sheet, lineterminator="\n")
        writer.writerow(["name", "value", "sd", "prior", "prior_sd", "meaning"])
        merged = {**NEUTRAL, **CHOSEN.fixed, **values, "log_rate_sd": log_rate_sd}
        for name, value in merged.items():
            free = name in values
            log = name in LOGARITHMIC
            plain = math.exp(value) if log else value
            prior, prior_sd = CHOSEN.prior(name) if free else ("", "")
            meaning = meanings.get(name, "factor; sd and prior of its logarithm" if log else "")
            writer.writerow(
                [
                    name,
                    f"{plain:.4g}",
                    f"{sds[name]:.2g}" if free else "",
                    *(_short(x) for x in (prior, prior_sd)),
                    meaning,
                ]
            )


def _short(number: float | str) -> str:
    return number if isinstance(number, str) else f"{number:.3g}"


def study(*, quick: bool) -> dict[str, Any]:
    """Everything, as one document."""
    replays = [Replay.of(trial) for trial in trials()]
    full: dict[str, list[Row]] = {}
    folds: dict[str, dict[str, Values]] = {}
    table = []
    for candidate in CANDIDATES:
        full[candidate.name], folds[candidate.name] = left_out(candidate, replays)
        scores = both_scores(full[candidate.name])
        table.append({"name": candidate.name, "what": candidate.what, **scores})
        found = [scores[rows]["mean_absolute"] for rows in ("values", "values_and_rules")]
        print(f"{candidate.name:32s} {found[0]} {found[1]}", flush=True)
    absolute = {name: by_source(two_sided(rows), lambda row: abs(row.error)) for name, rows in full.items()}
    absolute_values = {
        name: by_source(values_only(rows), lambda row: abs(row.error)) for name, rows in full.items()
    }
    document: dict[str, Any] = {
        "trials": len(replays),
        "findings": sum(len(r.trial.readings) for r in replays),
        "sources": len(sources(replays)),
        "candidates": table,
        "paired_absolute_error": {
            "values": paired(absolute_values["chosen"], absolute_values["reference"]),
            "values_and_rules": paired(absolute["chosen"], absolute["reference"]),
        },
    }
    reference_range = ranges(REFERENCE, replays, folds["reference"], 0.45)
    sd, chosen_range, grid = choose_sd(CHOSEN, replays, full["chosen"], folds["chosen"])
    document["ranges"] = {
        "reference": range_scores(full["reference"], reference_range),
        "chosen": range_scores(full["chosen"], chosen_range),
        "chosen_sd": sd,
        "by_sd": grid,
        "chosen_with_reference_sd": range_scores(
            full["chosen"], ranges(CHOSEN, replays, folds["chosen"], 0.45)
        ),
        "paired_interval_score": {
            name: paired(
                by_source(
                    pick(full["chosen"]), lambda row: interval_score(row, *chosen_range[row.trial, row.day])
                ),
                by_source(
                    pick(full["reference"]),
                    lambda row: interval_score(row, *reference_range[row.trial, row.day]),
                ),
            )
            for name, pick in (("values", values_only), ("values_and_rules", two_sided))
        },
    }
    ready = {c.name: ready_errors(c, replays, folds[c.name]) for c in (REFERENCE, CHOSEN)}
    document["ready_days"] = {name: ready_summary(errors) for name, errors in ready.items()}
    values, sds = fit(CHOSEN, replays)
    document["fit"] = {"values": rounded(values), "sds": rounded(sds), "log_rate_sd": sd}
    document["rows"] = per_row(replays, full, values, chosen_range, ready["chosen"])
    if not quick:
        rows, picked = nested(replays, full)
        document["nested_choice"] = {
            **both_scores(rows),
            "picked": picked,
            "paired": {
                "values": paired(
                    by_source(values_only(rows), lambda r: abs(r.error)), absolute_values["reference"]
                ),
                "values_and_rules": paired(
                    by_source(two_sided(rows), lambda r: abs(r.error)), absolute["reference"]
                ),
            },
        }
    return document


def rounded(values: Mapping[str, float]) -> Values:
    """To five figures, so that the file does not change with the machine."""
    return {name: float(f"{value:.5g}") for name, value in values.items()}


def per_row(
    replays: Sequence[Replay],
    full: Mapping[str, list[Row]],
    values: Values,
    chosen_range: Mapping[tuple[str, int], tuple[float, float]],
    ready: Sequence[Mapping[str, Any]],
) -> list[dict[str, Any]]:
    """Every finding: fitted, left out, the reference left out, range and days off."""
    reference = {(row.trial, row.day): row for row in full["reference"]}
    chosen = {(row.trial, row.day): row for row in full["chosen"]}
    days_off = {(e["trial"], e["day"]): e["days_off"] for e in ready}
    rows = []
    for replay in replays:
        path = replay.course(CHOSEN, values, replay.trial.days)
        for reading in replay.trial.readings:
            key = (replay.trial.name, reading.day)
            low, high = chosen_range[key]
            rows.append(
                {
                    "trial": key[0],
                    "source": replay.trial.source_group,
                    "day": reading.day,
                    "date": str(replay.trial.start + timedelta(days=reading.day))[5:],
                    "kind": reading.kind,
                    "reported": round(100 * reading.moisture, 1),
                    "fitted": round(100 * float(path[reading.day - 1]), 1),
                    "left_out": round(100 * chosen[key].modelled, 1),
                    "low": round(100 * low, 1),
                    "high": round(100 * high, 1),
                    "reference_left_out": round(100 * reference[key].modelled, 1),
                    "days_off": days_off.get(key),
                }
            )
    return rows


def main() -> None:
    """Run the study and write what it found."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="leave out the nested choice")
    parser.add_argument(
        "--tables", action="store_true", help="only write the tables anew from measured/seasoning.json"
    )
    asked = parser.parse_args()
    where = ROOT / "measured" / "seasoning.json"
    if asked.tables:
        document = json.loads(where.read_text(encoding="utf-8"))
    else:
        document = study(quick=asked.quick)
        fitted = document["fit"]
        write_fit(
            fitted["values"],
            fitted["sds"],
            fitted["log_rate_sd"],
            ROOT / "src" / "woodreeve" / "wood" / "data" / "drying_fit.csv",
        )
        write("seasoning", document, CODE)
    (ROOT / "docs" / "explanation" / "seasoning_tables.inc").write_text(tables(document), encoding="utf-8")


if __name__ == "__main__":
    main()
