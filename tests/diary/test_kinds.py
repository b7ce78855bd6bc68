"""What each kind of entry asks for, and how it is read."""

from __future__ import annotations

from dataclasses import is_dataclass
from typing import Any

import pytest

from tests.diary.making import Diary
from woodreeve.diary.asked import asked_fields
from woodreeve.diary.kinds import (
    KINDS,
    UnreadablePayload,
    current_form,
    faults_of,
    fields_of,
    payload_to_json,
    read_payload,
)
from woodreeve.diary.payloads_wood import Measured
from woodreeve.errors import UnknownName
from woodreeve.units import convert

EXAMPLES: dict[str, dict[str, Any]] = {
    "felled": {"compartment": "Alder carr", "trees": 12, "species": "alder", "solid_m3": 6.5},
    "extracted": {
        "place": "track",
        "compartment": "Alder carr",
        "mix": {"alder": 0.7, "birch": 0.3},
        "solid_m3": 6,
    },
    "bought": {"place": "yard", "pieces": "roundwood", "mass_kg": 8000, "moisture": 0.45, "price": 520},
    "split": {"from_place": "track", "to_place": "gable", "loose_m3": 4, "log_cm": 33, "hours": 5.5},
    "stacked": {"place": "gable", "rows": [{"length_m": 4, "height_m": 1.5, "log_cm": 33}]},
    "covered": {"place": "gable", "cover": "roof"},
    "uncovered": {"place": "gable"},
    "moved": {"from_place": "gable", "to_place": "shed"},
    "brought_in": {"from_place": "gable", "count": 6, "container": "barrow"},
    "measured": {
        "place": "gable",
        "shown_percent": [18.5, 21],
        "basis": "dry",
        "oven": [{"wet_g": 512, "dry_g": 430, "dry_again_g": 429.5}],
    },
    "weighed": {"container": "barrow", "gross_kg": 61, "empty_kg": 14, "species": "ash", "moisture": 0.18},
    "counted": {"place": "gable", "rows": [{"length_m": 2.5, "height_m": 1.4, "log_cm": 33}]},
    "lit": {"count": 1, "container": "boiler fill", "store_top_c": 42},
    "refilled": {"mass_kg": 25},
    "burnt": {"count": 9, "container": "barrow", "since": "2026-01-12"},
    "as_usual": {"since": "2026-01-19"},
    "ash_out": {"litres": 10, "went_to": "garden"},
    "spoiled": {"place": "gable", "why": "rotten", "stacked_m3": 0.5},
    "sold": {"place": "gable", "customer": "mill-cottage", "stacked_m3": 2, "price": 180, "paid": True},
    "given_away": {"place": "gable", "count": 1, "container": "trailer", "to_whom": "Old Chapel"},
    "swept": {"name": "A. Sweep", "certificate": "77"},
    "cleaned": {"what": "flueways", "lever_strokes": 20},
    "serviced": {"what": "log_boiler", "cost": 240},
    "tested": {"what": "heat_escape", "result": "good", "who": "competent_person"},
    "checked": {"what": "before_first_fire", "skipped": ["door seal"]},
    "fitted": {"part": "door_rope", "hours_run": 2100, "cost": 38},
    "backup_delivery": {"fuel": "lpg", "litres": 900, "price": 650},
    "tank_level": {"share": 0.35},
    "meter": {"meter": "store charge", "reading": 12345.6, "unit": "kWh"},
    "pressure": {"pressure_bar": 1.6, "water_temperature_c": 45},
    "topped_up": {"litres": 6, "before_bar": 0.9, "after_bar": 1.5},
    "note": {"text": "Jays in the oak."},
    "correction": {"target": "0" * 32, "payload": {"litres": 12}},
}


def test_there_is_an_example_of_every_kind() -> None:
    """So that the tests below leave none out."""
    assert set(EXAMPLES) == set(KINDS)


@pytest.mark.parametrize("kind", list(KINDS))
def test_every_kind_is_read_and_written_back_the_same(kind: str) -> None:
    """What a payload says survives the way through JSON."""
    entry = Diary().add(0, kind, **EXAMPLES[kind])
    payload = read_payload(entry)
    assert type(payload) is KINDS[kind]
    again = Diary().add(0, kind, **payload_to_json(payload))
    assert read_payload(again) == payload
    assert faults_of(kind, EXAMPLES[kind]) == ()


@pytest.mark.parametrize("kind", list(KINDS))
def test_every_field_has_a_label_and_every_number_a_unit_and_a_range(kind: str) -> None:
    """A form is made from this, so nothing may be missing."""
    asked = list(fields_of(kind))
    parts = [part for field in asked if is_dataclass(field.base) for part in asked_fields(field.base)]
    for field in (*asked, *parts):
        assert field.label[0].isupper(), field.name
        assert not field.help or field.help.endswith((".", "?")), field.help
        if field.base in (int, float):
            assert field.unit is not None, f"{kind}.{field.name}"
            assert None not in (field.bounds.low, field.bounds.high), f"{kind}.{field.name}"
            assert convert(2.0, field.unit, field.unit) == 2.0


@pytest.mark.parametrize("kind", list(KINDS))
def test_a_kind_asks_for_its_own_fields_before_those_it_shares(kind: str) -> None:
    """The stack comes before the barrows, and the note comes last."""
    names = [field.name for field in fields_of(kind)]
    assert names[-1] == "note"
    if "place" in names and "count" in names:
        assert names.index("place") < names.index("count")


@pytest.mark.parametrize(
    ("kind", "change", "field", "sentence"),
    [
        ("burnt", {"count": -3}, "count", "count is -3, but must be between 0 and 10000 (not 0 itself)."),
        ("burnt", {"count": "three"}, "count", "count is 'three', but must be a number."),
        ("burnt", {"count": True}, "count", "count is True, but must be a number."),
        ("burnt", {"count": None}, "count", "count is missing: say how much"),
        ("burnt", {"container": None}, "container", "container is missing: say what was counted."),
        (
            "burnt",
            {"mass_kg": 40},
            "mass_kg",
            "mass_kg (weight) is given beside count (how many): tell the amount in one way only.",
        ),
        ("burnt", {"since": "Monday"}, "since", "since is 'Monday', but must be a date such as 2026-01-31."),
        ("burnt", {"moisture": 20}, "moisture", "moisture is 20, but must be between 0 and 0.7."),
        ("burnt", {"cuont": 3}, "cuont", "cuont is not a field here: did you mean count?"),
        ("extracted", {"mix": {"alder": 0.7}}, "mix", "mix adds up to 0.7, but its shares must add up to 1."),
        ("extracted", {"mix": {"alder": 7}}, "mix", "mix of alder is 7, but must be between 0 and 1."),
        ("extracted", {"species": "alder"}, "mix", "mix is given beside species: tell one of the two."),
        ("measured", {"basis": "damp"}, "basis", "basis is 'damp', but must be one of wet, dry, not_known."),
        (
            "measured",
            {"shown_percent": [18, 300]},
            "shown_percent",
            "shown_percent value 2 is 300 %, but must be",
        ),
        ("measured", {"shown_percent": 18}, "shown_percent", "shown_percent is 18, but must be a list."),
        (
            "measured",
            {"oven": [{"wet_g": 400, "dry_g": 430}]},
            "oven.dry_g",
            "oven.dry_g is 430 g, but must be at most the 400 g before drying.",
        ),
        (
            "measured",
            {"shown_percent": [], "oven": []},
            "shown_percent",
            "shown_percent is missing: give at least one",
        ),
        ("stacked", {"place": None}, "place", "place is missing: stack."),
        ("stacked", {"rows": [{"length_m": 4}]}, "rows.height_m", "rows.height_m is missing: height."),
        ("stacked", {"stacked_m3": 3}, "rows", "rows is given beside stacked_m3 (stacked volume)"),
        ("counted", {"nothing_left": True}, "nothing_left", "nothing_left is ticked, but an amount is given"),
        (
            "counted",
            {"nothing_left": "yes"},
            "nothing_left",
            "nothing_left is 'yes', but must be true or false.",
        ),
        ("weighed", {"marker": "A7"}, "container", "container is to be given, or marker: one of the two."),
        (
            "weighed",
            {"empty_kg": 70},
            "empty_kg",
            "empty_kg is 70 kg, but must be less than gross_kg, 61 kg.",
        ),
        ("tank_level", {"litres": 300}, "litres", "litres, share or height_cm is to be given"),
        ("felled", {"trees": 2.5}, "trees", "trees is 2.5, but must be a whole number."),
        ("note", {"text": " "}, "text", "text is ' ', but must be a text."),
        (
            "correction",
            {"void": True},
            "payload",
            "payload is to be given whole, or void set: one of the two.",
        ),
    ],
)
def test_a_wrong_field_is_named_with_its_value_and_what_is_allowed(
    kind: str, change: dict[str, Any], field: str, sentence: str
) -> None:
    """The same sentence serves the form, the command and the list of findings."""
    faults = faults_of(kind, EXAMPLES[kind] | change)
    assert faults
    assert (faults[0].field, faults[0].sentence[: len(sentence)]) == (field, sentence)
    with pytest.raises(UnreadablePayload) as caught:
        read_payload(Diary().add(0, kind, **(EXAMPLES[kind] | change)))
    assert str(caught.value) == f"{kind}: {faults[0].sentence}"


def test_all_faults_of_a_payload_are_told_at_once() -> None:
    """Nobody likes to be sent back three times."""
    faults = faults_of("sold", {"stacked_m3": -1, "price": "much", "moisture": 2})
    assert [fault.field for fault in faults] == ["stacked_m3", "price", "moisture", "place"]


def test_a_kind_nobody_knows_is_told_with_the_nearest_ones() -> None:
    """An entry of a kind still to be invented is not lost, only not understood."""
    with pytest.raises(UnreadablePayload, match="'splitt' is not a known kind of entry: did you mean split"):
        read_payload(Diary().add(0, "splitt"))
    with pytest.raises(UnknownName, match="kind of entry"):
        fields_of("splitt")


def test_a_form_newer_than_this_program_is_not_guessed_at() -> None:
    """It says so, and nothing is read."""
    with pytest.raises(UnreadablePayload, match="was written in form 9 by a newer woodreeve"):
        read_payload(Diary().add(0, "burnt", form=9, count=3, container="barrow"))


def test_the_first_form_of_a_moisture_entry_stays_readable() -> None:
    """One value under ``percent``, for a ``stack``: so it was written at first, and so it is still read."""
    old = Diary().add(0, "measured", form=1, stack="gable", percent=18.5, basis="wet")
    assert read_payload(old) == Measured(place="gable", shown_percent=(18.5,), basis="wet")
    assert old.payload == {"stack": "gable", "percent": 18.5, "basis": "wet"}
    assert current_form("measured") == 2


def test_the_first_form_of_wood_burnt_stays_readable() -> None:
    """Only barrows could be told at first."""
    old = Diary().add(0, "burnt", form=1, stack="gable", barrows=4, since="2025-12-29")
    new = Diary().add(0, "burnt", from_place="gable", count=4, container="barrow", since="2025-12-29")
    assert read_payload(old) == read_payload(new)


def test_a_fault_in_an_old_form_is_told_in_the_words_of_the_new_one() -> None:
    """There is one text for each fault."""
    with pytest.raises(UnreadablePayload, match="count is -4, but must be between 0 and 10000"):
        read_payload(Diary().add(0, "burnt", form=1, barrows=-4))
