"""When somebody can tend the fire."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.firing.grounds import MONDAY, PRESENCE, WORKING
from woodreeve.errors import WrongKind
from woodreeve.firing.fields import Away, Presence, PresenceWindow
from woodreeve.firing.presence import attended_spans, tending_times


def test_a_fire_is_lit_only_while_the_watch_ends_before_the_window_does() -> None:
    """Bed at 22, an hour's watch: the last fire is lit at 21."""
    times = [one for one in tending_times(PRESENCE, MONDAY, 24, UTC) if one.light]
    assert [one.hour for one in times] == [6.5, 7.0, 16.5, 17.0, 18.0, 19.0, 20.0, 21.0]


def test_a_short_watch_leaves_more_time_for_a_refill_than_for_a_lighting() -> None:
    """Ten minutes against thirty."""
    window = PresenceWindow(begins=time(17, 0), ends=time(18, 15))
    presence = Presence(windows=(window,), watch_minutes=0.0)
    last = tending_times(presence, MONDAY, 24, UTC)[-1]
    assert (last.hour, last.light, last.refill) == (18.0, False, True)


def test_nobody_tends_while_away() -> None:
    """Both days named are away."""
    away = Presence(windows=PRESENCE.windows, away=(Away(begins=date(2026, 1, 13), ends=date(2026, 1, 14)),))
    hours = [one.hour for one in tending_times(away, MONDAY, 96, UTC)]
    assert not [hour for hour in hours if 24 <= hour < 72]
    assert [hour for hour in hours if hour >= 72]


def test_windows_go_by_the_owners_clock_also_when_it_is_put_forward() -> None:
    """On the last Sunday of March 17 o'clock comes an hour sooner."""
    london = ZoneInfo("Europe/London")
    window = Presence(windows=(PresenceWindow(begins=time(17, 0), ends=time(20, 0)),))
    begins = datetime(2026, 3, 28, 0, tzinfo=london)
    spans = attended_spans(window, begins, 48, london)
    assert spans[0] == (17.0, 20.0)
    assert spans[1] == (40.0, 43.0)


def test_touching_windows_are_one() -> None:
    """A watch may run from one into the next."""
    windows = (
        PresenceWindow(begins=time(17, 0), ends=time(19, 0)),
        PresenceWindow(begins=time(19, 0), ends=time(21, 0)),
    )
    assert attended_spans(Presence(windows=windows), MONDAY, 24, UTC) == ((17.0, 21.0),)


def test_no_window_means_any_hour() -> None:
    """As the field says; visits by night are marked."""
    times = tending_times(Presence(), MONDAY, 24, UTC)
    assert len(times) == 24
    assert [one.hour for one in times if one.odd] == [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 22.0, 23.0]


def test_a_beginning_without_offset_is_refused() -> None:
    """Nobody knows which hour is meant."""
    with pytest.raises(WrongKind, match="begins"):
        attended_spans(PRESENCE, datetime(2026, 1, 12), 24, UTC)  # noqa: DTZ001  # the fault under test


@settings(max_examples=40, deadline=None)
@given(
    begin=st.integers(0, 1300),
    length=st.integers(20, 400),
    watch=st.integers(0, 240),
    light=st.integers(5, 180),
    first=st.integers(0, 23),
)
def test_every_moment_offered_lies_inside_a_window(
    begin: int, length: int, watch: int, light: int, first: int
) -> None:
    """With lighting and watch to their end."""
    end = min(begin + length, 1439)
    window = PresenceWindow(
        days=WORKING, begins=time(begin // 60, begin % 60), ends=time(end // 60, end % 60)
    )
    presence = Presence(windows=(window,), watch_minutes=float(watch), lighting_minutes=float(light))
    start = MONDAY + timedelta(hours=first)
    for one in tending_times(presence, start, 96, UTC):
        at = start + timedelta(hours=one.hour)
        minutes = at.hour * 60 + at.minute
        needed = max(watch, light if one.light else 10)
        assert begin <= minutes
        assert minutes + needed <= end + 1.3
