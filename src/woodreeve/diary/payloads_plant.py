"""What entries about fire and plant say: lit, burnt, ash, sweeping, tests, the backup and its fuel."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated, Any, ClassVar, Literal

from woodreeve.diary.asked import Fault
from woodreeve.diary.payloads_wood import Amount, Money, Payload, Wood
from woodreeve.units import Asks, Ge, Gt, Le, Unit

__all__ = [
    "AsUsual",
    "AshOut",
    "BackupDelivery",
    "Burnt",
    "Checked",
    "Cleaned",
    "Correction",
    "Fitted",
    "Lit",
    "Meter",
    "Note",
    "Pressure",
    "Refilled",
    "Serviced",
    "Swept",
    "TankLevel",
    "Tested",
    "ToppedUp",
]

StoreTemperature = Annotated[float, Unit("degC"), Ge(0.0), Le(110.0)]
DoneBy = Literal["myself", "sweep", "fitter", "competent_person", "other"]
Result = Literal["good", "not_good", "not_known"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lit(Wood):
    """The boiler was lit."""

    amount_needed: ClassVar[bool] = False

    from_place: Annotated[str | None, Asks("Wood from", "Leave empty for the boiler room.")] = None
    store_top_c: Annotated[
        StoreTemperature | None, Asks("Store, top", "As the gauge shows it at lighting.")
    ] = None
    store_middle_c: Annotated[StoreTemperature | None, Asks("Store, middle")] = None
    store_bottom_c: Annotated[StoreTemperature | None, Asks("Store, bottom")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Refilled(Lit):
    """More wood was laid on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Burnt(Wood):
    """Wood used, told by the week or so and not by each fire."""

    from_place: Annotated[str | None, Asks("Wood from", "Leave empty for the boiler room.")] = None
    since: Annotated[
        date | None,
        Asks(
            "Since", "All that was used since this day, fires logged meanwhile included; empty: beside them."
        ),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AsUsual(Amount):
    """The answer to "as usual since Monday?"."""

    amount_needed: ClassVar[bool] = False

    since: Annotated[date, Asks("Since", "The first day on which nothing was logged.")]
    answer: Annotated[Literal["as_usual", "no_fires"], Asks("As usual", "Or were there no fires at all?")] = (
        "as_usual"
    )
    from_place: Annotated[str | None, Asks("Wood from", "Leave empty for the boiler room.")] = None

    def faults(self) -> Iterator[Fault]:
        """No wood is used where there was no fire."""
        yield from Amount.faults(self)
        if self.answer == "no_fires" and self.ways():
            yield Fault("answer", f"answer is no_fires, but {self.ways()[0]} is given: tell one of the two.")


@dataclass(frozen=True, slots=True, kw_only=True)
class AshOut(Payload):
    """Ash taken out."""

    litres: Annotated[
        float | None, Unit("L"), Gt(0.0), Le(2000.0), Asks("Litres", "About, by the bucket.")
    ] = None
    mass_kg: Annotated[float | None, Unit("kg"), Gt(0.0), Le(2000.0), Asks("Weight")] = None
    went_to: Annotated[
        Literal["kept_outdoors", "garden", "compost", "rubbish", "other"],
        Asks("Where it went", "Cold ash only."),
    ] = "kept_outdoors"


@dataclass(frozen=True, slots=True, kw_only=True)
class Swept(Payload):
    """The chimney was swept."""

    who: Annotated[DoneBy, Asks("By whom")] = "sweep"
    name: Annotated[str | None, Asks("Name", "Of the sweep or firm.")] = None
    certificate: Annotated[str | None, Asks("Certificate", "Its number.")] = None
    found: Annotated[str | None, Asks("Found", "Tar, nests, cracks.")] = None
    cost: Annotated[Money | None, Asks("Cost")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cleaned(Payload):
    """Something was cleaned."""

    what: Annotated[
        Literal[
            "flueways",
            "weekly_clean",
            "yearly_clean",
            "burning_chamber",
            "fan",
            "flue_pipe",
            "probe",
            "other",
        ],
        Asks("What"),
    ]
    lever_strokes: Annotated[
        int | None, Unit("-"), Gt(0), Le(1000), Asks("Lever strokes", "Of the flueway cleaner.")
    ] = None
    hours: Annotated[float | None, Unit("h"), Gt(0.0), Le(100.0), Asks("Hours", "Your time.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Serviced(Payload):
    """Boiler, backup or something else was serviced."""

    what: Annotated[Literal["log_boiler", "backup", "store", "pumps", "other"], Asks("What")] = "log_boiler"
    who: Annotated[DoneBy, Asks("By whom")] = "fitter"
    name: Annotated[str | None, Asks("Name", "Of the person or firm.")] = None
    hours_run: Annotated[
        float | None, Unit("h"), Ge(0.0), Le(1e6), Asks("Hours run", "By the boiler's counter.")
    ] = None
    cost: Annotated[Money | None, Asks("Cost")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested(Payload):
    """A safety device was tested."""

    what: Annotated[
        Literal[
            "heat_escape",
            "safety_valve",
            "co_alarm",
            "smoke_alarm",
            "vessel_pressure",
            "moisture_meter",
            "chimney",
            "door_seal",
            "pumps_and_valves",
            "other",
        ],
        Asks("What", "Which device."),
    ]
    result: Annotated[Result, Asks("Result")] = "good"
    who: Annotated[DoneBy, Asks("By whom", "Heat escape and safety valve: a competent person.")] = "myself"
    value: Annotated[float | None, Unit("-"), Ge(-1e6), Le(1e6), Asks("Value", "If it has one.")] = None
    unit: Annotated[str | None, Asks("Unit", "Of the value, such as bar.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked(Payload):
    """A short list was gone through, before a fire or at the season's ends."""

    what: Annotated[
        Literal["before_lighting", "before_first_fire", "after_last_fire"], Asks("Which list")
    ] = "before_lighting"
    skipped: Annotated[tuple[str, ...], Asks("Left out", "What was not done.")] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted(Payload):
    """A part that wears was renewed."""

    part: Annotated[
        Literal[
            "door_rope",
            "nozzle",
            "bricks",
            "fan_wheel",
            "oxygen_probe",
            "return_valve",
            "pump",
            "anode",
            "co_alarm",
            "expansion_vessel",
            "safety_valve",
            "other",
        ],
        Asks("Part"),
    ]
    hours_run: Annotated[
        float | None, Unit("h"), Ge(0.0), Le(1e6), Asks("Hours run", "By the boiler's counter.")
    ] = None
    cost: Annotated[Money | None, Asks("Cost")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupDelivery(Payload):
    """Fuel for the backup was delivered."""

    fuel: Annotated[Literal["oil", "lpg", "gas", "pellets", "electricity", "other"], Asks("Fuel")]
    litres: Annotated[float | None, Unit("L"), Gt(0.0), Le(100_000.0), Asks("Litres")] = None
    mass_kg: Annotated[float | None, Unit("kg"), Gt(0.0), Le(100_000.0), Asks("Kilograms")] = None
    energy_kwh: Annotated[float | None, Unit("kWh"), Gt(0.0), Le(1e6), Asks("Kilowatt-hours")] = None
    price: Annotated[Money | None, Asks("Price", "For all of it.")] = None
    supplier: Annotated[str | None, Asks("Supplier")] = None
    tank: Annotated[str | None, Asks("Tank", "If there are several.")] = None

    def faults(self) -> Iterator[Fault]:
        """How much, in one way."""
        ways = [way for way in ("litres", "mass_kg", "energy_kwh") if getattr(self, way) is not None]
        if len(ways) != 1:
            yield Fault("litres", "litres, mass_kg or energy_kwh is to be given: one of the three.")


@dataclass(frozen=True, slots=True, kw_only=True)
class TankLevel(Payload):
    """What the backup's tank holds."""

    tank: Annotated[str | None, Asks("Tank", "If there are several.")] = None
    litres: Annotated[float | None, Unit("L"), Ge(0.0), Le(100_000.0), Asks("Litres")] = None
    share: Annotated[
        float | None, Unit("-"), Ge(0.0), Le(1.0), Asks("Part full", "As the gauge shows it; 35 % is 0.35.")
    ] = None
    height_cm: Annotated[float | None, Unit("cm"), Ge(0.0), Le(1000.0), Asks("Height", "By the stick.")] = (
        None
    )

    def faults(self) -> Iterator[Fault]:
        """How much, in one way."""
        ways = [way for way in ("litres", "share", "height_cm") if getattr(self, way) is not None]
        if len(ways) != 1:
            yield Fault("litres", "litres, share or height_cm is to be given: one of the three.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Meter(Payload):
    """A meter was read."""

    meter: Annotated[str, Asks("Meter", "Which one.")]
    reading: Annotated[float, Unit("-"), Ge(0.0), Le(1e9), Asks("Reading", "As it stands on the meter.")]
    unit: Annotated[Literal["kWh", "MWh", "m3", "L", "h"], Asks("Unit", "As printed on the meter.")] = "kWh"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressure(Payload):
    """The pressure of the heating water was read."""

    pressure_bar: Annotated[float, Unit("bar"), Ge(0.0), Le(20.0), Asks("Pressure")]
    water_temperature_c: Annotated[
        StoreTemperature | None, Asks("Water temperature", "Pressure rises with it.")
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToppedUp(Payload):
    """Heating water was topped up."""

    litres: Annotated[
        float | None, Unit("L"), Gt(0.0), Le(20_000.0), Asks("Litres", "By the meter or about.")
    ] = None
    before_bar: Annotated[float | None, Unit("bar"), Ge(0.0), Le(20.0), Asks("Pressure before")] = None
    after_bar: Annotated[float | None, Unit("bar"), Ge(0.0), Le(20.0), Asks("Pressure after")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Payload):
    """Something to remember that fits no other kind."""

    text: Annotated[str, Asks("Text")]
    place: Annotated[str | None, Asks("About", "Stack, boiler, part of the woodland.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction(Payload):
    """An earlier entry put right, or struck out."""

    target: Annotated[str, Asks("Entry", "The id of the first entry, not of an earlier correction.")]
    void: Annotated[bool, Asks("Strike out", "It never happened.")] = False
    form: Annotated[int, Unit("-"), Ge(1), Le(1000), Asks("Form", "Version of the new fields.")] = 1
    payload: Annotated[
        Mapping[str, Any] | None, Asks("New fields", "All of them, not only what changed.")
    ] = None
    happened: Annotated[datetime | None, Asks("Happened", "If the date was wrong too.")] = None
    seen: Annotated[
        str | None, Asks("Seen", "The id of the last correction known when this one was made.")
    ] = None
    also_seen: Annotated[tuple[str, ...], Asks("Also seen", "Other corrections that this one settles.")] = ()

    def faults(self) -> Iterator[Fault]:
        """A new payload or a strike-out, and not both."""
        if self.void == (self.payload is not None):
            yield Fault("payload", "payload is to be given whole, or void set: one of the two.")
