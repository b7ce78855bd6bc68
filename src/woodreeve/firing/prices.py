"""What a plan weighs against each other, in money: lightings, backup, cold rooms, visits by night."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from woodreeve.firing.fields import Wishes
from woodreeve.house.fuel import fuel_energy
from woodreeve.money.fields import Prices
from woodreeve.plant.fields import BackupBoiler
from woodreeve.units import Ge, Unit
from woodreeve.workings import worked

__all__ = ["PlanPrices", "plan_prices"]

FALL_BACK_FUEL_KWH = 0.10
FALL_BACK_ELECTRICITY_KWH = 0.27
FALL_BACK_HOUR = 10.0
FALL_BACK_COLD_KH = 0.15
"""Prices where the owner has given none, so that things can be weighed at all. Judgement, told each time."""

KINDLING = 0.4
"""Kindling and match of a lighting. Judgement. [money]"""

AVOIDED = 2.0
"""An owner who wants the backup avoided would pay so many times its price not to use it. Judgement. [-]"""

COMFORT = {"comfort": 2.0, "balanced": 1.0, "thrift": 0.5}
"""How cold rooms weigh with each wish. Judgement. [-]"""

ODD_VISITS = 2.0
"""A visit by night weighs like so many lightings. Judgement. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPrices:
    """The prices a plan is made with, wood left out: its price is the stack's.

    Parameters
    ----------
    lighting, refill, odd_visit : float
        One lighting, one refill, and what a visit by night costs beside it. [money]
    backup_fuel_kwh : float
        A kWh of the backup's fuel, net. [money/kWh]
    electricity_kwh : float
        A kWh at the meter. [money/kWh]
    cold_kh : float
        A degree-hour under the wanted temperature, in the worse zone. [money/(K*h)]
    tap_short_kwh : float
        A kWh of hot water that was wanted and did not come. [money/kWh]
    backup_weight_day, backup_weight_night : float
        How many times its price the backup weighs by day, and from 22 to 6 o'clock. [-]
    currency : str
        Of all these.
    """

    lighting: Annotated[float, Unit("money"), Ge(0.0)] = 1.5
    refill: Annotated[float, Unit("money"), Ge(0.0)] = 0.5
    odd_visit: Annotated[float, Unit("money"), Ge(0.0)] = 3.0
    backup_fuel_kwh: Annotated[float, Unit("money/kWh"), Ge(0.0)] = 0.11
    electricity_kwh: Annotated[float, Unit("money/kWh"), Ge(0.0)] = 0.27
    cold_kh: Annotated[float, Unit("money/(K*h)"), Ge(0.0)] = 0.15
    tap_short_kwh: Annotated[float, Unit("money/kWh"), Ge(0.0)] = 1.0
    backup_weight_day: Annotated[float, Unit("-"), Ge(0.0)] = 1.0
    backup_weight_night: Annotated[float, Unit("-"), Ge(0.0)] = 1.0
    currency: str = "GBP"

    def scaled(self, **shares: float) -> PlanPrices:
        """The same with some prices multiplied."""
        return replace(self, **{name: getattr(self, name) * share for name, share in shares.items()})


@worked
def plan_prices(prices: Prices, wishes: Wishes, backup: BackupBoiler) -> tuple[PlanPrices, tuple[str, ...]]:
    r"""The prices a plan is made with, from the owner's prices and wishes.

    Parameters
    ----------
    prices : Prices
        The owner's prices.
    wishes : Wishes
        How warmth and backup are to weigh, and how long a lighting takes.
    backup : BackupBoiler
        Its fuel.

    Returns
    -------
    tuple
        The prices, and a sentence for each that was not known.

    Raises
    ------
    UnknownName
        If the fuel is not known.

    Notes
    -----
    .. math:: p_\text{light} = p_h\,t_\text{light} + p_k, \qquad p_\text{kWh} = p_L / H

    A lighting without a price of its own costs its time and its kindling. A backup that is to be avoided
    weighs twice its price, one for nights only by day; a room too cold weighs twice with comfort first
    and half with thrift first: judgement.

    References
    ----------
    .. [1] Own rule; heat of a litre as :func:`fuel_energy`.
    """
    assumed: list[str] = []

    def known(value: float | None, fall_back: float, sentence: str) -> float:
        if value is not None:
            return float(value)
        assumed.append(sentence.format(fall_back))
        return fall_back

    electricity = known(
        prices.electricity, FALL_BACK_ELECTRICITY_KWH, "Price of electricity not known: {:g} a kWh is taken."
    )
    hour = 0.0
    if prices.lighting is None:
        hour = known(prices.own_hour, FALL_BACK_HOUR, "Worth of your hour not known: {:g} is taken.")
    elif prices.own_hour is not None:
        hour = prices.own_hour
    presence = wishes.presence
    lighting = prices.lighting
    if lighting is None:
        lighting = KINDLING + hour * presence.lighting_minutes / 60.0
    fuel = _fuel_price(prices, backup)
    by_day = {"avoid": AVOIDED, "by_price": 1.0, "nights_only": AVOIDED}[wishes.backup]
    by_night = {"avoid": AVOIDED, "by_price": 1.0, "nights_only": 1.0}[wishes.backup]
    cold = known(
        prices.cold_degree_hour, FALL_BACK_COLD_KH, "Price of a degree-hour not known: {:g} is taken."
    )
    return (
        PlanPrices(
            lighting=lighting,
            refill=min(hour * presence.refill_minutes / 60.0, lighting) if hour > 0.0 else lighting / 3.0,
            odd_visit=ODD_VISITS * lighting,
            backup_fuel_kwh=electricity
            if backup.fuel == "electricity"
            else known(
                fuel, FALL_BACK_FUEL_KWH, "Price of the backup's fuel not known: {:g} a kWh is taken."
            ),
            electricity_kwh=electricity,
            cold_kh=cold * COMFORT[wishes.warm_first],
            tap_short_kwh=4.0 * electricity,
            backup_weight_day=by_day,
            backup_weight_night=by_night,
            currency=prices.currency,
        ),
        tuple(assumed),
    )


def _fuel_price(prices: Prices, backup: BackupBoiler) -> float | None:
    """A kWh of the backup's fuel, net."""
    if prices.backup_fuel_litre is not None and backup.fuel in ("oil", "lpg"):
        return prices.backup_fuel_litre / fuel_energy("kerosene" if backup.fuel == "oil" else "lpg", "net")
    if prices.backup_fuel is None:
        return None
    gross_over_net = {"natural_gas": 1.11, "lpg": 1.09, "oil": 1.07}.get(backup.fuel or "", 1.0)
    return prices.backup_fuel * (gross_over_net if prices.backup_fuel_basis == "gross" else 1.0)
