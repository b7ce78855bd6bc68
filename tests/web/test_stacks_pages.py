"""The pages of the stacks: from the yard to one stack and its reading, and the JSON beside them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from starlette.testclient import TestClient

from tests.needs import needs
from tests.web.served import Site, demo_at
from woodreeve.web.app import create_app

if TYPE_CHECKING:
    from playwright.sync_api import Page


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    """The demonstration's pages, only looked at."""
    household = demo_at(tmp_path_factory.mktemp("stacks"))
    return TestClient(create_app(household), base_url="http://127.0.0.1")


def test_the_yard_leads_to_each_stack(client: TestClient) -> None:
    """By its name, and to the measuring of it."""
    page = client.get("/stacks").text
    for place in ("orchard%20wall", "stream", "gable"):
        assert f'href="/stacks/{place}"' in page
        assert f'href="/diary/measured?place={place}"' in page
    assert "kept" in page.lower()
    assert "Mill Cottage" in page


@pytest.mark.parametrize("place", ["stream", "gable", "orchard wall", "boiler room"])
def test_a_stack_has_a_page_and_a_resource(client: TestClient, place: str) -> None:
    """With the same sentence's stack in both."""
    page = client.get(f"/stacks/{place}")
    assert page.status_code == 200
    sent = client.get(f"/api/stacks/{place}")
    assert sent.status_code == 200
    assert sent.json()["line"]["name"] == place
    assert (place == "boiler room") == (sent.json()["median"] is None)


def test_the_course_is_a_chart_with_its_figures(client: TestClient) -> None:
    """Light and dark, wide and narrow, and a table that says no less than 18."""
    for query in ("?theme=dark&width=narrow", "?theme=light"):
        drawn = client.get(f"/stacks/stream/chart/course{query}")
        assert drawn.headers["content-type"].startswith("image/svg+xml")
    assert client.get("/stacks/stream/chart/nothing").status_code == 404
    assert "18 or less" in client.get("/stacks/stream").text


def test_the_odd_reading_is_explained_on_its_page(client: TestClient) -> None:
    """Flagged, with what to do."""
    page = client.get("/stacks/lean-to").text
    assert "Far from what was expected" in page
    assert "read again in a week" in page


def test_a_figure_of_one_stack_opens(client: TestClient) -> None:
    """On a page, in a panel, and as a resource."""
    field = "line.ready.chance_by_season"
    assert "Chance ready by" in client.get(f"/stacks/stream/why/{field}").text
    assert client.get(f"/stacks/stream/why/{field}/part/near").status_code == 200
    opened = client.get(f"/api/stacks/stream/why/{field}").json()
    assert any(step["name"] == "follow_stack" for step in opened["steps"])


def test_a_stack_that_is_not_there_is_not_found(client: TestClient) -> None:
    """In a sentence with near names."""
    answer = client.get("/api/stacks/strem")
    assert answer.status_code == 404
    assert "stream" in answer.text
    assert client.get("/stacks/strem").status_code == 404


@needs("chromium")
def test_a_measurement_is_noted_in_three_taps(site: Site, page: Page) -> None:
    """The stack's measure link, the values one after another, done; the stack's page then knows it."""
    page.goto(f"{site.address}/stacks")
    page.locator('a[href="/diary/measured?place=barn%20end"]').first.click()
    boxes = page.locator('input[name="shown_percent"]')
    for box, value in enumerate(("31", "29", "30", "28")):
        boxes.nth(box).fill(value)
    page.get_by_role("button", name="Note it").click()
    page.wait_for_function("document.querySelector('[data-diary-state]').innerText.trim() !== ''")
    page.wait_for_timeout(500)
    sent = page.request.get(f"{site.address}/api/stacks/barn%20end").json()
    assert sent["readings"][-1]["taken"] == "2026-01-13"


def test_the_address_of_the_demo_is_its_own(tmp_path: Path) -> None:
    """A stack's page carries the mark of the demonstration like every other."""
    client = TestClient(create_app(demo_at(tmp_path)), base_url="http://127.0.0.1")
    assert "demo-strip" in client.get("/stacks/stream").text
