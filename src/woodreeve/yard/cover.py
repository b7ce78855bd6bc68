"""How far the wood reaches: winters covered, what is short, and by when it must be split."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated

from woodreeve.errors import OutOfRange
from woodreeve.units import Ge, Gt, KilowattHour, Le, Moisture, Unit
from woodreeve.wood.heat import energy_per_kg, energy_per_stacked_m3
from woodreeve.wood.measure import Form, solid_of_mass
from woodreeve.wood.species import Wood
from woodreeve.workings import worked
from woodreeve.yard.stock import YardStock

__all__ = [
    "FIRES_BEGIN",
    "AmountForHeat",
    "Cover",
    "HeatNeed",
    "SplitBy",
    "amount_for_heat",
    "split_by",
    "winter_cover",
]

DAYS_PER_MONTH = 365.25 / 12.0
"""Mean length of a month. [day]"""

FIRES_BEGIN = (10, 1)
"""Wood for a winter should be dry by then: month and day."""

SAFE_FACTOR = 2.0
"""So many times the usual months are the safe span: oak, thick logs, a damp yard. Judgement. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatNeed:
    """Heat wanted of the wood in a span, with its range.

    Parameters
    ----------
    kwh, low_kwh, high_kwh : float
        Net heat of wood, that is useful heat over the boiler's efficiency. [kWh]
    """

    kwh: Annotated[float, Unit("kWh"), Ge(0.0)]
    low_kwh: Annotated[float, Unit("kWh"), Ge(0.0)]
    high_kwh: Annotated[float, Unit("kWh"), Ge(0.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """How far the yard reaches.

    Parameters
    ----------
    winters, low, high : float
        All split wood over one whole winter's need. [-]
    dry_winters : float
        Of it what is dry enough now. [-]
    share_dry_enough : float
        As in the yard's stock. [-]
    short_now_kwh, short_now_low_kwh, short_now_high_kwh : float
        What the rest of this winter wants beyond the wood now dry enough. [kWh]
    short_next_kwh, short_next_low_kwh, short_next_high_kwh : float
        What the next winter wants beyond the split wood that the rest of this one leaves. [kWh]
    left_for_next_kwh : float
        All split wood less the rest of this winter. [kWh]
    """

    winters: Annotated[float, Unit("-")]
    low: Annotated[float, Unit("-")]
    high: Annotated[float, Unit("-")]
    dry_winters: Annotated[float, Unit("-")]
    share_dry_enough: Annotated[float, Unit("-")]
    short_now_kwh: Annotated[float, Unit("kWh")]
    short_now_low_kwh: Annotated[float, Unit("kWh")]
    short_now_high_kwh: Annotated[float, Unit("kWh")]
    short_next_kwh: Annotated[float, Unit("kWh")]
    short_next_low_kwh: Annotated[float, Unit("kWh")]
    short_next_high_kwh: Annotated[float, Unit("kWh")]
    left_for_next_kwh: Annotated[float, Unit("kWh")]


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountForHeat:
    """How much wood holds some heat.

    Parameters
    ----------
    mass_kg, dry_kg : float
        Weight at the moisture asked for, and oven-dry. [kg]
    stacked_m3, solid_m3 : float
        With and without the air between the logs. [m3]
    """

    mass_kg: Annotated[float, Unit("kg")]
    dry_kg: Annotated[float, Unit("kg")]
    stacked_m3: Annotated[float, Unit("m3")]
    solid_m3: Annotated[float, Unit("m3")]


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitBy:
    """By when wood must lie split and under cover.

    Parameters
    ----------
    latest : date
        The last day that leaves the usual months before the winter begins.
    safe : date
        The day that leaves twice as long: for oak, thick logs, or a damp yard.
    days_left : int
        From the moment asked about to ``latest``; below 0 if it has passed.
    passed : bool
        Whether it has.
    """

    latest: date
    safe: date
    days_left: int
    passed: bool


@worked
def winter_cover(stock: YardStock, winter: HeatNeed, rest_of_winter: HeatNeed) -> Cover:
    r"""Say how many winters the yard's wood covers, and what is short.

    Parameters
    ----------
    stock : YardStock
        The yard's wood.
    winter : HeatNeed
        Need of one whole winter; above 0.
    rest_of_winter : HeatNeed
        Need of what is left of the running winter; 0 in summer.

    Returns
    -------
    Cover
        Winters covered, and shortfalls with their ranges. [kWh]

    Raises
    ------
    OutOfRange
        If the winter needs no heat.

    Notes
    -----
    .. math:: n = \frac{Q}{W}, \qquad
              S_\text{now} = \max(0, R - Q_\text{dry}), \qquad
              S_\text{next} = \max(0, W - \max(0, Q - R))

    What the rest of this winter takes beyond the stock is not counted again for the next. The low end of a
    shortfall takes the low need with the high stock, the high end the reverse.

    References
    ----------
    .. [1] Plain arithmetic on :func:`yard_stock` and the house's demand.
    """
    _positive(winter.kwh)
    left = max(stock.heat_kwh - rest_of_winter.kwh, 0.0)
    most_left = max(stock.high_kwh - rest_of_winter.low_kwh, 0.0)
    least_left = max(stock.low_kwh - rest_of_winter.high_kwh, 0.0)
    return Cover(
        winters=stock.heat_kwh / winter.kwh,
        low=stock.low_kwh / winter.high_kwh,
        high=stock.high_kwh / max(winter.low_kwh, 1e-9),
        dry_winters=stock.dry_kwh / winter.kwh,
        share_dry_enough=stock.share_dry_enough + 0.0,
        short_now_kwh=max(rest_of_winter.kwh - stock.dry_kwh, 0.0),
        short_now_low_kwh=max(rest_of_winter.low_kwh - stock.dry_high_kwh, 0.0),
        short_now_high_kwh=max(rest_of_winter.high_kwh - stock.dry_low_kwh, 0.0),
        short_next_kwh=max(winter.kwh - left, 0.0),
        short_next_low_kwh=max(winter.low_kwh - most_left, 0.0),
        short_next_high_kwh=max(winter.high_kwh - least_left, 0.0),
        left_for_next_kwh=left,
    )


def _positive(kwh: float) -> None:
    if not kwh > 0.0:
        raise OutOfRange("the winter's need", f"{kwh:g}", "more than 0", "kWh")


@worked
def amount_for_heat(
    heat_kwh: KilowattHour, wood: Wood, moisture: Moisture, form: Form = "split_33cm"
) -> AmountForHeat:
    r"""How much wood holds an amount of heat.

    Parameters
    ----------
    heat_kwh : KilowattHour
        Net heat wanted of the wood. [kWh]
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass when it is burnt. [-] From 0 to 0.60.
    form : str
        How it is cut and stacked.

    Returns
    -------
    AmountForHeat
        Weight and volumes. [kg] [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside its range.
    UnknownName
        If the species is not known.

    Notes
    -----
    .. math:: m = \frac{Q}{e(M)}, \qquad V_s = \frac{Q}{e_s(M)}

    References
    ----------
    .. [1] As :func:`woodreeve.wood.heat.energy_per_kg` and
       :func:`woodreeve.wood.heat.energy_per_stacked_m3`.
    """
    mass = heat_kwh / energy_per_kg(wood, moisture)
    return AmountForHeat(
        mass_kg=mass,
        dry_kg=mass * (1.0 - moisture),
        stacked_m3=heat_kwh / energy_per_stacked_m3(wood, moisture, form),
        solid_m3=solid_of_mass(wood, mass, moisture),
    )


@worked
def split_by(
    season_begins: date,
    today: date,
    months_under_cover: Annotated[float, Unit("month"), Gt(0.0), Le(60.0)] = 6.0,
) -> SplitBy:
    r"""By when wood must lie split and under cover to be dry for a winter.

    Parameters
    ----------
    season_begins : date
        First day on which that winter's fires are lit.
    today : date
        The day asked about.
    months_under_cover : float
        How long split wood lies covered before it is burnt. [month] Above 0, up to 60.

    Returns
    -------
    SplitBy
        The latest and the safe day.

    Raises
    ------
    OutOfRange
        If the months lie outside their range.

    Notes
    -----
    .. math:: d = d_\text{winter} - 30.44 \, n

    Six months are common practice, no published source; twice as long is judgement. A date for each
    stack, with its chance, comes from the drying model.

    References
    ----------
    .. [1] Common practice, no published source. Danish advice has hardwood split and roofed by the end of
       April for the same winter and gives it two summers to be sure: University of Copenhagen,
       Arbejdsrapport 119 and Videnblad 07.02-08.
    """
    latest = season_begins - timedelta(days=round(months_under_cover * DAYS_PER_MONTH))
    safe = season_begins - timedelta(days=round(months_under_cover * SAFE_FACTOR * DAYS_PER_MONTH))
    left = (latest - today).days
    return SplitBy(latest=latest, safe=safe, days_left=left, passed=left < 0)
