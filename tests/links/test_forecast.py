"""Asking a forecast service: politely, and with an answer to every kind of reply."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import Any
from urllib.parse import parse_qs, urlsplit

import httpx2
import pytest

from tests.links.services import NOW, Fake, met_norway, open_meteo, serving
from woodreeve.errors import Refused
from woodreeve.links import forecast as link
from woodreeve.links.forecast import Asked, ask_service
from woodreeve.weather.services import read_answer

CONTACT = "forester@example.org"


@pytest.fixture
def fake() -> Iterator[Fake]:
    """A service on this computer."""
    with serving() as one:
        yield one


def ask(fake: Fake, service: str = "met_norway", **changes: Any) -> Asked:
    """Ask the fake for Aldermoor's forecast."""
    given = {"contact": CONTACT, "now": NOW, "elevation_m": 230.4, **changes}
    return ask_service(  # type: ignore[misc]  # the changes vary
        service,
        52.40123456,
        -3.49876543,
        addresses={"met_norway": fake.address, "open_meteo": fake.address},
        **given,
    )


def test_a_caller_says_who_it_is_and_rounds_the_place(fake: Fake) -> None:
    """Name, version and contact; two decimals, so that no house is pointed at."""
    fake.says(met_norway())
    ask(fake)
    (path, headers), *more = fake.asked
    assert not more
    assert headers["User-Agent"].startswith("woodreeve/")
    assert headers["User-Agent"].endswith(CONTACT)
    assert parse_qs(urlsplit(path).query) == {"lat": ["52.40"], "lon": ["-3.50"], "altitude": ["230"]}


def test_a_new_reply_is_kept_with_its_marks(fake: Fake) -> None:
    """And is not asked for again before it runs out, by the service's own clock."""
    fake.says(
        met_norway(),
        Last_Modified="Tue, 13 Jan 2026 15:31:02 GMT",
        Date="Tue, 13 Jan 2026 18:00:00 GMT",
        Expires="Tue, 13 Jan 2026 19:10:00 GMT",
    )
    asked = ask(fake)
    assert asked.state == "new"
    assert asked.sentence == ""
    assert asked.answer is not None
    assert asked.answer.last_modified == "Tue, 13 Jan 2026 15:31:02 GMT"
    assert asked.ask_again == asked.answer.ask_again == NOW + timedelta(minutes=70)
    assert read_answer(asked.answer).hourly.hours == 156


def test_nobody_is_asked_before_the_reply_runs_out(fake: Fake) -> None:
    """The service does not even see a request."""
    fake.says(met_norway(), Last_Modified="Tue, 13 Jan 2026 15:31:02 GMT")
    first = ask(fake)
    again = ask(fake, before=first.answer, now=NOW + timedelta(minutes=29))
    assert (again.state, again.answer) == ("not_due", first.answer)
    waiting = ask(fake, wait_until=NOW + timedelta(hours=1))
    assert (waiting.state, waiting.ask_again) == ("not_due", NOW + timedelta(hours=1))
    assert len(fake.asked) == 1


def test_an_unchanged_forecast_is_not_sent_twice(fake: Fake) -> None:
    """The service is asked whether there is a newer one, and says no."""
    fake.says(met_norway(), Last_Modified="Tue, 13 Jan 2026 15:31:02 GMT")
    first = ask(fake)
    fake.says(b"", 304)
    later = NOW + timedelta(hours=2)
    again = ask(fake, before=first.answer, now=later)
    assert (again.state, again.answer, again.sentence) == ("unchanged", first.answer, "")
    assert again.ask_again >= later + timedelta(minutes=30)
    assert fake.asked[1][1]["If-Modified-Since"] == "Tue, 13 Jan 2026 15:31:02 GMT"


def test_another_place_or_service_is_asked_afresh(fake: Fake) -> None:
    """A forecast for another place says nothing here, and its mark is not used."""
    fake.says(met_norway(), Last_Modified="Tue, 13 Jan 2026 15:31:02 GMT")
    before = ask(fake).answer
    fake.says(open_meteo())
    asked = ask(fake, "open_meteo", before=before)
    assert asked.state == "new"
    assert "If-Modified-Since" not in fake.asked[1][1]
    query = parse_qs(urlsplit(fake.asked[1][0]).query)
    assert query["wind_speed_unit"] == ["ms"]
    assert query["timezone"] == ["UTC"]


def test_a_form_that_ends_soon_is_used_and_told(fake: Fake) -> None:
    """Status 203."""
    fake.says(met_norway(), 203)
    asked = ask(fake)
    assert asked.state == "new"
    assert "ends soon" in asked.sentence


@pytest.mark.parametrize(
    ("status", "headers", "wait_h", "told"),
    [
        (403, {}, 24, "see that the contact is right"),
        (429, {"Retry_After": "7200"}, 2, "asked too often"),
        (429, {}, 1, "asked too often"),
        (500, {}, 1, "status 500"),
        (301, {"Location": "http://127.0.0.1:1/"}, 1, "status 301"),
        (304, {}, 1, "status 304"),
    ],
)
def test_a_refusal_is_told_and_the_service_left_alone(
    fake: Fake, status: int, headers: dict[str, str], wait_h: int, told: str
) -> None:
    """For as long as it says, or an hour; a wrong contact for a day."""
    fake.says(b"", status, **headers)
    asked = ask(fake)
    assert (asked.state, asked.answer) == ("failed", None)
    assert asked.ask_again == NOW + timedelta(hours=wait_h)
    assert told in asked.sentence
    assert len(fake.asked) == 1


@pytest.mark.parametrize(
    "body",
    [b"", b"<html>gateway</html>", b'{"type": "Feature"', b"[]", b"null", b'{"properties": 3}', b"\xff\xfe"],
)
def test_a_broken_reply_is_told_and_what_was_there_stays(fake: Fake, body: bytes) -> None:
    """Empty, cut off, of another kind."""
    fake.says(met_norway())
    first = ask(fake)
    fake.says(body)
    asked = ask(fake, before=first.answer, now=NOW + timedelta(hours=3))
    assert (asked.state, asked.answer) == ("failed", first.answer)
    assert asked.sentence.startswith("No new forecast from met_norway: ")
    assert asked.sentence.endswith("What was known before stays in use.")


def test_a_connection_that_breaks_off_is_told(fake: Fake) -> None:
    """Fewer bytes than promised."""
    fake.says(met_norway())
    fake.break_off = True
    assert "connection broke" in ask(fake).sentence


def test_a_slow_service_is_not_waited_for(fake: Fake, monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither for the first word nor for a reply that trickles."""
    fake.says(met_norway())
    fake.pause_s = 0.4
    with httpx2.Client(timeout=0.05) as client:
        asked = ask(fake, client=client)
    assert (asked.state, asked.ask_again) == ("failed", NOW + timedelta(minutes=30))
    assert "did not answer in time" in asked.sentence
    monkeypatch.setattr(link, "WHOLE_WAIT_S", 0.0)
    assert "takes too long" in ask(fake).sentence


def test_an_endless_reply_is_not_read_to_its_end(fake: Fake, monkeypatch: pytest.MonkeyPatch) -> None:
    """Memory is not for strangers to fill."""
    monkeypatch.setattr(link, "MOST_BYTES", 1000)
    fake.says(met_norway())
    assert "far too long" in ask(fake).sentence


def test_no_network_is_no_error(fake: Fake) -> None:
    """A yard without signal is the usual case."""
    asked = ask_service(
        "met_norway", 52.4, -3.5, contact=CONTACT, now=NOW, addresses={"met_norway": "http://127.0.0.1:9/"}
    )
    assert (asked.state, asked.answer) == ("failed", None)
    assert "is there a network?" in asked.sentence


@pytest.mark.parametrize("contact", ["", "  ", "me", "nobody", "forester@exämple.org"])
def test_a_service_that_wants_a_contact_is_not_asked_without(fake: Fake, contact: str) -> None:
    """One sentence says what to give."""
    with pytest.raises(Refused, match="give an e-mail address or a web page"):
        ask(fake, contact=contact)
    assert fake.asked == []


def test_a_contact_cannot_smuggle_in_a_header(fake: Fake) -> None:
    """Line ends become blanks."""
    fake.says(met_norway())
    ask(fake, contact="forester@example.org\r\nX-Evil: 1")
    assert "X-Evil" not in fake.asked[0][1]


def test_every_service_has_an_address_and_its_condition() -> None:
    """And Open-Meteo's says that it is not for a business."""
    assert set(link.ADDRESSES) == set(link.CONDITIONS) == {"met_norway", "open_meteo"}
    assert "non-commercial" in link.CONDITIONS["open_meteo"]
