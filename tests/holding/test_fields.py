"""Every field of the holding can be asked for and explained."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated

import pytest

from woodreeve.errors import OutOfRange, UnknownName, WrongKind
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import Field, field_at, field_tree
from woodreeve.holding.reading import read_value
from woodreeve.units import Asks, Ge, Unit, convert

TREE = field_tree(Holding)
FIELDS = [field for field in TREE.walk() if field.path]


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.path)
def test_every_field_has_a_label_and_a_line_of_help(field: Field) -> None:
    """Every field has a label and a line of help."""
    assert field.label.strip()
    assert field.help.strip()
    assert field.help.rstrip()[-1] in ".!)", "a line of help is a sentence"


def test_no_two_fields_share_a_path() -> None:
    """No two fields share a path."""
    paths = [field.path for field in FIELDS]
    assert len(paths) == len(set(paths))
    assert len(paths) > 300


@pytest.mark.parametrize("unit", sorted({field.unit for field in FIELDS} - {"", "-", "degC"}))
def test_every_unit_is_one_that_can_be_converted(unit: str) -> None:
    """Every unit is known to the unit library, which is asked by a detour over metres."""
    assert convert(2.0, unit, f"{unit}*m/m") == pytest.approx(2.0)


@pytest.mark.parametrize(
    "field", [field for field in FIELDS if isinstance(field.default, float)], ids=lambda field: field.path
)
def test_every_default_number_lies_within_its_own_bounds(field: Field) -> None:
    """Every default number lies within its own bounds."""
    assert field.bounds.admit(field.default), field.default_words


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.path)
def test_what_has_neither_a_default_nor_need_be_given_may_be_unknown(field: Field) -> None:
    """What has neither a default nor need be given may be unknown."""
    if field.default is None and not field.required:
        assert field.optional
        assert field.default_words == "unknown"


def test_a_number_tells_unit_and_range() -> None:
    """A number tells unit and range."""
    output = field_at(TREE, "plant.boiler.output_kw")
    assert (output.kind, output.unit, output.optional) == ("number", "kW", True)
    assert output.allowed_words == "between 0 and 500 (not 0 itself) kW"


def test_a_choice_lists_its_words() -> None:
    """A choice lists its words."""
    assert "lpg" in field_at(TREE, "plant.backup.fuel").choices


def test_a_list_of_sections_has_the_fields_of_its_members() -> None:
    """A list of sections has the fields of its members."""
    circuits = field_at(TREE, "plant.circuits")
    assert circuits.kind == "sections"
    assert field_at(TREE, "plant.circuits[3].rated_w").path == "plant.circuits[].rated_w"


@dataclass(frozen=True, kw_only=True)
class Odd:
    """Fields that the holding itself does not have."""

    three: Annotated[tuple[float, float, float], Unit("m"), Ge(0), Asks("Three", "Three of them.")]
    when: Annotated[datetime | None, Asks("When", "Day and time.")] = None


def test_a_list_of_fixed_length_says_how_long_it_is() -> None:
    """A list of fixed length says how long it is, and refuses any other."""
    three = field_at(field_tree(Odd), "three")
    assert (three.length, three.unit, three.required) == (3, "m", True)
    assert read_value(three, [1, 2, "3 m"]) == (1.0, 2.0, 3.0)
    with pytest.raises(WrongKind, match="exactly 3"):
        read_value(three, [1, 2])
    with pytest.raises(OutOfRange, match="at least 0"):
        read_value(three, [1, 2, -3])


def test_a_moment_is_read_from_a_text_with_its_offset() -> None:
    """A moment is read from a text with its offset."""
    when = field_at(field_tree(Odd), "when")
    assert read_value(when, "2026-01-31T17:00:00+00:00") == datetime(2026, 1, 31, 17, tzinfo=UTC)
    assert read_value(when, "unknown") is None


def test_a_kind_of_field_that_no_form_can_ask_for_is_refused() -> None:
    """A kind of field that no form can ask for is refused."""

    @dataclass(frozen=True)
    class Impossible:
        """A field of complex numbers."""

        number: complex = 1j

    with pytest.raises(WrongKind, match="that a form can ask for"):
        field_tree(Impossible)


def test_a_wrong_path_is_answered_with_the_nearest_field() -> None:
    """A wrong path is answered with the nearest field."""
    with pytest.raises(UnknownName, match="did you mean output_kw"):
        field_at(TREE, "plant.boiler.outptu_kw")
