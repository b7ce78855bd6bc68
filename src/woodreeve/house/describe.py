"""The house as its owner describes it: two storeys or one, what each is built of, and how warm it should be.

Every figure may be left unknown; :mod:`woodreeve.house.known` says what is then assumed, and from where.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal

from woodreeve.errors import OutOfRange
from woodreeve.units import Asks, Ge, Gt, Le, Unit
from woodreeve.weather.sunpath import Facing

__all__ = [
    "Adjoins",
    "Bridges",
    "Construction",
    "Draughts",
    "Element",
    "Fuel",
    "HeatCapacity",
    "House",
    "PastFuel",
    "Zone",
]

Construction = Literal[
    "granite",
    "sandstone",
    "granite_as_built",
    "sandstone_as_built",
    "solid_brick",
    "cavity_unfilled",
    "timber_frame_old",
    "timber_frame_1950",
    "timber_frame_1965",
    "timber_frame_1976",
    "wall_1984",
    "wall_1992",
    "wall_2008",
    "wall_2012",
    "loft_bare",
    "loft_100",
    "loft_270",
    "floor_old",
    "single_glazing",
    "double_glazing_old",
    "double_glazing_coated",
    "triple_glazing",
    "wooden_door",
]
"""What a part is built of; ``granite`` and ``sandstone`` are reckoned from their thickness."""

Adjoins = Literal["outside", "ground", "unheated", "heated"]
Draughts = Literal["very_draughty", "draughty", "ordinary", "tight"]
HeatCapacity = Literal["very_light", "light", "medium", "heavy", "very_heavy"]
Bridges = Literal["good", "fair", "ordinary", "poor"]
Fuel = Literal["kerosene", "gas_oil", "lpg", "electricity", "wood"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """One part of the shell: a wall, a roof, a floor, a window or a door.

    Parameters
    ----------
    name : str
        What the owner calls it.
    kind : {"wall", "roof", "floor", "window", "door"}
        What it is.
    area_m2 : float
        Its area; for walls without the windows and doors in them. [m2]
    construction : str, optional
        What it is built of, from the table.
    thickness_mm : float, optional
        Thickness of a stone wall. [mm]
    lined : bool
        Whether a stone wall is lined inside (lath and plaster, boards on dabs).
    u_value : float, optional
        Heat loss of a square metre for each degree, if known; wins over the table. [W/(m2*K)]
    faces : str, optional
        Which way a window looks.
    adjoins : str
        What is on its other side.
    """

    name: Annotated[str, Asks("Name", "As you call it: gable wall, loft, kitchen window.")] = ""
    kind: Annotated[
        Literal["wall", "roof", "floor", "window", "door"], Asks("Kind of part", "What it is.")
    ] = "wall"
    area_m2: Annotated[
        float, Unit("m2"), Gt(0.0), Le(2000.0), Asks("Area", "Walls without the windows and doors in them.")
    ]
    construction: Annotated[
        Construction | None,
        Asks("Built of", "Unknown: old sandstone, loft 100 mm, single glazing and so on."),
    ] = None
    thickness_mm: Annotated[
        float | None,
        Unit("mm"),
        Ge(100.0),
        Le(1200.0),
        Asks("Thickness of a stone wall", "At a window reveal."),
    ] = None
    lined: Annotated[bool, Asks("Lined inside", "Lath and plaster, or boards, with air behind.")] = False
    u_value: Annotated[
        float | None,
        Unit("W/(m2*K)"),
        Ge(0.05),
        Le(7.0),
        Asks("U-value", "If you know it from papers; wins over the table."),
    ] = None
    faces: Annotated[Facing | None, Asks("Looks to", "For windows; unknown counts as no sun from there.")] = (
        None
    )
    adjoins: Annotated[
        Adjoins, Asks("On its other side", "Outside, ground, an unheated room, or a heated one.")
    ] = "outside"


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A storey, or another part of the house that is kept at its own temperature.

    Parameters
    ----------
    name : str
        ``downstairs``, ``upstairs`` or as the owner calls it.
    floor_area_m2 : float, optional
        Heated floor area inside the walls. [m2]
    ceiling_m : float, optional
        Height of the rooms. [m]
    elements : tuple of Element
        The parts of its shell.
    air_changes : float, optional
        How often an hour the air is renewed. [1/h]
    draughts : str, optional
        In words, where the number is not known.
    wanted_c : float, optional
        Room temperature wanted by day. [degC]
    setback_c : float, optional
        Room temperature let down to at night; unknown means no set-back. [degC]
    setback_from_h, setback_to_h : float
        Clock hours between which it is let down. [h]
    """

    name: Annotated[str, Asks("Name", "downstairs, upstairs.")] = "downstairs"
    floor_area_m2: Annotated[
        float | None,
        Unit("m2"),
        Gt(5.0),
        Le(2000.0),
        Asks("Heated floor area", "Inside the walls, all heated rooms."),
    ] = None
    ceiling_m: Annotated[
        float | None,
        Unit("m"),
        Ge(1.8),
        Le(8.0),
        Asks("Height of the rooms", "Floor to ceiling; 2.4 m is usual."),
    ] = None
    elements: Annotated[
        tuple[Element, ...],
        Asks("Walls, roof, floor, windows, doors", "Unknown: guessed from the floor area."),
    ] = ()
    air_changes: Annotated[
        float | None,
        Unit("1/h"),
        Ge(0.1),
        Le(6.0),
        Asks("Air changes", "How often an hour the air is renewed; seldom known."),
    ] = None
    draughts: Annotated[Draughts | None, Asks("Draughts", "In words, where the air change is not known.")] = (
        None
    )
    wanted_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(5.0),
        Le(28.0),
        Asks("Wanted temperature", "By day, as the thermometer shows."),
    ] = None
    setback_c: Annotated[
        float | None, Unit("degC"), Ge(0.0), Le(28.0), Asks("Night temperature", "Unknown: no set-back.")
    ] = None
    setback_from_h: Annotated[float, Unit("h"), Ge(0.0), Le(24.0), Asks("Night begins", "Clock hour.")] = 22.0
    setback_to_h: Annotated[float, Unit("h"), Ge(0.0), Le(24.0), Asks("Night ends", "Clock hour.")] = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PastFuel:
    """Fuel used over a span, from which the house's own heat loss can be read.

    Parameters
    ----------
    fuel : str
        Which fuel.
    amount : float
        How much was used: litres of oil or LPG, kWh of electricity, tonnes of wood.
    first_day, last_day : date
        The span.
    efficiency : float, optional
        Useful heat over fuel heat, on the basis named. [-]
    basis : {"gross", "net"}
        Whether the efficiency counts the heat of the flue's steam as fuel heat.
    tank_full_both_times : bool
        Whether the tank was full at the first and at the last day, so that the delivery is the use.
    energy_kwh : float, optional
        Heat in one litre, kWh or tonne, if it is to be other than the table's; must be given for wood
        (net, at the moisture burnt). [kWh]
    """

    fuel: Annotated[Fuel, Asks("Fuel", "What was used.")]
    amount: Annotated[
        float,
        Unit("-"),
        Ge(0.0),
        Le(1e6),
        Asks("Amount used", "Litres of oil or LPG, kWh, or tonnes of wood."),
    ]
    first_day: Annotated[date, Asks("From", "The day of the fill before.")]
    last_day: Annotated[date, Asks("To", "The day of the fill that measured it.")]
    efficiency: Annotated[
        float | None,
        Unit("-"),
        Ge(0.2),
        Le(1.1),
        Asks("Efficiency over the year", "As a share; unknown: a usual one."),
    ] = None
    basis: Annotated[
        Literal["gross", "net"], Asks("Basis of the efficiency", "Gross is usual for oil in Britain.")
    ] = "gross"
    tank_full_both_times: Annotated[
        bool, Asks("Filled right up both times", "A delivery is the use only between two full tanks.")
    ] = False
    energy_kwh: Annotated[
        float | None,
        Unit("kWh"),
        Gt(0.0),
        Le(6000.0),
        Asks("Heat in one litre, kWh or tonne", "Unknown: the table's; for wood from its moisture."),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """The house: its zones, the people in it and how they use it.

    Parameters
    ----------
    zones : tuple of Zone
        One or two.
    occupants : float, optional
        People who live there. [-]
    heat_capacity : str, optional
        How heavy it is built.
    bridges : str, optional
        How well corners and edges are made, for the surcharge on losses.
    internal_gains_w : float, optional
        Mean heat from people, lights and appliances. [W]
    between_zones_w_k : float, optional
        Heat that passes between the zones through stairs, doors and the floor. [W/K]
    hot_water_litres_day : float, optional
        Hot water used in a day, if measured. [L]
    hot_water_saving : bool
        Whether showers and taps are of the water-saving kind.
    heating_limit_c : float, optional
        No space heat on days milder than this; unknown means that the thermostat alone decides. [degC]
    radiator_margin : float
        What radiators can give over the design load, as a share. [-]
    past_fuel : tuple of PastFuel
        Fuel used in past spans.
    """

    zones: Annotated[tuple[Zone, ...], Asks("Zones", "Downstairs and upstairs, or one.")] = ()
    occupants: Annotated[
        float | None,
        Unit("-"),
        Ge(0.0),
        Le(30.0),
        Asks("People living there", "Unknown: from the floor area."),
    ] = None
    heat_capacity: Annotated[
        HeatCapacity | None,
        Asks("How heavy it is built", "Stone or brick inside: heavy. Timber frame: light."),
    ] = None
    bridges: Annotated[Bridges | None, Asks("Corners and edges", "Ordinary for old houses.")] = None
    internal_gains_w: Annotated[
        float | None,
        Unit("W"),
        Ge(0.0),
        Le(10000.0),
        Asks("Heat from people and appliances", "Mean over day and night; unknown: from people and area."),
    ] = None
    between_zones_w_k: Annotated[
        float | None,
        Unit("W/K"),
        Ge(0.0),
        Le(1000.0),
        Asks("Heat passing between zones", "Stairs, doors and floor; unknown: 100 W/K."),
    ] = None
    hot_water_litres_day: Annotated[
        float | None, Unit("L"), Ge(0.0), Le(3000.0), Asks("Hot water a day", "Only if measured.")
    ] = None
    hot_water_saving: Annotated[
        bool, Asks("Water-saving taps", "Showers and taps use no more than 125 l a person.")
    ] = False
    heating_limit_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(5.0),
        Le(25.0),
        Asks("Heating off when milder than", "Outdoor mean of three days; unknown: the thermostat decides."),
    ] = None
    radiator_margin: Annotated[
        float,
        Unit("-"),
        Ge(0.0),
        Le(2.0),
        Asks("Spare power of radiators", "For heating up after the night."),
    ] = 0.2
    past_fuel: Annotated[
        tuple[PastFuel, ...], Asks("Past fuel", "Best: whole years, tank full at both ends.")
    ] = ()

    def __post_init__(self) -> None:
        """More than two zones are not modelled."""
        if len(self.zones) > 2:
            raise OutOfRange(
                "zones", len(self.zones), "one or two", hint="join rooms kept alike into one zone"
            )
