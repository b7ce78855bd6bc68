"""The holding as a text: it reads back as it was written, and comments stay where they are."""

import tomllib
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from tests.holding.strategies import holdings
from woodreeve.errors import OutOfRange, UnknownName, Unreadable, WoodreeveError, WrongKind
from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_tree
from woodreeve.holding.reading import build
from woodreeve.holding.toml import dump, load, set_field

SMALL = """\
# My place, written on a wet Sunday.
name = "hill-farm"

[plant.boiler]
output_kw = "25 kW"   # from the plate
fuel_space_litres = 120

# what we carry wood in
[[yard.containers]]
name = "barrow"   # the green one
litres = 120.0

[[yard.containers]]
name = "basket"
litres = 45.0
"""


def read_back(text: str) -> Any:
    """Read single fields only: what they say together may make no sense at random."""
    return build(field_tree(Holding), tomllib.loads(text), "", [])


@given(holdings())
@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_holding_reads_back_as_it_was_written(holding: Holding) -> None:
    """Any holding reads back as it was written."""
    assert read_back(dump(holding)) == holding


@given(holdings(), holdings())
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_holding_can_be_written_over_the_text_of_any_other(before: Holding, after: Holding) -> None:
    """Any holding can be written over the text of any other."""
    assert read_back(dump(after, dump(before))) == after


def test_writing_an_unchanged_holding_over_its_text_changes_no_letter() -> None:
    """Writing an unchanged holding over its text changes no letter."""
    assert dump(load(SMALL), SMALL) == SMALL
    assert dump(load(demo_holding_text()), demo_holding_text()) == demo_holding_text()


def test_a_changed_value_is_the_only_changed_line() -> None:
    """A changed value is the only changed line."""
    changed = set_field(SMALL, "plant.boiler.fuel_space_litres", "130 L")
    assert [line for line in changed.splitlines() if line not in SMALL.splitlines()] == [
        "fuel_space_litres = 130.0"
    ]
    assert load(changed).plant.boiler.fuel_space_litres == 130.0


def test_a_remark_beside_a_value_outlives_the_value() -> None:
    """A remark beside a value outlives the value."""
    assert "output_kw = 30.0   # from the plate" in set_field(SMALL, "plant.boiler.output_kw", 30)
    assert "litres = 100.0" in set_field(SMALL, "yard.containers[barrow].litres", 100)


def test_a_field_that_is_not_written_yet_is_added_to_its_section() -> None:
    """A field that is not written yet is added to its section."""
    changed = set_field(SMALL, "plant.store.litres", 1500)
    assert load(changed).plant.store.litres == 1500.0
    assert "# what we carry wood in" in changed


def test_a_member_of_a_list_is_found_by_name_or_by_number() -> None:
    """A member of a list is found by name or by number."""
    by_name = set_field(SMALL, "yard.containers[basket].litres", 50)
    assert by_name == set_field(SMALL, "yard.containers[1].litres", 50)


def test_the_number_past_the_last_adds_a_member() -> None:
    """The number past the last adds a member."""
    changed = set_field(
        set_field(SMALL, "yard.containers[2].name", "crate"), "yard.containers[crate].litres", 1000
    )
    assert [one.name for one in load(changed).yard.containers] == ["barrow", "basket", "crate"]


def test_taking_a_member_out_leaves_the_others() -> None:
    """Taking a member out leaves the others."""
    changed = set_field(SMALL, "yard.containers[barrow]", None)
    assert [one.name for one in load(changed).yard.containers] == ["basket"]


def test_taking_the_last_member_out_leaves_none() -> None:
    """Taking the last member out leaves none."""
    changed = set_field(set_field(SMALL, "yard.containers[0]", None), "yard.containers[0]", None)
    assert load(changed).yard.containers == ()


def test_unknown_takes_a_value_out() -> None:
    """Unknown takes a value out."""
    assert load(set_field(SMALL, "plant.boiler.output_kw", None)).plant.boiler.output_kw is None


def test_lists_may_be_given_with_commas() -> None:
    """Lists may be given with commas."""
    changed = set_field(SMALL, "supply.customers[0].name", "Mill Cottage")
    changed = set_field(changed, "supply.customers[0].agreement.species", "ash, oak")
    assert load(changed).supply.customers[0].agreement.species == ("ash", "oak")


def test_dates_may_be_given_as_text() -> None:
    """Dates may be given as text."""
    assert load(set_field(SMALL, "plant.installed_on", "2021-09-07")).plant.installed_on == date(2021, 9, 7)


@pytest.mark.parametrize(
    ("path", "value", "error", "says"),
    [
        ("plant.boiler.output_kw", 2500, OutOfRange, "between 0 and 500"),
        ("plant.boiler.output_kw", "25 kg", WoodreeveError, "kW"),
        ("plant.boiler.outpt_kw", 25, UnknownName, "did you mean output_kw"),
        ("plant.backup.fuel", "coal", UnknownName, "coal"),
        ("yard.containers[sledge].litres", 25, WrongKind, "barrow, basket"),
        ("yard.containers[9].litres", 25, WrongKind, "a list that has 2"),
        ("name", None, WrongKind, "must be given"),
        ("plant.boiler", 3, WrongKind, "single field"),
        ("plant.store.tanks", 1.5, WrongKind, "whole number"),
    ],
)
def test_a_change_that_will_not_do_gets_one_clear_sentence(
    path: str, value: Any, error: type[Exception], says: str
) -> None:
    """A change that will not do gets one clear sentence."""
    with pytest.raises(error, match=says):
        set_field(SMALL, path, value)


def test_a_previous_text_that_is_not_toml_is_refused() -> None:
    """A previous text that is not toml is refused."""
    with pytest.raises(Unreadable, match="not TOML"):
        dump(load(SMALL), "name = = 3")


def test_sections_scattered_over_the_text_are_kept_apart_and_changed_in_place() -> None:
    """Sections scattered over the text are kept apart and changed in place."""
    text = (
        SMALL
        + "\n[plant.store]\nlitres = 1500.0\n\n[place]\nnation = 'wales'\n\n[plant.flue]\nbore_mm = 150\n"
    )
    changed = set_field(set_field(text, "plant.flue.bore_mm", 180), "plant.store.litres", 2000)
    holding = load(changed)
    assert (holding.plant.flue.bore_mm, holding.plant.store.litres) == (180.0, 2000.0)
    assert dump(load(text), text) == text


def test_equal_defaults_are_different_objects_so_that_a_trace_can_tell_them_apart() -> None:
    """Equal defaults are different objects so that a trace can tell them apart."""
    cylinder = load(SMALL).plant.cylinder
    assert cylinder.target_c == cylinder.hygiene_c
    assert cylinder.target_c is not cylinder.hygiene_c
