"""Water through pipes: how fast it runs, and what pressure it takes."""

from __future__ import annotations

from typing import Annotated, Literal

from woodreeve.plant.water import water_density, water_viscosity
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.workings import worked

__all__ = [
    "friction_factor",
    "gravity_head",
    "pipe_friction",
    "pipe_reynolds",
    "pipe_speed",
    "pump_head",
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
