"""What things cost the owner: fuels, electricity, his own hours, and what the plant cost.

Prices age, so each set carries the day it was true. All are in the owner's currency, and
none has a default: an answer in money says which price it missed.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal

from woodreeve.units import Asks, Ge, Gt, Le, Unit

__all__ = ["Prices"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """The owner's prices."""

    currency: Annotated[str, Asks("Currency", "Three letters, for instance GBP or EUR.")] = "GBP"
    true_on: Annotated[date | None, Asks("Prices of", "Day on which these prices were true.")] = None
    backup_fuel: Annotated[
        float | None,
        Unit("money/kWh"),
        Ge(0),
        Le(10),
        Asks("Backup fuel", "Price of one kWh in the backup's fuel, on the basis named below."),
    ] = None
    backup_fuel_basis: Annotated[
        Literal["net", "gross"],
        Asks("Basis of that kWh", "Bills for gas count gross kWh; a litre's heat is usually told net."),
    ] = "net"
    backup_fuel_litre: Annotated[
        float | None,
        Unit("money/L"),
        Ge(0),
        Le(100),
        Asks(
            "Backup fuel by the litre",
            "Where the supplier charges by the litre; used before the price by kWh.",
        ),
    ] = None
    electricity: Annotated[
        float | None, Unit("money/kWh"), Ge(0), Le(10), Asks("Electricity", "Price of one kWh at the meter.")
    ] = None
    own_hour: Annotated[
        float | None,
        Unit("money/h"),
        Ge(0),
        Le(1000),
        Asks(
            "An hour of your own work",
            "What an hour in the woods or at the boiler is worth to you; 0 if nothing.",
        ),
    ] = None
    own_wood_stacked_m3: Annotated[
        float | None,
        Unit("money/m3"),
        Ge(0),
        Le(2000),
        Asks("Own wood", "Worth of one stacked cubic metre of your own dry logs: what a buyer would pay."),
    ] = None
    bought_roundwood_solid_m3: Annotated[
        float | None,
        Unit("money/m3"),
        Ge(0),
        Le(2000),
        Asks("Bought roundwood", "Price of one solid cubic metre at the roadside, delivered."),
    ] = None
    saw_and_tractor_stacked_m3: Annotated[
        float | None,
        Unit("money/m3"),
        Ge(0),
        Le(500),
        Asks("Saw, splitter and tractor", "Fuel, oil and wear for one stacked cubic metre made."),
    ] = None
    lighting: Annotated[
        float | None,
        Unit("money"),
        Ge(0),
        Le(200),
        Asks(
            "Lighting a fire",
            "What one lighting is worth sparing: kindling, time, trouble; unknown is reckoned from time.",
        ),
    ] = None
    cold_degree_hour: Annotated[
        float | None,
        Unit("money/(K*h)"),
        Ge(0),
        Le(50),
        Asks(
            "A room one degree too cold for an hour",
            "How much you would pay to avoid it; it weighs comfort in plans.",
        ),
    ] = None
    plant_cost: Annotated[
        float | None,
        Unit("money"),
        Ge(0),
        Le(1e6),
        Asks("Cost of the plant", "Boiler, store and fitting together."),
    ] = None
    other_plant_cost: Annotated[
        float | None,
        Unit("money"),
        Ge(0),
        Le(1e6),
        Asks("Cost of the other way", "What you would have bought instead, fitted."),
    ] = None
    service_year: Annotated[
        float | None,
        Unit("money"),
        Ge(0),
        Le(20000),
        Asks("Service in a year", "Service and sweeping, paid in a year."),
    ] = None
    plant_life_years: Annotated[
        float, Unit("year"), Gt(1), Le(60), Asks("Life of the plant", "Years until it would be replaced.")
    ] = 20.0
    discount_rate: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(0.3),
        Asks(
            "Rate of interest",
            "Your loan's or savings' rate above inflation; 3.5 % is what public bodies in the UK take.",
        ),
    ] = 0.035
    vat: Annotated[
        float | None,
        Unit("-"),
        Ge(0),
        Le(0.4),
        Asks("VAT on wood you sell", "As your tax office says; unknown leaves it off the notes."),
    ] = None
