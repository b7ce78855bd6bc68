"""Vessel or cistern against the water that swells, and the pressure the system stands under."""

from __future__ import annotations

from woodreeve.plant.checks.expansion import (
    OVERSHOOT_C,
    cistern_wanted,
    expansion_share,
    expansion_to_overshoot,
    pressure_that_keeps_liquid,
)
from woodreeve.plant.checks.verdict import Check, Facts, Verdict, at_least, check, unknown
from woodreeve.plant.checks.vessel import (
    final_pressure,
    least_fill_pressure,
    least_gas_pressure,
    vessel_reserve,
    vessel_size,
)
from woodreeve.workings import figure

__all__ = ["expansion_checks"]

USUAL_HOT_C = 90.0
"""A store is run to about this. Common practice. [degC]"""


def expansion_checks(facts: Facts) -> list[Check]:
    """Check vessel or cistern, its gas, and the pressure the system stands under."""
    if facts.plant.water.system == "open":
        return [*_cistern(facts), _topping_up(facts)]
    return [
        _vessel(facts, "water.vessel_90", USUAL_HOT_C),
        _vessel(facts, "water.vessel_110", OVERSHOOT_C),
        _gas(facts),
        _fill(facts),
        _liquid(facts),
        _topping_up(facts),
    ]


def _vessel(facts: Facts, key: str, hot: float) -> Check:
    water = facts.plant.water
    missing = _missing(facts, "litres", "vessel_litres", "vessel_charge_bar", "safety_valve_bar")
    if missing:
        return unknown(facts, key, *missing)
    assert water.litres
    assert water.vessel_litres
    assert water.safety_valve_bar
    assert water.vessel_charge_bar is not None
    share = (
        expansion_to_overshoot(water.antifreeze)
        if hot > USUAL_HOT_C
        else expansion_share(antifreeze=water.antifreeze)
    )
    final = final_pressure(water.safety_valve_bar)
    wanted = vessel_size(water.litres, share, vessel_reserve(water.litres), water.vessel_charge_bar, final)
    return check(
        facts,
        key,
        at_least(water.vessel_litres, wanted),
        yours=figure(water.vessel_litres, "L", "holding: plant.water.vessel_litres", basis="vessel"),
        wanted=figure(wanted, "L", vessel_size, basis=f"vessel, water at {hot:.0f} °C"),
        meant="at_least",
    )


def _missing(facts: Facts, *names: str) -> list[str]:
    return [f"plant.water.{name}" for name in names if getattr(facts.plant.water, name) is None]


def _gas(facts: Facts) -> Check:
    key, water = "water.gas_pressure", facts.plant.water
    missing = _missing(facts, "vessel_charge_bar", "height_m")
    if missing:
        return unknown(facts, key, *missing)
    assert water.vessel_charge_bar is not None
    assert water.height_m is not None
    wanted = least_gas_pressure(water.height_m)
    return check(
        facts,
        key,
        at_least(water.vessel_charge_bar, wanted, tight=0.0),
        yours=figure(water.vessel_charge_bar, "bar", "holding: plant.water.vessel_charge_bar", basis="gauge"),
        wanted=figure(wanted, "bar", least_gas_pressure, basis="gauge"),
        meant="at_least",
    )


def _fill(facts: Facts) -> Check:
    key, water = "water.fill_pressure", facts.plant.water
    missing = _missing(facts, "fill_bar", "vessel_charge_bar")
    if missing:
        return unknown(facts, key, *missing)
    assert water.vessel_charge_bar is not None
    assert water.fill_bar is not None
    wanted = least_fill_pressure(water.vessel_charge_bar)
    return check(
        facts,
        key,
        at_least(water.fill_bar, wanted, tight=0.0),
        yours=figure(water.fill_bar, "bar", "holding: plant.water.fill_bar", basis="gauge, cold"),
        wanted=figure(wanted, "bar", least_fill_pressure, basis="gauge, cold"),
        meant="at_least",
    )


def _liquid(facts: Facts) -> Check:
    key, water = "water.stays_liquid", facts.plant.water
    if water.fill_bar is None:
        return unknown(facts, key, "plant.water.fill_bar")
    wanted = pressure_that_keeps_liquid()
    return check(
        facts,
        key,
        at_least(water.fill_bar, wanted),
        yours=figure(water.fill_bar, "bar", "holding: plant.water.fill_bar", basis="gauge, cold"),
        wanted=figure(wanted, "bar", pressure_that_keeps_liquid, basis="over 1 bar, water at 110 °C"),
        meant="at_least",
    )


def _cistern(facts: Facts) -> list[Check]:
    water = facts.plant.water
    found = []
    key = "water.cistern"
    missing = _missing(facts, "litres", "vessel_litres")
    if missing:
        found.append(unknown(facts, key, *missing))
    else:
        assert water.litres is not None
        assert water.vessel_litres is not None
        wanted = cistern_wanted(water.litres, water.antifreeze)
        found.append(
            check(
                facts,
                key,
                at_least(water.vessel_litres, wanted),
                yours=figure(water.vessel_litres, "L", "holding: plant.water.vessel_litres", basis="cistern"),
                wanted=figure(wanted, "L", cistern_wanted, basis="cistern"),
                meant="at_least",
            )
        )
    return found


LEAK_TIMES = 3
"""Topped up so many times within a year, a system leaks or its vessel has lost its gas. Judgement."""


def _topping_up(facts: Facts) -> Check:
    key = "water.topping_up"
    times = sum(1 for one in facts.of("topped_up") if (facts.on - one.happened.date()).days <= 365)
    if not times and not any(facts.of("pressure")):
        return unknown(facts, key, "diary: pressure")
    verdict: Verdict = "fits" if times < 2 else "tight" if times < LEAK_TIMES else "does_not_fit"
    told = ("never_topped_up", "topped_up_once", "topped_up_twice")
    return check(facts, key, verdict, yours=told[times] if times < LEAK_TIMES else "topped_up_often")
