"""Files that cannot be written, disks that are full, and other people's locks: one sentence each."""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import text

from tests.diary.making import Diary
from woodreeve.errors import Refused, WoodreeveError
from woodreeve.records import connect
from woodreeve.records.backup import backup, check
from woodreeve.records.store import Records

NOW = datetime(2026, 1, 31, 20, 0, tzinfo=UTC)
NOBODY = 65534


def as_nobody(work: Callable[[], str]) -> str:
    """Do something in a process without privileges, and hear what it says or which error it meets."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(reading)
            if os.geteuid() == 0:
                os.setgroups([])
                os.setgid(NOBODY)
                os.setuid(NOBODY)
            try:
                said = work()
            except WoodreeveError as error:
                said = f"{type(error).__name__}: {error}"
            except BaseException as error:  # whatever it is, the parent must hear of it
                said = f"crash: {error!r}"
            os.write(writing, said.encode())
        finally:
            os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as pipe:
        said = pipe.read()
    os.waitpid(child, 0)
    return said


@pytest.fixture
def yard() -> Iterator[Path]:
    """A folder with records in it, which other users can reach, unlike pytest's own."""
    folder = Path(tempfile.mkdtemp(prefix="wr-yard-"))
    folder.chmod(0o755)
    with Records.open(folder / "records.sqlite3") as records:
        records.add_entries("aldermoor", [Diary().add(0, "lit")], arrived=NOW)
    yield folder
    folder.chmod(0o755)
    shutil.rmtree(folder)


def try_to_write(path: Path) -> Callable[[], str]:
    """Open records and add one entry."""

    def work() -> str:
        with Records.open(path) as records:
            told = records.add_entries("aldermoor", [Diary().add(1, "ash_out", litres=3)], arrived=NOW)
            return told[0].state

    return work


def test_a_file_that_this_user_may_not_write_is_refused_in_one_sentence(yard: Path) -> None:
    """And is still the same afterwards."""
    path = yard / "records.sqlite3"
    path.chmod(0o444)
    yard.chmod(0o555)
    before = path.read_bytes()
    said = as_nobody(try_to_write(path))
    assert said.startswith(f"Refused: The records at {path} cannot be")
    assert said.endswith(".")
    assert path.read_bytes() == before


def test_a_backup_can_be_looked_through_where_nothing_can_be_written(yard: Path) -> None:
    """A stick with its switch on "lock": the copy is one plain file and needs no other beside it."""
    with Records.open(yard / "records.sqlite3") as records:
        backup(records, yard / "copy.sqlite3")
    (yard / "copy.sqlite3").chmod(0o444)
    yard.chmod(0o555)
    assert as_nobody(lambda: str(check(yard / "copy.sqlite3").entries)) == "1"


def test_a_file_that_this_user_may_not_even_read_is_refused_in_one_sentence(yard: Path) -> None:
    """It is another person's."""
    path = yard / "records.sqlite3"
    path.chmod(0o600)
    said = as_nobody(try_to_write(path))
    if os.geteuid() == 0:
        assert said.startswith(f"Refused: The records at {path} cannot be")
    else:
        assert said == "conflict"


def test_a_folder_that_cannot_be_made_is_refused_in_one_sentence(yard: Path) -> None:
    """Its name and the reason are in it."""
    yard.chmod(0o555)
    said = as_nobody(try_to_write(yard / "new" / "records.sqlite3"))
    assert said == f"Refused: The folder {yard / 'new'} cannot be made: Permission denied."


def test_a_full_disk_keeps_nothing_of_the_parcel_and_says_so(tmp_path: Path) -> None:
    """Half a parcel would be worse than none."""
    diary = Diary()
    for number in range(400):
        diary.add(number, "note", text="x" * 1500)
    with Records.open(tmp_path / "records.sqlite3") as records:
        with records._engine.connect() as connection:
            pages = connection.execute(text("PRAGMA page_count")).scalar()
            connection.execute(text(f"PRAGMA max_page_count = {pages + 20}"))
        with pytest.raises(Refused, match=r"the disk is full. Nothing was changed."):
            records.add_entries("aldermoor", diary.entries, arrived=NOW)
        assert records.entries("aldermoor") == ()
        told = records.add_entries("aldermoor", diary.entries[:3], arrived=NOW)
        assert [one.state for one in told] == ["kept"] * 3


def test_a_lock_held_too_long_is_told_in_one_sentence(yard: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Reading goes on meanwhile."""
    monkeypatch.setattr(connect.engine_for, "__kwdefaults__", {"wait_s": 0.2, "read_only": False})
    path = yard / "records.sqlite3"
    with Records.open(path) as records, closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Refused, match="are being written by another program: try again"):
            records.add_entries("aldermoor", [Diary().add(1, "lit")], arrived=NOW)
        assert len(records.entries("aldermoor")) == 1
        other.execute("ROLLBACK")
        told = records.add_entries("aldermoor", [Diary().add(1, "ash_out", litres=4)], arrived=NOW)
        assert told[0].state == "conflict"


@pytest.mark.parametrize("content", [b"Dear diary, " * 500, b"SQLite format 3\x00" + b"\xff" * 5000])
def test_a_file_that_holds_no_records_is_left_alone(tmp_path: Path, content: bytes) -> None:
    """Whatever it is, it is somebody's."""
    path = tmp_path / "letter"
    path.write_bytes(content)
    with pytest.raises(Refused, match=r"letter"):
        Records.open(path)
    assert path.read_bytes() == content


def test_a_folder_in_place_of_a_file_is_refused(tmp_path: Path) -> None:
    """In one sentence."""
    with pytest.raises(Refused, match="cannot be opened"):
        Records.open(tmp_path)
