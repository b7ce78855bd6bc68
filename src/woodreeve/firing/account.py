"""What a span took: wood, lightings, backup, cold rooms, and what that comes to in money."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Annotated

import numpy as np

from woodreeve.firing.prices import PlanPrices
from woodreeve.season import slots as s
from woodreeve.units import Floats, Unit

__all__ = ["Things", "heat_kept_kwh", "things_between"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Things:
    """What a span took, in things first.

    Parameters
    ----------
    wood_kg, wood_kwh : float
        Wood put in, and its net heat. [kg] [kWh]
    lightings, refills, odd_visits : float
        How often. [-]
    backup_fuel_kwh : float
        Fuel of the backup, electricity of the immersion heater included. [kWh]
    electricity_kwh : float
        Fan, pumps and controls. [kWh]
    cold_kh : float
        Degree-hours under the wanted temperature, in the worse zone. [K*h]
    tap_short_kwh : float
        Hot water that was wanted and did not come. [kWh]
    water_kwh, burnt_kwh : float
        Heat of the fires that reached the water, and heat of the wood that burnt. [kWh]
    """

    wood_kg: Annotated[float, Unit("kg")] = 0.0
    wood_kwh: Annotated[float, Unit("kWh")] = 0.0
    lightings: Annotated[float, Unit("-")] = 0.0
    refills: Annotated[float, Unit("-")] = 0.0
    odd_visits: Annotated[float, Unit("-")] = 0.0
    backup_fuel_kwh: Annotated[float, Unit("kWh")] = 0.0
    immersion_kwh: Annotated[float, Unit("kWh")] = 0.0
    electricity_kwh: Annotated[float, Unit("kWh")] = 0.0
    cold_kh: Annotated[float, Unit("K*h")] = 0.0
    tap_short_kwh: Annotated[float, Unit("kWh")] = 0.0
    water_kwh: Annotated[float, Unit("kWh")] = 0.0
    burnt_kwh: Annotated[float, Unit("kWh")] = 0.0

    @property
    def efficiency(self) -> float:
        """Heat to the water over heat of the wood that burnt. [-]."""
        return self.water_kwh / self.burnt_kwh if self.burnt_kwh > 0.0 else 0.0

    def money(self, prices: PlanPrices, wood_kwh_price: float) -> float:
        """What it comes to, each at its plain price: wishes do not weigh here. [money]."""
        return (
            self.wood_kwh * wood_kwh_price
            + self.lightings * prices.lighting
            + self.refills * prices.refill
            + self.odd_visits * prices.odd_visit
            + (self.backup_fuel_kwh - self.immersion_kwh) * prices.backup_fuel_kwh
            + (self.immersion_kwh + self.electricity_kwh) * prices.electricity_kwh
            + self.cold_kh * prices.cold_kh
            + self.tap_short_kwh * prices.tap_short_kwh
        )

    def __add__(self, other: Things) -> Things:
        """Both together."""
        return Things(**{f.name: getattr(self, f.name) + getattr(other, f.name) for f in fields(Things)})


def things_between(before: Floats, after: Floats, odd_visits: float = 0.0) -> Things:
    """What was taken between two snapshots of the kernel's working array.

    Parameters
    ----------
    before, after : array
        All rows of one run, at two times.
    odd_visits : float
        Visits by night meanwhile, which the kernel does not count. [-]

    Returns
    -------
    Things
        What was taken.
    """
    change = after - before

    def kwh(row: int) -> float:
        return float(change[row]) / 3.6e6

    return Things(
        wood_kg=float(change[s.LOADED_KG]),
        wood_kwh=kwh(s.LOADED_J),
        lightings=float(change[s.FIRES]),
        refills=float(change[s.REFILLS]),
        odd_visits=odd_visits,
        backup_fuel_kwh=kwh(s.BACKUP_FUEL_J) + kwh(s.IMMERSION_J),
        immersion_kwh=kwh(s.IMMERSION_J),
        electricity_kwh=kwh(s.ELECTRIC_J) - kwh(s.IMMERSION_J),
        cold_kh=float(max(change[s.COLD_ROOM_1_KS], change[s.COLD_ROOM_2_KS])) / 3600.0,
        tap_short_kwh=kwh(s.TAP_SHORT_J),
        water_kwh=kwh(s.CHARGED_J) + kwh(s.DIRECT_J),
        burnt_kwh=kwh(s.BURNT_J),
    )


def heat_kept_kwh(rows: Floats, store_c: Floats, cylinder_c: Floats, house_j_k: Floats) -> float:
    """Heat in store, cylinder, boiler, house and fuel, over 0 °C: only its changes mean something. [kWh].

    Parameters
    ----------
    rows : array
        All rows of one run.
    store_c, cylinder_c : array
        Its layers. [degC]
    house_j_k : array
        Heat capacities of air and mass, downstairs and upstairs. [J/K]

    Returns
    -------
    float
        The heat. [kWh]
    """
    house = rows[[s.AIR_1_C, s.MASS_1_C, s.AIR_2_C, s.MASS_2_C]]
    heat = (
        float(np.sum(store_c)) * rows[s.STORE_LAYER_J_K]
        + float(np.sum(cylinder_c)) * rows[s.CYLINDER_LAYER_J_K]
        + rows[s.BODY_C] * rows[s.BODY_J_K]
        + float((house * house_j_k).sum())
        + rows[s.FUEL_J]
    )
    return float(heat) / 3.6e6
