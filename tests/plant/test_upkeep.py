"""Due dates, ash by the wood burnt, and the data of upkeep."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.diary.folded import Use
from woodreeve.diary.payloads_plant import Checked, Fitted
from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.plant.upkeep import (
    due_after,
    due_after_days,
    due_by_season,
    first_fire_list_due,
    last_fire_list_due,
    part_due,
    sweep_interval,
)
from woodreeve.plant.upkeep_data import ash_rules, duties, lists, parts, tasks
from woodreeve.plant.upkeep_use import ash_of, burnt_since, fire_days_due, fire_hours_since

DAYS = st.dates(min_value=date(1990, 1, 1), max_value=date(2080, 12, 31))


def burning(days: int, kg: float = 40.0, begins: date = date(2025, 12, 1)) -> dict[date, Use]:
    """So many days of fire in a row."""
    one = Use(fires=1, logged_m3=0.1, solid_m3=0.1, dry_kg=0.8 * kg, mass_kg=kg)
    return {begins + timedelta(days=number): one for number in range(days)}


@pytest.mark.parametrize(
    ("last", "months", "due"),
    [
        (date(2025, 9, 12), 12.0, date(2026, 9, 12)),
        (date(2024, 2, 29), 12.0, date(2025, 2, 28)),
        (date(2025, 8, 31), 6.0, date(2026, 2, 28)),
        (date(2025, 12, 15), 1.5, date(2026, 1, 30)),
    ],
)
def test_months_are_counted_as_people_count_them(last: date, months: float, due: date) -> None:
    """The same day, or the last of the month."""
    assert due_after(last, months) == due


@given(DAYS, st.floats(min_value=0.5, max_value=60.0), st.floats(min_value=1.0, max_value=400.0))
def test_due_is_after_the_last_time_and_later_for_a_longer_interval(
    last: date, months: float, days: float
) -> None:
    """Whatever the day."""
    assert last < due_after(last, months) <= due_after(last, months + 1.0)
    assert due_after_days(last, days) - last == timedelta(days=round(days))


def test_burnt_wood_is_counted_from_the_day_after() -> None:
    """The ash went out on the second evening: that day's wood is in it."""
    use = burning(5)
    burnt = burnt_since(use, date(2025, 12, 2), date(2025, 12, 5))
    assert (burnt.mass_kg, burnt.fires, burnt.fire_days) == (120.0, 3, 3.0)
    assert burnt_since(use, None, date(2025, 12, 3)).mass_kg == 120.0
    assert burnt_since({}, None, date(2025, 12, 3)).mass_kg == 0.0


def test_six_hundred_kilograms_of_dry_wood_fill_a_bucket() -> None:
    """Half a per cent of clean ash, two and a half times that with bark and grit: 8 kg, 18 litres."""
    ash = ash_of(640.0)
    assert ash.mass_kg == pytest.approx(8.0)
    assert ash.litres == pytest.approx(17.8, abs=0.1)
    with pytest.raises(OutOfRange, match="dry_kg is -1"):
        ash_of(-1.0)


@given(st.floats(min_value=0.0, max_value=5000.0), st.floats(min_value=0.0, max_value=5000.0))
def test_ash_adds_up(first: float, second: float) -> None:
    """Two heaps make the ash of one."""
    both = ash_of(first + second).litres
    assert both == pytest.approx(ash_of(first).litres + ash_of(second).litres, abs=1e-9)


def test_cleaning_is_due_by_days_of_fire_not_by_the_calendar() -> None:
    """Fourteen fires: due on the day of the fourteenth; with fewer, so many days from now."""
    last, today = date(2025, 11, 30), date(2025, 12, 31)
    assert fire_days_due(burning(20), last, 14.0, today) == date(2025, 12, 14)
    assert fire_days_due(burning(10), last, 14.0, today) == today + timedelta(days=4)
    assert fire_days_due({}, last, 14.0, today) == today + timedelta(days=14)


@pytest.mark.parametrize(
    ("today", "done", "due"),
    [
        (date(2026, 1, 13), date(2025, 9, 27), date(2026, 9, 1)),
        (date(2026, 1, 13), None, date(2025, 9, 1)),
        (date(2025, 8, 13), date(2024, 9, 27), date(2025, 9, 1)),
        (date(2025, 10, 13), date(2024, 9, 27), date(2025, 9, 1)),
        (date(2025, 8, 20), date(2025, 8, 10), date(2026, 9, 1)),
        (date(2025, 6, 20), None, date(2025, 9, 1)),
    ],
)
def test_the_list_before_the_first_fire_belongs_to_its_autumn(
    today: date, done: date | None, due: date
) -> None:
    """Done in August counts; left out, it stays due through the winter."""
    assert first_fire_list_due(today, done) == due


def test_the_list_after_the_last_fire_belongs_to_its_spring() -> None:
    """Gone through at the end of April, it is due again a year later."""
    assert last_fire_list_due(date(2026, 1, 13), date(2025, 4, 30)) == date(2026, 6, 1)
    assert last_fire_list_due(date(2026, 7, 1), date(2025, 4, 30)) == date(2026, 6, 1)
    assert last_fire_list_due(date(2026, 7, 1), date(2026, 5, 2)) == date(2027, 6, 1)


@given(DAYS, st.integers(min_value=1, max_value=12), st.one_of(st.none(), DAYS))
def test_a_seasons_list_is_due_on_a_first_within_a_half_year_back_and_beyond(
    today: date, month: int, done: date | None
) -> None:
    """Never long past, never years ahead of what was done."""
    done = done if done is None or done <= today else today
    due = due_by_season(today, month, done)
    assert (due.day, due.month) == (1, month)
    assert due >= today - timedelta(days=184)
    assert due <= today + timedelta(days=366 + 61)


def test_the_sweep_comes_by_the_owners_word_the_nations_rule_or_once_a_year() -> None:
    """In this order."""
    on = date(2026, 1, 13)
    assert sweep_interval("wales", on) == 12.0
    assert sweep_interval("germany", on) == 6.0
    assert sweep_interval("germany", on, 3.0) == 3.0
    assert sweep_interval("other", on) == 12.0


def test_parts_are_looked_at_by_their_years() -> None:
    """A reminder, by the list of parts."""
    assert part_due("door_rope", date(2021, 9, 7)) == date(2026, 9, 7)
    with pytest.raises(UnknownName, match="did you mean door_rope"):
        part_due("door_rop", date(2021, 9, 7))
    assert fire_hours_since(burnt_since(burning(30), None, date(2026, 1, 13)), 4.0) == 120.0


def test_every_task_part_and_list_says_whence_it_is() -> None:
    """And parts and lists are ones that the diary can note."""
    assert all(one.source and one.why and one.what for one in tasks())
    assert len({one.key for one in tasks()}) == len(tasks())
    for part in parts():
        assert Fitted(part=part.key).part == part.key  # type: ignore[arg-type]  # checked by the kinds
    keys = {one.key for one in lists()}
    assert keys == {"before_lighting", "before_first_fire", "after_last_fire"}
    assert all(Checked(what=key) for key in keys)  # type: ignore[arg-type]  # as above
    assert all(one.words and one.source for one in ash_rules())


def test_duties_hold_in_their_nation_from_their_day_on() -> None:
    """Germany measures every second year; elsewhere no duty is made up."""
    assert any("every second year" in one.words for one in duties("germany", date(2026, 1, 13)))
    assert duties("scotland", date(2022, 1, 31)) == ()
    assert len(duties("scotland", date(2022, 2, 1))) == 1
    assert duties("other", date(2026, 1, 13)) == ()
