"""Readings of sensors over time: every one of them for a while, then means, lowest and highest."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import groupby
from typing import Any

from sqlalchemy import Connection, Row, delete, func, insert, select
from sqlalchemy.dialects import postgresql, sqlite

from woodreeve.diary.entry import moment_from_json
from woodreeve.errors import OutOfRange, Unreadable
from woodreeve.records.connect import connected, wait_for_turn, writing
from woodreeve.records.rows import chunks, microseconds
from woodreeve.records.store import Records
from woodreeve.records.tables import samples

__all__ = ["AGES", "Sample", "add_samples", "last_samples", "samples_between", "thin_samples"]

AGES: tuple[tuple[timedelta, int], ...] = (
    (timedelta(days=14), 15 * 60),
    (timedelta(days=180), 3600),
)
"""From which age on readings are thinned to spans of how many seconds."""

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """One reading of a sensor, or the mean of a span.

    Parameters
    ----------
    sensor : str
        Its name, for instance ``store.top``.
    moment : datetime
        When it was read, or the beginning of the span.
    value : float
        What it said, or the mean of the span, in the sensor's own unit.
    low, high : float, optional
        Lowest and highest of the span; the value itself for one reading.
    span_s : int
        Length of the span; 0 for one reading. [s]
    readings : int
        How many readings stand behind it.
    """

    sensor: str
    moment: datetime
    value: float
    low: float | None = None
    high: float | None = None
    span_s: int = 0
    readings: int = 1


def add_samples(records: Records, holding: str, given: Iterable[Sample]) -> int:
    """Add readings; one that is there already, by sensor and moment, changes nothing.

    After thinning that can no longer be seen: a reading sent once more after two weeks counts twice.

    Parameters
    ----------
    records : Records
        The records.
    holding : str
        Whose sensors they are.
    given : iterable of Sample
        Single readings.

    Returns
    -------
    int
        How many were new.

    Raises
    ------
    OutOfRange
        If a value is no finite number.
    Unreadable
        If a moment has no offset, or a sensor no proper name.
    Refused
        If the records cannot be written; then none was kept.
    """
    rows = [_row(holding, one) for one in given]
    if not rows:
        return 0
    with writing(records._engine, records.address) as connection:
        wait_for_turn(connection)
        return sum(_insert(connection, part) for part in chunks(rows, 100))


def samples_between(
    records: Records, holding: str, sensor: str, since: datetime, until: datetime
) -> tuple[Sample, ...]:
    """A sensor's readings from one moment up to, not with, another, in order."""
    begin, end = microseconds(since), microseconds(until)
    query = (
        select(samples)
        .where(samples.c.holding == holding, samples.c.sensor == sensor)
        .where(samples.c.moment_us >= begin, samples.c.moment_us < end)
        .order_by(samples.c.moment_us)
    )
    with connected(records._engine, records.address) as connection:
        return tuple(map(_sample, connection.execute(query)))


def last_samples(records: Records, holding: str, moment: datetime) -> dict[str, Sample]:
    """The last reading of each sensor at a moment, by its name."""
    newest = (
        select(samples.c.sensor, func.max(samples.c.moment_us).label("moment_us"))
        .where(samples.c.holding == holding, samples.c.moment_us <= microseconds(moment))
        .group_by(samples.c.sensor)
        .subquery()
    )
    query = (
        select(samples)
        .join(
            newest,
            (samples.c.sensor == newest.c.sensor) & (samples.c.moment_us == newest.c.moment_us),
        )
        .where(samples.c.holding == holding)
        .order_by(samples.c.sensor)
    )
    with connected(records._engine, records.address) as connection:
        return {row.sensor: _sample(row) for row in connection.execute(query)}


def thin_samples(records: Records, holding: str, *, now: datetime) -> int:
    """Thin old readings to means with their lowest and highest; done twice it changes nothing more.

    Parameters
    ----------
    records : Records
        The records.
    holding : str
        Whose sensors they are.
    now : datetime
        Now.

    Returns
    -------
    int
        How many rows there are fewer.

    Raises
    ------
    Refused
        If the records cannot be written; then nothing was thinned.
    """
    fewer = 0
    with writing(records._engine, records.address) as connection:
        wait_for_turn(connection)
        for age, span_s in reversed(AGES):  # oldest first: no span is cut into shorter ones
            width = span_s * 1_000_000
            before = microseconds(now - age) // width * width
            old = connection.execute(
                select(samples)
                .where(samples.c.holding == holding)
                .where(samples.c.moment_us < before, samples.c.span_s < span_s)
                .order_by(samples.c.sensor, samples.c.moment_us)
            ).all()
            spans = groupby(old, partial(_span_of, width))
            for (sensor, span), rows in spans:
                fewer += _merge(connection, holding, sensor, span * width, span_s, list(rows))
    return fewer


def _span_of(width_us: int, row: Row[Any]) -> tuple[str, int]:
    return row.sensor, row.moment_us // width_us


def _merge(
    connection: Connection, holding: str, sensor: str, begin_us: int, span_s: int, rows: Sequence[Row[Any]]
) -> int:
    """Put the rows of one span together, with the span's own row if there was one already."""
    here = [samples.c.holding == holding, samples.c.sensor == sensor]
    within = samples.c.moment_us.between(begin_us, begin_us + span_s * 1_000_000 - 1)
    there = connection.execute(select(samples).where(*here, within, samples.c.span_s == span_s)).all()
    whole = [*rows, *there]
    connection.execute(delete(samples).where(*here, within))
    readings = sum(row.readings for row in whole)
    connection.execute(
        insert(samples).values(
            holding=holding,
            sensor=sensor,
            moment_us=begin_us,
            span_s=span_s,
            value=math.fsum(row.value * row.readings for row in whole) / readings,
            low=min(row.low for row in whole),
            high=max(row.high for row in whole),
            readings=readings,
        )
    )
    return len(whole) - 1


def _insert(connection: Connection, rows: Sequence[dict[str, Any]]) -> int:
    kind = postgresql if connection.dialect.name == "postgresql" else sqlite
    statement = kind.insert(samples).values(rows).on_conflict_do_nothing()
    return len(connection.execute(statement.returning(samples.c.moment_us)).all())


def _row(holding: str, one: Sample) -> dict[str, Any]:
    if not math.isfinite(one.value):
        raise OutOfRange(f"the reading of {one.sensor}", one.value, "a finite number")
    name = one.sensor.strip()
    if not name or len(name) > 80 or not name.isprintable():
        raise Unreadable(f"sensor is {one.sensor!r:.90}, but must be a text of 1 to 80 characters.")
    moment = moment_from_json(one.moment, "moment")
    value = float(one.value)
    return {
        "holding": holding,
        "sensor": name,
        "moment_us": microseconds(moment),
        "span_s": 0,
        "value": value,
        "low": value,
        "high": value,
        "readings": 1,
    }


def _sample(row: Row[Any]) -> Sample:
    return Sample(
        sensor=row.sensor,
        moment=_EPOCH + timedelta(microseconds=row.moment_us),
        value=row.value,
        low=row.low,
        high=row.high,
        span_s=row.span_s,
        readings=row.readings,
    )
