"""What is still owed to neighbours this heating year: promised, less what the diary says was sold to them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Annotated

from woodreeve.supply.fields import Customer
from woodreeve.units import Ge, Le, Moisture, Unit
from woodreeve.wood.measure import Form, stacked_from_solid
from woodreeve.workings import worked

__all__ = ["Owed", "SoldLoad", "year_begins", "still_owed"]

HEATING_YEAR_BEGINS = (7, 1)
"""Promises by the year are counted from July to June."""

LEAST_OWED_M3 = 0.05
"""Less than a barrow or two is delivered. [m3]"""

_Volume = Annotated[float, Unit("m3"), Ge(0.0), Le(10_000.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class SoldLoad:
    """A load that went to a customer."""

    customer: str
    on: date
    solid_m3: _Volume
    mix: Mapping[str, float]
    form: Form


@dataclass(frozen=True, slots=True, kw_only=True)
class Owed:
    """Wood that a customer still has to get."""

    customer: str
    stacked_m3: _Volume
    by: date | None
    most_moisture: Moisture | None
    species: tuple[str, ...]
    log_length_cm: Annotated[float, Unit("cm")] | None


def year_begins(today: date) -> date:
    """The first of July on or before a day."""
    begins = date(today.year, *HEATING_YEAR_BEGINS)
    return begins if begins <= today else begins.replace(year=today.year - 1)


@worked
def still_owed(customers: tuple[Customer, ...], loads: tuple[SoldLoad, ...], today: date) -> tuple[Owed, ...]:
    r"""What each customer still has to get this heating year.

    A promise is kept before the house burns the same wood: it is set aside when the burning order is made.

    Parameters
    ----------
    customers : tuple of Customer
        Who buys wood, with what was promised.
    loads : tuple of SoldLoad
        What the diary says was sold.
    today : date
        The day asked about; the year runs from July to June.

    Returns
    -------
    tuple of Owed
        Those who still wait, in the order of the list. [m3]

    Raises
    ------
    UnknownName
        If a species is not known.

    Notes
    -----
    .. math:: V = \max\left(0, V_\text{promised} - \sum_i V_i\right)

    over the loads since the first of July; an agreement that has ended, or not begun, owes nothing.

    References
    ----------
    .. [1] Plain arithmetic on the holding's customers and the diary's sales.
    """
    begins = year_begins(today)
    found = []
    for customer in customers:
        terms = customer.agreement
        ended = terms.until is not None and terms.until < today
        if customer.stacked_m3_year is None or ended or (terms.since is not None and terms.since > today):
            continue
        delivered = sum(
            stacked_from_solid(load.solid_m3, load.form, dict(load.mix))
            for load in loads
            if load.customer == customer.name and begins <= load.on <= today
        )
        left = customer.stacked_m3_year - delivered
        if left >= LEAST_OWED_M3:
            found.append(
                Owed(
                    customer=customer.name,
                    stacked_m3=left,
                    by=customer.deliver_by,
                    most_moisture=terms.most_moisture,
                    species=terms.species,
                    log_length_cm=terms.log_length_cm,
                )
            )
    return tuple(found)
