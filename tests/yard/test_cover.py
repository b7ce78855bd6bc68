"""How far the wood reaches, and by when more must be split."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.yard.stacks import stack
from woodreeve.errors import OutOfRange
from woodreeve.wood.heat import energy_per_stacked_m3
from woodreeve.yard.cover import HeatNeed, amount_for_heat, split_by, winter_cover
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.stock import YardStock, yard_stock

NOTHING = HeatNeed(kwh=0.0, low_kwh=0.0, high_kwh=0.0)


def stock(dry_m3: float = 10.0, wet_m3: float = 10.0) -> YardStock:
    """A yard of dry and wet ash."""
    return yard_stock(
        {"dry": stack("dry", "ash", dry_m3, 0.2), "wet": stack("wet", "ash", wet_m3, 0.35)}, WoodLimits()
    )


def need(kwh: float, spread: float = 0.1) -> HeatNeed:
    """A need with its range."""
    return HeatNeed(kwh=kwh, low_kwh=kwh * (1 - spread), high_kwh=kwh * (1 + spread))


def test_winters_are_heat_over_need() -> None:
    """Twice the wood covers twice the winters, and the range goes both ways."""
    have = stock()
    cover = winter_cover(have, need(have.heat_kwh / 2.0), NOTHING)
    assert cover.winters == pytest.approx(2.0)
    assert cover.low < cover.winters < cover.high
    assert cover.dry_winters == pytest.approx(2.0 * have.share_dry_enough)


def test_nothing_is_short_where_the_yard_is_full() -> None:
    """Where the yard holds more than both winters need nothing is short."""
    cover = winter_cover(stock(), need(10000.0), need(5000.0))
    assert (cover.short_now_kwh, cover.short_next_kwh, cover.short_next_high_kwh) == (0.0, 0.0, 0.0)


def test_only_dry_wood_counts_for_the_rest_of_this_winter() -> None:
    """For the rest of this winter only dry wood counts, for the next all that is split."""
    have = stock()
    rest = need(have.dry_kwh + 1000.0, spread=0.0)
    cover = winter_cover(have, need(have.heat_kwh, spread=0.0), rest)
    assert cover.short_now_kwh == pytest.approx(1000.0)
    assert cover.short_next_kwh == pytest.approx(rest.kwh)
    assert cover.left_for_next_kwh == pytest.approx(have.heat_kwh - rest.kwh)


def test_what_this_winter_lacks_is_not_counted_again_for_the_next() -> None:
    """With the yard used up by summer the next winter wants what a winter takes, and no more."""
    have = stock()
    cover = winter_cover(have, need(20000.0, spread=0.0), need(have.high_kwh + 9000.0, spread=0.0))
    assert (cover.short_next_low_kwh, cover.short_next_kwh, cover.short_next_high_kwh) == (20000.0,) * 3
    assert cover.left_for_next_kwh == 0.0


@given(
    st.floats(0.0, 60.0), st.floats(0.0, 60.0), st.floats(1.0, 1e5), st.floats(0.0, 1e5), st.floats(0.0, 0.5)
)
def test_ranges_hold_their_middle(dry: float, wet: float, winter: float, rest: float, spread: float) -> None:
    """Every shortfall lies within its range, and none is negative."""
    cover = winter_cover(stock(dry, wet), need(winter, spread), need(rest, spread))
    assert cover.low <= cover.winters <= cover.high
    assert 0.0 <= cover.short_now_low_kwh <= cover.short_now_kwh <= cover.short_now_high_kwh
    assert 0.0 <= cover.short_next_low_kwh <= cover.short_next_kwh <= cover.short_next_high_kwh


def test_a_winter_without_need_is_refused() -> None:
    """Nothing can be said in winters where a winter needs nothing."""
    with pytest.raises(OutOfRange, match="winter's need"):
        winter_cover(stock(), NOTHING, NOTHING)


def test_the_amount_for_some_heat_is_the_heat_of_that_amount() -> None:
    """Going from heat to stacked metres and back ends where it began."""
    amount = amount_for_heat(10000.0, "ash", 0.2)
    assert amount.stacked_m3 * energy_per_stacked_m3("ash", 0.2, "split_33cm") == pytest.approx(10000.0)
    assert amount.solid_m3 == pytest.approx(amount.stacked_m3 * 0.62)
    assert amount.dry_kg == pytest.approx(amount.mass_kg * 0.8)


def test_six_months_before_the_first_of_october_is_the_first_of_april() -> None:
    """Six months before the first of October is the first of April, give or take a day."""
    found = split_by(date(2026, 10, 1), date(2026, 1, 13))
    assert abs((found.latest - date(2026, 4, 1)).days) <= 1
    assert abs((found.safe - date(2025, 10, 1)).days) <= 1
    assert found.days_left == (found.latest - date(2026, 1, 13)).days
    assert not found.passed


def test_a_day_that_has_passed_says_so() -> None:
    """A day that has passed says so, and by how many days."""
    found = split_by(date(2026, 10, 1), date(2026, 6, 1), 6.0)
    assert found.passed
    assert found.days_left < 0


def test_longer_lying_means_earlier_splitting() -> None:
    """Longer lying means earlier splitting."""
    assert (
        split_by(date(2026, 10, 1), date(2026, 1, 1), 12.0).latest
        < split_by(date(2026, 10, 1), date(2026, 1, 1), 6.0).latest
    )
