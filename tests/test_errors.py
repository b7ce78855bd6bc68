"""Errors: one tree, one sentence each, and the built-in kind a caller would expect."""

import inspect

import pytest

from woodreeve import errors
from woodreeve.errors import OutOfRange, UnknownName, WoodreeveError, WrongKind, WrongUnit


def test_every_error_hangs_on_the_one_tree_and_on_a_builtin() -> None:
    """So that both ``except WoodreeveError`` and ``except ValueError`` work."""
    kinds = [kind for name, kind in inspect.getmembers(errors, inspect.isclass) if name in errors.__all__]
    assert len(kinds) == len(errors.__all__) == 8
    for kind in kinds:
        assert issubclass(kind, WoodreeveError)
        builtins = [base for base in kind.__mro__ if base.__module__ == "builtins"]
        assert kind is WoodreeveError or builtins[0] in (ValueError, TypeError, LookupError, RuntimeError)
        assert kind.__name__ in (errors.__doc__ or "")


def test_an_error_carries_what_it_says() -> None:
    """As attributes, for the faces."""
    error = OutOfRange("moisture", 20, "between 0 and 0.7", "-", "give 20 % as 0.2")
    assert (error.name, error.value, error.allowed) == ("moisture", 20, "between 0 and 0.7")
    assert str(error) == "moisture is 20, but must be between 0 and 0.7: give 20 % as 0.2."
    assert str(OutOfRange("mass", 1, "at most 0", "kg")) == "mass is 1 kg, but must be at most 0 kg."


@pytest.mark.parametrize(
    ("error", "sentence"),
    [
        (WrongUnit("heat", "3 m", "kWh"), "heat is given as '3 m', but a quantity in kWh is wanted."),
        (WrongKind("heat", "much", "a number"), "heat is 'much', but must be a number."),
        (
            UnknownName("species", "ahs", ["ash", "oak"]),
            "'ahs' is not a known species: did you mean ash?",
        ),
        (UnknownName("stack", "x", []), "'x' is not a known stack: there are none yet."),
        (UnknownName("stack", "zzz", ["b", "a"]), "'zzz' is not a known stack: known are a, b."),
    ],
)
def test_the_sentences(error: WoodreeveError, sentence: str) -> None:
    """Field, value, and what is allowed or near."""
    assert str(error) == sentence


def test_a_long_list_of_names_is_cut() -> None:
    """Twelve are enough to see what is meant."""
    message = str(UnknownName("thing", "zzz", [f"name{n:02}" for n in range(30)]))
    assert message.endswith("name11 ....")
