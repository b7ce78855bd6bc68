"""Spans of past fuel: from deliveries and bills to what was really used.

A delivery is not the use unless the tank was full before and after it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from woodreeve.errors import OutOfRange, Refused, Unknown
from woodreeve.house.describe import PastFuel
from woodreeve.house.fuel import USUAL_EFFICIENCY, energy_of, useful_heat
from woodreeve.units import KilowattHour, Unit
from woodreeve.workings import worked

__all__ = ["FuelSpan", "fuel_spans"]

ENOUGH_DAYS = 300
"""Deliveries into a tank that was not full count only if they span so many days. [day] (judgement)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelSpan:
    """Useful heat of one span of past fuel.

    Parameters
    ----------
    first_day, last_day : date
        The span; the last day is not in it.
    days : float
        Its length. [day]
    heat_kwh : float
        Useful heat. [kWh]
    """

    first_day: date
    last_day: date
    days: Annotated[float, Unit("day")]
    heat_kwh: KilowattHour


def _heat(use: PastFuel) -> float:
    basis = "net" if use.fuel == "wood" else use.basis
    efficiency = use.efficiency if use.efficiency is not None else USUAL_EFFICIENCY[use.fuel]
    return useful_heat(use.amount, energy_of(use.fuel, basis, use.energy_kwh), efficiency)


@worked
def fuel_spans(past_fuel: tuple[PastFuel, ...]) -> tuple[FuelSpan, ...]:
    r"""Spans whose use of fuel is known, from what was delivered or burnt.

    A delivery measures the use only from one full tank to the next. Deliveries into a tank that was not
    full are therefore put together, and count only if all of them span the better part of a year.

    Parameters
    ----------
    past_fuel : tuple of PastFuel
        Fuel of past spans. Several fuels of one and the same span are added.

    Returns
    -------
    tuple of FuelSpan
        Spans with their useful heat.

    Raises
    ------
    OutOfRange
        If a span ends before it begins.
    Refused
        If only deliveries into a part-filled tank over less than 300 days are there.
    Unknown
        If there is no past fuel, or the heat in wood is not given.

    Notes
    -----
    .. math:: Q = \sum_i n_i\,e_i\,\eta_i

    References
    ----------
    .. [1] Balance of the tank.
    """
    if not past_fuel:
        raise Unknown("No past fuel is given, so the house's own heat loss cannot be read from it.")
    sure: dict[tuple[date, date], float] = {}
    loose: list[PastFuel] = []
    for use in past_fuel:
        if use.last_day <= use.first_day:
            raise OutOfRange("last_day", use.last_day, f"after the first day, {use.first_day}")
        if use.tank_full_both_times or use.fuel in ("electricity", "wood"):
            span = (use.first_day, use.last_day)
            sure[span] = sure.get(span, 0.0) + _heat(use)
        else:
            loose.append(use)
    if loose:
        span = (min(use.first_day for use in loose), max(use.last_day for use in loose))
        inside = all(span[0] <= other[0] and other[1] <= span[1] for other in sure)
        if (span[1] - span[0]).days >= ENOUGH_DAYS and (inside or not sure):
            burnt = sum(_heat(use) for use in loose)
            sure = {span: burnt + sum(sure.values())}
        elif not sure:
            raise Refused(
                f"Deliveries of {(span[1] - span[0]).days} days into a tank not full do not tell the use: "
                f"give {ENOUGH_DAYS} days or more, or spans from one full tank to the next."
            )
    return tuple(
        FuelSpan(first_day=a, last_day=b, days=float((b - a).days), heat_kwh=sure[a, b])
        for a, b in sorted(sure)
    )
