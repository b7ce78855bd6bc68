"""The envelope of an entry."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest

from tests.diary.making import Diary
from woodreeve.diary.entry import content_digest, entry_from_json, entry_to_json, from_json_text, new_id
from woodreeve.errors import Unreadable

GOOD: dict[str, Any] = {
    "id": "00112233445566778899aabbccddeeff",
    "holding": "aldermoor",
    "kind": "lit",
    "form": 1,
    "happened": "2026-01-31T18:30:00+01:00",
    "entered": "2026-01-31T18:31:00+01:00",
    "sent": None,
    "by": "owner",
    "payload": {"count": 2, "container": "barrow"},
}


def test_an_entry_written_as_json_is_read_back_word_for_word() -> None:
    """Nothing is lost or added on the way."""
    entry = entry_from_json(GOOD)
    assert entry_to_json(entry) == GOOD
    assert entry_from_json(entry_to_json(entry)) == entry


def test_the_local_offset_is_kept() -> None:
    """Half past six in the evening stays half past six."""
    happened = entry_from_json(GOOD).happened
    assert (happened.hour, happened.utcoffset()) == (18, timedelta(hours=1))


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        (
            "happened",
            "2026-01-31T18:30:00",
            "happened is '2026-01-31T18:30:00', but must say its offset from UTC",
        ),
        ("entered", datetime(2026, 1, 31, 18, 30), "entered is .* offset from UTC"),  # noqa: DTZ001 - that is the point
        ("happened", "yesterday", "happened is 'yesterday', but must be a date and time"),
        ("happened", 1738344600, "happened is 1738344600, but must be a text"),
        ("happened", "0001-01-01T00:00:00+14:00", "happened is in the year 1,"),
        ("id", "12", "id is '12', but must be 32 hexadecimal digits"),
        ("id", "G" * 32, "id is .* 32 hexadecimal digits"),
        ("holding", "", "holding is '', but must be a text of 1 to 64 characters"),
        ("by", "x\x00y", "by is .* text of 1 to 120 characters"),
        ("form", 0, "form is 0, but must be a whole number from 1"),
        ("form", True, "form is True, but must be a whole number"),
        ("kind", "k" * 41, "kind is .* text of 1 to 40"),
        ("payload", [1], "payload is .* must be a JSON object"),
        ("payload", {"count": float("nan")}, "payload cannot be written as JSON"),
        ("payload", {"note": "x" * 70_000}, "payload has 70011 characters, but must have at most 64000"),
        ("payload", {3: 1}, "payload is .* must be a JSON object"),
        ("colour", "red", "An entry has no field 'colour'"),
    ],
)
def test_a_malformed_envelope_is_refused_in_one_sentence(field: str, value: Any, sentence: str) -> None:
    """The sentence names the field, the value and what is allowed."""
    with pytest.raises(Unreadable, match=sentence):
        entry_from_json(GOOD | {field: value})


@pytest.mark.parametrize("field", [name for name in GOOD if name != "sent"])
def test_a_missing_field_is_named(field: str) -> None:
    """Only the moment of sending may be left out."""
    with pytest.raises(Unreadable, match=f"{field} is missing from the entry"):
        entry_from_json({name: value for name, value in GOOD.items() if name != field})


@pytest.mark.parametrize("text", ["", "{", "3", "[" * 100_000, '"entry"'])
def test_what_is_no_entry_at_all_is_refused(text: str) -> None:
    """Neither broken JSON nor a deep nest of brackets ends in a crash."""
    with pytest.raises(Unreadable):
        from_json_text(text)


def test_an_id_is_made_from_the_randomness_it_is_given() -> None:
    """128 bits, brought by the caller."""
    assert new_id(bytes(range(16))) == "000102030405060708090a0b0c0d0e0f"
    with pytest.raises(Unreadable, match="16 random bytes, not from 4"):
        new_id(b"1234")


def test_content_does_not_depend_on_when_it_was_sent_but_on_everything_else() -> None:
    """A telephone that sends twice says the same thing twice."""
    entry = entry_from_json(GOOD)
    digest = content_digest(entry)
    assert content_digest(entry_from_json(GOOD | {"sent": "2026-02-01T08:00:00Z"})) == digest
    others = {
        "by": "son",
        "kind": "refilled",
        "form": 2,
        "happened": "2026-01-31T18:30:01+01:00",
        "payload": {},
    }
    changed = {content_digest(entry_from_json(GOOD | {field: value})) for field, value in others.items()}
    assert len(changed | {digest}) == len(others) + 1


def test_diaries_for_tests_are_made_of_sound_entries() -> None:
    """The tests' own entries pass the door too."""
    entry = Diary().add(3, "lit")
    assert entry_from_json(entry_to_json(entry)) == entry
