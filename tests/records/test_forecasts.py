"""Forecasts kept for later: the newest known at a moment, thinned with age."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import func, select, text

from tests.links.services import NOW, met_norway, open_meteo
from woodreeve.errors import Unreadable
from woodreeve.records.backup import check
from woodreeve.records.forecasts import (
    keep_answer,
    last_answer,
    newest_forecast,
    put_off,
    thin_forecasts,
    waits_until,
)
from woodreeve.records.store import Records
from woodreeve.records.tables import forecasts
from woodreeve.weather.services import Answer

HOUSE = "aldermoor"


def answer(fetched: datetime = NOW, warmer_k: float = 0.0, **changes: Any) -> Answer:
    """A reply of MET Norway, shifted in time with its fetching."""
    body = met_norway()
    for step in body["properties"]["timeseries"]:
        at = datetime.fromisoformat(step["time"]) + (fetched - NOW)
        step["time"] = at.isoformat()
        step["data"]["instant"]["details"]["air_temperature"] += warmer_k
    given: dict[str, Any] = {
        "source": "met_norway",
        "fetched": fetched,
        "latitude_deg": 52.4,
        "longitude_deg": -3.5,
        "text": json.dumps(body),
        "ask_again": fetched + timedelta(hours=1),
        "last_modified": "Tue, 13 Jan 2026 15:31:02 GMT",
        **changes,
    }
    return Answer(**given)


def count(records: Records) -> int:
    """How many rows there are."""
    with records._engine.connect() as connection:
        return connection.execute(select(func.count()).select_from(forecasts)).scalar_one()


def test_a_reply_comes_back_word_for_word(records: Records) -> None:
    """With its marks, to ask whether there is a newer one."""
    given = answer()
    told = keep_answer(records, HOUSE, given)
    assert last_answer(records, HOUSE, "met_norway") == given
    assert last_answer(records, HOUSE, "open_meteo") is None
    assert last_answer(records, "old-chapel", "met_norway") is None
    found = newest_forecast(records, HOUSE, NOW)
    assert found is not None
    assert found.hourly.temperature_c.tolist() == told.hourly.temperature_c.tolist()
    assert (found.fetched, found.issued, found.source) == (NOW, told.issued, "met_norway")


def test_a_reply_is_packed(records: Records) -> None:
    """A season of them must not fill a small computer."""
    given = answer()
    keep_answer(records, HOUSE, given)
    with records._engine.connect() as connection:
        packed = connection.execute(text("SELECT length(answer) FROM forecasts")).scalar_one()
    assert packed < len(given.text) / 10


def test_what_cannot_be_read_is_not_kept(records: Records) -> None:
    """Whoever fetched it."""
    with pytest.raises(Unreadable, match="no JSON"):
        keep_answer(records, HOUSE, replace(answer(), text="oops"))
    assert count(records) == 0


def test_the_newest_known_at_a_moment_is_used_and_a_replay_does_not_peek(records: Records) -> None:
    """Whatever the order in which they were kept."""
    for hours in (0, 24, 12):
        keep_answer(records, HOUSE, answer(NOW + timedelta(hours=hours), float(hours)))
    for hours, known in ((0, 0), (11, 0), (12, 12), (23, 12), (24, 24), (100, 24)):
        found = newest_forecast(records, HOUSE, NOW + timedelta(hours=hours))
        assert found is not None
        assert found.fetched == NOW + timedelta(hours=known)
    assert newest_forecast(records, HOUSE, NOW - timedelta(seconds=1)) is None


def test_a_forecast_of_long_ago_or_of_another_place_says_nothing(records: Records) -> None:
    """Ten days after its end, or after moving."""
    kept = keep_answer(records, HOUSE, answer())
    assert newest_forecast(records, HOUSE, kept.ends + timedelta(days=9)) is not None
    assert newest_forecast(records, HOUSE, kept.ends + timedelta(days=10)) is None
    assert newest_forecast(records, HOUSE, NOW, latitude_deg=52.401, longitude_deg=-3.499) is not None
    assert newest_forecast(records, HOUSE, NOW, latitude_deg=52.5, longitude_deg=-3.5) is None


def test_a_reply_that_cannot_be_read_any_more_does_not_hide_the_one_before(
    records: Records, caplog: pytest.LogCaptureFixture
) -> None:
    """A later program may read more strictly."""
    keep_answer(records, HOUSE, answer())
    keep_answer(records, HOUSE, replace(answer(NOW + timedelta(hours=1)), source="met_norway"))
    with records._engine.begin() as connection:
        connection.execute(text("UPDATE forecasts SET source = 'gone' WHERE seq = 2"))
    found = newest_forecast(records, HOUSE, NOW + timedelta(hours=2))
    assert found is not None
    assert found.fetched == NOW
    assert "cannot be read any more" in caplog.text


def test_a_wait_is_remembered_with_and_without_a_reply(records: Records) -> None:
    """Also over a restart: a service that declined is left alone."""
    assert waits_until(records, HOUSE, "met_norway") is None
    until = NOW + timedelta(hours=24)
    put_off(records, HOUSE, "met_norway", until, now=NOW)
    assert waits_until(records, HOUSE, "met_norway") == until
    assert last_answer(records, HOUSE, "met_norway") is None
    assert newest_forecast(records, HOUSE, NOW) is None
    keep_answer(records, HOUSE, answer(NOW + timedelta(hours=25)))
    later = NOW + timedelta(hours=30)
    put_off(records, HOUSE, "met_norway", later, now=NOW + timedelta(hours=26))
    assert waits_until(records, HOUSE, "met_norway") == later
    assert last_answer(records, HOUSE, "met_norway") == replace(
        answer(NOW + timedelta(hours=25)), ask_again=later
    )
    assert count(records) == 2


def test_old_replies_are_thinned_to_two_a_day_and_very_old_ones_go(records: Records) -> None:
    """All of the last fortnight stay, and thinning twice changes nothing more."""
    for days in (600, 100, 5):
        for hours in range(0, 24, 4):
            keep_answer(records, HOUSE, answer(NOW - timedelta(days=days) + timedelta(hours=hours)))
    keep_answer(
        records,
        HOUSE,
        Answer(
            source="open_meteo",
            fetched=NOW,
            latitude_deg=52.4,
            longitude_deg=-3.5,
            text=json.dumps(open_meteo()),
            ask_again=NOW,
        ),
    )
    assert thin_forecasts(records, HOUSE, now=NOW) == 6 + 3
    assert thin_forecasts(records, HOUSE, now=NOW) == 0
    assert count(records) == 3 + 6 + 1


def test_a_backup_of_records_with_forecasts_is_in_order(file_records: Records) -> None:
    """The check knows the new tables."""
    keep_answer(file_records, HOUSE, answer())
    assert file_records.address.path is not None
    assert check(file_records.address.path).faults == ()
