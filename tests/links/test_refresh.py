"""A holding's forecast brought up to date: off by default, asked when due, kept when new."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.links.services import NOW, Fake, met_norway, open_meteo, serving
from woodreeve.errors import Refused
from woodreeve.holding.blank import blank
from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.document import Holding
from woodreeve.holding.toml import load
from woodreeve.links.forecast import Asked
from woodreeve.links.refresh import refresh_forecast
from woodreeve.records.forecasts import newest_forecast
from woodreeve.records.store import Records

HOUSE = "aldermoor"


@pytest.fixture
def fake() -> Iterator[Fake]:
    """A service on this computer."""
    with serving() as one:
        yield one


@pytest.fixture
def records(tmp_path: Path) -> Iterator[Records]:
    """Records with nothing in them."""
    with Records.open(tmp_path / "records.sqlite3") as opened:
        yield opened


def aldermoor(**climate: Any) -> Holding:
    """The demo's place with forecasts turned on."""
    given = {"forecast": "met_norway", "forecast_contact": "forester@example.org", **climate}
    holding = load(demo_holding_text())
    return replace(holding, climate=replace(holding.climate, **given))


def refresh(records: Records, fake: Fake, holding: Holding, now: datetime = NOW) -> Asked | None:
    """Bring it up to date from the fake."""
    addresses = {"met_norway": fake.address, "open_meteo": fake.address}
    return refresh_forecast(records, HOUSE, holding, now, addresses=addresses)  # type: ignore[arg-type]  # keys as text


@pytest.mark.parametrize("text", [blank("my-holding"), demo_holding_text()])
def test_nobody_is_asked_before_the_owner_has_turned_it_on(records: Records, fake: Fake, text: str) -> None:
    """Neither for a new holding nor for the demo."""
    assert refresh(records, fake, load(text)) is None
    assert fake.asked == []


def test_a_new_forecast_is_kept_and_not_asked_for_again_too_soon(records: Records, fake: Fake) -> None:
    """Also by the next process."""
    fake.says(met_norway())
    first = refresh(records, fake, aldermoor())
    assert first is not None
    assert first.state == "new"
    found = newest_forecast(records, HOUSE, NOW)
    assert found is not None
    assert found.hourly.hours == 156
    again = refresh(records, fake, aldermoor(), NOW + timedelta(minutes=10))
    assert again is not None
    assert again.state == "not_due"
    assert len(fake.asked) == 1


def test_an_unchanged_one_is_put_off_and_a_newer_one_kept(records: Records, fake: Fake) -> None:
    """The old one stays in use in between."""
    fake.says(met_norway(), Last_Modified="Tue, 13 Jan 2026 15:31:02 GMT")
    refresh(records, fake, aldermoor())
    fake.says(b"", 304)
    later = NOW + timedelta(hours=1)
    unchanged = refresh(records, fake, aldermoor(), later)
    assert unchanged is not None
    assert unchanged.state == "unchanged"
    assert refresh(records, fake, aldermoor(), later + timedelta(minutes=29)).state == "not_due"  # type: ignore[union-attr]  # it is on
    fake.says(met_norway())
    refresh(records, fake, aldermoor(), later + timedelta(hours=1))
    found = newest_forecast(records, HOUSE, later + timedelta(hours=2))
    assert found is not None
    assert found.fetched == later + timedelta(hours=1)


def test_a_refusal_is_remembered_before_there_is_any_forecast(records: Records, fake: Fake) -> None:
    """A wrong contact is not tried again every minute."""
    fake.says(b"", 403)
    asked = refresh(records, fake, aldermoor())
    assert asked is not None
    assert asked.state == "failed"
    assert refresh(records, fake, aldermoor(), NOW + timedelta(hours=23)).state == "not_due"  # type: ignore[union-attr]  # it is on
    fake.says(met_norway())
    assert refresh(records, fake, aldermoor(), NOW + timedelta(hours=24)).state == "new"  # type: ignore[union-attr]  # it is on


def test_the_other_service_is_asked_by_its_own_clock(records: Records, fake: Fake) -> None:
    """And needs no contact."""
    fake.says(met_norway())
    refresh(records, fake, aldermoor())
    fake.says(open_meteo())
    asked = refresh(records, fake, aldermoor(forecast="open_meteo", forecast_contact=None))
    assert asked is not None
    assert asked.state == "new"


def test_without_a_place_or_a_contact_nothing_is_asked(records: Records, fake: Fake) -> None:
    """One sentence each."""
    holding = aldermoor()
    with pytest.raises(Refused, match="latitude and longitude"):
        refresh(records, fake, replace(holding, place=replace(holding.place, latitude_deg=None)))
    with pytest.raises(Refused, match="forecast_contact"):
        refresh(records, fake, aldermoor(forecast_contact=None))
    assert fake.asked == []
