"""From the owner's description to the few figures that a calculation needs, blanks filled in.

What was left blank is listed by name in ``assumed``, so that an answer can say what it rests on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt
from typing import Annotated

import numpy as np

from woodreeve.errors import Unknown
from woodreeve.house.describe import Element, HeatCapacity, House, Zone
from woodreeve.house.gains import internal_gains, window_aperture
from woodreeve.house.heat_loss import air_changes_of, air_heat_loss, bridge_surcharge, fabric_heat_loss
from woodreeve.house.hot_water import assumed_occupants, hot_water_litres
from woodreeve.house.u_values import element_spread, element_sun_share, element_u_value
from woodreeve.units import Ge, Le, Unit, WattPerKelvin
from woodreeve.weather.sunpath import Facing
from woodreeve.workings import worked

__all__ = [
    "AIR_TO_SURFACE",
    "SURFACE_TO_MASS",
    "HouseParameters",
    "ZoneParameters",
    "guessed_shell",
    "zone_parameters",
]

AIR_TO_SURFACE = 3.45
"""Heat passing from air to inner surfaces. [W/(m2*K)] (ISO 13790:2008, from memory)"""

SURFACE_TO_MASS = 9.1
"""Heat passing from inner surfaces into the mass behind them. [W/(m2*K)] (ISO 13790:2008, from memory)"""

SURFACE_SHARE = 4.5
"""Inner surfaces over floor area. [-] (ISO 13790:2008, from memory)"""

CAPACITY_KJ_M2K: dict[HeatCapacity, float] = {
    "very_light": 80.0,
    "light": 110.0,
    "medium": 165.0,
    "heavy": 260.0,
    "very_heavy": 370.0,
}
"""Heat capacity over floor area. [kJ/(m2*K)] (ISO 13790:2008 Table 12, from memory)"""

MASS_AREA_SHARE: dict[HeatCapacity, float] = {
    "very_light": 2.5,
    "light": 2.5,
    "medium": 2.5,
    "heavy": 3.0,
    "very_heavy": 3.5,
}
"""Area of mass over floor area. [-] (ISO 13790:2008 Table 12, from memory)"""

FURNISHED_AIR = 5.0
"""Heat capacity of air with furniture and thin linings over that of the air alone. [-] (judgement)"""

ADJOINING_SHARE = {"outside": 1.0, "ground": 1.0, "unheated": 0.5, "heated": 0.0}
"""Part of the outdoor difference that a part feels. [-] (EN 12831-1 simplified, from memory; U-values of
ground floors already hold the ground)"""

USUAL_CEILING_M = 2.4
USUAL_WANTED_C = (20.0, 18.0)
"""Wanted temperature downstairs and upstairs where nobody says. [degC] (judgement)"""
USUAL_BETWEEN_W_K = 100.0
"""Middle of 50 to 150 for open doors. [W/K] (from memory, low confidence)"""

_AIR_SPREAD = 0.40
_WINDOW_OF_FLOOR = 0.15
_CapacityMjK = Annotated[float, Unit("MJ/K"), Ge(0.0), Le(1e5)]


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneParameters:
    """What a calculation needs to know of one zone.

    Parameters
    ----------
    name : str
        The zone's name.
    floor_area_m2 : float
        Heated floor area. [m2]
    volume_m3 : float
        Volume of its rooms. [m3]
    air_w_k : float
        Loss with the air. [W/K]
    light_w_k : float
        Loss through windows and doors, which store no heat. [W/K]
    heavy_w_k : float
        Loss through walls, roof and floor, corners and edges included. [W/K]
    loss_w_k : float
        All three. [W/K]
    loss_spread_w_k : float
        How far off that may be, in 8 cases of 10. [W/K]
    air_to_mass_w_k : float
        Heat passing between the air and the mass inside. [W/K]
    mass_to_outside_w_k : float
        Heat passing from the mass to outside, so that both in a row make ``heavy_w_k``. [W/K]
    surface_w_k, surface_to_mass_w_k : float
        The two steps between air and mass: air to surfaces, surfaces to mass. [W/K]
    mass_area_m2 : float
        Area of the mass. [m2]
    air_capacity_mj_k, mass_capacity_mj_k : float
        Heat capacities of air with furniture, and of the mass. [MJ/K]
    apertures_m2 : dict
        Solar aperture by facing. [m2]
    internal_gains_w : float
        Its share of the internal gains. [W]
    wanted_c, setback_c : float
        Room temperatures by day and at night. [degC]
    setback_from_h, setback_to_h : float
        Clock hours of the night. [h]
    """

    name: str
    floor_area_m2: Annotated[float, Unit("m2")]
    volume_m3: Annotated[float, Unit("m3")]
    air_w_k: WattPerKelvin
    light_w_k: WattPerKelvin
    heavy_w_k: WattPerKelvin
    loss_w_k: WattPerKelvin
    loss_spread_w_k: WattPerKelvin
    air_to_mass_w_k: WattPerKelvin
    mass_to_outside_w_k: WattPerKelvin
    surface_w_k: WattPerKelvin
    surface_to_mass_w_k: WattPerKelvin
    mass_area_m2: Annotated[float, Unit("m2")]
    air_capacity_mj_k: _CapacityMjK
    mass_capacity_mj_k: _CapacityMjK
    apertures_m2: dict[Facing, float]
    internal_gains_w: Annotated[float, Unit("W")]
    wanted_c: Annotated[float, Unit("degC")]
    setback_c: Annotated[float, Unit("degC")]
    setback_from_h: Annotated[float, Unit("h")]
    setback_to_h: Annotated[float, Unit("h")]


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseParameters:
    """What a calculation needs to know of the house.

    Parameters
    ----------
    zones : tuple of ZoneParameters
        One or two.
    between_w_k : float
        Heat passing between the two. [W/K]
    loss_w_k : float
        Heat loss of the whole house. [W/K]
    loss_spread_w_k : float
        How far off that may be, in 8 cases of 10. [W/K]
    walls_w_k, roof_w_k, floor_w_k, windows_w_k, doors_w_k, bridges_w_k, air_w_k : float
        Where it goes. [W/K]
    floor_area_m2 : float
        Heated floor area. [m2]
    occupants : float
        People. [-]
    internal_gains_w : float
        Internal gains. [W]
    hot_water_litres_day : float
        Hot water in a day. [L]
    hot_water_spread : float
        How far off that may be, as a share, in 8 cases of 10. [-]
    capacity_mj_k : float
        Heat capacity. [MJ/K]
    time_constant_h : float
        How slowly the house cools. [h]
    assumed : tuple of str
        What was left blank and is assumed.
    """

    zones: tuple[ZoneParameters, ...]
    between_w_k: WattPerKelvin
    loss_w_k: WattPerKelvin
    loss_spread_w_k: WattPerKelvin
    walls_w_k: WattPerKelvin
    roof_w_k: WattPerKelvin
    floor_w_k: WattPerKelvin
    windows_w_k: WattPerKelvin
    doors_w_k: WattPerKelvin
    bridges_w_k: WattPerKelvin
    air_w_k: WattPerKelvin
    floor_area_m2: Annotated[float, Unit("m2")]
    occupants: Annotated[float, Unit("-")]
    internal_gains_w: Annotated[float, Unit("W")]
    hot_water_litres_day: Annotated[float, Unit("L")]
    hot_water_spread: Annotated[float, Unit("-")]
    capacity_mj_k: _CapacityMjK
    time_constant_h: Annotated[float, Unit("h")]
    assumed: tuple[str, ...]


def guessed_shell(
    floor_area_m2: float, ceiling_m: float, *, lowest: bool, topmost: bool
) -> tuple[Element, ...]:
    """A shell for a zone of which only the floor area is known: an old house twice as long as broad.

    Windows are 15 % of the floor area, half to the south and half to the north. A zone that is the
    whole house is taken to have two storeys. All this is judgement, good to a third.
    """
    storeys = 2 if lowest and topmost else 1
    ground = floor_area_m2 / storeys
    around = 6.0 * sqrt(ground / 2.0)
    windows, door = _WINDOW_OF_FLOOR * floor_area_m2, 2.0 if lowest else 0.0
    walls = max(1.0, around * storeys * (ceiling_m + 0.3) - windows - door)
    shell = [Element(name="walls", kind="wall", area_m2=walls)]
    shell += [
        Element(name=f"windows {side}", kind="window", area_m2=windows / 2.0, faces=side)
        for side in ("south", "north")
    ]
    if topmost:
        shell.append(Element(name="roof", kind="roof", area_m2=ground))
    if lowest:
        shell.append(Element(name="floor", kind="floor", area_m2=ground, adjoins="ground"))
        shell.append(Element(name="door", kind="door", area_m2=door))
    return tuple(shell)


@dataclass(frozen=True, slots=True)
class _Shell:
    """Losses of one zone's shell by kind. [W/K]."""

    by_kind: dict[str, float]
    bridges: float
    spread: float
    apertures: dict[Facing, float]


def _shell(elements: tuple[Element, ...], surcharge: float) -> _Shell:
    by_kind = dict.fromkeys(("wall", "roof", "floor", "window", "door"), 0.0)
    apertures: dict[Facing, float] = {}
    spread = 0.0
    exposed = 0.0
    for kind in by_kind:
        parts = [part for part in elements if part.kind == kind]
        felt = np.array([part.area_m2 * ADJOINING_SHARE[part.adjoins] for part in parts])
        u_values = np.array([element_u_value(part) for part in parts])
        by_kind[kind] = fabric_heat_loss(felt, u_values)
        spread += float(sum(a * u * element_spread(part) for a, u, part in zip(felt, u_values, parts)))
        exposed += float(felt.sum())
    for part in elements:
        if part.kind == "window" and part.faces is not None and part.adjoins == "outside":
            aperture = window_aperture(part.area_m2, element_sun_share(part))
            apertures[part.faces] = apertures.get(part.faces, 0.0) + aperture
    bridges = exposed * surcharge
    return _Shell(by_kind, bridges, spread + 0.5 * bridges, apertures)


def _filled(house: House) -> tuple[list[Zone], list[str]]:
    """Zones with their blanks filled, and the names of the blanks."""
    if not house.zones:
        raise Unknown("The house has no zones yet: give at least one, with its heated floor area.")
    assumed: list[str] = []
    zones = []
    for number, zone in enumerate(house.zones):

        def note(field: str, zone: Zone = zone) -> None:
            assumed.append(f"{zone.name}: {field}")

        if zone.floor_area_m2 is None:
            raise Unknown(
                f"The heated floor area of zone {zone.name!r} is not known, and nothing stands in for it."
            )
        if zone.ceiling_m is None:
            note("ceiling_m")
            zone = replace(zone, ceiling_m=USUAL_CEILING_M)
        if not zone.elements:
            note("elements")
            last = number == len(house.zones) - 1
            shell = guessed_shell(
                zone.floor_area_m2 or 0.0, zone.ceiling_m or USUAL_CEILING_M, lowest=number == 0, topmost=last
            )
            zone = replace(zone, elements=shell)
        if zone.air_changes is None:
            if zone.draughts is None:
                note("draughts")
            zone = replace(zone, air_changes=air_changes_of(zone.draughts or "draughty"))
        if zone.wanted_c is None:
            note("wanted_c")
            zone = replace(zone, wanted_c=USUAL_WANTED_C[min(number, 1)])
        zones.append(zone)
    return zones, assumed


def _zone(zone: Zone, shell: _Shell, weight: HeatCapacity, gains_w: float) -> ZoneParameters:
    area = zone.floor_area_m2 or 0.0
    volume = area * (zone.ceiling_m or USUAL_CEILING_M)
    air = air_heat_loss(zone.air_changes or 0.0, volume)
    light = shell.by_kind["window"] + shell.by_kind["door"]
    heavy = shell.by_kind["wall"] + shell.by_kind["roof"] + shell.by_kind["floor"] + shell.bridges
    mass_area = MASS_AREA_SHARE[weight] * area
    surface, into_mass = AIR_TO_SURFACE * SURFACE_SHARE * area, SURFACE_TO_MASS * mass_area
    both = 1.0 / (1.0 / surface + 1.0 / into_mass)
    wanted = zone.wanted_c if zone.wanted_c is not None else USUAL_WANTED_C[0]
    setback = wanted if zone.setback_c is None else min(zone.setback_c, wanted)
    return ZoneParameters(
        name=zone.name,
        floor_area_m2=area,
        volume_m3=volume,
        air_w_k=air,
        light_w_k=light,
        heavy_w_k=heavy,
        loss_w_k=air + light + heavy,
        loss_spread_w_k=shell.spread + _AIR_SPREAD * air,
        air_to_mass_w_k=both,
        mass_to_outside_w_k=heavy / max(1e-6, 1.0 - heavy / both) if heavy < both else 1e5,
        surface_w_k=surface,
        surface_to_mass_w_k=into_mass,
        mass_area_m2=mass_area,
        air_capacity_mj_k=FURNISHED_AIR * 0.0012 * volume,
        mass_capacity_mj_k=CAPACITY_KJ_M2K[weight] * area / 1000.0,
        apertures_m2=shell.apertures,
        internal_gains_w=gains_w,
        wanted_c=wanted,
        setback_c=setback,
        setback_from_h=zone.setback_from_h,
        setback_to_h=zone.setback_to_h,
    )


@worked
def zone_parameters(house: House) -> HouseParameters:
    r"""Heat losses, heat capacities, windows and gains of the house, blanks filled in.

    Parameters
    ----------
    house : House
        The house as its owner describes it.

    Returns
    -------
    HouseParameters
        What the yearly demand and the season's simulation need, and a list of what was assumed.

    Raises
    ------
    Unknown
        If the house has no zone or a zone no floor area.

    Notes
    -----
    .. math:: H = \sum_i A_i b_i U_i + \Delta U \sum_i A_i b_i + 0.333\,n V

    .. math:: \frac{1}{H_{am}} = \frac{1}{3.45 \cdot 4.5 A_f} + \frac{1}{9.1 A_m}, \quad
        \frac{1}{H_{mo}} = \frac{1}{H_{heavy}} - \frac{1}{H_{am}}

    The spread adds up the spreads of parts of one house as if they all erred the same way within
    the shell and within the air, and takes shell and air as independent.

    References
    ----------
    .. [1] ISO 13790:2008, Table 12 and Annex C (from memory).
    .. [2] EN 12831-1, simplified method (from memory).
    """
    zones, assumed = _filled(house)
    area = float(sum(zone.floor_area_m2 or 0.0 for zone in zones))
    occupants = house.occupants
    if occupants is None:
        occupants = assumed_occupants(area)
        assumed.append("occupants")
    gains = house.internal_gains_w
    if gains is None:
        gains = internal_gains(occupants, area)
        assumed.append("internal_gains_w")
    weight: HeatCapacity = house.heat_capacity or "heavy"
    between = house.between_zones_w_k if house.between_zones_w_k is not None else USUAL_BETWEEN_W_K
    litres = house.hot_water_litres_day
    if litres is None:
        litres = hot_water_litres(occupants, "water_saving" if house.hot_water_saving else "usual")
        assumed.append("hot_water_litres_day")
    assumed += [name for name in ("heat_capacity", "bridges") if getattr(house, name) is None]
    if len(zones) == 2 and house.between_zones_w_k is None:
        assumed.append("between_zones_w_k")
    surcharge = bridge_surcharge(house.bridges or "ordinary")
    shells = [_shell(zone.elements, surcharge) for zone in zones]
    done = tuple(
        _zone(zone, shell, weight, gains * (zone.floor_area_m2 or 0.0) / area)
        for zone, shell in zip(zones, shells)
    )

    def kind(name: str) -> float:
        return float(sum(shell.by_kind[name] for shell in shells))

    air = float(sum(zone.air_w_k for zone in done))
    loss = float(sum(zone.loss_w_k for zone in done))
    capacity = float(sum(zone.air_capacity_mj_k + zone.mass_capacity_mj_k for zone in done))
    shell_spread = float(sum(shell.spread for shell in shells))
    return HouseParameters(
        zones=done,
        between_w_k=between if len(done) == 2 else 0.0,
        loss_w_k=loss,
        loss_spread_w_k=float(np.hypot(shell_spread, _AIR_SPREAD * air)),
        walls_w_k=kind("wall"),
        roof_w_k=kind("roof"),
        floor_w_k=kind("floor"),
        windows_w_k=kind("window"),
        doors_w_k=kind("door"),
        bridges_w_k=float(sum(shell.bridges for shell in shells)),
        air_w_k=air,
        floor_area_m2=area,
        occupants=occupants,
        internal_gains_w=gains,
        hot_water_litres_day=litres,
        hot_water_spread=0.10 if house.hot_water_litres_day is not None else 0.40,
        capacity_mj_k=capacity,
        time_constant_h=capacity * 1e6 / 3600.0 / max(loss, 1e-6),
        assumed=tuple(assumed),
    )
