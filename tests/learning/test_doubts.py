"""Odd readings are explained, never swallowed."""

from datetime import date, timedelta

import pytest

from woodreeve.learning.course import ReadingSeen
from woodreeve.learning.doubts import doubts_about
from woodreeve.wood.moisture import MeterBasis
from woodreeve.wood.seasoning_readings import StackReading

TAKEN = date(2026, 6, 1)


def seen(
    moisture: float, expected: float, *, basis: MeterBasis = "dry", rain: bool = False, odd: bool = True
) -> ReadingSeen:
    """A meter's reading against what was expected."""
    reading = StackReading(
        taken=TAKEN,
        kind="value",
        moisture=moisture,
        sd=0.02,
        how="meter",
        basis=basis,
        surface_may_be_wet=rain,
    )
    return ReadingSeen(reading=reading, expected=expected, expected_sd=0.01, sds_off=5.0, odd=odd)


def causes(one: ReadingSeen, *, days: int = 200, air_c: float | None = 15.0) -> list[str]:
    """The causes named."""
    return [doubt.cause for doubt in doubts_about(one, stack_since=TAKEN - timedelta(days=days), air_c=air_c)]


def test_a_reading_as_expected_raises_no_doubt() -> None:
    """Nothing is said."""
    assert causes(seen(0.20, 0.20, odd=False)) == []


def test_a_number_that_fits_the_other_basis_names_it_first() -> None:
    """0.32 was taken as a dry-basis number's 24 % wet; the forecast says 32."""
    assert causes(seen(0.2424, 0.32))[0] == "wrong_basis"
    assert "wrong_basis" not in causes(seen(0.2424, 0.15))


@pytest.mark.parametrize(
    ("one", "cause"),
    [
        (seen(0.32, 0.18, rain=True), "wet_surface"),
        (seen(0.23, 0.18), "species_setting"),
    ],
)
def test_likely_causes_are_named(one: ReadingSeen, cause: str) -> None:
    """Each where it fits."""
    assert cause in causes(one)


def test_cold_wood_is_named_only_for_a_dry_reading_on_a_cold_day() -> None:
    """Cold makes a meter read too dry, never too wet."""
    assert "cold_wood" in causes(seen(0.14, 0.22), air_c=2.0)
    assert "cold_wood" not in causes(seen(0.14, 0.22), air_c=15.0)
    assert "cold_wood" not in causes(seen(0.30, 0.22), air_c=2.0)


def test_decay_is_named_for_an_old_stack_that_is_too_wet() -> None:
    """Not for this year's."""
    assert "decay" in causes(seen(0.33, 0.18), days=800)
    assert "decay" not in causes(seen(0.33, 0.18), days=200)


def test_that_it_may_be_true_is_always_the_last_word() -> None:
    """The owner may be right and the forecast wrong."""
    assert causes(seen(0.33, 0.18))[-1] == "truly_so"
