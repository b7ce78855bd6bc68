"""Heat that the fires of a span have to give: rooms, hot water, and what the plant loses."""

from __future__ import annotations

from calendar import isleap
from dataclasses import dataclass
from datetime import datetime
from math import hypot
from typing import Annotated, Literal

import numpy as np

from woodreeve.house.demand import Demand
from woodreeve.plant.fields import LogBoiler, Plant
from woodreeve.plant.store import insulation_loss, standing_loss_per_kelvin
from woodreeve.units import Ge, Le, Unit
from woodreeve.weather.series import HOURS_IN_YEAR, Hourly
from woodreeve.workings import worked

__all__ = [
    "Efficiency",
    "PlantLoss",
    "SpanHeat",
    "heat_of_span",
    "heat_until_july",
    "heating_efficiency",
    "plant_loss",
]

MEAN_STORE_C = 60.0
"""Usual mean temperature of a store that is charged to about 85 °C and used down to about 40 °C.
Judgement. [degC]"""

USUAL_CLASS: Literal["C"] = "C"
"""Class of standing loss taken for a tank of which nothing is known. Judgement."""

USUAL_EFFICIENCY = 0.80
"""Net efficiency of a log boiler over whole fires, where nobody told another: common practice, no published
source. [-]"""

FIRST_OF_JULY_H = 181 * 24
"""Hours from the first of January to the first of July, in a year of 365 days. [h]"""

HourCount = Annotated[int, Unit("h"), Ge(0), Le(200_000)]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantLoss:
    """Standing losses that the fire has to make good.

    Parameters
    ----------
    store_w, cylinder_w : float
        Mean loss of store and cylinder. [W] 0 where it stands in the heated house and so is not lost.
    mean_w : float
        Both. [W]
    assumed : tuple of str
        What was left blank and is assumed.
    """

    store_w: Annotated[float, Unit("W")]
    cylinder_w: Annotated[float, Unit("W")]
    mean_w: Annotated[float, Unit("W")]
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Efficiency:
    """How much of the wood's net heat reaches the water, over whole fires."""

    net: Annotated[float, Unit("-")]
    low: Annotated[float, Unit("-")]
    high: Annotated[float, Unit("-")]
    assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SpanHeat:
    """Heat of a span of hours, plant losses included, with the range of 8 cases in 10."""

    rooms_kwh: Annotated[float, Unit("kWh")]
    hot_water_kwh: Annotated[float, Unit("kWh")]
    plant_kwh: Annotated[float, Unit("kWh")]
    heat_kwh: Annotated[float, Unit("kWh")]
    low_kwh: Annotated[float, Unit("kWh")]
    high_kwh: Annotated[float, Unit("kWh")]


@worked
def plant_loss(plant: Plant) -> PlantLoss:
    r"""Mean heat that store and cylinder lose to rooms that nobody heats.

    A store in a cold boiler room loses a few fires' worth in a winter; inside the heated house its loss
    warms the house and is not counted.

    Parameters
    ----------
    plant : Plant
        The plant; of the store its litres are needed, else no loss is counted.

    Returns
    -------
    PlantLoss
        Mean losses. [W]

    Raises
    ------
    OutOfRange
        If a tank's size is out of range.

    Notes
    -----
    .. math:: P = UA\,(T_m - T_\text{room})

    with :math:`T_m` = 60 °C for the store and the set temperature for the cylinder (judgement), and
    :math:`UA` as told, by the class on the label, or from the insulation's thickness; else as class C.

    References
    ----------
    .. [1] As :func:`standing_loss_per_kelvin` and :func:`insulation_loss`.
    """
    store, cylinder = plant.store, plant.cylinder
    assumed: list[str] = []
    store_w = cylinder_w = 0.0
    if store.litres is not None and store.stands_in != "heated_room":
        if store.loss_w_per_k is not None:
            each = store.loss_w_per_k
        elif store.energy_class is not None and store.energy_class != "G":
            each = standing_loss_per_kelvin(store.litres, store.energy_class)
        elif store.insulation_cm and store.height_m is not None:
            each = insulation_loss(store.litres, store.height_m, store.insulation_cm)
        else:
            assumed.append("store's standing loss: class C")
            each = standing_loss_per_kelvin(store.litres, USUAL_CLASS)
        store_w = each * max(0.0, MEAN_STORE_C - store.room_c)
    if cylinder.litres is not None:
        if cylinder.loss_w_per_k is not None:
            each = cylinder.loss_w_per_k
        elif cylinder.energy_class is not None and cylinder.energy_class != "G":
            each = standing_loss_per_kelvin(cylinder.litres, cylinder.energy_class)
        else:
            assumed.append("cylinder's standing loss: class C")
            each = standing_loss_per_kelvin(cylinder.litres, USUAL_CLASS)
        cylinder_w = each * max(0.0, cylinder.target_c - cylinder.room_c)
    return PlantLoss(
        store_w=store_w, cylinder_w=cylinder_w, mean_w=store_w + cylinder_w, assumed=tuple(assumed)
    )


@worked
def heating_efficiency(boiler: LogBoiler) -> Efficiency:
    """How much of the wood's net heat reaches the water, over whole fires.

    Makers' figures are measured at steady full load; lighting, burning out and a sooty heat exchanger
    take their share over a winter.

    Parameters
    ----------
    boiler : LogBoiler
        The boiler.

    Returns
    -------
    Efficiency
        Net efficiency and its range. [-]

    Notes
    -----
    The range is 5 points each way where the owner has told an efficiency, 8 where 80 % is assumed:
    judgement.

    References
    ----------
    .. [1] Common practice, no published source.
    """
    told = boiler.efficiency_net
    net = USUAL_EFFICIENCY if told is None else told
    spread = 0.08 if told is None else 0.05
    return Efficiency(net=net, low=net - spread, high=min(net + spread, 1.05), assumed=told is None)


@worked
def heat_of_span(
    demand: Demand,
    weather: Hourly,
    loss: PlantLoss,
    first_hour: HourCount = FIRST_OF_JULY_H,
    hours: HourCount = HOURS_IN_YEAR,
) -> SpanHeat:
    r"""Heat that a span of hours takes in a usual year; a whole year from July to June if none is told.

    Parameters
    ----------
    demand : Demand
        Heat of the house hour by hour.
    weather : Hourly
        The weather it was reckoned with: one year, from the first of January.
    loss : PlantLoss
        Standing losses.
    first_hour : int
        Hour of the year at which the span begins. [h]
    hours : int
        Its length; it may run over the end of the year. [h]

    Returns
    -------
    SpanHeat
        Rooms, hot water, plant, and all of it with its range. [kWh]

    Raises
    ------
    OutOfRange
        If the span is negative.

    Notes
    -----
    .. math:: Q = \sum_h P_h + n P_\text{loss}, \qquad
              d = \sqrt{(s\,d_\text{house})^2 + s\,d_\text{weather}^2}, \qquad s = Q / Q_\text{year}

    What is not known of the house is wrong in every month alike and grows with the span; the weather of
    one month says little of the next and grows with its root.

    References
    ----------
    .. [1] As :func:`woodreeve.house.demand.demand`; propagation of independent errors: any textbook.
    """
    at = (first_hour + np.arange(hours)) % weather.hours
    rooms = float(demand.space_hourly_kw[at].sum())
    all_heat = float(demand.hourly_kw[at].sum())
    plant = loss.mean_w * hours / 1000.0
    share = all_heat / max(demand.year_kwh, 1e-9)
    doubt = demand.doubt
    house = hypot(doubt.losses_kwh, doubt.wanted_kwh, doubt.gains_kwh, doubt.hot_water_kwh)
    half = hypot(share * house, share**0.5 * doubt.weather_kwh)
    heat = all_heat + plant
    return SpanHeat(
        rooms_kwh=rooms,
        hot_water_kwh=all_heat - rooms,
        plant_kwh=plant,
        heat_kwh=heat,
        low_kwh=max(heat - half, 0.0),
        high_kwh=heat + half,
    )


@worked
def heat_until_july(demand: Demand, weather: Hourly, loss: PlantLoss, moment: datetime) -> SpanHeat:
    r"""Heat that the rest of a heating year takes, from a moment to the end of June, in a usual year.

    Parameters
    ----------
    demand : Demand
        Heat of the house hour by hour.
    weather : Hourly
        The weather it was reckoned with: one year, from the first of January.
    loss : PlantLoss
        Standing losses.
    moment : datetime
        The moment, on the clock of the place.

    Returns
    -------
    SpanHeat
        Rooms, hot water, plant, and all of it with its range. [kWh]

    Notes
    -----
    The hour that has begun counts as a whole one. A 29th of February counts as the 1st of March, for a
    usual year has 365 days. At the very start of July the rest is the whole year.

    References
    ----------
    .. [1] As :func:`heat_of_span`.
    """
    days = moment.timetuple().tm_yday - (moment.month > 2 and isleap(moment.year))
    now_h = (days - 1) * 24 + moment.hour
    rest_h = (FIRST_OF_JULY_H - now_h) % weather.hours or weather.hours
    return heat_of_span(demand, weather, loss, now_h, rest_h)
