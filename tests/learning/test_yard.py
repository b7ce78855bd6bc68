"""From the diary's stacks and readings to the drying model."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from woodreeve.diary.folded import MarkerWeight, Reading, StackContents
from woodreeve.errors import Unknown
from woodreeve.learning.stack import follow_stack
from woodreeve.learning.yard import stack_as_followed
from woodreeve.wood.seasoning_weather import DryingWeather, trial_climate
from woodreeve.yard.fields import MoistureMeter, StackPlace

TYPICAL = trial_climate("south England", start=date(2025, 1, 1), days=900)
WEATHER = DryingWeather(
    start=TYPICAL.start,
    air_c=TYPICAL.air_c,
    relative_humidity=TYPICAL.relative_humidity,
    rain_mm_month=TYPICAL.rain_mm_month,
    known_days=400,
)
GABLE = StackContents(
    place="gable",
    stage="stack",
    solid_m3=6.0,
    stacked_m3=9.0,
    dry_kg=3300.0,
    mix={"ash": 1.0},
    pieces="split",
    log_cm=50.0,
    form="split_50cm",
    split_on=date(2025, 3, 1),
    stacked_on=date(2025, 3, 10),
    covered_on=date(2025, 4, 1),
    cover="sheet",
)


def meter(day: date, *percent: float, **more: object) -> Reading:
    """A reading as the diary folds it."""
    told = {
        "entry": "e",
        "place": "gable",
        "happened": datetime(day.year, day.month, day.day, 12, tzinfo=UTC),
        "method": "meter",
        "moisture": 0.2,
        "shown_percent": percent,
        "basis": "dry",
        "meter": "old",
    }
    return Reading(**{**told, **more})  # type: ignore[arg-type]  # fields are checked by their own types


def test_a_split_stack_dries_from_its_split_under_the_cover_it_got() -> None:
    """Sizes that nobody told are said to be assumed."""
    found = stack_as_followed(GABLE, WEATHER)
    assert found.stack.start == date(2025, 3, 1)
    assert found.stack.length_mm == 500.0
    assert found.stack.cover_on(date(2025, 3, 20)) == "none"
    assert found.stack.cover_on(date(2025, 4, 2)) == "top_sheet"
    assert found.assumed == ("thickness", "start_moisture")


def test_a_place_under_a_roof_covers_from_the_first_day() -> None:
    """Nobody logs a roof that has always been there."""
    bare = replace(GABLE, covered_on=None, cover=None)
    assert stack_as_followed(bare, WEATHER).stack.cover_on(date(2025, 6, 1)) == "none"
    barn = StackPlace(name="gable", cover="shed", rows=4)
    found = stack_as_followed(bare, WEATHER, place=barn).stack
    assert (found.cover_on(date(2025, 3, 2)), found.place) == ("shed", "block_or_pile")


def test_a_meters_record_decides_what_its_numbers_mean() -> None:
    """The basis comes from the meter where the entry does not know it."""
    told = replace(GABLE, readings=(meter(date(2025, 6, 1), 25.0, 25.0, basis="not_known"),))
    known = MoistureMeter(name="old", basis="dry", temperature_corrected="yes")
    sure = stack_as_followed(told, WEATHER, meters=[known]).readings[0]
    unsure = stack_as_followed(told, WEATHER).readings[0]
    assert sure.moisture == pytest.approx(0.20)
    assert unsure.sd > sure.sd


def test_frozen_readings_are_refused_and_said() -> None:
    """They stay in the diary, with the reason."""
    frost = DryingWeather(
        start=WEATHER.start,
        air_c=WEATHER.air_c * 0.0 - 4.0,
        relative_humidity=WEATHER.relative_humidity,
        rain_mm_month=WEATHER.rain_mm_month,
        known_days=900,
    )
    found = stack_as_followed(replace(GABLE, readings=(meter(date(2025, 6, 1), 18.0),)), frost)
    assert found.readings == ()
    assert "frozen" in found.refused[0].sentence


def test_pieces_beyond_the_meter_make_a_bound() -> None:
    """Two of three wetter than it can show."""
    told = replace(GABLE, readings=(meter(date(2025, 4, 10), 28.0, over_range=2),))
    assert stack_as_followed(told, WEATHER).readings[0].kind == "above"


def test_oven_samples_and_marker_pieces_come_in() -> None:
    """With their own errors, in the order of time."""
    oven = meter(date(2025, 7, 1), method="oven", values=(0.21, 0.23, 0.22), shown_percent=())
    marker = MarkerWeight(
        entry="m",
        marker="A",
        place="gable",
        happened=datetime(2025, 6, 1, 12, tzinfo=UTC),
        mass_kg=2.0,
        dry_kg=1.5,
        moisture=0.25,
        species=None,
    )
    elsewhere = replace(marker, place="barn")
    found = stack_as_followed(replace(GABLE, readings=(oven,)), WEATHER, markers=[marker, elsewhere]).readings
    assert [(r.how, round(r.moisture, 3)) for r in found] == [("marker", 0.25), ("oven", 0.22)]


def test_readings_of_other_wood_in_the_same_place_are_left_out() -> None:
    """What was read before this wood was split is not of this wood."""
    told = replace(GABLE, readings=(meter(date(2025, 2, 1), 18.0),))
    assert stack_as_followed(told, WEATHER).readings == ()


def test_wood_that_dried_elsewhere_starts_with_the_moisture_it_brought() -> None:
    """From the day it was stacked, a little less sure."""
    found = stack_as_followed(replace(GABLE, carried_moisture=0.28), WEATHER).stack
    assert (found.start, found.start_moisture) == (date(2025, 3, 10), 0.28)
    assert found.start_moisture_sd > 0.03


def test_wood_of_which_nobody_knows_the_age_is_not_guessed() -> None:
    """The owner is asked to log it."""
    with pytest.raises(Unknown, match="split or stacked"):
        stack_as_followed(replace(GABLE, split_on=None, stacked_on=None), WEATHER)


def test_the_whole_way_from_diary_to_range() -> None:
    """A stack with two readings ends near them."""
    told = replace(
        GABLE, readings=(meter(date(2025, 6, 1), 32.0, 30.0), meter(date(2025, 7, 15), 24.0, 25.0, 26.0))
    )
    found = stack_as_followed(
        told, WEATHER, meters=[MoistureMeter(name="old", basis="dry")], thickness_mm=110.0
    )
    course = follow_stack(found.stack, WEATHER, found.readings, now=date(2025, 7, 20))
    assert course.measured
    assert course.low_now < 0.20 < course.high_now


def test_wood_that_a_stocktake_found_is_as_wet_as_it_is_measured() -> None:
    """Nobody knows its age: 19 % on the day it was found is 19 %, not green wood read wrongly."""
    day = date(2025, 9, 1)
    found = replace(GABLE, split_on=None, stacked_on=None, found_on=day, covered_on=None)
    read = meter(day, 18.5, 19.0, 19.5, basis="wet", method="oven", values=(0.185, 0.19, 0.195))
    followed = stack_as_followed(replace(found, readings=(read,)), WEATHER)
    assert followed.stack.start == day
    course = follow_stack(followed.stack, WEATHER, followed.readings, now=day)
    assert course.moisture_now == pytest.approx(0.19, abs=0.02)
    assert not course.readings[0].odd
    earlier = replace(read, happened=datetime(2025, 8, 20, 12, tzinfo=UTC))
    assert stack_as_followed(replace(found, readings=(earlier,)), WEATHER).stack.start == date(2025, 8, 20)


def test_wood_that_a_stocktake_found_and_nobody_measured_is_not_followed() -> None:
    """It may be green or two years old."""
    found = replace(GABLE, split_on=None, stacked_on=None, found_on=date(2025, 9, 1))
    with pytest.raises(Unknown, match="measure"):
        stack_as_followed(found, WEATHER)
