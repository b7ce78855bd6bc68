"""From the owner's description of plant and rooms to the numbers of a run, each fall-back told."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from woodreeve.errors import OutOfRange, Refused, Unknown
from woodreeve.house.dynamic import RoomDynamics, step_matrices
from woodreeve.plant.boiler import (
    charge_flow,
    flue_rise_for,
    fuel_space_kg,
    tail_share,
)
from woodreeve.plant.fields import BackupBoiler, Circuit, Cylinder, LogBoiler, Plant, Store
from woodreeve.plant.hot_water import coil_conductance, coil_effectiveness
from woodreeve.plant.radiators import radiator_factor
from woodreeve.plant.store import insulation_loss, standing_loss_per_kelvin
from woodreeve.plant.water import water_conductivity, water_density, water_heat_capacity
from woodreeve.season import slots as s
from woodreeve.season.plans import ColumnPlan, cylinder_plan, store_plan
from woodreeve.units import Floats
from woodreeve.wood.burning import excess_air_from_oxygen

__all__ = ["WATER_J_KG_K", "Prepared", "Settings", "prepare"]

WATER_J_KG_K = 1000.0 * water_heat_capacity(65.0)
"""Heat of the plant's water, taken at 65 °C throughout a run. [J/(kg*K)]"""
FILL_KG_L = water_density(70.0) / 1000.0
"""Water that stays in a store which has been hot. [kg/L]"""
MOST_COURANT = 0.8
"""Part of a layer that may be carried on in one sub-step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """How finely a run is cut. The defaults are those that the convergence study speaks for."""

    step_s: int = 60
    layers: int = 30
    cylinder_layers: int = 6
    conduction_factor: float = 1.0
    """Conduction between layers over that of resting water: walls and pipes can make it larger."""

    def __post_init__(self) -> None:
        """Refuse steps that do not fill an hour, or are too long for what happens within them."""
        if self.step_s < 1 or self.step_s > 300 or 3600 % self.step_s:
            raise OutOfRange(
                "step_s", self.step_s, "a whole part of an hour between 1 and 300", "s", "60 is a good choice"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A plant and its rooms, ready to run."""

    values: Floats
    """One number for each row of the working array."""
    store: ColumnPlan
    cylinder: ColumnPlan
    settings: Settings
    store_c: Floats
    cylinder_c: Floats
    assumed: tuple[str, ...] = ()
    """What was not known, and what was taken instead: a sentence each."""

    def __post_init__(self) -> None:
        """Refuse temperatures of more or fewer layers than the plan has: the kernel trusts their number."""
        for name, plan in (("store_c", self.store), ("cylinder_c", self.cylinder)):
            given = getattr(self, name).size
            if given != plan.layers:
                raise OutOfRange(name, f"{given} long", f"{plan.layers} long, one temperature a layer")


@dataclass(slots=True)
class _Desk:
    """Where the numbers are collected, with the list of fall-backs."""

    x: Floats = field(default_factory=lambda: np.zeros(s.SLOTS))
    assumed: list[str] = field(default_factory=list)

    def known(self, value: float | None, fall_back: float, sentence: str) -> float:
        """The owner's figure, or a fall-back that is told."""
        if value is not None:
            return float(value)
        self.assumed.append(sentence.format(fall_back))
        return fall_back


def prepare(
    plant: Plant,
    rooms: RoomDynamics,
    *,
    settings: Settings | None = None,
    hot_water: bool = True,
    store_c: float = 45.0,
    room_c: float = 18.0,
) -> Prepared:
    """Turn plant and rooms into the numbers of a run.

    Parameters
    ----------
    plant : Plant
        The owner's plant; unknown fields take the fall-backs told in the result.
    rooms : RoomDynamics
        The two zones of the house.
    settings : Settings, optional
        Step and layers.
    hot_water : bool
        Whether taps draw from the cylinder.
    store_c, room_c : float
        Temperatures at the beginning. [degC]

    Returns
    -------
    Prepared
        All that the kernel needs beside weather, wishes and fires.

    Raises
    ------
    Unknown
        If the boiler's output or the store's content is not known.
    OutOfRange
        If a port, a thermometer or a curve stands the wrong way round.
    Refused
        If part of the plant is not modelled.
    """
    settings = settings or Settings()
    desk = _Desk()
    x = desk.x
    x[s.WATER_J_KG_K] = WATER_J_KG_K
    x[s.POWER] = x[s.PUMP_SOUND] = 1.0
    x[s.RETURN_STUCK] = x[s.MIXING_1_STUCK] = x[s.MIXING_2_STUCK] = -1.0
    _boiler(desk, plant.boiler, settings)
    _discharge(desk, plant)
    _backup(desk, plant.backup, plant.boiler)
    _circuits(desk, plant.circuits, rooms)
    _cylinder(desk, plant.cylinder, settings, hot_water)
    substeps = _store(desk, plant.store, settings)
    x[s.HOUSE : s.HOUSE_END] = np.concatenate(
        [part.ravel() for part in step_matrices(rooms, float(settings.step_s))]
    )
    x[s.SUN_TO_MASS], x[s.INSIDE_TO_MASS], x[s.RADIANT] = 0.6, 0.3, 0.3
    x[s.WINDOW_W_K], x[s.WINDOW_ABOVE_C] = 150.0, 25.0
    x[s.AIR_1_C] = x[s.AIR_2_C] = x[s.MASS_1_C] = x[s.MASS_2_C] = room_c
    x[s.RADIATOR_1_C] = x[s.RADIATOR_2_C] = x[s.BACKUP_C] = room_c
    x[s.BODY_C] = x[s.ROOM_C]
    x[s.HOTTEST_BODY_C] = x[s.BODY_C]
    columns = store_plan(plant.store, settings.layers, substeps)
    taps = cylinder_plan(plant.cylinder, settings.cylinder_layers, _tap_substeps(x, settings))
    return Prepared(
        values=x,
        store=columns,
        cylinder=taps,
        settings=settings,
        store_c=np.full(columns.layers, store_c),
        cylinder_c=np.full(taps.layers, plant.cylinder.target_c - 5.0),
        assumed=tuple(desk.assumed),
    )


def _boiler(desk: _Desk, boiler: LogBoiler, settings: Settings) -> None:
    x = desk.x
    if boiler.output_kw is None:
        raise Unknown(
            "The log boiler's rated output (output_kw) is not known: read it from the boiler's plate."
        )
    output = boiler.output_kw
    efficiency = desk.known(
        boiler.efficiency_net,
        0.85,
        "Efficiency of the log boiler not known: {:.0%} of the net heat is taken.",
    )
    casing = desk.known(
        boiler.casing_loss, 0.02, "Loss through the boiler's casing not known: {:.0%} is taken."
    )
    x[s.UNBURNT], x[s.SLUMBER_UNBURNT] = 0.015, 0.15
    x[s.AIR_RATIO] = 1.6 if boiler.flue_oxygen is None else excess_air_from_oxygen(boiler.flue_oxygen)
    if boiler.flue_gas_c is not None and boiler.efficiency_net is None:
        x[s.FLUE_RISE_K] = max(boiler.flue_gas_c - 75.0, 0.0)
    else:
        x[s.FLUE_RISE_K] = flue_rise_for(efficiency, casing, x[s.UNBURNT], air_ratio=x[s.AIR_RATIO])
    x[s.FULL_W] = output * 1000.0 / efficiency
    if boiler.fuel_space_litres is not None:
        x[s.SPACE_KG] = fuel_space_kg(boiler.fuel_space_litres, filling=boiler.filling_share)
    else:
        hours = desk.known(
            boiler.burn_hours,
            4.0,
            "Neither fuel space nor burning time known: a full load for {:g} h is taken.",
        )
        x[s.SPACE_KG] = output * hours / efficiency / 4.0
    hours_of_step = settings.step_s / 3600.0
    x[s.RAMP_S] = 1200.0
    x[s.TAIL], x[s.EMBERS] = tail_share(hours_of_step, 1.1), tail_share(hours_of_step, 3.0)
    x[s.CHAR_J] = 0.01 * x[s.SPACE_KG] * 4.0 * 3.6e6
    x[s.END_W] = 0.10 * x[s.FULL_W]
    x[s.FAN_STOP_C] = 92.0 if boiler.fan_stop_c is None else boiler.fan_stop_c
    x[s.FAN_BAND_K] = 6.0
    x[s.SLUMBER] = 0.30 if boiler.air == "natural_draught" else 0.08
    x[s.CASING_W_K] = casing * output * 1000.0 / 55.0
    x[s.ROOM_C] = 15.0
    litres = desk.known(
        boiler.water_litres, 4.0 * output, "Water in the boiler not known: {:.0f} litres are taken."
    )
    weight = desk.known(boiler.body_kg, 20.0 * output, "Weight of the boiler not known: {:.0f} kg are taken.")
    x[s.BODY_J_K] = litres * FILL_KG_L * WATER_J_KG_K + weight * 500.0
    x[s.RETURN_C] = desk.known(boiler.return_c, 60.0, "Return temperature not known: {:g} °C is taken.")
    x[s.AFTER_RUN_K] = boiler.after_run_above_k
    x[s.PUMP_KG_S] = (boiler.charge_flow_kg_h or charge_flow(output)) / 3600.0
    x[s.BURNING_W] = 60.0 if boiler.electricity_w is None else boiler.electricity_w
    x[s.BOILS_C] = 120.0
    x[s.CREEP_KG_S] = 0.005 if boiler.night_circulation == "yes" else 0.0


def _discharge(desk: _Desk, plant: Plant) -> None:
    x = desk.x
    x[s.DISCHARGE_AT_C] = 1e6
    for escape in plant.heat_escapes:
        if escape.kind == "thermal_discharge":
            output = (plant.boiler.output_kw or 0.0) * 1000.0
            x[s.DISCHARGE_AT_C] = escape.opens_at_c or 95.0
            x[s.DISCHARGE_KG_S] = max(0.2, output / (WATER_J_KG_K * 60.0))
            x[s.DISCHARGE_EFFECT] = min(0.95, output / (x[s.DISCHARGE_KG_S] * WATER_J_KG_K * 85.0))


def _store(desk: _Desk, store: Store, settings: Settings) -> int:
    x = desk.x
    if store.litres is None:
        raise Unknown("The store's content (litres) is not known: read it from the tank's plate.")
    if store.litres <= 0.0:
        raise OutOfRange("litres of the store", f"{store.litres:g}", "more than 0", "L")
    layers = -(-settings.layers // store.tanks) * store.tanks
    mass = store.litres * FILL_KG_L / layers
    each = store.litres / store.tanks
    height = desk.known(
        store.height_m, 2.0 * (each / 1000.0) ** (1 / 3), "Height of the store not known: {:.2f} m is taken."
    )
    if store.loss_w_per_k is not None:
        loss = store.loss_w_per_k
    elif store.energy_class not in (None, "G"):
        loss = standing_loss_per_kelvin(each, store.energy_class) * store.tanks
    elif store.insulation_cm:
        loss = insulation_loss(each, height, store.insulation_cm) * store.tanks
    else:
        loss = standing_loss_per_kelvin(each, "C") * store.tanks
        desk.assumed.append(
            f"Standing loss of the store not known: {loss:.1f} W/K, the limit of class C, is taken."
        )
    down = x[s.PUMP_KG_S] + x[s.BACKUP_FOR_STORE] * x[s.BACKUP_PUMP_KG_S]
    up = x[s.FLOW_1_KG_S] + x[s.FLOW_2_KG_S] + x[s.COIL_FLOW_KG_S]
    substeps = max(1, math.ceil(float(max(down, up)) * settings.step_s / mass / MOST_COURANT))
    step = settings.step_s / substeps
    area = each / 1000.0 / height
    thickness = height * store.tanks / layers
    conductance = settings.conduction_factor * water_conductivity(60.0) * area / thickness
    x[s.STORE_LAYER_J_K] = mass * WATER_J_KG_K
    x[s.STORE_STEP] = step / mass
    x[s.STORE_COOLING] = loss / layers * step / x[s.STORE_LAYER_J_K]
    x[s.STORE_CONDUCTION] = conductance * step / x[s.STORE_LAYER_J_K]
    x[s.STORE_ROOM_C], x[s.STORE_LIMIT_C] = store.room_c, store.limit_c
    x[s.STORE_IN_HOUSE] = 1.0 if store.stands_in == "heated_room" else 0.0
    x[s.DIRECT] = 1.0 if store.feeds == "direct_first" else 0.0
    return int(substeps)


def _backup(desk: _Desk, backup: BackupBoiler, boiler: LogBoiler) -> None:
    x = desk.x
    output = 0.0
    if backup.fuel not in (None, "none"):
        output = desk.known(backup.output_kw, 20.0, "Output of the backup not known: {:g} kW is taken.")
    x[s.BACKUP_W] = output * 1000.0
    x[s.BACKUP_EFFICIENCY] = backup.efficiency_net or (1.0 if backup.fuel == "electricity" else 0.88)
    x[s.BACKUP_SET_C], x[s.BACKUP_HYSTERESIS_K] = backup.flow_target_c, backup.hysteresis_k
    x[s.BACKUP_J_K] = 250e3
    x[s.BACKUP_CASING_W_K] = 2.0
    x[s.BACKUP_FOR_ROOMS] = float(backup.feeds in ("heating_and_hot_water", "heating_only"))
    x[s.BACKUP_FOR_TAPS] = float(backup.feeds in ("heating_and_hot_water", "hot_water_only"))
    x[s.BACKUP_FOR_STORE] = float(backup.feeds == "store")
    x[s.BACKUP_BELOW_C] = backup.store_below_c
    x[s.BACKUP_FOLLOWS_CURVE] = float(backup.enabled in ("always", "by_hand"))
    x[s.BACKUP_DELAY_S] = backup.delay_minutes * 60.0 if backup.enabled == "when_store_cold" else 0.0
    x[s.BACKUP_ALLOWED] = float(backup.enabled in ("always", "when_store_cold") and output > 0.0)
    x[s.BACKUP_BLOCKED] = float(boiler.controller_enables_backup != "no")
    x[s.BACKUP_PUMP_KG_S] = charge_flow(output) / 3600.0
    x[s.BACKUP_ELECTRIC_W] = backup.electricity_w or 0.0


def _circuits(desk: _Desk, circuits: tuple[Circuit, ...], rooms: RoomDynamics) -> None:
    x = desk.x
    if len(circuits) > 2:
        raise Refused(
            f"{len(circuits)} heating circuits are not modelled: the model has two, one for each zone."
        )
    zones = (rooms.downstairs, rooms.upstairs)
    losses = [
        zone.air_out_w_k
        + (1.0 / (1.0 / zone.mass_out_w_k + 1.0 / zone.between_w_k) if zone.mass_out_w_k else 0.0)
        for zone in zones
    ]
    if not circuits:
        desk.assumed.append(
            "No heating circuit is described: two radiator circuits with 55 °C on the coldest day are taken."
        )
        circuits = (Circuit(name="downstairs"), Circuit(name="upstairs"))
    shares = [1.0, 1.0]
    if len(circuits) == 1:
        circuits = (circuits[0], circuits[0])
        shares = [loss / sum(losses) for loss in losses]
    for number, (circuit, share, loss) in enumerate(zip(circuits, shares, losses)):
        _circuit(desk, circuit, number, share, loss)
    x[s.VALVE_BAND_K] = 1.0
    x[s.CIRCUIT_PUMP_W] = sum(c.pump_w or 0.0 for c in dict.fromkeys(circuits))
    x[s.PUMP_W] = 40.0


def _circuit(desk: _Desk, circuit: Circuit, number: int, share: float, loss: float) -> None:
    x = desk.x
    name = circuit.name
    outdoor = desk.known(
        circuit.design_outdoor_c, -8.0, f"Coldest day of the curve {name} not known: {{:g}} °C is taken."
    )
    flow = desk.known(
        circuit.design_flow_c, 55.0, f"Flow on the coldest day of {name} not known: {{:g}} °C is taken."
    )
    if not outdoor < circuit.mild_outdoor_c:
        raise OutOfRange(
            f"design_outdoor_c of the circuit {name}",
            f"{outdoor:g}",
            f"less than its mild end, {circuit.mild_outdoor_c:g}",
            "degC",
        )
    if not flow > circuit.mild_flow_c:
        raise OutOfRange(
            f"design_flow_c of the circuit {name}",
            f"{flow:g}",
            f"more than its flow at the heating limit, {circuit.mild_flow_c:g}",
            "degC",
            "a heating curve must rise as it gets colder",
        )
    load = loss * (20.0 - outdoor)
    factor = radiator_factor(flow - 5.0 - 20.0 if flow > 26.0 else 1.0, circuit.exponent)
    rated = (
        circuit.rated_w * share
        if circuit.rated_w is not None
        else desk.known(None, 1.15 * load / factor, f"Rated output of {name} not known: {{:.0f}} W is taken.")
    )
    flow_kg_s = (
        circuit.flow_kg_h * share / 3600.0
        if circuit.flow_kg_h is not None
        else rated * factor / (WATER_J_KG_K * 10.0)
    )
    heavy = 10.0 if circuit.emitter == "underfloor" else 1.0
    for row, value in (
        (s.FLOW_1_KG_S, flow_kg_s),
        (s.RATED_1_W, rated),
        (s.RADIATOR_1_J_K, rated * 47.0 * heavy),
        (s.EXPONENT_1, circuit.exponent),
        (s.MIXED_1, float(circuit.mixed == "yes")),
        (s.DESIGN_OUT_1_C, outdoor),
        (s.DESIGN_FLOW_1_C, flow),
        (s.MILD_OUT_1_C, circuit.mild_outdoor_c),
        (s.MILD_FLOW_1_C, circuit.mild_flow_c),
        (s.MOST_FLOW_1_C, circuit.most_flow_c or 90.0),
    ):
        x[row + number] = value


def _cylinder(desk: _Desk, cylinder: Cylinder, settings: Settings, hot_water: bool) -> None:
    x = desk.x
    litres = desk.known(cylinder.litres, 200.0, "Content of the cylinder not known: {:g} litres are taken.")
    layers = settings.cylinder_layers
    flow = desk.known(cylinder.coil_flow_kg_h, 900.0, "Flow through the coil not known: {:g} kg/h is taken.")
    output = desk.known(cylinder.coil_kw, 15.0, "Output of the coil not known: {:g} kW is taken.")
    if cylinder.second_coil == "solar":
        desk.assumed.append("Solar heat is not modelled: the second coil stands idle.")
    plan = cylinder_plan(cylinder, layers, 1)
    rows = plan.coil[1] - plan.coil[0] + 1
    if cylinder.loss_w_per_k is not None:
        loss = cylinder.loss_w_per_k
    else:
        letter = cylinder.energy_class if cylinder.energy_class not in (None, "G") else "C"
        loss = standing_loss_per_kelvin(litres, letter)
    x[s.COIL_FLOW_KG_S] = flow / 3600.0
    x[s.COIL_LAYER_EFFECT] = coil_effectiveness(coil_conductance(output, flow) / rows, flow)
    x[s.COIL_MARGIN_K] = 4.0
    x[s.CYLINDER_SET_C], x[s.CYLINDER_HYSTERESIS_K] = cylinder.target_c, cylinder.hysteresis_k
    x[s.CYLINDER_ROOM_C] = cylinder.room_c
    x[s.CYLINDER_LAYER_J_K] = litres * FILL_KG_L / layers * WATER_J_KG_K
    x[s.IMMERSION_RATED_W] = (cylinder.immersion_kw or 0.0) * 1000.0
    x[s.IMMERSION_BELOW_C] = 45.0
    x[s.TAP_C] = 40.0
    x[s.TAP_SCALE] = 1.0 if hot_water else 0.0
    x[s.CYLINDER_COOLING] = loss / layers / x[s.CYLINDER_LAYER_J_K]
    if not hot_water:
        x[s.CYLINDER_SET_C] = x[s.IMMERSION_BELOW_C] = -273.0


def _tap_substeps(x: Floats, settings: Settings) -> int:
    """Sub-steps of the cylinder for a draw of 16 L/min; sets what hangs on them."""
    mass = x[s.CYLINDER_LAYER_J_K] / WATER_J_KG_K
    substeps = max(1, math.ceil(16.0 / 60.0 * settings.step_s / mass / MOST_COURANT))
    step = settings.step_s / substeps
    x[s.CYLINDER_STEP] = step / mass
    x[s.CYLINDER_COOLING] *= step
    height = 1.2
    area = mass * settings.cylinder_layers / FILL_KG_L / 1000.0 / height
    conductance = water_conductivity(50.0) * area / (height / settings.cylinder_layers)
    x[s.CYLINDER_CONDUCTION] = conductance * step / x[s.CYLINDER_LAYER_J_K]
    return int(substeps)
