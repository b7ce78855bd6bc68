"""The same demand by the second way, from past fuel; and the two ways weighed together."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

import numpy as np

from woodreeve.house.demand import (
    EIGHT_OF_TEN,
    MONTH_TO_MONTH_K,
    Demand,
    Doubt,
    WeatherKind,
    put_together,
)
from woodreeve.house.describe import House
from woodreeve.house.fuel import EFFICIENCY_SPREAD
from woodreeve.house.parameters import zone_parameters
from woodreeve.house.signature import Signature
from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.weather.climate import design_temperature
from woodreeve.weather.degree_days import BaseTemperature
from woodreeve.weather.series import DAYS_IN_MONTH, Hourly
from woodreeve.workings import worked

__all__ = ["demand_from_fuel", "weighed_demand"]


@worked
def demand_from_fuel(
    house: House,
    hourly: Hourly,
    signature: Signature,
    base_c: BaseTemperature,
    *,
    design_outdoor_c: Annotated[float | None, Unit("degC"), Ge(-50.0), Le(15.0)] = None,
    weather: WeatherKind = "typical",
) -> Demand:
    r"""Heat the house wants, reckoned from the fuel it has used.

    Parameters
    ----------
    house : House
        The house; its people, for the hours of hot water.
    hourly : Hourly
        The weather.
    signature : Signature
        From :func:`signature_of_house` at the same base temperature.
    base_c : BaseTemperature
        Base temperature, for instance that found from the fabric. [degC] From 0 to 30.
    design_outdoor_c : float or None
        Outdoor temperature for the design load; unknown: that exceeded in 99.6 % of the hours. [degC]
        From -50 to 15.
    weather : {"typical", "as_it_was"}
        Whether the weather stands for years to come, whose differences widen the range.

    Returns
    -------
    Demand
        Months, hours, ranges.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: P_h = \frac{b}{24} \max(0, T_b - T_h), \qquad \text{hot water from the steady part}\; a

    The range adds, as independent: the slope's standard error, the fuel's efficiency (8 %), 1 K of
    the base temperature told against the slope (a colder base with a steeper slope burns the same fuel:
    that moves heat between months, not the year), the weather of single months, hot water.

    References
    ----------
    .. [1] Energy Academy UK, "Energy signatures",
       https://energyacademyuk.org/courses/monitoring-and-targeting/energy-signatures
    """
    parameters = zone_parameters(house)
    outside = hourly.temperature_c
    under = np.maximum(0.0, base_c - outside)
    space_kw = signature.slope / 24.0 * under
    design = design_temperature(outside) if design_outdoor_c is None else design_outdoor_c
    months = hourly.month_numbers()

    def by_month(values: Floats) -> Floats:
        return np.asarray(np.bincount(months, weights=values, minlength=13)[1:], dtype=float)

    space = by_month(space_kw)
    share = float(
        np.hypot(EIGHT_OF_TEN * signature.slope_error / max(signature.slope, 1e-9), EFFICIENCY_SPREAD)
    )
    for_a_kelvin = signature.slope / 24.0 * by_month((under > 0.0).astype(float))
    moved = for_a_kelvin - space * float(for_a_kelvin.sum()) / max(float(space.sum()), 1e-9)
    weather_k = EIGHT_OF_TEN * MONTH_TO_MONTH_K if weather == "typical" else 0.0
    whole = replace(parameters, hot_water_litres_day=_litres_of(signature, parameters.hot_water_litres_day))
    return put_together(
        hourly,
        whole,
        space_kw,
        method="fuel",
        heat_loss_w_k=signature.heat_loss_w_k,
        loss_spread_w_k=signature.heat_loss_w_k * share,
        inside_c=base_c,
        gains_w=0.0,
        base_c=base_c,
        design_outdoor_c=design,
        doubts=(space * share, moved, np.zeros(12), for_a_kelvin * weather_k),
    )


def _litres_of(signature: Signature, reckoned_l: float) -> float:
    """Hot water that the steady part of the signature stands for, if spans told it apart. [L]."""
    from woodreeve.house.hot_water import hot_water_year

    for_a_litre = hot_water_year(1.0).year_kwh / sum(DAYS_IN_MONTH)
    found = signature.intercept_kwh / for_a_litre
    return found if 0.3 * reckoned_l <= found <= 3.0 * reckoned_l else reckoned_l


def _mix(first: tuple[float, ...], second: tuple[float, ...], weight: float) -> tuple[float, ...]:
    return tuple(weight * a + (1.0 - weight) * b for a, b in zip(first, second))


@worked
def weighed_demand(fabric: Demand, fuel: Demand) -> Demand:
    r"""The two ways weighed together, each the more the surer it is.

    Parameters
    ----------
    fabric : Demand
        From :func:`demand`.
    fuel : Demand
        From :func:`demand_from_fuel`, on the same weather.

    Returns
    -------
    Demand
        Weighed mean of both. Doubt that both share (weather, hot water) is not made smaller by it.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: w = \frac{1/s_1^2}{1/s_1^2 + 1/s_2^2}, \quad Q = w Q_1 + (1 - w) Q_2,
        \quad s^2 = \frac{1}{1/s_1^2 + 1/s_2^2}

    :math:`s` is the half range of the year's space heat without weather; a month keeps the weighed half
    range of the two ways. Where the two ranges do not
    meet, the range reaches over both: then one of them is wrong, and the owner should look which.

    References
    ----------
    .. [1] Weighing by inverse variance.
    """
    own = [
        max(1.0, float(np.hypot(np.hypot(d.losses_kwh, d.wanted_kwh), d.gains_kwh)))
        for d in (fabric.doubt, fuel.doubt)
    ]
    weight = own[1] ** 2 / (own[0] ** 2 + own[1] ** 2)
    apart = abs(fabric.space_year_kwh - fuel.space_year_kwh)
    losses = own[0] * own[1] / float(np.hypot(own[0], own[1]))
    if apart > own[0] + own[1]:
        losses = max(losses, max(weight, 1.0 - weight) * apart)
    doubt = Doubt(
        losses_kwh=losses,
        wanted_kwh=0.0,
        gains_kwh=0.0,
        weather_kwh=weight * fabric.doubt.weather_kwh + (1.0 - weight) * fuel.doubt.weather_kwh,
        hot_water_kwh=min(fabric.doubt.hot_water_kwh, fuel.doubt.hot_water_kwh),
    )
    space = _mix(fabric.space_heat_kwh, fuel.space_heat_kwh, weight)
    water = _mix(fabric.hot_water_kwh, fuel.hot_water_kwh, weight)
    space_year, water_year = float(sum(space)), float(sum(water))
    total = tuple(s + w for s, w in zip(space, water))
    half_year = float(np.sqrt(doubt.losses_kwh**2 + doubt.weather_kwh**2 + doubt.hot_water_kwh**2))
    part = np.array(space) / max(space_year, 1e-9)
    halves = [np.array(d.space_heat_high_kwh) - np.array(d.space_heat_kwh) for d in (fabric, fuel)]
    month_half = np.maximum(weight * halves[0] + (1.0 - weight) * halves[1], part * losses)
    water_half = np.array(water) * doubt.hot_water_kwh / max(water_year, 1e-9)
    total_half = np.hypot(month_half, water_half)
    hourly = weight * fabric.hourly_kw + (1.0 - weight) * fuel.hourly_kw
    space_hourly = weight * fabric.space_hourly_kw + (1.0 - weight) * fuel.space_hourly_kw
    whole = hourly.size // 24 * 24
    loss = weight * fabric.heat_loss_w_k + (1.0 - weight) * fuel.heat_loss_w_k
    loss_half = loss * losses / max(space_year, 1e-9)
    return replace(
        fabric,
        method="both",
        space_heat_kwh=space,
        space_heat_low_kwh=tuple(np.maximum(0.0, np.array(space) - month_half).tolist()),
        space_heat_high_kwh=tuple((np.array(space) + month_half).tolist()),
        hot_water_kwh=water,
        total_kwh=total,
        total_low_kwh=tuple(np.maximum(0.0, np.array(total) - total_half).tolist()),
        total_high_kwh=tuple((np.array(total) + total_half).tolist()),
        space_year_kwh=space_year,
        hot_water_year_kwh=water_year,
        year_kwh=space_year + water_year,
        year_low_kwh=max(0.0, space_year + water_year - half_year),
        year_high_kwh=space_year + water_year + half_year,
        heat_loss_w_k=loss,
        heat_loss_low_w_k=max(0.0, loss - loss_half),
        heat_loss_high_w_k=loss + loss_half,
        design_load_kw=weight * fabric.design_load_kw + (1.0 - weight) * fuel.design_load_kw,
        largest_day_kwh=float(hourly[:whole].reshape(-1, 24).sum(axis=1).max()),
        largest_hour_kw=float(hourly.max()),
        doubt=doubt,
        hourly_kw=hourly,
        space_hourly_kw=space_hourly,
    )
