"""What heat the house wants, month by month and hour by hour, with how sure that is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np

from woodreeve.house.describe import House
from woodreeve.house.five_resistances import NO_HEAT_C, rooms_of, run_zones
from woodreeve.house.gains import solar_gain
from woodreeve.house.heat_loss import base_temperature, design_load
from woodreeve.house.hot_water import Profile, hot_water_year, tapping_day
from woodreeve.house.intermittent import gain_utilisation
from woodreeve.house.parameters import HouseParameters, ZoneParameters, zone_parameters
from woodreeve.units import DegreeDays, Floats, Ge, Kilowatt, KilowattHour, Le, Unit, WattPerKelvin
from woodreeve.weather.climate import design_temperature
from woodreeve.weather.degree_days import degree_days_hourly
from woodreeve.weather.series import DAYS_IN_MONTH, Hourly
from woodreeve.weather.sunpath import sun_on_facade, sun_path_of
from woodreeve.workings import worked

__all__ = ["Demand", "Doubt", "TwelveKwh", "WeatherKind", "demand", "put_together"]

TwelveKwh = Annotated[tuple[float, ...], Unit("kWh")]
WeatherKind = Literal["typical", "as_it_was"]

WARM_UP_H = 31 * 24
"""Hours run before the year, so that walls are as warm as they would be. [h]"""

WANTED_SPREAD_K = 1.0
"""How far room temperatures may be from what is said, in 8 cases of 10. [K] (judgement)"""

GAINS_SPREAD = 0.30
"""The same for free heat, as a share. [-] (judgement)"""

MONTH_TO_MONTH_K = 1.4
"""Standard deviation of a month's mean temperature from year to year. [K] Taken so that the year's
degree days vary by 3 to 5 %, as made-up years with free month means do (85 to 136 K·day)."""

EIGHT_OF_TEN = 1.2816
"""Standard deviations to each side that hold 8 cases of 10 of a normal distribution. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """Where the uncertainty of the year's heat comes from: half of the range of 8 cases in 10.

    Parameters
    ----------
    losses_kwh : float
        From U-values, areas and air change; or from the fuel's efficiency and the fit. [kWh]
    wanted_kwh : float
        From the room temperatures really kept. [kWh]
    gains_kwh : float
        From people, appliances and sun. [kWh]
    weather_kwh : float
        From one year being unlike another. [kWh]
    hot_water_kwh : float
        From how much hot water is drawn. [kWh]
    """

    losses_kwh: KilowattHour
    wanted_kwh: KilowattHour
    gains_kwh: KilowattHour
    weather_kwh: KilowattHour
    hot_water_kwh: KilowattHour


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """Heat that the house wants, at the radiators and taps.

    ``low`` and ``high`` hold the true value in 8 cases of 10. Losses of boiler, store and cylinder are
    not in it.

    Parameters
    ----------
    method : {"fabric", "fuel", "both"}
        How it was found.
    space_heat_kwh, space_heat_low_kwh, space_heat_high_kwh : tuple of 12
        Space heat of each month. [kWh]
    hot_water_kwh : tuple of 12
        Hot water of each month, pipes included. [kWh]
    total_kwh, total_low_kwh, total_high_kwh : tuple of 12
        Both. [kWh]
    space_year_kwh, hot_water_year_kwh, year_kwh, year_low_kwh, year_high_kwh : float
        Sums of the year. [kWh]
    heat_loss_w_k, heat_loss_low_w_k, heat_loss_high_w_k : float
        Heat loss. [W/K]
    base_temperature_c : float
        Outdoor temperature below which heat is wanted. [degC]
    degree_days : float
        Degree days of the weather at that base, hour by hour. [K*day]
    useful_gains_w : float
        Free heat that spares heating, mean of heated hours. [W]
    design_outdoor_c : float
        Outdoor temperature that the design load is for. [degC]
    design_load_kw : float
        Power that keeps the rooms warm then. [kW]
    largest_day_kwh : float
        Heat of the day that wants most. [kWh]
    largest_hour_kw : float
        Power of the hour that wants most. [kW]
    heating_days : float
        Days with space heat. [day]
    doubt : Doubt
        Where the uncertainty comes from.
    hourly_kw, space_hourly_kw : array
        All heat, and space heat, of each hour. [kW]
    assumed : tuple of str
        What was left blank and is assumed.
    """

    method: Literal["fabric", "fuel", "both"]
    space_heat_kwh: TwelveKwh
    space_heat_low_kwh: TwelveKwh
    space_heat_high_kwh: TwelveKwh
    hot_water_kwh: TwelveKwh
    total_kwh: TwelveKwh
    total_low_kwh: TwelveKwh
    total_high_kwh: TwelveKwh
    space_year_kwh: KilowattHour
    hot_water_year_kwh: KilowattHour
    year_kwh: KilowattHour
    year_low_kwh: KilowattHour
    year_high_kwh: KilowattHour
    heat_loss_w_k: WattPerKelvin
    heat_loss_low_w_k: WattPerKelvin
    heat_loss_high_w_k: WattPerKelvin
    base_temperature_c: Annotated[float, Unit("degC")]
    degree_days: DegreeDays
    useful_gains_w: Annotated[float, Unit("W")]
    design_outdoor_c: Annotated[float, Unit("degC")]
    design_load_kw: Kilowatt
    largest_day_kwh: KilowattHour
    largest_hour_kw: Kilowatt
    heating_days: Annotated[float, Unit("day")]
    doubt: Doubt
    hourly_kw: Floats
    space_hourly_kw: Floats
    assumed: tuple[str, ...]


def hot_water_hours(hourly: Hourly, litres_day: float, profile: Profile = "M") -> Floats:
    """Heat for hot water in each hour: the month's mean day, laid out over its hours. [kW]."""
    year = hot_water_year(litres_day)
    of_a_day = np.array(year.total_kwh) / np.array(DAYS_IN_MONTH)
    share = tapping_day(profile)
    clock = hourly.hour_of_day().astype(np.int64)
    return np.asarray(of_a_day[hourly.month_numbers() - 1] * share[clock], dtype=float)


def _wanted(zone: ZoneParameters, clock: Floats, heating: Floats) -> Floats:
    start, end = zone.setback_from_h, zone.setback_to_h
    middle = clock + 0.5
    night = (middle >= start) | (middle < end) if start > end else (middle >= start) & (middle < end)
    return np.where(heating > 0.0, np.where(night, zone.setback_c, zone.wanted_c), NO_HEAT_C)


def heating_hours(outside: Floats, limit_c: float | None) -> Floats:
    """1 in hours of days on which the heating is on: mean of this day and the two before under the limit."""
    if limit_c is None:
        return np.ones_like(outside)
    days = -(-outside.size // 24)
    padded = np.concatenate([outside, np.full(days * 24 - outside.size, outside[-1])])
    means = padded.reshape(-1, 24).mean(axis=1)
    running = (means + np.roll(means, 1) + np.roll(means, 2)) / 3.0
    return np.repeat((running < limit_c).astype(float), 24)[: outside.size]


def _solar(parameters: HouseParameters, hourly: Hourly) -> list[Floats | float]:
    """Sun that comes into each zone. [W]."""
    if hourly.sun_w_m2 is None or hourly.latitude_deg is None or hourly.longitude_deg is None:
        return [0.0 for _ in parameters.zones]
    facings = {facing for zone in parameters.zones for facing in zone.apertures_m2}
    path = sun_path_of(hourly)
    on_wall = {
        facing: sun_on_facade(path, hourly.sun_w_m2, hourly.diffuse_w_m2, facing) for facing in facings
    }
    gains: list[Floats | float] = []
    for zone in parameters.zones:
        coming = np.zeros(hourly.hours)
        for facing, aperture in zone.apertures_m2.items():
            coming = coming + solar_gain(aperture, on_wall[facing])
        gains.append(coming)
    return gains


def put_together(
    hourly: Hourly,
    parameters: HouseParameters,
    space_kw: Floats,
    *,
    method: Literal["fabric", "fuel"],
    heat_loss_w_k: float,
    loss_spread_w_k: float,
    inside_c: float,
    gains_w: float,
    base_c: float,
    design_outdoor_c: float,
    doubts: tuple[Floats, Floats, Floats, Floats],
) -> Demand:
    """Months, sums and ranges of a demand whose hours are known."""
    months = hourly.month_numbers()
    space = np.bincount(months, weights=space_kw, minlength=13)[1:]
    water_kw = hot_water_hours(hourly, parameters.hot_water_litres_day)
    water = np.bincount(months, weights=water_kw, minlength=13)[1:]
    losses, wanted, gains, weather = doubts
    month_half = np.sqrt(losses**2 + wanted**2 + gains**2 + weather**2)
    water_half = parameters.hot_water_spread * water
    total_half = np.sqrt(month_half**2 + water_half**2)
    doubt = Doubt(
        losses_kwh=float(losses.sum()),
        wanted_kwh=abs(float(wanted.sum())),
        gains_kwh=float(gains.sum()),
        weather_kwh=float(np.sqrt((weather**2).sum())),
        hot_water_kwh=float(water_half.sum()),
    )
    year_half = float(
        np.sqrt(
            doubt.losses_kwh**2
            + doubt.wanted_kwh**2
            + doubt.gains_kwh**2
            + doubt.weather_kwh**2
            + doubt.hot_water_kwh**2
        )
    )
    total = space + water
    all_kw = space_kw + water_kw
    whole_days = all_kw.size // 24 * 24
    by_day = all_kw[:whole_days].reshape(-1, 24).sum(axis=1) if whole_days else np.array([all_kw.sum()])
    space_by_day = space_kw[:whole_days].reshape(-1, 24).sum(axis=1)
    return Demand(
        method=method,
        space_heat_kwh=tuple(space.tolist()),
        space_heat_low_kwh=tuple(np.maximum(0.0, space - month_half).tolist()),
        space_heat_high_kwh=tuple((space + month_half).tolist()),
        hot_water_kwh=tuple(water.tolist()),
        total_kwh=tuple(total.tolist()),
        total_low_kwh=tuple(np.maximum(0.0, total - total_half).tolist()),
        total_high_kwh=tuple((total + total_half).tolist()),
        space_year_kwh=float(space.sum()),
        hot_water_year_kwh=float(water.sum()),
        year_kwh=float(total.sum()),
        year_low_kwh=max(0.0, float(total.sum()) - year_half),
        year_high_kwh=float(total.sum()) + year_half,
        heat_loss_w_k=heat_loss_w_k,
        heat_loss_low_w_k=max(0.0, heat_loss_w_k - loss_spread_w_k),
        heat_loss_high_w_k=heat_loss_w_k + loss_spread_w_k,
        base_temperature_c=base_c,
        degree_days=degree_days_hourly(hourly.temperature_c, min(30.0, max(0.0, base_c))),
        useful_gains_w=gains_w,
        design_outdoor_c=design_outdoor_c,
        design_load_kw=design_load(heat_loss_w_k, inside_c, design_outdoor_c),
        largest_day_kwh=float(by_day.max()),
        largest_hour_kw=float(all_kw.max()),
        heating_days=float((space_by_day > 0.5).sum()),
        doubt=doubt,
        hourly_kw=all_kw,
        space_hourly_kw=space_kw,
        assumed=parameters.assumed,
    )


def month_doubts(
    hourly: Hourly,
    space_kw: Floats,
    *,
    heat_loss_w_k: float,
    loss_spread_w_k: float,
    free_heat_w: Floats,
    weather: WeatherKind,
) -> tuple[Floats, Floats, Floats, Floats]:
    """Half ranges of each month's space heat: from losses, wanted temperature, gains, weather. [kWh].

    First order: only hours that are heated feel a change, and each feels it in full.
    """
    months = hourly.month_numbers()
    heated = (space_kw > 0.0).astype(float)

    def by_month(values: Floats) -> Floats:
        return np.asarray(np.bincount(months, weights=values, minlength=13)[1:], dtype=float)

    degree_hours = by_month(heated)
    free = by_month(heated * free_heat_w) / 1000.0
    loss_heat = by_month(space_kw) + free
    for_a_kelvin = heat_loss_w_k * degree_hours / 1000.0
    weather_k = EIGHT_OF_TEN * MONTH_TO_MONTH_K if weather == "typical" else 0.0
    return (
        loss_heat * loss_spread_w_k / max(heat_loss_w_k, 1e-9),
        for_a_kelvin * WANTED_SPREAD_K,
        free * GAINS_SPREAD,
        for_a_kelvin * weather_k,
    )


@worked
def demand(
    house: House,
    hourly: Hourly,
    *,
    design_outdoor_c: Annotated[float | None, Unit("degC"), Ge(-50.0), Le(15.0)] = None,
    weather: WeatherKind = "typical",
) -> Demand:
    r"""Heat the house wants, reckoned from what it is built of.

    Losses through the shell and with the air, less what people, appliances and sun give, hour by hour
    in two zones; and hot water.

    Parameters
    ----------
    house : House
        The house.
    hourly : Hourly
        The weather; without sun the gains of the sun are left out.
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
    Unknown
        If the house has no zone or a zone no floor area.

    Notes
    -----
    .. math:: Q_m = \sum_{h \in m} \sum_z P_{z,h} + Q_{w,m}

    with the power :math:`P_{z,h}` that brings each zone's air to its wanted temperature by the simple
    hourly method (:func:`yearly_room_heat`), the zones' air joined by a conductance, the power at most
    the design load and a margin, and none on days milder than the owner's heating limit, if there is
    one. The range adds, as independent: losses, room temperature (1 K), gains (30 %), weather of single
    months (1.4 K), hot water. Clock hours are standard time; summer time is left out.

    References
    ----------
    .. [1] ISO 13790:2008, Annex C (from memory).
    .. [2] BS 5449: 10 to 30 % on emitters for intermittent heating, as quoted at
       http://www.plumbingpages.com/featurepages/Designconsiderations.cfm
    """
    parameters = zone_parameters(house)
    outside = hourly.temperature_c
    design = design_temperature(outside) if design_outdoor_c is None else design_outdoor_c
    heating = heating_hours(outside, house.heating_limit_c)
    clock = hourly.hour_of_day()
    solar = _solar(parameters, hourly)
    wanted = tuple(_wanted(zone, clock, heating) for zone in parameters.zones)
    rooms = tuple(rooms_of(zone) for zone in parameters.zones)
    gains = [zone.internal_gains_w for zone in parameters.zones]
    most = tuple(
        (1.0 + house.radiator_margin) * max(0.0, zone.loss_w_k * (zone.wanted_c - design))
        for zone in parameters.zones
    )
    heat, _ = run_zones(
        rooms,
        tuple(room.push(outside, g, s) for room, g, s in zip(rooms, gains, solar)),
        tuple(room.drive(outside, g, s) for room, g, s in zip(rooms, gains, solar)),
        wanted,
        most,
        parameters.between_w_k,
        WARM_UP_H,
    )
    space_kw = np.asarray(heat.sum(axis=0) / 1000.0, dtype=float)
    losses = np.array([zone.loss_w_k for zone in parameters.zones])
    kept = np.array(
        [np.where(w > NO_HEAT_C, w, zone.wanted_c).mean() for w, zone in zip(wanted, parameters.zones)]
    )
    inside = float((losses * kept).sum() / losses.sum())
    by_day = float((losses * np.array([zone.wanted_c for zone in parameters.zones])).sum() / losses.sum())
    free = np.zeros(hourly.hours) + parameters.internal_gains_w
    for coming in solar:
        free = free + coming
    useful = _useful_gains(parameters, outside, space_kw, free, inside)
    return put_together(
        hourly,
        parameters,
        space_kw,
        method="fabric",
        heat_loss_w_k=parameters.loss_w_k,
        loss_spread_w_k=parameters.loss_spread_w_k,
        inside_c=by_day,
        gains_w=useful,
        base_c=base_temperature(inside, useful, parameters.loss_w_k),
        design_outdoor_c=design,
        doubts=month_doubts(
            hourly,
            space_kw,
            heat_loss_w_k=parameters.loss_w_k,
            loss_spread_w_k=parameters.loss_spread_w_k,
            free_heat_w=free,
            weather=weather,
        ),
    )


def _useful_gains(
    parameters: HouseParameters, outside: Floats, space_kw: Floats, free_w: Floats, inside_c: float
) -> float:
    """Free heat that spares heating, mean of the hours with heat. [W]."""
    heated = space_kw > 0.0
    if not heated.any():
        return 0.0
    loss = parameters.loss_w_k * max(0.1, inside_c - float(outside[heated].mean()))
    free = float(free_w[heated].mean())
    return free * gain_utilisation(min(1000.0, free / loss), min(2000.0, parameters.time_constant_h))
