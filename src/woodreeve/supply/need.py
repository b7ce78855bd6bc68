"""What the house wants of the yard: heat of a span, plant losses, and the wood that gives it."""

from __future__ import annotations

from calendar import isleap
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from math import hypot
from typing import Annotated, Literal

import numpy as np

from woodreeve.errors import Unknown
from woodreeve.house.demand import Demand
from woodreeve.plant.fields import LogBoiler, Plant
from woodreeve.plant.store import insulation_loss, standing_loss_per_kelvin
from woodreeve.units import Ge, Kilogram, Le, Unit
from woodreeve.weather.series import DAYS_IN_MONTH, HOURS_IN_YEAR, Hourly
from woodreeve.wood.measure import Form, mass_of_stacked
from woodreeve.workings import worked
from woodreeve.yard.cover import AmountForHeat, HeatNeed, amount_for_heat
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.stock import YardStock

__all__ = [
    "BurntWood",
    "Efficiency",
    "MonthOfWood",
    "PlantLoss",
    "SpanHeat",
    "WoodForSpan",
    "burnt_wood",
    "full_load_kg",
    "heat_of_span",
    "heat_until_july",
    "heating_efficiency",
    "months_of_wood",
    "plant_loss",
    "wood_for_span",
]

MEAN_STORE_C = 60.0
"""Usual mean temperature of a store that is charged to about 85 °C and used down to about 40 °C.
Judgement. [degC]"""

USUAL_CLASS: Literal["C"] = "C"
"""Class of standing loss taken for a tank of which nothing is known. Judgement."""

USUAL_EFFICIENCY = 0.80
"""Net efficiency of a log boiler over whole fires, where nobody told another: common practice, no published
source. [-]"""

MONTHS_FROM_JULY = (7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6)
"""The months of a heating year, from July to June."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class BurntWood:
    """The wood as it will be burnt: its moisture, its species, and how it is stacked."""

    moisture: Annotated[float, Unit("-")]
    mix: Mapping[str, float]
    form: Form
    assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodForSpan:
    """The wood that a span takes, with its range.

    Parameters
    ----------
    need : HeatNeed
        Net heat wanted of the wood. [kWh]
    mass_t, mass_low_t, mass_high_t : float
        Weight as burnt. [t]
    stacked_m3, stacked_low_m3, stacked_high_m3 : float
        Stacked. [m3]
    """

    need: HeatNeed
    mass_t: Annotated[float, Unit("t")]
    mass_low_t: Annotated[float, Unit("t")]
    mass_high_t: Annotated[float, Unit("t")]
    stacked_m3: Annotated[float, Unit("m3")]
    stacked_low_m3: Annotated[float, Unit("m3")]
    stacked_high_m3: Annotated[float, Unit("m3")]


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthOfWood:
    """One month of a usual year: its heat and the wood for it."""

    month: int
    heat: SpanHeat
    wood: WoodForSpan


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


@worked
def burnt_wood(
    stock: YardStock,
    limits: WoodLimits,
    log_length: Annotated[float | None, Unit("cm"), Ge(5), Le(200)] = None,
) -> BurntWood:
    r"""What the wood will be like when it is burnt.

    Parameters
    ----------
    stock : YardStock
        The yard.
    limits : WoodLimits
        The owner's limits.
    log_length : float or None
        Longest log the boiler takes. [cm] From 5 to 200.

    Returns
    -------
    BurntWood
        Mean moisture of the wood that is dry enough (else the owner's ideal), and the species of all that
        is split (else mixed broadleaves).

    Raises
    ------
    OutOfRange
        If the log length is out of range.

    Notes
    -----
    .. math:: M = \frac{\sum_i m_i M_i}{\sum_i m_i}

    over the stacks :math:`i` that are dry enough, by their weight.

    References
    ----------
    .. [1] Plain arithmetic on :func:`yard_stock`.
    """
    dry = [one for one in stock.stacks if one.dryness in ("ideal", "fine")]
    weight = sum(one.mass_kg for one in dry)
    moisture = (
        sum(one.mass_kg * one.moisture.moisture for one in dry) / weight if weight > 0.0 else limits.ideal
    )
    mix: dict[str, float] = {}
    for one in stock.stacks:
        for name, share in one.mix.items():
            mix[name] = mix.get(name, 0.0) + share * one.dry_kg
    total = sum(mix.values())
    shares = {name: part / total for name, part in mix.items()} if total > 0.0 else {"mixed_broadleaf": 1.0}
    return BurntWood(moisture=moisture, mix=shares, form=_form(log_length), assumed=weight <= 0.0)


def _form(log_length_cm: float | None) -> Form:
    if log_length_cm is None or log_length_cm >= 75.0:
        return "split_33cm" if log_length_cm is None else "split_100cm"
    if log_length_cm >= 42.0:
        return "split_50cm"
    return "split_33cm" if log_length_cm >= 29.0 else "split_25cm"


@worked
def full_load_kg(boiler: LogBoiler, wood: BurntWood) -> Kilogram:
    r"""Wood that a usual full load is.

    Parameters
    ----------
    boiler : LogBoiler
        The boiler; its fuel space must be known.
    wood : BurntWood
        The wood as it is burnt.

    Returns
    -------
    Kilogram
        Weight of a full load as burnt. [kg]

    Raises
    ------
    Unknown
        If nobody has told the fuel space.
    OutOfRange
        If the moisture is out of range.

    Notes
    -----
    .. math:: m = f\,V\,\rho_s(M)

    with the fuel space :math:`V`, the part of it that is filled :math:`f`, and the weight of a stacked cubic
    metre :math:`\rho_s`.

    References
    ----------
    .. [1] As :func:`mass_of_stacked`.
    """
    if boiler.fuel_space_litres is None:
        raise Unknown("How much wood fits into the boiler is not known: give the fuel space in plant.boiler.")
    stacked_m3 = boiler.fuel_space_litres * boiler.filling_share / 1000.0
    return mass_of_stacked(wood.mix, stacked_m3, wood.moisture, wood.form)


@worked
def wood_for_span(heat: SpanHeat, efficiency: Efficiency, wood: BurntWood) -> WoodForSpan:
    r"""The wood that gives a span's heat.

    Parameters
    ----------
    heat : SpanHeat
        Heat wanted at the boiler.
    efficiency : Efficiency
        What the boiler makes of the wood.
    wood : BurntWood
        The wood as it will be burnt.

    Returns
    -------
    WoodForSpan
        Net heat of wood, weight and stacked volume, each with its range.

    Raises
    ------
    OutOfRange
        If the moisture is out of range.

    Notes
    -----
    .. math:: Q_w = Q / \eta, \qquad
              \left(\frac{d_w}{Q_w}\right)^2 = \left(\frac{d}{Q}\right)^2 + \left(\frac{d_\eta}{\eta}\right)^2

    References
    ----------
    .. [1] As :func:`amount_for_heat`.
    """
    central = heat.heat_kwh / efficiency.net
    if heat.heat_kwh > 0.0:
        below = hypot(
            (heat.heat_kwh - heat.low_kwh) / heat.heat_kwh,
            (efficiency.high - efficiency.net) / efficiency.net,
        )
        above = hypot(
            (heat.high_kwh - heat.heat_kwh) / heat.heat_kwh,
            (efficiency.net - efficiency.low) / efficiency.net,
        )
    else:
        below = above = 0.0
    need = HeatNeed(kwh=central, low_kwh=max(central * (1.0 - below), 0.0), high_kwh=central * (1.0 + above))
    amount, low, high = (_amount(kwh, wood) for kwh in (need.kwh, need.low_kwh, need.high_kwh))
    return WoodForSpan(
        need=need,
        mass_t=amount.mass_kg / 1000.0,
        mass_low_t=low.mass_kg / 1000.0,
        mass_high_t=high.mass_kg / 1000.0,
        stacked_m3=amount.stacked_m3,
        stacked_low_m3=low.stacked_m3,
        stacked_high_m3=high.stacked_m3,
    )


def _amount(kwh: float, wood: BurntWood) -> AmountForHeat:
    return amount_for_heat(kwh, wood.mix, wood.moisture, wood.form)


@worked
def months_of_wood(
    demand: Demand, weather: Hourly, loss: PlantLoss, efficiency: Efficiency, wood: BurntWood
) -> tuple[MonthOfWood, ...]:
    """Each month of a usual year, from July to June: its heat and the wood for it.

    Parameters
    ----------
    demand : Demand
        Heat of the house.
    weather : Hourly
        The weather it was reckoned with.
    loss : PlantLoss
        Standing losses.
    efficiency : Efficiency
        What the boiler makes of the wood.
    wood : BurntWood
        The wood as it will be burnt.

    Returns
    -------
    tuple of MonthOfWood
        Twelve months.

    Notes
    -----
    Heat and wood of each month as those of a span that is the month.

    References
    ----------
    .. [1] As :func:`heat_of_span` and :func:`wood_for_span`.
    """
    made = []
    for month in MONTHS_FROM_JULY:
        first = int(sum(DAYS_IN_MONTH[: month - 1])) * 24
        heat = heat_of_span(demand, weather, loss, first, int(DAYS_IN_MONTH[month - 1]) * 24)
        made.append(MonthOfWood(month=month, heat=heat, wood=wood_for_span(heat, efficiency, wood)))
    return tuple(made)
