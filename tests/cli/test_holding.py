"""The commands below ``woodreeve holding``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.cli.conftest import Woodreeve
from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_tree
from woodreeve.records.demo import demo_household
from woodreeve.web.app import create_app


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A description in a file."""
    path = tmp_path / "mill.toml"
    path.write_text('name = "mill" # by the stream\n\n[plant.boiler]\noutput_kw = "25 kW"\n', "utf-8")
    return path


def test_check_lists_every_fault_with_file_line_key_value_and_range(
    woodreeve: Woodreeve, tmp_path: Path
) -> None:
    """None hides another, and the end is 2."""
    path = tmp_path / "bad.toml"
    path.write_text(
        'name = "bad"\n'
        "[plant.boiler]\n"
        'output_kw = "25 kg"\n'
        "efficiency_net = 80\n"
        "filling_share = nan\n"
        "outputt_kw = 3\n"
        "[place]\n"
        'nation = "gondor"\n',
        encoding="utf-8",
    )
    ran = woodreeve("holding", "check", str(path))
    assert ran.code == 2
    told = ran.out.splitlines()
    assert len(told) == 5
    for line, key, value in (
        (3, "output_kw", "25 kg"),
        (4, "efficiency_net", "80"),
        (5, "filling_share", "nan"),
        (6, "outputt_kw", "did you mean output_kw"),
        (8, "nation", "gondor"),
    ):
        found = [one for one in told if one.startswith(f"{path}:{line}: ")]
        assert len(found) == 1, told
        assert key in found[0]
        assert value in found[0]
    assert any("between" in one for one in told)


def test_check_in_json_tells_the_same(woodreeve: Woodreeve, tmp_path: Path) -> None:
    """Each fault with its parts, and the end still 2."""
    path = tmp_path / "bad.toml"
    path.write_text('name = "bad"\n[house]\noccupants = -1\n', encoding="utf-8")
    ran = woodreeve("holding", "check", str(path), "--json")
    assert ran.code == 2
    (fault,) = json.loads(ran.out)
    assert (fault["path"], fault["line"], fault["serious"]) == ("house.occupants", 3, True)


def test_what_is_only_odd_does_not_stop(woodreeve: Woodreeve, tmp_path: Path) -> None:
    """It is told, and the file can be used."""
    path = tmp_path / "odd.toml"
    path.write_text('name = "odd"\n[plant.store]\ntanks = 2\n', encoding="utf-8")
    out = woodreeve("holding", "check", str(path)).ok().out
    assert f"{path}:" in out
    assert "odd: plant.store.arrangement" in out
    assert "can be used" in out


def test_a_blank_description_can_be_checked_and_loaded(woodreeve: Woodreeve, hill_farm: str) -> None:
    """As it is, from standard input too."""
    text = woodreeve("holding", "blank", "moor").ok().out
    assert "nothing wrong" in woodreeve("holding", "check", "-", stdin=text).ok().out
    assert "moor: version 1" in woodreeve("holding", "load", "-", "--records", hill_farm, stdin=text).ok().out
    assert "lower-case" in woodreeve("holding", "blank", "The Moor").refused()


def test_saved_text_comes_back_with_its_comments(woodreeve: Woodreeve, records: str, file: Path) -> None:
    """To a file and to standard output alike; a file that is there is not written over."""
    woodreeve("holding", "load", str(file), "--records", records).ok()
    out = woodreeve("holding", "save", "-", "--records", records).ok().out
    assert out.split("\n", 1)[1] == file.read_text("utf-8")
    assert "exists already" in woodreeve("holding", "save", str(file), "--records", records).refused()
    woodreeve("holding", "save", str(file), "--replace", "--records", records).ok()
    assert file.read_text("utf-8") == out


def test_a_saved_file_can_be_changed_and_loaded_again(woodreeve: Woodreeve, records: str, file: Path) -> None:
    """The version it was made from is known by its first line."""
    woodreeve("holding", "load", str(file), "--records", records).ok()
    woodreeve("holding", "save", str(file), "--replace", "--records", records).ok()
    file.write_text(file.read_text("utf-8").replace("25 kW", "30 kW"), "utf-8")
    assert "version 2" in woodreeve("holding", "load", str(file), "--records", records).ok().out
    kept = woodreeve("holding", "show", "--records", records, "--json").json()
    assert kept["version"] == 2
    assert "30 kW" in kept["document"]
    assert "as woodreeve saved it" not in kept["document"]


def test_a_stale_file_is_refused_and_both_texts_are_shown(
    woodreeve: Woodreeve, records: str, file: Path, tmp_path: Path
) -> None:
    """Nothing is changed; having seen it, the owner may insist."""
    woodreeve("holding", "load", str(file), "--records", records).ok()
    mine = tmp_path / "mine.toml"
    woodreeve("holding", "save", str(mine), "--records", records).ok()
    file.write_text(file.read_text("utf-8").replace("25 kW", "30 kW"), "utf-8")
    woodreeve("holding", "load", str(file), "--records", records).ok()
    mine.write_text(mine.read_text("utf-8").replace("25 kW", "20 kW"), "utf-8")
    ran = woodreeve("holding", "load", str(mine), "--records", records)
    assert ran.code == 2
    assert '-output_kw = "30 kW"' in ran.err
    assert '+output_kw = "20 kW"' in ran.err
    assert "nothing was changed" in ran.err
    assert woodreeve("holding", "show", "--records", records, "--json").json()["version"] == 2
    woodreeve("holding", "load", str(mine), "--records", records, "--based-on", "2").ok()
    assert "20 kW" in woodreeve("holding", "save", "-", "--records", records).ok().out


def test_loading_the_same_file_twice_makes_no_new_version(
    woodreeve: Woodreeve, records: str, file: Path
) -> None:
    """Nothing changed, nothing is kept."""
    for _ in range(2):
        assert "version 1" in woodreeve("holding", "load", str(file), "--records", records).ok().out
    assert len(woodreeve("holding", "versions", "--records", records, "--json").json()) == 1


def test_a_slip_keeps_its_date_and_a_change_gets_a_new_one(
    woodreeve: Woodreeve, records: str, file: Path
) -> None:
    """So that last winter is still reckoned with last winter's boiler."""
    woodreeve("holding", "load", str(file), "--since", "2024-05-01", "--records", records).ok()
    file.write_text(file.read_text("utf-8").replace("25 kW", "26 kW"), "utf-8")
    woodreeve("holding", "load", str(file), "--records", records).ok()
    file.write_text(file.read_text("utf-8").replace("26 kW", "40 kW"), "utf-8")
    woodreeve("holding", "load", str(file), "--since", "2025-06-01", "--records", records).ok()
    versions = woodreeve("holding", "versions", "--records", records, "--json").json()
    assert [one["valid_from"][:10] for one in versions] == ["2024-05-01", "2024-05-01", "2025-06-01"]
    assert [one["based_on"] for one in versions] == [None, 1, 2]
    for at, power in (("2025-01-01", "26"), ("2026-01-01", "40")):
        shown = woodreeve("holding", "show", "plant.boiler", "--at", at, "--records", records).ok().out
        assert f"{power} kW" in shown
    assert "2024-05-01" in woodreeve("holding", "versions", "--records", records).ok().out


def test_a_version_that_does_not_hold_now_is_told(woodreeve: Woodreeve, records: str, file: Path) -> None:
    """Whoever dates a change before one that is already there is told that the later one still holds."""
    woodreeve("holding", "load", str(file), "--since", "2025-05-01", "--records", records).ok()
    file.write_text(file.read_text("utf-8").replace("25 kW", "26 kW"), "utf-8")
    out = woodreeve("holding", "load", str(file), "--since", "2024-05-01", "--records", records).ok().out
    assert "Now version 1 holds" in out


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["load", "missing.toml"], "missing.toml cannot be read"),
        (["check", "missing.toml"], "missing.toml cannot be read"),
        (["show", "plant.boyler", "--demo"], "'plant.boyler' is not a known section"),
        (["save", "x.toml"], "There is no holding"),
    ],
)
def test_what_cannot_be_done_is_told_in_a_sentence(
    woodreeve: Woodreeve, arguments: list[str], part: str
) -> None:
    """And ends with 2."""
    assert part in woodreeve("holding", *arguments).refused()


def test_a_wrong_file_is_not_loaded(woodreeve: Woodreeve, records: str, file: Path) -> None:
    """It is checked first, and nothing is kept."""
    file.write_text(file.read_text("utf-8").replace("25 kW", "25 km"), "utf-8")
    assert f"{file}, line 4" in woodreeve("holding", "load", str(file), "--records", records).refused()
    assert "There is no holding" in woodreeve("holding", "show", "--records", records).refused()


def test_text_that_is_not_utf_8_is_told(woodreeve: Woodreeve, file: Path) -> None:
    """Not by a traceback."""
    file.write_bytes(b'name = "caf\xe9"\n')
    assert "not UTF-8" in woodreeve("holding", "check", str(file)).refused()


def test_show_in_json_is_what_the_resource_sends(woodreeve: Woodreeve, tmp_path: Path) -> None:
    """Name, version and document; the demonstration in a file is valid since its diary begins."""
    household = demo_household(path=tmp_path / "demonstration.sqlite3")
    sent = TestClient(create_app(household), base_url="http://127.0.0.1").get("/api/holding").json()
    told = woodreeve("holding", "show", "--demo", "--json").json()
    assert told.keys() == sent.keys()
    assert told["document"] == sent["document"] == demo_holding_text()
    path = str(tmp_path / "demonstration.sqlite3")
    own = woodreeve("holding", "show", "--records", path, "--at", "2026-01-13T17:00", "--json").json()
    assert own == sent


def test_fields_lists_each_field_of_the_description(woodreeve: Woodreeve) -> None:
    """With label, and a unit and range where it has them."""
    told = {one["path"]: one for one in woodreeve("holding", "fields", "--json").json()}
    single = [f for f in field_tree(Holding).walk() if f.path and f.kind not in ("section", "sections")]
    assert set(told) == {field.path for field in single}
    assert all(one["label"] for one in told.values())
    power = told["plant.boiler.output_kw"]
    assert power["unit"] == "kW"
    assert "between" in power["allowed"]
    assert "plant.boiler.output_kw" in woodreeve("holding", "fields").ok().out
