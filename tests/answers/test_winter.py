"""How much wood the winters take, and whether it is there and dry."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from tests.answers.demo import demo, plain
from woodreeve.answers import winter
from woodreeve.holding.demo import DEMO_MOMENT, DEMO_NAME, demo_entries, demo_holding_text
from woodreeve.records.asking import Asking
from woodreeve.records.demo import demo_household

LONDON = ZoneInfo("Europe/London")
EMPTY = 'name = "empty"\n'
CLIMATE = """
[climate.normals]
temperature_c = [3.1, 3.2, 4.8, 6.9, 9.9, 12.6, 14.4, 14.2, 12.1, 9.0, 5.8, 3.6]
"""


def at(text: str) -> datetime:
    """A moment on the clock of the demo."""
    return datetime.fromisoformat(text).replace(tzinfo=LONDON)


def test_months_add_up_to_the_year() -> None:
    """Heat, weight and volume alike."""
    answer = winter.answer(demo())
    assert answer.next is not None
    assert len(answer.months) == 12
    for field in ("heat_kwh", "wood_t", "wood_stacked_m3"):
        months = sum(getattr(month, field).value for month in answer.months)
        assert months == pytest.approx(getattr(answer.next, field).value, rel=1e-9)
    for month in answer.months:
        parts = month.space_heat_kwh.value + month.hot_water_kwh.value
        assert 0.0 < parts < month.heat_kwh.value


def test_the_rest_of_a_winter_from_the_first_of_a_month_is_its_months() -> None:
    """From the first of March: March, April, May and June."""
    answer = winter.answer(demo(at("2026-03-01T00:00")))
    assert answer.rest is not None
    spring = sum(month.heat_kwh.value for month in answer.months[8:])
    assert answer.rest.heat_kwh.value == pytest.approx(spring, rel=1e-9)


@pytest.mark.parametrize(
    ("moment", "ends", "share"),
    [
        ("2025-07-01T00:00", "2026-06-30", 1.0),
        ("2025-07-01T12:00", "2026-06-30", 1.0),
        ("2025-12-31T23:59", "2026-06-30", 0.6),
        ("2026-06-30T23:30", "2026-06-30", 0.0),
        ("2028-02-29T12:00", "2028-06-30", 0.4),
        ("2028-12-31T12:00", "2029-06-30", 0.6),
    ],
)
def test_the_rest_of_a_winter_ends_with_june(moment: str, ends: str, share: float) -> None:
    """At its beginning it is a whole year, on its last evening next to nothing; a leap day breaks nothing."""
    answer = winter.answer(demo(at(moment)))
    assert answer.rest is not None
    assert answer.next is not None
    assert answer.rest.ends.isoformat() == ends
    assert answer.next.begins.isoformat() == f"{ends[:4]}-07-01"
    assert answer.rest.heat_kwh.value / answer.next.heat_kwh.value == pytest.approx(share, abs=0.1)


def test_a_leap_day_counts_as_the_first_of_march() -> None:
    """A usual year has 365 days."""
    leap = winter.answer(demo(at("2028-02-29T00:00")))
    march = winter.answer(demo(at("2028-03-01T00:00")))
    assert leap.rest is not None
    assert march.rest is not None
    assert leap.rest.heat_kwh.value == march.rest.heat_kwh.value


def test_time_only_ever_shortens_the_rest_of_a_winter() -> None:
    """Hour by hour."""
    left = [
        winter.answer(demo(at(moment))).rest
        for moment in ("2026-01-13T17:00", "2026-01-13T18:00", "2026-02-01T00:00", "2026-05-31T05:00")
    ]
    heats = [one.heat_kwh.value for one in left if one is not None]
    assert heats == sorted(heats, reverse=True)
    assert len(set(heats)) == 4


def test_before_the_first_entry_there_is_no_wood() -> None:
    """The need is told all the same."""
    answer = winter.answer(demo(at("2020-01-01T12:00")))
    assert answer.sentence.key == "winter.no_wood"
    assert answer.stock_stacked_m3.value == 0.0
    assert answer.next is not None
    assert answer.next.wood_stacked_m3.value > 0.0
    assert answer.cover is not None
    assert answer.cover.value == 0.0


def test_cover_is_stock_over_need() -> None:
    """Of all split wood, and of that which is dry."""
    answer = winter.answer(demo())
    assert answer.next is not None
    assert answer.cover is not None
    assert answer.dry_cover is not None
    year = answer.next.heat_kwh.value / answer.efficiency.value
    assert answer.cover.value == pytest.approx(answer.stock_heat_kwh.value / year, rel=1e-6)
    assert answer.dry_cover.value == pytest.approx(answer.dry_heat_kwh.value / year, rel=1e-6)
    assert answer.dry_share.value == pytest.approx(
        answer.dry_heat_kwh.value / answer.stock_heat_kwh.value, rel=1e-6
    )


def test_every_range_holds_its_figure() -> None:
    """From low to high."""
    from woodreeve.workings import Figure
    from woodreeve.workings.why import figures_of

    ranged = 0
    for path, one in figures_of(winter.answer(demo())):
        if isinstance(one, Figure) and one.low is not None and one.high is not None:
            ranged += 1
            assert one.low <= one.value <= one.high, path
    assert ranged > 40


def test_of_an_unknown_house_it_says_what_is_missing_and_still_tells_the_stock() -> None:
    """Nothing is invented."""
    text = demo_holding_text()
    before, _, after = text.partition("[climate]")
    answer = winter.answer(demo(text=before + after[after.index("[house]") :]))
    assert answer.sentence.key == "winter.unknown"
    assert "usual weather is not known" in str(answer.sentence.values["missing"])
    assert answer.rest is answer.next is answer.cover is None
    assert answer.months == ()
    assert answer.stock_stacked_m3 == winter.answer(demo()).stock_stacked_m3
    assert [way.year_kwh for way in answer.ways] == [None, None]


def test_an_empty_holding_gets_a_sentence() -> None:
    """Of a place of which only the name is known."""
    answer = winter.answer(Asking(EMPTY, DEMO_MOMENT))
    assert answer.sentence.key == "winter.unknown"
    assert answer.stock_stacked_m3.value == 0.0


FUEL = """
[[house.past_fuel]]
fuel = "gas_oil"
amount = 3000.0
first_day = 2022-10-01
last_day = 2023-09-30
efficiency = "80 %"
basis = "net"
"""
ZONE = """
[[house.zones]]
name = "all"
floor_area_m2 = 150.0
"""


def test_past_fuel_alone_asks_for_the_floor_area() -> None:
    """It is said what is missing; no figure comes from nowhere."""
    answer = winter.answer(Asking(EMPTY + CLIMATE + FUEL, DEMO_MOMENT))
    assert answer.sentence.key == "winter.unknown"
    assert "floor area" in str(answer.sentence.values["missing"])


def test_past_fuel_and_a_floor_area_are_enough() -> None:
    """3,000 litres of gas oil at 10 kWh (rule of thumb, from memory) and 80 % are 24 MWh, boiler's side."""
    answer = winter.answer(Asking(EMPTY + CLIMATE + ZONE + FUEL, DEMO_MOMENT))
    fuel = next(way for way in answer.ways if way.key == "past_fuel")
    assert fuel.used
    assert fuel.year_kwh is not None
    assert fuel.year_kwh.value == pytest.approx(24_000.0, rel=0.1)


def test_past_fuel_that_tells_too_little_leaves_the_other_way() -> None:
    """One delivery of two months is no measure; the reason stands beside the way."""
    short = FUEL.replace("2023-09-30", "2022-12-01")
    answer = winter.answer(Asking(EMPTY + CLIMATE + ZONE + short, DEMO_MOMENT))
    fabric, fuel = answer.ways
    assert fabric.year_kwh is not None
    assert fabric.used
    assert fuel.year_kwh is None
    assert "days" in fuel.missing
    assert answer.next is not None


def test_forgetting_remembered_answers_changes_no_figure(tmp_path: object) -> None:
    """Memory is only for speed; a new entry makes an answer new."""
    household = demo_household(path=tmp_path / "demonstration.sqlite3")  # type: ignore[operator]  # a path
    first = household.remembered(winter.answer, household.ask())
    assert household.remembered(winter.answer, household.ask()) is first
    household._remembered.clear()
    again = household.remembered(winter.answer, household.ask())
    assert again is not first
    assert plain(again) == plain(first)
    burnt = {
        "id": "ab" * 16,
        "kind": "spoiled",
        "form": 1,
        "happened": "2026-01-13T12:00:00+00:00",
        "entered": "2026-01-13T12:00:00+00:00",
        "by": "Tom",
        "payload": {"place": "lean-to", "stacked_m3": 3.0, "why": "rotten"},
    }
    assert [one.state for one in household.add_entries([burnt])] == ["kept"]
    after = household.remembered(winter.answer, household.ask())
    assert after.stock_stacked_m3.value == pytest.approx(first.stock_stacked_m3.value - 3.0, abs=0.01)
    household.close()


def test_the_answer_follows_from_its_arguments_alone() -> None:
    """Two askings of the same give the same."""
    assert plain(winter.answer(demo())) == plain(winter.answer(demo()))
    assert {entry.holding for entry in demo_entries()} == {DEMO_NAME}
