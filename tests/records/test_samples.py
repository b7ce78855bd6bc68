"""Readings of sensors: added once, found again, thinned with age without losing mean, lowest and highest."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from woodreeve.errors import OutOfRange, Unreadable
from woodreeve.records.samples import Sample, add_samples, last_samples, samples_between, thin_samples
from woodreeve.records.store import Records

NOW = datetime(2026, 1, 31, 20, tzinfo=UTC)
HOUSE = "aldermoor"


def readings(first: datetime, count: int, step_s: int = 60, sensor: str = "store.top") -> list[Sample]:
    """Readings that rise by 0.1 from 50."""
    return [
        Sample(sensor=sensor, moment=first + timedelta(seconds=n * step_s), value=50.0 + n / 10)
        for n in range(count)
    ]


def all_of(records: Records, sensor: str = "store.top") -> tuple[Sample, ...]:
    """Everything there is of a sensor."""
    return samples_between(records, HOUSE, sensor, NOW - timedelta(days=4000), NOW + timedelta(days=1))


def test_readings_come_back_in_order_whatever_order_they_came_in(records: Records) -> None:
    """And sending them again changes nothing."""
    given = readings(NOW, 300)
    assert add_samples(records, HOUSE, reversed(given)) == 300
    assert add_samples(records, HOUSE, given) == 0
    assert add_samples(records, HOUSE, []) == 0
    found = samples_between(records, HOUSE, "store.top", NOW, NOW + timedelta(minutes=10))
    assert [one.value for one in found] == pytest.approx([50.0 + n / 10 for n in range(10)])
    assert found[3].moment == NOW + timedelta(minutes=3)
    assert (found[3].low, found[3].high, found[3].readings) == (found[3].value, found[3].value, 1)


def test_holdings_and_sensors_do_not_mix(records: Records) -> None:
    """Two houses may name a sensor alike."""
    add_samples(records, HOUSE, readings(NOW, 3))
    add_samples(records, "old-chapel", readings(NOW, 3))
    add_samples(records, HOUSE, readings(NOW, 5, sensor="store.bottom"))
    assert len(all_of(records)) == 3
    assert {name: one.value for name, one in last_samples(records, HOUSE, NOW).items()} == {
        "store.bottom": 50.0,
        "store.top": 50.0,
    }
    later = last_samples(records, HOUSE, NOW + timedelta(hours=1))
    assert later["store.bottom"].value == pytest.approx(50.4)
    assert last_samples(records, HOUSE, NOW - timedelta(seconds=1)) == {}


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_refused_and_nothing_kept(records: Records, value: float) -> None:
    """A broken sensor is told by its name."""
    wrong = Sample(sensor="flue", moment=NOW, value=value)
    with pytest.raises(OutOfRange, match="the reading of flue is"):
        add_samples(records, HOUSE, [*readings(NOW, 3), wrong])
    assert all_of(records) == ()


def test_a_moment_without_offset_and_a_nameless_sensor_are_refused(records: Records) -> None:
    """One sentence each."""
    with pytest.raises(Unreadable, match="moment"):
        add_samples(records, HOUSE, [Sample(sensor="flue", moment=datetime(2026, 1, 1), value=1.0)])  # noqa: DTZ001 - the fault under test
    with pytest.raises(Unreadable, match="1 to 80 characters"):
        add_samples(records, HOUSE, [Sample(sensor=" ", moment=NOW, value=1.0)])


def test_old_readings_are_thinned_to_quarters_then_hours(records: Records) -> None:
    """Fresh ones stay; mean, lowest, highest and count are kept."""
    fresh, older, oldest = NOW - timedelta(days=1), NOW - timedelta(days=30), NOW - timedelta(days=300)
    for first in (fresh, older, oldest):
        add_samples(records, HOUSE, readings(first, 120))
    assert thin_samples(records, HOUSE, now=NOW) == (120 - 8) + (120 - 2)
    found = all_of(records)
    assert [one.span_s for one in found] == [3600] * 2 + [900] * 8 + [0] * 120
    hour, quarter = found[0], found[2]
    assert (hour.moment, hour.readings) == (oldest, 60)
    assert (hour.value, hour.low, hour.high) == pytest.approx((52.95, 50.0, 55.9))
    assert (quarter.value, quarter.low, quarter.high, quarter.readings) == pytest.approx(
        (50.7, 50.0, 51.4, 15)
    )


def test_thinning_twice_changes_nothing_and_later_goes_on(records: Records) -> None:
    """Quarters become hours in their turn, weighted by their readings."""
    add_samples(records, HOUSE, readings(NOW - timedelta(days=30), 50))
    assert thin_samples(records, HOUSE, now=NOW) == 46
    assert thin_samples(records, HOUSE, now=NOW) == 0
    assert thin_samples(records, HOUSE, now=NOW + timedelta(days=200)) == 3
    (hour,) = all_of(records)
    assert hour.readings == 50
    assert hour.value == pytest.approx(52.45)


def test_a_late_reading_joins_the_span_it_belongs_to(records: Records) -> None:
    """A gateway that was without network for long, also at the hour's first quarter."""
    first = NOW - timedelta(days=300)
    add_samples(records, HOUSE, readings(first, 60))
    thin_samples(records, HOUSE, now=NOW)
    late = Sample(sensor="store.top", moment=first + timedelta(seconds=30), value=10.0)
    assert add_samples(records, HOUSE, [late]) == 1
    assert thin_samples(records, HOUSE, now=NOW) == 1
    (hour,) = all_of(records)
    assert (hour.span_s, hour.readings, hour.low) == (3600, 61, 10.0)
    assert hour.value == pytest.approx((52.95 * 60 + 10.0) / 61)
