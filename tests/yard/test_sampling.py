"""Sampling: how many pieces, where from, and what each is worth."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange
from woodreeve.wood.seasoning_readings import moisture_sd
from woodreeve.yard.sampling import pieces_to_split, range_after, sampling_plan


@given(st.floats(0.019, 0.1), st.floats(0.01, 0.08), st.floats(0.0, 0.015))
def test_the_pieces_asked_for_give_the_sureness_wanted(wanted: float, spread: float, meter: float) -> None:
    """And one piece fewer would not, unless three are the least."""
    try:
        pieces = pieces_to_split(wanted, piece_spread=spread, meter_sd=meter)
    except OutOfRange:
        return
    kept = {"piece_spread": spread, "meter_sd": meter}
    assert moisture_sd(pieces, **kept) <= max(wanted, 0.005) + 1e-9
    if pieces > 3:
        assert moisture_sd(pieces - 1.0, **kept) > wanted


def test_a_wish_beyond_the_meter_points_to_the_oven() -> None:
    """No number of pieces mends a meter."""
    with pytest.raises(OutOfRange, match="oven"):
        pieces_to_split(0.01)


def test_a_wish_that_needs_a_hundred_pieces_points_to_the_oven() -> None:
    """Nobody splits so many."""
    with pytest.raises(OutOfRange, match="60 pieces"):
        pieces_to_split(0.0153)


@given(st.floats(0.01, 0.1), st.floats(0.005, 0.05), st.floats(0.0, 20.0))
def test_each_reading_narrows_the_range_and_the_first_the_most(p: float, s: float, n: float) -> None:
    """The gain of a reading falls with their number."""
    first = range_after(p, s, n) - range_after(p, s, n + 1.0)
    second = range_after(p, s, n + 1.0) - range_after(p, s, n + 2.0)
    assert first > second > 0.0


def test_a_plan_takes_from_top_middle_and_bottom_and_into_the_core_of_a_block() -> None:
    """Every height comes up; a single row has no core."""
    block = sampling_plan(0.02, rows=4.0)
    assert {piece.height for piece in block.pieces} == {"top", "middle", "bottom"}
    assert {piece.depth for piece in block.pieces} == {"outside", "core"}
    assert {piece.depth for piece in sampling_plan(0.02).pieces} == {"outside"}
    assert block.sd <= 0.02


def test_wood_too_wet_for_a_meter_is_for_the_scales() -> None:
    """The plan says so."""
    assert sampling_plan(likely_moisture=0.35).oven_instead
    assert not sampling_plan(likely_moisture=0.20).oven_instead


def test_each_height_gives_pieces_from_the_face_and_from_inside() -> None:
    """Of a stack several rows deep, in turn."""
    pieces = sampling_plan(0.02, rows=3.0).pieces
    for height in ("top", "middle", "bottom"):
        assert {piece.depth for piece in pieces if piece.height == height} == {"core", "outside"}
