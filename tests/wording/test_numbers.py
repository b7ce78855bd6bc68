"""Figures in words: no more digits than are known, in the measures the owner likes."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.wording.numbers import column, day, in_currency, moment, number, shown, summed, text, when
from woodreeve.workings import Dated, Figure

SIZES = st.floats(min_value=1e-3, max_value=1e7)


def read(words: str) -> float:
    """The number that was written."""
    return float(words.replace(",", ""))


@pytest.mark.parametrize(
    ("value", "spread", "words"),
    [
        (5764.0, None, "5,760"),
        (14.23, None, "14.2"),
        (0.3127, None, "0.313"),
        (0.0, None, "0.0"),
        (26.38, 7.0, "26"),
        (31_068.0, 14_000.0, "31,000"),
        (1.813, 0.7, "1.8"),
        (-3.2, None, "-3.2"),
        (math.nan, None, "–"),
        (math.inf, None, "–"),
    ],
)
def test_numbers_are_written_as_people_do(value: float, spread: float | None, words: str) -> None:
    """Three digits, or as many as the range leaves; what is no number is a dash."""
    assert number(value, spread) == words


@given(SIZES)
def test_three_digits_are_within_half_a_percent(value: float) -> None:
    """Where no range is known."""
    assert abs(read(number(value)) - value) <= 0.005 * value + 5.1e-5


@given(SIZES, st.floats(min_value=1e-2, max_value=1.0))
def test_rounding_stays_well_inside_the_range(value: float, share: float) -> None:
    """What is shown differs by no more than a quarter of the range, or by three digits' worth."""
    spread = value * share
    assert abs(read(number(value, spread)) - value) <= max(spread / 4.0, 0.005 * value) * 1.001 + 5.1e-5


@given(SIZES, st.floats(min_value=0.05, max_value=1.0))
def test_no_digit_is_finer_than_a_fiftieth_of_the_range(value: float, share: float) -> None:
    """The last digit shown that is not a nought stands for at least a twentieth of the range."""
    spread = value * share
    words = number(value, spread).replace(",", "")
    whole, _, broken = words.partition(".")
    digits = len(broken.rstrip("0"))
    step = 10.0**-digits if digits else 10.0 ** (len(whole) - len(whole.rstrip("0") or "0"))
    assert step >= spread / 20.0 * 0.999 or read(words) == 0.0


@given(SIZES, SIZES)
def test_larger_is_never_written_smaller(one: float, other: float) -> None:
    """Rounding keeps the order."""
    low, high = sorted((one, other))
    assert read(number(low)) <= read(number(high)) * (1 + 1e-12)


@given(SIZES)
def test_minus_is_the_mirror(value: float) -> None:
    """The same digits below nought."""
    assert number(-value) == f"-{number(value)}"


def figure(
    value: float, unit: str, low: float | None = None, high: float | None = None, basis: str = ""
) -> Figure:
    """A figure from nowhere."""
    return Figure(value, unit, "a test", basis, low, high)


@pytest.mark.parametrize(
    ("one", "measures", "words"),
    [
        (figure(0.1837, "-"), {}, "18 %"),
        (figure(0.1837, "-", 0.16, 0.21), {}, "18 % (16 to 21)"),
        (figure(12.44, "m3", basis="stacked"), {}, "12.4 m³ stacked"),
        (figure(12.44, "m3", basis="solid, a day"), {}, "12.4 m³ solid"),
        (figure(19_000.0, "kWh"), {}, "19,000 kWh"),
        (figure(31_070.0, "kWh"), {}, "31.1 MWh"),
        (figure(1000.0, "kWh"), {"kWh": "MJ"}, "3,600 MJ"),
        (figure(20.0, "degC"), {"degC": "degF"}, "68 °F"),
        (figure(2500.0, "kg"), {}, "2.5 t"),
        (figure(1.81, "winter", 1.5, 2.2), {}, "1.8 winters (1.5 to 2.2)"),
        (figure(3.0, "1"), {}, "3.0"),
        (figure(50.0, "L"), {}, "50 l"),
    ],
)
def test_figures_are_written_with_unit_and_range(one: Figure, measures: dict[str, str], words: str) -> None:
    """Shares as per cent, large amounts in the larger unit, in the owner's measures."""
    assert str(shown(one, measures)) == words


@given(st.lists(SIZES, min_size=1, max_size=12))
def test_figures_below_each_other_share_one_unit(values: list[float]) -> None:
    """Each in the unit that fits the largest."""
    unit, numbers = column([figure(value, "kWh") for value in values])
    factor = {"kWh": 1.0, "MWh": 1000.0}[unit]
    assert (unit == "MWh") == (max(values) >= 20_000.0)
    for value, words in zip(values, numbers, strict=True):
        assert read(words) * factor == pytest.approx(value, rel=0.0051, abs=0.06 * factor)


def test_parts_add_up_to_the_sum_shown() -> None:
    """Rounded in one step, and no finer than the sum is known."""
    total = Figure(5310.0, "kWh", "f", low=3660.0, high=6960.0)
    row = [figure(5000.0, "kWh"), figure(186.0, "kWh"), figure(124.0, "kWh"), total]
    assert summed([row]) == ("kWh", [["5,000", "200", "100", "5,300"]])
    exact = [figure(1559.0, "kWh"), figure(126.4, "kWh"), figure(1685.4, "kWh")]
    assert summed([exact])[1] == [["1,560", "130", "1,690"]]
    assert summed([exact], {"kWh": "MJ"})[0] == "MJ"


@given(st.lists(st.floats(0.0, 1e4), min_size=2, max_size=4), st.floats(0.0, 1e4))
def test_any_row_adds_up(parts: list[float], spread: float) -> None:
    """Whatever the parts and however wide the range of their sum."""
    whole = sum(parts)
    total = Figure(whole, "kWh", "f", low=whole - spread, high=whole + spread)
    told = [
        float(text.replace(",", "")) for text in summed([[*(figure(p, "kWh") for p in parts), total]])[1][0]
    ]
    assert sum(told[:-1]) == pytest.approx(told[-1])
    assert min(told) >= 0.0


def test_a_column_is_in_the_owners_measures() -> None:
    """Cords and megajoules."""
    assert column([figure(2 * 3.6246, "m3", basis="stacked")], {"m3": "cord"})[1] == ["2.0"]
    assert column([figure(1000.0, "kWh"), figure(10.0, "kWh")], {"kWh": "MJ"}) == ("MJ", ["3,600", "36"])


def test_days_moments_and_unknown_values() -> None:
    """In British English."""
    at = datetime(2026, 1, 13, 17, 0, tzinfo=UTC)
    assert day(date(2026, 3, 12)) == "12 March 2026"
    assert moment(at) == "Tuesday 13 January 2026, 17:00"
    assert when(at) == "13 Jan 2026, 17:00"
    assert text(None) == "not known"
    assert text(Dated(date(2026, 4, 1), "a test")) == "1 April 2026"
    assert text(3) == "3"
    assert text(figure(1.81, "winter", 1.5, 2.2)) == "1.8 winters"


def test_prices_are_in_the_owners_currency() -> None:
    """The unit says money, the page says which."""
    assert in_currency("money/kWh", "GBP") == "£/kWh"
    assert in_currency("0 to 10 money/m3", "CHF") == "0 to 10 CHF/m3"
    assert in_currency("kWh", "GBP") == "kWh"
    assert in_currency("money", "") == "money"
