"""Replies of forecast services: read to the hour, and refused where they are not what they should be."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np
import pytest

from tests.links.services import FIRST, NOW, met_norway, open_meteo
from woodreeve.errors import UnknownName, Unreadable
from woodreeve.weather.forecast import Forecast
from woodreeve.weather.services import Answer, read_answer


def read(body: Any, source: str = "met_norway") -> Forecast:
    """Read a reply fetched at a January evening."""
    return read_answer(
        Answer(
            source=source,  # type: ignore[arg-type]  # a wrong one is among the cases
            fetched=NOW,
            latitude_deg=52.4,
            longitude_deg=-3.5,
            text=body if isinstance(body, str) else json.dumps(body),
            ask_again=NOW,
        )
    )


def test_met_norway_is_read_to_the_middle_of_each_hour() -> None:
    """Told at the full hour, taken on a straight line half an hour on."""
    forecast = read(met_norway())
    hourly = forecast.hourly
    assert hourly.start == FIRST
    assert hourly.hours == 156
    assert forecast.issued == datetime(2026, 1, 13, 15, 31, 2, tzinfo=UTC)
    assert forecast.ends == FIRST + timedelta(hours=156)
    assert hourly.temperature_c[[0, 59, 100]] == pytest.approx([4.95, -0.95, -5.05])
    assert hourly.field("relative_humidity") == pytest.approx(0.875)
    assert hourly.field("wind_m_s") == pytest.approx(4.2)
    assert "MET Norway" in forecast.attribution
    assert "CC BY 4.0" in forecast.attribution


def test_rain_comes_from_the_finest_sums_there_are() -> None:
    """0.3 mm an hour while hours are told, then 1.2 mm over six."""
    rain = read(met_norway()).hourly.field("rain_mm")
    assert rain[:60] == pytest.approx(0.3)
    assert rain[60:] == pytest.approx(0.2)


def test_sun_follows_from_cloud() -> None:
    """None at night; a quarter of a clear sky's at noon under full cloud."""
    clouded = read(met_norway())
    body = met_norway()
    for step in body["properties"]["timeseries"]:
        step["data"]["instant"]["details"]["cloud_area_fraction"] = 0.0
    clear = read(body)
    assert clear.hourly.field("sun_w_m2")[0] == 0.0
    noon = 19
    assert 100.0 < clear.hourly.field("sun_w_m2")[noon] < 250.0
    assert clouded.hourly.field("sun_w_m2")[noon] == pytest.approx(
        0.25 * clear.hourly.field("sun_w_m2")[noon]
    )


def test_open_meteo_tells_sums_at_the_end_of_their_hour() -> None:
    """What stands at ten o'clock fell from nine to ten."""
    forecast = read(open_meteo(), "open_meteo")
    assert forecast.hourly.start == FIRST.replace(hour=0)
    assert forecast.hourly.hours == 71
    assert forecast.issued is None
    assert forecast.hourly.temperature_c[:2] == pytest.approx([0.05, 0.15])
    assert np.flatnonzero(forecast.hourly.field("rain_mm")).tolist() == [9]
    assert np.flatnonzero(forecast.hourly.field("sun_w_m2")).tolist() == [11, 35, 59]
    assert "non-commercial" in forecast.attribution


def test_times_of_another_zone_are_understood() -> None:
    """The service's own offset counts."""
    body = open_meteo()
    body["utc_offset_seconds"] = 3600
    assert read(body, "open_meteo").hourly.start == FIRST.replace(hour=0) - timedelta(hours=1)


def test_a_short_gap_is_bridged_and_a_long_one_ends_the_forecast() -> None:
    """Nothing is made up over half a day."""
    body = open_meteo()
    body["hourly"]["temperature_2m"][20:24] = [None] * 4
    assert read(body, "open_meteo").hourly.temperature_c[21] == pytest.approx(2.15)
    body["hourly"]["temperature_2m"][50:60] = [None] * 10
    assert read(body, "open_meteo").hourly.hours == 49


def test_an_element_with_a_long_gap_is_left_out() -> None:
    """The temperatures are of use without it."""
    body = open_meteo()
    body["hourly"]["wind_speed_10m"][20:40] = [None] * 20
    body["hourly"]["precipitation"][20:40] = [None] * 20
    del body["hourly"]["relative_humidity_2m"]
    hourly = read(body, "open_meteo").hourly
    assert (hourly.wind_m_s, hourly.rain_mm, hourly.relative_humidity) == (None, None, None)
    assert hourly.sun_w_m2 is not None


def changed(body: dict[str, Any], *path: str | int, to: Any) -> dict[str, Any]:
    """The same reply with one thing else in it."""
    at: Any = body
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = to
    return body


NULLS = [None] * 72


@pytest.mark.parametrize(
    ("source", "body", "told"),
    [
        ("met_norway", "", "is no JSON"),
        ("met_norway", "[" * 100_000, "is no JSON"),
        ("met_norway", "{}", "not of the shape"),
        ("met_norway", "[1]", "not of the shape"),
        ("open_meteo", {"error": True, "reason": "Daily limit exceeded"}, "declined: Daily limit exceeded"),
        ("open_meteo", {"hourly": {"time": []}}, "not of the shape"),
        (
            "met_norway",
            changed(met_norway(), "properties", "meta", "units", "air_temperature", to="fahrenheit"),
            "air_temperature in fahrenheit, but celsius is wanted",
        ),
        (
            "open_meteo",
            changed(open_meteo(), "hourly_units", "wind_speed_10m", to="km/h"),
            "in km/h, but m/s is wanted",
        ),
        (
            "open_meteo",
            changed(open_meteo(), "hourly", "temperature_2m", to=NULLS),
            "temperatures for 0 hours on end",
        ),
        (
            "open_meteo",
            changed(open_meteo(), "hourly", "temperature_2m", to=[1.0]),
            "1 values of temperature",
        ),
        ("open_meteo", changed(open_meteo(), "hourly", "temperature_2m", 3, to="warm"), "'warm'"),
        ("open_meteo", changed(open_meteo(), "hourly", "temperature_2m", 3, to=True), "no number"),
        ("open_meteo", changed(open_meteo(), "hourly", "temperature_2m", 3, to=99.0), "cannot be true"),
        ("open_meteo", changed(open_meteo(), "hourly", "time", 3, to="soon"), "'soon' for a moment"),
        (
            "open_meteo",
            changed(open_meteo(), "hourly", "time", 3, to="2026-01-13T01:00"),
            "in disorder at 13 January 01:00",
        ),
        ("open_meteo", open_meteo(24), "less than 12 hours after it was fetched"),
        ("met_norway", changed(met_norway(), "properties", "timeseries", to=[]), "0 hours on end"),
    ],
)
def test_a_reply_that_is_not_what_it_should_be_is_refused(source: str, body: Any, told: str) -> None:
    """In one sentence that names the service."""
    with pytest.raises(Unreadable, match=told):
        read(body, source)


def test_not_a_number_is_none_here() -> None:
    """JSON that is no JSON, as some write it."""
    text = json.dumps(open_meteo()).replace("0.5", "NaN", 1)
    with pytest.raises(Unreadable, match="no number"):
        read(text, "open_meteo")


def test_an_unknown_service_is_told() -> None:
    """With the known ones."""
    with pytest.raises(UnknownName, match="met_norway"):
        read(open_meteo(), "met_norwy")
