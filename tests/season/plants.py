"""Plants, houses and weather that the tests of the season run."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from woodreeve.house.dynamic import RoomDynamics, zone_dynamics
from woodreeve.plant.fields import BackupBoiler, Circuit, Cylinder, HeatEscape, LogBoiler, Plant, Store
from woodreeve.plant.hot_water import tapping_powers
from woodreeve.season.inputs import Hours, day_pattern
from woodreeve.season.setup import Prepared, Settings, prepare
from woodreeve.units import Floats

ROOMS = RoomDynamics(
    downstairs=zone_dynamics(220.0, 95.0, "heavy"), upstairs=zone_dynamics(180.0, 95.0, "medium")
)

PLANT = Plant(
    boiler=LogBoiler(
        output_kw=25.0, efficiency_net=0.88, fuel_space_litres=140.0, return_c=60.0, air="induced_fan"
    ),
    store=Store(litres=1500.0, height_m=2.0, energy_class="C", stands_in="unheated_room"),
    backup=BackupBoiler(fuel="lpg", output_kw=20.0, efficiency_net=0.9),
    cylinder=Cylinder(litres=250.0, coil_kw=20.0, coil_flow_kg_h=1200.0, target_c=55.0),
    circuits=(
        Circuit(name="downstairs", design_outdoor_c=-8.0, design_flow_c=55.0),
        Circuit(name="upstairs", design_outdoor_c=-8.0, design_flow_c=55.0),
    ),
    heat_escapes=(HeatEscape(kind="thermal_discharge", supply="mains", opens_at_c=95.0),),
)
"""The farmhouse of the demo, roughly."""

CAPACITIES = 1000.0 * np.array(
    [
        ROOMS.downstairs.air_kj_k,
        ROOMS.downstairs.mass_kj_k,
        ROOMS.upstairs.air_kj_k,
        ROOMS.upstairs.mass_kj_k,
    ]
)


def changed(plant: Plant = PLANT, **parts: Any) -> Plant:
    """The plant with some fields of its parts changed."""
    return replace(plant, **{name: replace(getattr(plant, name), **fields) for name, fields in parts.items()})


def prepared(plant: Plant = PLANT, **more: Any) -> Prepared:
    """The plant ready to run in the house of the tests."""
    return prepare(plant, ROOMS, settings=more.pop("settings", Settings()), **more)


def winter(days: int, *, seed: int = 7, mean_c: float = 2.0, **more: Any) -> Hours:
    """Cold days with their swing, some sun, set-back at night and the draws of a small household."""
    hours = np.arange(24 * days)
    drift = np.repeat(np.random.default_rng(seed).normal(0.0, 3.0, days), 24)
    clock = np.sin((hours % 24 - 6) / 12.0 * np.pi)
    given: dict[str, Any] = {
        "outdoor_c": mean_c + drift + 3.0 * np.sin((hours % 24 - 9) / 12.0 * np.pi),
        "sun_downstairs_w": 600.0 * np.clip(clock, 0.0, None),
        "sun_upstairs_w": 400.0 * np.clip(clock, 0.0, None),
        "wanted_downstairs_c": day_pattern(days * 24, np.where(np.arange(24) < 6, 17.0, 20.0)),
        "tap_powers_w": tapping_powers("M"),
    }
    return Hours(**(given | more))


def still(hours: int, outdoor_c: float = 20.0, **more: Any) -> Hours:
    """Mild weather in which nothing is asked of the plant."""
    given: dict[str, Any] = {
        "outdoor_c": np.full(hours, outdoor_c),
        "inside_downstairs_w": 0.0,
        "inside_upstairs_w": 0.0,
    }
    return Hours(**(given | more))


def column_of(hot: float, cold: float, layers: int, share: float = 0.5) -> Floats:
    """A store with hot water over cold."""
    return np.where(np.arange(layers) >= layers * (1.0 - share), hot, cold)
