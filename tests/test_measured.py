"""The tables of measured figures in the docs: none is older than its code without saying so."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from scripts import measured_tables
from studies.stamp import code_hash


def test_every_table_is_what_the_figures_and_the_code_give() -> None:
    """If this fails: run python -m scripts.measured_tables, or measure again."""
    assert [path.name for path in measured_tables.stale()] == []


@pytest.fixture
def probe(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[], str]:
    """A measured figure of a piece of code, in a folder of its own; gives the line under its table."""
    monkeypatch.setattr(measured_tables, "code_hash", lambda files: code_hash(files, tmp_path))
    code = tmp_path / "stove.py"
    code.write_text("heat = 1\n", encoding="utf-8")
    told = {"date": "2026-01-13", "code": {"files": ["*.py"], "hash": code_hash(["*.py"], tmp_path)}}
    (tmp_path / "probe.json").write_text(json.dumps(told), encoding="utf-8")
    return lambda: measured_tables.age("probe", measured_tables.read("probe", tmp_path))


def test_a_table_of_the_code_as_it_is_says_so(probe: Callable[[], str]) -> None:
    """With its day."""
    assert probe() == "Measured on 2026-01-13 with the code as it is."


def test_a_table_older_than_its_code_says_so(probe: Callable[[], str], tmp_path: Path) -> None:
    """One byte of the code is enough."""
    (tmp_path / "stove.py").write_text("heat = 2\n", encoding="utf-8")
    assert probe() == "Measured on 2026-01-13 with older code."


def test_a_table_whose_code_is_gone_is_older(probe: Callable[[], str], tmp_path: Path) -> None:
    """A file moved away is noticed, and so is one that came in."""
    (tmp_path / "flue.py").write_text("draught = 12\n", encoding="utf-8")
    assert probe() == "Measured on 2026-01-13 with older code."
    (tmp_path / "flue.py").unlink()
    (tmp_path / "stove.py").unlink()
    assert probe() == "Measured on 2026-01-13 with older code."


def test_a_file_that_does_not_tell_its_code_is_not_called_current(tmp_path: Path) -> None:
    """Nor older: nobody knows."""
    (tmp_path / "probe.json").write_text('{"date": "2026-01-13"}', encoding="utf-8")
    line = measured_tables.age("probe", measured_tables.read("probe", tmp_path))
    assert line == "Measured on 2026-01-13; the file does not tell with which code."


def test_every_measured_file_is_listed() -> None:
    """With the line that tells its day."""
    text = measured_tables.listing()
    for path in measured_tables.MEASURED.glob("*.json"):
        line = next(line for line in text.splitlines() if f"`{path.name}`" in line)
        assert measured_tables.age(path.stem, measured_tables.read(path.stem)) in line


def test_a_page_without_its_line_does_not_pass(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The check itself can fail: a line taken out, a figure changed by hand, a page missing."""
    monkeypatch.setattr(measured_tables, "TABLES", tmp_path)
    made = measured_tables.pages()
    for path, text in made.items():
        path.write_text(text, encoding="utf-8")
    assert measured_tables.stale() == []
    page = tmp_path / "typical_year.md"
    lines = page.read_text(encoding="utf-8").splitlines(keepends=True)
    page.write_text("".join(line for line in lines if not line.startswith("Measured on")), encoding="utf-8")
    assert measured_tables.stale() == [page]
    page.unlink()
    assert measured_tables.stale() == [page]
