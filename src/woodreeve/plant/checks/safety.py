"""Where the heat goes when something fails: safety valve, steam, thermal discharge and open vent."""

from __future__ import annotations

import math
from typing import Annotated

from woodreeve.plant.checks.verdict import Check, Facts, Verdict, at_least, at_most, check, of_yes_no, unknown
from woodreeve.plant.heat_escape import EscapeGap, escape_gap_on
from woodreeve.units import Ge, Gt, Kilowatt, Le, Unit
from woodreeve.wood.dew_point import condensing_temperature, vapour_pressure_over_water
from woodreeve.workings import figure, worked

__all__ = [
    "discharge_limit",
    "evaporation_heat",
    "safety_checks",
    "safety_valve_output",
    "steam_to_blow_off",
]

Saturated = Annotated[float, Unit("degC"), Ge(1.0), Le(250.0)]
Absolute = Annotated[float, Unit("bar"), Ge(1.0), Le(20.0)]

CRITICAL_K, CRITICAL_KG_M3 = 647.096, 322.0
_LIQUID = (
    (1.99274064, 1 / 3),
    (1.09965342, 2 / 3),
    (-0.510839303, 5 / 3),
    (-1.75493479, 16 / 3),
    (-45.5170352, 43 / 3),
    (-6.74694450e5, 110 / 3),
)
_VAPOUR = (
    (-2.03150240, 2 / 6),
    (-2.68302940, 4 / 6),
    (-5.38626492, 8 / 6),
    (-17.2991605, 18 / 6),
    (-44.7586581, 37 / 6),
    (-63.9201063, 71 / 6),
)
"""Coefficients and exponents of the saturated densities, IAPWS SR1-86 (1992)."""


@worked
def evaporation_heat(temperature: Saturated) -> Annotated[float, Unit("kJ/kg"), Ge(1500.0), Le(2520.0)]:
    r"""Heat that turns a kilogram of boiling water to steam.

    Parameters
    ----------
    temperature : Saturated
        Temperature of boiling, :math:`T`. [degC] From 1 to 250.

    Returns
    -------
    float
        Heat of evaporation. [kJ/kg]

    Raises
    ------
    OutOfRange
        If the temperature lies outside its range.

    Notes
    -----
    .. math:: h = T\,\frac{\mathrm dp_s}{\mathrm dT}\,\Bigl(\frac1{\rho_v} - \frac1{\rho_l}\Bigr)

    with the slope of the saturation pressure taken over a tenth of a degree.

    References
    ----------
    .. [1] Clapeyron's equation; densities of IAPWS SR1-86 (1992) (coefficients from memory, checked against
       the open iapws library within 0.1 %); pressure of IAPWS-IF97.

    Examples
    --------
    >>> round(evaporation_heat(100.0))
    2257
    """
    kelvin = temperature + 273.15
    tau = 1.0 - kelvin / CRITICAL_K
    liquid = CRITICAL_KG_M3 * (1.0 + sum(b * tau**n for b, n in _LIQUID))
    vapour = CRITICAL_KG_M3 * math.exp(sum(c * tau**n for c, n in _VAPOUR))
    above, below = (vapour_pressure_over_water(temperature + half) for half in (0.05, -0.05))
    return float(kelvin * (above - below) / 0.1 * (1.0 / vapour - 1.0 / liquid) / 1000.0)


@worked
def steam_to_blow_off(output: Kilowatt, pressure: Absolute = 4.3) -> Annotated[float, Unit("kg/h"), Ge(0.0)]:
    r"""Steam that a safety valve must let out when nothing else takes a boiler's heat.

    Parameters
    ----------
    output : Kilowatt
        The boiler's whole output, :math:`P`. [kW]
    pressure : Absolute
        Absolute pressure while it blows: a valve of 3 bar at 10 % over is 4.3. [bar] From 1 to 20.

    Returns
    -------
    float
        Steam. [kg/h]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \dot m = P / h(T_s(p))

    References
    ----------
    .. [1] haustechnikdialog.de SHKwissen 191 (read): the valve must pass the whole output as steam; row
       PL-sv02.

    Examples
    --------
    >>> round(steam_to_blow_off(50.0), 1)
    84.7
    """
    return output * 3600.0 / evaporation_heat(condensing_temperature(pressure * 1e5))


@worked
def safety_valve_output(
    area: Annotated[float, Unit("mm2"), Gt(0.0), Le(10000.0)],
    coefficient: Annotated[float, Unit("-"), Gt(0.0), Le(1.0)],
) -> Kilowatt:
    r"""Boiler output that a safety valve of 3 bar can pass as steam.

    Parameters
    ----------
    area : float
        Narrowest area of its seat, :math:`A`. [mm2] Above 0.
    coefficient : float
        Certified coefficient of discharge, :math:`\alpha`. [-] Above 0, to 1.

    Returns
    -------
    Kilowatt
        Output. [kW]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: P = 1.26\,A\,\alpha

    References
    ----------
    .. [1] German leaflet on tests of safety valves, clause 3.2.4, letter H, 3 bar (read; its title is not
       shown in the copy); row PL-sv01.

    Examples
    --------
    >>> round(safety_valve_output(78.5, 0.5), 1)
    49.5
    """
    return 1.26 * area * coefficient


@worked
def discharge_limit(
    limit: Annotated[float, Unit("degC"), Ge(90.0), Le(115.0)] = 97.0,
) -> Annotated[float, Unit("degC")]:
    r"""Temperature at which a thermal discharge must have opened.

    Parameters
    ----------
    limit : float
        Usual opening temperature with a little room. [degC] From 90 to 115.

    Returns
    -------
    float
        The limit. [degC]

    Raises
    ------
    OutOfRange
        If the limit lies outside its range.

    Notes
    -----
    It opens near 95 °C, so that the boiler's water stays at or below 110 °C.

    References
    ----------
    .. [1] Glossary of a fuel trade site (name withheld), entry 596, thermal discharge (read): usually
       95 °C, at most 110 °C in the boiler. The two degrees are judgement.

    Examples
    --------
    >>> discharge_limit()
    97.0
    """
    return limit


def safety_checks(facts: Facts) -> list[Check]:
    """Check safety valve and every way out for heat."""
    closed = facts.plant.water.system != "open"
    found = [_valve(facts)] if closed else [*_vent(facts)]
    gap = escape_gap_on(facts.plant, facts.events, facts.on)
    return [*found, *_escape(facts, gap), *_discharge(facts), _flaps(facts)]


def _valve(facts: Facts) -> Check:
    key, plant = "escape.safety_valve", facts.plant
    missing = [
        path
        for path, value in (
            ("plant.water.safety_valve_kw", plant.water.safety_valve_kw),
            ("plant.boiler.output_kw", plant.boiler.output_kw),
        )
        if value is None
    ]
    if missing:
        return unknown(facts, key, *missing)
    assert plant.water.safety_valve_kw is not None
    assert plant.boiler.output_kw is not None
    return check(
        facts,
        key,
        at_least(plant.water.safety_valve_kw, plant.boiler.output_kw, tight=0.0),
        yours=figure(
            plant.water.safety_valve_kw, "kW", "holding: plant.water.safety_valve_kw", basis="stamped on it"
        ),
        wanted=figure(plant.boiler.output_kw, "kW", "holding: plant.boiler.output_kw", basis="rated output"),
        meant="at_least",
    )


def _vent(facts: Facts) -> list[Check]:
    water = facts.plant.water
    found = []
    for key, name in (("escape.vent", "vent_free"), ("escape.feed_cistern", "feed_cistern_fit")):
        told = getattr(water, name)
        if told is None:
            found.append(unknown(facts, key, f"plant.water.{name}"))
        else:
            found.append(check(facts, key, of_yes_no(told), yours=told))
    return found


def _escape(facts: Facts, gap: EscapeGap) -> list[Check]:
    """Whether there is a way at all, and whether it was seen to work."""
    first = facts.plant.heat_escapes[:1]
    if gap.verdict == "not_known":
        name = "kind" if not first or first[0].kind is None else "supply"
        return [unknown(facts, "escape.without_power", _path(facts, name))]
    told = "electric_pump" if gap.pumped and gap.verdict == "none" else gap.kind
    if gap.verdict == "none":
        return [check(facts, "escape.without_power", "does_not_fit", yours=told)]
    there = check(facts, "escape.without_power", "fits", yours=told)
    if gap.verdict == "untested":
        return [there, unknown(facts, "escape.tested", _path(facts, "tested_on"))]
    seen: Verdict = "fits" if gap.verdict == "ok" else "does_not_fit"
    yours = "tested_badly" if gap.verdict == "failed_test" else gap.tested_on
    return [there, check(facts, "escape.tested", seen, yours=yours)]


def _path(facts: Facts, name: str) -> str:
    """The field of the first thermal discharge."""
    for number, one in enumerate(facts.plant.heat_escapes):
        if one.kind == "thermal_discharge":
            return f"plant.heat_escapes[{number}].{name}"
    return f"plant.heat_escapes[0].{name}"


def _discharge(facts: Facts) -> list[Check]:
    coil = next((one for one in facts.plant.heat_escapes if one.kind == "thermal_discharge"), None)
    if coil is None:
        return []
    found = []
    if coil.supply is None:
        found.append(unknown(facts, "escape.discharge_supply", _path(facts, "supply")))
    else:
        runs: Verdict = "does_not_fit" if coil.supply == "electric_pump" else "fits"
        found.append(check(facts, "escape.discharge_supply", runs, yours=coil.supply))
    if coil.opens_at_c is None:
        found.append(unknown(facts, "escape.discharge_opens", _path(facts, "opens_at_c")))
    else:
        limit = discharge_limit()
        found.append(
            check(
                facts,
                "escape.discharge_opens",
                at_most(coil.opens_at_c, limit, tight=0.0),
                yours=figure(coil.opens_at_c, "degC", "holding: plant.heat_escapes.opens_at_c"),
                wanted=figure(limit, "degC", discharge_limit),
                meant="at_most",
            )
        )
    return found


def _flaps(facts: Facts) -> Check:
    told = facts.plant.water.non_return_flaps
    if told is None:
        return unknown(facts, "pipes.non_return_flaps", "plant.water.non_return_flaps")
    return check(facts, "pipes.non_return_flaps", of_yes_no(told), yours=told)
