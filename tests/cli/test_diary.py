"""The commands below ``woodreeve diary``."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.cli.conftest import Woodreeve
from woodreeve.diary.kinds import KINDS
from woodreeve.records.demo import demo_household
from woodreeve.records.store import Records
from woodreeve.web.app import create_app


def payloads(records: str) -> list[dict[str, Any]]:
    """What the entries say, in the order in which things happened."""
    with Records.open(records) as opened:
        return [dict(entry.payload) for entry in opened.entries("hill-farm")]


@pytest.mark.parametrize(
    ("words", "payload"),
    [
        (
            ["measured", "place=gable", "shown_percent=18 19 21", "meter=pin meter"],
            {"place": "gable", "shown_percent": [18.0, 19.0, 21.0], "meter": "pin meter"},
        ),
        (["measured", "place=gable", "shown_percent=18 %, 19.5 %"], {"shown_percent": [18.0, 19.5]}),
        (
            ["counted", "place=gable", "rows=3.2x1.8x33 2.9 m"],
            None,
        ),
        (
            ["counted", "place=gable", "rows=3.2x1.8x33, 2.9x1.8x33"],
            {
                "rows": [
                    {"length_m": 3.2, "height_m": 1.8, "log_cm": 33.0},
                    {"length_m": 2.9, "height_m": 1.8, "log_cm": 33.0},
                ]
            },
        ),
        (["counted", "place=gable", "rows=3.2x180cmx0.33m"], {"rows": [
            {"length_m": 3.2, "height_m": 1.8, "log_cm": 33.0}]}),
        (["counted", "place=gable", "nothing_left=yes"], {"nothing_left": True}),
        (
            ["weighed", "container=barrow", "gross_kg=0.045 t", "empty_kg=11", "moisture=20 %"],
            {"gross_kg": 45.0, "empty_kg": 11.0, "moisture": 0.2},
        ),
        (
            ["stacked", "place=gable", "stacked_m3=2", "mix=ash 60 %, silver birch 40 %"],
            {"mix": {"ash": 0.6, "silver_birch": 0.4}},
        ),
        (["stacked", "place=gable", "stacked_m3=2", "split_on=2025-03-01"], {"split_on": "2025-03-01"}),
        (["lit", "count=1.5", "container=barrow"], {"count": 1.5}),
        (["measured", "place=gable", "shown_percent=[18, 19]"], {"shown_percent": [18, 19]}),
    ],
)  # fmt: skip
def test_values_are_read_as_a_person_writes_them(
    woodreeve: Woodreeve, hill_farm: str, words: list[str], payload: dict[str, Any] | None
) -> None:
    """With and without units, lists by blanks or commas, rows joined by x."""
    ran = woodreeve("diary", "add", *words, "--records", hill_farm)
    if payload is None:
        assert "3.2x1.8x33" in ran.refused()
        assert payloads(hill_farm) == []
        return
    ran.ok()
    (told,) = payloads(hill_farm)
    for key, value in payload.items():
        assert told[key] == pytest.approx(value) if isinstance(value, float) else told[key] == value


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        (["weighed", "gross_kg=45", "moisture=20"], ["moisture is 20", "write 20 % with its sign"]),
        (["weighed", "gross_kg=45", "moisture=1.4"], ["moisture is 1.4", "between 0 and 0.7"]),
        (["weighed", "container=barrow", "gross_kg=nan"], ["gross_kg", "nan"]),
        (["weighed", "container=barrow", "gross_kg=45 m"], ["gross_kg", "45 m", "kg"]),
        (["weighed", "container=barrow"], ["gross_kg is missing"]),
        (["weighed", "barrow"], ["barrow", "name=value"]),
        (["weighed", "container=a", "container=b"], ["container", "given once"]),
        (["weighed", "contayner=barrow"], ["contayner", "did you mean container"]),
        (["wieghed"], ["'wieghed' is not a known kind of entry", "weighed"]),
        (["counted", "place=gable", "nothing_left=perhaps"], ["nothing_left", "yes or no"]),
        (["counted", "place=gable", "rows=long"], ["rows", "3.2x1.8x33"]),
        (["measured", "place=gable", "oven=412"], ["oven", "before [g] x after [g]", "412x233.8"]),
        (["stacked", "place=gable", "mix=ash"], ["mix", "ash 60 %"]),
        (["measured", "place=gable", "shown_percent={"], ["shown_percent", "JSON"]),
        (["lit", "--when", "yesterday"], ["--when is 'yesterday'"]),
    ],
)  # fmt: skip
def test_a_wrong_value_is_told_and_nothing_is_kept(
    woodreeve: Woodreeve, hill_farm: str, words: list[str], parts: list[str]
) -> None:
    """In one sentence that names field and value."""
    told = woodreeve("diary", "add", *words, "--records", hill_farm).refused()
    assert all(part in told for part in parts), told
    assert payloads(hill_farm) == []


def test_when_it_happened_is_in_the_zone_of_the_place(woodreeve: Woodreeve, hill_farm: str) -> None:
    """Unless an offset is given; without --when it is now."""
    for when in ("2025-07-01T10:00", "2025-07-01T10:00+00:00"):
        woodreeve("diary", "add", "note", "text=x", "--when", when, "--records", hill_farm).ok()
    woodreeve("diary", "add", "note", "text=now", "--by", "Mair", "--records", hill_farm).ok()
    with Records.open(hill_farm) as opened:
        entries = opened.entries("hill-farm")
    moments = [entry.happened.isoformat() for entry in entries]
    assert moments[:2] == ["2025-07-01T10:00:00+01:00", "2025-07-01T10:00:00+00:00"]
    assert [entry.by for entry in entries] == ["owner", "owner", "Mair"]
    assert abs((entries[2].happened - entries[2].entered).total_seconds()) < 1.0


def added(woodreeve: Woodreeve, records: str, *words: str) -> str:
    """Add an entry; its id."""
    outcome = woodreeve("diary", "add", *words, "--records", records, "--json").json()
    assert [one["state"] for one in outcome["results"]] == ["kept"]
    return str(outcome["results"][0]["id"])


def test_an_entry_is_put_right_struck_out_and_restored(woodreeve: Woodreeve, hill_farm: str) -> None:
    """Fields that are not named stay; each correction has seen those before it, so nothing is left to ask."""
    entry = added(woodreeve, hill_farm, "sold", "place=gable", "stacked_m3=15", "customer=Old Chapel")
    woodreeve("diary", "fix", entry[:8], "stacked_m3=1.5", "--records", hill_farm).ok()
    assert payloads(hill_farm)[-1]["payload"] == {
        "place": "gable",
        "stacked_m3": 1.5,
        "customer": "Old Chapel",
    }
    woodreeve("diary", "fix", entry[:8], "customer=", "price=40", "--records", hill_farm).ok()
    assert payloads(hill_farm)[-1]["payload"] == {"place": "gable", "stacked_m3": 1.5, "price": 40.0}
    woodreeve("diary", "strike", entry[:8], "--records", hill_farm).ok()
    assert "struck out since" in woodreeve("diary", "list", "--records", hill_farm).ok().out
    woodreeve("diary", "fix", entry[:8], "stacked_m3=2", "--records", hill_farm).ok()
    listed = woodreeve("diary", "list", "--records", hill_farm, "--json").json()
    assert "put right since" in woodreeve("diary", "list", "--records", hill_farm).ok().out
    assert not [one for one in listed["findings"] if one["kind"] == "two_corrections"]
    assert listed["count"] == 5


def test_the_day_of_an_entry_can_be_put_right(woodreeve: Woodreeve, hill_farm: str) -> None:
    """With --when."""
    entry = added(woodreeve, hill_farm, "note", "text=slipped")
    woodreeve("diary", "fix", entry, "--when", "2025-02-03T08:00", "--records", hill_farm).ok()
    assert payloads(hill_farm)[-1]["happened"] == "2025-02-03T08:00:00+00:00"


def test_what_cannot_be_corrected_is_told(woodreeve: Woodreeve, hill_farm: str) -> None:
    """An unknown id, too short a one, a correction, a wrong value."""
    entry = added(woodreeve, hill_farm, "weighed", "container=barrow", "gross_kg=45")
    assert "not a known entry" in woodreeve("diary", "strike", "ffffffff", "--records", hill_farm).refused()
    assert "too short" in woodreeve("diary", "strike", entry[:2], "--records", hill_farm).refused()
    told = woodreeve("diary", "fix", entry, "moisture=1.4", "--records", hill_farm).refused()
    assert "between 0 and 0.7" in told
    outcome = woodreeve("diary", "strike", entry, "--records", hill_farm, "--json").json()
    correction = outcome["results"][0]["id"]
    told = woodreeve("diary", "strike", correction, "--records", hill_farm).refused()
    assert entry[:8] in told


def test_the_list_is_chosen_by_kind_day_and_number(woodreeve: Woodreeve) -> None:
    """The newest first."""
    listed = woodreeve("diary", "list", "--demo", "--kind", "swept", "--most", "0", "--json").json()
    assert [one["kind"] for one in listed["entries"]] == ["swept", "swept"]
    assert listed["entries"][0]["happened"] > listed["entries"][1]["happened"]
    listed = woodreeve("diary", "list", "--demo", "--since", "2026-01-10", "--json").json()
    assert listed["entries"]
    assert min(one["happened"] for one in listed["entries"]) >= "2026-01-10"
    out = woodreeve("diary", "list", "--demo", "--most", "3").ok().out
    assert f"and {listed['count'] - 3} more" in out
    assert (
        "'sweeped' is not a known kind" in woodreeve("diary", "list", "--demo", "--kind", "sweeped").refused()
    )


def test_the_list_in_json_is_what_the_resource_sends(woodreeve: Woodreeve, tmp_path: Path) -> None:
    """Sentence, entries and findings."""
    household = demo_household(path=tmp_path / "demonstration.sqlite3")
    sent = TestClient(create_app(household), base_url="http://127.0.0.1").get("/api/diary?most=40").json()
    assert woodreeve("diary", "list", "--demo", "--most", "40", "--json").json() == sent


def test_an_export_taken_in_elsewhere_is_the_same_diary(
    woodreeve: Woodreeve, hill_farm: str, tmp_path: Path
) -> None:
    """And taking it in again changes nothing."""
    entry = added(woodreeve, hill_farm, "weighed", "container=Körbchen", "gross_kg=45")
    woodreeve("diary", "strike", entry, "--records", hill_farm).ok()
    file = tmp_path / "diary.jsonl"
    woodreeve("diary", "export", str(file), "--records", hill_farm).ok()
    assert len(file.read_text("utf-8").splitlines()) == 2
    assert "exists already" in woodreeve("diary", "export", str(file), "--records", hill_farm).refused()
    other = str(tmp_path / "other.sqlite3")
    text = woodreeve("holding", "save", "-", "--records", hill_farm).ok().out
    woodreeve("holding", "load", "-", "--records", other, stdin=text).ok()
    assert "2 entries: 2 new." in woodreeve("diary", "import", str(file), "--records", other).ok().out
    again = woodreeve("diary", "import", str(file), "--records", other, "--json").json()
    assert [one["state"] for one in again["results"]] == ["known", "known"]
    exports = [woodreeve("diary", "export", "-", "--records", path).ok().out for path in (hill_farm, other)]
    assert exports[0] == exports[1] == file.read_text("utf-8")


def test_a_long_import_is_taken_in_whole(woodreeve: Woodreeve, hill_farm: str, tmp_path: Path) -> None:
    """In several batches, with a bar that leaves no trace in the output."""
    added(woodreeve, hill_farm, "note", "text=first")
    line = json.loads(woodreeve("diary", "export", "-", "--records", hill_farm).ok().out)
    lines = [json.dumps({**line, "id": f"{number:032x}"}) for number in range(2_100)]
    file = tmp_path / "long.jsonl"
    file.write_text("\n".join(lines), "utf-8")
    assert (
        "2100 entries: 2100 new." in woodreeve("diary", "import", str(file), "--records", hill_farm).ok().out
    )


def test_what_is_no_entry_is_told_with_its_line_or_id(
    woodreeve: Woodreeve, hill_farm: str, tmp_path: Path
) -> None:
    """A line that is no JSON stops all; an entry of another holding is refused, and the others are kept."""
    added(woodreeve, hill_farm, "note", "text=first")
    line = json.loads(woodreeve("diary", "export", "-", "--records", hill_farm).ok().out)
    file = tmp_path / "some.jsonl"
    file.write_text(json.dumps({**line, "id": "a" * 32}) + "\nnot json\n", "utf-8")
    assert "some.jsonl:2" in woodreeve("diary", "import", str(file), "--records", hill_farm).refused()
    assert len(payloads(hill_farm)) == 1
    strange = {**line, "id": "b" * 32, "holding": "mill"}
    file.write_text(f"{json.dumps({**line, 'id': 'a' * 32})}\n{json.dumps(strange)}\n", "utf-8")
    ran = woodreeve("diary", "import", str(file), "--records", hill_farm)
    assert ran.code == 2
    assert "1 new, 1 refused" in ran.out
    assert "'mill'" in ran.err
    assert len(payloads(hill_farm)) == 2


def test_an_entry_that_contradicts_another_is_told(
    woodreeve: Woodreeve, hill_farm: str, tmp_path: Path
) -> None:
    """Both are kept."""
    added(woodreeve, hill_farm, "note", "text=first")
    line = json.loads(woodreeve("diary", "export", "-", "--records", hill_farm).ok().out)
    file = tmp_path / "other.jsonl"
    file.write_text(json.dumps({**line, "payload": {"text": "second"}}), "utf-8")
    ran = woodreeve("diary", "import", str(file), "--records", hill_farm).ok()
    assert "1 kept apart" in ran.out
    assert "both are kept" in ran.err


def test_every_kind_and_its_fields_are_listed(woodreeve: Woodreeve) -> None:
    """But for corrections, which fix and strike make."""
    told = woodreeve("diary", "kinds", "--json").json()
    assert {one["kind"] for one in told} == set(KINDS) - {"correction"}
    assert all(one["name"] and one["summary"] for one in told)
    fields = {one["name"]: one for one in woodreeve("diary", "kinds", "measured", "--json").json()}
    assert fields["place"]["required"]
    assert fields["shown_percent"]["unit"] == "%"
    assert "wood temperature" in woodreeve("diary", "kinds", "measured").ok().out.lower()
    assert "measured" in woodreeve("diary", "kinds").ok().out
    assert "not a known kind" in woodreeve("diary", "kinds", "mesured").refused()
