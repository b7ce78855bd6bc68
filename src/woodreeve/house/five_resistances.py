"""Hour by hour: rooms, their surfaces and the mass behind them, by the simple hourly method of ISO 13790.

Why this model for the yearly answer: it is a published method, it sees night set-back, sun and heavy
walls, it needs nothing but what an owner can tell, and a year takes a hundredth of a second. The season's
simulation has its own, finer house, with the same losses and capacities.

With the AIR at the wanted temperature the surfaces are cooler, so this gives some 5 to 10 % less than
losses times degree hours. Both are within what U-values of old walls are worth; they should not be mixed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

import numpy as np

from woodreeve.house.heat_loss import OutdoorTemperature, RoomTemperature
from woodreeve.house.parameters import AIR_TO_SURFACE, SURFACE_SHARE, SURFACE_TO_MASS, ZoneParameters
from woodreeve.units import Floats, Ge, Gt, KilowattHour, Le, Unit, Watt
from woodreeve.weather.degree_days import Temperatures
from woodreeve.workings import worked

__all__ = [
    "NO_HEAT_C",
    "RoomState",
    "Rooms",
    "night_setback_change",
    "rooms_of",
    "run_zones",
    "steady_room",
    "yearly_room_heat",
]

NO_HEAT_C = -60.0
"""Wanted temperature of an hour in which the heating is off. [degC]"""

Conductance = Annotated[float, Unit("W/K"), Ge(0.0), Le(1e5)]
Positive = Annotated[float, Unit("W/K"), Gt(0.0), Le(1e5)]
FloorArea = Annotated[float, Unit("m2"), Gt(0.0), Le(10000.0)]
MassArea = Annotated[float, Unit("m2"), Gt(0.0), Le(50000.0)]
Capacity = Annotated[float, Unit("MJ/K"), Gt(0.0), Le(1e4)]


@dataclass(frozen=True, slots=True)
class Rooms:
    """One zone boiled down to the coefficients of its hourly step.

    ``mass' = keep * mass + drive + air_in * air`` and ``pull * air = push + held * mass + heating``,
    with ``drive`` and ``push`` made of the weather and the gains of the hour.
    """

    pull: float
    held: float
    keep: float
    air_in: float
    push_outside: float
    push_internal: float
    push_solar: float
    drive_outside: float
    drive_internal: float
    drive_solar: float

    def push(self, outside: Floats, internal: Floats | float, solar: Floats | float) -> Floats:
        """What weather and gains do to the air of each hour. [W]."""
        return np.asarray(
            self.push_outside * outside + self.push_internal * internal + self.push_solar * solar
        )

    def drive(self, outside: Floats, internal: Floats | float, solar: Floats | float) -> Floats:
        """What weather and gains do to the mass of each hour. [K]."""
        return np.asarray(
            self.drive_outside * outside + self.drive_internal * internal + self.drive_solar * solar
        )


def _rooms(
    air: float, light: float, heavy: float, floor_area: float, mass_area: float, capacity_mj: float
) -> Rooms:
    """Eliminate the surface node from the equations of the standard."""
    surfaces = SURFACE_SHARE * floor_area
    to_surface, to_mass = AIR_TO_SURFACE * surfaces, SURFACE_TO_MASS * mass_area
    to_outside = heavy / (1.0 - heavy / to_mass) if heavy < 0.999 * to_mass else 1000.0 * heavy
    store = 2.0 * capacity_mj * 1e6 / 3600.0
    whole = store + to_outside + to_mass
    into = to_mass / whole
    surface = to_surface + to_mass + light - to_mass * into
    link = to_surface / surface
    to_mass_share = mass_area / surfaces
    to_surface_share = max(0.0, 1.0 - to_mass_share - light / (SURFACE_TO_MASS * surfaces))

    def split(mass_w: float, surface_w: float, air_w: float) -> tuple[float, float]:
        """Push on the air and drive of the mass for one unit of heat at each node."""
        at_surface = into * mass_w + surface_w
        return air_w + link * at_surface, 2.0 * mass_w / whole + 2.0 * into * at_surface / surface

    outside = split(to_outside, light, air)
    internal = split(0.5 * to_mass_share, 0.5 * to_surface_share, 0.5)
    solar = split(to_mass_share, to_surface_share, 0.0)
    return Rooms(
        pull=to_surface + air - to_surface * link,
        held=link * into * store,
        keep=2.0 * store / whole - 1.0 + 2.0 * into * into * store / surface,
        air_in=2.0 * into * to_surface / surface,
        push_outside=outside[0],
        push_internal=internal[0],
        push_solar=solar[0],
        drive_outside=outside[1],
        drive_internal=internal[1],
        drive_solar=solar[1],
    )


def rooms_of(zone: ZoneParameters) -> Rooms:
    """The coefficients of a zone of the house."""
    return _rooms(
        zone.air_w_k,
        zone.light_w_k,
        zone.heavy_w_k,
        zone.floor_area_m2,
        zone.mass_area_m2,
        zone.mass_capacity_mj_k,
    )


def run_zones(
    rooms: tuple[Rooms, ...],
    pushes: tuple[Floats, ...],
    drives: tuple[Floats, ...],
    wanted: tuple[Floats, ...],
    most_w: tuple[float, ...],
    between_w_k: float,
    warm_up_h: int,
) -> tuple[Floats, Floats]:
    """Heat and air temperature of each zone (rows) in each hour, zones joined by a conductance.

    Before the first hour the last ``warm_up_h`` hours are run once, so that walls start as they would be.
    In an hour that asks for more than the radiators can give, the room stays cooler.
    """
    if len(rooms) == 1:
        still = Rooms(1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
        nothing, cold = np.zeros_like(pushes[0]), np.full_like(pushes[0], NO_HEAT_C)
        both = run_zones(
            (rooms[0], still),
            (pushes[0], nothing),
            (drives[0], nothing),
            (wanted[0], cold),
            (most_w[0], 0.0),
            0.0,
            warm_up_h,
        )
        return both[0][:1], both[1][:1]
    hours = pushes[0].size
    order = np.concatenate([np.arange(hours - min(warm_up_h, hours), hours), np.arange(hours)])
    columns = [series[order].tolist() for pair in (pushes, drives, wanted) for series in pair]
    a, b = rooms
    z = between_w_k
    pull_a, pull_b, held_a, held_b = a.pull + z, b.pull + z, a.held, b.held
    keep_a, keep_b, in_a, in_b = a.keep, b.keep, a.air_in, b.air_in
    most_a, most_b = most_w
    joint = pull_a * pull_b - z * z
    mass_a, mass_b = max(5.0, columns[4][0]), max(5.0, columns[5][0])
    heat_a, heat_b, air_a, air_b = [], [], [], []
    for push_a, push_b, drive_a, drive_b, want_a, want_b in zip(*columns):
        q_a, q_b = push_a + held_a * mass_a, push_b + held_b * mass_b
        t_a, t_b = (pull_b * q_a + z * q_b) / joint, (pull_a * q_b + z * q_a) / joint
        p_a = p_b = 0.0
        if t_a < want_a or t_b < want_b:
            p_a, p_b = pull_a * want_a - z * want_b - q_a, pull_b * want_b - z * want_a - q_b
            if p_a <= 0.0 or want_a <= NO_HEAT_C:
                p_a, p_b = 0.0, max(0.0, joint / pull_a * want_b - q_b - z * q_a / pull_a)
            elif p_b <= 0.0 or want_b <= NO_HEAT_C:
                p_b, p_a = 0.0, max(0.0, joint / pull_b * want_a - q_a - z * q_b / pull_b)
            p_a, p_b = min(p_a, most_a), min(p_b, most_b)
            t_a = (pull_b * (q_a + p_a) + z * (q_b + p_b)) / joint
            t_b = (pull_a * (q_b + p_b) + z * (q_a + p_a)) / joint
        mass_a, mass_b = keep_a * mass_a + drive_a + in_a * t_a, keep_b * mass_b + drive_b + in_b * t_b
        heat_a.append(p_a)
        heat_b.append(p_b)
        air_a.append(t_a)
        air_b.append(t_b)
    return np.array([heat_a, heat_b])[:, -hours:], np.array([air_a, air_b])[:, -hours:]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomState:
    """A room held at its temperature for ever.

    Parameters
    ----------
    power_w : float
        Heat it takes. [W]
    surface_c, mass_c : float
        Temperatures of its inner surfaces and of the mass behind. [degC]
    """

    power_w: Watt
    surface_c: Annotated[float, Unit("degC")]
    mass_c: Annotated[float, Unit("degC")]


@worked
def steady_room(
    wanted_c: RoomTemperature,
    outside_c: OutdoorTemperature,
    *,
    air_w_k: Conductance,
    light_w_k: Conductance,
    heavy_w_k: Positive,
    floor_area_m2: FloorArea,
    mass_area_m2: MassArea,
) -> RoomState:
    r"""What it takes to hold a room's air at a temperature, in unchanging weather.

    Less than losses times difference, because walls are cooler than the air.

    Parameters
    ----------
    wanted_c : RoomTemperature
        Air temperature, :math:`T_a`. [degC] From 0 to 40.
    outside_c : OutdoorTemperature
        Outdoor temperature, :math:`T_e`. [degC] From -50 to 50.
    air_w_k : Conductance
        Loss with the air, :math:`H_{ve}`. [W/K] From 0 to 100000.
    light_w_k : Conductance
        Loss through windows and doors, :math:`H_w`. [W/K] From 0 to 100000.
    heavy_w_k : Positive
        Loss through walls, roof and floor, :math:`H_{op}`. [W/K] Above 0, to 100000.
    floor_area_m2 : FloorArea
        Floor area, :math:`A_f`. [m2] Above 0, to 10000.
    mass_area_m2 : MassArea
        Area of mass, :math:`A_m`. [m2] Above 0, to 50000.

    Returns
    -------
    RoomState
        Power and temperatures.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T_s = \frac{H_{is} T_a + (H_w + H_{op}) T_e}{H_{is} + H_w + H_{op}},
        \quad H_{is} = 3.45 \cdot 4.5 A_f

    .. math:: P = H_{ve}(T_a - T_e) + H_{is} (T_a - T_s), \quad
        T_m = T_s - \frac{H_{op} (T_s - T_e)}{9.1 A_m}

    References
    ----------
    .. [1] ISO 13790:2008, Annex C, at rest (equations from memory).

    Examples
    --------
    >>> round(steady_room(20.0, -10.0, air_w_k=90.0, light_w_k=60.0, heavy_w_k=200.0,
    ...                   floor_area_m2=120.0, mass_area_m2=360.0).power_w)
    9545
    """
    inner = AIR_TO_SURFACE * SURFACE_SHARE * floor_area_m2
    surface = (inner * wanted_c + (light_w_k + heavy_w_k) * outside_c) / (inner + light_w_k + heavy_w_k)
    return RoomState(
        power_w=air_w_k * (wanted_c - outside_c) + inner * (wanted_c - surface),
        surface_c=surface,
        mass_c=surface - heavy_w_k * (surface - outside_c) / (SURFACE_TO_MASS * mass_area_m2),
    )


def _year_heat(
    temperature_c: Floats, wanted: Floats, rooms: Rooms, gains_w: float, warm_up_h: int = 8760
) -> float:
    outside = np.asarray(temperature_c, dtype=float)
    push, drive = rooms.push(outside, gains_w, 0.0), rooms.drive(outside, gains_w, 0.0)
    heat, _ = run_zones((rooms,), (push,), (drive,), (wanted,), (1e9,), 0.0, warm_up_h)
    return float(heat.sum() / 1000.0)


def _night(hours: int, wanted_c: float, night_c: float, from_h: float, to_h: float) -> Floats:
    """Wanted temperature of each hour, counted from a midnight."""
    clock = np.arange(hours) % 24 + 0.5
    night = (clock >= from_h) | (clock < to_h) if from_h > to_h else (clock >= from_h) & (clock < to_h)
    return np.where(night, night_c, wanted_c)


@worked
def yearly_room_heat(
    temperature_c: Temperatures,
    wanted_c: RoomTemperature,
    *,
    air_w_k: Conductance,
    light_w_k: Conductance,
    heavy_w_k: Positive,
    floor_area_m2: FloorArea,
    mass_area_m2: MassArea,
    capacity_mj_k: Capacity,
    gains_w: Annotated[float, Unit("W"), Ge(0.0), Le(50000.0)] = 0.0,
    night_c: RoomTemperature | None = None,
    night_from_h: Annotated[float, Unit("h"), Ge(0.0), Le(24.0)] = 22.0,
    night_to_h: Annotated[float, Unit("h"), Ge(0.0), Le(24.0)] = 6.0,
) -> KilowattHour:
    r"""Heat that one zone takes over a span of hourly weather, the whole span run once before to settle.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour, from a midnight, :math:`T_e`. [degC] From -60 to 60.
    wanted_c : RoomTemperature
        Wanted air temperature by day. [degC] From 0 to 40.
    air_w_k : Conductance
        Loss with the air, :math:`H_{ve}`. [W/K] From 0 to 100000.
    light_w_k : Conductance
        Loss through windows and doors, :math:`H_w`. [W/K] From 0 to 100000.
    heavy_w_k : Positive
        Loss through walls, roof and floor, :math:`H_{op}`. [W/K] Above 0, to 100000.
    floor_area_m2 : FloorArea
        Floor area, :math:`A_f`. [m2] Above 0, to 10000.
    mass_area_m2 : MassArea
        Area of mass, :math:`A_m`. [m2] Above 0, to 50000.
    capacity_mj_k : Capacity
        Heat capacity of the mass, :math:`C_m`. [MJ/K] Above 0, to 10000.
    gains_w : float
        Internal gains, the same all hours. [W] From 0 to 50000.
    night_c : RoomTemperature or None
        Wanted temperature at night; unknown means as by day. [degC] From 0 to 40.
    night_from_h, night_to_h : float
        Clock hours of the night. [h] From 0 to 24.

    Returns
    -------
    KilowattHour
        Heat of the span. [kWh]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math::

        \frac{C_m}{\Delta t}(T_m' - T_m) = H_{em}(T_e - \bar T_m) + 9.1 A_m (T_s - \bar T_m) + \Phi_m,
        \quad \bar T_m = (T_m + T_m')/2

    .. math:: H_{is}(T_a - T_s) + 9.1 A_m (\bar T_m - T_s) + H_w (T_e - T_s) + \Phi_{st} = 0

    .. math:: H_{is}(T_s - T_a) + H_{ve}(T_e - T_a) + \Phi_{ia} + P = 0

    :math:`P` is what brings the air to the wanted temperature, and not less than nothing.

    References
    ----------
    .. [1] ISO 13790:2008, Annex C (equations from memory; rows R5-1 to R5-5 of the test sheet were
       worked out by a separate script from the same equations).
    """
    rooms = _rooms(air_w_k, light_w_k, heavy_w_k, floor_area_m2, mass_area_m2, capacity_mj_k)
    night = wanted_c if night_c is None else night_c
    wanted = _night(np.size(temperature_c), wanted_c, night, night_from_h, night_to_h)
    return _year_heat(temperature_c, wanted, rooms, gains_w)


@worked
def night_setback_change(
    temperature_c: Temperatures,
    wanted_c: RoomTemperature,
    night_c: RoomTemperature,
    *,
    air_w_k: Conductance,
    light_w_k: Conductance,
    heavy_w_k: Positive,
    floor_area_m2: FloorArea,
    mass_area_m2: MassArea,
    capacity_mj_k: Capacity,
    gains_w: Annotated[float, Unit("W"), Ge(0.0), Le(50000.0)] = 0.0,
    night_from_h: Annotated[float, Unit("h"), Ge(0.0), Le(24.0)] = 22.0,
    night_to_h: Annotated[float, Unit("h"), Ge(0.0), Le(24.0)] = 6.0,
) -> Annotated[float, Unit("-"), Ge(-1.0), Le(10.0)]:
    r"""How much less heat a zone takes over a year if it is let cool at night.

    Parameters
    ----------
    temperature_c : Temperatures
        Outdoor temperature of each hour, from a midnight. [degC] From -60 to 60.
    wanted_c : RoomTemperature
        Wanted air temperature by day. [degC] From 0 to 40.
    night_c : RoomTemperature
        Wanted air temperature at night. [degC] From 0 to 40.
    air_w_k, light_w_k : Conductance
        Losses with the air, and through windows and doors. [W/K] From 0 to 100000.
    heavy_w_k : Positive
        Loss through walls, roof and floor. [W/K] Above 0, to 100000.
    floor_area_m2 : FloorArea
        Floor area. [m2] Above 0, to 10000.
    mass_area_m2 : MassArea
        Area of mass. [m2] Above 0, to 50000.
    capacity_mj_k : Capacity
        Heat capacity of the mass. [MJ/K] Above 0, to 10000.
    gains_w : float
        Internal gains, the same all hours. [W] From 0 to 50000.
    night_from_h, night_to_h : float
        Clock hours of the night. [h] From 0 to 24.

    Returns
    -------
    float
        Change of the heat as a share; negative is a saving. [-]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q_{night} / Q_{steady} - 1

    with both by :func:`yearly_room_heat`. The model matters more than the weather here: a house taken
    as one lump saves a quarter to a half of this. Believe a saving only to that width.

    References
    ----------
    .. [1] ISO 13790:2008, Annex C (equations from memory).
    """
    rooms = _rooms(air_w_k, light_w_k, heavy_w_k, floor_area_m2, mass_area_m2, capacity_mj_k)
    hours = np.size(temperature_c)
    steady = _year_heat(temperature_c, np.full(hours, wanted_c), rooms, gains_w)
    lowered = _year_heat(
        temperature_c, _night(hours, wanted_c, night_c, night_from_h, night_to_h), rooms, gains_w
    )
    return lowered / steady - 1.0 if steady > 0.0 else 0.0
