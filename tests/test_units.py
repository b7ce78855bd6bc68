"""Units: reading what a person writes, converting within a dimension, and saying ranges in words."""

from typing import Annotated

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve import units
from woodreeve.errors import WrongUnit
from woodreeve.units import Bounds, Ge, Gt, Le, Lt, Unit, bounds_of, convert, parse_quantity, unit_of

PAIRS = [
    ("kWh", "MJ"),
    ("kWh/kg", "MJ/kg"),
    ("MJ/kg", "kcal/kg"),
    ("degC", "degF"),
    ("m3", "L"),
    ("m3", "cord"),
    ("t", "kg"),
    ("%", "-"),
    ("ppm", "%"),
    ("bar", "Pa"),
    ("kW", "W"),
    ("W/(m2*K)", "kW/(m2*K)"),
    ("K*day", "K*h"),
    ("kWh/m3", "GJ/m3"),
]


@given(st.sampled_from(PAIRS), st.floats(-1e6, 1e6))
def test_conversions_invert(pair: tuple[str, str], value: float) -> None:
    """There and back."""
    one, other = pair
    assert convert(convert(value, one, other), other, one) == pytest.approx(value, abs=1e-6)


@pytest.mark.parametrize(
    ("value", "given", "wanted", "result"),
    [
        (1.0, "kWh", "MJ", 3.6),
        (1.0, "cord", "m3", 3.62456),
        (32.0, "degF", "degC", 0.0),
        (20.0, "%", "-", 0.2),
        (1000.0, "ppm", "-", 0.001),
        (1.0, "t", "kg", 1000.0),
        (2.5, "t/m3", "kg/m3", 2500.0),
        (1.0, "m³", "L", 1000.0),
        (1.0, "kcal", "kJ", 4.184),
    ],
)
def test_known_conversions(value: float, given: str, wanted: str, result: float) -> None:
    """By definition."""
    assert convert(value, given, wanted) == pytest.approx(result, rel=1e-5)


@pytest.mark.parametrize(
    ("given", "wanted"),
    [("kWh", "kW"), ("m3", "kg"), ("quux", "m"), ("degC", "m"), ("m", "quux"), ("", "kg"), ("kg kg", "m/")],
)
def test_another_dimension_or_an_unknown_unit_is_refused(given: str, wanted: str) -> None:
    """In one sentence that names the field."""
    with pytest.raises(WrongUnit, match=r"^heat is given as '1 .*', but a quantity in .* is wanted\.$"):
        convert(1.0, given, wanted, "heat")


@pytest.mark.parametrize(
    ("text", "wanted", "result"),
    [
        ("20 %", "-", 0.2),
        ("20%", "-", 0.2),
        ("0.2", "-", 0.2),
        (" 7,5 kWh ", "kWh", 7.5),
        ("-3 °C", "degC", -3.0),
        (".5 m", "cm", 50.0),
        ("1e3 W", "kW", 1.0),
        ("68 °F", "degC", 20.0),
        ("+2 t", "kg", 2000.0),
    ],
)
def test_a_person_may_write_it_as_they_do(text: str, wanted: str, result: float) -> None:
    """With or without unit, with comma or point."""
    assert parse_quantity(text, wanted) == pytest.approx(result)


@pytest.mark.parametrize("text", ["", "wet", "1 2", "1,2,3", "20 %%", "nan", "kWh 3"])
def test_what_is_no_quantity_is_refused(text: str) -> None:
    """Words, two numbers, nonsense."""
    with pytest.raises(WrongUnit):
        parse_quantity(text, "-")


def test_a_width_of_two_per_cent_of_two_dimensions_is_not_guessed() -> None:
    """A thousands comma reads as a decimal one: 1,500 kg is 1.5 kg, as documented."""
    assert parse_quantity("1,500 kg", "kg") == 1.5


@pytest.mark.parametrize(
    ("annotation", "words"),
    [
        (Annotated[float, Ge(0), Le(1)], "between 0 and 1"),
        (Annotated[float, Gt(0), Lt(1)], "between 0 and 1 (not 0 or 1 itself)"),
        (Annotated[float, Ge(0), Lt(1)], "between 0 and 1 (not 1 itself)"),
        (Annotated[float, Ge(2)], "at least 2"),
        (Annotated[float, Gt(2)], "more than 2"),
        (Annotated[float, Le(2)], "at most 2"),
        (Annotated[float, Lt(2)], "less than 2"),
        (Annotated[float, Ge(0.0), Le(1e7)], "between 0 and 10000000"),
        (float, "a finite number"),
    ],
)
def test_bounds_are_said_in_words(annotation: object, words: str) -> None:
    """As they stand in an error."""
    assert bounds_of(annotation).words() == words


def test_the_narrower_annotation_given_last_wins() -> None:
    """A field may tighten a named type."""
    assert bounds_of(Annotated[units.Share, Le(0.7)]) == Bounds(0.0, 0.7)


@given(st.floats(-10, 10), st.booleans(), st.booleans())
def test_bounds_admit_what_they_say(value: float, low_open: bool, high_open: bool) -> None:
    """Open and closed ends, and never a NaN."""
    bounds = Bounds(0.0, 1.0, low_open, high_open)
    assert bounds.admit(value) == (
        (0 < value < 1) or (value == 0 and not low_open) or (value == 1 and not high_open)
    )
    assert not bounds.admit(float("nan"))


def test_every_named_quantity_has_a_unit_the_library_reads_and_bounds() -> None:
    """The names of ``woodreeve.units``."""
    named = {name: getattr(units, name) for name in units.__all__}
    quantities = {name: unit_of(kind) for name, kind in named.items() if unit_of(kind) is not None}
    assert len(quantities) >= 20
    for name, unit in quantities.items():
        assert unit is not None
        assert convert(1.0, unit, unit + " ") == pytest.approx(1.0), name
        assert bounds_of(named[name]) != Bounds(), name


def test_the_module_names_what_is_there() -> None:
    """``__all__`` is true, and Unit is the annotation that carries a unit."""
    assert all(hasattr(units, name) for name in units.__all__)
    assert unit_of(Annotated[float, Unit("kg")]) == "kg"
    assert unit_of(float) is None
