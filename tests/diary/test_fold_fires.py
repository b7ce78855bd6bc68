"""Wood burnt: by the fire, by the week, as usual, and never written down at all."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tests.diary.making import BEGIN, Diary, kinds_found
from woodreeve.diary.amounts import ContainerSize
from woodreeve.diary.fold import fold
from woodreeve.diary.quiet import quiet_days
from woodreeve.wood import measure


def day(number: int) -> date:
    """The date of a day of the diary."""
    return (BEGIN + timedelta(days=number)).date()


def stocked() -> Diary:
    """A stack of 20 solid cubic metres of ash, two of them in the boiler room."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=20, log_cm=50)
    diary.add(0.1, "brought_in", from_place="gable", solid_m3=2)
    return diary


def test_a_fire_takes_its_wood_from_the_boiler_room() -> None:
    """And is kept with volume and weight."""
    diary = stocked()
    diary.add(1, "lit", solid_m3=0.1, moisture=0.18)
    diary.add(1.1, "refilled", mass_kg=30, moisture=0.18)
    folded = fold(diary.entries)
    lit, refilled = folded.fires
    assert (lit.kind, lit.place, lit.solid_m3) == ("lit", "boiler room", 0.1)
    assert lit.mass_kg == pytest.approx(measure.mass_of_solid("ash", 0.1, 0.18))
    assert refilled.mass_kg == pytest.approx(30)
    assert folded.boiler_room is not None
    used = folded.use_by_day[day(1)]
    assert (used.fires, used.logged_m3) == (1, pytest.approx(0.1 + measure.solid_of_mass("ash", 30.0, 0.18)))
    assert folded.boiler_room.solid_m3 == pytest.approx(2 - used.logged_m3)


def test_a_fire_without_an_amount_is_still_a_fire() -> None:
    """One tap is better than nothing."""
    diary = stocked()
    diary.add(1, "lit")
    folded = fold(diary.entries)
    assert folded.fires[0].solid_m3 is None
    assert folded.use_by_day[day(1)].fires == 1
    assert folded.burning_told_until == day(1)


def test_burning_more_than_there_is_is_a_finding() -> None:
    """Somebody brought wood in and did not say so."""
    diary = stocked()
    diary.add(1, "burnt", solid_m3=3)
    folded = fold(diary.entries)
    assert folded.boiler_room is not None
    assert folded.boiler_room.solid_m3 == 0.0
    assert folded.use_by_day[day(1)].logged_m3 == pytest.approx(3)
    assert kinds_found(folded) == ["more_than_held"]


def test_a_week_told_as_a_whole_includes_the_fires_logged_meanwhile() -> None:
    """Nothing is burnt twice."""
    diary = stocked()
    diary.add(3, "lit", solid_m3=0.2)
    diary.add(7, "burnt", solid_m3=0.9, since=day(1).isoformat())
    folded = fold(diary.entries)
    assert sum(use.logged_m3 for use in folded.use_by_day.values()) == pytest.approx(0.9)
    assert folded.use_by_day[day(5)].logged_m3 == pytest.approx(0.1)
    assert folded.use_by_day[day(3)].logged_m3 == pytest.approx(0.3)


def test_fires_that_used_more_than_the_total_told_are_a_finding() -> None:
    """One of the two is wrong."""
    diary = stocked()
    diary.add(3, "lit", solid_m3=0.5)
    diary.add(7, "burnt", solid_m3=0.3, since=day(1).isoformat())
    folded = fold(diary.entries)
    assert kinds_found(folded) == ["fires_exceed_total"]
    assert sum(use.logged_m3 for use in folded.use_by_day.values()) == pytest.approx(0.5)


def test_a_stock_take_wins_and_the_difference_is_spread_over_the_gap() -> None:
    """Use that nobody logged, or loss: so much a day since the last count."""
    diary = stocked()
    diary.add(10, "counted", place="gable", solid_m3=18)
    diary.add(20, "counted", place="gable", solid_m3=17)
    folded = fold(diary.entries)
    gable = folded.stacks["gable"]
    assert (gable.solid_m3, gable.counted_on) == (pytest.approx(17), day(20))
    first, second = folded.unlogged
    assert first.solid_m3 == pytest.approx(0)
    assert (second.since, second.until, second.place) == (day(10), day(20), "gable")
    assert (second.solid_m3, second.per_day_m3) == (pytest.approx(1), pytest.approx(0.1))
    spread = [folded.use_by_day[day(number)].unlogged_m3 for number in range(11, 21)]
    assert spread == [pytest.approx(0.1)] * 10
    assert kinds_found(folded) == []


def test_a_stock_take_in_rows_is_measured_with_the_tape() -> None:
    """Length times height times log length, and the packing of that length."""
    diary = stocked()
    rows = [{"length_m": 6, "height_m": 1.5, "log_cm": 50}, {"length_m": 2, "height_m": 1.2, "log_cm": 33}]
    diary.add(10, "counted", place="gable", rows=rows)
    expected = measure.solid_from_stacked(4.5, "split_50cm", "ash") + measure.solid_from_stacked(
        0.792, "split_33cm", "ash"
    )
    assert fold(diary.entries).stacks["gable"].solid_m3 == pytest.approx(expected)


def test_a_stock_take_of_a_place_not_known_before_opens_its_book() -> None:
    """Nothing is missing then."""
    diary = Diary()
    diary.add(0, "measured", place="shed", shown_percent=[18], basis="wet")
    diary.add(1, "counted", place="shed", species="oak", stacked_m3=4, log_cm=33)
    folded = fold(diary.entries)
    assert folded.unlogged == ()
    assert dict(folded.stacks["shed"].mix) == {"pedunculate_oak": 1.0}
    last = folded.stacks["shed"].last_reading
    assert last is not None
    assert last.moisture == pytest.approx(0.18)


def test_a_stock_take_that_finds_more_is_told() -> None:
    """It wins all the same, and nobody burns less than nothing."""
    diary = stocked()
    diary.add(10, "counted", place="gable", solid_m3=19)
    folded = fold(diary.entries)
    assert folded.stacks["gable"].solid_m3 == pytest.approx(19)
    (finding,) = folded.findings
    assert finding.kind == "counted_more"
    assert dict(finding.figures) == pytest.approx({"counted_m3": 19, "expected_m3": 18})
    assert all(use.unlogged_m3 == 0 for use in folded.use_by_day.values())


def test_nothing_left_is_a_stock_take_too() -> None:
    """Of the boiler room, by its name."""
    diary = stocked()
    diary.add(10, "counted", place="Boiler_room", nothing_left=True)
    folded = fold(diary.entries)
    assert folded.boiler_room is not None
    assert folded.boiler_room.solid_m3 == 0.0
    assert folded.unlogged[0].stage == "boiler_room"
    assert sum(use.unlogged_m3 for use in folded.use_by_day.values()) == pytest.approx(2)


def test_as_usual_counts_the_mean_of_the_days_before() -> None:
    """To the end of the day before the answer, and no day further."""
    diary = stocked()
    for number in range(1, 11):
        diary.add(number, "lit", solid_m3=0.1)
    diary.add(15, "as_usual", since=day(11).isoformat())
    folded = fold(diary.entries)
    assert [folded.use_by_day[day(number)].as_usual_m3 for number in range(11, 15)] == [
        pytest.approx(0.1)
    ] * 4
    assert day(15) not in folded.use_by_day
    assert folded.burning_told_until == day(14)


def test_as_usual_with_an_amount_counts_that_and_no_fires_counts_nothing() -> None:
    """The page may propose a figure, or the owner was away."""
    diary = stocked()
    diary.add(5, "as_usual", since=day(1).isoformat(), solid_m3=0.8)
    diary.add(9, "as_usual", since=day(5).isoformat(), answer="no_fires")
    folded = fold(diary.entries)
    assert sum(use.as_usual_m3 for use in folded.use_by_day.values()) == pytest.approx(0.8)
    assert folded.burning_told_until == day(8)


def test_as_usual_with_nothing_before_it_is_a_finding() -> None:
    """Usual is not known yet."""
    diary = stocked()
    diary.add(5, "as_usual", since=day(1).isoformat())
    assert kinds_found(fold(diary.entries)) == ["no_usual_rate"]


def test_months_add_up_to_the_days() -> None:
    """Local dates, whatever the zone."""
    diary = stocked()
    for number in range(1, 70, 3):
        diary.add(number, "lit", solid_m3=0.05)
    folded = fold(diary.entries)
    assert list(folded.use_by_month) == ["2025-01", "2025-02", "2025-03"]
    for what in ("solid_m3", "dry_kg", "mass_kg", "fires"):
        by_day = sum(getattr(use, what) for use in folded.use_by_day.values())
        assert sum(getattr(use, what) for use in folded.use_by_month.values()) == pytest.approx(by_day)


def test_without_a_boiler_room_the_only_stack_is_burnt() -> None:
    """Some carry each log from the stack to the fire."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(1, "lit", count=2, container="basket")
    folded = fold(diary.entries, [ContainerSize(name="basket", litres=45.0)])
    assert folded.stacks["gable"].solid_m3 < 5
    diary.add(0, "stacked", place="hedge", species="ash", solid_m3=5)
    again = fold(diary.entries, [ContainerSize(name="basket", litres=45.0)])
    assert kinds_found(again) == ["place_not_given"]
    assert again.use_by_day[day(1)].logged_m3 > 0


def test_upkeep_deliveries_and_meters_are_kept_in_the_order_of_time() -> None:
    """What is due is for others to say."""
    diary = Diary()
    diary.add(5, "swept", certificate="77")
    diary.add(2, "tested", what="co_alarm")
    diary.add(3, "backup_delivery", fuel="lpg", litres=900)
    folded = fold(diary.entries)
    assert [event.kind for event in folded.of("swept", "tested")] == ["tested", "swept"]
    assert [event.kind for event in folded.of("backup_delivery")] == ["backup_delivery"]
    assert folded.of("cleaned") == ()


HEATING = {day(number) for number in range(40)}


def test_after_quiet_days_in_heating_weather_there_is_a_question() -> None:
    """Since when, how many days, and what usual would mean."""
    diary = stocked()
    for number in range(1, 5):
        diary.add(number, "lit", solid_m3=0.1)
    folded = fold(diary.entries)
    asked = quiet_days(folded, day(8), HEATING)
    assert asked is not None
    assert (asked.since, asked.until, asked.heating_days) == (day(5), day(7), 3)
    assert asked.usual_per_day_m3 == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("today", "heating"), [(7, HEATING), (30, {day(number) for number in range(5)}), (30, set())]
)
def test_there_is_no_question_too_soon_or_in_mild_weather(today: int, heating: set[date]) -> None:
    """Two silent days are nothing, and nor is the summer."""
    diary = stocked()
    diary.add(4, "lit", solid_m3=0.1)
    assert quiet_days(fold(diary.entries), day(today), heating) is None


def test_who_never_logs_a_fire_is_never_asked() -> None:
    """The stock-take is enough for him."""
    assert quiet_days(fold(stocked().entries), day(30), HEATING) is None
