"""The helper that lets a test be skipped, and the private database server."""

import pytest

from tests import needs as needs_module
from tests import postgresql
from tests.needs import FINDERS, found, needs


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
