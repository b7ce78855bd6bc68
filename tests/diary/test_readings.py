"""Moisture readings on the wet basis, from meter, oven and marker piece."""

from __future__ import annotations

from typing import Any

import pytest

from tests.diary.making import Diary, kinds_found
from woodreeve.diary.fold import fold
from woodreeve.diary.folded import Reading
from woodreeve.wood.moisture import meter_reading, to_wet_basis


def reading(**payload: Any) -> Reading:
    """The only reading of an entry."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(1, "measured", place="gable", **payload)
    (only,) = fold(diary.entries).readings
    return only


def test_several_values_are_averaged_on_the_wet_basis() -> None:
    """Each piece is turned round before the mean is taken."""
    found = reading(shown_percent=[20, 25, 28], basis="dry")
    values = [to_wet_basis(shown) for shown in (0.20, 0.25, 0.28)]
    assert found.values == pytest.approx(values)
    assert found.moisture == pytest.approx(sum(values) / 3)
    assert not found.at_least


def test_a_meter_of_unknown_basis_is_taken_as_wet_basis() -> None:
    """The safe side, for burning and for selling."""
    assert reading(shown_percent=[20]).moisture == pytest.approx(0.20)
    assert reading(shown_percent=[20]).basis == "not_known"


def test_what_a_meter_cannot_know_is_a_lower_bound() -> None:
    """Above 30 % of dry mass it only knows that the wood is wetter."""
    found = reading(shown_percent=[45], basis="dry")
    assert (found.at_least, found.moisture) == (True, pytest.approx(to_wet_basis(0.30)))
    assert found.shown_percent == (45.0,)


def test_pieces_beyond_the_meter_pull_the_mean_up() -> None:
    """Leaving them out would make wet wood look dry."""
    found = reading(shown_percent=[20], over_range=1, range_top_percent=28, basis="dry")
    assert found.moisture == pytest.approx((to_wet_basis(0.20) + to_wet_basis(0.28)) / 2)
    assert (found.at_least, found.over_range) == (True, 1)


def test_cold_wood_is_corrected_unless_the_meter_does_it() -> None:
    """As wood.moisture says; a frosty stack is wetter than it looks."""
    cold = reading(shown_percent=[20], basis="dry", wood_temperature_c=0)
    assert cold.moisture == pytest.approx(meter_reading(0.20, "dry", 0.0).moisture)
    assert cold.moisture is not None
    assert cold.moisture > to_wet_basis(0.20)
    told = reading(shown_percent=[20], basis="dry", wood_temperature_c=0, temperature_corrected=True)
    assert told.moisture == pytest.approx(to_wet_basis(0.20))


def test_a_figure_that_is_no_moisture_of_wood_is_kept_and_told() -> None:
    """75 % of wet weight is soup; the meter or its basis is wrong."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(1, "measured", place="gable", shown_percent=[75, 20], basis="wet")
    folded = fold(diary.entries)
    assert kinds_found(folded) == ["reading_out_of_range"]
    assert folded.readings[0].shown_percent == (75.0, 20.0)
    assert folded.readings[0].moisture == pytest.approx(0.20)


@pytest.mark.parametrize(
    ("again", "complete", "moisture"),
    [(None, None, 0.2), (399.85, True, 0.2003), (399.5, False, 0.201), (390, False, 0.22)],
)
def test_oven_samples_give_moisture_and_tell_whether_drying_was_complete(
    again: float | None, complete: bool | None, moisture: float
) -> None:
    """Weigh, dry, weigh, and weigh again: at most 0.2 % of the water lost may still go."""
    found = reading(oven=[{"wet_g": 500, "dry_g": 400, "dry_again_g": again}])
    assert (found.method, found.drying_complete) == ("oven", complete)
    assert found.moisture == pytest.approx(moisture)


def test_an_oven_sample_that_was_not_dry_is_a_finding() -> None:
    """Its figure is too low."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(1, "measured", place="gable", oven=[{"wet_g": 500, "dry_g": 400, "dry_again_g": 390}])
    assert kinds_found(fold(diary.entries)) == ["oven_drying_incomplete"]


def test_meter_and_oven_in_one_entry_are_two_readings() -> None:
    """They have errors of their own."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(1, "measured", place="gable", shown_percent=[18], oven=[{"wet_g": 500, "dry_g": 400}])
    assert [one.method for one in fold(diary.entries).stacks["gable"].readings] == ["meter", "oven"]


def test_a_marker_piece_is_understood_once_its_dry_weight_is_known() -> None:
    """The weighings before it too."""
    diary = Diary()
    diary.add(0, "weighed", marker="A7", place="gable", gross_kg=2.0)
    diary.add(50, "weighed", marker="A7", place="gable", gross_kg=1.5)
    diary.add(90, "weighed", marker="A7", place="gable", gross_kg=1.25, dry_kg=1.0)
    assert [one.moisture for one in fold(diary.entries).markers] == pytest.approx([0.5, 1 / 3, 0.2])


def test_a_reading_of_a_place_without_wood_is_kept_and_told() -> None:
    """The stack may be logged tomorrow."""
    diary = Diary()
    diary.add(1, "measured", place="gable", shown_percent=[18])
    folded = fold(diary.entries)
    assert kinds_found(folded) == ["unknown_place"]
    assert len(folded.readings) == 1
