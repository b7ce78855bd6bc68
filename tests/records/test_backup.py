"""Copies, looked through and restored."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.diary.making import Diary
from woodreeve.errors import Refused
from woodreeve.records.backup import backup, check, restore
from woodreeve.records.store import Records

NOW = datetime(2026, 1, 31, 20, 0, tzinfo=UTC)


def fill(records: Records) -> None:
    """Something of everything."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", stacked_m3=4)
    diary.add(1, "lit")
    records.add_entries("aldermoor", diary.entries, arrived=NOW)
    records.save_holding("aldermoor", "x = 1", based_on=None, valid_from=NOW, entered=NOW, by="owner")
    records.save_contact("aldermoor", "mill-cottage", {"name": "J. Miller"})


def test_a_backup_restored_to_a_new_file_is_the_same_records(records: Records, tmp_path: Path) -> None:
    """From a file or from PostgreSQL, taken while the records are open."""
    fill(records)
    copied = backup(records, tmp_path / "copy.sqlite3")
    assert (copied.holdings, copied.entries, copied.conflicts, copied.faults) == (1, 2, 0, ())
    assert restore(tmp_path / "copy.sqlite3", tmp_path / "restored.sqlite3") == copied
    with Records.open(tmp_path / "restored.sqlite3") as restored:
        assert restored.entries("aldermoor") == records.entries("aldermoor")
        assert restored.last_entry("aldermoor") == records.last_entry("aldermoor")
        assert restored.holding_versions("aldermoor") == records.holding_versions("aldermoor")
        assert restored.contacts("aldermoor") == records.contacts("aldermoor")
        told = restored.add_entries("aldermoor", [Diary().add(0, "note", text="x")], arrived=NOW)
        assert told[0].state == "conflict"
    leftovers = {path.name for path in tmp_path.iterdir() if "records" not in path.name}
    assert leftovers == {"copy.sqlite3", "restored.sqlite3"}


def test_nothing_that_exists_is_ever_overwritten(file_records: Records, tmp_path: Path) -> None:
    """Neither by a backup nor by a restore."""
    fill(file_records)
    precious = tmp_path / "precious.txt"
    precious.write_text("mine")
    with pytest.raises(Refused, match=r"precious.txt exists already: name a new file"):
        backup(file_records, precious)
    backup(file_records, tmp_path / "copy.sqlite3")
    with pytest.raises(Refused, match="exists already"):
        restore(tmp_path / "copy.sqlite3", precious)
    assert precious.read_text() == "mine"


def test_looking_through_changes_nothing(file_records: Records, tmp_path: Path) -> None:
    """Not a byte."""
    fill(file_records)
    copy = tmp_path / "copy.sqlite3"
    backup(file_records, copy)
    before = copy.read_bytes()
    assert check(copy).faults == ()
    assert copy.read_bytes() == before
    assert check(str(file_records.address.path)).entries == 2


def test_a_row_changed_behind_our_back_is_found(file_records: Records, tmp_path: Path) -> None:
    """By its digest; and so is a guard that is gone."""
    fill(file_records)
    copy = tmp_path / "copy.sqlite3"
    backup(file_records, copy)
    with closing(sqlite3.connect(copy)) as connection:
        connection.execute("DROP TRIGGER entries_never_changed")
        connection.execute("UPDATE entries SET payload = '{\"stacked_m3\":9}' WHERE kind = 'stacked'")
        connection.commit()
    faults = check(copy).faults
    assert len(faults) == 2
    assert faults[0] == "The guard that keeps entries from being changed is missing."
    assert faults[1].endswith("is not as it was when it arrived.")
    with pytest.raises(Refused, match="is not restored: The guard"):
        restore(copy, tmp_path / "restored.sqlite3")
    assert not (tmp_path / "restored.sqlite3").exists()


@pytest.mark.parametrize("content", [b"", b"Dear diary, " * 500])
def test_what_is_no_backup_is_not_restored(tmp_path: Path, content: bytes) -> None:
    """An empty file, or a letter."""
    (tmp_path / "letter").write_bytes(content)
    with pytest.raises(Refused):
        restore(tmp_path / "letter", tmp_path / "restored.sqlite3")
    assert [path.name for path in tmp_path.iterdir()] == ["letter"]


def test_a_damaged_backup_is_not_restored(file_records: Records, tmp_path: Path) -> None:
    """A disk with a bad patch."""
    fill(file_records)
    copy = tmp_path / "copy.sqlite3"
    backup(file_records, copy)
    content = bytearray(copy.read_bytes())
    content[8192:16384] = b"\xff" * 8192
    copy.write_bytes(content)
    with pytest.raises(Refused):
        restore(copy, tmp_path / "restored.sqlite3")
    assert not (tmp_path / "restored.sqlite3").exists()


def test_a_backup_that_is_not_there_is_named(tmp_path: Path) -> None:
    """And so are records that are not."""
    with pytest.raises(Refused, match=r"There is no backup .*nowhere"):
        restore(tmp_path / "nowhere", tmp_path / "restored.sqlite3")
    with pytest.raises(Refused, match=r"There is no file .*nowhere"):
        check(tmp_path / "nowhere")


def test_a_backup_into_a_folder_that_is_missing_is_refused(file_records: Records, tmp_path: Path) -> None:
    """In one sentence."""
    with pytest.raises(Refused, match="the folder is missing, or closed to this user"):
        backup(file_records, tmp_path / "no" / "copy.sqlite3")


def test_a_file_copied_by_hand_opens_as_it_is(file_records: Records, tmp_path: Path) -> None:
    """Once the program is closed there is one file, and it is all there is."""
    fill(file_records)
    file_records.close()
    assert {path.name for path in tmp_path.iterdir()} == {"records.sqlite3"}
    shutil.copy(tmp_path / "records.sqlite3", tmp_path / "hand.sqlite3")
    with Records.open(tmp_path / "hand.sqlite3") as opened:
        assert len(opened.entries("aldermoor")) == 2
