"""Every page in a real browser, on a phone and on a desk: no fault, no sideways scroll, readable by all."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.needs import needs
from tests.web.conftest import DESK, PHONE
from tests.web.served import Site

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

pytestmark = needs("chromium")

AXE = Path(__file__).parent / "vendor" / "axe.min.js"

PAGES = [
    "/",
    "/winter",
    "/stacks",
    "/stacks/gable",
    "/stacks/stream",
    "/plant",
    "/upkeep",
    "/season",
    "/card",
    "/diary",
    "/diary/lit",
    "/diary/measured?place=gable",
    "/diary/stacked",
    "/diary/counted",
    "/diary/tested",
    "/diary/sold",
    "/holding",
    "/holding/house",
    "/holding/climate",
    "/holding/plant.boiler",
    "/holding/yard",
    "/holding/yard.containers[0]",
    "/holding/yard.containers[4]",
    "/workings",
    "/workings/net_heat",
    "/workings/typical_year",
    "/winter/why/rest.wood_t",
    "/winter/why/split_by",
    "/stacks/why/stacks.0.moisture",
    "/there/is/nothing/here",
]


def checked(page: Page) -> list[str]:
    """What axe finds that shuts somebody out, each with its first place."""
    page.evaluate(AXE.read_text("utf-8"))
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    return [
        f"{one['id']}: {one['help']} at {one['nodes'][0]['target']} {one['nodes'][0]['html'][:160]}"
        for one in found["violations"]
        if one["impact"] in ("serious", "critical")
    ]


@pytest.fixture(scope="module")
def windows(browser: Browser) -> Iterator[dict[int, BrowserContext]]:
    """A phone in the light theme and a desk in the dark one, by their width."""
    contexts = {
        390: browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block"),
        1280: browser.new_context(
            viewport={"width": 1280, "height": 800}, service_workers="block", color_scheme="dark"
        ),
    }
    yield contexts
    for context in contexts.values():
        context.close()


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("address", PAGES)
def test_a_page_can_be_read_by_everybody(
    windows: dict[int, BrowserContext], looked_at: Site, address: str, size: dict[str, int]
) -> None:
    """No message on the console, no sideways scroll, nothing serious found by axe, labelled as demo."""
    page = windows[size["width"]].new_page()
    told: list[str] = []
    page.on("console", lambda one: told.append(one.text) if one.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: told.append(str(error)))
    answer = page.goto(looked_at.address + address, wait_until="load")
    assert answer is not None
    is_fault = address == PAGES[-1]
    assert answer.status == (404 if is_fault else 200)
    expected = ("Service Worker registration blocked", *(("404",) if is_fault else ()))
    assert [text for text in told if not any(part in text for part in expected)] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    assert page.locator(".demo-strip").inner_text().startswith("Aldermoor")
    page.evaluate(
        "document.querySelectorAll('main details').forEach((one, n) => { if (n < 12) one.open = true })"
    )
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    found = checked(page)
    page.close()
    assert found == []


def test_axe_would_find_something(browser: Browser) -> None:
    """The checker is awake: it objects to a picture without words and to grey on grey."""
    page = browser.new_page()
    page.set_content("<main><img src='x.png'><p style='color:#999;background:#aaa'>words</p></main>")
    found = checked(page)
    page.close()
    assert {one.split(":")[0] for one in found} >= {"image-alt", "color-contrast"}
