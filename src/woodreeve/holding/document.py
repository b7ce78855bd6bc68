"""The holding: one house with its plant, yard, woodland and customers, as its owner describes it.

It is put together from the dataclasses of the domain, so each thing is defined once. A holding is one
version of a description; the records keep the versions and say from when each is true.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Annotated, Literal, TypeAlias

from woodreeve.errors import WrongKind
from woodreeve.firing.fields import Wishes
from woodreeve.house.describe import House
from woodreeve.money.fields import Prices
from woodreeve.plant.fields import Plant
from woodreeve.supply.fields import Supply
from woodreeve.units import Asks, Ge, Le, Unit
from woodreeve.weather.typical import Normals
from woodreeve.woodland.fields import Woodland
from woodreeve.yard.fields import Yard

__all__ = ["Climate", "Holding", "Measures", "Nation", "Place"]

Nation: TypeAlias = Literal[
    "england",
    "wales",
    "scotland",
    "northern_ireland",
    "ireland",
    "germany",
    "austria",
    "switzerland",
    "other",
]
"""Whose rules hold; elsewhere every legal verdict is "not known"."""

_ZONES = {
    "ireland": "Europe/Dublin",
    "germany": "Europe/Berlin",
    "austria": "Europe/Vienna",
    "switzerland": "Europe/Zurich",
    "other": "UTC",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the house stands."""

    nation: Annotated[
        Nation | None,
        Asks("Nation", "Whose rules on fires, felling and selling hold; other if none of these."),
    ] = None
    zone: Annotated[
        str | None,
        Asks("Time zone", "As computers name it, for instance Europe/London; unknown follows the nation."),
    ] = None
    latitude_deg: Annotated[
        float | None,
        Unit("deg"),
        Ge(-66),
        Le(72),
        Asks("Latitude", "Degrees north of the equator; a map tells it."),
    ] = None
    longitude_deg: Annotated[
        float | None,
        Unit("deg"),
        Ge(-180),
        Le(180),
        Asks("Longitude", "Degrees east of Greenwich; west is negative."),
    ] = None
    elevation_m: Annotated[
        float | None, Unit("m"), Ge(-420), Le(4500), Asks("Height above the sea", "Of the house, in metres.")
    ] = None
    setting: Annotated[
        Literal["sheltered", "normal", "exposed"] | None, Asks("Setting", "How much wind reaches the house.")
    ] = None
    whose_word: Annotated[
        str | None,
        Asks("Whose word", "Who gave this description, for the file: the owner, a surveyor, a tenant."),
    ] = None

    @property
    def zone_name(self) -> str:
        """The time zone given, or else the one of the nation."""
        return self.zone or _ZONES.get(self.nation or "other", "Europe/London")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """The measures the owner likes to read; formulas are not touched by them."""

    temperature: Annotated[Literal["C", "F"], Asks("Temperatures in", "Celsius or Fahrenheit.")] = "C"
    energy: Annotated[Literal["kWh", "MJ"], Asks("Heat in", "Kilowatt hours or megajoules.")] = "kWh"
    volume: Annotated[
        Literal["stacked_m3", "loose_m3", "cord"],
        Asks("Wood by volume in", "Stacked or loose cubic metres, or cords of 128 cubic feet."),
    ] = "stacked_m3"
    mass: Annotated[Literal["t", "kg"], Asks("Wood by weight in", "Tonnes or kilograms.")] = "t"


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """The usual weather: a weather file, or twelve monthly normals of each element."""

    weather_file: Annotated[
        str | None, Asks("Weather file", "Name of an hourly weather file you have given to woodreeve.")
    ] = None
    normals: Annotated[
        Normals | None, Asks("Monthly normals", "Twelve means of each element, January to December.")
    ] = None
    design_c: Annotated[
        float | None,
        Unit("degC"),
        Ge(-45),
        Le(15),
        Asks(
            "Design outdoor temperature",
            "The cold that heating is sized for here, from the national annex or a fitter.",
        ),
    ] = None
    forecast: Annotated[
        Literal["off", "met_norway", "open_meteo"],
        Asks(
            "Forecast from",
            "Off: nothing is asked. MET Norway: any use. Open-Meteo: only if you sell no wood "
            "(non-commercial use). Either learns where you are to about 1 km.",
        ),
    ] = "off"
    forecast_contact: Annotated[
        str | None,
        Asks(
            "Your contact for it",
            "An e-mail address or web page; sent with each request. MET Norway refuses callers without one.",
        ),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """A whole holding, in one version."""

    name: Annotated[
        str, Asks("Short name", "Lower-case letters, digits and hyphens; commands and addresses use it.")
    ]
    title: Annotated[str | None, Asks("Name", "What the place is called on pages and papers.")] = None
    description: Annotated[str | None, Asks("In a sentence", "A line about the place, for the papers.")] = (
        None
    )
    place: Annotated[Place, Asks("Place", "Where the house stands and whose rules hold.")] = field(
        default_factory=Place
    )
    measures: Annotated[Measures, Asks("Preferred measures", "How you like to read figures.")] = field(
        default_factory=Measures
    )
    climate: Annotated[Climate, Asks("Climate", "The usual weather, month by month.")] = field(
        default_factory=Climate
    )
    house: Annotated[House, Asks("House", "What loses heat, and who lives there.")] = field(
        default_factory=House
    )
    plant: Annotated[Plant, Asks("Heating plant", "Boiler, store, backup, circuits and their safety.")] = (
        field(default_factory=Plant)
    )
    yard: Annotated[Yard, Asks("Yard", "Stacks, own measures and moisture meters.")] = field(
        default_factory=Yard
    )
    woodland: Annotated[Woodland, Asks("Woodland", "Compartments and felling licences.")] = field(
        default_factory=Woodland
    )
    supply: Annotated[Supply, Asks("Selling wood", "Customers and what was agreed.")] = field(
        default_factory=Supply
    )
    prices: Annotated[Prices, Asks("Prices", "What fuels, hours and the plant cost.")] = field(
        default_factory=Prices
    )
    wishes: Annotated[Wishes, Asks("Wishes", "When you can tend the fire and what matters to you.")] = field(
        default_factory=Wishes
    )

    def __post_init__(self) -> None:
        if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,59}", self.name):
            raise WrongKind("name", self.name, "lower-case letters, digits and hyphens, at most 60 of them")

    @property
    def called(self) -> str:
        """What pages and papers call the place."""
        return self.title or self.name

    def normals(self) -> Normals | None:
        """The monthly normals, placed at the house where they do not say where they are from."""
        means = self.climate.normals
        if means is None:
            return None
        return replace(
            means,
            latitude_deg=self.place.latitude_deg if means.latitude_deg is None else means.latitude_deg,
            longitude_deg=self.place.longitude_deg if means.longitude_deg is None else means.longitude_deg,
            elevation_m=self.place.elevation_m if means.elevation_m is None else means.elevation_m,
        )
