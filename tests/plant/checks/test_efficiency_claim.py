"""What claims of efficiency mean."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange
from woodreeve.plant.checks.efficiency_claim import (
    efficiency_by_flue,
    open_claim,
    oxygen_from_carbon_dioxide,
    usual_claims,
)
from woodreeve.plant.checks.flue_checks import read_rating
from woodreeve.plant.checks.smoke import draught_at_rest, smoke_dew_points
from woodreeve.wood.burning import burn, excess_air_from_oxygen


def test_96_and_98_per_cent_cannot_be_over_hot_water() -> None:
    """What is left for the flue asks for smoke colder than the boiler's water, or is less than nothing."""
    good, great, greatest = usual_claims()
    assert good.possible
    assert good.flue_c == pytest.approx(110.0, abs=5.0)
    assert not great.possible
    assert great.flue_c is not None
    assert great.flue_c < 60.0
    assert greatest.flue_c is None
    assert greatest.flue_loss < 0.0


def test_the_same_boiler_has_two_efficiencies() -> None:
    """96 to 98 % net are 87 to 90 % gross, by how dry the wood is."""
    assert open_claim(0.96, moisture=0.20).gross == pytest.approx(0.867, abs=0.003)
    assert open_claim(0.98, moisture=0.15).gross == pytest.approx(0.894, abs=0.003)


@given(
    st.floats(min_value=90.0, max_value=350.0),
    st.floats(min_value=0.03, max_value=0.14),
    st.floats(min_value=0.05, max_value=0.35),
)
def test_your_own_figure_opened_as_a_claim_gives_your_flue_back(
    flue: float, oxygen: float, moisture: float
) -> None:
    """The two sums are each other's inverse."""
    own = efficiency_by_flue(flue, oxygen, moisture, casing_loss=0.02, unburnt=0.005)
    if own.net < 0.4:
        return
    back = open_claim(own.net, oxygen, moisture)
    assert back.flue_c == pytest.approx(flue, abs=0.05)
    assert back.gross == pytest.approx(own.gross)
    assert own.gross < own.net


@given(st.floats(min_value=0.0, max_value=0.15))
def test_carbon_dioxide_and_oxygen_tell_the_same_fire(oxygen: float) -> None:
    """Through the combustion of typical wood."""
    gas = burn(0.2, excess_air_from_oxygen(oxygen))
    assert oxygen_from_carbon_dioxide(gas.carbon_dioxide_dry) == pytest.approx(oxygen, abs=2e-4)


def test_wetter_wood_and_less_air_make_wetter_smoke() -> None:
    """Down the table it rises, along it falls."""
    table = [line.points_c for line in smoke_dew_points()]
    for row in table:
        assert list(row) == sorted(row, reverse=True)
    for column in zip(*table, strict=True):
        assert list(column) == sorted(column)


@given(st.floats(min_value=2.0, max_value=20.0), st.floats(min_value=-20.0, max_value=25.0))
def test_draught_grows_with_height_and_turns_with_the_warmth(height: float, outdoor: float) -> None:
    """Cold smoke falls."""
    assert draught_at_rest(2.0 * height, outdoor) == pytest.approx(2.0 * draught_at_rest(height, outdoor))
    assert (
        draught_at_rest(height, outdoor, outdoor - 5.0)
        < 0.0
        < draught_at_rest(height, outdoor, outdoor + 5.0)
    )


@pytest.mark.parametrize(
    ("plate", "read"),
    [
        ("EN 1856-1 T450 N1 W V2 L50050 G50", (450, "W", "G")),
        ("T400 N1 D 3 G", (400, "D", "G")),
        ("t 600 n1 w 2 o 30", (600, "W", "O")),
        ("lined in 1987", (None, None, None)),
    ],
)
def test_the_letters_of_a_chimneys_plate_are_read(
    plate: str, read: tuple[int | None, str | None, str | None]
) -> None:
    """In either case, with or without blanks; what is not there is not made up."""
    found = read_rating(plate)
    assert (found.temperature_c, found.condensate, found.sootfire) == read


def test_a_claim_out_of_range_is_told_in_one_sentence() -> None:
    """A percentage typed as such."""
    with pytest.raises(OutOfRange, match=r"claim is 97, .*give 97 % as 0\.97"):
        open_claim(97.0)
