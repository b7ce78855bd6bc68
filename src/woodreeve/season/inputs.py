"""What happens from outside during a run: weather and wishes by the hour, fires, and faults."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

import numpy as np

from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.season import slots as s
from woodreeve.units import Floats, Ge, Gt, Le, Unit

__all__ = [
    "Event",
    "Fault",
    "FaultKind",
    "Fire",
    "Firing",
    "FiringRule",
    "Hours",
    "day_pattern",
    "fault_events",
]

MOST_LOOKS = 6
"""A rule looks at the store so many times a day at most. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """Weather and wishes, hour by hour; single numbers stand for all hours."""

    outdoor_c: Floats
    """Outdoor temperature. [degC]"""
    sun_downstairs_w: Floats | float = 0.0
    """Sun that comes in downstairs. [W]"""
    sun_upstairs_w: Floats | float = 0.0
    """Sun that comes in upstairs. [W]"""
    inside_downstairs_w: Floats | float = 250.0
    """Heat of people, lights and machines downstairs. [W]"""
    inside_upstairs_w: Floats | float = 150.0
    """The same upstairs. [W]"""
    wanted_downstairs_c: Floats | float = 20.0
    """Room temperature wanted downstairs. [degC]"""
    wanted_upstairs_c: Floats | float = 18.0
    """Room temperature wanted upstairs. [degC]"""
    cold_water_c: Floats | float = 10.0
    """Cold water at the taps. [degC]"""
    taps_share: Floats | float = 1.0
    """Hot water drawn over the usual day: 0 while nobody is there. [-]"""
    tap_powers_w: Floats | None = None
    """Heat wanted at the taps in each minute of the usual day. [W]"""
    first_hour_of_day: int = 0
    """Local hour of the day in which the series begins."""

    def table(self) -> Floats:
        """The hours as the kernel reads them."""
        outdoor = np.asarray(self.outdoor_c, dtype=np.float64)
        if outdoor.ndim != 1 or outdoor.size == 0:
            raise OutOfRange("outdoor_c", "empty", "a series of at least one hour", "degC")
        columns = (
            outdoor,
            self.sun_downstairs_w,
            self.sun_upstairs_w,
            self.inside_downstairs_w,
            self.inside_upstairs_w,
            self.wanted_downstairs_c,
            self.wanted_upstairs_c,
            self.cold_water_c,
            self.taps_share,
        )
        table = np.empty((outdoor.size, s.HOUR_COLUMNS))
        for number, column in enumerate(columns):
            values = np.asarray(column, dtype=np.float64)
            if values.ndim and values.size != outdoor.size:
                raise OutOfRange(
                    "hourly series", f"{values.size} long", f"{outdoor.size} long, as the temperature is", "h"
                )
            table[:, number] = values
        if not np.isfinite(table).all():
            raise OutOfRange("hourly series", "not a number somewhere", "a number in every hour")
        return table


def day_pattern(hours: int, day: Floats, first_hour_of_day: int = 0) -> Floats:
    """Repeat 24 values of a day over so many hours: set-back at night, or hours of presence."""
    return np.asarray(day, dtype=np.float64)[(np.arange(hours) + first_hour_of_day) % 24]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fire:
    """Wood put into the boiler: lights it, or refills it while it burns."""

    hour: Annotated[float, Unit("h"), Ge(0.0)]
    """Hours from the beginning of the run. [h]"""
    kg: Annotated[float, Unit("kg"), Gt(0.0), Le(500.0)]
    """Wood as it is put in. [kg]"""
    moisture: Annotated[float, Unit("-"), Ge(0.0), Le(0.6)] = 0.18
    """Water over wet mass. [-]"""
    heat_kwh_per_kg: Annotated[float, Unit("kWh/kg"), Gt(0.0), Le(6.0)] = 4.1
    """Net heat of the wood at that moisture, from the chapter on wood. [kWh/kg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FiringRule:
    """Light at certain hours when the store is cool enough.

    The common evening rule is the default: at 17 o'clock, a full load when the store's mean is below 45 °C.
    """

    hours: tuple[int, ...] = (17,)
    """Local hours of the day at which somebody looks, six at most. [h]"""
    below_c: float = 45.0
    """Light when the store's mean is below this on a day of 0 °C. [degC]"""
    per_degree: float = 0.0
    """How much higher that limit lies for each degree of frost. [-]"""
    kg: float = 50.0
    """Wood of a fire. [kg]"""
    least_kg: float = 0.0
    """No fire smaller than this. [kg]"""
    fit: bool = False
    """Whether the fire is cut down to what store and house can take."""
    use_kwh: float = 20.0
    """What the house takes while a fire burns, for cutting it down. [kWh]"""
    moisture: float = 0.18
    """Water over wet mass. [-]"""
    heat_kwh_per_kg: float = 4.1
    """Net heat of the wood. [kWh/kg]"""
    efficiency: float = 0.80
    """Share of it that reaches the water, for cutting down. [-]"""


Firing: TypeAlias = tuple[Fire, ...] | FiringRule
"""Either a list of fires, or a rule."""

FaultKind = Literal[
    "power_cut",
    "pump_failure",
    "return_valve_stuck",
    "mixing_valve_stuck",
    "night_circulation",
    "backup_by_hand",
]
"""What can go wrong, or be switched by hand, during a run."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Something that goes wrong for a while."""

    kind: FaultKind
    from_hour: float
    """Hours from the beginning of the run. [h]"""
    until_hour: float = 1e9
    """Hours from the beginning of the run. [h]"""
    value: float = 0.0
    """Share at which a valve sticks [-], or the creeping flow [kg/s]."""
    circuit: Literal[1, 2] = 1
    """Which mixing valve."""


@dataclass(frozen=True, slots=True)
class Event:
    """A row of the working array that takes a new value at a step."""

    step: int
    row: int
    value: float


def fire_events(fires: tuple[Fire, ...], step_s: int) -> list[Event]:
    """Fires as events; two loads in one step are put in one after the other."""
    events: list[Event] = []
    used: set[int] = set()
    for fire in sorted(fires, key=lambda one: one.hour):
        if (
            not fire.kg > 0.0
            or not 0.0 <= fire.moisture <= 0.6
            or not fire.heat_kwh_per_kg > 0.0
            or fire.hour < 0.0
        ):
            raise OutOfRange(
                "fire",
                f"{fire.kg:g} kg, moisture {fire.moisture:g}, "
                f"{fire.heat_kwh_per_kg:g} kWh/kg at hour {fire.hour:g}",
                "more than 0 kg of wood with a moisture from 0 to 0.6 and heat above 0, after the run begins",
            )
        step = round(fire.hour * 3600.0 / step_s)
        while step in used:
            step += 1
        used.add(step)
        events += [
            Event(step, s.LOAD_KG, fire.kg),
            Event(step, s.LOAD_J_PER_KG, fire.heat_kwh_per_kg * 3.6e6),
            Event(step, s.LOAD_MOISTURE, fire.moisture),
        ]
    return events


def rule_values(rule: FiringRule) -> dict[int, float]:
    """A firing rule as rows of the working array."""
    if not 1 <= len(rule.hours) <= MOST_LOOKS or any(not 0 <= hour <= 23 for hour in rule.hours):
        raise OutOfRange(
            "hours of the firing rule", str(rule.hours), f"one to {MOST_LOOKS} hours between 0 and 23", "h"
        )
    if not rule.kg > 0.0:
        raise OutOfRange("kg of the firing rule", f"{rule.kg:g}", "more than 0", "kg")
    few = len(rule.hours) <= 2
    return {
        s.RULE: 1.0,
        s.RULE_HOUR_A: float(rule.hours[0] if few else min(rule.hours)),
        s.RULE_HOUR_B: float(rule.hours[-1] if few else min(rule.hours)),
        s.RULE_BELOW_C: rule.below_c,
        s.RULE_SLOPE: rule.per_degree,
        s.RULE_KG: rule.kg,
        s.RULE_LEAST_KG: rule.least_kg,
        s.RULE_J_PER_KG: rule.heat_kwh_per_kg * 3.6e6,
        s.RULE_MOISTURE: rule.moisture,
        s.RULE_FIT: float(rule.fit),
        s.RULE_USE_J: rule.use_kwh * 3.6e6,
        s.RULE_YIELD: rule.efficiency,
    }


def rule_events(rule: FiringRule, hours: int, first_hour_of_day: int, step_s: int) -> list[Event]:
    """The later looks of a day as events, where a rule has more than the two that the kernel keeps."""
    later = sorted(rule.hours)
    if len(later) <= 2:
        return []
    begins = next((look for look in later if look >= first_hour_of_day), later[0])
    events = [Event(0, s.RULE_HOUR_B, float(begins))]
    for hour in range(hours):
        of_day = (first_hour_of_day + hour) % 24
        if of_day in later:
            ahead = later[(later.index(of_day) + 1) % len(later)]
            events.append(Event((hour + 1) * 3600 // step_s, s.RULE_HOUR_B, float(ahead)))
    return events


def fault_events(
    faults: tuple[Fault, ...], values: Floats, step_s: int, electric_discharge: bool = False
) -> list[Event]:
    """Faults as events: what changes when each begins and ends."""
    rows: dict[str, int] = {
        "power_cut": s.POWER,
        "pump_failure": s.PUMP_SOUND,
        "return_valve_stuck": s.RETURN_STUCK,
        "mixing_valve_stuck": s.MIXING_1_STUCK,
        "night_circulation": s.CREEP_KG_S,
        "backup_by_hand": s.BACKUP_ALLOWED,
    }
    events = []
    for fault in faults:
        if fault.kind not in rows:
            raise UnknownName("fault", fault.kind, rows)
        if not 0.0 <= fault.from_hour < fault.until_hour:
            raise OutOfRange(
                "until_hour of the fault", f"{fault.until_hour:g}", f"more than {fault.from_hour:g}", "h"
            )
        row = rows[fault.kind] + (fault.circuit - 1 if fault.kind == "mixing_valve_stuck" else 0)
        begun = {"power_cut": 0.0, "pump_failure": 0.0, "backup_by_hand": 1.0}.get(fault.kind, fault.value)
        changed = [(row, begun)]
        if fault.kind == "power_cut" and electric_discharge:
            changed.append((s.DISCHARGE_KG_S, 0.0))
        first = round(fault.from_hour * 3600.0 / step_s)
        last = round(fault.until_hour * 3600.0 / step_s)
        for changed_row, value in changed:
            events += [Event(first, changed_row, value), Event(last, changed_row, float(values[changed_row]))]
    return events
