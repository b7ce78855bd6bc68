"""What the server lets in and what it says: headers, hosts, origins, faults, caching."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI
from starlette.testclient import TestClient

from tests.web.served import demo_at
from woodreeve.web.app import create_app

HOME = "http://127.0.0.1:8730"


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> FastAPI:
    """The application on a demonstration."""
    return create_app(demo_at(tmp_path_factory.mktemp("guarded")))


@pytest.fixture(scope="module")
def client(app: FastAPI) -> Iterator[TestClient]:
    """A program that asks it."""
    with TestClient(app, base_url=HOME, raise_server_exceptions=False) as started:
        yield started


ADDRESSES = [
    "/",
    "/winter",
    "/winter/chart/months?theme=dark&width=narrow",
    "/api/winter",
    "/api/openapi.json",
    "/static/woodreeve.css",
    "/worker.js",
    "/nothing",
    "/api/nothing",
    "/static/nothing",
    "/stacks/chart/nothing",
]


@pytest.mark.parametrize("address", ADDRESSES)
def test_every_answer_keeps_the_page_to_its_own_files(client: TestClient, address: str) -> None:
    """The policy has no exception for inline scripts or styles, on faults as on pages."""
    policy = client.get(address).headers["content-security-policy"]
    assert "default-src 'self'" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "", "[::2]:8730", "localhost.:1"])
def test_a_foreign_host_is_refused(client: TestClient, host: str) -> None:
    """Another site's name that points here gets a sentence and nothing else."""
    answer = client.get("/api/winter", headers={"host": host})
    assert answer.status_code == 400
    assert "not served under this name" in answer.json()["sentence"]
    assert "content-security-policy" in answer.headers


@pytest.mark.parametrize("host", ["127.0.0.1:8730", "localhost", "LOCALHOST:1", "[::1]:8730"])
def test_this_computer_is_known_by_its_names(client: TestClient, host: str) -> None:
    """By number and by name, with or without a port."""
    assert client.get("/api/workings/net_heat", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "https://evil.example"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site", "origin": HOME},
    ],
)
@pytest.mark.parametrize("address", ["/api/entries", "/demo/step", "/holding/yard"])
def test_a_write_from_another_site_is_refused(
    client: TestClient, headers: dict[str, str], address: str
) -> None:
    """Whatever it asks for; nothing is written."""
    before = client.get("/api/diary").json()["count"]
    answer = client.post(address, headers=headers, json={"entries": []})
    assert answer.status_code == 403
    assert "another site" in answer.text
    assert client.get("/api/diary").json()["count"] == before


def test_a_write_of_our_own_page_is_taken(client: TestClient) -> None:
    """From the same origin, and from a program that is no browser."""
    for headers in ({"sec-fetch-site": "same-origin"}, {"origin": HOME}, {}):
        assert client.post("/api/entries", headers=headers, json={"entries": []}).json() == {"results": []}


@pytest.mark.parametrize(
    ("address", "status"), [("/nothing", 404), ("/winter/why/nothing", 404), ("/diary/nothing", 404)]
)
def test_a_page_tells_its_fault_in_a_sentence(client: TestClient, address: str, status: int) -> None:
    """As a page with the frame, labelled as demonstration like every other."""
    answer = client.get(address)
    assert answer.status_code == status
    assert "That did not work" in answer.text
    assert "demonstration holding" in answer.text


def test_a_crash_is_told_in_a_sentence_with_the_policy(
    app: FastAPI, client: TestClient, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """The traceback goes to the log, and not to the page."""

    def crash() -> None:
        raise RuntimeError("secret")

    monkeypatch.setattr(app.state.household, "ask", crash)
    for address in ("/winter", "/api/winter"):
        answer = client.get(address)
        assert answer.status_code == 500
        assert "Something broke on our side" in answer.text
        assert "secret" not in answer.text
        assert "content-security-policy" in answer.headers
    assert "secret" in caplog.text


def test_a_built_file_is_kept_for_ever_under_its_digest_only(client: TestClient) -> None:
    """As every page names it; asked for without, or with an old digest, it is asked for again."""
    page = client.get("/").text
    named = re.findall(r"/static/[\w.-]+\?v=[0-9a-f]{12}", page)
    assert len(named) > 5
    for address in named:
        assert client.get(address).headers["cache-control"] == "public, max-age=31536000, immutable"
    for address in ("/static/page.js", "/static/page.js?v=000000000000", "/worker.js"):
        assert client.get(address).headers["cache-control"] == "no-cache"


def test_no_page_names_a_file_without_its_digest(client: TestClient) -> None:
    """Else a browser could keep an old one."""
    for address in ("/", "/winter", "/diary/lit", "/nothing"):
        bare = re.findall(r"(?:src|href)=\"(/static/[^\"?#]+)\"", client.get(address).text)
        assert bare == []


def test_a_chart_is_sent_again_only_when_it_changed(client: TestClient) -> None:
    """The browser asks with the mark it has."""
    address = "/winter/chart/months?width=narrow"
    first = client.get(address)
    assert first.headers["content-type"] == "image/svg+xml"
    again = client.get(address, headers={"if-none-match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    assert client.get(address.replace("narrow", "wide")).headers["etag"] != first.headers["etag"]


@pytest.mark.parametrize("query", ["theme=pink", "width=huge", "theme="])
def test_a_chart_in_no_known_dress_is_refused(client: TestClient, query: str) -> None:
    """With the known ones named."""
    answer = client.get(f"/stacks/chart/moisture?{query}")
    assert answer.status_code == 404
    assert "known" in answer.text


ODD = [
    "/diary?skip=99999999999999999999999999",
    "/diary?skip=-5",
    "/diary?skip=%00",
    "/diary?skip=abc",
    "/diary/measured?place=%3Cscript%3Ealert(1)%3C/script%3E",
    "/diary/measured?place=" + "x" * 20_000,
    "/diary/entry/%F0%9F%8C%B3",
    "/diary/%2e%2e",
    "/holding/yard[0]",
    "/holding/yard.containers[%C2%B2]",
    "/holding/yard.containers[99999999999]",
    "/holding/yard.containers[0",
    "/holding/.",
    "/holding/..",
    "/holding/house.zones[0].name",
    "/winter/why/months.99.heat_kwh",
    "/winter/why/" + "a." * 3000,
    "/nothing/why/x",
    "/workings/__class__",
    "/workings/net_heat?moisture=NaN&net_heat_dry_mj_kg=inf",
    "/workings/net_heat?moisture=1e999",
    "/workings/net_heat?moisture=%00&nothing=1",
    "/workings/net_heat/part/result?moisture=20&net_heat_dry_mj_kg=19",
    "/api/diary?skip=10000000000000000000000000&most=-1",
    "/api/diary?most=99999999999999",
    "/static/../guard.py",
    "/static/%2e%2e/guard.py",
]


@pytest.mark.parametrize("address", ODD, ids=[one[:60] for one in ODD])
def test_odd_and_huge_addresses_get_an_answer(client: TestClient, address: str) -> None:
    """A page or a fault, never a crash, and nothing of the address runs."""
    answer = client.get(address)
    assert answer.status_code in (200, 303, 307, 400, 404, 422)
    assert "<script>alert" not in answer.text
    assert "GuardMiddleware" not in answer.text


ODD_FORMS = [
    {},
    {"based-on": "²"},
    {"based-on": "1", "yard.containers[1].litres": "9" * 400},
    {"based-on": "1", "yard.containers[1].litres": "NaN"},
    {"based-on": "1", "yard.containers[1].name": "\x00\n\r]"},
    {"based-on": "1", "yard.containers[1].log_length_cm": "12 parsecs"},
    {"based-on": "1", "remove": "1", "why": "x"},
]


@pytest.mark.parametrize("form", ODD_FORMS, ids=str)
def test_odd_forms_get_an_answer(tmp_path: Path, form: dict[str, str]) -> None:
    """Saved or shown again with what is wrong, never a crash, and the description can still be read."""
    with TestClient(create_app(demo_at(tmp_path)), base_url=HOME) as client:
        answer = client.post("/holding/yard.containers[1]", data=form, follow_redirects=False)
        assert answer.status_code in (303, 409, 422)
        assert client.get("/holding").status_code == 200


def test_the_step_back_goes_nowhere_else(tmp_path: Path) -> None:
    """A made-up page to go back to is not followed off this server."""
    with TestClient(create_app(demo_at(tmp_path)), base_url=HOME) as client:
        for back in ("//evil.example/", "https://evil.example/", "/\\evil.example"):
            answer = client.post("/demo/step", data={"back": back}, follow_redirects=False)
            assert answer.headers["location"] == "/"


def test_the_openapi_document_is_ours_alone(client: TestClient) -> None:
    """It lists resources and no page, and names no other server."""
    document = client.get("/api/openapi.json").json()
    assert all(path.startswith("/api/") for path in document["paths"])
    assert not re.search(r"https?://", json.dumps(document).replace("https://json-schema.org", ""))
