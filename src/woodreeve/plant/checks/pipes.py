"""Water through pipes: how fast it runs, what pressure it takes, and where the pump works."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from woodreeve.plant.boiler import charge_flow
from woodreeve.plant.checks.verdict import Check, Facts, at_most, check, unknown
from woodreeve.plant.water import water_density, water_viscosity
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.workings import Figure, figure, worked

__all__ = [
    "PumpPoint",
    "friction_factor",
    "gravity_head",
    "pipe_checks",
    "pipe_friction",
    "pipe_reynolds",
    "pipe_speed",
    "pump_head",
    "pump_point",
    "pump_point_of",
    "valve_loss",
]

Flow = Annotated[float, Unit("kg/h"), Ge(0.0), Le(5e6)]
Bore = Annotated[float, Unit("mm"), Gt(1.0), Le(500.0)]
Water = Annotated[float, Unit("degC"), Ge(0.0), Le(110.0)]
Roughness = Annotated[float, Unit("mm"), Ge(0.0), Le(5.0)]
Speed = Annotated[float, Unit("m/s"), Ge(0.0), Le(1e4)]
PerMetre = Annotated[float, Unit("Pa/m"), Ge(0.0)]
Pressure = Annotated[float, Unit("kPa"), Ge(0.0)]

GRAVITY = 9.80665
"""Standard acceleration of free fall. [m/s2]"""
COPPER_MM = 0.0015
"""Roughness of drawn copper pipe (from memory). [mm]"""


@worked
def pipe_speed(flow: Flow, bore: Bore, temperature: Water = 70.0) -> Speed:
    r"""Speed of water in a pipe.

    Parameters
    ----------
    flow : Flow
        Water in an hour, :math:`\dot m`. [kg/h]
    bore : Bore
        Inside diameter, :math:`d`. [mm] Above 1, to 500.
    temperature : Water
        Of the water. [degC] From 0 to 110.

    Returns
    -------
    Speed
        Mean speed. [m/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: v = \frac{4\,\dot m}{\pi d^2 \rho}

    References
    ----------
    .. [1] Balance of mass; row PL-pip05.

    Examples
    --------
    >>> round(pipe_speed(859.2, 20.2), 2)
    0.76
    """
    area = 3.141592653589793 / 4.0 * (bore / 1000.0) ** 2
    return flow / 3600.0 / water_density(temperature) / area


@worked
def pipe_reynolds(flow: Flow, bore: Bore, temperature: Water = 70.0) -> Annotated[float, Unit("-"), Ge(0.0)]:
    r"""Reynolds number of water in a pipe: below about 2000 it glides, above it tumbles.

    Parameters
    ----------
    flow : Flow
        Water in an hour. [kg/h]
    bore : Bore
        Inside diameter, :math:`d`. [mm] Above 1, to 500.
    temperature : Water
        Of the water. [degC] From 0 to 110.

    Returns
    -------
    float
        Reynolds number. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: Re = v\,d\,\rho / \mu

    References
    ----------
    .. [1] Definition; density and viscosity of IAPWS SR6-08 (2011).

    Examples
    --------
    >>> round(pipe_reynolds(859.2, 20.2), -2)
    37300.0
    """
    speed = pipe_speed(flow, bore, temperature)
    return speed * bore / 1000.0 * water_density(temperature) / (water_viscosity(temperature) / 1000.0)


@worked
def friction_factor(
    reynolds: Annotated[float, Unit("-"), Gt(0.0), Le(1e9)],
    roughness_ratio: Annotated[float, Unit("-"), Ge(0.0), Le(0.05)] = 0.0,
    method: Literal["colebrook", "haaland"] = "colebrook",
) -> Annotated[float, Unit("-"), Gt(0.0)]:
    r"""Darcy friction factor of a pipe.

    Parameters
    ----------
    reynolds : float
        Reynolds number, :math:`Re`. [-] Above 0.
    roughness_ratio : float
        Roughness over bore, :math:`\epsilon/d`. [-] From 0 to 0.05.
    method : str
        ``colebrook`` solves the equation itself, ``haaland`` is its short form for 4e3 to 1e8.

    Returns
    -------
    float
        Friction factor, :math:`f`. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.
    UnknownName
        If there is no such method.

    Notes
    -----
    .. math:: f = 64/Re\ (Re < 2040), \qquad
       \frac1{\sqrt f} = -2 \log_{10}\Bigl(\frac{\epsilon}{3.7 d} + \frac{2.51}{Re \sqrt f}\Bigr)

    References
    ----------
    .. [1] Colebrook 1939 and Haaland 1983, as in the open fluids library (read), which works it out; rows
       PL-pip01 and PL-pip02.

    Examples
    --------
    >>> round(friction_factor(1e5, 1e-4), 5)
    0.01851
    """
    from fluids import friction

    if reynolds < friction.LAMINAR_TRANSITION_PIPE:
        return 64.0 / reynolds
    formula = friction.Colebrook if method == "colebrook" else friction.Haaland
    return float(formula(reynolds, roughness_ratio))


@worked
def pipe_friction(
    flow: Annotated[Flow, Gt(0.0)], bore: Bore, temperature: Water = 70.0, roughness: Roughness = COPPER_MM
) -> PerMetre:
    r"""Pressure that a metre of straight pipe takes.

    Parameters
    ----------
    flow : Flow
        Water in an hour. [kg/h] Above 0.
    bore : Bore
        Inside diameter, :math:`d`. [mm] Above 1, to 500.
    temperature : Water
        Of the water. [degC] From 0 to 110.
    roughness : Roughness
        Of the wall: copper 0.0015, plastic 0.01, steel 0.2. [mm] From 0 to 5.

    Returns
    -------
    PerMetre
        Pressure for each metre. [Pa/m]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta p / L = f \rho v^2 / (2 d)

    References
    ----------
    .. [1] Darcy and Weisbach with :func:`friction_factor`; roughness of plastic and steel read at valrom.ro
       92682, of copper from memory; rows PL-pip04 and PL-pip06.

    Examples
    --------
    >>> round(pipe_friction(859.2, 26.2))
    91
    """
    speed = pipe_speed(flow, bore, temperature)
    factor = friction_factor(pipe_reynolds(flow, bore, temperature), min(roughness / bore, 0.05))
    return factor * water_density(temperature) * speed * speed / (2.0 * bore / 1000.0)


@worked
def valve_loss(
    flow: Annotated[float, Unit("m3/h"), Ge(0.0), Le(1000.0)],
    kvs: Annotated[float, Unit("m3/h"), Gt(0.0), Le(1000.0)],
) -> Pressure:
    r"""Pressure that an open valve takes.

    Parameters
    ----------
    flow : float
        Water through it, :math:`q`. [m3/h]
    kvs : float
        Its stated flow at 1 bar, :math:`k_{vs}`. [m3/h] Above 0.

    Returns
    -------
    Pressure
        Pressure. [kPa]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta p = 100\,(q/k_{vs})^2

    References
    ----------
    .. [1] Definition of the kvs; row PL-pip09.

    Examples
    --------
    >>> round(valve_loss(1.074, 4.0), 2)
    7.21
    """
    return 100.0 * (flow / kvs) ** 2


@worked
def pump_head(pressure: Pressure, temperature: Water = 70.0) -> Annotated[float, Unit("m"), Ge(0.0)]:
    r"""Pressure in metres of water, as pumps are sold.

    Parameters
    ----------
    pressure : Pressure
        Pressure, :math:`\Delta p`. [kPa]
    temperature : Water
        Of the water. [degC] From 0 to 110.

    Returns
    -------
    float
        Head. [m]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: H = \Delta p / (\rho g)

    References
    ----------
    .. [1] Definition; row PL-pip08.

    Examples
    --------
    >>> round(pump_head(15.0), 2)
    1.56
    """
    return pressure * 1000.0 / (water_density(temperature) * GRAVITY)


@worked
def gravity_head(
    height: Annotated[float, Unit("m"), Ge(0.0), Le(50.0)], flow: Water = 80.0, back: Water = 60.0
) -> Annotated[float, Unit("Pa"), Ge(-1e5)]:
    r"""Pressure by which hot water rises on its own.

    It is small: a way out for heat by gravity needs wide, short pipes that rise all the way.

    Parameters
    ----------
    height : float
        Between the middles of boiler and radiator, :math:`h`. [m] From 0 to 50.
    flow : Water
        Rising water. [degC] From 0 to 110.
    back : Water
        Falling water. [degC] From 0 to 110.

    Returns
    -------
    float
        Pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta p = g h\,\bigl(\rho(T_r) - \rho(T_f)\bigr)

    References
    ----------
    .. [1] Hydrostatics; row PL-pip07.

    Examples
    --------
    >>> round(gravity_head(2.0))
    224
    """
    return GRAVITY * height * (water_density(back) - water_density(flow))


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
