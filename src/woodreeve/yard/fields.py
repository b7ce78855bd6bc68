"""What the owner tells of his yard: where wood lies, what he carries it in, and how he measures it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Annotated, Literal

from woodreeve.units import Asks, Ge, Gt, Le, Unit

__all__ = ["BoilerRoomStock", "Container", "MoistureMeter", "StackPlace", "Weighing", "WoodLimits", "Yard"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """One fill put on the scales: the best way to learn what a barrow holds."""

    kg: Annotated[float, Unit("kg"), Gt(0), Le(5000), Asks("Weight", "Wood alone, without the container.")]
    species: Annotated[str, Asks("Species", "What was in it; a group such as mixed_broadleaf will do.")] = (
        "mixed_broadleaf"
    )
    moisture: Annotated[
        float | None,
        Unit("-"),
        Ge(0.05),
        Le(0.65),
        Asks("Moisture", "Wet basis, measured on that day, if you did."),
    ] = None
    weighed_on: Annotated[date | None, Asks("Weighed on", "Day of the weighing.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Container:
    """One of the owner's own measures."""

    name: Annotated[str, Asks("Name of the measure", "For instance barrow.")]
    plural: Annotated[str | None, Asks("Several of them", "For instance barrows; unknown adds an s.")] = None
    litres: Annotated[
        float, Unit("L"), Gt(1), Le(20000), Asks("Litres", "Inside, filled as you usually fill it.")
    ]
    filled: Annotated[
        Literal["stacked", "loose"], Asks("How it is filled", "Logs laid side by side, or thrown in loose.")
    ] = "loose"
    log_length_cm: Annotated[
        float,
        Unit("cm"),
        Ge(10),
        Le(120),
        Asks("Length of the logs", "Short logs fill a container more closely."),
    ] = 33.0
    use: Annotated[
        Literal["boiler_fill", "carrying", "selling"],
        Asks("Used for", "The boiler's own fill, carrying, or selling."),
    ] = "carrying"
    weighings: Annotated[
        tuple[Weighing, ...], Asks("Weighings", "Fills you have weighed; three or more are worth having.")
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StackPlace:
    """A place where wood is stacked to dry."""

    name: Annotated[str, Asks("Name of the place", "As the diary names it.")]
    kind: Annotated[
        Literal["stack", "roadside"],
        Asks("What lies there", "Split wood stacked to dry, or roundwood waiting by the road."),
    ] = "stack"
    cover: Annotated[
        Literal["none", "top_sheet", "roof", "shed"] | None,
        Asks("Cover", "What keeps the rain off when it is covered: nothing, a sheet on top, a roof, a shed."),
    ] = None
    wind: Annotated[
        Literal["sheltered", "some", "windy"] | None, Asks("Wind", "How much wind reaches the stack.")
    ] = None
    sun: Annotated[
        Literal["shade", "half_day", "all_day"] | None, Asks("Sun", "How long the sun reaches it in summer.")
    ] = None
    ground: Annotated[
        Literal["soil", "stone", "pallets"] | None,
        Asks("Ground", "What it stands on; wood on soil rots from below."),
    ] = None
    holds_stacked_m3: Annotated[
        float | None, Unit("m3"), Gt(0), Le(5000), Asks("Room for", "Stacked cubic metres that fit there.")
    ] = None
    length_m: Annotated[
        float | None, Unit("m"), Gt(0), Le(200), Asks("Length", "Along the stack's face.")
    ] = None
    height_m: Annotated[
        float | None, Unit("m"), Gt(0), Le(6), Asks("Height", "Of the wood when the place is full.")
    ] = None
    rows: Annotated[int, Unit("-"), Ge(1), Le(20), Asks("Rows", "How many rows deep.")] = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class BoilerRoomStock:
    """The wood that stands ready by the boiler."""

    holds_stacked_m3: Annotated[
        float | None,
        Unit("m3"),
        Gt(0),
        Le(100),
        Asks("Room by the boiler", "Stacked cubic metres that fit by the boiler."),
    ] = None
    kindling_kg: Annotated[
        float | None,
        Unit("kg"),
        Gt(0),
        Le(500),
        Asks("Room for kindling", "Kilograms of kindling that fit there."),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureMeter:
    """A moisture meter and what is known of its truth."""

    name: Annotated[str, Asks("Name of the meter", "As the diary names it.")]
    basis: Annotated[
        Literal["dry", "wet"] | None,
        Asks(
            "What its number means",
            "Water over dry wood, or over wet wood; the manual says. Many pin meters show dry.",
        ),
    ] = None
    species_setting: Annotated[str | None, Asks("Species setting", "The setting you leave it on.")] = None
    temperature_corrected: Annotated[
        Literal["yes", "no"] | None,
        Asks("Corrects for temperature", "Whether it corrects by itself for the wood's temperature."),
    ] = None
    oven_checked_on: Annotated[
        date | None, Asks("Oven check on", "Day of the last check against wood dried in an oven.")
    ] = None
    oven_offset: Annotated[
        float | None,
        Unit("-"),
        Ge(-0.2),
        Le(0.2),
        Asks(
            "Reads too high by",
            "Meter minus oven at that check, as a share on the meter's basis; negative if too low.",
        ),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodLimits:
    """How wet is too wet: common practice, no published source; maker's and legal limits come first."""

    ideal: Annotated[
        float,
        Unit("-"),
        Ge(0.1),
        Le(0.3),
        Asks("Ideal", "At or below this wood burns as it should (wet basis)."),
    ] = 0.20
    fine: Annotated[
        float,
        Unit("-"),
        Ge(0.1),
        Le(0.35),
        Asks("Fine", "At or below this wood counts as dry enough (wet basis)."),
    ] = 0.25
    wet: Annotated[
        float, Unit("-"), Ge(0.1), Le(0.5), Asks("Too wet", "Above this wood is not burnt (wet basis).")
    ] = 0.30
    months_under_cover: Annotated[
        float,
        Unit("month"),
        Ge(1),
        Le(48),
        Asks("Months under cover", "Split wood lies covered this long before it is burnt."),
    ] = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Yard:
    """The yard and its measures."""

    places: Annotated[
        tuple[StackPlace, ...], Asks("Places", "Where wood lies: stacks, and roundwood by the road.")
    ] = ()
    containers: Annotated[
        tuple[Container, ...], Asks("Own measures", "Barrow, basket, crate, the boiler's fill.")
    ] = ()
    meters: Annotated[
        tuple[MoistureMeter, ...], Asks("Moisture meters", "Each meter with what is known of its truth.")
    ] = ()
    boiler_room: Annotated[
        BoilerRoomStock, Asks("Boiler-room stock", "Wood that stands ready by the boiler.")
    ] = field(default_factory=BoilerRoomStock)
    limits: Annotated[
        WoodLimits, Asks("Limits of moisture", "How wet is too wet, and how long wood must lie.")
    ] = field(default_factory=WoodLimits)
