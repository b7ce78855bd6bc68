"""Small replies in the shape that forecast services document, and a server here that gives them."""

from __future__ import annotations

import contextlib
import json
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

NOW = datetime(2026, 1, 13, 17, 20, tzinfo=UTC)
FIRST = datetime(2026, 1, 13, 17, tzinfo=UTC)


def met_norway(hours: int = 60, later: int = 16) -> dict[str, Any]:
    """Hourly steps, then six-hourly ones: temperature falls by 0.1 K an hour from 5 °C."""
    steps = [*range(hours), *range(hours, hours + 6 * later + 1, 6)]
    series = []
    for n in steps:
        data: dict[str, Any] = {
            "instant": {
                "details": {
                    "air_pressure_at_sea_level": 1010.2,
                    "air_temperature": round(5.0 - 0.1 * n, 1),
                    "cloud_area_fraction": 100.0,
                    "relative_humidity": 87.5,
                    "wind_from_direction": 231.0,
                    "wind_speed": 4.2,
                }
            }
        }
        if n < hours:
            data["next_1_hours"] = {
                "summary": {"symbol_code": "rain"},
                "details": {"precipitation_amount": 0.3},
            }
        if n != steps[-1]:
            data["next_6_hours"] = {
                "summary": {"symbol_code": "rain"},
                "details": {"precipitation_amount": 1.2},
            }
        series.append({"time": f"{FIRST + timedelta(hours=n):%Y-%m-%dT%H:%M:%SZ}", "data": data})
    units = {
        "air_pressure_at_sea_level": "hPa",
        "air_temperature": "celsius",
        "cloud_area_fraction": "%",
        "precipitation_amount": "mm",
        "relative_humidity": "%",
        "wind_from_direction": "degrees",
        "wind_speed": "m/s",
    }
    return {
        "type": "Feature",
        "geometry": {"type": "Point", "coordinates": [-3.5, 52.4, 230]},
        "properties": {"meta": {"updated_at": "2026-01-13T15:31:02Z", "units": units}, "timeseries": series},
    }


def open_meteo(hours: int = 72) -> dict[str, Any]:
    """From midnight on, as the service does; temperature is the hour's number over ten."""
    midnight = FIRST.replace(hour=0)
    return {
        "latitude": 52.4,
        "longitude": -3.5,
        "generationtime_ms": 0.1,
        "utc_offset_seconds": 0,
        "timezone": "GMT",
        "timezone_abbreviation": "GMT",
        "elevation": 230.0,
        "hourly_units": {
            "time": "iso8601",
            "temperature_2m": "°C",
            "relative_humidity_2m": "%",
            "wind_speed_10m": "m/s",
            "precipitation": "mm",
            "shortwave_radiation": "W/m²",
        },
        "hourly": {
            "time": [f"{midnight + timedelta(hours=n):%Y-%m-%dT%H:%M}" for n in range(hours)],
            "temperature_2m": [n / 10 for n in range(hours)],
            "relative_humidity_2m": [80] * hours,
            "wind_speed_10m": [3.5] * hours,
            "precipitation": [0.1 if n == 10 else 0.0 for n in range(hours)],
            "shortwave_radiation": [100.0 if n % 24 == 12 else 0.0 for n in range(hours)],
        },
    }


@dataclass
class Fake:
    """A service on this computer: what it answers, and what it was asked."""

    status: int = 200
    body: bytes = b""
    headers: dict[str, str] = field(default_factory=dict)
    pause_s: float = 0.0
    break_off: bool = False
    asked: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    address: str = ""

    def says(self, body: Any, status: int = 200, **headers: str) -> None:
        """Answer so from now on."""
        self.body = body if isinstance(body, bytes) else json.dumps(body).encode()
        self.status = status
        self.headers = {name.replace("_", "-"): value for name, value in headers.items()}


@contextlib.contextmanager
def serving() -> Iterator[Fake]:
    """Run a fake service for the length of a test."""
    fake = Fake()

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            fake.asked.append((self.path, dict(self.headers.items())))
            time.sleep(fake.pause_s)
            self.send_response_only(fake.status)
            for name, value in fake.headers.items():
                self.send_header(name, value)
            if fake.status != 304:
                self.send_header("Content-Length", str(len(fake.body) + 10 * fake.break_off))
            self.end_headers()
            if fake.status != 304:
                with contextlib.suppress(OSError):
                    self.wfile.write(fake.body)

        def log_message(self, format: str, *args: Any) -> None:
            """Say nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    server.daemon_threads = False
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    fake.address = f"http://127.0.0.1:{server.server_port}/forecast"
    try:
        yield fake
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
