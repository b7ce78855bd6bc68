"""Tables brought up to date, with a copy, and never backwards."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import text

from tests.diary.making import Diary
from woodreeve.errors import Refused
from woodreeve.records import upgrade
from woodreeve.records.backup import check
from woodreeve.records.connect import address_of, default_path, engine_for
from woodreeve.records.store import Records
from woodreeve.records.tables import metadata

NOW = datetime(2026, 1, 31, 20, 0, tzinfo=UTC)


def older(where: str | Path, tmp_path: Path) -> None:
    """Make records in the first form, with two entries in them."""
    steps = tmp_path / "first_steps"
    shutil.copytree(upgrade.MIGRATIONS, steps, ignore=shutil.ignore_patterns("v000[2-9]*", "__pycache__"))
    address = address_of(where)
    engine = engine_for(address)
    upgrade.bring_up_to_date(engine, address, migrations=steps, head="0001")
    records = Records(engine, address)
    diary = Diary()
    diary.add(0, "lit")
    diary.add(1, "ash_out", litres=10)
    records.add_entries("aldermoor", diary.entries, arrived=NOW)
    records.close()


def test_the_program_knows_its_own_last_step() -> None:
    """The constant saves loading the migrations at each start."""
    assert ScriptDirectory(str(upgrade.MIGRATIONS)).get_current_head() == upgrade.HEAD


def test_the_steps_make_the_tables_that_the_program_uses(records: Records) -> None:
    """Column by column, on both databases."""
    with records._engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []


def test_older_records_are_upgraded_and_keep_what_they_hold(where: str, tmp_path: Path) -> None:
    """The diary is the same afterwards."""
    older(where, tmp_path)
    with Records.open(where) as records:
        assert [entry.kind for entry in records.entries("aldermoor")] == ["lit", "ash_out"]
        records.save_contact("aldermoor", "mill-cottage", {})
        assert records.contacts("aldermoor") == {"mill-cottage": {}}


def test_a_file_is_copied_before_it_is_upgraded(tmp_path: Path) -> None:
    """The copy is the old form, whole; a second one gets another name."""
    path = tmp_path / "records.sqlite3"
    older(path, tmp_path)
    (tmp_path / "records.before-0001.sqlite3").write_text("an older copy")
    Records.open(path).close()
    copy = check(tmp_path / "records.before-0001-1.sqlite3")
    assert (copy.revision, copy.entries, copy.faults) == ("0001", 2, ())
    assert (tmp_path / "records.before-0001.sqlite3").read_text() == "an older copy"
    assert check(path).revision == upgrade.HEAD


def test_nothing_is_copied_when_nothing_changes(tmp_path: Path) -> None:
    """Neither at the first start nor at later ones."""
    path = tmp_path / "records.sqlite3"
    for _ in range(2):
        Records.open(path).close()
    assert [file.name for file in tmp_path.iterdir()] == ["records.sqlite3"]


def test_records_of_a_newer_program_are_refused_in_one_sentence(where: str) -> None:
    """And are left as they are."""
    with Records.open(where) as records, records._engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0099'"))
    with pytest.raises(Refused, match=r"were written by a newer woodreeve \(form 0099; .* up to 0003\)"):
        Records.open(where)
    assert check(where).faults == ("It was written by a newer woodreeve.",)


def test_a_database_that_holds_something_else_is_refused(tmp_path: Path) -> None:
    """Nobody wants a diary in his photo library."""
    path = tmp_path / "photos.sqlite3"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE photos (name TEXT)")
    with pytest.raises(Refused, match=r"holds something else \(photos\), not records"):
        Records.open(path)


def test_an_upgrade_that_fails_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    """All or nothing, the tables too."""
    path = tmp_path / "records.sqlite3"
    older(path, tmp_path)
    steps = tmp_path / "steps"
    shutil.copytree(upgrade.MIGRATIONS, steps)
    broken = steps / "versions" / "v0099_broken.py"
    broken.write_text(
        "from alembic import op\n"
        "revision, down_revision, branch_labels, depends_on = '0099', '0003', None, None\n"
        "def upgrade():\n"
        "    op.execute('CREATE TABLE half_done (x INTEGER)')\n"
        "    op.execute('NONSENSE')\n"
    )
    address = address_of(path)
    engine = engine_for(address)
    with pytest.raises(Refused, match="NONSENSE"):
        upgrade.bring_up_to_date(engine, address, migrations=steps, head="0099")
    with engine.connect() as connection:
        assert upgrade.revision_of(connection) == "0001"
        tables = set(
            connection.execute(text("SELECT name FROM sqlite_master WHERE type = 'table'")).scalars()
        )
    engine.dispose()
    assert not tables & {"half_done", "contacts"}


def test_the_default_file_is_in_the_users_data_folder(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Not in the folder somebody happens to stand in."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert default_path().is_absolute()
    with Records.open() as records:
        assert records.address.path == default_path()
        assert default_path().exists()
