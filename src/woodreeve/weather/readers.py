"""Weather files: what each format means by its rows and columns, read from an open text stream.

Every reader gives :class:`~woodreeve.weather.series.Hourly`. Typical years join months of different
years, so the year in the file is not trusted: rows are taken in their order as the hours of ``year``.
"""

from __future__ import annotations

import io
from typing import Any, Literal, TextIO

import numpy as np

from woodreeve.errors import Unreadable
from woodreeve.units import Floats
from woodreeve.weather.rows import NOMINAL_YEAR, bridge, check_numbers, number, series_or_none, year_for
from woodreeve.weather.series import Hourly, start_of_year
from woodreeve.weather.tables import read_csv, read_dwd_try

__all__ = ["NOMINAL_YEAR", "read_csv", "read_dwd_try", "read_epw", "read_tmy"]

_EPW_COLUMNS = {
    6: "dry bulb temperature",
    8: "relative humidity",
    13: "global horizontal radiation",
    15: "diffuse horizontal radiation",
    21: "wind speed",
}


def read_epw(stream: TextIO, *, year: int = NOMINAL_YEAR) -> Hourly:
    """Read an EnergyPlus weather file (EPW).

    Parameters
    ----------
    stream : text stream
        The open file.
    year : int
        The year its hours are laid on.

    Returns
    -------
    Hourly
        The weather, in local standard time; no rain (these files hold only a code for it).

    Raises
    ------
    Unreadable
        With line and column, if this is no EPW file or a number cannot be read.

    Notes
    -----
    Eight header lines; hour 1 is the hour that ends at 01:00. A value at or above its missing code
    counts as missing.

    References
    ----------
    .. [1] EnergyPlus, "Auxiliary Programs", EPW data dictionary (read through pvlib).
    """
    text = stream.read().lstrip("\ufeff")
    lines = text.splitlines()
    if not lines or not lines[0].upper().startswith("LOCATION"):
        raise Unreadable("Line 1: an EPW file begins with LOCATION.")
    if len(lines) < 9:
        raise Unreadable(f"Line {len(lines)}: the file ends before the first hour; EPW has 8 header lines.")
    check_numbers((line.split(",") for line in lines[8:]), _EPW_COLUMNS, 9, "EPW")
    head = lines[0].split(",")
    if len(head) < 10:
        raise Unreadable(
            f"Line 1: {len(head)} fields, but LOCATION has 10 (latitude, longitude, zone, height)."
        )
    for column, name in ((6, "latitude"), (7, "longitude"), (8, "time zone"), (9, "elevation")):
        number(head[column], 1, column + 1, name)
    from pvlib import iotools

    data, place = iotools.read_epw(io.StringIO("\n".join(lines) + "\n"), coerce_year=NOMINAL_YEAR)
    temperature = data["temp_air"].to_numpy(dtype=float)
    humidity = data["relative_humidity"].to_numpy(dtype=float)
    wind = data["wind_speed"].to_numpy(dtype=float)
    sun = data["ghi"].to_numpy(dtype=float)
    diffuse = data["dhi"].to_numpy(dtype=float)
    offset = float(place["TZ"])
    return Hourly(
        start=start_of_year(year_for(temperature.size, year, "EPW file"), offset),
        temperature_c=bridge("temperature_c", temperature, temperature >= 99.9, 9),
        relative_humidity=series_or_none("relative_humidity", humidity / 100.0, humidity >= 999, 9),
        wind_m_s=series_or_none("wind_m_s", wind, wind >= 999, 9),
        sun_w_m2=series_or_none("sun_w_m2", sun, sun >= 9999, 9),
        diffuse_w_m2=series_or_none("diffuse_w_m2", diffuse, diffuse >= 9999, 9),
        latitude_deg=float(place["latitude"]),
        longitude_deg=float(place["longitude"]),
        elevation_m=float(place["altitude"]),
        utc_offset_h=offset,
        source=f"{place['city']} ({place['country']}), EPW file, data: {place['data_type']}",
    )


def read_tmy(
    stream: TextIO, *, form: Literal["tmy3", "pvgis_csv", "pvgis_json"] = "tmy3", year: int = NOMINAL_YEAR
) -> Hourly:
    """Read a typical meteorological year: American TMY3, or PVGIS as CSV or JSON.

    Parameters
    ----------
    stream : text stream
        The open file.
    form : {"tmy3", "pvgis_csv", "pvgis_json"}
        Which of them it is.
    year : int
        The year its hours are laid on.

    Returns
    -------
    Hourly
        The weather; TMY3 in local standard time, PVGIS in UTC as it comes.

    Raises
    ------
    Unreadable
        If the file is not of this form.

    References
    ----------
    .. [1] S. Wilcox and W. Marion, "Users Manual for TMY3 Data Sets", NREL/TP-581-43156, 2008.
    .. [2] European Commission, JRC, PVGIS typical meteorological year (both read through pvlib).
    """
    from pvlib import iotools

    text = stream.read()
    try:
        if form == "tmy3":
            data, place = iotools.read_tmy3(io.StringIO(text), map_variables=True)
            latitude, longitude = float(place["latitude"]), float(place["longitude"])
            height, offset = float(place["altitude"]), float(place["TZ"])
            source = f"{str(place['Name']).strip()}, TMY3 (NREL)"
        else:
            source_of: Any = io.BytesIO(text.encode()) if form == "pvgis_csv" else io.StringIO(text)
            data, place = iotools.read_pvgis_tmy(source_of, pvgis_format=form.removeprefix("pvgis_"))
            here = place.get("inputs", place)
            here = here.get("location", here)
            latitude, longitude = float(here["latitude"]), float(here["longitude"])
            height, offset = float(here["elevation"]), 0.0
            source = "PVGIS typical meteorological year (European Commission, JRC)"
    except Unreadable:
        raise
    except (ValueError, KeyError, IndexError, TypeError, AttributeError, UnicodeError) as error:
        raise Unreadable(f"This is not a {form} file: {error}.") from error
    first_line = 3 if form == "tmy3" else 18

    def column(name: str, scale: float = 1.0) -> Floats | None:
        if name not in data:
            return None
        values: Floats = data[name].to_numpy(dtype=float) * scale
        return values

    def series(name: str, values: Floats | None) -> Floats | None:
        return (
            None
            if values is None
            else series_or_none(name, values, (values < -99) | ~np.isfinite(values), first_line)
        )

    temperature = column("temp_air")
    if temperature is None:
        raise Unreadable(f"This {form} file has no air temperature.")
    return Hourly(
        start=start_of_year(year_for(temperature.size, year, f"{form} file"), offset),
        temperature_c=bridge("temperature_c", temperature, temperature < -90, first_line),
        relative_humidity=series("relative_humidity", column("relative_humidity", 0.01)),
        wind_m_s=series("wind_m_s", column("wind_speed")),
        sun_w_m2=series("sun_w_m2", column("ghi")),
        diffuse_w_m2=series("diffuse_w_m2", column("dhi")),
        latitude_deg=latitude,
        longitude_deg=longitude,
        elevation_m=height,
        utc_offset_h=offset,
        source=source,
    )
