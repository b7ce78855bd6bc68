"""The diary in the records: kept as sent, once, and for ever."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from tests.diary.making import Diary
from tests.diary.strategies import diaries
from woodreeve.diary.entry import entry_to_json
from woodreeve.diary.fold import fold
from woodreeve.diary.kinds import Entry
from woodreeve.errors import Unreadable
from woodreeve.records.store import Records

EXAMPLES = count(1)
NOW = datetime(2026, 1, 31, 20, 0, tzinfo=UTC)


def states(records: Records, entries: list[Any]) -> list[str]:
    """What becomes of entries."""
    return [one.state for one in records.add_entries("aldermoor", entries, arrived=NOW)]


def some_days() -> Diary:
    """A short diary, not in order."""
    diary = Diary()
    diary.add(3, "lit", count=1, container="barrow")
    diary.add(1, "stacked", place="gable", species="ash", stacked_m3=4.25)
    diary.add(2, "note", text="Schnee \N{SNOWMAN} \x00 'quoted' \\ \ud800 100 %")
    return diary


def test_entries_come_back_word_for_word_in_the_order_of_happening(records: Records) -> None:
    """With their local offset, and with every character."""
    diary = some_days()
    assert states(records, diary.entries) == ["kept"] * 3
    first, second, third = diary.entries
    assert records.entries("aldermoor") == (second, third, first)
    assert records.entries("aldermoor")[0].happened.utcoffset() == timedelta(hours=1)


def test_sending_again_changes_nothing(records: Records) -> None:
    """As JSON too, and with another moment of sending."""
    diary = some_days()
    states(records, diary.entries)
    before = records.last_entry("aldermoor")
    again = [entry_to_json(replace(entry, sent=NOW)) for entry in diary.entries]
    assert states(records, again) == ["known"] * 3
    assert len(records.entries("aldermoor")) == 3
    assert records.last_entry("aldermoor") == before


def test_the_same_entry_twice_in_one_parcel_is_kept_once(records: Records) -> None:
    """A telephone may have queued it twice."""
    entry = Diary().add(0, "lit")
    assert states(records, [entry, entry]) == ["kept", "known"]


def test_one_id_with_other_content_is_kept_apart_and_reported_once(records: Records) -> None:
    """The diary goes on with the first; the other one is not lost."""
    entry = Diary().add(0, "ash_out", litres=10)
    other = replace(entry, payload={"litres": 12})
    assert states(records, [entry, other, other]) == ["kept", "conflict", "conflict"]
    (told,) = records.add_entries("aldermoor", [other], arrived=NOW)
    assert (told.state, told.is_safe) == ("conflict", True)
    assert (
        told.sentence == "Another entry with this id is here already and says something else: both are kept."
    )
    assert records.entries("aldermoor") == (entry,)
    assert records.conflicts("aldermoor") == (other,)


def test_what_is_not_understood_is_kept(records: Records) -> None:
    """A newer program may know what it means."""
    strange = Diary().add(0, "danced", with_whom="the sweep")
    (told,) = records.add_entries("aldermoor", [strange], arrived=NOW)
    assert (told.state, told.is_safe) == ("not_understood", True)
    assert told.sentence.startswith("danced: 'danced' is not a known kind of entry")
    assert records.entries("aldermoor") == (strange,)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"happened": "2026-01-31T18:30:00"}, "happened is .* must say its offset from UTC"),
        ({"holding": "elsewhere"}, "holding is 'elsewhere', but this diary is that of 'aldermoor'."),
        ({"id": None}, "id is None, but must be 32 hexadecimal digits"),
    ],
)
def test_what_is_no_entry_is_refused_and_the_rest_of_the_parcel_kept(
    records: Records, change: dict[str, Any], sentence: str
) -> None:
    """One bad line never hides the others."""
    diary = some_days()
    bad = entry_to_json(diary.entries[1]) | change
    told = records.add_entries("aldermoor", [diary.entries[0], bad, diary.entries[2]], arrived=NOW)
    assert [one.state for one in told] == ["kept", "refused", "kept"]
    assert not told[1].is_safe
    with pytest.raises(AssertionError, match=sentence):
        raise AssertionError(told[1].sentence)
    assert len(records.entries("aldermoor")) == 2


@pytest.mark.parametrize("given_", ["an entry", 3, None, [1, 2]])
def test_a_parcel_of_rubbish_is_refused_line_by_line(records: Records, given_: Any) -> None:
    """Whatever it is, it is answered."""
    assert states(records, [given_]) == ["refused"]


def test_the_moment_of_arrival_needs_its_offset(records: Records) -> None:
    """The records have no clock of their own, and take none without a zone."""
    with pytest.raises(Unreadable, match=r"arrived is .* offset from UTC"):
        records.add_entries("aldermoor", [Diary().add(0, "lit")], arrived=datetime(2026, 1, 31))  # noqa: DTZ001 - the point


def test_holdings_do_not_see_each_others_diaries(records: Records) -> None:
    """Several may live in one file."""
    entry = Diary().add(0, "lit")
    theirs = replace(entry, id="a" * 32, holding="mill")
    records.add_entries("aldermoor", [entry], arrived=NOW)
    mark = records.last_entry("aldermoor")
    records.add_entries("mill", [theirs], arrived=NOW)
    assert (records.entries("aldermoor"), records.entries("mill")) == ((entry,), (theirs,))
    assert records.last_entry("aldermoor") == mark
    assert (records.last_entry("nowhere"), records.entries("nowhere")) == ("", ())


def test_an_id_is_taken_for_all_holdings_together(records: Records) -> None:
    """So that no entry can be slipped under another one's id."""
    entry = Diary().add(0, "lit")
    records.add_entries("aldermoor", [entry], arrived=NOW)
    (told,) = records.add_entries("mill", [replace(entry, holding="mill")], arrived=NOW)
    assert told.state == "conflict"
    assert records.entries("mill") == ()


def test_the_mark_for_caches_changes_with_every_entry(records: Records) -> None:
    """And with nothing else."""
    diary = some_days()
    marks = {records.last_entry("aldermoor")}
    for entry in diary.entries:
        states(records, [entry])
        marks.add(records.last_entry("aldermoor"))
    assert len(marks) == 4
    states(records, diary.entries)
    assert records.last_entry("aldermoor") in marks


def test_what_another_program_adds_is_seen(where: str) -> None:
    """Only what came since is read anew, but nothing is missed."""
    diary = some_days()
    with Records.open(where) as one, Records.open(where) as other:
        states(one, diary.entries[:1])
        assert len(other.entries("aldermoor")) == 1
        states(one, diary.entries[1:])
        assert other.entries("aldermoor") == one.entries("aldermoor")
        assert len(other.entries("aldermoor")) == 3


@pytest.mark.parametrize(
    "attack",
    [
        "UPDATE entries SET payload = '{}'",
        "DELETE FROM entries",
        "UPDATE conflicts SET payload = '{}'",
        "DELETE FROM conflicts",
        "UPDATE holdings SET document = ''",
        "DELETE FROM holdings",
    ],
)
def test_the_database_itself_refuses_to_change_or_remove(records: Records, attack: str) -> None:
    """Not even a slip in this program can rewrite the past."""
    entry = Diary().add(0, "ash_out", litres=10)
    states(records, [entry, replace(entry, payload={"litres": 12})])
    records.save_holding("aldermoor", "x = 1", based_on=None, valid_from=NOW, entered=NOW, by="owner")
    with pytest.raises(DBAPIError, match="never changed"), records._engine.begin() as connection:
        connection.execute(text(attack))
    assert records.entries("aldermoor") == (entry,)


@pytest.mark.parametrize(
    "attack",
    [
        "INSERT OR REPLACE INTO {table} SELECT * FROM {table}",
        "REPLACE INTO {table} SELECT * FROM {table}",
        "UPDATE OR REPLACE {table} SET made_by = 'nobody'",
    ],
)
@pytest.mark.parametrize("table", ["entries", "holdings"])
def test_a_row_cannot_be_replaced_in_a_file_either(file_records: Records, attack: str, table: str) -> None:
    """SQLite's REPLACE removes rows without asking the guard against removal."""
    states(file_records, [Diary().add(0, "ash_out", litres=10)])
    file_records.save_holding("aldermoor", "x = 1", based_on=None, valid_from=NOW, entered=NOW, by="owner")
    with pytest.raises(DBAPIError, match="never changed"), file_records._engine.begin() as connection:
        connection.execute(text(attack.format(table=table)))


def test_a_table_cannot_be_emptied_on_a_server_either(records: Records) -> None:
    """PostgreSQL's TRUNCATE goes past guards on rows."""
    if records.address.path is not None:
        return
    with pytest.raises(DBAPIError, match="never changed"), records._engine.begin() as connection:
        connection.execute(text("TRUNCATE entries CASCADE"))


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(diaries())
def test_any_diary_folds_the_same_from_the_records_as_from_memory(
    file_records: Records, entries: list[Entry]
) -> None:
    """However it was parcelled, and however often it was sent."""
    number = next(EXAMPLES)
    holding = f"holding {number}"
    prefix = f"{number:016x}"
    own = [_renamed(entry, holding, prefix) for entry in entries]
    for part in (own[::2], own[1::2], own):
        told = file_records.add_entries(holding, part, arrived=NOW)
        assert {one.state for one in told} <= {"kept", "known", "not_understood"}
    assert repr(fold(file_records.entries(holding))) == repr(fold(own))


def _renamed(entry: Entry, holding: str, prefix: str) -> Entry:
    """The entry under an id of its own, so that examples do not meet in one file."""

    def own(name: str) -> str:
        return prefix + name[16:]

    names = {key: own(value) for key, value in entry.payload.items() if key in ("target", "seen")}
    return replace(entry, id=own(entry.id), holding=holding, payload={**entry.payload, **names})
