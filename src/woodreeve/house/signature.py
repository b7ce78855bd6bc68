"""Energy signature: what the house's own fuel bills say about its heat loss.

Heat of a span is a steady part for each day and a part for each degree day. Metered fuel beats any table
of U-values, with two cautions: a delivery is not the use unless the tank was full before and after it,
and one span alone cannot tell hot water from heating.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated

import numpy as np

from woodreeve.errors import OutOfRange, Unknown
from woodreeve.house.describe import House
from woodreeve.house.hot_water import hot_water_year
from woodreeve.house.parameters import zone_parameters
from woodreeve.house.spans import fuel_spans
from woodreeve.units import Floats, Ge, KilowattHour, Le, Unit, WattPerKelvin
from woodreeve.weather.degree_days import BaseTemperature
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

__all__ = [
    "Signature",
    "fit_signature",
    "heat_loss_from_slope",
    "heat_loss_from_year",
    "signature_heat",
    "signature_of_house",
]

WEATHER_OF_A_YEAR = 0.045
"""Standard deviation of a year's degree days over its mean. [-] (made-up years: 3 to 5 %)"""

Slope = Annotated[float, Unit("kWh/(K*day)"), Ge(0.0), Le(1000.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Signature:
    """A line through heat against degree days.

    Parameters
    ----------
    slope : float
        Heat for each degree day. [kWh/(K*day)]
    slope_error : float
        Its standard error. [kWh/(K*day)]
    intercept_kwh : float
        Heat of a span (or of a day, if days were given) without any degree days. [kWh]
    intercept_error_kwh : float
        Its standard error. [kWh]
    r_squared : float
        How much of the ups and downs the line explains. [-]
    spans : float
        How many spans it rests on. [-]
    heat_loss_w_k : float
        Heat loss of the house by the slope. [W/K]
    heat_loss_error_w_k : float
        Its standard error, without that of the fuel's efficiency. [W/K]
    """

    slope: Slope
    slope_error: Slope
    intercept_kwh: Annotated[float, Unit("kWh")]
    intercept_error_kwh: Annotated[float, Unit("kWh")]
    r_squared: Annotated[float, Unit("-")]
    spans: Annotated[float, Unit("-")]
    heat_loss_w_k: WattPerKelvin
    heat_loss_error_w_k: WattPerKelvin


@worked
def heat_loss_from_slope(slope: Slope) -> WattPerKelvin:
    r"""Heat loss of a house, from its heat for each degree day.

    Parameters
    ----------
    slope : Slope
        Useful heat for each degree day, :math:`b`. [kWh/(K*day)] From 0 to 1000.

    Returns
    -------
    WattPerKelvin
        Heat loss. [W/K]

    Raises
    ------
    OutOfRange
        If the slope lies outside its range.

    Notes
    -----
    .. math:: H = 1000\,b / 24

    References
    ----------
    .. [1] Identity of units.

    Examples
    --------
    >>> heat_loss_from_slope(9.0)
    375.0
    """
    return slope * 1000.0 / 24.0


@worked
def heat_loss_from_year(
    heat_kwh: KilowattHour,
    other_kwh: KilowattHour,
    degree_days: Annotated[float, Unit("K*day"), Ge(1.0), Le(20000.0)],
) -> WattPerKelvin:
    r"""Heat loss of a house, from one year of fuel.

    Parameters
    ----------
    heat_kwh : KilowattHour
        Useful heat of the year, :math:`Q`. [kWh]
    other_kwh : KilowattHour
        The part that does not follow the weather, hot water above all, :math:`Q_w`. [kWh]
    degree_days : float
        Degree days of the same year, :math:`D`. [K*day] From 1 to 20000.

    Returns
    -------
    WattPerKelvin
        Heat loss. [W/K]

    Raises
    ------
    OutOfRange
        If a value lies outside its range, or hot water alone is more than all heat.

    Notes
    -----
    .. math:: H = \frac{1000\,(Q - Q_w)}{24\,D}

    References
    ----------
    .. [1] Identity of units; procedure of http://vesma.com/ddd/std-year.htm

    Examples
    --------
    >>> round(heat_loss_from_year(19776.0, 3000.0, 2463.0), 1)
    283.8
    """
    if other_kwh > heat_kwh:
        raise OutOfRange("other_kwh", f"{other_kwh:.0f}", f"at most all the heat, {heat_kwh:.0f}", "kWh")
    return (heat_kwh - other_kwh) * 1000.0 / 24.0 / degree_days


@worked
def signature_heat(
    baseload_kwh: KilowattHour,
    slope: Slope,
    degree_days: Annotated[float, Unit("K*day"), Ge(0.0), Le(20000.0)],
) -> KilowattHour:
    r"""Heat of a span, by an energy signature.

    Parameters
    ----------
    baseload_kwh : KilowattHour
        Steady part of the span, :math:`a`. [kWh]
    slope : Slope
        Heat for each degree day, :math:`b`. [kWh/(K*day)] From 0 to 1000.
    degree_days : float
        Degree days of the span, :math:`D`. [K*day] From 0 to 20000.

    Returns
    -------
    KilowattHour
        Heat. [kWh]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q = a + b D

    References
    ----------
    .. [1] Energy Academy UK, "Energy signatures",
       https://energyacademyuk.org/courses/monitoring-and-targeting/energy-signatures

    Examples
    --------
    >>> signature_heat(8000.0, 100.0, 300.0)
    38000.0
    """
    return baseload_kwh + slope * degree_days


@worked
def fit_signature(
    degree_days: Annotated[Floats, Unit("K*day"), Ge(0.0), Le(20000.0)],
    heat_kwh: Annotated[Floats, Unit("kWh"), Ge(0.0), Le(1e7)],
    days: Annotated[Floats | None, Unit("day"), Ge(1.0), Le(4000.0)] = None,
) -> Signature:
    r"""Energy signature of a house, by least squares through several spans.

    Parameters
    ----------
    degree_days : Floats
        Degree days of each span, :math:`D`. [K*day] From 0 to 20000.
    heat_kwh : Floats
        Useful heat of each span, :math:`Q`. [kWh] From 0 to 1e7.
    days : Floats or None
        Length of each span, :math:`n`; unknown means spans of one length. [day] From 1 to 4000.

    Returns
    -------
    Signature
        Slope, steady part, and how sure they are.

    Raises
    ------
    OutOfRange
        If there are fewer than three spans, the lists differ in length, the spans are all alike (a
        winter and a summer one are needed), or the line falls.

    Notes
    -----
    .. math:: Q = a\,n + b\,D, \quad s_b^2 = s^2 \left[(X^T X)^{-1}\right]_{bb}

    with :math:`n = 1` for spans of one length. Never judge it by cumulative use against cumulative
    degree days: that line is always straight.

    References
    ----------
    .. [1] Energy Academy UK, "Energy signatures",
       https://energyacademyuk.org/courses/monitoring-and-targeting/energy-signatures
    .. [2] Ordinary least squares.

    Examples
    --------
    >>> line = fit_signature(np.array([400.0, 200.0, 50.0]), np.array([3850.0, 2050.0, 700.0]))
    >>> round(line.slope, 6), round(line.intercept_kwh, 3)
    (9.0, 250.0)
    """
    x, y = np.asarray(degree_days, dtype=float), np.asarray(heat_kwh, dtype=float)
    steady = np.ones_like(x) if days is None else np.asarray(days, dtype=float)
    if not x.size == y.size == steady.size:
        raise OutOfRange("heat_kwh", f"{y.size} values long", f"{x.size} values long, like degree_days")
    if x.size < 3:
        raise OutOfRange("degree_days", f"{x.size} spans", "at least 3 spans, winter and summer among them")
    rate = x / steady
    if rate.max() < 1.5 * rate.min() + 0.5:
        raise OutOfRange(
            "degree_days",
            "nearly alike in all spans",
            "different: a winter and a summer span are needed",
            "K*day",
        )
    basis = np.stack([steady, x], axis=1)
    inverse = np.linalg.inv(basis.T @ basis)
    a, b = (inverse @ (basis.T @ y)).tolist()
    if b < 0.0:
        raise OutOfRange("heat_kwh", "falling as it gets colder", "rising with degree days", "kWh")
    rest = y - a * steady - b * x
    variance = float(rest @ rest) / max(1, x.size - 2)
    errors = np.sqrt(variance * np.diag(inverse))
    about_mean = float(((y - y.mean()) ** 2).sum())
    return Signature(
        slope=b,
        slope_error=float(errors[1]),
        intercept_kwh=a,
        intercept_error_kwh=float(errors[0]),
        r_squared=1.0 - float(rest @ rest) / about_mean if about_mean > 0.0 else 0.0,
        spans=float(x.size),
        heat_loss_w_k=heat_loss_from_slope(b),
        heat_loss_error_w_k=heat_loss_from_slope(float(errors[1])),
    )


def _degree_days_between(by_day_of_year: Floats, first: date, last: date) -> float:
    """Degree days of a span of dates, from those of the days of a usual year."""
    numbers = np.arange(first.toordinal(), last.toordinal())
    days = numbers.astype("datetime64[D]") - np.int64(date(1970, 1, 1).toordinal())
    year_start = days.astype("datetime64[Y]").astype("datetime64[D]")
    of_year = (days - year_start).astype(np.int64)
    return float(by_day_of_year[np.minimum(of_year, by_day_of_year.size - 1)].sum())


@worked
def signature_of_house(house: House, hourly: Hourly, base_c: BaseTemperature) -> Signature:
    r"""The house's heat loss by its past fuel, on the degree days of a usual year.

    With three spans or more, winter and summer among them, hot water and heating are told apart by the
    spans themselves. With fewer, hot water is reckoned from the people who live there.

    Parameters
    ----------
    house : House
        The house with its past fuel.
    hourly : Hourly
        A year of weather that stands for the past spans.
    base_c : BaseTemperature
        Base temperature of the house. [degC] From 0 to 30.

    Returns
    -------
    Signature
        Slope, steady part for each day, heat loss, standard errors. For a single span the error is that
        of one year's weather.

    Raises
    ------
    OutOfRange
        If hot water alone is more than all heat of the past.
    Refused
        As :func:`fuel_spans`.
    Unknown
        If there is no past fuel.

    Notes
    -----
    .. math:: Q = a\,n + b\,D(T_b)

    The weather of the past spans themselves is not used: one year's degree days differ from the usual
    by 4.5 % (standard deviation), which is in the error.

    References
    ----------
    .. [1] Energy Academy UK, "Energy signatures",
       https://energyacademyuk.org/courses/monitoring-and-targeting/energy-signatures
    """
    spans = fuel_spans(house.past_fuel)
    under = np.maximum(0.0, base_c - hourly.by_day("temperature_c")).mean(axis=1)
    if under.size < 365:
        raise Unknown("Reading the heat loss from past fuel needs a whole year of weather.")
    cold = np.array([_degree_days_between(under, span.first_day, span.last_day) for span in spans])
    heat = np.array([span.heat_kwh for span in spans])
    days = np.array([span.days for span in spans])
    rate = cold / days
    if len(spans) >= 3 and rate.max() >= 1.5 * rate.min() + 0.5:
        line = fit_signature(cold, heat, days)
        weather = line.slope * WEATHER_OF_A_YEAR / float(np.sqrt(max(1.0, days.sum() / 365.0)))
        error = float(np.hypot(line.slope_error, weather))
    else:
        water_day = hot_water_year(zone_parameters(house).hot_water_litres_day).year_kwh / 365.0
        loss = heat_loss_from_year(
            float(heat.sum()), float(water_day * days.sum()), max(1.0, float(cold.sum()))
        )
        slope = loss * 24.0 / 1000.0
        error = slope * WEATHER_OF_A_YEAR / float(np.sqrt(max(1.0, days.sum() / 365.0)))
        line = Signature(
            slope=slope,
            slope_error=error,
            intercept_kwh=water_day,
            intercept_error_kwh=0.25 * water_day,
            r_squared=0.0,
            spans=float(len(spans)),
            heat_loss_w_k=loss,
            heat_loss_error_w_k=loss * error / max(slope, 1e-12),
        )
    return Signature(
        slope=line.slope,
        slope_error=error,
        intercept_kwh=line.intercept_kwh,
        intercept_error_kwh=line.intercept_error_kwh,
        r_squared=line.r_squared,
        spans=line.spans,
        heat_loss_w_k=line.heat_loss_w_k,
        heat_loss_error_w_k=heat_loss_from_slope(error),
    )
