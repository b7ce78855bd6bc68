"""Every published drying trial replayed, and the rules of thumb held against the model."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from woodreeve.wood import tables
from woodreeve.wood.seasoning import moisture_after
from woodreeve.wood.seasoning_fit import COVERS, Trial, TrialReading, trials, unscored_trials

MEASURED = json.loads((Path(__file__).parents[2] / "measured" / "seasoning.json").read_text(encoding="utf-8"))
REFERENCE_LEFT_OUT = 3.0
"""Mean absolute error in points that the reference model reaches on values of sources left out."""

FINDINGS = [(trial, reading) for trial in trials() for reading in trial.readings]
ROWS = {(row["trial"], row["day"]): row for row in MEASURED["rows"]}
RULES = tables.lines("drying_rules")


def replay(trial: Trial, reading: TrialReading) -> float:
    """What the model as it stands says of a finding, in per cent."""
    return 100.0 * moisture_after(
        trial.wood,
        float(reading.day),
        climate=trial.climate,
        start=trial.start,
        thickness_mm=trial.thickness_mm,
        length_mm=trial.length_mm,
        cover=trial.cover,
        place=trial.place,
        unsplit_bark=trial.unsplit_bark,
        start_moisture=trial.start_moisture,
    )


@pytest.mark.parametrize(
    ("trial", "reading"), [pytest.param(*found, id=f"{found[0].name}-{found[1].day}") for found in FINDINGS]
)
def test_each_trial_comes_out_as_the_table_of_errors_says(trial: Trial, reading: TrialReading) -> None:
    """The table in the docs is that of the model as it stands (its figures are kept to four digits)."""
    printed = ROWS[trial.name, reading.day]["fitted"]
    assert replay(trial, reading) == pytest.approx(printed, abs=0.1), trial.source


@pytest.mark.parametrize(
    ("trial", "reading"),
    [pytest.param(*f, id=f"{f[0].name}-{f[1].day}") for f in FINDINGS if f[1].kind.startswith("at_")],
)
def test_bounds_that_trials_report_are_kept(trial: Trial, reading: TrialReading) -> None:
    """What is "at or below" or "still above" a figure stays there, to the printed digit."""
    got = replay(trial, reading)
    if reading.kind == "at_most":
        assert got <= 100.0 * reading.moisture + 0.5, trial.source
    else:
        assert got >= 100.0 * reading.moisture - 0.5, trial.source


def test_all_trials_and_findings_are_there() -> None:
    """Twenty-nine scored trials with 31 findings, and seven that could not be scored."""
    assert len(trials()) == 29
    assert len(FINDINGS) == 31
    assert len({line["trial"] for line in unscored_trials()}) == 7
    assert len(ROWS) == 31


def test_the_fitted_model_is_no_worse_than_the_reference_was_on_what_it_was_fitted_to() -> None:
    """The reference's fitted values: mean absolute error 2.2, rms 3.3 points."""
    errors = np.array([replay(t, r) - 100 * r.moisture for t, r in FINDINGS if r.kind == "measured"])
    assert np.abs(errors).mean() <= 2.2
    assert np.sqrt((errors**2).mean()) <= 3.3


def test_sources_left_out_are_foretold_within_three_points_on_average() -> None:
    """The aim; and no worse than the reference on the same rows."""
    rows = [row for row in MEASURED["rows"] if row["kind"] == "measured"]
    own = np.mean([abs(row["left_out"] - row["reported"]) for row in rows])
    reference = np.mean([abs(row["reference_left_out"] - row["reported"]) for row in rows])
    assert len(rows) == 19
    assert reference == pytest.approx(REFERENCE_LEFT_OUT, abs=0.1)
    assert own <= 3.0
    assert own <= reference


def test_the_range_holds_at_least_seven_readings_in_ten() -> None:
    """On values alone and on values and rules, of sources left out."""
    for kinds in (("measured",), ("measured", "rule")):
        rows = [row for row in MEASURED["rows"] if row["kind"] in kinds]
        held = np.mean([row["low"] <= row["reported"] <= row["high"] for row in rows])
        assert 0.70 <= held <= 0.90


@pytest.mark.parametrize("rule", [pytest.param(rule, id=rule["rule"]) for rule in RULES])
def test_published_rules_of_thumb_are_respected(rule: dict[str, Any]) -> None:
    """To half the last printed digit."""
    month, day = (int(part) for part in rule["start"].split("-"))
    start = rule["start_moisture_percent"]
    got = 100.0 * moisture_after(
        rule["wood"],
        float(rule["days"]),
        climate=rule["climate"],
        start=date(2001, month, day),
        thickness_mm=float(rule["thickness_mm"]),
        length_mm=float(rule["length_mm"]),
        cover=next(cover for cover in COVERS if cover == rule["cover"]),
        start_moisture=float(start) / 100.0 if start else None,
    )
    assert got >= float(rule["low_percent"] or 0.0) - 0.5, rule["body"]
    assert got <= float(rule["high_percent"] or 100.0) + 0.5, rule["body"]


BROADLEAVES = ("beech", "ash", "silver_birch", "sycamore", "pedunculate_oak")
PLACES = ("Denmark", "Straubing", "Upper Austria", "south England", "Poznan")


@pytest.mark.parametrize("wood", BROADLEAVES)
@pytest.mark.parametrize("place", PLACES)
def test_common_practice_split_wood_six_months_under_cover(wood: str, place: str) -> None:
    """Six months or more bring it to about 20 to 25 % (common practice, no published source).

    Begun in spring it is at 20 % or less; over all months of the year it averages no more than 25 %.
    """
    months = [
        moisture_after(wood, 183.0, climate=place, start=date(2001, month, 1)) for month in range(1, 13)
    ]
    assert max(months[2:5]) <= 0.20
    assert 0.14 <= np.mean(months) <= 0.25
    assert max(months) >= 0.18, "a winter alone is not enough to be sure"
