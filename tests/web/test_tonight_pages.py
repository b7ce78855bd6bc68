"""The page and the resource of tonight: readable by all, by keyboard, first of all, and prepared in words."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from starlette.testclient import TestClient

from tests.needs import needs
from tests.web.conftest import DESK, PHONE
from tests.web.served import Site, demo_at
from tests.web.test_pages import checked
from woodreeve.records.household import Household
from woodreeve.web import tonight_ready
from woodreeve.web.app import create_app
from woodreeve.web.kernels import Kernels

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

HOME = "http://127.0.0.1:8730"


@pytest.fixture(scope="module")
def household(tmp_path_factory: pytest.TempPathFactory) -> Household:
    """A demonstration that may be changed."""
    return demo_at(tmp_path_factory.mktemp("tonight"))


@pytest.fixture(scope="module")
def client(household: Household) -> Iterator[TestClient]:
    """A program that asks it, without the work at a server's start."""
    yield TestClient(create_app(household), base_url=HOME, headers={"Origin": HOME})
    household.close()


class NotReady(Kernels):
    """Kernels that another process is still making."""

    @property
    def are_ready(self) -> bool:
        """Not yet."""
        return False


def test_the_page_opens_with_its_sentence(client: TestClient) -> None:
    """Before any figure, and with the button that notes the fire as it was planned."""
    text = client.get("/tonight").text
    said = text.index('<p class="said">')
    assert text[said : said + 60].startswith('<p class="said">Light ')
    assert said < text.index("<dl")
    assert "Lit as planned" in text
    assert 'name="container" value="boiler fill"' in text


def test_the_first_page_tells_of_tonight_first(client: TestClient) -> None:
    """Above stacks and winter."""
    text = client.get("/").text
    assert text.index('id="tonight-line"') < text.index("The stacks") < text.index("The winter")


def test_while_kernels_are_made_the_pages_say_so(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """In words, and the resource asks to be asked again."""
    monkeypatch.setattr(tonight_ready, "KERNELS", NotReady())
    assert "Preparing, about 10 s" in client.get("/tonight").text
    assert "preparing" in client.get("/").text
    told = client.get("/api/tonight")
    assert told.status_code == 202
    assert told.json() == {"state": "preparing"}
    assert "HX-Refresh" not in client.get("/tonight/part/preparing").headers
    monkeypatch.undo()
    assert client.get("/tonight/part/preparing").headers["HX-Refresh"] == "true"


def test_the_resource_answers_and_opens_a_figure(client: TestClient) -> None:
    """The same answer as the page, and any figure down to its sources."""
    told = client.get("/api/tonight").json()
    assert told["verdict"] == "light"
    assert {way["name"] for way in told["ways"]} >= {"nothing", "rule"}
    opened = client.get("/api/tonight/why/plan.fires.0.kg").json()
    assert opened["steps"][0]["name"] == "tonight_plan"
    assert opened["sources"]


def test_the_charts_are_drawn_in_both_themes(client: TestClient) -> None:
    """Profile and hours ahead."""
    for name in ("profile", "ahead"):
        for theme in ("light", "dark"):
            drawn = client.get(f"/tonight/chart/{name}?theme={theme}")
            assert drawn.headers["content-type"].startswith("image/svg+xml")
    assert client.get("/tonight/chart/other").status_code == 404


def test_a_forecast_is_offered_only_where_the_owner_turned_it_on(client: TestClient) -> None:
    """And a request to fetch it asks nobody where it is off."""
    assert "Fetch the forecast" not in client.get("/tonight").text
    told = client.post("/tonight/forecast", follow_redirects=False)
    assert told.status_code == 303
    assert told.headers["location"] == "/tonight?asked=off"


def test_a_gap_in_the_heat_escape_is_shown_before_the_sentence(tmp_path: Path) -> None:
    """On the page of tonight and on the first page."""
    one = demo_at(tmp_path)
    document = one.records.holding_newest(one.name).document
    begin = document.index("[[plant.heat_escapes]]")
    text = document[:begin] + document[document.index("[plant.water]") :]
    one.save(text, based_on=1, is_change=False)
    pages = TestClient(create_app(one), base_url=HOME)
    for address in ("/tonight", "/"):
        shown = pages.get(address).text
        gap = shown.index("Nobody has told how the boiler&#39;s heat gets away")
        assert gap < shown.index('<p class="said">')
    one.close()


@needs("chromium")
@pytest.mark.parametrize(
    ("size", "theme"), [(PHONE, "light"), (PHONE, "dark"), (DESK, "light"), (DESK, "dark")]
)
def test_the_page_can_be_read_by_everybody(
    browser: Browser, looked_at: Site, size: dict[str, int], theme: str
) -> None:
    """No fault, no sideways scroll, nothing serious found by axe, with everything folded open."""
    context = browser.new_context(
        viewport=size,  # type: ignore[arg-type]  # width and height, as the browser wants them
        color_scheme=theme,  # type: ignore[arg-type]  # light or dark
        service_workers="block",
    )
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    answer = page.goto(f"{looked_at.address}/tonight", wait_until="load")
    assert answer is not None
    assert answer.status == 200
    page.locator("h2", has_text="The next three days").wait_for()
    page.evaluate("document.querySelectorAll('main details').forEach(one => { one.open = true })")
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    assert checked(page) == []
    assert faults == []
    context.close()


@needs("chromium")
def test_a_figure_of_the_plan_opens_by_keyboard(looked_at: Site, page: Page) -> None:
    """Enter opens it beside the page, Escape closes it."""
    page.goto(f"{looked_at.address}/tonight")
    page.locator("h2", has_text="The next three days").wait_for()
    page.locator("a.figure").first.focus()
    page.keyboard.press("Enter")
    panel = page.locator("#why .why-body")
    panel.wait_for()
    assert "Tonight plan" in panel.inner_text()
    page.keyboard.press("Escape")
    panel.wait_for(state="detached")


@needs("chromium")
def test_the_fire_is_noted_as_planned_with_one_tap_on_the_page(site: Site, page: Page) -> None:
    """Its amount, container and place go into the diary, and the next answer knows of the fire."""
    page.goto(f"{site.address}/tonight")
    page.locator("h2", has_text="The next three days").wait_for()
    before = len(site.household.records.entries(site.household.name))
    page.locator("button", has_text="Lit as planned").click()
    page.wait_for_function("document.querySelector('[data-diary-state]').innerText.trim() !== ''")
    page.wait_for_function("document.querySelectorAll('[data-unsent] li').length === 0")
    for _ in range(50):
        entries = site.household.records.entries(site.household.name)
        if len(entries) > before:
            break
        page.wait_for_timeout(100)
    newest = max(entries, key=lambda entry: entry.entered)
    assert newest.kind == "lit"
    assert newest.payload["container"] == "boiler fill"
    assert 0.0 < newest.payload["count"] <= 1.1
