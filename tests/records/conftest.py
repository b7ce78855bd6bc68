"""Records to test on: a file, and a real PostgreSQL server."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.needs import needs
from woodreeve.records.store import Records


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=needs("postgresql"))])
def where(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """An address with nothing there yet, once of each kind."""
    if request.param == "sqlite":
        return str(tmp_path / "records.sqlite3")
    url: str = request.getfixturevalue("postgresql_url")
    return url


@pytest.fixture
def records(where: str) -> Iterator[Records]:
    """Open records with nothing in them."""
    with Records.open(where) as opened:
        yield opened


@pytest.fixture
def file_records(tmp_path: Path) -> Iterator[Records]:
    """The same, in a file only."""
    with Records.open(tmp_path / "records.sqlite3") as opened:
        yield opened
