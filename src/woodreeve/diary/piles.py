"""One pile of wood while the diary is being added up: what comes to it, what is taken, what it then is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from woodreeve.diary.amounts import UNKNOWN_WOOD, Mix
from woodreeve.diary.folded import Reading, StackContents, Stage

__all__ = ["LEAST_M3", "Lot", "Pile", "Span", "both_spans", "mix_of"]

LEAST_M3 = 1e-9
"""Less wood than this is none: what rounding leaves over."""

Span = tuple[date, date]


@dataclass(slots=True)
class Lot:
    """Wood on the move, with what is known of it."""

    by_species: dict[str, float]
    pieces: str = "split"
    log_cm: float | None = None
    felled: Span | None = None
    split: Span | None = None
    moisture: float | None = None

    @property
    def solid_m3(self) -> float:
        """How much."""
        return sum(self.by_species.values(), 0.0)


@dataclass(slots=True)
class Pile:
    """Wood at one place and stage."""

    stage: Stage
    place: str
    by_species: dict[str, float] = field(default_factory=dict)
    pieces: str = "split"
    log_cm: float | None = None
    felled: Span | None = None
    split: Span | None = None
    stacked_on: date | None = None
    cover: str | None = None
    covered_on: date | None = None
    counted_on: date | None = None
    first_on: date | None = None
    filled_on: date | None = None
    found_on: date | None = None
    """When a stock-take found it, if nobody logged how it came."""
    readings: list[Reading] = field(default_factory=list)
    carried_moisture: float | None = None
    as_measured: StackContents | None = None
    """The pile as it was when it was last measured."""
    former: list[StackContents] = field(default_factory=list)
    """Stacks that stood here before and were used up, each as it was when last measured."""

    @property
    def solid_m3(self) -> float:
        """How much it holds."""
        return sum(self.by_species.values(), 0.0)

    @property
    def empty(self) -> bool:
        """Whether nothing is left."""
        return self.solid_m3 < LEAST_M3

    @property
    def mix(self) -> Mix:
        """Shares of its species; a mixture of broadleaves where nobody has said."""
        return mix_of(self.by_species)

    @property
    def moisture(self) -> float | None:
        """Its last measured moisture, or else what was measured where its wood came from."""
        measured = (one.moisture for one in reversed(self.readings) if one.moisture is not None)
        return next(measured, self.carried_moisture)

    @property
    def under_cover_since(self) -> date | None:
        """Since when the wood that is in it now is under cover."""
        if self.covered_on is None or self.filled_on is None:
            return self.covered_on
        return max(self.covered_on, self.filled_on)

    def put(self, lot: Lot, on: date) -> None:
        """Add wood; an empty pile starts anew, what was known of the old wood is forgotten."""
        if self.empty:
            self.by_species = {}
            self.pieces, self.log_cm = lot.pieces, lot.log_cm
            self.felled = self.split = None
            self.readings = []
            if self.as_measured is not None:
                self.former.append(self.as_measured)
                self.as_measured = None
            self.carried_moisture = self.found_on = None
            self.filled_on = on
        for species, solid in lot.by_species.items():
            self.by_species[species] = self.by_species.get(species, 0.0) + solid
        self.log_cm = lot.log_cm or self.log_cm
        self.felled = both_spans(self.felled, lot.felled)
        self.split = both_spans(self.split, lot.split)
        self.carried_moisture = self.carried_moisture if lot.moisture is None else lot.moisture
        self.stacked_on = on
        self.first_on = self.first_on or on

    def take(self, solid_m3: float, wanted: Mapping[str, float]) -> tuple[Lot, float]:
        """Take wood out: of the wanted species as far as they are there, of all others in proportion.

        Parameters
        ----------
        solid_m3 : float
            How much. [m3]
        wanted : mapping
            Species and shares, if the entry names them; else empty.

        Returns
        -------
        lot : Lot
            What was taken; at most what there was.
        short : float
            How much more was wanted than there was. [m3]
        """
        held = self.solid_m3
        if solid_m3 >= held - LEAST_M3:
            lot = self._lot(self.by_species)
            self.by_species = {}
            return lot, max(solid_m3 - held, 0.0)
        taken: dict[str, float] = {}
        for species, share in wanted.items():
            part = min(self.by_species.get(species, 0.0), share * solid_m3)
            if part > 0.0:
                taken[species] = part
        rest = solid_m3 - sum(taken.values())
        left = {species: solid - taken.get(species, 0.0) for species, solid in self.by_species.items()}
        total = sum(left.values())
        if rest > LEAST_M3:
            for species, solid in left.items():
                part = solid * min(rest / total, 1.0)
                taken[species] = taken.get(species, 0.0) + part
                left[species] = solid - part
        self.by_species = {species: max(solid, 0.0) for species, solid in left.items() if solid > LEAST_M3}
        return self._lot({species: solid for species, solid in taken.items() if solid > 0.0}), 0.0

    def set_to(self, by_species: Mapping[str, float], on: date) -> None:
        """Believe a stock-take."""
        if self.empty and by_species:
            self.filled_on = on
            if self.first_on is None:
                self.found_on = on
            else:
                self.stacked_on = on
        self.by_species = {species: solid for species, solid in by_species.items() if solid > LEAST_M3}
        self.counted_on = on
        self.first_on = self.first_on or on

    def _lot(self, by_species: Mapping[str, float]) -> Lot:
        return Lot(dict(by_species), self.pieces, self.log_cm, self.felled, self.split, self.moisture)


def mix_of(by_species: Mapping[str, float]) -> Mix:
    """Shares of the solid volume, in the order of the names."""
    total = sum(by_species.values())
    if total < LEAST_M3:
        return ((UNKNOWN_WOOD, 1.0),)
    return tuple((species, by_species[species] / total) for species in sorted(by_species))


def both_spans(one: Span | None, other: Span | None) -> Span | None:
    """From the earlier beginning to the later end."""
    if one is None or other is None:
        return one or other
    return min(one[0], other[0]), max(one[1], other[1])
