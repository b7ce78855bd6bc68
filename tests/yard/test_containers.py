"""What the owner's own measures hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange, UnknownName, WrongKind
from woodreeve.wood import measure
from woodreeve.yard.containers import (
    container_sizes,
    fill_mass,
    fill_mass_from_litres,
    fill_mass_from_weighings,
    fills_of,
)
from woodreeve.yard.fields import Container, Weighing


def weighed(*masses: float, species: str = "ash", moisture: float | None = 0.2) -> tuple[Weighing, ...]:
    """Weighings of one species at one moisture."""
    return tuple(Weighing(kg=kg, species=species, moisture=moisture) for kg in masses)


def test_a_stacked_metre_by_litres_is_a_stacked_metre_by_the_tape() -> None:
    """A crate of 1,000 litres filled log by log weighs what a stacked cubic metre weighs."""
    fill = fill_mass_from_litres(1000.0, "stacked", "beech", 0.2)
    assert fill.mass_kg == pytest.approx(measure.mass_of_stacked("beech", 1.0, 0.2, "split_33cm"))
    assert fill.low_kg < fill.mass_kg < fill.high_kg


def test_tipped_in_it_holds_less_than_stacked() -> None:
    """A barrow tipped full holds less wood than one filled log by log."""
    loose = fill_mass_from_litres(120.0, "loose", "ash", 0.2)
    assert loose.mass_kg < 0.9 * fill_mass_from_litres(120.0, "stacked", "ash", 0.2).mass_kg


def test_a_barrow_of_wet_wood_is_heavier_than_one_of_dry() -> None:
    """The same logs weigh more when wet, by the water alone."""
    dry, wet = (fill_mass_from_litres(120.0, "loose", "ash", moisture).mass_kg for moisture in (0.2, 0.5))
    assert wet / dry == pytest.approx(0.8 / 0.5)


def test_weighings_of_the_same_wood_give_their_mean() -> None:
    """Three weighings of ash at 20 % say what a barrow of ash at 20 % weighs: their mean."""
    fill = fill_mass_from_weighings(weighed(30.0, 33.0, 36.0), "ash", 0.2)
    assert fill.mass_kg == pytest.approx(33.0)
    assert (fill.known_by, fill.weighings) == ("weighings", 3)


def test_the_range_of_three_weighings_is_students() -> None:
    """Standard deviation 3 kg, three weighings: 1.886 x 3 x sqrt(4/3) = 6.53 kg each way."""
    fill = fill_mass_from_weighings(weighed(30.0, 33.0, 36.0), "ash", 0.2)
    assert fill.high_kg - fill.mass_kg == pytest.approx(6.533, abs=0.001)
    assert fill.mass_kg - fill.low_kg == pytest.approx(6.533, abs=0.001)


def test_weighings_of_ash_tell_what_a_fill_of_alder_weighs() -> None:
    """What was learned is the wood in the container, so species and moisture carry over."""
    fill = fill_mass_from_weighings(weighed(33.0), "alder", 0.4)
    ratio = measure.mass_of_solid("alder", 1.0, 0.4) / measure.mass_of_solid("ash", 1.0, 0.2)
    assert fill.mass_kg == pytest.approx(33.0 * ratio)


def test_a_moisture_not_measured_counts_as_twenty_percent() -> None:
    """A weighing without a moisture is taken at 20 %."""
    assert fill_mass_from_weighings(weighed(33.0, moisture=None), "ash", 0.2).mass_kg == pytest.approx(33.0)


def test_scales_win_over_litres() -> None:
    """Once a container was weighed its litres no longer count; diary and holding count together."""
    barrow = Container(name="barrow", litres=120.0)
    assert fill_mass(barrow, "ash", 0.2).known_by == "litres"
    learned = fill_mass(barrow, "ash", 0.2, weighed(20.0))
    assert (learned.known_by, learned.mass_kg) == ("weighings", pytest.approx(20.0))
    both = Container(name="barrow", litres=120.0, weighings=weighed(20.0))
    assert fill_mass(both, "ash", 0.2, weighed(30.0)).mass_kg == pytest.approx(25.0)


def test_no_weighing_is_refused_in_one_sentence() -> None:
    """There is nothing to learn from no weighing."""
    with pytest.raises(WrongKind, match="at least one weighing"):
        fill_mass_from_weighings((), "ash", 0.2)


@given(st.lists(st.floats(1.0, 100.0), min_size=1, max_size=30), st.floats(0.0, 0.6))
def test_the_range_always_holds_the_mean_and_is_never_below_nothing(
    masses: list[float], moisture: float
) -> None:
    """The range always holds the mean and is never below nothing."""
    fill = fill_mass_from_weighings(weighed(*masses), "oak", moisture)
    assert -1e-9 <= fill.low_kg <= fill.mass_kg <= fill.high_kg


@pytest.mark.parametrize(
    ("mass", "one", "fills"), [(99.0, 33.0, 3.0), (90.0, 33.0, 2.5), (2.0, 33.0, 0.5), (0.0, 33.0, 0.0)]
)
def test_wood_is_told_in_whole_and_half_fills(mass: float, one: float, fills: float) -> None:
    """Wood is told in whole and half fills, and never as none where there is some."""
    assert fills_of(mass, one) == fills


def test_out_of_range_figures_get_one_clear_sentence() -> None:
    """A moisture in percent, an empty container and an unknown wood are refused."""
    with pytest.raises(OutOfRange, match="give 20 % as"):
        fill_mass_from_litres(120.0, "loose", "ash", 20.0)
    with pytest.raises(OutOfRange, match="litres"):
        fill_mass_from_litres(0.0, "loose", "ash", 0.2)
    with pytest.raises(UnknownName, match="ash"):
        fill_mass_from_litres(120.0, "loose", "asch", 0.2)


def test_the_diary_is_told_mean_weights_at_one_moisture() -> None:
    """Weighings at other moistures are brought to the one at which the diary takes them."""
    barrow = Container(name="barrow", litres=120.0, weighings=weighed(32.0, moisture=0.25) + weighed(30.0))
    (size,) = container_sizes([barrow])
    assert size.moisture == 0.2
    assert size.mass_kg["ash"] == pytest.approx((32.0 * 0.75 / 0.8 + 30.0) / 2.0)
    assert (size.litres, size.filled) == (120.0, "loose")
