"""A terminal of 80 columns, and an owner's folders that are nobody else's."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.running import Ran, run

Woodreeve = Callable[..., Ran]


@pytest.fixture
def woodreeve(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Woodreeve:
    """The command, in folders of its own; ``stdin`` is what is piped into it."""
    for name in ("DATA", "CACHE", "CONFIG"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))
    monkeypatch.setenv("COLUMNS", "80")

    def call(*arguments: str, stdin: str = "") -> Ran:
        monkeypatch.setattr("sys.stdin", io.StringIO(stdin))
        return run(*arguments)

    return call


@pytest.fixture
def records(tmp_path: Path) -> str:
    """A records file that is not there yet."""
    return str(tmp_path / "own.sqlite3")


@pytest.fixture
def hill_farm(woodreeve: Woodreeve, records: str, tmp_path: Path) -> str:
    """Records with one holding, of which only name and time zone are known."""
    file = tmp_path / "hill-farm.toml"
    blank = woodreeve("holding", "blank", "hill-farm").ok().out
    assert '# zone = "unknown"' in blank
    file.write_text(blank.replace('# zone = "unknown"', 'zone = "Europe/London"', 1), encoding="utf-8")
    woodreeve("holding", "load", str(file), "--since", "2025-01-01", "--records", records).ok()
    return records
