"""A stack that is not made yet: split size, month and cover tried beforehand."""

from dataclasses import replace
from datetime import date

import pytest

from woodreeve.errors import OutOfRange
from woodreeve.learning.whatif import NewStack, try_new_stacks
from woodreeve.wood.seasoning_weather import trial_climate

SEASON = date(2026, 10, 1)
WEATHER = trial_climate("south England", start=date(2025, 1, 1), days=1200)
BEECH = NewStack(wood="beech", start=date(2026, 3, 1), cover="roof")


def test_small_splits_early_starts_and_covers_are_surer_by_the_season() -> None:
    """Each of the three against the other way."""
    usual, thick, late, bare = try_new_stacks(
        (
            BEECH,
            replace(BEECH, thickness_mm=180.0),
            replace(BEECH, start=date(2026, 7, 1)),
            replace(BEECH, cover="none"),
        ),
        WEATHER,
        season_start=SEASON,
    )
    for worse in (thick, late, bare):
        assert worse.chance_by_season < usual.chance_by_season
        assert worse.moisture_by_season > usual.moisture_by_season


def test_oak_needs_longer_than_ash() -> None:
    """Both split on the same day."""
    oak, ash = try_new_stacks(
        (replace(BEECH, wood="pedunculate_oak"), replace(BEECH, wood="ash")), WEATHER, season_start=SEASON
    )
    assert ash.ready.median is not None
    assert oak.ready.median is None or oak.ready.median > ash.ready.median


def test_the_same_choice_twice_gives_the_same_answer() -> None:
    """The dice are the same, so that differences are real."""
    one, other = try_new_stacks((BEECH, BEECH), WEATHER, season_start=SEASON)
    assert one == other


def test_a_start_after_the_season_is_refused() -> None:
    """It cannot help this winter."""
    with pytest.raises(OutOfRange, match="on or before"):
        try_new_stacks((replace(BEECH, start=date(2026, 11, 1)),), WEATHER, season_start=SEASON)
