"""Normals: twelve month means of a place's weather, looked up or read off a year of hours."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Annotated, Any

from woodreeve.errors import OutOfRange, Unknown
from woodreeve.units import Asks, Ge, Le, Unit, bounds_of, metadata_of, unit_of
from woodreeve.weather.climate import day_to_day_correlation
from woodreeve.weather.series import Hourly

__all__ = ["Normals", "Twelve", "normals_of"]

Twelve = tuple[float, ...]
"""Twelve values, January to December."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Normals:
    """Twelve month means of the weather of a place, January to December.

    Parameters
    ----------
    temperature_c : tuple of 12
        Mean temperature. [degC]
    swing_k : tuple of 12, optional
        Mean of each day's highest less its lowest temperature. [K]
    day_noise_sd_k : tuple of 12, optional
        Standard deviation of the daily means within the month. [K]
    relative_humidity : tuple of 12, optional
        Mean relative humidity, as a share. [-]
    wind_m_s : tuple of 12, optional
        Mean wind at 10 m. [m/s]
    rain_mm : tuple of 12, optional
        Rain of the month. [mm]
    wet_days : tuple of 12, optional
        Days with rain. [day]
    sun_kwh_m2 : tuple of 12, optional
        Global sun on level ground, month sum. [kWh/m2]
    persistence : float
        Correlation of a day's departure with the next day's. [-]
    latitude_deg, longitude_deg, elevation_m : float, optional
        Where it is.
    utc_offset_h : float
        Local standard time less UTC. [h]
    source : str
        Who says so.
    """

    temperature_c: Annotated[
        Twelve,
        Unit("degC"),
        Ge(-40.0),
        Le(45.0),
        Asks("Mean temperature of each month", "January to December, from the nearest weather station."),
    ]
    swing_k: Annotated[
        Twelve | None,
        Unit("K"),
        Ge(0.5),
        Le(25.0),
        Asks("Daily swing", "Mean daily highest less mean daily lowest temperature, month by month."),
    ] = None
    day_noise_sd_k: Annotated[
        Twelve | None,
        Unit("K"),
        Ge(0.3),
        Le(10.0),
        Asks("Spread of daily means", "Standard deviation of daily means within a month; 3 K is usual."),
    ] = None
    relative_humidity: Annotated[
        Twelve | None,
        Unit("-"),
        Ge(0.2),
        Le(0.99),
        Asks("Mean relative humidity", "As a share: 0.85 is 85 %."),
    ] = None
    wind_m_s: Annotated[
        Twelve | None, Unit("m/s"), Ge(0.1), Le(20.0), Asks("Mean wind", "At 10 m over open ground.")
    ] = None
    rain_mm: Annotated[
        Twelve | None, Unit("mm"), Ge(0.0), Le(1500.0), Asks("Rain of each month", "Sum of the month.")
    ] = None
    wet_days: Annotated[
        Twelve | None, Unit("day"), Ge(0.0), Le(31.0), Asks("Days with rain", "1 mm or more.")
    ] = None
    sun_kwh_m2: Annotated[
        Twelve | None,
        Unit("kWh/m2"),
        Ge(0.0),
        Le(300.0),
        Asks("Sun of each month", "Global sun on level ground."),
    ] = None
    persistence: Annotated[
        float, Unit("-"), Ge(0.0), Le(0.95), Asks("Persistence", "How much a cold day foretells the next.")
    ] = 0.67
    latitude_deg: Annotated[
        float | None, Unit("deg"), Ge(-90.0), Le(90.0), Asks("Latitude", "North positive.")
    ] = None
    longitude_deg: Annotated[
        float | None, Unit("deg"), Ge(-180.0), Le(180.0), Asks("Longitude", "East positive.")
    ] = None
    elevation_m: Annotated[
        float | None, Unit("m"), Ge(-400.0), Le(5000.0), Asks("Height above sea", "Of the station.")
    ] = None
    utc_offset_h: Annotated[
        float, Unit("h"), Ge(-12.0), Le(14.0), Asks("Standard time less UTC", "0 for Britain and Ireland.")
    ] = 0.0
    source: Annotated[str, Asks("Source", "Station, years and who published them.")] = ""

    def __post_init__(self) -> None:
        """See that every set of normals has twelve values within its range."""
        hints = _hints()
        for item in fields(self):
            value = getattr(self, item.name)
            if not isinstance(value, tuple | list):
                continue
            if len(value) != 12:
                raise OutOfRange(
                    item.name, f"{len(value)} values long", "12 values long, January to December"
                )
            object.__setattr__(self, item.name, tuple(float(v) for v in value))
            bounds, unit = bounds_of(hints[item.name]), unit_of(hints[item.name]) or "-"
            for month, number in enumerate(value, 1):
                if not bounds.admit(number):
                    raise OutOfRange(f"{item.name}, month {month}", f"{number:g}", bounds.words(), unit)


def _hints() -> dict[str, Any]:
    from typing import get_type_hints

    hints = get_type_hints(Normals, include_extras=True)
    return {name: hint for name, hint in hints.items() if metadata_of(hint)}


def normals_of(hourly: Hourly) -> Normals:
    """Twelve month means, swings and spreads read off a year of hourly weather.

    Parameters
    ----------
    hourly : Hourly
        A whole year.

    Returns
    -------
    Normals
        Its normals; from them :func:`typical_year` makes a year like it.

    Raises
    ------
    Unknown
        If a month is missing.
    """
    months = hourly.day_months()
    if set(months.tolist()) != set(range(1, 13)):
        raise Unknown("Normals need a whole year of hours; some month is missing.")
    by_day = hourly.by_day("temperature_c")
    means, swing = by_day.mean(axis=1), by_day.max(axis=1) - by_day.min(axis=1)

    def optional(name: str) -> Twelve | None:
        return None if getattr(hourly, name) is None else tuple(hourly.month_means(name).tolist())

    def summed(name: str, scale: float) -> Twelve | None:
        return None if getattr(hourly, name) is None else tuple((hourly.month_sums(name) * scale).tolist())

    return Normals(
        temperature_c=tuple(hourly.month_means("temperature_c").tolist()),
        swing_k=tuple(float(swing[months == m].mean()) for m in range(1, 13)),
        day_noise_sd_k=tuple(float(means[months == m].std(ddof=1)) for m in range(1, 13)),
        relative_humidity=optional("relative_humidity"),
        wind_m_s=optional("wind_m_s"),
        rain_mm=summed("rain_mm", 1.0),
        sun_kwh_m2=summed("sun_w_m2", 0.001),
        persistence=min(0.95, max(0.0, float(day_to_day_correlation(hourly.temperature_c)))),
        latitude_deg=hourly.latitude_deg,
        longitude_deg=hourly.longitude_deg,
        elevation_m=hourly.elevation_m,
        utc_offset_h=hourly.utc_offset_h,
        source=hourly.source,
    )
