"""The list of worked functions: what calls are let through, and what a wrong one is told."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal

import numpy as np
import pytest

from woodreeve.errors import OutOfRange, UnknownName, WoodreeveError, WrongKind, WrongUnit
from woodreeve.units import Floats, Ge, Gt, Le, Unit
from woodreeve.workings import registry, worked
from woodreeve.workings.registry import Registry, WorkedFunction

Moist = Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
Warm = Annotated[float, Unit("degC"), Gt(0.0), Le(100.0)]


@dataclass(frozen=True, kw_only=True)
class Mix:
    """A made-up parameter of several parts."""

    ash: Moist
    oak: Moist = 0.1


def sample_formula(
    moisture: Moist,
    air_c: Warm = 20.0,
    *,
    method: Literal["plain", "fine"] = "plain",
    share: Moist | None = None,
    mix: Mix | None = None,
    day: date | None = None,
    name: str = "",
    wood: str | dict[str, float] = "ash",
) -> Moist:
    """Do something with everything."""
    return moisture * (1.0 if share is None else share) + (mix.ash if mix else 0.0)


SAMPLE = WorkedFunction(sample_formula)


@pytest.fixture(scope="module", autouse=True)
def call() -> None:
    """Write the wrapper without putting the sample on the project's list."""
    from woodreeve.workings.registry import _write_wrapper

    SAMPLE.call = _write_wrapper(SAMPLE)


@pytest.mark.parametrize(
    ("arguments", "kind", "sentence"),
    [
        ({"moisture": 20.0}, OutOfRange, "moisture is 20, but must be between 0 and 0.7: give 20 % as 0.2."),
        ({"moisture": 1.4}, OutOfRange, "moisture is 1.4, but must be between 0 and 0.7."),
        ({"moisture": -0.1}, OutOfRange, "moisture is -0.1, but must be between 0 and 0.7."),
        (
            {"moisture": float("nan")},
            OutOfRange,
            "moisture is nan, but must be between 0 and 0.7: a value is missing.",
        ),
        (
            {"moisture": 0.2, "air_c": 0.0},
            OutOfRange,
            "air_c is 0 degC, but must be between 0 and 100 (not 0 itself) degC.",
        ),
        ({"moisture": "0.2"}, WrongKind, "moisture is '0.2', but must be a number [-]."),
        ({"moisture": True}, WrongKind, "moisture is True, but must be a number [-]."),
        ({"moisture": False}, WrongKind, "moisture is False, but must be a number [-]."),
        ({"moisture": None}, WrongKind, "moisture is None, but must be a number [-]."),
        (
            {"moisture": 0.2, "share": 7.0},
            OutOfRange,
            "share is 7, but must be between 0 and 0.7: give 7 % as 0.07.",
        ),
        (
            {"moisture": 0.2, "method": "fines"},
            UnknownName,
            "'fines' is not a known method: did you mean fine?",
        ),
        (
            {"moisture": np.array([0.1, np.nan])},
            OutOfRange,
            "moisture is nan, but must be between 0 and 0.7: a value is missing.",
        ),
        (
            {"moisture": np.array([0.1, 20.0])},
            OutOfRange,
            "moisture is 20, but must be between 0 and 0.7: give 20 % as 0.2.",
        ),
    ],
)
def test_a_wrong_argument_gets_one_clear_sentence(
    arguments: dict[str, object], kind: type[WoodreeveError], sentence: str
) -> None:
    """Field, value, allowed range and what to do; and no second error behind it."""
    with pytest.raises(kind) as caught:
        SAMPLE.call(**arguments)
    assert str(caught.value) == sentence
    assert caught.value.__context__ is None


@pytest.mark.parametrize(
    "moisture",
    [0, 0.0, 0.7, np.float32(0.25), np.int64(0), [0.1, 0.2], (0.1,), np.array([]), np.array([0, 0.7])],
)
def test_good_numbers_of_every_kind_pass(moisture: object) -> None:
    """Integers, numpy scalars, lists, arrays and an empty array; the bounds themselves too."""
    if isinstance(moisture, list | tuple):
        moisture = np.array(moisture)
    SAMPLE.call(moisture)


def test_an_optional_number_may_be_left_out_or_none() -> None:
    """None is unknown, not nought."""
    assert SAMPLE.call(0.2, share=None) == SAMPLE.call(0.2) == 0.2


def test_units_bounds_defaults_and_choices_stand_in_the_list() -> None:
    """All from the annotation."""
    known = {p.name: p for p in SAMPLE.parameters}
    assert known["air_c"].unit == "degC"
    assert known["air_c"].bounds.words() == "between 0 and 100 (not 0 itself)"
    assert (known["air_c"].default, known["moisture"].required) == (20.0, True)
    assert known["method"].choices == ("plain", "fine")
    assert known["share"].optional
    assert known["share"].unit == "-"
    assert [p.name for p in SAMPLE.parameters if p.keyword_only] == [
        "method", "share", "mix", "day", "name", "wood",
    ]  # fmt: skip
    assert known["wood"].takes_text
    assert not known["mix"].takes_text
    assert SAMPLE.takes_text


@pytest.mark.parametrize(
    ("given", "result"),
    [
        ({"moisture": "20 %"}, 0.2),
        ({"moisture": "20 percent"}, 0.2),
        ({"moisture": "0,2"}, 0.2),
        ({"moisture": 0.2, "air_c": "68 degF"}, 0.2),
        ({"moisture": 0.2, "share": "50 %"}, 0.1),
        ({"moisture": 0.2, "mix": {"ash": "30 %"}}, 0.5),
        ({"moisture": 0.2, "day": "2026-11-25", "name": "x", "wood": {"ash": 1.0}}, 0.2),
    ],
)
def test_a_document_may_give_texts_with_units_parts_and_days(given: dict[str, object], result: float) -> None:
    """As JSON carries them."""
    assert SAMPLE.call_with_units(given) == pytest.approx(result)


def test_lists_become_arrays() -> None:
    """With a unit each, or bare."""
    found: Floats = SAMPLE.call_with_units({"moisture": ["20 %", 0.3]})
    assert found.tolist() == pytest.approx([0.2, 0.3])


@pytest.mark.parametrize(
    ("given", "kind", "part"),
    [
        ({"moisture": "20 kg"}, WrongUnit, "moisture is given as '20 kg', but a plain number or a share"),
        ({"moisture": "wet"}, WrongUnit, "moisture is given as 'wet'"),
        ({"moisture": "20 quux"}, WrongUnit, "20 quux"),
        ({"moisture": 20}, OutOfRange, "give 20 % as 0.2"),
        ({}, WrongKind, "moisture is 'missing'"),
        ({"moistur": 0.2}, UnknownName, "did you mean moisture?"),
        ({"moisture": 0.2, "method": "coarse"}, UnknownName, "known are fine, plain."),
        ({"moisture": 0.2, "mix": {"ash": 3}}, OutOfRange, "ash is 3"),
        ({"moisture": 0.2, "mix": {"oak": 0.3}}, WrongKind, "ash is 'missing'"),
        (
            {"moisture": 0.2, "mix": {"ash": 0.3, "elm": 0.1}},
            UnknownName,
            "'elm' is not a known field of Mix",
        ),
        ({"moisture": 0.2, "mix": {"ash": None}}, WrongKind, "ash is None"),
        ({"moisture": False}, WrongKind, "moisture is False"),
    ],
)
def test_a_wrong_document_gets_one_clear_sentence(
    given: dict[str, object], kind: type[WoodreeveError], part: str
) -> None:
    """Another dimension, an unknown word, something missing."""
    with pytest.raises(kind) as caught:
        SAMPLE.call_with_units(given)
    assert part in str(caught.value)


def test_names_are_unique_over_the_whole_project() -> None:
    """Two formulas of one name would open the wrong workings."""
    ours = Registry()
    ours.add(SAMPLE)
    ours.add(SAMPLE)
    other = WorkedFunction(sample_formula)
    other.module = "elsewhere"
    with pytest.raises(WoodreeveError, match="Two worked functions are called sample_formula"):
        ours.add(other)


def test_an_unknown_formula_is_told_with_near_names() -> None:
    """As any unknown name."""
    import woodreeve.wood.heat  # noqa: F401  # puts its formulas on the list

    with pytest.raises(UnknownName, match="'net_heet' is not a known formula: did you mean net_heat"):
        registry["net_heet"]


def test_the_bare_function_stays_reachable() -> None:
    """Kernels compile it."""
    from woodreeve.wood.heat import net_heat

    bare = net_heat.__wrapped__  # type: ignore[attr-defined]  # set by update_wrapper
    assert bare is registry["net_heat"].bare
    assert bare(50.0, 2.0) < 0.0


def test_results_are_converted_within_their_dimension_only() -> None:
    """A heat in kWh/kg, but not in metres."""
    import woodreeve.wood.heat  # noqa: F401  # puts its formulas on the list

    assert registry["net_heat"].result_in(3.6, "kWh/kg") == pytest.approx(1.0)
    with pytest.raises(WrongUnit):
        registry["net_heat"].result_in(3.6, "m")
    with pytest.raises(WrongUnit, match="without a unit"):
        registry["meter_reading"].result_in(3.6, "m")


def test_a_decorator_keeps_the_text_and_the_name() -> None:
    """Docs and doctests read them from the wrapper."""
    kept = worked.__doc__
    assert kept
    from woodreeve.wood.heat import net_heat

    assert net_heat.__name__ == "net_heat"
    assert net_heat.__doc__
    assert net_heat.__doc__.startswith("Net calorific value")
