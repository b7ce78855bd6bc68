"""One household as the questions see it: holding, diary and weather of one moment."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from woodreeve.errors import Unknown, UnknownName, Unreadable
from woodreeve.holding.demo import DEMO_MOMENT, DEMO_NAME, demo_entries, demo_holding_text
from woodreeve.records.asking import Asking
from woodreeve.records.demo import demo_household
from woodreeve.records.household import Household
from woodreeve.records.store import StaleHolding
from woodreeve.records.weather_files import read_weather
from woodreeve.workings.trace import Given

NOTE = {
    "id": "cd" * 16,
    "kind": "note",
    "form": 1,
    "happened": "2026-01-13T12:00:00+00:00",
    "entered": "2026-01-13T12:00:00+00:00",
    "by": "Tom",
    "payload": {"text": "first"},
}


@pytest.fixture
def household(tmp_path: Path) -> Iterator[Household]:
    """The demonstration in a file of its own."""
    one = demo_household(path=tmp_path / "demonstration.sqlite3")
    yield one
    one.close()


def test_the_demo_in_records_is_the_demo_in_memory(household: Household) -> None:
    """Holding, entries and moment."""
    asking = household.ask()
    assert asking.document == demo_holding_text()
    assert asking.entries == demo_entries()
    assert asking.moment == DEMO_MOMENT


def test_the_demo_starts_anew_unless_it_is_kept(tmp_path: Path) -> None:
    """What was noted is gone, or still there."""
    path = tmp_path / "demonstration.sqlite3"
    for fresh, noted in ((True, 0), (False, 1), (True, 0)):
        one = demo_household(path=path, fresh=fresh)
        assert len(one.ask().entries) == len(demo_entries()) + noted
        one.add_entries([NOTE])
        one.close()


def test_an_entry_without_a_holding_is_this_households(household: Household) -> None:
    """Sent twice it changes nothing; that of another holding is refused."""
    assert [one.state for one in household.add_entries([NOTE])] == ["kept"]
    assert [one.state for one in household.add_entries([NOTE])] == ["known"]
    assert [one.state for one in household.add_entries([{**NOTE, "holding": "mill"}])] == ["refused"]
    assert household.ask().entries[-1].holding == DEMO_NAME


def test_the_version_that_was_true_at_the_moment_is_used(household: Household) -> None:
    """A change counts from now on, a slip from the beginning."""
    document = demo_holding_text()
    slip = household.save(document.replace("occupants = 4.0", "occupants = 3.0"), based_on=1, is_change=False)
    change = household.save(slip.document.replace('"25 kW"', '"40 kW"'), based_on=2, is_change=True)
    assert household.ask().version == change.version == 3
    assert household.ask().holding.plant.boiler.output_kw == 40.0
    before = household.ask(DEMO_MOMENT - timedelta(days=1))
    assert before.version == slip.version
    assert before.holding.house.occupants == 3.0
    assert before.holding.plant.boiler.output_kw == 25.0
    with pytest.raises(StaleHolding):
        household.save(document, based_on=1, is_change=False)


def test_a_household_of_an_unknown_name_is_told(household: Household) -> None:
    """With what is there."""
    other = Household(household.records, "mill", clock=lambda: DEMO_MOMENT)
    with pytest.raises(UnknownName, match="mill"):
        other.ask()


def test_the_demos_own_store_on_the_telephone_is_never_the_owners(household: Household) -> None:
    """Even where both are called alike."""
    own = Household(household.records, DEMO_NAME, clock=lambda: DEMO_MOMENT)
    assert household.store_name != own.store_name


def test_an_answer_is_worked_out_once_until_something_changes(household: Household) -> None:
    """The minute, the diary and the description count; seconds do not."""
    calls: list[datetime] = []

    def count(asking: Asking) -> int:
        calls.append(asking.moment)
        return len(calls)

    assert household.remembered(count, household.ask()) == 1
    assert household.remembered(count, household.ask(DEMO_MOMENT + timedelta(seconds=40))) == 1
    assert household.remembered(count, household.ask(DEMO_MOMENT + timedelta(minutes=1))) == 2
    household.add_entries([NOTE])
    assert household.remembered(count, household.ask()) == 3
    household.save(f"{demo_holding_text()}\n# a remark\n", based_on=1, is_change=False)
    assert household.remembered(count, household.ask()) == 4


def test_only_so_many_answers_are_remembered(household: Household) -> None:
    """The oldest goes first."""
    from woodreeve.records.household import MOST_REMEMBERED

    first = household.ask()
    made = household.remembered(lambda _: object(), first)
    assert household.remembered(lambda _: object(), first) is made
    for minute in range(1, MOST_REMEMBERED + 1):
        household.remembered(lambda _: object(), household.ask(DEMO_MOMENT + timedelta(minutes=minute)))
    assert household.remembered(lambda _: object(), first) is not made


def test_moments_are_on_the_clock_of_the_place() -> None:
    """Whatever clock asks."""
    asking = Asking(demo_holding_text(), datetime(2026, 7, 1, 12, 0, tzinfo=UTC))
    assert asking.moment.hour == 13
    assert str(asking.zone) == "Europe/London"


def test_the_owners_measures_travel_with_the_question() -> None:
    """As the holding says."""
    assert Asking(demo_holding_text(), DEMO_MOMENT).measures["kWh"] == "kWh"
    other = demo_holding_text()
    for was, now in (('"C"', '"F"'), ('"kWh"', '"MJ"'), ('"stacked_m3"', '"cord"')):
        other = other.replace(was, now, 1)
    assert Asking(other, DEMO_MOMENT).measures == {"degC": "degF", "kWh": "MJ", "t": "t", "m3": "cord"}


def test_without_climate_or_file_the_weather_is_unknown() -> None:
    """It is said what to give."""
    with pytest.raises(Unknown, match="twelve monthly mean temperatures"):
        _ = Asking('name = "bare"\n', DEMO_MOMENT).weather


def test_the_diary_is_folded_up_to_the_moment() -> None:
    """Not beyond."""
    entries = demo_entries()
    early = Asking(demo_holding_text(), DEMO_MOMENT - timedelta(days=300), entries=entries).folded
    late = Asking(demo_holding_text(), DEMO_MOMENT, entries=entries).folded
    assert 0 < len(early.fires) < len(late.fires)


def test_under_a_trace_what_the_owner_gave_is_known_as_such() -> None:
    """A field that stands in the document, a default, an entry's number, and weather from a file."""
    plain = Asking(demo_holding_text(), DEMO_MOMENT, entries=demo_entries())
    file = Asking(plain.document, plain.moment, entries=plain.entries, weather=plain.weather)
    with file.traced() as fresh:
        from woodreeve.workings.trace import current_trace

        trace = current_trace()
        assert trace is not None

        def said(value: Any) -> Given:
            found = trace.node_behind(value)
            assert isinstance(found, Given)
            return found

        boiler = fresh.holding.plant.boiler
        assert said(boiler.efficiency_net).source == "given by the owner"
        assert said(boiler.efficiency_net).path == "holding.plant.boiler.efficiency_net"
        assert "default" in said(fresh.holding.plant.store.heating_out_height).source
        weighed = next(entry for entry in fresh.entries if entry.kind == "weighed")
        assert said(weighed.payload["gross_kg"]).source == "logged by the owner"
        assert said(fresh.weather.temperature_c).path.startswith("weather file")
    assert fresh is not file


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "cannot be read"),
        ("not weather at all\n", "cannot be read"),
        ("LOCATION,Nowhere\n1,2,3\n", "cannot be read"),
        ("{}", "cannot be read"),
        ("x" * 50 + "\n***\n1 2 3\n", "cannot be read"),
    ],
)
def test_what_is_no_weather_is_told_with_its_file(tmp_path: Path, text: str, part: str) -> None:
    """In one sentence, whatever form it seems to have."""
    path = tmp_path / "hills.txt"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable, match=r"hills\.txt") as told:
        read_weather(path)
    assert part in str(told.value)
    assert "\n" not in str(told.value)


def test_a_missing_weather_file_is_told(tmp_path: Path) -> None:
    """And a folder in its place."""
    with pytest.raises(Unreadable, match="cannot be read"):
        read_weather(tmp_path / "missing.epw")
    with pytest.raises(Unreadable, match="cannot be read"):
        read_weather(tmp_path)


def test_a_test_reference_year_and_a_plain_table_are_told_apart(tmp_path: Path) -> None:
    """By what is in them, not by the name."""
    with as_file(files("demandlib") / "vdi" / "resources_weather" / "TRY2010_05_Jahr.dat") as found:
        year = read_weather(found)
        renamed = tmp_path / "weather.csv"
        renamed.write_bytes(found.read_bytes())
    assert np.array_equal(read_weather(renamed).temperature_c, year.temperature_c)
    assert "Deutscher Wetterdienst" in year.source
