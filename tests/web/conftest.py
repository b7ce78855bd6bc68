"""A browser and the pages it looks at."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.needs import found
from tests.web.served import Site, demo_at, serving

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 800}

QUIETLY = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for the whole run."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=str(found("chromium")), args=QUIETLY)
        yield started
        started.close()


@pytest.fixture(scope="session")
def looked_at(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """A demonstration that tests only look at, shared by all of them."""
    with serving(demo_at(tmp_path_factory.mktemp("looked-at"))) as site:
        yield site


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    """A demonstration of a test's own, to write in."""
    with serving(demo_at(tmp_path)) as own:
        yield own


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    """A phone that has never seen the pages."""
    context = browser.new_context(viewport=PHONE, has_touch=True, locale="en-GB", timezone_id="Europe/London")
    yield context
    context.close()


@pytest.fixture
def page(phone: BrowserContext) -> Page:
    """An empty page of that phone."""
    opened = phone.new_page()
    opened.set_default_timeout(10_000)
    return opened
