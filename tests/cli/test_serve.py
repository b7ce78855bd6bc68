"""The commands ``woodreeve serve`` and ``woodreeve demo``."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from tests.cli.conftest import Woodreeve


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.1.10", "example.org"])
def test_any_address_but_this_computers_own_is_refused(
    woodreeve: Woodreeve, hill_farm: str, host: str
) -> None:
    """Until there are accounts."""
    told = woodreeve("serve", "--host", host, "--port", "0", "--records", hill_farm).refused()
    assert "on this computer only" in told
    assert host in told


def test_a_port_that_is_taken_is_told(woodreeve: Woodreeve, hill_farm: str) -> None:
    """With what to do."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = str(taken.getsockname()[1])
        told = woodreeve("serve", "--port", port, "--records", hill_farm).refused()
        assert port in told
        assert "--port" in told
        assert port in woodreeve("demo", "--port", port).refused()


def test_without_a_holding_there_is_nothing_to_serve(woodreeve: Woodreeve, records: str) -> None:
    """The sentence says how to begin."""
    assert "holding blank" in woodreeve("serve", "--records", records).refused()


def test_the_demonstration_is_served_and_stops_when_told(tmp_path: Path) -> None:
    """A fresh process, its first page, and Ctrl+C."""
    process = subprocess.Popen(
        [sys.executable, "-c", "from woodreeve.cli.main import main; main()", "demo", "--port", "0"],
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
        env={**os.environ, "XDG_DATA_HOME": str(tmp_path), "PYTHONUNBUFFERED": "1"},
    )  # fmt: skip
    assert process.stdout is not None
    try:
        said = process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:\d+/", said)
        assert found, said + process.stdout.read()
        with urllib.request.urlopen(found.group(), timeout=60) as answer:
            assert b"Aldermoor" in answer.read()
    finally:
        process.send_signal(signal.SIGINT)
        rest = process.communicate(timeout=30)[0]
    assert process.returncode == 0, rest
    assert "Traceback" not in rest
    assert "has stopped" in rest
