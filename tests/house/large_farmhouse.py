"""A large old house and a climate, chosen once from the tables, before the first run, and not changed since.

The check it serves is common practice, no published source: an owner of such a house burns 25 t of logs at
25 % moisture to 30 t at 20 % through a 45 kW boiler in a year, 80 % net, that is 75 to 98 MWh of useful heat.

Why these figures:

- 450 m2 on two floors, 25 m by 9 m, rooms 2.6 m high: the size of house that a 45 kW boiler is bought for.
- Sandstone 600 mm (RdSAP 2012 formula): bare plaster downstairs, lath and plaster upstairs, as usual.
- 54 m2 of windows (12 % of the floor), half still single, half double from the 1980s; two thirds of
  them on the long sides (south and north), a third east and west. Three wooden doors of 2 m2.
- Loft with 100 mm, old solid floor (0.65, the middle of the table's range), corners ``ordinary``.
- Draughts: downstairs ``draughty`` (1.5 an hour), upstairs ``ordinary`` (1.0).
- 20 °C downstairs and 18 °C upstairs, 16 °C from 22 to 6; five people; heavy walls; the rest left unknown.
- Climate: SAP 2009 Table 8 UK-average temperatures (the row HIT-4 of the sheet), with SAP's UK-average
  sun (Table 6a, W/m2: from memory), made into hours by ``typical_year`` with its defaults, seed 0.
"""

from woodreeve.house.describe import Element, House, Zone
from woodreeve.weather.series import DAYS_IN_MONTH
from woodreeve.weather.typical import Normals

UK_MEAN_C = (4.5, 5.0, 6.8, 8.7, 11.7, 14.6, 16.9, 16.9, 14.3, 10.8, 7.0, 4.9)
UK_SUN_W_M2 = (26.0, 54.0, 94.0, 150.0, 190.0, 201.0, 194.0, 164.0, 116.0, 68.0, 33.0, 21.0)

CLIMATE = Normals(
    temperature_c=UK_MEAN_C,
    sun_kwh_m2=tuple(w * 24 * days / 1000 for w, days in zip(UK_SUN_W_M2, DAYS_IN_MONTH, strict=True)),
    latitude_deg=53.0,
    longitude_deg=-2.0,
    source="SAP 2009 Table 8 and Table 6a, UK average",
)


def _windows() -> tuple[Element, ...]:
    """27 m2 on each floor: one half of each side single, one half double."""
    sides = (("south", 9.0), ("north", 9.0), ("east", 4.5), ("west", 4.5))
    return tuple(
        Element(kind="window", area_m2=area / 2, construction=glass, faces=side)
        for side, area in sides
        for glass in ("single_glazing", "double_glazing_old")
    )


DOWNSTAIRS = Zone(
    name="downstairs",
    floor_area_m2=225.0,
    ceiling_m=2.6,
    elements=(
        Element(kind="wall", area_m2=68 * 2.6 - 27 - 6, construction="sandstone", thickness_mm=600.0),
        Element(kind="floor", area_m2=225.0, construction="floor_old", adjoins="ground"),
        Element(kind="door", area_m2=6.0, construction="wooden_door"),
        *_windows(),
    ),
    draughts="draughty",
    wanted_c=20.0,
    setback_c=16.0,
)

UPSTAIRS = Zone(
    name="upstairs",
    floor_area_m2=225.0,
    ceiling_m=2.6,
    elements=(
        Element(kind="wall", area_m2=68 * 2.6 - 27, construction="sandstone", thickness_mm=600.0, lined=True),
        Element(kind="roof", area_m2=225.0, construction="loft_100"),
        *_windows(),
    ),
    draughts="ordinary",
    wanted_c=18.0,
    setback_c=16.0,
)

HOUSE = House(zones=(DOWNSTAIRS, UPSTAIRS), occupants=5.0, heat_capacity="heavy", bridges="ordinary")
