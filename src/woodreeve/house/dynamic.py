"""How rooms warm and cool: two zones, each with its air and its heavy parts, stepped exactly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Area, Floats, Ge, Gt, Hour, Le, Unit, Watt, WattPerKelvin
from woodreeve.workings import worked

__all__ = [
    "Heaviness",
    "RoomDynamics",
    "ZoneDynamics",
    "room_time_constant",
    "settled_air",
    "step_matrices",
    "zone_dynamics",
    "zone_heat_capacity",
]

Heaviness = Literal["very_light", "light", "medium", "heavy", "very_heavy"]
"""How much mass a house's inside offers to heat."""

_CAPACITY_KJ_M2_K: dict[str, float] = {
    "very_light": 80.0,
    "light": 110.0,
    "medium": 165.0,
    "heavy": 260.0,
    "very_heavy": 370.0,
}
_MASS_AREA: dict[str, float] = {
    "very_light": 2.5,
    "light": 2.5,
    "medium": 2.5,
    "heavy": 3.0,
    "very_heavy": 3.5,
}
"""Effective area of the mass over the floor area. [-]"""

AIR_KJ_M2_K = 10.0
"""Air, furniture and linings that follow the air at once, for each square metre of floor. [kJ/(m2*K)]
Common practice, no published source."""

Capacity = Annotated[float, Unit("kJ/K"), Gt(0.0), Le(1e7)]


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneDynamics:
    """One zone: its air, its mass, and the three ways between them and outdoors."""

    air_kj_k: Capacity
    """Heat capacity of air and furniture. [kJ/K]"""
    mass_kj_k: Capacity
    """Heat capacity of walls and floors. [kJ/K]"""
    between_w_k: WattPerKelvin
    """From air to mass. [W/K]"""
    air_out_w_k: WattPerKelvin
    """From air to outdoors: windows, doors and air change. [W/K]"""
    mass_out_w_k: WattPerKelvin
    """From mass to outdoors: walls, roof, floor. [W/K]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomDynamics:
    """Two zones and the way between them."""

    downstairs: ZoneDynamics
    upstairs: ZoneDynamics
    across_w_k: WattPerKelvin = 100.0
    """From one zone's air to the other's. [W/K]"""


@worked
def zone_heat_capacity(floor_area: Area, heaviness: Heaviness = "medium") -> Capacity:
    r"""Heat that a zone's walls and floors take up for each degree.

    Parameters
    ----------
    floor_area : Area
        Heated floor. [m2]
    heaviness : Heaviness
        From very_light (timber frame) to very_heavy (bare stone inside).

    Returns
    -------
    Capacity
        Heat capacity. [kJ/K]

    Raises
    ------
    OutOfRange
        If the area is out of range.
    UnknownName
        If there is no such class.

    Notes
    -----
    .. math:: C_m = c\,A_f,\quad c = 80,\ 110,\ 165,\ 260,\ 370\ \mathrm{kJ/(m^2 K)}

    References
    ----------
    .. [1] EN ISO 13790:2008, Table 12 (from memory).

    Examples
    --------
    >>> zone_heat_capacity(100.0, "heavy")
    26000.0
    """
    return floor_area * _CAPACITY_KJ_M2_K[heaviness]


@worked
def zone_dynamics(
    heat_loss: Annotated[float, Unit("W/K"), Gt(0.0), Le(10000.0)],
    floor_area: Annotated[float, Unit("m2"), Gt(0.0), Le(10000.0)],
    heaviness: Heaviness = "medium",
    through_mass: Annotated[float, Unit("-"), Ge(0.0), Le(0.9)] = 0.5,
) -> ZoneDynamics:
    r"""Build a zone's two capacities and three conductances from its heat loss and floor.

    In steady weather the zone loses exactly its stated heat loss; the mass only decides how fast it
    follows.

    Parameters
    ----------
    heat_loss : float
        Heat loss for each degree, air change included. [W/K] More than 0.
    floor_area : float
        Heated floor. [m2] More than 0.
    heaviness : Heaviness
        From very_light to very_heavy.
    through_mass : float
        Part of the loss that goes through heavy walls, roof and floor. [-]

    Returns
    -------
    ZoneDynamics
        The zone.

    Raises
    ------
    OutOfRange
        If an argument is out of range, or the walls cannot pass that much of the loss.

    Notes
    -----
    .. math:: H_{am} = \Bigl(\frac{1}{9.1\,A_m} + \frac{1}{3.45 \cdot 4.5\,A_f}\Bigr)^{-1},\quad
       H_{mo} = \Bigl(\frac{1}{s H} - \frac{1}{H_{am}}\Bigr)^{-1},\quad H_{ao} = (1 - s) H

    References
    ----------
    .. [1] EN ISO 13790:2008, 7.2.2.2 and Table 12 (coefficients from memory), its surface node left out.

    Examples
    --------
    >>> zone_dynamics(200.0, 95.0).air_out_w_k
    100.0
    """
    between = 1.0 / (1.0 / (9.1 * _MASS_AREA[heaviness] * floor_area) + 1.0 / (3.45 * 4.5 * floor_area))
    slow = through_mass * heat_loss
    if slow >= 0.95 * between:
        raise OutOfRange(
            "heat_loss",
            f"{heat_loss:g}",
            f"at most {0.95 * between / through_mass:.0f} for {floor_area:g} m2 of floor",
            "W/K",
            "check the heat loss and the floor area of the zone",
        )
    return ZoneDynamics(
        air_kj_k=AIR_KJ_M2_K * floor_area,
        mass_kj_k=zone_heat_capacity(floor_area, heaviness),
        between_w_k=between,
        air_out_w_k=heat_loss - slow,
        mass_out_w_k=1.0 / (1.0 / slow - 1.0 / between) if slow > 0.0 else 0.0,
    )


@worked
def room_time_constant(heat_loss: Annotated[float, Unit("W/K"), Gt(0.0)], capacity: Capacity) -> Hour:
    r"""Time in which an unheated house loses 63 % of its excess over a new outdoor temperature.

    Parameters
    ----------
    heat_loss : float
        Heat loss for each degree. [W/K] More than 0.
    capacity : Capacity
        Heat capacity of air and mass together. [kJ/K]

    Returns
    -------
    Hour
        Time constant. [h]

    Raises
    ------
    OutOfRange
        If an argument is out of range.

    Notes
    -----
    .. math:: \tau = C / H

    References
    ----------
    .. [1] EN ISO 13790:2008, 12.2.1.3 (from memory).

    Examples
    --------
    >>> round(room_time_constant(450.0, 75000.0), 1)
    46.3
    """
    return capacity / heat_loss / 3.6


@worked
def settled_air(
    outdoor: Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)],
    heat: Watt,
    heat_loss: Annotated[float, Unit("W/K"), Gt(0.0)],
) -> Annotated[float, Unit("degC")]:
    r"""Room temperature in which steady heat and steady loss balance.

    Parameters
    ----------
    outdoor : float
        Outdoor temperature. [degC]
    heat : Watt
        Heat given to the air. [W]
    heat_loss : float
        Heat loss for each degree. [W/K] More than 0.

    Returns
    -------
    float
        Room temperature. [degC]

    Raises
    ------
    OutOfRange
        If an argument is out of range.

    Notes
    -----
    .. math:: T_i = T_o + P / H

    References
    ----------
    .. [1] Balance of heat.

    Examples
    --------
    >>> settled_air(0.0, 8000.0, 400.0)
    20.0
    """
    return outdoor + heat / heat_loss


def step_matrices(rooms: RoomDynamics, seconds: float) -> tuple[Floats, Floats, Floats]:
    r"""Solve the rooms' equations over one step, exactly, for heat that is steady through it.

    Parameters
    ----------
    rooms : RoomDynamics
        The two zones.
    seconds : float
        Length of the step. [s]

    Returns
    -------
    tuple of arrays
        How the state after the step follows from the state before (4 x 4: air and mass downstairs, air
        and mass upstairs) and from the inputs (4 x 5: outdoor temperature, heat to the same four), and
        how the mean heat loss to outdoors through the step follows from both (9). [K, W/K and W]

    Notes
    -----
    .. math:: C\dot T = -G\,T + E\,u;\quad T(t) = e^{-C^{-1}G t}\,T_0 + \int e^{C^{-1} G (s - t)} E\,u\,ds

    The integral of the temperatures comes from the same exponential, so that heat stored plus heat
    lost equals heat given to the last bits.
    """
    zones = (rooms.downstairs, rooms.upstairs)
    conductance = np.zeros((4, 4))
    outward = np.zeros(4)
    capacity = np.zeros(4)

    def joined(i: int, j: int, value: float) -> None:
        conductance[i, i] += value
        conductance[j, j] += value
        conductance[i, j] -= value
        conductance[j, i] -= value

    for number, zone in enumerate(zones):
        air, mass = 2 * number, 2 * number + 1
        capacity[air], capacity[mass] = zone.air_kj_k * 1000.0, zone.mass_kj_k * 1000.0
        outward[air], outward[mass] = zone.air_out_w_k, zone.mass_out_w_k
        joined(air, mass, zone.between_w_k)
    joined(0, 2, rooms.across_w_k)
    conductance += np.diag(outward)
    inputs = np.column_stack([outward, np.eye(4)])
    rate = np.zeros((13, 13))
    rate[:4, :4] = -conductance / capacity[:, None]
    rate[:4, 4:9] = inputs / capacity[:, None]
    rate[9:, :4] = np.eye(4)
    whole = _exponential(rate * seconds)
    mean = whole[9:, :9] / seconds
    loss = outward @ mean
    loss[4] -= outward.sum()
    return whole[:4, :4], whole[:4, 4:9], loss


def _exponential(matrix: Floats) -> Floats:
    """Exponential of a small matrix: halve until small, sum the series, square again."""
    halvings = max(0, int(np.ceil(np.log2(max(np.abs(matrix).sum(axis=1).max(), 1e-300)))) + 3)
    small = matrix / 2.0**halvings
    result = np.eye(len(matrix))
    term = np.eye(len(matrix))
    for order in range(1, 19):
        term = term @ small / order
        result = result + term
    for _ in range(halvings):
        result = result @ result
    return result
