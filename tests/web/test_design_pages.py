"""The design helper and the installer's paper as pages, resources and commands."""

from __future__ import annotations

import io
import json
import re
import time
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from fastapi.testclient import TestClient

from tests.web.served import demo_at
from woodreeve.cli.main import main
from woodreeve.season.sizes import Choices
from woodreeve.web.app import create_app

FEW = Choices(
    boilers_kw=(15.0, 25.0),
    stores_litres=(750.0, 1500.0, 3000.0),
)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """The demonstration's pages; fewer plants are tried than for an owner, so that it is quick."""
    folder: Path = tmp_path_factory.mktemp("design")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("woodreeve.answers.design.boilers_to_try", lambda *_: FEW.boilers_kw)
        patch.setattr("woodreeve.answers.design.stores_to_try", lambda *_: FEW.stores_litres)
        with TestClient(create_app(demo_at(folder)), base_url="http://127.0.0.1") as one:
            yield one


@pytest.fixture(scope="module")
def done(client: TestClient) -> TestClient:
    """The same once the runs are over."""
    until = time.monotonic() + 100.0
    while time.monotonic() < until:
        if client.get("/api/plant/design").json()["state"] in ("done", "failed"):
            break
        time.sleep(0.2)
    return client


def test_the_page_waits_with_progress_that_can_be_stopped(client: TestClient) -> None:
    """While the runs go on it says so and offers to stop; stopping leads to the plant."""
    first = client.get("/plant/design")
    assert first.status_code == 200
    assert 'hx-get="/plant/design/part/progress"' in first.text
    assert 'action="/plant/design/stop"' in first.text
    asked = client.get("/api/plant/design")
    assert asked.status_code == 202
    assert asked.json()["answer"] is None
    part = client.get("/plant/design/part/progress")
    assert "<progress" in part.text
    stopped = client.post("/plant/design/stop", follow_redirects=False)
    assert (stopped.status_code, stopped.headers["location"]) == (303, "/plant")


def test_the_page_shows_knee_charts_and_what_a_step_buys(done: TestClient) -> None:
    """The sentence first; each store is a link that picks it; no style of the page's own."""
    page = done.get("/plant/design").text
    assert "the knee lies at a store of" in page or "is before the knee" in page
    assert page.count('<figure class="chart">') == 4
    assert "What a bigger store buys" in page
    assert "store=3000.0" in page
    assert "<style" not in page
    assert "qualified installer" in page


def test_a_pick_answers_at_once_from_the_same_runs(done: TestClient) -> None:
    """Another boiler, store, presence and wish; a link leads to the variant it names."""
    begun = time.monotonic()
    page = done.get(
        "/plant/design?boiler=15&store=3000&presence=all_day&insulation=house_insulated&spares=3"
    ).text
    assert time.monotonic() - begun < 5.0
    assert '<option value="15" selected>' in page
    assert '<option value="all_day" selected>' in page
    link = re.search(r'href="(/plant/design\?[^"]*store=750[^"]*)"', page)
    assert link
    led = done.get(link[1].replace("&amp;", "&")).text
    assert '<option value="750" selected>' in led
    assert '<option value="15" selected>' in led


@pytest.mark.parametrize("name", ["fires", "trade", "cold", "cost"])
def test_each_chart_is_drawn_in_both_themes_and_widths(done: TestClient, name: str) -> None:
    """And follows the pick."""
    one = done.get(f"/plant/design/chart/{name}?theme=dark&width=narrow")
    assert one.status_code == 200
    assert one.headers["content-type"].startswith("image/svg+xml")
    other = done.get(f"/plant/design/chart/{name}?presence=all_day&boiler=15")
    same = done.get(f"/plant/design/chart/{name}")
    assert other.text != same.text or name == "trade"
    assert done.get("/plant/design/chart/nothing").status_code == 404


def test_the_resource_gives_every_variant(done: TestClient) -> None:
    """The state and the answer as the command prints it; a wish that cannot be is refused."""
    told = done.get("/api/plant/design?presence=evening").json()
    assert told["state"] == "done"
    # Two boilers, three stores, three insulations and presences.
    assert len(told["answer"]["lines"]) == 54
    assert told["answer"]["picked"]["presence"] == "evening"
    assert done.get("/api/plant/design?spares=0").status_code == 422
    assert done.get("/plant/design?presence=never").status_code == 422


def test_the_plants_page_leads_to_both(client: TestClient) -> None:
    """Design and paper are parts of the question plant."""
    page = client.get("/plant").text
    assert 'href="/plant/design"' in page
    assert 'href="/plant/paper"' in page


def test_the_paper_is_a_page_with_its_drawing_and_opening_figures(client: TestClient) -> None:
    """One heading, the drawing in the page's ink, every part of the paper, and a way to print."""
    page = client.get("/plant/paper").text
    assert page.count("<h1>") == 1
    assert 'href="/plant/paper.pdf"' in page
    assert 'stroke="currentColor"' in page
    for part in ("circuit", "sizes", "days", "sheet", "upkeep", "cautions", "sources"):
        assert f'id="{part}"' in page
    opened = re.search(r'href="(/plant/why/checks\.\d+\.wanted)"', page)
    assert opened
    assert client.get(opened[1]).status_code == 200


def test_the_pdf_is_shown_in_the_browser(client: TestClient) -> None:
    """Under a name that tells whose it is."""
    answer = client.get("/plant/paper.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == 'inline; filename="installer-aldermoor.pdf"'
    assert len(pypdfium2.PdfDocument(io.BytesIO(answer.content))) > 5


def test_the_command_tries_plants(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a table and as JSON, from the same answer as the page."""
    monkeypatch.setattr("woodreeve.web.kernels.use_kernel_cache", lambda: None)
    monkeypatch.setattr("woodreeve.answers.design.boilers_to_try", lambda *_: (25.0,))
    monkeypatch.setattr("woodreeve.answers.design.stores_to_try", lambda *_: (1000.0, 2000.0))
    main(["plant", "--demo", "--design", "--presence", "all_day"])
    told = capsys.readouterr().out
    assert "Knee with 25" in told
    assert "1,000 l → 2,000 l" in told
    main(["plant", "--demo", "--design", "--json"])
    assert len(json.loads(capsys.readouterr().out)["lines"]) == 18
