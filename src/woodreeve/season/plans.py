"""How a store and a cylinder are cut into layers: ports, segments between them, and joints between tanks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from woodreeve.errors import OutOfRange, Refused
from woodreeve.plant.fields import Cylinder, Store
from woodreeve.season import slots as s
from woodreeve.season.column import Ints

__all__ = ["ColumnPlan", "cylinder_plan", "store_plan"]


@dataclass(frozen=True, slots=True)
class ColumnPlan:
    """A column's layers and the layers of its ports."""

    layers: int
    substeps: int
    loops: tuple[tuple[int, int, bool], ...]
    """For each loop the layer it feeds, the layer it draws from, and whether it feeds back by a drop."""
    tanks: int = 1
    coil: tuple[int, int] = (0, 0)
    heater: int = 0
    sensor: int = 0

    def numbers(self) -> Ints:
        """The same as the kernel reads it."""
        plan = np.zeros(s.PLAN_SIZE, dtype=np.int64)
        ports = sorted({layer for into, out, _ in self.loops for layer in (into, out)})
        plan[s.PLAN_LAYERS], plan[s.PLAN_SUBSTEPS] = self.layers, self.substeps
        plan[s.PLAN_PORTS], plan[s.PLAN_LOOPS] = len(ports), len(self.loops)
        plan[s.PLAN_COIL_LOW], plan[s.PLAN_COIL_HIGH] = self.coil
        plan[s.PLAN_HEATER], plan[s.PLAN_SENSOR] = self.heater, self.sensor
        plan[s.PLAN_AT : s.PLAN_AT + len(ports)] = ports
        for number, (into, out, by_drop) in enumerate(self.loops):
            plan[s.PLAN_INTO + number] = ports.index(into)
            plan[s.PLAN_OUT_OF + number] = ports.index(out)
            plan[s.PLAN_BY_DROP + number] = int(by_drop)
        for face in range(self.layers - 1):
            below = [number for number, layer in enumerate(ports) if layer <= face]
            plan[s.PLAN_SEGMENT + face] = below[-1] if below else len(ports)
            each = self.layers // self.tanks
            plan[s.PLAN_JOINT + face] = int((face + 1) % each == 0)
        return plan


END_ZONE = 0.05
"""A port this near to an end of the store feeds and draws at the very end: water moves in and out in a
layer about that thick. Common practice of models, no published source."""


def _layer(height: float, layers: int) -> int:
    """The layer of a port or thermometer."""
    if height <= END_ZONE:
        return 0
    return layers - 1 if height >= 1.0 - END_ZONE else int(height * layers)


def store_plan(store: Store, layers: int, substeps: int) -> ColumnPlan:
    """Cut a store into layers and find those of its ports.

    Raises
    ------
    OutOfRange
        If a port or thermometer stands where it cannot.
    Refused
        If the store is of a kind that is not modelled.
    """
    if store.kind != "heating_buffer":
        raise Refused(
            f"A {store.kind.replace('_', ' ')} is not modelled: only heating stores with a cylinder beside "
            "them are, and taking it for one would give wrong figures."
        )
    if store.tanks > 1 and store.arrangement != "series":
        raise Refused(
            f"{store.tanks} tanks joined in {store.arrangement} are not modelled: their flows never share "
            "out evenly, and taking them for one tank would give wrong figures."
        )
    if store.tanks == 1 and store.arrangement != "single":
        raise Refused(f"One tank cannot be joined in {store.arrangement}: give the number of tanks.")
    for upper, lower, what in (
        ("charge_in_height", "charge_out_height", "the boiler's flow port must stand above its return port"),
        (
            "heating_out_height",
            "heating_back_height",
            "the heating's flow port must stand above its return port",
        ),
        (
            "hot_water_out_height",
            "hot_water_back_height",
            "the coil's flow port must stand above its return port",
        ),
    ):
        high, low = getattr(store, upper), getattr(store, lower)
        if not high > low:
            raise OutOfRange(upper, f"{high:g}", f"more than {lower}, which is {low:g}", "-", what)
    heights = [sensor.height for sensor in store.sensors]
    for sensor in store.sensors:
        if not 0.0 <= sensor.height <= 1.0:
            raise OutOfRange(
                f"height of the thermometer {sensor.name}",
                f"{sensor.height:g}",
                "between 0 and 1",
                "-",
                "it would not stand on the store",
            )
    if heights != sorted(heights, reverse=True):
        raise OutOfRange(
            "store thermometers", "/".join(f"{h:g}" for h in heights), "listed from the top down", "-"
        )
    each = -(-layers // store.tanks)
    layers = each * store.tanks
    if not 4 <= layers < s.MOST_LAYERS:
        raise OutOfRange("layers", layers, f"between 4 and {s.MOST_LAYERS - 1}")
    charge_in, charge_out = _layer(store.charge_in_height, layers), _layer(store.charge_out_height, layers)
    rooms_out, rooms_in = _layer(store.heating_out_height, layers), _layer(store.heating_back_height, layers)
    coil_out, coil_in = (
        _layer(store.hot_water_out_height, layers),
        _layer(store.hot_water_back_height, layers),
    )
    return ColumnPlan(
        layers=layers,
        substeps=substeps,
        loops=(
            (charge_in, charge_out, False),
            (rooms_in, rooms_out, False),
            (coil_in, coil_out, True),
            (rooms_out, coil_in, False),
            (charge_out, charge_in, False),
        ),
        tanks=store.tanks,
    )


def cylinder_plan(cylinder: Cylinder, layers: int, substeps: int) -> ColumnPlan:
    """Cut a cylinder into layers and find those of its coils, heater and thermostat."""
    if not 2 <= layers < s.MOST_LAYERS:
        raise OutOfRange("cylinder_layers", layers, f"between 2 and {s.MOST_LAYERS - 1}")
    high = 0.9 if cylinder.second_coil == "in_series" else 0.5
    return ColumnPlan(
        layers=layers,
        substeps=substeps,
        loops=((0, layers - 1, False),),
        coil=(0, max(0, _layer(high, layers) - 1)),
        heater=_layer(0.4, layers),
        sensor=_layer(0.4, layers),
    )
