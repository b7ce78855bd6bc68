"""Boiler and radiators against the house: heat for the coldest day, and water that suits the circuits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.plant.checks.store_checks import load_of
from woodreeve.plant.checks.store_day import fires_for_heat, heat_over_hours, hours_of_fire
from woodreeve.plant.checks.store_size import return_of
from woodreeve.plant.checks.verdict import Check, Facts, Verdict, at_least, at_most, check, of_yes_no, unknown
from woodreeve.plant.fields import Circuit
from woodreeve.plant.radiators import radiator_output
from woodreeve.units import Celsius, Ge, Gt, Hour, Kelvin, Kilowatt, Le, Unit, Watt
from woodreeve.workings import figure, worked

__all__ = [
    "boiler_checks",
    "heating_checks",
    "mean_excess",
    "most_fires",
    "most_hours_of_fire",
    "radiators_at_store",
    "radiators_together",
]

Water = Annotated[float, Unit("degC"), Ge(0.0), Le(150.0)]


@worked
def mean_excess(flow: Water, back: Water, room: Celsius = 20.0) -> Kelvin:
    r"""Mean water temperature of a radiator above its room.

    Parameters
    ----------
    flow : Water
        Water in, :math:`T_f`. [degC] From 0 to 150.
    back : Water
        Water out, :math:`T_r`. [degC] From 0 to 150.
    room : Celsius
        The room, :math:`T_i`. [degC]

    Returns
    -------
    Kelvin
        Excess; 0 at least. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta T = \max\bigl(0, (T_f + T_r)/2 - T_i\bigr)

    References
    ----------
    .. [1] EN 442: outputs are stated at the mean of 75 and 65 °C over 20 °C (read at
       designer-warmth-radiators.co.uk).

    Examples
    --------
    >>> mean_excess(75.0, 65.0)
    50.0
    """
    return max((flow + back) / 2.0 - room, 0.0)


@worked
def radiators_together(outputs: tuple[Watt, ...]) -> Kilowatt:
    r"""Heat that all circuits give together.

    Parameters
    ----------
    outputs : tuple of float
        Output of each circuit. [W]

    Returns
    -------
    Kilowatt
        Their sum. [kW]

    Raises
    ------
    OutOfRange
        If the sum lies outside the range of its unit.

    Notes
    -----
    .. math:: P = \sum P_i / 1000

    References
    ----------
    .. [1] Balance of heat.

    Examples
    --------
    >>> radiators_together((9000.0, 6000.0))
    15.0
    """
    return sum(outputs) / 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AtStore:
    """What all circuits give when the store's top is at a temperature."""

    store_c: Annotated[float, Unit("degC")]
    output: Kilowatt


@worked
def radiators_at_store(circuits: tuple[Circuit, ...]) -> tuple[AtStore, ...]:
    r"""Heat that radiators and floors give from a store at 40, 50, 60, 70 and 80 °C.

    Read against the heat the house takes it shows down to which temperature a store is of use on a cold day.

    Parameters
    ----------
    circuits : tuple of Circuit
        The circuits whose rated output is known; one with a hottest flow allowed gets no hotter.

    Returns
    -------
    tuple of AtStore
        Output at each temperature.

    Notes
    -----
    .. math:: P(T) = \sum_i P_{50,i}\,\Bigl(\frac{\min(T, T_{most,i}) - 5 - 20}{50}\Bigr)^{n_i}

    with flow at the store's temperature, return 10 K below it and rooms at 20 °C.

    References
    ----------
    .. [1] EN 442 (exponent law); :func:`woodreeve.plant.radiators.radiator_output`.

    Examples
    --------
    >>> down = Circuit(name="down", rated_w=14500.0)
    >>> [round(one.output, 1) for one in radiators_at_store((down,))]
    [3.0, 5.9, 9.1, 12.6, 16.4]
    """
    found = []
    for store in (40.0, 50.0, 60.0, 70.0, 80.0):
        watts = 0.0
        for one in circuits:
            if one.rated_w is not None:
                flow = store if one.most_flow_c is None else min(store, one.most_flow_c)
                watts += radiator_output(one.rated_w, mean_excess(flow, return_of(flow)), one.exponent)
        found.append(AtStore(store_c=store, output=watts / 1000.0))
    return tuple(found)


@worked
def most_fires(limit: Annotated[float, Unit("1"), Gt(0.0), Le(12.0)] = 2.0) -> Annotated[float, Unit("1")]:
    r"""Full loads a day that a household will bear on the coldest day.

    Parameters
    ----------
    limit : float
        Morning and evening. [1] Above 0.

    Returns
    -------
    float
        Full loads. [1]

    Raises
    ------
    OutOfRange
        If the limit lies outside its range.

    Notes
    -----
    Each lighting and refilling takes a person half an hour near the boiler.

    References
    ----------
    .. [1] Common practice, no published source.

    Examples
    --------
    >>> most_fires()
    2.0
    """
    return limit


@worked
def most_hours_of_fire(limit: Annotated[Hour, Gt(0.0)] = 12.0) -> Hour:
    r"""Hours of fire on the coldest day beyond which a boiler is small for its house.

    Parameters
    ----------
    limit : Hour
        The limit. [h] Above 0.

    Returns
    -------
    Hour
        Hours. [h]

    Raises
    ------
    OutOfRange
        If the limit lies outside its range.

    Notes
    -----
    A boiler fed by hand burns while somebody is up; the store carries the rest of the day.

    References
    ----------
    .. [1] Judgement from the Swedish worked days (Bioenergi 2-98, read): six to seven hours of fire on a cold
       day.

    Examples
    --------
    >>> most_hours_of_fire()
    12.0
    """
    return limit


def boiler_checks(facts: Facts) -> list[Check]:
    """Check the boiler's size against the coldest day."""
    return [_output(facts), _hours(facts), _fires(facts)]


def _output(facts: Facts) -> Check:
    key, output, load = "boiler.output", facts.plant.boiler.output_kw, facts.design_load_kw
    if output is None:
        return unknown(facts, key, "plant.boiler.output_kw")
    if load is None:
        return unknown(facts, key, "house")
    return check(
        facts,
        key,
        at_least(output, load, tight=0.5),
        yours=figure(output, "kW", "holding: plant.boiler.output_kw", basis="rated output"),
        wanted=figure(load, "kW", facts.design_by, basis="house on the coldest day"),
        meant="at_least",
    )


def _hours(facts: Facts) -> Check:
    key, output, load = "boiler.hours", facts.plant.boiler.output_kw, facts.design_load_kw
    if output is None:
        return unknown(facts, key, "plant.boiler.output_kw")
    if load is None:
        return unknown(facts, key, "house")
    hours = hours_of_fire(heat_over_hours(load), output)
    most = most_hours_of_fire()
    return check(
        facts,
        key,
        at_most(hours, most),
        yours=figure(hours, "h", hours_of_fire, basis="on the coldest day"),
        wanted=figure(most, "h", most_hours_of_fire),
        meant="at_most",
    )


def _fires(facts: Facts) -> Check:
    key, load = "boiler.fires", facts.design_load_kw
    heat = load_of(facts)
    if heat is None:
        return unknown(facts, key, "plant.boiler.fuel_space_litres")
    if load is None:
        return unknown(facts, key, "house")
    loads = fires_for_heat(heat_over_hours(load), heat)
    most = most_fires()
    return check(
        facts,
        key,
        at_most(loads, most),
        yours=figure(loads, "1", fires_for_heat, basis="full loads on the coldest day"),
        wanted=figure(most, "1", most_fires, basis="full loads"),
        meant="at_most",
    )


def heating_checks(facts: Facts) -> list[Check]:
    """Check radiators, mixing valves and floors against a store that stands hot."""
    found = [_radiators(facts), _mixed(facts)]
    if any(one.emitter == "underfloor" for one in facts.plant.circuits):
        found += _floors(facts)
    return found


def _radiators(facts: Facts) -> Check:
    key, circuits = "heating.radiators", facts.plant.circuits
    missing = [
        f"plant.circuits[{number}].{name}"
        for number, one in enumerate(circuits)
        for name in ("rated_w", "design_flow_c")
        if getattr(one, name) is None
    ]
    if not circuits:
        return unknown(facts, key, "plant.circuits[0].rated_w")
    if missing:
        return unknown(facts, key, *missing)
    if facts.design_load_kw is None:
        return unknown(facts, key, "house")
    together = radiators_together(tuple(_output_of(one) for one in circuits))
    return check(
        facts,
        key,
        at_least(together, facts.design_load_kw),
        yours=figure(together, "kW", radiators_together, basis="at the curve's flow on the coldest day"),
        wanted=figure(facts.design_load_kw, "kW", facts.design_by, basis="house on the coldest day"),
        meant="at_least",
    )


def _output_of(circuit: Circuit) -> float:
    assert circuit.rated_w is not None
    assert circuit.design_flow_c is not None
    excess = mean_excess(circuit.design_flow_c, return_of(circuit.design_flow_c))
    return radiator_output(circuit.rated_w, excess, circuit.exponent)


def _mixed(facts: Facts) -> Check:
    key, circuits = "heating.mixed", facts.plant.circuits
    if not circuits:
        return unknown(facts, key, "plant.circuits[0].mixed")
    bare = [one for one in circuits if one.mixed == "no"]
    return check(facts, key, of_yes_no("no" if bare else "yes"), yours="no" if bare else "yes")


def _floors(facts: Facts) -> list[Check]:
    found = []
    for number, one in enumerate(facts.plant.circuits):
        if one.emitter != "underfloor":
            continue
        if one.high_limit is None:
            found.append(unknown(facts, "heating.floor_limit", f"plant.circuits[{number}].high_limit"))
        else:
            found.append(check(facts, "heating.floor_limit", of_yes_no(one.high_limit), yours=one.high_limit))
        if one.most_flow_c is None:
            found.append(unknown(facts, "heating.floor_pipe", f"plant.circuits[{number}].most_flow_c"))
        else:
            limit = figure(
                facts.plant.store.limit_c, "degC", "holding: plant.store.limit_c", basis="hottest store"
            )
            bears = one.most_flow_c >= limit.value
            guarded: Verdict = "tight" if one.high_limit == "yes" else "does_not_fit"
            yours = figure(one.most_flow_c, "degC", "holding: plant.circuits.most_flow_c")
            found.append(
                check(
                    facts,
                    "heating.floor_pipe",
                    "fits" if bears else guarded,
                    yours=yours,
                    wanted=limit,
                    meant="at_least",
                )
            )
    return found
