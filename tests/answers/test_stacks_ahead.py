"""When each stack is ready, which readings to doubt, what is kept for neighbours, what one more would do."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from functools import cache
from zoneinfo import ZoneInfo

import pytest

from tests.answers.demo import demo, plain
from woodreeve.answers import stacks
from woodreeve.answers.stacks import StackAnswer, StackLine, StacksAnswer
from woodreeve.errors import UnknownName
from woodreeve.holding.demo import DEMO_MOMENT, demo_entries, demo_holding_text
from woodreeve.records.asking import Asking
from woodreeve.wording.sentences import sentence
from woodreeve.wording.stacks import DOUBTS, NOTES, REASONS
from woodreeve.workings.load import load_all
from woodreeve.workings.why import figures_of, open_figure

LONDON = ZoneInfo("Europe/London")


@cache
def yard(text: str | None = None) -> StacksAnswer:
    """The demo's yard."""
    return stacks.answer(demo(text=text))


@cache
def one(place: str) -> StackAnswer:
    """One of its stacks."""
    return stacks.one_stack(demo(), place)


def line(place: str, answer: StacksAnswer | None = None) -> StackLine:
    """One stack as a line of the yard."""
    return next(item for item in (answer or yard()).stacks if item.name == place)


def unknown_basis() -> str:
    """The demo's holding with a meter of which nobody knows what it shows, and its diary likewise."""
    return demo_holding_text().replace('name = "pin meter"\nbasis = "dry"', 'name = "pin meter"')


def test_the_sentence_names_what_to_burn_and_what_comes_next_with_its_day() -> None:
    """As the owner would say it."""
    told = sentence(yard().sentence)
    assert told.startswith("Burn the ash at orchard wall first, ")
    assert "the black alder at stream is ready about" in told
    assert " to 15 May 2026)" in told


def test_every_stack_in_the_yard_is_followed_and_has_a_range() -> None:
    """What is reckoned says so; what rests on a recent reading says that."""
    for item in yard().stacks:
        if item.where == "boiler_room":
            assert item.ready is None
            continue
        assert item.ready is not None
        assert item.moisture is not None
        if not item.or_less:
            assert item.moisture.low is not None
            assert item.moisture.high is not None
            assert item.moisture.low <= item.moisture.value <= item.moisture.high
    assert line("barn end").known_by == "reckoned"
    assert line("stream").known_by == "measured"


def test_a_forecast_never_says_less_than_18_per_cent_unless_measured() -> None:
    """Neither today's nor the season's."""
    unmeasured = [entry for entry in demo_entries() if entry.kind != "measured"]
    asking = Asking(demo_holding_text(), DEMO_MOMENT, entries=tuple(unmeasured))
    answer = stacks.answer(asking)
    ash = line("orchard wall", answer)
    assert ash.or_less
    assert ash.known_by == "reckoned"
    assert ash.moisture is not None
    assert ash.moisture.value == 0.18
    assert "about 18 % or less" in sentence(answer.sentence)
    for item in (*yard().stacks, *answer.stacks):
        if item.ready is not None:
            assert item.ready.moisture_by_season.value >= 0.18
    autumn = stacks.answer(demo(datetime(2025, 10, 10, 12, tzinfo=LONDON)))
    measured = line("orchard wall", autumn)
    assert measured.known_by == "measured"
    assert measured.moisture is not None
    assert measured.moisture.value < 0.18


def test_days_stand_in_their_order_and_chances_grow() -> None:
    """10, 50 and 90 %; the chance by the season is no less than today's."""
    for item in yard().stacks:
        if item.ready is None or item.ready.day is None:
            continue
        day = item.ready.day
        assert day.low is not None
        assert day.low <= day.value
        assert day.high is None or day.value <= day.high
        assert item.ready.chance_by_season.value >= item.ready.chance_now.value
        assert item.ready.season_start == date(2026, 10, 1)


def test_an_open_stack_is_told_when_to_cover_it() -> None:
    """The birch that was split ten days ago; what is covered is not."""
    ready = line("gable").ready
    assert ready is not None
    assert ready.cover_by is not None
    assert date(2026, 8, 1) < ready.cover_by.value < date(2026, 11, 15)
    assert all(item.ready.cover_by is None for item in yard().stacks if item.ready and item.name != "gable")


def test_a_reading_lowers_the_doubt_and_moves_the_day() -> None:
    """Without the readings the range is wider."""
    without = Asking(
        demo_holding_text(),
        DEMO_MOMENT,
        entries=tuple(entry for entry in demo_entries() if entry.kind != "measured"),
    )
    wide, narrow = line("stream", stacks.answer(without)).moisture, line("stream").moisture
    assert wide is not None
    assert narrow is not None
    assert wide.high is not None
    assert wide.low is not None
    assert narrow.high is not None
    assert narrow.low is not None
    assert narrow.high - narrow.low < 0.7 * (wide.high - wide.low)


def test_a_reading_far_off_is_kept_flagged_and_explained() -> None:
    """The meter with the low battery: it is in the list, it has causes, and the course hardly follows it."""
    answer = one("lean-to")
    odd = [reading for reading in answer.readings if reading.odd]
    assert [reading.taken for reading in odd] == [date(2025, 12, 14)]
    assert odd[0].doubts
    assert set(odd[0].doubts) <= set(DOUBTS)
    assert line("lean-to").odd_readings == 1
    assert answer.line.moisture is not None
    assert abs(answer.line.moisture.value - odd[0].expected.value) < 0.5 * abs(
        odd[0].moisture.value - odd[0].expected.value
    )


def test_a_meter_of_unknown_basis_shows_both_ways_and_burns_on_the_safe_one() -> None:
    """Readiness as a range, the limit for burning on the wetter reading."""
    entries = tuple(
        type(entry)(
            **{
                name: getattr(entry, name)
                for name in ("id", "holding", "kind", "form", "happened", "entered", "sent", "by")
            },
            payload={**entry.payload, "basis": "not_known"}
            if "shown_percent" in entry.payload
            else entry.payload,
        )
        for entry in demo_entries()
    )
    moment = datetime(2025, 2, 20, 12, tzinfo=LONDON)
    asking = Asking(unknown_basis(), moment, entries=entries)
    unsure, sure = line("gable", stacks.answer(asking)), line("gable", stacks.answer(demo(moment)))
    assert unsure.ready is not None
    assert unsure.ready.if_dry_basis is not None
    assert unsure.ready.if_wet_basis is not None
    assert unsure.ready.if_dry_basis.value < unsure.ready.if_wet_basis.value
    assert unsure.moisture is not None
    assert sure.moisture is not None
    assert unsure.moisture.value > sure.moisture.value + 0.01
    reading = stacks.one_stack(asking, "gable").readings[-1]
    assert reading.if_dry_basis is not None
    assert reading.if_wet_basis is not None
    assert reading.if_dry_basis.value < reading.if_wet_basis.value


def test_what_is_owed_to_a_neighbour_is_kept_in_a_stack_that_suits() -> None:
    """Half a cubic metre of ash or sycamore at 20 % or less, with logs short enough; nobody else waits."""
    (kept,) = yard().kept
    assert kept.customer == "Mill Cottage"
    assert kept.stacked_m3.value == pytest.approx(0.5)
    assert kept.stack is not None
    stack = line(kept.stack)
    assert set(stack.mix) <= {"ash", "sycamore"}
    assert stack.moisture is not None
    assert stack.moisture.value <= 0.20
    assert "promised" in stack.reasons


def test_where_no_stack_suits_it_says_so() -> None:
    """A neighbour who wants beech."""
    text = demo_holding_text().replace('species = ["ash", "sycamore"]', 'species = ["beech"]')
    assert [(kept.customer, kept.stack) for kept in yard(text).kept] == [("Mill Cottage", None)]


def test_reasons_and_notes_all_have_words() -> None:
    """Each that occurs."""
    assert {reason for item in yard().stacks for reason in item.reasons} <= set(REASONS)
    for item in yard().stacks:
        for reading in one(item.name).readings:
            assert set(reading.notes) <= set(NOTES)


def test_without_a_house_there_is_an_order_by_dryness_and_a_reason_why() -> None:
    """And the stacks are followed all the same."""
    before, _, rest = demo_holding_text().partition("[house]")
    text = before + rest[rest.index("[plant]") :]
    answer = yard(text)
    assert answer.no_order
    assert answer.wet_kwh is None
    assert line("stream", answer).ready is not None
    assert answer.sentence.key == "stacks.burn"


def test_without_weather_no_stack_is_followed_and_the_reason_is_told() -> None:
    """Readings still count."""
    before, _, rest = demo_holding_text().partition("[climate.normals]")
    text = before + rest[rest.index("[house]") :]
    answer = yard(text)
    assert answer.weather == ""
    stream = line("stream", answer)
    assert "usual weather is not known" in stream.not_followed
    assert stream.ready is None
    assert stream.known_by == "measured"


def test_one_stack_tells_its_course_its_sampling_and_what_one_more_would_do() -> None:
    """Thin wood before thick wood, a roof before the open, each reading worth something."""
    answer = one("stream")
    assert answer.low is not None
    assert answer.median is not None
    assert answer.high is not None
    ways = zip(answer.low.values, answer.median.values, answer.high.values, strict=True)
    assert all(low <= median <= high for low, median, high in ways)
    assert answer.sampling is not None
    halves = [step.half_range.value for step in answer.sampling.steps]
    assert halves == sorted(halves, reverse=True)
    usual, thin, thick, _, open_air, *_ = answer.tries
    assert thin.chance_by_season.value > usual.chance_by_season.value > thick.chance_by_season.value
    assert usual.chance_by_season.value > open_air.chance_by_season.value


def test_a_stack_that_is_not_there_is_told_with_near_names() -> None:
    """In a sentence."""
    with pytest.raises(UnknownName, match="did you mean stream"):
        stacks.one_stack(demo(), "strem")


def test_what_is_asked_for_stands_first_and_starts_in_its_month() -> None:
    """A month that is past is the next year's."""
    found = stacks.tried(demo(), "oak", thickness_mm=80.0, month=1, cover="none")
    assert found.lines[0].thickness_mm.value == 80.0
    assert found.lines[0].start == date(2026, 1, 15)
    assert stacks.tried(demo(datetime(2026, 1, 20, tzinfo=LONDON)), "oak", month=1).lines[0].start == date(
        2026, 1, 20
    )
    assert stacks.tried(demo(), "oak", month=12).lines[0].start == date(2026, 12, 15)
    assert len(stacks.tried(demo(), "oak").lines) == len(found.lines) - 1


def test_the_forecast_of_a_day_stays_when_the_yard_is_asked_a_week_later() -> None:
    """Days do not jump when nothing happened."""
    later = stacks.answer(demo(DEMO_MOMENT + timedelta(days=7)))
    first, second = line("barn end").ready, line("barn end", later).ready
    assert first is not None
    assert second is not None
    assert first.day is not None
    assert second.day is not None
    assert abs((first.day.value - second.day.value).days) <= 14


@pytest.mark.parametrize("place", ["stream", "gable"])
def test_every_figure_of_one_stack_opens_to_a_source(place: str) -> None:
    """Under a trace, with nothing unexplained, and the same to the last digit."""
    load_all()
    with demo().traced() as fresh:
        answer = stacks.one_stack(fresh, place)
    paths = [path for path, _ in figures_of(answer)]
    assert len(paths) > 30
    for path in paths:
        opened = open_figure(answer, path)
        assert opened.sources, f"{path} rests on nothing"
        assert opened.loose == (), f"{path} has numbers that nothing accounts for"
    assert plain(answer) == plain(one(place))
