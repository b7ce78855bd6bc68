"""The JSON resources: what they answer, how they refuse, and that their document tells the truth."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, cast

import pytest
import schemathesis
from fastapi import FastAPI
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)
from starlette.testclient import TestClient

from tests.web.served import demo_at
from woodreeve.holding.demo import DEMO_MOMENT
from woodreeve.records.household import Household
from woodreeve.web.app import create_app

HOME = "http://127.0.0.1:8730"


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> FastAPI:
    """The application on a demonstration."""
    return create_app(demo_at(tmp_path_factory.mktemp("asked")))


@pytest.fixture(scope="module")
def client(app: FastAPI) -> Iterator[TestClient]:
    """A program that asks it."""
    with TestClient(app, base_url=HOME, raise_server_exceptions=False) as started:
        started.get("/api/tonight")  # works the plan out once: kernels may have to be compiled
        yield started


DOCUMENT = create_app(cast(Household, None)).openapi()
"""The resources' own description of themselves; it needs no household."""

OPERATIONS = [f"{method.upper()} {path}" for path, item in DOCUMENT["paths"].items() for method in item]

HELD_AGAINST = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
"""No crash; status, type and shape of each answer are those of the document."""


def test_the_document_is_valid_and_the_one_that_is_given_out(client: TestClient) -> None:
    """As its own schema wants it, and with every resource that is tried below."""
    assert client.get("/api/openapi.json").json() == DOCUMENT
    schemathesis.openapi.from_dict(DOCUMENT).validate()
    assert {"GET /api/winter", "GET /api/stacks", "POST /api/entries", "PUT /api/holding"} <= set(OPERATIONS)


@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE], ids=lambda m: m.value)
@pytest.mark.parametrize("operation", OPERATIONS)
def test_made_up_requests_are_answered_as_described(
    app: FastAPI, client: TestClient, operation: str, mode: GenerationMode
) -> None:
    """Requests that fit the document, and requests that do not."""
    method, path = operation.split(" ")
    schema = schemathesis.openapi.from_dict(DOCUMENT)
    schema.app = app
    tried = schema[path][method]
    if mode is GenerationMode.NEGATIVE and not (tried.body or tried.query):
        return  # nothing of it can be of a wrong kind

    @settings(
        max_examples=4 if "/why/" in path else 12,
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=tried.as_strategy(generation_mode=mode))
    def send(case: schemathesis.Case) -> None:
        answer = case.call(headers={"host": "127.0.0.1:8730"}, timeout=100)
        case.validate_response(answer, checks=HELD_AGAINST)
        if answer.status_code >= 400:
            assert list(answer.json()) == ["sentence"]

    send()


QUESTIONS = ["/api/winter", "/api/stacks", "/api/diary", "/api/holding", "/api/workings"]


@pytest.mark.parametrize("address", QUESTIONS)
def test_a_question_is_answered(client: TestClient, address: str) -> None:
    """With JSON that the response model has checked."""
    answer = client.get(address)
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/json"


def test_a_figure_carries_unit_range_and_maker(client: TestClient) -> None:
    """As on the page: no bare number."""
    figure = client.get("/api/winter").json()["rest"]["wood_t"]
    assert figure["unit"] == "t"
    assert figure["low"] < figure["value"] < figure["high"]
    opened = client.get("/api/winter/why/rest.wood_t").json()
    assert opened["steps"][0]["name"] == figure["by"]
    assert any("WMO" in source for source in opened["sources"])


ENTRY = {
    "id": "0" * 31 + "1",
    "kind": "lit",
    "form": 1,
    "happened": DEMO_MOMENT.isoformat(),
    "entered": DEMO_MOMENT.isoformat(),
    "by": "Gwen",
    "payload": {"count": 1, "container": "boiler fill"},
}


def test_an_entry_is_kept_then_known_and_a_bad_one_holds_up_no_other(client: TestClient) -> None:
    """Each by itself, in their order, with a sentence where something is wrong."""
    odd = {**ENTRY, "id": "0" * 31 + "2", "happened": "yesterday"}
    first = client.post("/api/entries", json={"entries": [ENTRY, odd]}).json()["results"]
    assert [one["state"] for one in first] == ["kept", "refused"]
    assert "happened" in first[1]["sentence"]
    again = client.post("/api/entries", json={"entries": [ENTRY]}).json()["results"]
    assert again[0]["state"] == "known"


BROKEN: list[tuple[bytes, int]] = [
    (b"{", 400),
    (b"", 422),
    (b"\xff\xfe", 400),
    (b"[]", 422),
    (b'{"entries": 1}', 422),
    (b'{"entries": [1]}', 422),
    (b'{"entries": [' + b"[" * 5000, 400),
    (b'{"entries": ' + b"[" + b",".join([b"{}"] * 501) + b"]}", 422),
]


@pytest.mark.parametrize(("body", "status"), BROKEN, ids=[str(body[:20]) for body, _ in BROKEN])
def test_a_body_that_cannot_be_read_is_refused_in_a_sentence(
    client: TestClient, body: bytes, status: int
) -> None:
    """400 where it is no JSON at all, 422 where it is JSON of another shape."""
    answer = client.post("/api/entries", content=body, headers={"content-type": "application/json"})
    assert answer.status_code == status
    assert list(answer.json()) == ["sentence"]
    assert answer.json()["sentence"].endswith(".")


WRONG: list[tuple[dict[str, Any], str]] = [
    ({"moisture": 20, "net_heat_dry_mj_kg": 19}, "moisture is 20"),
    ({"moisture": "1.4", "net_heat_dry_mj_kg": 19}, "moisture is 1.4"),
    ({"moisture": "20 kW", "net_heat_dry_mj_kg": 19}, "moisture is given as '20 kW'"),
    ({"moisture": 0.2}, "net_heat_dry_mj_kg"),
]


@pytest.mark.parametrize(("given", "sentence"), WRONG, ids=[words for _, words in WRONG])
def test_a_formula_refuses_in_one_clear_sentence(
    client: TestClient, given: dict[str, Any], sentence: str
) -> None:
    """It names the argument and the value."""
    answer = client.post("/api/workings/net_heat", json={"given": given})
    assert answer.status_code == 422
    assert sentence in answer.json()["sentence"]


def test_a_formula_gives_its_result(client: TestClient) -> None:
    """From numbers, and from texts with units."""
    body = {"given": {"moisture": "20 %", "net_heat_dry_mj_kg": 19}}
    answer = client.post("/api/workings/net_heat", json=body).json()
    assert answer["unit"] == "MJ/kg"
    assert answer["result"] == pytest.approx(14.7114)


def test_a_stale_description_is_refused_and_a_good_one_saved(tmp_path: Path) -> None:
    """By the version it was made from."""
    with TestClient(create_app(demo_at(tmp_path)), base_url=HOME) as client:
        now = client.get("/api/holding").json()
        changed = {"document": now["document"] + "\n# looked over\n", "based_on": now["version"]}
        assert client.put("/api/holding", json=changed).json()["version"] == now["version"] + 1
        stale = client.put("/api/holding", json={**changed, "document": now["document"] + "\n# other\n"})
        assert stale.status_code == 409
        broken = client.put("/api/holding", json={"document": "house = 3", "based_on": 2})
        assert broken.status_code == 422
