"""What the house wants of the yard: the wood that gives a span's heat."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import Annotated

from woodreeve.errors import Unknown
from woodreeve.house.demand import Demand
from woodreeve.plant.fields import LogBoiler
from woodreeve.supply.heat import Efficiency, PlantLoss, SpanHeat, heat_of_span
from woodreeve.units import Ge, Kilogram, Le, Unit
from woodreeve.weather.series import DAYS_IN_MONTH, Hourly
from woodreeve.wood.measure import Form, mass_of_stacked
from woodreeve.workings import worked
from woodreeve.yard.cover import AmountForHeat, HeatNeed, amount_for_heat
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.stock import YardStock

__all__ = [
    "BurntWood",
    "MonthOfWood",
    "WoodForSpan",
    "burnt_wood",
    "full_load_kg",
    "months_of_wood",
    "wood_for_span",
]

MONTHS_FROM_JULY = (7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6)
"""The months of a heating year, from July to June."""


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
