"""Forecasts that were fetched: kept for a yard without signal, and for judging later how good they were."""

from __future__ import annotations

import logging
import zlib
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Row, delete, insert, select, update

from woodreeve.errors import WoodreeveError
from woodreeve.records.connect import connected, wait_for_turn, writing
from woodreeve.records.rows import chunks, microseconds
from woodreeve.records.store import Records
from woodreeve.records.tables import forecasts
from woodreeve.weather.forecast import Forecast
from woodreeve.weather.services import Answer, Service, read_answer

__all__ = ["keep_answer", "last_answer", "newest_forecast", "put_off", "thin_forecasts", "waits_until"]

KEPT_WHOLE = timedelta(days=14)
"""So long every reply is kept."""

KEPT_AT_ALL = timedelta(days=550)
"""So long one of each half day is kept: this winter and the one before, to replay and to score."""

STILL_OF_USE = timedelta(days=10)
"""So long after its last hour a forecast still says a little."""

NEARBY_DEG = 0.02
"""A forecast for a place no farther off is one for here, some 2 km. [deg]"""

TRIED = 5
"""So many of the newest replies are tried, should one not be readable any more."""

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_HALF_DAY_US = 12 * 3600 * 1_000_000


def keep_answer(records: Records, holding: str, answer: Answer) -> Forecast:
    """Keep a service's reply.

    Parameters
    ----------
    records : Records
        The records.
    holding : str
        Whose place was asked for.
    answer : Answer
        The reply.

    Returns
    -------
    Forecast
        What it says.

    Raises
    ------
    Unreadable
        If it says nothing that can be read; then it is not kept.
    Refused
        If the records cannot be written.
    """
    forecast = read_answer(answer)
    with writing(records._engine, records.address) as connection:
        connection.execute(
            insert(forecasts).values(
                holding=holding,
                source=answer.source,
                latitude_deg=answer.latitude_deg,
                longitude_deg=answer.longitude_deg,
                fetched_us=microseconds(answer.fetched),
                ask_again_us=microseconds(answer.ask_again),
                last_modified=answer.last_modified,
                issued_us=None if forecast.issued is None else microseconds(forecast.issued),
                ends_us=microseconds(forecast.ends),
                answer=zlib.compress(answer.text.encode(), 6),
            )
        )
    return forecast


def last_answer(records: Records, holding: str, source: Service) -> Answer | None:
    """The newest reply of a service, to ask it whether there is a newer one; ``None`` for none yet."""
    with connected(records._engine, records.address) as connection:
        row = _newest(connection, holding, source, with_answer=True)
    return None if row is None else _answer(row)


def put_off(records: Records, holding: str, source: Service, until: datetime, *, now: datetime) -> None:
    """Note that a service is not to be asked again before a moment: it had nothing new, or could not be had.

    Parameters
    ----------
    records : Records
        The records.
    holding : str
        Whose place was asked for.
    source : str
        The service.
    until : datetime
        Not before.
    now : datetime
        Now.

    Raises
    ------
    Refused
        If the records cannot be written.
    """
    with writing(records._engine, records.address) as connection:
        wait_for_turn(connection)
        row = _newest(connection, holding, source)
        if row is not None:
            same = forecasts.c.seq == row.seq
            connection.execute(update(forecasts).where(same).values(ask_again_us=microseconds(until)))
            return
        nothing: dict[str, Any] = {"latitude_deg": 0.0, "longitude_deg": 0.0, "last_modified": ""}
        connection.execute(
            insert(forecasts).values(
                holding=holding,
                source=source,
                fetched_us=microseconds(now),
                ask_again_us=microseconds(until),
                **nothing,
            )
        )


def waits_until(records: Records, holding: str, source: Service) -> datetime | None:
    """The moment before which a service is not to be asked again; ``None`` if it may be asked now."""
    with connected(records._engine, records.address) as connection:
        row = _newest(connection, holding, source)
    return None if row is None else _moment(row.ask_again_us)


def newest_forecast(
    records: Records,
    holding: str,
    moment: datetime,
    *,
    latitude_deg: float | None = None,
    longitude_deg: float | None = None,
) -> Forecast | None:
    """The newest forecast that was known at a moment and still says something about it.

    Parameters
    ----------
    records : Records
        The records.
    holding : str
        Whose place it is for.
    moment : datetime
        The moment; nothing fetched later is used, so that a replay does not peek.
    latitude_deg, longitude_deg : float, optional
        Where the place is now: a forecast for where it was before is not used.

    Returns
    -------
    Forecast or None
        The forecast, perhaps an old one: its age is for the caller to tell.
    """
    at = microseconds(moment)
    query = (
        select(forecasts)
        .where(
            forecasts.c.holding == holding,
            forecasts.c.fetched_us <= at,
            forecasts.c.ends_us > at - STILL_OF_USE // timedelta(microseconds=1),
            forecasts.c.answer.is_not(None),
        )
        .order_by(forecasts.c.fetched_us.desc(), forecasts.c.seq.desc())
    )
    for asked, column in (
        (latitude_deg, forecasts.c.latitude_deg),
        (longitude_deg, forecasts.c.longitude_deg),
    ):
        if asked is not None:
            query = query.where(column.between(asked - NEARBY_DEG, asked + NEARBY_DEG))
    with connected(records._engine, records.address) as connection:
        rows = connection.execute(query.limit(TRIED)).all()
    for row in rows:
        try:
            return read_answer(_answer(row))
        except WoodreeveError:
            logging.getLogger("woodreeve.records").warning("forecast %s cannot be read any more", row.seq)
    return None


def thin_forecasts(records: Records, holding: str, *, now: datetime) -> int:
    """Drop replies that nobody needs: of older ones the first of each half day stays, very old ones go.

    Parameters
    ----------
    records : Records
        The records.
    holding : str
        Whose they are.
    now : datetime
        Now.

    Returns
    -------
    int
        How many went.

    Raises
    ------
    Refused
        If the records cannot be written.
    """
    whole, at_all = microseconds(now - KEPT_WHOLE), microseconds(now - KEPT_AT_ALL)
    with writing(records._engine, records.address) as connection:
        rows = connection.execute(
            select(forecasts.c.seq, forecasts.c.source, forecasts.c.fetched_us)
            .where(forecasts.c.holding == holding, forecasts.c.fetched_us < whole)
            .order_by(forecasts.c.fetched_us, forecasts.c.seq)
        ).all()
        seen: set[tuple[str, int]] = set()
        dropped = []
        for row in rows:
            half_day = (row.source, row.fetched_us // _HALF_DAY_US)
            if row.fetched_us < at_all or half_day in seen:
                dropped.append(row.seq)
            seen.add(half_day)
        for part in chunks(dropped):
            connection.execute(delete(forecasts).where(forecasts.c.seq.in_(part)))
    return len(dropped)


def _newest(
    connection: Connection, holding: str, source: str, *, with_answer: bool = False
) -> Row[Any] | None:
    query = select(forecasts).where(forecasts.c.holding == holding, forecasts.c.source == source)
    if with_answer:
        query = query.where(forecasts.c.answer.is_not(None))
    return connection.execute(
        query.order_by(forecasts.c.fetched_us.desc(), forecasts.c.seq.desc()).limit(1)
    ).first()


def _answer(row: Row[Any]) -> Answer:
    return Answer(
        source=row.source,
        fetched=_moment(row.fetched_us),
        latitude_deg=row.latitude_deg,
        longitude_deg=row.longitude_deg,
        text=zlib.decompress(row.answer).decode(),
        ask_again=_moment(row.ask_again_us),
        last_modified=row.last_modified,
    )


def _moment(since_us: int) -> datetime:
    return _EPOCH + timedelta(microseconds=since_us)
