"""The figures in the package are those that the study finds, and the docs show the same."""

import json
import math
from pathlib import Path

import numpy as np
import pytest

from studies.drying_candidates import CHOSEN, LOGARITHMIC, REFERENCE, Replay
from studies.seasoning import Row, fit, interval_score, left_out, paired, score, values_only
from studies.seasoning_learning import table as learning_table
from studies.seasoning_tables import tables
from woodreeve.wood.seasoning_fit import fitted, trials

ROOT = Path(__file__).parents[2]
MEASURED = json.loads((ROOT / "measured" / "seasoning.json").read_text(encoding="utf-8"))


def row(reported: float, modelled: float, source: str = "a") -> Row:
    """A made-up row."""
    return Row("t", source, 1, "measured", reported, modelled)


def test_fitting_anew_gives_the_figures_of_the_package() -> None:
    """To the digits that the sheet keeps."""
    values, _ = fit(CHOSEN, [Replay.of(trial) for trial in trials()])
    packaged = fitted()
    for name, value in values.items():
        plain = math.exp(value) if name in LOGARITHMIC else value
        assert getattr(packaged, name) == pytest.approx(plain, rel=0.01, abs=5e-4), name


def test_the_docs_show_the_tables_of_the_study() -> None:
    """Nobody has edited them by hand."""
    written = (ROOT / "docs" / "explanation" / "seasoning_tables.inc").read_text(encoding="utf-8")
    assert written == tables(MEASURED)


def test_the_docs_show_what_readings_buy_as_measured() -> None:
    """The same for the second study."""
    document = json.loads((ROOT / "measured" / "seasoning_learning.json").read_text(encoding="utf-8"))
    written = (ROOT / "docs" / "explanation" / "seasoning_learning_table.inc").read_text(encoding="utf-8")
    assert written == learning_table(document)


@pytest.mark.slow
def test_leaving_sources_out_gives_the_errors_that_the_docs_show() -> None:
    """For the chosen model and for the reference, both fitted anew for each source."""
    replays = [Replay.of(trial) for trial in trials()]
    for candidate in (CHOSEN, REFERENCE):
        rows, _ = left_out(candidate, replays)
        written = next(c for c in MEASURED["candidates"] if c["name"] == candidate.name)["values"]
        got = score(values_only(rows))
        assert got["mean_absolute"] == pytest.approx(written["mean_absolute"], abs=0.02)
        assert got["root_mean_square"] == pytest.approx(written["root_mean_square"], abs=0.02)


def test_no_source_is_in_the_fit_that_foretells_it() -> None:
    """A trial of a source left out moves the errors of the others, not its own."""
    replays = [Replay.of(trial) for trial in trials()]
    some = [r for r in replays if r.trial.source_group in ("Visser 2014", "Hakushu home trial", "NIBIO As")]
    rows, folds = left_out(CHOSEN, some)
    alone, _ = fit(CHOSEN, [r for r in some if r.trial.source_group != "NIBIO As"])
    assert folds["NIBIO As"] == alone
    assert {r.source for r in rows} == {"Visser 2014", "Hakushu home trial", "NIBIO As"}


def test_an_interval_score_is_the_width_and_ten_times_any_miss() -> None:
    """For a range that shall hold in 8 cases of 10, in points."""
    assert interval_score(row(0.20, 0.2), 0.18, 0.24) == pytest.approx(6.0)
    assert interval_score(row(0.16, 0.2), 0.18, 0.24) == pytest.approx(6.0 + 20.0)


def test_the_paired_range_is_over_sources_not_rows() -> None:
    """A hundred rows of one source count as one source."""
    one = paired({"a": [1.0] * 100, "b": [0.0]}, {"a": [0.0] * 100, "b": [0.0]}, draws=2000)
    assert one["sources"] == 2
    assert one["low_10"] == 0.0
    assert one["high_90"] == 1.0


def test_bias_has_the_sign_of_model_minus_report() -> None:
    """Positive: the model is too wet."""
    assert score([row(0.20, 0.23), row(0.20, 0.21)])["bias"] == pytest.approx(2.0)
    assert np.isclose(score([row(0.20, 0.23), row(0.20, 0.21)])["within_3"], 1.0)
