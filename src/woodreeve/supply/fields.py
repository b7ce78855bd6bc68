"""Who buys wood and what was agreed. No address or telephone stands here: records keep those apart."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Annotated, Literal

from woodreeve.units import Asks, Ge, Gt, Le, Unit

__all__ = ["Agreement", "Customer", "Supply"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """What was agreed with a customer."""

    most_moisture: Annotated[
        float | None,
        Unit("-"),
        Ge(0.1),
        Le(0.6),
        Asks("Wettest wood agreed", "Wet basis, measured on the day."),
    ] = None
    species: Annotated[
        tuple[str, ...], Asks("Species agreed", "Species or groups that may be delivered; none means any.")
    ] = ()
    log_length_cm: Annotated[
        float | None, Unit("cm"), Gt(5), Le(200), Asks("Log length agreed", "Length of the split logs.")
    ] = None
    price: Annotated[
        float | None, Unit("money"), Ge(0), Le(10000), Asks("Price", "For one of the measures named next.")
    ] = None
    price_basis: Annotated[
        Literal["stacked_m3", "loose_m3", "tonne", "kwh"],
        Asks("Price counts", "Stacked or loose cubic metres, tonnes, or kWh at the measured moisture."),
    ] = "stacked_m3"
    wetter: Annotated[
        Literal["price_by_heat", "refused", "not_agreed"],
        Asks("If it is wetter", "What happens when the load is wetter than agreed."),
    ] = "not_agreed"
    indexed_to: Annotated[str | None, Asks("Price follows", "Any index the price follows, in words.")] = None
    since: Annotated[date | None, Asks("Agreed since", "First day of the agreement.")] = None
    until: Annotated[date | None, Asks("Agreed until", "Last day of the agreement.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Customer:
    """A neighbour who buys wood."""

    name: Annotated[str, Asks("Name of the customer", "As the diary names them; a house name will do.")]
    stacked_m3_year: Annotated[
        float | None,
        Unit("m3"),
        Ge(0),
        Le(2000),
        Asks("Promised in a year", "Stacked cubic metres in a heating year."),
    ] = None
    deliver_by: Annotated[date | None, Asks("Deliver by", "Day by which this year's wood must be there.")] = (
        None
    )
    distance_km: Annotated[
        float | None, Unit("km"), Ge(0), Le(500), Asks("Distance by road", "One way, from the yard.")
    ] = None
    agreement: Annotated[Agreement, Asks("Agreement", "What was agreed with them.")] = field(
        default_factory=Agreement
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Selling wood."""

    customers: Annotated[
        tuple[Customer, ...], Asks("Customers", "Who buys wood from you, in the order you would serve them.")
    ] = ()
    trailer_stacked_m3: Annotated[
        float | None,
        Unit("m3"),
        Gt(0),
        Le(100),
        Asks("Trailer", "Stacked cubic metres that fit on the trailer."),
    ] = None
    trailer_kg: Annotated[
        float | None, Unit("kg"), Gt(0), Le(50000), Asks("Trailer's load", "Kilograms it may carry.")
    ] = None
    approved_scales: Annotated[
        Literal["yes", "no"] | None,
        Asks("Approved scales", "Scales approved for trade: only then may wood be sold by weight."),
    ] = None
    own_first: Annotated[
        Literal["yes", "no"], Asks("Own house first", "Keep your own winter's wood before promising any.")
    ] = "yes"
