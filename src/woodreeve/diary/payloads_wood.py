"""What entries about wood say: felled, split, stacked, measured, counted, moved, sold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Annotated, ClassVar, Literal

from woodreeve.diary.asked import Fault, asked_fields
from woodreeve.units import Asks, Ge, Gt, Le, Moisture, Share, Unit

__all__ = [
    "Amount",
    "Bought",
    "BroughtIn",
    "Counted",
    "CountedRow",
    "Covered",
    "Extracted",
    "Felled",
    "GivenAway",
    "Measured",
    "Moved",
    "OvenSample",
    "Payload",
    "Pieces",
    "Sold",
    "Split",
    "Spoiled",
    "Stacked",
    "Uncovered",
    "Weighed",
    "Wood",
]

Pieces = Literal["roundwood", "rounds", "split"]
"""Long logs as they come from the woodland, short logs in the round, or split logs."""

Volume = Annotated[float, Unit("m3"), Gt(0.0), Le(20_000.0)]
Length = Annotated[float, Unit("m"), Gt(0.0), Le(200.0)]
LogLength = Annotated[float, Unit("cm"), Ge(5.0), Le(1500.0)]
Kilos = Annotated[float, Unit("kg"), Gt(0.0), Le(1e7)]
Money = Annotated[float, Unit("money"), Ge(0.0), Le(1e7)]
Shown = Annotated[float, Unit("%"), Ge(0.0), Le(250.0)]


_ONE_WAY = "tell the amount in one way only."


@dataclass(frozen=True, slots=True, kw_only=True)
class Payload:
    """What every entry may say beside its own fields."""

    note: Annotated[str | None, Asks("Note", "Anything worth remembering.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount(Payload):
    """How much wood, in one of the ways in which it is told."""

    amount_needed: ClassVar[bool] = True

    count: Annotated[
        float | None, Unit("-"), Gt(0.0), Le(10_000.0), Asks("How many", "Fills of the container.")
    ] = None
    container: Annotated[
        str | None, Asks("Container", "One of your own: barrow, basket, crate, boiler fill.")
    ] = None
    stacked_m3: Annotated[
        Volume | None, Asks("Stacked volume", "Length x height x log length of a stack.")
    ] = None
    solid_m3: Annotated[
        Volume | None, Asks("Solid volume", "Wood without the air between, as logs are measured.")
    ] = None
    loose_m3: Annotated[Volume | None, Asks("Loose volume", "Tipped, not stacked.")] = None
    mass_kg: Annotated[Kilos | None, Asks("Weight", "As weighed, water included.")] = None

    def ways(self) -> tuple[str, ...]:
        """The ways in which an amount is told here: at most one may be."""
        told = {
            "count": self.count,
            "stacked_m3": self.stacked_m3,
            "solid_m3": self.solid_m3,
            "loose_m3": self.loose_m3,
            "mass_kg": self.mass_kg,
        }
        return tuple([way for way, amount in told.items() if amount is not None])

    def faults(self) -> Iterator[Fault]:
        """See to it that the amount is told in one way, and in one only."""
        ways = self.ways()
        if len(ways) > 1:
            yield Fault(
                ways[1], f"{_called(self, ways[1])} is given beside {_called(self, ways[0])}: {_ONE_WAY}"
            )
        if not ways and self.amount_needed:
            yield Fault("count", "count is missing: say how much, in containers, cubic metres or kilograms.")
        if self.count is not None and self.container is None:
            yield Fault("container", "container is missing: say what was counted.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood(Amount):
    """How much of which wood."""

    species: Annotated[
        str | None, Asks("Species", "English or Latin name, or mixed broadleaf, mixed conifer.")
    ] = None
    mix: Annotated[Mapping[str, Share] | None, Asks("Mixture", "Share of each species; together 1.")] = None
    log_cm: Annotated[LogLength | None, Asks("Log length", "Length of one piece.")] = None
    moisture: Annotated[
        Moisture | None, Asks("Moisture", "Water over the weight as it is; 20 % is 0.20.")
    ] = None

    def faults(self) -> Iterator[Fault]:
        """Check the amount, and that a mixture is whole."""
        yield from Amount.faults(self)
        if self.mix is not None:
            if self.species is not None:
                yield Fault("mix", "mix is given beside species: tell one of the two.")
            if abs(sum(self.mix.values()) - 1.0) > 0.02:
                yield Fault(
                    "mix", f"mix adds up to {sum(self.mix.values()):g}, but its shares must add up to 1."
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Felled(Wood):
    """Trees felled; they lie in the wood until they are brought out."""

    amount_needed: ClassVar[bool] = False

    compartment: Annotated[str, Asks("Compartment", "Where in the woodland.")]
    trees: Annotated[int | None, Unit("-"), Gt(0), Le(100_000), Asks("Trees", "How many stems.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Extracted(Wood):
    """Wood brought out of the woodland to the roadside."""

    place: Annotated[str, Asks("To", "Where at the roadside it lies now.")]
    compartment: Annotated[str | None, Asks("From compartment", "Leave empty if it is from several.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought(Wood):
    """Wood bought, as roundwood or as logs."""

    place: Annotated[str, Asks("To", "Where it lies now.")]
    pieces: Annotated[Pieces, Asks("Pieces", "Roundwood, short rounds or split logs.")] = "split"
    seller: Annotated[str | None, Asks("From whom")] = None
    price: Annotated[Money | None, Asks("Price", "For all of it, delivered.")] = None
    felled_on: Annotated[date | None, Asks("Felled on", "If the seller knows.")] = None
    split_on: Annotated[date | None, Asks("Split on", "If the seller knows.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Split(Wood):
    """Wood split (or cut and split); it goes to a stack, or waits on the heap to be stacked."""

    from_place: Annotated[str | None, Asks("From", "The roadside pile or stack it was taken from.")] = None
    to_place: Annotated[
        str | None,
        Asks("To stack", "Leave empty if you log the stacking by itself; it then waits on the heap."),
    ] = None
    pieces: Annotated[Pieces, Asks("Pieces", "What it is now.")] = "split"
    hours: Annotated[float | None, Unit("h"), Gt(0.0), Le(500.0), Asks("Hours", "Your time.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedRow:
    """One row of a stack as measured with the tape."""

    length_m: Annotated[Length, Asks("Length", "Along the row.")]
    height_m: Annotated[
        Annotated[float, Unit("m"), Gt(0.0), Le(10.0)], Asks("Height", "Mean of a few places.")
    ]
    log_cm: Annotated[LogLength, Asks("Log length", "The depth of the row.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stacked(Wood):
    """Wood stacked: from a pile that is named, from the heap of split wood, or from nowhere known."""

    amount_needed: ClassVar[bool] = False

    place: Annotated[str, Asks("Stack", "Where it stands now.")]
    from_place: Annotated[str | None, Asks("From", "Leave empty for the heap of split wood.")] = None
    pieces: Annotated[Pieces, Asks("Pieces", "Split or in the round.")] = "split"
    rows: Annotated[
        tuple[CountedRow, ...], Asks("Rows", "Length x height x log length, in place of an amount.")
    ] = ()
    split_on: Annotated[date | None, Asks("Split on", "If it was not logged by itself.")] = None
    felled_on: Annotated[date | None, Asks("Felled on", "If it was not logged by itself.")] = None

    def faults(self) -> Iterator[Fault]:
        """Check the amount: in rows, or in one other way."""
        yield from Wood.faults(self)
        yield from _rows_or_amount(self, self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved(Wood):
    """Wood moved from one place to another; all of it where no amount is told."""

    amount_needed: ClassVar[bool] = False

    from_place: Annotated[str, Asks("From", "Stack or roadside pile.")]
    to_place: Annotated[str, Asks("To", "Stack.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class BroughtIn(Wood):
    """Wood brought into the boiler room."""

    from_place: Annotated[str | None, Asks("From", "Which stack.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Covered(Payload):
    """A stack got its cover."""

    place: Annotated[str, Asks("Stack")]
    cover: Annotated[
        Literal["roof", "sheet", "boards", "shed", "other"], Asks("Cover", "What lies over it.")
    ] = "sheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Uncovered(Payload):
    """A stack lost its cover, by hand or by the wind."""

    place: Annotated[str, Asks("Stack")]


@dataclass(frozen=True, slots=True, kw_only=True)
class OvenSample:
    """A piece weighed, dried in the oven and weighed again."""

    wet_g: Annotated[
        float, Unit("g"), Gt(0.0), Le(50_000.0), Asks("Before", "Weight as it came from the stack.")
    ]
    dry_g: Annotated[float, Unit("g"), Gt(0.0), Le(50_000.0), Asks("After", "Weight after drying at 105 °C.")]
    dry_again_g: Annotated[
        float | None,
        Unit("g"),
        Gt(0.0),
        Le(50_000.0),
        Asks("Once more", "Weight after more time in the oven; shows whether drying was complete."),
    ] = None

    def faults(self) -> Iterator[Fault]:
        """No piece gains weight in the oven."""
        for name, weight in (("dry_g", self.dry_g), ("dry_again_g", self.dry_again_g)):
            if weight is not None and weight > self.wet_g:
                yield Fault(
                    name, f"{name} is {weight:g} g, but must be at most the {self.wet_g:g} g before drying."
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured(Payload):
    """Moisture measured, by meter or by oven: several pieces, one after another."""

    place: Annotated[str, Asks("Where", "Stack, roadside pile or boiler room.")]
    shown_percent: Annotated[tuple[Shown, ...], Asks("Values", "As the meter shows them.")] = ()
    over_range: Annotated[
        int | None,
        Unit("-"),
        Gt(0),
        Le(500),
        Asks("Beyond the meter", "Pieces wetter than the meter can show."),
    ] = None
    range_top_percent: Annotated[Shown | None, Asks("Meter's upper end", "The most it can show.")] = None
    oven: Annotated[tuple[OvenSample, ...], Asks("Oven samples", "Weigh, dry, weigh.")] = ()
    meter: Annotated[str | None, Asks("Meter", "Which one.")] = None
    basis: Annotated[
        Literal["wet", "dry", "not_known"],
        Asks("Basis", "Does the meter show water over wet weight, or over dry weight?"),
    ] = "not_known"
    species: Annotated[str | None, Asks("Species", "Of the pieces measured.")] = None
    species_setting: Annotated[str | None, Asks("Meter set to", "The meter's own species or group.")] = None
    wood_temperature_c: Annotated[
        float | None, Unit("degC"), Ge(-40.0), Le(60.0), Asks("Wood temperature", "Cold wood reads low.")
    ] = None
    temperature_corrected: Annotated[bool | None, Asks("Meter corrects for temperature")] = None
    spot: Annotated[
        Literal["fresh_split_face", "outside", "end_grain", "not_known"],
        Asks("Where on the piece", "Best is a fresh face, split just now."),
    ] = "not_known"

    def faults(self) -> Iterator[Fault]:
        """See to it that something was measured."""
        if not self.shown_percent and not self.oven and self.over_range is None:
            yield Fault(
                "shown_percent", "shown_percent is missing: give at least one value, or an oven sample."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed(Payload):
    """A full container weighed, or a marker piece that stays in the stack."""

    gross_kg: Annotated[Kilos, Asks("Weight", "As the scales show it.")]
    empty_kg: Annotated[
        float,
        Unit("kg"),
        Ge(0.0),
        Le(5000.0),
        Asks("Empty container", "Taken off the weight; 0 for a bare piece."),
    ] = 0.0
    container: Annotated[str | None, Asks("Container", "Which of your own.")] = None
    marker: Annotated[str | None, Asks("Marker piece", "The name written on it.")] = None
    place: Annotated[str | None, Asks("Stack", "Where the wood is from, or where the piece lies.")] = None
    species: Annotated[str | None, Asks("Species")] = None
    moisture: Annotated[Moisture | None, Asks("Moisture", "If measured now; 20 % is 0.20.")] = None
    dry_kg: Annotated[
        Kilos | None, Asks("Dry weight", "Of a marker piece, once it is known from the oven.")
    ] = None

    def faults(self) -> Iterator[Fault]:
        """A container or a marker piece, and something in it."""
        if (self.container is None) == (self.marker is None):
            yield Fault("container", "container is to be given, or marker: one of the two.")
        if self.empty_kg >= self.gross_kg:
            yield Fault(
                "empty_kg",
                f"empty_kg is {self.empty_kg:g} kg, but must be less than gross_kg, {self.gross_kg:g} kg.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted(Wood):
    """A stock-take: what is really there, whatever the diary made of it."""

    amount_needed: ClassVar[bool] = False

    place: Annotated[str, Asks("Where", "Stack, roadside pile or boiler room.")]
    rows: Annotated[tuple[CountedRow, ...], Asks("Rows", "Length x height x log length of each row.")] = ()
    nothing_left: Annotated[bool, Asks("Nothing left", "The place is empty.")] = False
    pieces: Annotated[Pieces | None, Asks("Pieces", "If the diary does not know it.")] = None

    def faults(self) -> Iterator[Fault]:
        """Check the amount: in rows, in one other way, or nothing left."""
        yield from Wood.faults(self)
        if self.nothing_left:
            if self.rows or self.ways():
                yield Fault(
                    "nothing_left", "nothing_left is ticked, but an amount is given: tell one of the two."
                )
        else:
            yield from _rows_or_amount(self, self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoiled(Wood):
    """Wood lost: rotten, stolen, given to the beetles; all of it where no amount is told."""

    amount_needed: ClassVar[bool] = False

    place: Annotated[str, Asks("Where", "Stack or roadside pile.")]
    why: Annotated[Literal["rotten", "stolen", "insects", "fire", "other"], Asks("Why")] = "rotten"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sold(Wood):
    """Wood sold."""

    place: Annotated[str, Asks("From", "Which stack.")]
    customer: Annotated[str | None, Asks("Customer", "By the short name in your list.")] = None
    price: Annotated[Money | None, Asks("Price", "For all of it.")] = None
    paid: Annotated[bool | None, Asks("Paid")] = None
    delivered_on: Annotated[date | None, Asks("Delivered on", "If on another day.")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenAway(Wood):
    """Wood given away, or swapped."""

    place: Annotated[str, Asks("From", "Which stack.")]
    to_whom: Annotated[str | None, Asks("To whom")] = None


def _called(told: Payload, name: str) -> str:
    """A field by its key, and as a form calls it."""
    label = next(field.label for field in asked_fields(type(told)) if field.name == name)
    return f"{name} ({label.lower()})"


def _rows_or_amount(told: Amount, rows: tuple[CountedRow, ...]) -> Iterator[Fault]:
    ways = told.ways()
    if rows and ways:
        yield Fault("rows", f"rows is given beside {_called(told, ways[0])}: {_ONE_WAY}")
    if not rows and not ways:
        yield Fault("rows", "rows is missing: give length, height and log length, or another amount.")
