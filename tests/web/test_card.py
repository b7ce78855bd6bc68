"""The emergency card as a page and as a PDF."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from fastapi.testclient import TestClient

from tests.web.served import demo_at
from woodreeve.plant.cautions import situations
from woodreeve.web.app import create_app


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """The demonstration's pages."""
    folder: Path = tmp_path_factory.mktemp("card")
    with TestClient(create_app(demo_at(folder)), base_url="http://127.0.0.1") as one:
        yield one


def test_the_page_has_every_situation_and_a_way_to_print(client: TestClient) -> None:
    """In the page's own style: no style of its own comes with it."""
    answer = client.get("/card")
    assert answer.status_code == 200
    for one in situations():
        assert f"<h2>{one.title}</h2>" in answer.text
    assert 'href="/card.pdf"' in answer.text
    assert "Emergency: 999" in answer.text
    assert "<style" not in answer.text
    assert answer.text.count("<h1>") == 1


def test_the_pdf_is_one_page_shown_in_the_browser(client: TestClient) -> None:
    """Under a name that tells whose it is."""
    answer = client.get("/card.pdf")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == 'inline; filename="emergency-card-aldermoor.pdf"'
    assert len(pypdfium2.PdfDocument(io.BytesIO(answer.content))) == 1
