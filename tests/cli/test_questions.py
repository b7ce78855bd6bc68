"""The commands winter, stacks, plant, upkeep and why."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.cli.conftest import Woodreeve
from woodreeve.holding.demo import demo_holding_text
from woodreeve.records.demo import demo_household
from woodreeve.web.app import create_app


@pytest.fixture
def api(tmp_path: Path) -> TestClient:
    """The JSON resources on the demonstration."""
    household = demo_household(path=tmp_path / "demonstration.sqlite3")
    return TestClient(create_app(household), base_url="http://127.0.0.1")


@pytest.mark.parametrize("question", ["winter", "stacks", "plant", "upkeep"])
def test_json_is_what_the_resource_sends(woodreeve: Woodreeve, api: TestClient, question: str) -> None:
    """Page, command and resource give the same answer."""
    assert woodreeve(question, "--demo", "--json").json() == api.get(f"/api/{question}").json()


@pytest.mark.parametrize(
    ("question", "field"),
    [
        ("winter", "cover"),
        ("stacks", "stacks.0.heat_kwh"),
        ("plant", "loads.room_kwh"),
        ("upkeep", "ash.litres"),
    ],
)
def test_an_opened_figure_is_what_the_resource_sends(
    woodreeve: Woodreeve, api: TestClient, question: str, field: str
) -> None:
    """Step by step."""
    sent = api.get(f"/api/{question}/why/{field}").json()
    assert woodreeve("why", question, field, "--demo", "--json").json() == sent
    assert len(sent["steps"]) > 1


@pytest.mark.parametrize(
    "arguments",
    [
        ["winter"],
        ["stacks"],
        ["plant"],
        ["upkeep"],
        ["winter", "--at", "2025-02-01"],
        ["why", "winter", "cover"],
        ["why", "stacks"],
        ["diary", "list"],
        ["holding", "show"],
        ["holding", "show", "plant.boiler"],
    ],
)
def test_nothing_is_wider_than_the_terminal(woodreeve: Woodreeve, arguments: list[str]) -> None:
    """Eighty columns do, and nothing is cut off with dots."""
    ran = woodreeve(*arguments, "--demo").ok()
    assert max(map(len, ran.out.splitlines())) <= 80
    assert "…" not in ran.out


def test_winter_opens_with_its_sentence_and_shows_every_month(woodreeve: Woodreeve) -> None:
    """In the order of a heating year."""
    out = woodreeve("winter", "--demo").ok().out
    assert out.startswith("The rest of this winter takes about ")
    months = re.findall(r"^([A-Z][a-z]{2,3}) (20\d\d) ", out, re.MULTILINE)
    assert "".join(month[0] for month, _ in months) == "JASONDJFMAMJ"
    assert [year for _, year in months] == ["2025"] * 6 + ["2026"] * 6


def test_stacks_are_listed_in_the_order_in_which_to_burn_them(woodreeve: Woodreeve) -> None:
    """With moisture and verdict."""
    out = woodreeve("stacks", "--demo").ok().out
    turns = re.findall(r"^(\d+)\. ", out, re.MULTILINE)
    count = len(woodreeve("stacks", "--demo", "--json").json()["stacks"])
    assert count >= 5
    assert turns[:count] == [str(number) for number in range(1, count + 1)]
    assert "too wet to" in out


def test_the_months_of_a_large_house_stand_under_one_unit(woodreeve: Woodreeve, tmp_path: Path) -> None:
    """A month of 25,000 kWh and one of 900 are shown alike, or the column could not be read."""
    text = demo_holding_text()
    for wall in ("52.0", "28.0", "83.0"):
        text = text.replace(f"area_m2 = {wall}", "area_m2 = 2000.0")
    before, _, after = text.partition("[[house.past_fuel]]")
    file = tmp_path / "large.toml"
    file.write_text(before + after[after.index("[plant]") :], encoding="utf-8")
    words = ("winter", "--from", str(file), "--at", "2026-01-13")
    months = woodreeve(*words, "--json").json()["months"]
    assert max(month["heat_kwh"]["value"] for month in months) > 20_000.0
    assert min(month["heat_kwh"]["value"] for month in months) < 20_000.0
    rows = woodreeve(*words).ok().out.splitlines()
    january = next(row for row in rows if row.startswith("Jan 2026")).split()
    july = next(row for row in rows if row.startswith("Jul 2025")).split()
    numbers = {row[0]: float(row[5].replace(",", "")) for row in (january, july)}
    exact = {month["month"][5:7]: month["heat_kwh"]["value"] for month in months}
    assert numbers["Jan"] / numbers["Jul"] == pytest.approx(exact["01"] / exact["07"], rel=0.15)


def test_why_without_a_field_lists_what_can_be_opened(woodreeve: Woodreeve) -> None:
    """And each name on the list can be."""
    listed = woodreeve("why", "stacks", "--demo", "--json").json()
    assert "stacks.0.moisture" in listed
    out = woodreeve("why", "stacks", "stacks.0.moisture", "--demo", "--steps", "0").ok().out
    assert "given by the owner" in out or "logged by the owner" in out
    assert "more steps" not in out
    assert (
        "more steps lie behind" in woodreeve("why", "stacks", "heat_kwh", "--demo", "--steps", "1").ok().out
    )


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["winter"], "There is no holding in these records yet"),
        (["winter", "--demo", "--at", "tomorrow"], "--at is 'tomorrow'"),
        (["winter", "--demo", "--from", "x.toml"], "one of the two"),
        (["winter", "--from", "missing.toml"], "missing.toml cannot be read"),
        (["winter", "--demo", "--weather", "missing.epw"], "missing.epw cannot be read"),
        (["why", "winter", "covr", "--demo"], "did you mean cover"),
        (["why", "sommer"], "'sommer' is not a known question"),
        (["stacks", "--records", "mysql://u@h/d"], "not in mysql"),
    ],
)
def test_a_question_that_cannot_be_asked_is_told_in_a_sentence(
    woodreeve: Woodreeve, arguments: list[str], part: str
) -> None:
    """And ends with 2."""
    assert part in woodreeve(*arguments).refused()


def test_a_file_that_is_no_weather_is_told_with_its_name(woodreeve: Woodreeve, tmp_path: Path) -> None:
    """Whatever is in it."""
    file = tmp_path / "notes.txt"
    file.write_text("not weather\n", encoding="utf-8")
    assert "notes.txt" in woodreeve("winter", "--demo", "--weather", str(file)).refused()


def test_a_wrong_holding_file_is_told_with_its_own_name(woodreeve: Woodreeve, tmp_path: Path) -> None:
    """And the line."""
    file = tmp_path / "mine.toml"
    file.write_text('name = "mine"\n\n[house]\noccupants = -3\n', encoding="utf-8")
    told = woodreeve("winter", "--from", str(file)).refused()
    assert "mine.toml, line 4" in told
    assert "occupants" in told


def test_with_two_holdings_one_must_be_named(woodreeve: Woodreeve, hill_farm: str, tmp_path: Path) -> None:
    """Both are offered."""
    file = tmp_path / "other.toml"
    file.write_text('name = "mill"\n', encoding="utf-8")
    woodreeve("holding", "load", str(file), "--records", hill_farm).ok()
    assert "hill-farm, mill" in woodreeve("stacks", "--records", hill_farm).refused()
    woodreeve("stacks", "--records", hill_farm, "--holding", "mill").ok()
    assert "did you mean mill" in woodreeve("stacks", "--records", hill_farm, "--holding", "mil").refused()
