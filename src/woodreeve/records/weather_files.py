"""Hourly weather read from files of every form we know."""

from __future__ import annotations

import io
from pathlib import Path

from woodreeve.errors import Unreadable
from woodreeve.weather.readers import read_epw, read_tmy
from woodreeve.weather.series import Hourly
from woodreeve.weather.tables import read_csv, read_dwd_try

__all__ = ["read_weather"]


def read_weather(path: Path) -> Hourly:
    """Read hourly weather from a file of any form we know, told by its content.

    Parameters
    ----------
    path : Path
        The file: EPW, DWD test reference year, TMY3, PVGIS (CSV or JSON) or a plain table.

    Returns
    -------
    Hourly
        The weather.

    Raises
    ------
    Unreadable
        If the file cannot be opened, or is of none of these forms.
    """
    try:
        text = path.read_text("latin-1")
    except OSError as error:
        raise Unreadable(f"The weather file {path} cannot be read: {error.strerror}.") from error
    try:
        return _read_weather(text, path.name)
    except Unreadable as error:
        raise Unreadable(f"The weather file {path.name} cannot be read: {error}") from error


def _read_weather(text: str, name: str) -> Hourly:
    head = text[:4000]
    first = head.split("\n", 1)[0]
    stream = io.StringIO(text)
    if first.startswith("LOCATION,"):
        return read_epw(stream)
    if "\n***" in text[:12_000] or head.startswith("***"):
        return read_dwd_try(stream)
    if head.lstrip().startswith("{"):
        return read_tmy(stream, form="pvgis_json")
    if first.startswith("Latitude (decimal degrees)"):
        return read_tmy(stream, form="pvgis_csv")
    if "Date (MM/DD/YYYY)" in head:
        return read_tmy(stream, form="tmy3")
    return read_csv(stream, source=name)
