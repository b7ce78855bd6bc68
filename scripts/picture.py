"""Take the picture of the README from the running pages: the demonstration's stacks, as the owner sees them.

Run ``.venv/bin/python scripts/picture.py`` (needs Chromium). The demonstration stands at one evening and
its charts have fixed seeds, so the same code gives the same picture.
"""

from __future__ import annotations

import argparse
import shutil
import socket
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from playwright.sync_api import sync_playwright

from woodreeve.holding.demo import DEMO_MOMENT
from woodreeve.records.demo import demo_household
from woodreeve.web.app import create_app
from woodreeve.web.clocks import SteppedClock

WHERE = Path(__file__).parents[1] / "docs" / "pictures"
PICTURES = {"stacks": "/stacks"}
SIZE = {"width": 1100, "height": 1240}
QUIETLY = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--force-color-profile=srgb",
    "--font-render-hinting=none",
]


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """Serve a fresh demonstration; gives its address."""
    household = demo_household(path=folder / "demonstration.sqlite3", clock=SteppedClock(DEMO_MOMENT))
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.bind(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(create_app(household), log_level="warning", access_log=False))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    try:
        yield f"http://127.0.0.1:{listener.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join(timeout=30)


def take(address: str, where: Path, names: list[str]) -> None:
    """Take the pictures."""
    program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    where.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=QUIETLY)
        context = browser.new_context(
            viewport=SIZE, color_scheme="light", locale="en-GB", timezone_id="Europe/London",
            service_workers="block", reduced_motion="reduce",
        )  # fmt: skip
        page = context.new_page()
        for name in names:
            page.goto(address + PICTURES[name], wait_until="networkidle")
            path = where / f"{name}.png"
            page.screenshot(path=path, animations="disabled", caret="hide")
            print(f"{path}: {path.stat().st_size / 1000:.0f} kB")
        browser.close()


def main() -> None:
    """Take the pictures named on the command line, or all."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("names", nargs="*", help=f"which of {', '.join(PICTURES)}; all if left out")
    parser.add_argument("--into", type=Path, default=WHERE, help="folder for the pictures")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, serving(Path(folder)) as address:
        take(address, given.into, given.names or list(PICTURES))


if __name__ == "__main__":
    main()
