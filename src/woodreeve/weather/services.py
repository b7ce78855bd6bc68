"""What forecast services answer, read strictly: a reply not as it should be is refused in a sentence.

Only the text of a reply is read here; fetching it is the business of :mod:`woodreeve.links.forecast`.
"""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta, timezone
from typing import Any, Literal, TypeAlias, get_args

import numpy as np

from woodreeve.errors import OutOfRange, UnknownName, Unreadable
from woodreeve.units import Floats
from woodreeve.weather.cloud import sun_under_cloud
from woodreeve.weather.forecast import Forecast
from woodreeve.weather.series import SERIES_BOUNDS, Hourly
from woodreeve.weather.sunpath import sun_path_of

__all__ = ["ATTRIBUTIONS", "SERVICES", "Answer", "Service", "read_answer"]

Service: TypeAlias = Literal["met_norway", "open_meteo"]
SERVICES: tuple[Service, ...] = get_args(Service)

ATTRIBUTIONS: Mapping[Service, str] = {
    "met_norway": "Forecast: MET Norway (api.met.no), CC BY 4.0",
    "open_meteo": "Forecast: Open-Meteo.com, CC BY 4.0, for non-commercial use",
}
"""Whom to thank, as the licences ask."""

LONGEST_STEP_H = 6.0
"""Longer steps are not bridged: the forecast ends before the gap. [h]"""

LEAST_HOURS = 12
"""A forecast that covers less is of no use and most likely broken. [h]"""

Knots = list[tuple[datetime, float | None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A service's reply as it came, to be kept.

    Parameters
    ----------
    source : str
        The service.
    fetched : datetime
        When it was asked.
    latitude_deg, longitude_deg : float
        The place asked for.
    text : str
        The body of the reply.
    ask_again : datetime
        Not to be asked again before.
    last_modified : str
        The service's own mark of this version, to ask whether there is a newer one.
    """

    source: Service
    fetched: datetime
    latitude_deg: float
    longitude_deg: float
    text: str
    ask_again: datetime
    last_modified: str = ""


def read_answer(answer: Answer) -> Forecast:
    """Read a reply.

    Parameters
    ----------
    answer : Answer
        The reply, as it came.

    Returns
    -------
    Forecast
        The hours it covers from its first one on.

    Raises
    ------
    Unreadable
        If it is no JSON, lacks its temperatures, is in other units than asked for, is in disorder, covers
        too little, or is already past.
    UnknownName
        If nobody knows this service.

    Notes
    -----
    Temperatures, wind, damp and cloud are told for moments; an hour gets the value in its middle, on a
    straight line between them. Steps of up to six hours are bridged, which rounds off the afternoon.
    Missing values of temperature end the forecast where the gap is longer; other elements with such gaps
    are left out.
    """
    readers = {"met_norway": _met_norway, "open_meteo": _open_meteo}
    if answer.source not in readers:
        raise UnknownName("forecast service", answer.source, readers)
    try:
        body = json.loads(answer.text)
    except (ValueError, RecursionError) as error:
        raise Unreadable(f"The reply of {answer.source} is no JSON: {error}.") from error
    try:
        forecast = readers[answer.source](body, answer)
    except (KeyError, TypeError, IndexError, AttributeError) as error:
        missing = f"{type(error).__name__}: {error}"
        raise Unreadable(
            f"The reply of {answer.source} is not of the shape it should have ({missing})."
        ) from error
    except OutOfRange as error:
        raise Unreadable(f"The reply of {answer.source} cannot be true: {error}") from error
    if forecast.ends < answer.fetched + timedelta(hours=LEAST_HOURS):
        raise Unreadable(
            f"The forecast of {answer.source} ends on {forecast.ends:%d %B %Y %H:%M} UTC, "
            f"less than {LEAST_HOURS} hours after it was fetched."
        )
    return forecast


def _met_norway(body: Any, answer: Answer) -> Forecast:
    properties = body["properties"]
    units = properties["meta"]["units"]
    _see_unit(answer, units, "air_temperature", "celsius")
    series = [(_moment(answer, step["time"]), step["data"]) for step in properties["timeseries"]]

    def told(name: str, unit: str, scale: float = 1.0) -> Knots | None:
        if name not in units:
            return None
        _see_unit(answer, units, name, unit)
        return [
            (at, _number(answer, name, data["instant"]["details"].get(name), scale)) for at, data in series
        ]

    frame = _frame(answer, told("air_temperature", "celsius") or [], _height(body))
    rain = None
    if "precipitation_amount" in units:
        _see_unit(answer, units, "precipitation_amount", "mm")
        rain = _rain_of_steps(answer, frame, series)
    cloud = _in_hours(frame, told("cloud_area_fraction", "%", 0.01))
    sun = None if cloud is None else sun_under_cloud(sun_path_of(frame).height_sine, np.clip(cloud, 0.0, 1.0))
    return Forecast(
        source=answer.source,
        fetched=answer.fetched,
        issued=_moment(answer, properties["meta"]["updated_at"]),
        hourly=_filled(
            frame,
            relative_humidity=_in_hours(frame, told("relative_humidity", "%", 0.01)),
            wind_m_s=_in_hours(frame, told("wind_speed", "m/s")),
            rain_mm=rain,
            sun_w_m2=sun,
        ),
        attribution=ATTRIBUTIONS["met_norway"],
    )


def _rain_of_steps(
    answer: Answer, frame: Hourly, series: Iterable[tuple[datetime, Mapping[str, Any]]]
) -> Floats | None:
    """Rain of each hour, from the sums of the next hour or of the next six; ``None`` with a gap."""
    rain = np.full(frame.hours, np.nan)
    for at, data in series:
        first = round((at - frame.start) / timedelta(hours=1))
        for name, length in (("next_6_hours", 6), ("next_1_hours", 1)):
            amount = data.get(name, {}).get("details", {}).get("precipitation_amount")
            value = _number(answer, "precipitation_amount", amount)
            if value is not None and first >= 0:
                rain[first : first + length] = value / length
    return None if np.isnan(rain).any() else rain


def _open_meteo(body: Any, answer: Answer) -> Forecast:
    if body.get("error"):
        raise Unreadable(f"Open-Meteo declined: {str(body.get('reason', 'no reason given'))[:120]}.")
    units, hourly = body["hourly_units"], body["hourly"]
    zone = timezone(timedelta(seconds=float(body["utc_offset_seconds"])))
    times = [_moment(answer, text, zone) for text in hourly["time"]]

    def told(name: str, unit: str, scale: float = 1.0, earlier_h: int = 0) -> Knots | None:
        if name not in hourly:
            return None
        _see_unit(answer, units, name, unit)
        values = hourly[name]
        if len(values) != len(times):
            raise Unreadable(
                f"The reply of open_meteo has {len(values)} values of {name} for {len(times)} hours."
            )
        earlier = timedelta(hours=earlier_h)
        return [(at - earlier, _number(answer, name, v, scale)) for at, v in zip(times, values)]

    frame = _frame(answer, told("temperature_2m", "°C") or [], body.get("elevation"))
    return Forecast(
        source=answer.source,
        fetched=answer.fetched,
        issued=None,
        hourly=_filled(
            frame,
            relative_humidity=_in_hours(frame, told("relative_humidity_2m", "%", 0.01)),
            wind_m_s=_in_hours(frame, told("wind_speed_10m", "m/s")),
            # Sums and means are told at the end of their hour.
            rain_mm=_by_hours(frame, told("precipitation", "mm", earlier_h=1)),
            sun_w_m2=_by_hours(frame, told("shortwave_radiation", "W/m²", earlier_h=1)),
        ),
        attribution=ATTRIBUTIONS["open_meteo"],
    )


def _frame(answer: Answer, knots: Knots, elevation: Any) -> Hourly:
    """The hours that temperatures cover without a long gap."""
    for (before, _), (after, _) in itertools.pairwise(knots):
        if after <= before:
            raise Unreadable(f"The reply of {answer.source} is in disorder at {after:%d %B %H:%M} UTC.")
    known = [(at, value) for at, value in knots if value is not None]
    _, coldest, warmest = SERIES_BOUNDS["temperature_c"]
    for at, value in known:
        if not coldest <= value <= warmest:
            raise Unreadable(
                f"The reply of {answer.source} cannot be true: {value:g} °C at {at:%d %B %H:%M} UTC."
            )
    end = next(
        (
            n
            for n, ((before, _), (after, _)) in enumerate(itertools.pairwise(known), 1)
            if (after - before) > timedelta(hours=LONGEST_STEP_H)
        ),
        len(known),
    )
    known = known[:end]
    hours = int((known[-1][0] - known[0][0]) / timedelta(hours=1)) if known else 0
    if hours < LEAST_HOURS:
        raise Unreadable(
            f"The reply of {answer.source} has temperatures for {hours} hours on end; "
            f"at least {LEAST_HOURS} are wanted."
        )
    start = known[0][0]
    return Hourly(
        start=start,
        temperature_c=_between(start, hours, known),
        latitude_deg=answer.latitude_deg,
        longitude_deg=answer.longitude_deg,
        elevation_m=_number(answer, "elevation", elevation),
        source=answer.source,
    )


def _between(start: datetime, hours: int, known: Iterable[tuple[datetime, float]]) -> Floats:
    """Values in the middle of each hour, on straight lines between moments."""
    at = [(moment - start) / timedelta(hours=1) for moment, _ in known]
    return np.asarray(np.interp(np.arange(hours) + 0.5, at, [value for _, value in known]), dtype=float)


def _in_hours(frame: Hourly, knots: Knots | None) -> Floats | None:
    """Another element told for moments; ``None`` where it is missing or has a long gap."""
    known = [(at, value) for at, value in knots or [] if value is not None]
    if not known:
        return None
    end = frame.start + timedelta(hours=frame.hours)
    edges = [frame.start, *(at for at, _ in known if frame.start <= at <= end), end]
    if any(after - before > timedelta(hours=LONGEST_STEP_H) for before, after in itertools.pairwise(edges)):
        return None
    return _between(frame.start, frame.hours, known)


def _by_hours(frame: Hourly, knots: Knots | None) -> Floats | None:
    """An element told for whole hours; a missing hour at either end counts as its neighbour."""
    values = np.full(frame.hours, np.nan)
    for at, value in knots or []:
        place = round((at - frame.start) / timedelta(hours=1))
        if value is not None and 0 <= place < frame.hours:
            values[place] = value
    missing = np.isnan(values)
    if missing.sum() > LONGEST_STEP_H:
        return None
    return np.asarray(
        np.interp(np.arange(frame.hours), np.flatnonzero(~missing), values[~missing]), dtype=float
    )


def _filled(frame: Hourly, **elements: Floats | None) -> Hourly:
    clipped: dict[str, Any] = {
        name: np.clip(values, *SERIES_BOUNDS[name][1:])
        for name, values in elements.items()
        if values is not None
    }
    return replace(frame, **clipped)


def _height(body: Any) -> Any:
    place = body["geometry"]["coordinates"]
    return place[2] if len(place) > 2 else None


def _see_unit(answer: Answer, units: Mapping[str, str], name: str, wanted: str) -> None:
    if units[name] != wanted:
        raise Unreadable(
            f"The reply of {answer.source} gives {name} in {str(units[name])[:20]}, but {wanted} is wanted."
        )


def _number(answer: Answer, name: str, value: Any, scale: float = 1.0) -> float | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int | float) or not np.isfinite(value):
        raise Unreadable(f"The reply of {answer.source} has {str(value)[:20]!r} for {name}: no number.")
    return float(value) * scale


def _moment(answer: Answer, text: Any, zone: timezone = UTC) -> datetime:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as error:
        raise Unreadable(f"The reply of {answer.source} has {text[:30]!r} for a moment.") from error
    return (moment if moment.tzinfo else moment.replace(tzinfo=zone)).astimezone(UTC)
