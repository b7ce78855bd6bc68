"""The weather as a wood stack feels it: how thirsty the air is, and how much rain falls, day by day."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from importlib.resources import files
from typing import Annotated

import numpy as np

from woodreeve.errors import OutOfRange, Unknown, UnknownName
from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.weather.degree_days import Temperatures
from woodreeve.weather.humidity import saturation_pressure
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

__all__ = [
    "REFERENCE_POWER_KPA",
    "DryingWeather",
    "drying_power",
    "drying_weather",
    "trial_climate",
    "weather_from_months",
]

REFERENCE_POWER_KPA = 0.5
"""Drying power at which drying rates are quoted: a fair late-spring day. [kPa]"""

LEAST_POWER_KPA = 0.005
"""Below this the air is as good as saturated; keeps a rate above nought. [kPa]"""

WETTEST_AIR = 0.95
"""Day means above this are taken as this: stacks do not feel fog as soaking. [-]"""

TYPICAL_RAIN_MM = 60.0
"""Rain of a month where a weather source tells no rain: a middling month of Europe, from memory. [mm]"""

MID_MONTH_DAY = (15, 45, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349)
"""Day of the year on which each month's mean is taken to fall."""


@worked
def drying_power(
    air_c: Temperatures, relative_humidity: Annotated[Floats, Unit("-"), Ge(0.0), Le(1.0)]
) -> Annotated[Floats, Unit("kPa"), Ge(0.0), Le(20.0)]:
    r"""How thirsty the air is: its vapour pressure short of saturation.

    Warm dry days draw water out of a stack several times as fast as cold damp ones; a stack gains
    more in a fair May than in the whole of winter.

    Parameters
    ----------
    air_c : Floats
        Mean air temperature of the day, :math:`T`. [degC] From -60 to 60.
    relative_humidity : Floats
        Mean relative humidity of the day, :math:`h`; more than 0.95 counts as 0.95. [-] From 0 to 1.

    Returns
    -------
    Floats
        Drying power, at least 0.005. [kPa]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: D = e_s(T)\,(1 - h)

    Day means go in, because the trials behind the drying rate were run on means: the true mean over
    the hours is higher, and the fitted rate already holds the difference.

    References
    ----------
    .. [1] Definition; :math:`e_s` as in :func:`woodreeve.weather.humidity.saturation_pressure`.

    Examples
    --------
    >>> float(drying_power(np.array([15.0]), np.array([0.70]))[0].round(3))
    0.511
    """
    humidity = np.minimum(np.asarray(relative_humidity, dtype=float), WETTEST_AIR)
    power: Floats = np.maximum(saturation_pressure(air_c) / 1000.0 * (1.0 - humidity), LEAST_POWER_KPA)
    return power


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingWeather:
    """Day by day, what a stack's drying follows from.

    Parameters
    ----------
    start : date
        First day.
    air_c : array
        Mean air temperature of each day. [degC]
    relative_humidity : array
        Mean relative humidity of each day. [-]
    rain_mm_month : array
        Rain as a rate: millimetres a month around that day. [mm/month]
    known_days : int
        So many days from the start are measured; the rest is a typical year, and uncertain.
    rain_known : bool
        Whether the rain comes from the source; else a middling amount was taken.
    source : str
        Where the figures come from.
    """

    start: date
    air_c: Floats
    relative_humidity: Floats
    rain_mm_month: Floats
    known_days: int = 0
    rain_known: bool = True
    source: str = ""

    def __post_init__(self) -> None:
        """See that the series are of one length and make them read-only."""
        for name in ("air_c", "relative_humidity", "rain_mm_month"):
            values = np.ascontiguousarray(getattr(self, name), dtype=np.float64)
            if values.ndim != 1 or values.size == 0 or values.size != np.size(self.air_c):
                raise OutOfRange(
                    name, f"{values.size} days long", f"{np.size(self.air_c)} days long, like air_c"
                )
            values.setflags(write=False)
            object.__setattr__(self, name, values)

    @property
    def days(self) -> int:
        """How many days there are."""
        return int(self.air_c.size)

    @property
    def end(self) -> date:
        """The day after the last."""
        return self.start + timedelta(days=self.days)

    def span(self, start: date, days: int) -> DryingWeather:
        """A part of it.

        Raises
        ------
        Unknown
            If it does not reach so far.
        """
        first = (start - self.start).days
        if first < 0 or first + days > self.days:
            raise Unknown(
                f"The weather reaches from {self.start} to {self.end - timedelta(days=1)}, "
                f"but {days} days from {start} are wanted."
            )
        part = slice(first, first + days)
        return DryingWeather(
            start=start,
            air_c=self.air_c[part],
            relative_humidity=self.relative_humidity[part],
            rain_mm_month=self.rain_mm_month[part],
            known_days=min(max(self.known_days - first, 0), days),
            rain_known=self.rain_known,
            source=self.source,
        )

    def followed_by(self, typical: DryingWeather) -> DryingWeather:
        """Join a typical course to measured weather, from the day it ends on.

        Raises
        ------
        Unknown
            If the other does not reach back to that day.
        """
        later = typical.span(self.end, (typical.end - self.end).days)
        return DryingWeather(
            start=self.start,
            air_c=np.concatenate([self.air_c, later.air_c]),
            relative_humidity=np.concatenate([self.relative_humidity, later.relative_humidity]),
            rain_mm_month=np.concatenate([self.rain_mm_month, later.rain_mm_month]),
            known_days=self.days,
            rain_known=self.rain_known and later.rain_known,
            source=f"{self.source}; then {later.source}",
        )


def drying_weather(hourly: Hourly, *, measured: bool) -> DryingWeather:
    """Fold hours to what drying follows from, day by day.

    Parameters
    ----------
    hourly : Hourly
        Weather; relative humidity is needed. Where there is no rain, a middling month is taken and
        ``rain_known`` says so.
    measured : bool
        Whether these hours truly happened (else they are a typical year).

    Returns
    -------
    DryingWeather
        One value for each whole day; the rain is that of 15 days before and after.

    Raises
    ------
    Unknown
        If the source tells no humidity: without it nobody can say how wood dries.
    """
    days = hourly.days
    if hourly.rain_mm is None:
        rain = np.full(days, TYPICAL_RAIN_MM)
    else:
        sums = np.concatenate([[0.0], np.cumsum(hourly.by_day("rain_mm").sum(axis=1))])
        day = np.arange(days)
        first, last = np.maximum(day - 15, 0), np.minimum(day + 16, days)
        rain = (sums[last] - sums[first]) / (last - first) * (365.0 / 12.0)
    return DryingWeather(
        start=hourly.local_hours()[0].astype("datetime64[D]").item(),
        air_c=hourly.day_means("temperature_c"),
        relative_humidity=hourly.day_means("relative_humidity"),
        rain_mm_month=rain,
        known_days=days if measured else 0,
        rain_known=hourly.rain_mm is not None,
        source=hourly.source,
    )


def weather_from_months(
    air_c: Sequence[float],
    relative_humidity: Sequence[float],
    rain_mm: Sequence[float] | None,
    *,
    start: date,
    days: int,
    source: str = "month means",
) -> DryingWeather:
    """Join month means by straight lines to typical days.

    Parameters
    ----------
    air_c : sequence
        Mean temperature of the twelve months. [degC]
    relative_humidity : sequence
        Mean relative humidity of the twelve months. [-]
    rain_mm : sequence or None
        Rain of the twelve months. [mm]
    start : date
        First day wanted.
    days : int
        How many days.
    source : str
        Where the means come from.

    Returns
    -------
    DryingWeather
        Typical days, none of them measured.
    """
    middle = np.array(MID_MONTH_DAY, dtype=float)
    around = np.concatenate([[middle[-1] - 365.0], middle, [middle[0] + 365.0]])
    calendar = [start + timedelta(days=k) for k in range(days)]
    place_in_year = np.array([min((day - day.replace(month=1, day=1)).days, 364) + 0.5 for day in calendar])

    def joined(months: Sequence[float]) -> Floats:
        values = np.asarray(months, dtype=float)
        if values.shape != (12,):
            raise OutOfRange("month means", f"{values.size} values", "12 values")
        by_day: Floats = np.interp(place_in_year, around, np.concatenate([[values[-1]], values, [values[0]]]))
        return by_day

    return DryingWeather(
        start=start,
        air_c=joined(air_c),
        relative_humidity=joined(relative_humidity),
        rain_mm_month=joined(rain_mm if rain_mm is not None else [TYPICAL_RAIN_MM] * 12),
        rain_known=rain_mm is not None,
        source=source,
    )


@lru_cache(maxsize=1)
def _trial_climates() -> dict[str, list[tuple[float, float, float]]]:
    climates: dict[str, list[tuple[float, float, float]]] = {}
    with (files("woodreeve.wood") / "data" / "drying_climates.csv").open(encoding="utf-8") as sheet:
        for row in csv.DictReader(sheet):
            climates.setdefault(row["place"], []).append(
                (float(row["air_c"]), float(row["relative_humidity_percent"]) / 100.0, float(row["rain_mm"]))
            )
    return climates


def trial_climate(place: str, *, start: date, days: int) -> DryingWeather:
    """Typical days of a place where drying was tried.

    Parameters
    ----------
    place : str
        As in the sheet of climates, for instance ``"Denmark"``.
    start : date
        First day wanted.
    days : int
        How many days.

    Returns
    -------
    DryingWeather
        From month means given from memory, good to about 1 K, 5 % humidity and 15 mm.

    Raises
    ------
    UnknownName
        If the place is not in the sheet.
    """
    climates = _trial_climates()
    if place not in climates:
        raise UnknownName("place with a drying trial", place, climates)
    air_c, humidity, rain_mm = zip(*climates[place], strict=True)
    return weather_from_months(
        air_c, humidity, rain_mm, start=start, days=days, source=f"{place}, month means from memory"
    )
