"""What the owner tells of his plant, from the log boiler to the flue and the ways out for heat.

Every field may stay unknown (``None``); a formula that needs it says which figure it missed or which
stated fall-back it took. Heights in the store are shares of its height, 0 at the floor and 1 at the top.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Annotated, Literal, TypeAlias

from woodreeve.plant.fields_around import BoilerRoom, Flue, HeatEscape, WaterSide, YesNo
from woodreeve.plant.upkeep_fields import Upkeep
from woodreeve.units import Asks, Ge, Gt, Le, Unit

__all__ = [
    "BackupBoiler",
    "BoilerRoom",
    "Circuit",
    "Cylinder",
    "EnergyClass",
    "Flue",
    "HeatEscape",
    "LogBoiler",
    "Plant",
    "Store",
    "StoreSensor",
    "WaterSide",
    "YesNo",
]

EnergyClass: TypeAlias = Literal["A+", "A", "B", "C", "D", "E", "F", "G"]
"""Class of standing loss on a tank's label."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogBoiler:
    """A batch log boiler."""

    output_kw: Annotated[
        float | None,
        Unit("kW"),
        Gt(0),
        Le(500),
        Asks("Rated output", "Heat to water at full output, from the boiler's plate."),
    ] = None
    least_output_kw: Annotated[
        float | None,
        Unit("kW"),
        Gt(0),
        Le(500),
        Asks(
            "Least output",
            "The lowest output at which the maker lets it burn steadily; below it the fire slumbers.",
        ),
    ] = None
    fuel_space_litres: Annotated[
        float | None,
        Unit("L"),
        Gt(0),
        Le(2000),
        Asks("Fuel space", "Litres of the firebox above the grate, from the manual or by measuring inside."),
    ] = None
    filling_share: Annotated[
        float,
        Unit("-"),
        Gt(0.1),
        Le(1.0),
        Asks(
            "Filled part of the fuel space", "How full a usual full load makes it; 1 is stacked to the door."
        ),
    ] = 1.0
    log_length_cm: Annotated[
        float | None,
        Unit("cm"),
        Gt(5),
        Le(200),
        Asks("Longest log", "The longest log that lies flat in the fuel space."),
    ] = None
    burn_hours: Annotated[
        float | None,
        Unit("h"),
        Gt(0),
        Le(24),
        Asks(
            "Burning time of a full load",
            "Hours at rated output from one full load, from the manual or the diary.",
        ),
    ] = None
    efficiency_net: Annotated[
        float | None,
        Unit("-"),
        Ge(0.3),
        Le(1.05),
        Asks(
            "Efficiency on the net heating value",
            "Heat to water over net heating value of the wood, over a whole fire. "
            "Makers' figures are laboratory ones.",
        ),
    ] = None
    water_litres: Annotated[
        float | None,
        Unit("L"),
        Gt(0),
        Le(2000),
        Asks("Water in the boiler", "Litres of water in the boiler's body, from the manual."),
    ] = None
    body_kg: Annotated[
        float | None,
        Unit("kg"),
        Gt(20),
        Le(5000),
        Asks(
            "Weight of the boiler",
            "Weight empty, from the manual: steel and bricks that warm up with each fire.",
        ),
    ] = None
    flue_gas_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(50),
        Le(400),
        Asks("Flue gas temperature", "Measured after the boiler at full output, when clean."),
    ] = None
    flue_oxygen: Annotated[
        float | None,
        Unit("-"),
        Ge(0.02),
        Le(0.18),
        Asks(
            "Oxygen in the flue gas",
            "Volume share of oxygen in dry flue gas at full output, from a measurement.",
        ),
    ] = None
    casing_loss: Annotated[
        float | None,
        Unit("-"),
        Ge(0),
        Le(0.15),
        Asks("Loss through the casing", "Share of rated output that warms the boiler room."),
    ] = None
    return_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(30),
        Le(80),
        Asks(
            "Return temperature kept", "What the return valve or charging set keeps the boiler's inlet above."
        ),
    ] = None
    flow_target_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(50),
        Le(95),
        Asks("Boiler water wanted", "The temperature the controller aims at while burning."),
    ] = None
    fan_stop_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(60),
        Le(100),
        Asks("Fan stops at", "Boiler water at which the fan stops or the air closes."),
    ] = None
    charge_flow_kg_h: Annotated[
        float | None,
        Unit("kg/h"),
        Gt(0),
        Le(20000),
        Asks(
            "Charging flow",
            "Water from boiler to store in an hour; unknown is reckoned from output and 20 K.",
        ),
    ] = None
    after_run_above_k: Annotated[
        float,
        Unit("K"),
        Ge(0.5),
        Le(30),
        Asks(
            "After-run difference",
            "The charging pump runs on while the boiler is this much hotter than the store's top.",
        ),
    ] = 3.0
    electricity_w: Annotated[
        float | None,
        Unit("W"),
        Ge(0),
        Le(3000),
        Asks("Electricity while burning", "Fan, controller and charging pump together."),
    ] = None
    air: Annotated[
        Literal["induced_fan", "forced_fan", "natural_draught"] | None,
        Asks("How air is moved", "A fan in the flue, a fan in front, or the chimney's draught alone."),
    ] = None
    controller_enables_backup: Annotated[
        YesNo | None,
        Asks(
            "Boiler's controller enables the backup",
            "Whether the log boiler's controller lets the backup run and stops it.",
        ),
    ] = None
    most_moisture: Annotated[
        float | None,
        Unit("-"),
        Ge(0.05),
        Le(0.5),
        Asks("Wettest wood the maker allows", "Wet basis, from the manual."),
    ] = None
    least_moisture: Annotated[
        float | None,
        Unit("-"),
        Ge(0),
        Le(0.3),
        Asks(
            "Driest wood the maker allows",
            "Wet basis, from the manual; very dry wood burns too fast in some boilers.",
        ),
    ] = None
    draught_wanted_pa: Annotated[
        float | None,
        Unit("Pa"),
        Ge(0),
        Le(60),
        Asks("Draught wanted", "From the boiler's plate."),
    ] = None
    night_circulation: Annotated[
        YesNo | None,
        Asks(
            "Unwanted circulation when cold",
            "Whether store water creeps back through the cold boiler at night.",
        ),
    ] = None
    built_year: Annotated[
        int | None,
        Unit("year"),
        Ge(1950),
        Le(2100),
        Asks("Year built", "Year on the boiler's plate: some rules depend on it."),
    ] = None
    efficiency_class: Annotated[
        Literal["class_3", "class_4", "class_5", "none"] | None,
        Asks("Boiler class", "Class of the boiler standard printed on its plate."),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreSensor:
    """A thermometer on the store."""

    name: Annotated[str, Asks("Name", "How you call it, for instance top, or T3.")]
    height: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Height on the store", "Share of the store's height: 0 at the floor, 1 at the top."),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Store:
    """The hot-water store that takes up a fire's heat."""

    litres: Annotated[
        float | None,
        Unit("L"),
        Gt(50),
        Le(50000),
        Asks("Water in the store", "All tanks together."),
    ] = None
    height_m: Annotated[
        float | None,
        Unit("m"),
        Gt(0.3),
        Le(8),
        Asks("Height of the store", "Inside height of one tank, without insulation and feet."),
    ] = None
    tanks: Annotated[
        int, Unit("-"), Ge(1), Le(6), Asks("Number of tanks", "How many tanks make up the store.")
    ] = 1
    arrangement: Annotated[
        Literal["single", "series", "parallel"],
        Asks("How the tanks are joined", "One after another, side by side, or one tank alone."),
    ] = "single"
    kind: Annotated[
        Literal["heating_buffer", "combination_store", "fresh_water_station"],
        Asks(
            "Kind of store",
            "Heating water only, with a drinking-water tank or coil inside, or with a plate station.",
        ),
    ] = "heating_buffer"
    feeds: Annotated[
        Literal["through_store", "direct_first"],
        Asks("How the house is fed", "All heat through the store, or boiler heat direct to the house first."),
    ] = "through_store"
    limit_c: Annotated[
        float,
        Unit("degC"),
        Ge(60),
        Le(99),
        Asks("Hottest store allowed", "No layer is planned above this; the maker's limit if it is lower."),
    ] = 90.0
    loss_w_per_k: Annotated[
        float | None,
        Unit("W/K"),
        Gt(0),
        Le(100),
        Asks("Standing loss", "Heat lost for each degree above the room, with pipe stubs, if you know it."),
    ] = None
    energy_class: Annotated[
        EnergyClass | None,
        Asks("Energy class", "Letter on the tank's label, used where the standing loss is not known."),
    ] = None
    insulation_cm: Annotated[
        float | None,
        Unit("cm"),
        Ge(0),
        Le(60),
        Asks("Insulation", "Thickness all round, used where neither loss nor class is known."),
    ] = None
    stands_in: Annotated[
        Literal["heated_room", "unheated_room"] | None,
        Asks("Where it stands", "In the heated house its loss is not lost in winter."),
    ] = None
    room_c: Annotated[
        float,
        Unit("degC"),
        Ge(-10),
        Le(40),
        Asks("Temperature around the store", "Usual temperature of the room it stands in, in winter."),
    ] = 15.0
    charge_in_height: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Height of the boiler's flow port", "Where hot water from the boiler enters."),
    ] = 0.97
    charge_out_height: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Height of the boiler's return port", "Where water leaves the store towards the boiler."),
    ] = 0.03
    heating_out_height: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Height of the heating flow port", "Where the heating circuits draw."),
    ] = 0.97
    heating_back_height: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Height of the heating return port", "Where their water comes back."),
    ] = 0.05
    hot_water_out_height: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Height of the cylinder's flow port", "Where the cylinder's coil draws."),
    ] = 0.97
    hot_water_back_height: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Height of the cylinder's return port", "Where its water comes back."),
    ] = 0.35
    sensors: Annotated[
        tuple[StoreSensor, ...],
        Asks("Thermometers on the store", "From the top down, each with its height."),
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupBoiler:
    """The old boiler, or whatever heats when no fire does."""

    fuel: Annotated[
        Literal["oil", "lpg", "natural_gas", "electricity", "none"] | None,
        Asks("Fuel of the backup", "What heats when no fire does; none if there is nothing."),
    ] = None
    output_kw: Annotated[
        float | None, Unit("kW"), Gt(0), Le(500), Asks("Rated output of the backup", "From its plate.")
    ] = None
    efficiency_net: Annotated[
        float | None,
        Unit("-"),
        Ge(0.3),
        Le(1.1),
        Asks(
            "Efficiency of the backup on the net heating value",
            "Over a year, on the net heating value of its fuel.",
        ),
    ] = None
    flow_target_c: Annotated[
        float,
        Unit("degC"),
        Ge(25),
        Le(90),
        Asks("Backup water wanted", "The flow temperature at which it is set."),
    ] = 60.0
    hysteresis_k: Annotated[
        float, Unit("K"), Gt(0), Le(30), Asks("Hysteresis", "It starts this much below its set temperature.")
    ] = 6.0
    feeds: Annotated[
        Literal["heating_and_hot_water", "heating_only", "hot_water_only", "store"],
        Asks("What the backup heats", "Where its heat goes."),
    ] = "heating_and_hot_water"
    enabled: Annotated[
        Literal["when_store_cold", "by_hand", "always", "never"],
        Asks(
            "When the backup may run", "By itself when the store is too cold, by hand, always, or not at all."
        ),
    ] = "when_store_cold"
    store_below_c: Annotated[
        float,
        Unit("degC"),
        Ge(15),
        Le(80),
        Asks("Store top at which the backup takes over", "It may run when the store's top is below this."),
    ] = 40.0
    delay_minutes: Annotated[
        float,
        Unit("min"),
        Ge(0),
        Le(1440),
        Asks("Waiting time of the backup", "Minutes it waits after the store has become too cold."),
    ] = 30.0
    electricity_w: Annotated[
        float | None,
        Unit("W"),
        Ge(0),
        Le(1000),
        Asks("Electricity of the backup", "Burner, fan and pump while running."),
    ] = None
    tank_litres: Annotated[
        float | None,
        Unit("L"),
        Gt(0),
        Le(50000),
        Asks("Fuel tank", "Litres of the backup's fuel tank or cylinders."),
    ] = None
    shares_flue: Annotated[
        YesNo | None,
        Asks("Shares the flue with the log boiler", "Two boilers on one flue need the sweep's word."),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder:
    """The hot-water cylinder."""

    litres: Annotated[
        float | None,
        Unit("L"),
        Gt(20),
        Le(5000),
        Asks("Hot water in the cylinder", "Litres of drinking water in it."),
    ] = None
    target_c: Annotated[
        float, Unit("degC"), Ge(35), Le(80), Asks("Hot water wanted", "The cylinder's set temperature.")
    ] = 60.0
    hysteresis_k: Annotated[
        float,
        Unit("K"),
        Gt(0),
        Le(30),
        Asks("Cylinder hysteresis", "It reloads this much below its set temperature."),
    ] = 8.0
    coils: Annotated[int, Unit("-"), Ge(1), Le(2), Asks("Coils", "How many heating coils it has.")] = 1
    second_coil: Annotated[
        Literal["none", "in_series", "solar"],
        Asks("Second coil", "In series with the first for a faster lift, or for solar panels."),
    ] = "none"
    coil_kw: Annotated[
        float | None,
        Unit("kW"),
        Gt(0),
        Le(200),
        Asks(
            "Coil output",
            "Heat through the coils in use with flow at 80 °C and cylinder at 45 °C, from the manual.",
        ),
    ] = None
    coil_flow_kg_h: Annotated[
        float | None,
        Unit("kg/h"),
        Gt(0),
        Le(10000),
        Asks("Coil flow", "Heating water through the coil in an hour."),
    ] = None
    loss_w_per_k: Annotated[
        float | None,
        Unit("W/K"),
        Gt(0),
        Le(30),
        Asks("Standing loss of the cylinder", "Heat lost for each degree above the room, if you know it."),
    ] = None
    energy_class: Annotated[
        EnergyClass | None,
        Asks("Energy class of the cylinder", "Letter on its label, where the loss is not known."),
    ] = None
    room_c: Annotated[
        float,
        Unit("degC"),
        Ge(-10),
        Le(40),
        Asks("Temperature around the cylinder", "Usual temperature of the room or cupboard it stands in."),
    ] = 18.0
    immersion_kw: Annotated[
        float | None,
        Unit("kW"),
        Ge(0),
        Le(30),
        Asks("Immersion heater", "Electric heater in the cylinder; 0 if none."),
    ] = None
    unvented: Annotated[
        YesNo | None, Asks("Unvented", "Whether the cylinder is at mains pressure (no tank in the loft).")
    ] = None
    cut_out: Annotated[
        YesNo | None,
        Asks(
            "Cut-out on the coil's flow",
            "A non-self-resetting cut-out with a valve that closes without power: needed on an unvented "
            "cylinder fed from a hot store; a competent person must say so.",
        ),
    ] = None
    relief_devices: Annotated[
        YesNo | None,
        Asks(
            "Two safety devices beside the thermostat",
            "Unvented: a cut-out and a temperature relief valve of its own, with a discharge that is seen "
            "and harms nobody; a competent person must say so.",
        ),
    ] = None
    water_vessel_litres: Annotated[
        float | None,
        Unit("L"),
        Gt(0),
        Le(500),
        Asks("Vessel on the drinking water", "The small expansion vessel at the cylinder's cold feed."),
    ] = None
    mixing_valve: Annotated[
        YesNo | None, Asks("Mixing valve at the taps", "A thermostatic mixing valve against scalding.")
    ] = None
    hygiene_c: Annotated[
        float,
        Unit("degC"),
        Ge(50),
        Le(75),
        Asks("Hygiene temperature", "The whole cylinder reaches this at least once in the days below."),
    ] = 60.0
    hygiene_every_days: Annotated[
        int,
        Unit("day"),
        Ge(1),
        Le(31),
        Asks("Hygiene interval", "So many days at most between two such heatings."),
    ] = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """A heating circuit with its mixing valve and curve."""

    name: Annotated[str, Asks("Name of the circuit", "For instance downstairs.")]
    zone: Annotated[
        str | None, Asks("Zone it heats", "Name of the zone of the house, as in the house section.")
    ] = None
    emitter: Annotated[
        Literal["radiators", "underfloor", "convectors"],
        Asks("What gives the heat", "Radiators, pipes in the floor, convectors."),
    ] = "radiators"
    rated_w: Annotated[
        float | None,
        Unit("W"),
        Gt(0),
        Le(200000),
        Asks("Rated output of its radiators", "Sum of their outputs at 75/65/20 °C, from tables or labels."),
    ] = None
    exponent: Annotated[
        float,
        Unit("-"),
        Ge(1.0),
        Le(1.5),
        Asks("Radiator exponent", "1.3 for most radiators, 1.1 for floors."),
    ] = 1.3
    mixed: Annotated[
        YesNo, Asks("Has a mixing valve", "Whether a valve mixes its flow down to the curve.")
    ] = "yes"
    design_outdoor_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(-40),
        Le(10),
        Asks("Coldest day of the curve", "Outdoor temperature at the cold end of the heating curve."),
    ] = None
    design_flow_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(25),
        Le(90),
        Asks("Flow on that day", "Flow temperature that the curve asks for on the coldest day."),
    ] = None
    mild_outdoor_c: Annotated[
        float,
        Unit("degC"),
        Ge(0),
        Le(25),
        Asks("Heating limit", "Outdoor temperature above which the circuit is off."),
    ] = 16.0
    mild_flow_c: Annotated[
        float,
        Unit("degC"),
        Ge(15),
        Le(70),
        Asks("Flow at the heating limit", "Flow temperature at the mild end of the curve."),
    ] = 28.0
    most_flow_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(25),
        Le(95),
        Asks("Hottest flow allowed", "Limit of this circuit: for a floor what its pipe and screed bear."),
    ] = None
    high_limit: Annotated[
        YesNo | None,
        Asks(
            "Separate high limit",
            "Whether a floor circuit has its own thermostat that stops the pump when too hot.",
        ),
    ] = None
    flow_kg_h: Annotated[
        float | None,
        Unit("kg/h"),
        Gt(0),
        Le(20000),
        Asks("Flow of the circuit", "Water through it in an hour."),
    ] = None
    pump_w: Annotated[float | None, Unit("W"), Ge(0), Le(500), Asks("Pump", "Electricity of its pump.")] = (
        None
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """The whole heating plant."""

    boiler: Annotated[LogBoiler, Asks("Log boiler", "The boiler that burns your wood.")] = field(
        default_factory=LogBoiler
    )
    store: Annotated[Store, Asks("Store", "The hot-water store that takes up a fire's heat.")] = field(
        default_factory=Store
    )
    backup: Annotated[BackupBoiler, Asks("Backup", "What heats when no fire does.")] = field(
        default_factory=BackupBoiler
    )
    cylinder: Annotated[Cylinder, Asks("Hot-water cylinder", "The tank that the taps draw from.")] = field(
        default_factory=Cylinder
    )
    circuits: Annotated[
        tuple[Circuit, ...], Asks("Heating circuits", "Each pump with its radiators or floors and its curve.")
    ] = ()
    heat_escapes: Annotated[
        tuple[HeatEscape, ...],
        Asks(
            "Heat escapes",
            "Each way for heat to leave the boiler when pump or power fail, with the day it was tested.",
        ),
    ] = ()
    water: Annotated[WaterSide, Asks("Heating water", "Pressure, expansion and fill water.")] = field(
        default_factory=WaterSide
    )
    flue: Annotated[Flue, Asks("Flue", "Chimney and flue pipe.")] = field(default_factory=Flue)
    room: Annotated[BoilerRoom, Asks("Boiler room", "Air, clearances and the alarm.")] = field(
        default_factory=BoilerRoom
    )
    upkeep: Annotated[Upkeep, Asks("Upkeep", "How often each thing is looked after.")] = field(
        default_factory=Upkeep
    )
    installed_on: Annotated[date | None, Asks("Installed on", "Day the log boiler was commissioned.")] = None
    installation_certificate: Annotated[
        str | None, Asks("Installation certificate", "Number of the certificate or notice, and who gave it.")
    ] = None
