"""The helper that lets a test be skipped, and the private database server."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests import needs as needs_module
from tests import postgresql
from tests.needs import FINDERS, found, needs

PROJECT = Path(__file__).parent.parent


@pytest.fixture
def nothing_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """A machine on which a thing called `kiln` cannot be found."""
    monkeypatch.setattr(needs_module, "FINDERS", {**FINDERS, "kiln": lambda: None})


@pytest.mark.usefixtures("nothing_here")
def test_what_is_missing_skips_at_home_and_fails_on_a_checking_machine(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Only where everything must be there is a missing thing a failure."""
    monkeypatch.delenv("WOODREEVE_NEED_ALL", raising=False)
    assert needs("kiln").args == (True,)
    with pytest.raises(pytest.skip.Exception, match="needs kiln"):
        found("kiln")

    monkeypatch.setenv("WOODREEVE_NEED_ALL", "1")
    assert needs("kiln").args == (False,)
    with pytest.raises(pytest.fail.Exception, match="kiln is missing"):
        found("kiln")


def test_a_need_that_nobody_can_look_for_is_a_slip() -> None:
    """A misspelt need must not skip a test for ever."""
    with pytest.raises(KeyError, match="chromiun"):
        needs("chromiun")


@pytest.mark.parametrize(("need_all", "outcome"), [("0", "1 skipped"), ("1", "1 error")])
def test_no_other_way_of_skipping_gets_past_a_checking_machine(
    tmp_path: Path, need_all: str, outcome: str
) -> None:
    """A skip that does not come from `needs` is seen there too."""
    (tmp_path / "test_it.py").write_text(
        "import pytest\n@pytest.mark.parametrize('row', [])\ndef test_it(row): pass\n"
    )
    (tmp_path / "conftest.py").write_text("from tests.conftest import pytest_runtest_makereport\n")
    result = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "--rootdir", tmp_path, tmp_path],
        cwd=PROJECT, env={**os.environ, "WOODREEVE_NEED_ALL": need_all, "PYTHONPATH": str(PROJECT)},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert outcome in result.stdout, result.stdout + result.stderr


@needs("postgresql")
def test_each_postgresql_database_is_new_and_reached_by_socket_only(
    postgresql_server: postgresql.Server,
) -> None:
    """What one test writes, another never sees, and no network port is open."""
    import psycopg

    def conninfo(url: str) -> str:
        return postgresql_server.conninfo(url.split("/")[3].split("?")[0])

    with postgresql_server.database() as first:
        with psycopg.connect(conninfo(first)) as connection:
            connection.execute("create table stack (id int)")
            assert connection.execute("show listen_addresses").fetchone() == ("",)
        with postgresql_server.database() as second, psycopg.connect(conninfo(second)) as connection:
            assert connection.execute("select to_regclass('stack')").fetchone() == (None,)
