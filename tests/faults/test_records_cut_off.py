"""A program killed while it writes leaves whole parcels or nothing of them."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.needs import needs
from woodreeve.records.backup import check
from woodreeve.records.store import Records

ROOT = Path(__file__).resolve().parents[2]
PARCEL = 40
NOW = datetime(2026, 1, 31, 20, 0, tzinfo=UTC)

WRITER = f"""
import os, sys
from datetime import UTC, datetime, timedelta
from woodreeve.diary.kinds import Entry
from woodreeve.records.store import Records

now = datetime(2026, 1, 31, 20, 0, tzinfo=UTC)

def parcel(who, number):
    for place in range({PARCEL}):
        yield Entry(
            id=f"{{who:016x}}{{number:08x}}{{place:08x}}",
            holding="aldermoor", kind="note", form=1, happened=now,
            entered=now + timedelta(seconds=number), by=str(who), payload={{"text": "x" * 200}},
        )

where, who, parcels = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
with Records.open(where) as records:
    for number in range(parcels):
        for told in records.add_entries("aldermoor", parcel(who, number), arrived=now):
            assert told.state in ("kept", "known"), told
        print(number, flush=True)
"""


def writer(where: str, who: int, parcels: int) -> subprocess.Popen[str]:
    """Start a program of its own that writes parcels one after another and says so after each."""
    return subprocess.Popen(
        [sys.executable, "-c", WRITER, where, str(who), str(parcels)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=needs("postgresql"))])
def where(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """An address with nothing there yet."""
    if request.param == "sqlite":
        yield str(tmp_path / "records.sqlite3")
    else:
        yield request.getfixturevalue("postgresql_url")


def test_a_program_killed_at_any_moment_leaves_only_whole_parcels(where: str) -> None:
    """What it had answered for is there, what it was writing is not; and work goes on."""
    dice = random.Random(5)
    answered = 0
    for round_ in range(4):
        program = writer(where, round_, 100_000)
        assert program.stdout is not None
        heard = [program.stdout.readline()]
        time.sleep(dice.uniform(0.0, 0.25))
        program.send_signal(signal.SIGKILL)
        heard += program.stdout.readlines()
        program.wait()
        assert program.stderr is not None
        program.stdout.close()
        program.stderr.close()
        answered += sum(line.endswith("\n") for line in heard)
        found = check(where)
        assert found.faults == ()
        assert found.entries % PARCEL == 0
        assert answered * PARCEL <= found.entries <= (answered + round_ + 1) * PARCEL
    with Records.open(where) as records:
        assert len(records.entries("aldermoor")) == check(where).entries


def test_programs_that_start_and_write_at_once_lose_nothing(where: str) -> None:
    """The tables are made once, and every entry has its own number."""
    programs = [writer(where, who, 10) for who in range(4)]
    for program in programs:
        output, errors = program.communicate(timeout=100)
        assert (program.returncode, errors) == (0, "")
        assert len(output.splitlines()) == 10
    with Records.open(where) as records:
        entries = records.entries("aldermoor")
        assert len({entry.id for entry in entries}) == len(entries) == 4 * 10 * PARCEL
    assert check(where).faults == ()


def test_two_programs_that_send_the_same_parcels_keep_each_entry_once(where: str) -> None:
    """The telephone sends again while its first try is still under way."""
    programs = [writer(where, 7, 8) for _ in range(2)]
    for program in programs:
        _, errors = program.communicate(timeout=100)
        assert (program.returncode, errors) == (0, "")
    found = check(where)
    assert (found.entries, found.conflicts) == (8 * PARCEL, 0)
