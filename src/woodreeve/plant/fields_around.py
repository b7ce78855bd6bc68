"""What the owner tells of all around the boiler: ways out for heat, heating water, flue and boiler room."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal, TypeAlias

from woodreeve.units import Asks, Ge, Gt, Le, Unit

__all__ = ["BoilerRoom", "Flue", "HeatEscape", "WaterSide", "YesNo"]

YesNo: TypeAlias = Literal["yes", "no"]
"""A plain yes or no; unknown is ``None``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatEscape:
    """A way for heat to leave the boiler without electricity."""

    kind: Annotated[
        Literal["thermal_discharge", "open_vent", "gravity_radiator", "standby_power"] | None,
        Asks(
            "Kind of heat escape",
            "A valve that cools a coil with cold water, an open vent pipe, a radiator fed by gravity, "
            "or a battery for the pump (which is no power-independent escape).",
        ),
    ] = None
    supply: Annotated[
        Literal["mains", "gravity_spring", "electric_pump"] | None,
        Asks("What supplies its cooling water", "A pump means no cooling in a power cut."),
    ] = None
    opens_at_c: Annotated[
        float | None, Unit("degC"), Ge(70), Le(115), Asks("Opens at", "Temperature stamped on the valve.")
    ] = None
    tested_on: Annotated[
        date | None, Asks("Last tested on", "Day on which a competent person saw it work.")
    ] = None
    tested_by: Annotated[str | None, Asks("Tested by", "Trade or name, as you like.")] = None
    fitted_on: Annotated[date | None, Asks("Fitted on", "Day it was fitted.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterSide:
    """Pressure, expansion and fill water."""

    system: Annotated[
        Literal["closed", "open"] | None,
        Asks("Open or closed", "Closed with an expansion vessel, or open with a tank above."),
    ] = None
    litres: Annotated[
        float | None,
        Unit("L"),
        Gt(0),
        Le(60000),
        Asks("All the heating water", "Boiler, store, pipes and radiators together."),
    ] = None
    vessel_litres: Annotated[
        float | None, Unit("L"), Gt(0), Le(10000), Asks("Expansion vessel", "All vessels together.")
    ] = None
    vessel_charge_bar: Annotated[
        float | None,
        Unit("bar"),
        Ge(0),
        Le(10),
        Asks("Vessel's gas pressure", "Measured with the water side empty, gauge."),
    ] = None
    fill_bar: Annotated[
        float | None,
        Unit("bar"),
        Ge(0),
        Le(10),
        Asks("Pressure when cold", "At the gauge, when filled and cold."),
    ] = None
    safety_valve_bar: Annotated[
        float | None,
        Unit("bar"),
        Ge(0.5),
        Le(10),
        Asks("Safety valve opens at", "Stamped on the valve, gauge."),
    ] = None
    safety_valve_kw: Annotated[
        float | None,
        Unit("kW"),
        Gt(0),
        Le(1000),
        Asks("Safety valve good for", "Boiler output stamped on it or in its sheet."),
    ] = None
    height_m: Annotated[
        float | None,
        Unit("m"),
        Ge(0),
        Le(40),
        Asks("Highest radiator above the gauge", "Height of water above the vessel's connection."),
    ] = None
    antifreeze: Annotated[
        float, Unit("-"), Ge(0), Le(0.6), Asks("Antifreeze", "Share of antifreeze in the heating water.")
    ] = 0.0
    hardness_mmol_l: Annotated[
        float | None,
        Unit("mmol/L"),
        Ge(0),
        Le(10),
        Asks(
            "Hardness of the fill water",
            "Sum of calcium and magnesium; the water company tells it (1 mmol/L is 5.6 °dH).",
        ),
    ] = None
    treatment: Annotated[
        Literal["none", "softened", "demineralised"] | None,
        Asks("Fill water treated", "What was done to the fill water."),
    ] = None
    filter_fitted: Annotated[
        YesNo | None,
        Asks(
            "Filter and inhibitor",
            "A filter in the return, and the water treated as the nation's rule asks.",
        ),
    ] = None
    non_return_flaps: Annotated[
        YesNo | None, Asks("Non-return flaps", "On the charging and heating circuits, against creeping flow.")
    ] = None
    vent_free: Annotated[
        YesNo | None,
        Asks(
            "Open vent free", "Open system: the vent pipe has no valve, cannot freeze and rises all the way."
        ),
    ] = None
    feed_cistern_fit: Annotated[
        YesNo | None,
        Asks("Feed cistern bears boiling water", "Open system: cistern and its float valve are made for it."),
    ] = None
    charge_pipe_bore_mm: Annotated[
        float | None,
        Unit("mm"),
        Gt(5),
        Le(150),
        Asks("Bore of the charging pipe", "Inside diameter from boiler to store."),
    ] = None
    charge_pipe_m: Annotated[
        float | None,
        Unit("m"),
        Gt(0),
        Le(300),
        Asks("Length of the charging pipe", "There and back together."),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Flue:
    """Chimney and flue pipe."""

    height_m: Annotated[
        float | None,
        Unit("m"),
        Gt(0),
        Le(40),
        Asks("Height of the flue", "From the boiler's outlet to the top."),
    ] = None
    bore_mm: Annotated[
        float | None,
        Unit("mm"),
        Gt(50),
        Le(600),
        Asks("Bore of the flue", "Inside diameter, or the smaller side."),
    ] = None
    kind: Annotated[
        Literal["masonry", "lined_masonry", "insulated_metal", "single_wall"] | None,
        Asks("Kind of flue", "What it is made of."),
    ] = None
    rating: Annotated[
        str | None, Asks("Rating on its plate", "The letters and numbers on the chimney's plate.")
    ] = None
    draught_stabiliser: Annotated[
        YesNo | None, Asks("Draught stabiliser", "A flap that lets room air into the flue.")
    ] = None
    draught_measured_pa: Annotated[
        float | None,
        Unit("Pa"),
        Ge(0),
        Le(100),
        Asks("Draught measured", "At the boiler's outlet, warm and burning."),
    ] = None
    swept_on: Annotated[date | None, Asks("Last swept on", "From the sweep's certificate.")] = None
    swept_by: Annotated[str | None, Asks("Sweep's certificate", "Number or name on the certificate.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BoilerRoom:
    """The room the log boiler stands in."""

    air_opening_cm2: Annotated[
        float | None,
        Unit("cm2"),
        Ge(0),
        Le(20000),
        Asks("Opening for air", "Free area of the permanent air opening."),
    ] = None
    extract_fan: Annotated[
        YesNo | None,
        Asks("Extract fan against the flue", "Any fan that could draw smoke back into the room."),
    ] = None
    clearance_kept: Annotated[
        YesNo | None,
        Asks("Wood stands clear of the boiler", "All wood stands farther off than the maker's clearance."),
    ] = None
    co_alarm: Annotated[
        YesNo | None, Asks("Carbon monoxide alarm", "Whether a working alarm hangs there.")
    ] = None
    co_alarm_until: Annotated[date | None, Asks("Alarm good until", "End date printed on the alarm.")] = None
    co_alarm_tested_on: Annotated[
        date | None, Asks("Alarm last tested on", "Day its button was last pressed.")
    ] = None
