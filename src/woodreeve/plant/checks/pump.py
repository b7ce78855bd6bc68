"""Where the charging pump works, and whether its pipe is wide enough."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.plant.boiler import charge_flow
from woodreeve.plant.checks.pipes import COPPER_MM, pipe_friction, pipe_speed, pump_head
from woodreeve.plant.checks.verdict import Check, Facts, at_most, check, unknown
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.workings import Figure, figure, worked

__all__ = ["PumpPoint", "friction_limit", "pipe_checks", "pump_point", "pump_point_of", "speed_limit"]

Flow = Annotated[float, Unit("kg/h"), Ge(0.0), Le(5e6)]
Bore = Annotated[float, Unit("mm"), Gt(1.0), Le(500.0)]
Water = Annotated[float, Unit("degC"), Ge(0.0), Le(110.0)]
Roughness = Annotated[float, Unit("mm"), Ge(0.0), Le(5.0)]
Speed = Annotated[float, Unit("m/s"), Ge(0.0), Le(1e4)]
PerMetre = Annotated[float, Unit("Pa/m"), Ge(0.0)]
Pressure = Annotated[float, Unit("kPa"), Ge(0.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class PumpPoint:
    """Where the charging pump works: pipes and fittings alone, without boiler, store and mixing valve."""

    flow_kg_h: Flow
    speed_m_s: Speed
    friction_pa_m: PerMetre
    pressure_kpa: Pressure
    head_m: Annotated[float, Unit("m"), Ge(0.0)]


@worked
def pump_point(
    flow: Annotated[Flow, Gt(0.0)],
    bore: Bore,
    length: Annotated[float, Unit("m"), Gt(0.0), Le(1000.0)],
    fittings: Annotated[float, Unit("-"), Ge(0.0), Le(3.0)] = 0.4,
    temperature: Water = 70.0,
    roughness: Roughness = COPPER_MM,
) -> PumpPoint:
    r"""Flow and head that the pipes between boiler and store ask of the pump.

    Add what boiler, charging set and mixing valve take, from their sheets.

    Parameters
    ----------
    flow : Flow
        Water in an hour. [kg/h] Above 0.
    bore : Bore
        Inside diameter. [mm] Above 1, to 500.
    length : float
        Pipe there and back, :math:`L`. [m] Above 0.
    fittings : float
        Added for bends and valves, :math:`z`. [-] 0.3 to 0.5 by habit.
    temperature : Water
        Of the water. [degC] From 0 to 110.
    roughness : Roughness
        Of the wall. [mm] From 0 to 5.

    Returns
    -------
    PumpPoint
        Flow, speed, friction, pressure and head.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta p = (1 + z)\,L\,\frac{\Delta p}{L}

    References
    ----------
    .. [1] As :func:`pipe_friction`; the share for fittings is common practice, no published source.

    Examples
    --------
    >>> round(pump_point(1074.0, 26.0, 8.0).head_m, 2)
    0.16
    """
    friction = pipe_friction(flow, bore, temperature, roughness)
    pressure = (1.0 + fittings) * length * friction / 1000.0
    return PumpPoint(
        flow_kg_h=flow,
        speed_m_s=pipe_speed(flow, bore, temperature),
        friction_pa_m=friction,
        pressure_kpa=pressure,
        head_m=pump_head(pressure, temperature),
    )


@worked
def speed_limit(limit: Annotated[Speed, Gt(0.0)] = 1.0) -> Speed:
    r"""Speed that water in house pipes should keep below.

    Parameters
    ----------
    limit : Speed
        The limit. [m/s] Above 0.

    Returns
    -------
    Speed
        The limit. [m/s]

    Raises
    ------
    OutOfRange
        If the limit lies outside its range.

    Notes
    -----
    Faster water is heard and wears copper.

    References
    ----------
    .. [1] Common practice, no published source.

    Examples
    --------
    >>> speed_limit()
    1.0
    """
    return limit


@worked
def friction_limit(limit: Annotated[PerMetre, Gt(0.0)] = 200.0) -> PerMetre:
    r"""Pressure for each metre that house pipes should keep below.

    Parameters
    ----------
    limit : PerMetre
        The limit. [Pa/m] Above 0.

    Returns
    -------
    PerMetre
        The limit. [Pa/m]

    Raises
    ------
    OutOfRange
        If the limit lies outside its range.

    Notes
    -----
    100 to 200 Pa/m is aimed at: less is dear pipe, more a strong pump.

    References
    ----------
    .. [1] Common practice, no published source.

    Examples
    --------
    >>> friction_limit()
    200.0
    """
    return limit


def pump_point_of(facts: Facts) -> PumpPoint | None:
    """Work out the pump point of the charging loop; ``None`` where its pipe or the flow is not known."""
    boiler, water = facts.plant.boiler, facts.plant.water
    if water.charge_pipe_bore_mm is None or (boiler.charge_flow_kg_h is None and boiler.output_kw is None):
        return None
    if boiler.charge_flow_kg_h is not None:
        flow = boiler.charge_flow_kg_h
    else:
        assert boiler.output_kw is not None
        flow = charge_flow(boiler.output_kw)
    if water.charge_pipe_m is None:
        return None
    return pump_point(flow, water.charge_pipe_bore_mm, water.charge_pipe_m)


def pipe_checks(facts: Facts) -> list[Check]:
    """Check the charging pipe's speed and friction."""
    missing = [
        f"plant.water.{name}"
        for name in ("charge_pipe_bore_mm", "charge_pipe_m")
        if getattr(facts.plant.water, name) is None
    ]
    if facts.plant.boiler.output_kw is None and facts.plant.boiler.charge_flow_kg_h is None:
        missing.append("plant.boiler.output_kw")
    point = pump_point_of(facts)
    if point is None:
        return [unknown(facts, key, *missing) for key in ("pipes.speed", "pipes.friction")]
    return [
        _limited(
            facts,
            "pipes.speed",
            figure(point.speed_m_s, "m/s", pump_point),
            figure(speed_limit(), "m/s", speed_limit),
        ),
        _limited(
            facts,
            "pipes.friction",
            figure(point.friction_pa_m, "Pa/m", pump_point),
            figure(friction_limit(), "Pa/m", friction_limit),
        ),
    ]


def _limited(facts: Facts, key: str, yours: Figure, wanted: Figure) -> Check:
    verdict = at_most(yours.value, wanted.value)
    return check(facts, key, verdict, yours=yours, wanted=wanted, meant="at_most")
