"""Start the demo as an owner would, fetch the first page and all that it loads, and stop.

Usage: python try_served.py PROGRAM [ARGUMENT ...], where the program prints its address.
"""

import re
import signal
import subprocess
import sys
import threading
import urllib.error
import urllib.request
from html.parser import HTMLParser
from queue import Empty, Queue
from urllib.parse import urljoin

SPEAKS_WITHIN_S = 60.0
ADDRESS = re.compile(r"http://(?:127\.0\.0\.1|localhost|\[::1\]):\d+/?")


class Parts(HTMLParser):
    """Collects what a page loads by itself: scripts, styles, pictures, icons."""

    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at one tag."""
        known = dict(attrs)
        if tag in {"script", "img", "source"}:
            self.addresses += [known.get("src") or known.get("srcset") or ""]
        elif tag == "link":
            self.addresses += [known.get("href") or ""]


def address_from(process: "subprocess.Popen[str]") -> str:
    """Wait for the program to say where it listens."""
    said: Queue[str | None] = Queue()
    assert process.stdout is not None

    def listen() -> None:
        for line in process.stdout or ():
            said.put(line)
        said.put(None)

    threading.Thread(target=listen, daemon=True).start()
    heard = ""
    while True:
        try:
            line = said.get(timeout=SPEAKS_WITHIN_S)
        except Empty:
            raise SystemExit(f"no address within {SPEAKS_WITHIN_S:.0f} s, but: {heard!r}") from None
        if line is None:
            raise SystemExit(f"it ended before it gave an address, and said: {heard!r}")
        heard += line
        if match := ADDRESS.search(heard):
            return match.group()


def fetch(address: str) -> bytes:
    """Get one resource, waiting a little for the server to open."""
    for _ in range(100):
        try:
            with urllib.request.urlopen(address, timeout=30) as answer:
                body: bytes = answer.read()
                return body
        except urllib.error.HTTPError as fault:
            raise SystemExit(f"{address}: {fault}") from None
        except urllib.error.URLError:
            threading.Event().wait(0.2)
    raise SystemExit(f"{address}: nobody answers")


def main() -> None:
    """Run, fetch, stop."""
    process = subprocess.Popen(sys.argv[1:], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    try:
        address = address_from(process)
        page = fetch(address)
        parts = Parts()
        parts.feed(page.decode())
        loaded = sorted({urljoin(address, part) for part in parts.addresses if part})
        foreign = [part for part in loaded if not part.startswith(address.rstrip("/"))]
        if foreign:
            raise SystemExit(f"the page loads from elsewhere: {foreign}")
        if not loaded:
            raise SystemExit("the page loads no style and no script at all")
        total = len(page) + sum(len(fetch(part)) for part in loaded)
        print(f"  {address} and the {len(loaded)} things it loads, {total / 1000:.0f} kB")
    finally:
        process.send_signal(signal.SIGINT)
        try:
            process.wait(timeout=15)
        except subprocess.TimeoutExpired:
            process.kill()
            raise SystemExit("the server did not stop when asked") from None


if __name__ == "__main__":
    main()
