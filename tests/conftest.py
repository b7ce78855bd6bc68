"""What every test may ask for."""

from collections.abc import Iterator

import pytest

from tests import postgresql


@pytest.fixture(scope="session")
def postgresql_server() -> Iterator[postgresql.Server]:
    """One private PostgreSQL server for the whole run, started when first asked for."""
    with postgresql.server() as running:
        yield running


@pytest.fixture
def postgresql_url(postgresql_server: postgresql.Server) -> Iterator[str]:
    """The address of a new empty database on that server."""
    with postgresql_server.database() as url:
        yield url
