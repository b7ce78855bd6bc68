"""The pages served for a test: a demonstration in a folder of its own, on a free port of this computer."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import uvicorn

from woodreeve.holding.demo import DEMO_MOMENT
from woodreeve.records.demo import demo_household
from woodreeve.records.household import Household
from woodreeve.web.app import create_app
from woodreeve.web.clocks import SteppedClock


@dataclass(frozen=True)
class Site:
    """Where the pages are, and whose they are."""

    address: str
    household: Household


def demo_at(folder: Path) -> Household:
    """A fresh demonstration with its stepped clock, its records in this folder."""
    return demo_household(path=folder / "demonstration.sqlite3", clock=SteppedClock(DEMO_MOMENT))


@contextmanager
def serving(household: Household) -> Iterator[Site]:
    """Serve a household's pages from a thread until the block ends."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.bind(("127.0.0.1", 0))
    config = uvicorn.Config(create_app(household), log_level="error", access_log=False)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    begun = time.monotonic()
    while not server.started:
        assert thread.is_alive(), "the server did not start"
        assert time.monotonic() - begun < 30, "the server took too long to start"
        time.sleep(0.02)
    try:
        yield Site(f"http://127.0.0.1:{listener.getsockname()[1]}", household)
    finally:
        server.should_exit = True
        thread.join(timeout=30)
