"""The weather hour by hour: a year or any span of it, as plain arrays.

Value number k belongs to the hour that begins k hours after ``start``. Days and months are those
of local standard time (no summer time), because that is how weather files and the sun keep time.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import UTC, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from woodreeve.errors import OutOfRange, Unknown, WrongKind
from woodreeve.units import Floats

__all__ = ["DAYS_IN_MONTH", "HOURS_IN_YEAR", "SERIES_BOUNDS", "Hourly", "start_of_year"]

DAYS_IN_MONTH = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
"""Days of the twelve months of an ordinary year. [day]"""

HOURS_IN_YEAR = 8760
"""Hours of an ordinary year. [h]"""

SERIES_BOUNDS: dict[str, tuple[str, float, float]] = {
    "temperature_c": ("degC", -60.0, 60.0),
    "relative_humidity": ("-", 0.0, 1.0),
    "wind_m_s": ("m/s", 0.0, 80.0),
    "rain_mm": ("mm", 0.0, 400.0),
    "sun_w_m2": ("W/m2", 0.0, 1500.0),
    "diffuse_w_m2": ("W/m2", 0.0, 1000.0),
}
"""What a weather value may be: unit, lowest and highest, well outside anything met in Europe."""


def start_of_year(year: int, utc_offset_h: float) -> datetime:
    """The moment, in UTC, at which a year begins in local standard time."""
    return datetime(year, 1, 1, tzinfo=UTC) - timedelta(hours=utc_offset_h)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hourly:
    """Weather hour by hour at one place.

    Parameters
    ----------
    start : datetime
        Beginning of the first hour; must know its offset.
    temperature_c : array
        Outdoor air temperature. [degC]
    relative_humidity : array, optional
        Relative humidity as a share. [-]
    wind_m_s : array, optional
        Wind at 10 m. [m/s]
    rain_mm : array, optional
        Rain of each hour. [mm]
    sun_w_m2 : array, optional
        Global sun on level ground, mean of the hour. [W/m2]
    diffuse_w_m2 : array, optional
        The part of it that comes from the whole sky. [W/m2]
    latitude_deg, longitude_deg, elevation_m : float, optional
        Where it is (north and east are positive).
    utc_offset_h : float
        Local standard time minus UTC. [h]
    source : str
        Where the figures come from, for the owner and for the licence.

    Raises
    ------
    OutOfRange
        If a value lies outside what weather can be, or series differ in length.
    WrongKind
        If ``start`` does not know its offset from UTC.
    """

    start: datetime
    temperature_c: Floats
    relative_humidity: Floats | None = None
    wind_m_s: Floats | None = None
    rain_mm: Floats | None = None
    sun_w_m2: Floats | None = None
    diffuse_w_m2: Floats | None = None
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    elevation_m: float | None = None
    utc_offset_h: float = 0.0
    source: str = ""

    def __post_init__(self) -> None:
        """Look at every series once, so that all later arithmetic may trust it."""
        if self.start.tzinfo is None:
            raise WrongKind("start", self.start.isoformat(), "a moment with its offset from UTC")
        for item in fields(self):
            if item.name not in SERIES_BOUNDS or (given := getattr(self, item.name)) is None:
                continue
            values = np.ascontiguousarray(given, dtype=np.float64)
            values.setflags(write=False)
            object.__setattr__(self, item.name, values)
            _refuse_odd(item.name, values, self.temperature_c)
        where = (("latitude_deg", self.latitude_deg, 90), ("longitude_deg", self.longitude_deg, 180))
        for name, value, most in where:
            if value is not None and not abs(value) <= most:
                raise OutOfRange(name, f"{value:g}", f"between -{most} and {most}", "deg")

    @property
    def hours(self) -> int:
        """How many hours there are."""
        return int(self.temperature_c.size)

    @property
    def days(self) -> int:
        """How many whole days there are, counted from the first hour."""
        return self.hours // 24

    def local_hours(self) -> NDArray[np.datetime64]:
        """The beginning of each hour in local standard time."""
        utc = self.start.astimezone(UTC).replace(tzinfo=None)
        first = np.datetime64(utc + timedelta(hours=self.utc_offset_h), "m")
        return first + np.arange(self.hours) * np.timedelta64(60, "m")

    def month_numbers(self) -> NDArray[np.int64]:
        """Month of each hour, 1 to 12, in local standard time."""
        months: NDArray[np.int64] = self.local_hours().astype("datetime64[M]").astype(np.int64) % 12 + 1
        return months

    def hour_of_day(self) -> Floats:
        """Local standard clock hour at which each hour begins, 0 to 24."""
        moments = self.local_hours()
        return np.asarray((moments - moments.astype("datetime64[D]")) / np.timedelta64(60, "m"), dtype=float)

    def day_of_year(self) -> NDArray[np.int64]:
        """Number of the day in its year, 1 to 366, for each hour."""
        moments = self.local_hours()
        days: NDArray[np.int64] = (moments.astype("datetime64[D]") - moments.astype("datetime64[Y]")).astype(
            np.int64
        )
        return days + 1

    def place(self) -> tuple[float, float]:
        """Latitude and longitude. [deg].

        Raises
        ------
        Unknown
            If the weather does not say where it is.
        """
        if self.latitude_deg is None or self.longitude_deg is None:
            raise Unknown(f"The weather from {self.source or 'this source'} does not say where it is.")
        return self.latitude_deg, self.longitude_deg

    def field(self, name: str) -> Floats:
        """One of the series by its name.

        Raises
        ------
        Unknown
            If this weather has no such series.
        """
        values: Floats | None = getattr(self, name) if name in SERIES_BOUNDS else None
        if values is None:
            raise Unknown(f"The weather from {self.source or 'this source'} has no {name}.")
        return values

    def by_day(self, name: str) -> Floats:
        """One series folded to days (rows) of 24 hours; a last part of a day is left out."""
        return self.field(name)[: self.days * 24].reshape(-1, 24)

    def day_means(self, name: str = "temperature_c") -> Floats:
        """Means of whole days."""
        return np.asarray(self.by_day(name).mean(axis=1), dtype=float)

    def day_months(self) -> NDArray[np.int64]:
        """Month of each whole day, 1 to 12."""
        return self.month_numbers()[: self.days * 24 : 24]

    def month_means(self, name: str = "temperature_c") -> Floats:
        """Twelve month means; NaN where a month is not in the series."""
        months = self.month_numbers()
        counts = np.bincount(months, minlength=13)[1:]
        sums = np.bincount(months, weights=self.field(name), minlength=13)[1:]
        return np.asarray(np.divide(sums, counts, out=np.full(12, np.nan), where=counts > 0), dtype=float)

    def month_sums(self, name: str) -> Floats:
        """Twelve month sums of hourly values."""
        sums = np.bincount(self.month_numbers(), weights=self.field(name), minlength=13)[1:]
        return np.asarray(sums, dtype=float)


def _refuse_odd(name: str, values: Floats, temperature_c: Floats) -> None:
    unit, low, high = SERIES_BOUNDS[name]
    if values.ndim != 1 or values.size == 0 or values.size != np.size(temperature_c):
        raise OutOfRange(
            name, f"{values.size} values long", f"{np.size(temperature_c)} values long, like temperature_c"
        )
    bad = ~((values >= low) & (values <= high))
    if bad.any():
        where = int(np.argmax(bad))
        raise OutOfRange(
            f"{name} of hour {where + 1}", f"{values[where]:g}", f"between {low:g} and {high:g}", unit
        )
