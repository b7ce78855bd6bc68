"""What every test may ask for."""

import os
from collections.abc import Generator, Iterator
from pathlib import Path

import pytest

from woodreeve.season.cache import kernel_cache_folder

# Compiled kernels are kept between runs of the tests, in a folder that no other version ever reads;
# it must be named before the compiler is first imported.
os.environ["NUMBA_CACHE_DIR"] = kernel_cache_folder(str(Path(__file__).parents[1] / ".cache" / "kernels"))

from hypothesis import settings

from tests import postgresql
from tests.needs import needs_all

# How long one example takes says more of a busy machine than of the code; each whole test has its limit.
settings.register_profile("woodreeve", deadline=None)
settings.load_profile("woodreeve")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """On a checking machine count every skipped test as failed, whatever it was skipped by."""
    report = yield
    if report.skipped and not hasattr(report, "wasxfail") and needs_all():
        report.outcome = "failed"
        report.longrepr = f"skipped, and WOODREEVE_NEED_ALL allows no skip: {report.longrepr}"
    return report


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
