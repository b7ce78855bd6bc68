"""Weather tables without a heavy library: German test reference years, and plain CSV."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import TextIO

import numpy as np

from woodreeve.errors import Unreadable
from woodreeve.units import Floats
from woodreeve.weather.rows import (
    LEAP_HOURS,
    NOMINAL_YEAR,
    bridge,
    check_numbers,
    number,
    series_or_none,
    year_for,
)
from woodreeve.weather.series import HOURS_IN_YEAR, Hourly, start_of_year

__all__ = ["read_csv", "read_dwd_try"]

_TRY_2010 = (
    "RG",
    "IS",
    "MM",
    "DD",
    "HH",
    "N",
    "WR",
    "WG",
    "t",
    "p",
    "x",
    "RF",
    "W",
    "B",
    "D",
    "IK",
    "A",
    "E",
    "IL",
)
_TRY_PLACE = re.compile(
    r"(\d{1,2})\D{1,3}(\d{1,2})\D{1,4}N.{1,10}?B\.\s*(\d{1,2})\D{1,3}(\d{1,2})\D{1,4}O.{1,10}?L\.\s*(-?\d+)\s*Meter"
)


def read_dwd_try(
    stream: TextIO,
    *,
    year: int = NOMINAL_YEAR,
    latitude_deg: float | None = None,
    longitude_deg: float | None = None,
) -> Hourly:
    """Read a test reference year of the German weather service, edition 2010 or 2015.

    Parameters
    ----------
    stream : text stream
        The open file; the header's encoding differs between copies and does not matter, so open it
        as ``latin-1``.
    year : int
        The year its hours are laid on.
    latitude_deg, longitude_deg : float, optional
        Where it is, if the header does not say so in degrees (edition 2015 gives grid metres).

    Returns
    -------
    Hourly
        The weather, in Central European standard time all year.

    Raises
    ------
    Unreadable
        With line and column, if this is no such file or a number cannot be read.

    Notes
    -----
    The data begin after a line of ``***``; the line before it names the columns, by which the two
    editions are told apart. HH runs from 1 to 24 and is the END of the hour. Global sun is the sum of
    B and D. Some copies carry the last hour once more before the first (8761 rows): it is dropped.

    References
    ----------
    .. [1] Deutscher Wetterdienst, test reference years 2010 (base 1988 to 2007) and 2015, file headers.
    """
    lines = stream.read().splitlines()
    stars = next((n for n, line in enumerate(lines) if line.strip() and set(line.strip()) == {"*"}), None)
    if stars is None or stars == 0:
        raise Unreadable("No line of *** was found, after which a test reference year begins.")
    names = tuple(lines[stars - 1].split())
    if "HH" not in names or "t" not in names:
        raise Unreadable(
            f"Line {stars}: the line before *** should name the columns, such as {' '.join(_TRY_2010)}."
        )
    first_line = stars + 2
    rows = [line.split() for line in lines[stars + 1 :] if line.strip()]
    wanted: dict[int, str] = {
        names.index(name): name for name in ("HH", "t", "RF", "WG", "B", "D") if name in names
    }
    try:
        table = np.array([[row[n] for n in wanted] for row in rows], dtype=float)
    except (IndexError, ValueError):
        check_numbers(rows, wanted, first_line, "these")
        raise
    if len(table) in (HOURS_IN_YEAR + 1, LEAP_HOURS + 1):
        table, first_line = table[1:], first_line + 1
    column = {name: table[:, n] for n, name in enumerate(wanted.values())}
    hour = np.asarray(column["HH"])
    wrong = hour != np.arange(hour.size) % 24 + 1
    if wrong.any():
        at = int(np.argmax(wrong))
        raise Unreadable(
            f"Line {first_line + at}, column {names.index('HH') + 1} (HH): hour {hour[at]:g} stands where "
            f"hour {at % 24 + 1} is due."
        )
    head = " ".join(lines[:stars])
    found = _TRY_PLACE.search(head)
    height = float(found[5]) if found else None
    if found and latitude_deg is None and longitude_deg is None:
        latitude_deg, longitude_deg = (
            float(found[1]) + float(found[2]) / 60,
            float(found[3]) + float(found[4]) / 60,
        )
    station = re.search(r"Station:\s*(\S.*?)\s{2,}", head)

    def given(name: str, field: str, code: float, scale: float = 1.0) -> Floats | None:
        if name not in column:
            return None
        return series_or_none(field, column[name] * scale, column[name] >= code, first_line)

    beam, diffuse = given("B", "sun_w_m2", 9999), given("D", "diffuse_w_m2", 9999)
    return Hourly(
        start=start_of_year(year_for(len(table), year, "test reference year"), 1.0),
        temperature_c=bridge("temperature_c", column["t"], column["t"] >= 99, first_line),
        relative_humidity=given("RF", "relative_humidity", 999, 0.01),
        wind_m_s=given("WG", "wind_m_s", 99),
        sun_w_m2=None if beam is None or diffuse is None else beam + diffuse,
        diffuse_w_m2=diffuse,
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        elevation_m=height,
        utc_offset_h=1.0,
        source=f"{station[1] if station else 'Test reference year'}; source: Deutscher Wetterdienst",
    )


_CSV_NAMES: dict[str, tuple[str, ...]] = {
    "time": ("time", "date", "datetime", "timestamp"),
    "temperature_c": ("temperature_c", "temperature", "temp_c", "temp_air", "t"),
    "relative_humidity": ("relative_humidity", "humidity", "rh", "relative_humidity_percent"),
    "wind_m_s": ("wind_m_s", "wind", "wind_speed", "wind_speed_m_s"),
    "rain_mm": ("rain_mm", "rain", "precipitation", "precipitation_mm"),
    "sun_w_m2": ("sun_w_m2", "ghi", "sun", "global_w_m2"),
    "diffuse_w_m2": ("diffuse_w_m2", "dhi", "diffuse"),
}


def read_csv(
    stream: TextIO,
    *,
    utc_offset_h: float = 0.0,
    year: int = NOMINAL_YEAR,
    latitude_deg: float | None = None,
    longitude_deg: float | None = None,
    elevation_m: float | None = None,
    source: str = "CSV file",
) -> Hourly:
    """Read a plain table: one header line, then one row for each hour.

    Parameters
    ----------
    stream : text stream
        The open file, with comma, semicolon or tab between columns (with a semicolon or tab, a decimal
        comma is understood). Columns: ``temperature_c``, and if wanted ``time``, ``relative_humidity``
        (share or percent), ``wind_m_s``, ``rain_mm``, ``sun_w_m2``, ``diffuse_w_m2``.
    utc_offset_h : float
        Local standard time less UTC, for times without an offset. [h]
    year : int
        The year that hours without a ``time`` column are laid on.
    latitude_deg, longitude_deg, elevation_m : float, optional
        Where it is.
    source : str
        What to call the file.

    Returns
    -------
    Hourly
        The weather; any number of hours if there is a ``time`` column, else a whole year.

    Raises
    ------
    Unreadable
        With line and column, if something cannot be read or an hour is missing or double.
    """
    text = stream.read().lstrip("\ufeff")
    head, _, _ = text.partition("\n")
    mark = max(",;\t", key=head.count)
    rows = [row for row in csv.reader(io.StringIO(text), delimiter=mark) if any(cell.strip() for cell in row)]
    if len(rows) < 2:
        raise Unreadable("Line 2: the table has no rows under its header.")
    titles = [title.strip().lower() for title in rows[0]]
    place = {
        name: titles.index(alias) for name, known in _CSV_NAMES.items() for alias in known if alias in titles
    }
    if "temperature_c" not in place:
        raise Unreadable(f"Line 1: no column is called temperature_c; there are {', '.join(titles)}.")
    values: dict[str, Floats] = {}
    for name, column in place.items():
        if name == "time":
            continue
        numbers = np.full(len(rows) - 1, np.nan)
        for n, row in enumerate(rows[1:]):
            cell = row[column].strip() if column < len(row) else ""
            if cell:
                numbers[n] = number(cell if mark == "," else cell.replace(",", "."), n + 2, column + 1, name)
        values[name] = numbers
    if "relative_humidity" in values and np.nanmax(values["relative_humidity"], initial=0.0) > 1.5:
        values["relative_humidity"] = values["relative_humidity"] / 100.0
    optional = {
        name: series_or_none(name, numbers, ~np.isfinite(numbers), 2)
        for name, numbers in values.items()
        if name != "temperature_c"
    }
    temperature = bridge("temperature_c", values["temperature_c"], False, 2)
    if "time" in place:
        start = _first_moment([row[place["time"]] for row in rows[1:]], place["time"] + 1, utc_offset_h)
    else:
        start = start_of_year(year_for(temperature.size, year, "table without a time column"), utc_offset_h)
    return Hourly(
        start=start,
        temperature_c=temperature,
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        elevation_m=elevation_m,
        utc_offset_h=utc_offset_h,
        source=source,
        **optional,
    )


def _first_moment(cells: Sequence[str], column: int, utc_offset_h: float) -> datetime:
    """The first moment of a time column, after seeing that each row is one hour after the last."""
    due: datetime | None = None
    first: datetime | None = None
    for line, cell in enumerate(cells, 2):
        try:
            moment = datetime.fromisoformat(cell.strip())
        except ValueError:
            raise Unreadable(
                f"Line {line}, column {column} (time): {cell.strip()!r} is no moment like 2026-01-31 17:00."
            ) from None
        if moment.tzinfo is None:
            moment = (moment - timedelta(hours=utc_offset_h)).replace(tzinfo=UTC)
        if due is not None and moment != due:
            raise Unreadable(
                f"Line {line}, column {column} (time): {cell.strip()} is not one hour after the row before."
            )
        first = first or moment
        due = moment + timedelta(hours=1)
    assert first is not None
    return first.astimezone(UTC)
