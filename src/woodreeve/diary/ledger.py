"""The books behind the fold: every pile of wood, and each movement between them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from woodreeve.diary.amounts import ASSUMED_MOISTURE, UNKNOWN_WOOD, ContainerSize, Measures, Mix, form_of
from woodreeve.diary.findings import Finding, FindingKind
from woodreeve.diary.folded import Event, Flow, Reading, StackContents, Stage
from woodreeve.diary.payloads_wood import Amount, CountedRow, Wood
from woodreeve.diary.piles import Lot, Pile, Span, both_spans, mix_of
from woodreeve.diary.weighings import Weighing, place_key, species_key

__all__ = ["BOILER_ROOM", "HEAP", "Ledger"]

BOILER_ROOM = "boiler room"
"""The place of the stock beside the boiler, as entries call it."""

HEAP = "heap"
"""The place of wood that is split and not yet stacked, as entries call it."""

NOTICED_M3 = 1e-6
"""More than this too much is told: a litre of wood is a thousand times as much."""

_FIXED: Mapping[str, Stage] = {BOILER_ROOM: "boiler_room", HEAP: "heap"}


Figures = Mapping[str, float]
NO_FIGURES: Figures = MappingProxyType({})


class Ledger:
    """Piles, amounts, movements and findings while the diary is being added up.

    Parameters
    ----------
    containers : sequence of ContainerSize
        The owner's containers.
    weighed : mapping
        Weighings of containers from the diary.
    places : iterable of str
        Names of places as the holding spells them.
    """

    def __init__(
        self,
        containers: Sequence[ContainerSize],
        weighed: Mapping[str, list[Weighing]],
        places: Iterable[str],
    ) -> None:
        self.measures = Measures(containers, weighed)
        self.piles: dict[tuple[Stage, str], Pile] = {}
        self.flows: list[Flow] = []
        self.readings: list[Reading] = []
        self._names = {place_key(name): name for name in (*_FIXED, *places)}
        self._containers = {place_key(name): name for name in self.measures.fills}
        self._species: dict[str | None, str | None] = {}
        self._found: dict[tuple[FindingKind, str, str], Finding] = {}
        self._others: dict[tuple[FindingKind, str, str], list[str]] = {}

    def find_fault(
        self, kind: FindingKind, event: Event, place: str = "", name: str = "", figures: Figures = NO_FIGURES
    ) -> None:
        """Note what does not fit; the same at the same place is told once, with the first one's figures."""
        key = (kind, place, name)
        if key not in self._found:
            self._found[key] = Finding(kind, event.id, place, name, figures=figures)
            self._others[key] = []
        else:
            self._others[key].append(event.id)

    def faults_found(self) -> list[Finding]:
        """All that does not fit."""
        return [replace(fault, others=tuple(self._others[key])) for key, fault in self._found.items()]

    def spelled(self, place: str) -> str:
        """A place as the holding spells it, or as the first entry did."""
        return self._names.setdefault(place_key(place), place.strip())

    def pile(self, stage: Stage, place: str) -> Pile:
        """The pile at a place; a new one if there was none. Boiler room and heap are one each."""
        stage = _FIXED.get(place_key(place), stage)
        name = self.spelled(BOILER_ROOM if stage == "boiler_room" else HEAP if stage == "heap" else place)
        key = (stage, place_key(name))
        if key not in self.piles:
            self.piles[key] = Pile(stage, name)
        return self.piles[key]

    def find(
        self, place: str, stages: Sequence[Stage] = ("stack", "heap", "roadside", "boiler_room")
    ) -> Pile | None:
        """The pile of that name that holds wood, else one that held some, else ``None``."""
        key = place_key(place)
        there = [self.piles[stage, key] for stage in stages if (stage, key) in self.piles]
        return next((pile for pile in there if not pile.empty), there[0] if there else None)

    def source(self, event: Event, place: str | None, stages: Sequence[Stage]) -> Pile | None:
        """The pile that wood is taken from; without a name, the only one that can be meant."""
        if place is not None:
            pile = self.find(place, stages) or self.find(place)
            if pile is None:
                self.find_fault("unknown_place", event, self.spelled(place))
            return pile
        for stage in stages:
            holding = [pile for (its, _), pile in self.piles.items() if its == stage and not pile.empty]
            if len(holding) == 1:
                return holding[0]
            if holding:
                self.find_fault("place_not_given", event)
                return None
        return None

    def mix_told(self, event: Event, told: Amount) -> Mix:
        """The species an entry names, by their keys; empty where it names none."""
        if not isinstance(told, Wood) or (told.species is None and told.mix is None):
            return ()
        named = told.mix if told.mix is not None else {told.species or "": 1.0}
        by_species: dict[str, float] = {}
        for name, share in named.items():
            if name not in self._species:
                self._species[name] = species_key(name)
            key = self._species[name]
            if key is None:
                self.find_fault("unknown_species", event, name=name)
                key = UNKNOWN_WOOD
            by_species[key] = by_species.get(key, 0.0) + share
        return mix_of(by_species)

    def solid_told(
        self,
        event: Event,
        told: Amount,
        mix: Mix,
        pieces: str,
        log_cm: float | None,
        moisture: float | None,
        rows: Sequence[CountedRow] = (),
    ) -> float | None:
        """Solid wood that an entry tells; ``None`` where it tells none, or in an unknown container."""
        if rows:
            return sum(
                row.length_m * row.height_m * row.log_cm / 100.0
                * self.measures.solid_per_stacked(mix, form_of(pieces, row.log_cm))
                for row in rows
            )  # fmt: skip
        if isinstance(told, Wood):
            moisture = told.moisture if told.moisture is not None else moisture
            log_cm = told.log_cm or log_cm
        if told.mass_kg is not None and moisture is None:
            moisture = self.measures.green_moisture(mix) if pieces == "roundwood" else ASSUMED_MOISTURE
            self.find_fault("moisture_assumed", event, figures={"moisture": moisture})
        container = None if told.container is None else self._containers.get(place_key(told.container))
        if told.count is not None and container is None:
            self.find_fault("unknown_container", event, name=(told.container or "").strip())
            return None
        return self.measures.solid(told, container, mix, form_of(pieces, log_cm), moisture or 0.0)

    def lot_of(
        self,
        event: Event,
        told: Wood,
        *,
        pieces: str,
        rows: Sequence[CountedRow] = (),
        felled: Span | None = None,
        split: Span | None = None,
        like: Pile | None = None,
    ) -> Lot | None:
        """Wood that an entry tells of, as yet from nowhere; ``None`` where it tells no amount."""
        named = self.mix_told(event, told)
        mix = named or (mix_of({}) if like is None else like.mix)
        log_cm = told.log_cm or (rows[0].log_cm if rows else None)
        moisture = None if like is None else like.moisture
        solid = self.solid_told(event, told, mix, pieces, log_cm, moisture, rows)
        if solid is None:
            return None
        by_species = {species: share * solid for species, share in mix}
        return Lot(by_species, pieces, log_cm, felled, split, told.moisture)

    def take(self, event: Event, told: Wood, source: Pile | None, pieces: str | None = None) -> Lot | None:
        """Take out what an entry tells, or all there is where it tells no amount; ``None`` for nothing."""
        named = self.mix_told(event, told)
        if not told.ways():
            if source is None or source.empty:
                return None
            return source.take(source.solid_m3, {})[0]
        mix = named or (mix_of({}) if source is None else source.mix)
        own = source.pieces if source is not None else "split"
        log_cm = None if source is None or (pieces or own) != own else source.log_cm
        moisture = None if source is None else source.moisture
        solid = self.solid_told(event, told, mix, pieces or own, log_cm, moisture)
        if solid is None:
            return None
        lot = self.take_solid(event, solid, named, source)
        lot.moisture = told.moisture if told.moisture is not None else lot.moisture
        return lot

    def take_solid(self, event: Event, solid_m3: float, named: Mix, source: Pile | None) -> Lot:
        """Take so much out; what a pile does not hold is told as a finding, and moves on all the same."""
        mix = named or (mix_of({}) if source is None else source.mix)
        if source is None:
            return Lot({species: share * solid_m3 for species, share in mix})
        held = source.solid_m3
        lot, short = source.take(solid_m3, dict(named))
        if short > NOTICED_M3:
            figures = {"taken_m3": solid_m3, "held_m3": held}
            self.find_fault("more_than_held", event, source.place, figures=figures)
        if short > 0.0:
            for species, share in mix:
                lot.by_species[species] = lot.by_species.get(species, 0.0) + share * short
        return lot

    def bring(self, event: Event, lot: Lot, stage: Stage, place: str, source: str | None = None) -> None:
        """Put wood down at a place."""
        pile = self.pile(stage, place)
        pile.put(lot, event.happened.date())
        self.note_flow(event, lot, source, pile.place)

    def note_flow(self, event: Event, lot: Lot, source: str | None, target: str | None) -> None:
        """Write a movement down."""
        mix, solid = mix_of(lot.by_species), lot.solid_m3
        wet = lot.moisture
        self.flows.append(
            Flow(
                entry=event.id,
                kind=event.kind,
                happened=event.happened,
                from_place=None if source is None else self.spelled(source),
                to_place=None if target is None else self.spelled(target),
                solid_m3=solid,
                dry_kg=solid * self.measures.mass_per_solid(mix, 0.0),
                moisture=wet,
                mass_kg=None if wet is None else solid * self.measures.mass_per_solid(mix, wet),
                mix=dict(mix),
            )
        )

    def contents(self, stage: Stage) -> dict[str, StackContents]:
        """What lies at each place of a stage, in the order in which they first appeared."""
        return {pile.place: self._contents(pile) for (its, _), pile in self.piles.items() if its == stage}

    def note_measured(self, pile: Pile) -> None:
        """Keep what a pile is like on the day it is measured, for when it is used up."""
        pile.as_measured = self._contents(pile)

    def used_up(self) -> list[StackContents]:
        """The measured stacks that stand no more, each as it was when last measured."""
        found: list[StackContents] = []
        for (stage, _), pile in self.piles.items():
            if stage == "stack":
                found += pile.former
                if pile.empty and pile.as_measured is not None:
                    found.append(pile.as_measured)
        return found

    def _contents(self, pile: Pile) -> StackContents:
        form = form_of(pile.pieces, pile.log_cm)
        solid, mix = pile.solid_m3, pile.mix
        return StackContents(
            place=pile.place,
            stage=pile.stage,
            solid_m3=solid,
            stacked_m3=solid / self.measures.solid_per_stacked(mix, form),
            dry_kg=solid * self.measures.mass_per_solid(mix, 0.0),
            mix=dict(mix) if pile.by_species else {},
            pieces=pile.pieces,
            log_cm=pile.log_cm,
            form=form,
            felled_on=_last(pile.felled),
            felled_first_on=_first(pile.felled),
            split_on=_last(pile.split),
            split_first_on=_first(pile.split),
            stacked_on=pile.stacked_on,
            found_on=pile.found_on,
            covered_on=pile.under_cover_since,
            cover=pile.cover,
            counted_on=pile.counted_on,
            carried_moisture=pile.carried_moisture,
            readings=tuple(pile.readings),
        )

    def out_of_the_wood(self, lot: Lot, compartment: str | None) -> tuple[Lot, str | None]:
        """Take wood from where it was felled; what was felled without a volume is not missed there."""
        felled = [pile for (stage, _), pile in self.piles.items() if stage == "in_wood" and not pile.empty]
        if compartment is not None:
            felled = [pile for pile in felled if place_key(pile.place) == place_key(compartment)]
        lot, sources = self._gather(lot, felled)
        if compartment is not None:
            return lot, compartment
        return lot, sources[0] if len(sources) == 1 else None

    def stack_from(self, event: Event, lot: Lot, from_place: str | None) -> tuple[Lot, str | None]:
        """Take stacked wood from where it lay: the heap as far as it goes, or the place that is named."""
        if from_place is None:
            heap = self.piles.get(("heap", HEAP))
            lot, sources = self._gather(lot, [] if heap is None else [heap])
            return lot, HEAP if sources else None
        pile = self.find(from_place, ("heap", "roadside", "stack"))
        if pile is None:
            self.find_fault("unknown_place", event, self.spelled(from_place))
            return lot, from_place
        wanted = lot.solid_m3
        taken = self.take_solid(event, wanted, mix_of(lot.by_species), pile)
        return self._told_of(lot, [taken]), pile.place

    def _gather(self, lot: Lot, piles: Sequence[Pile]) -> tuple[Lot, list[str]]:
        """Take as much of a lot from some piles, in order, as they hold; the rest came from nowhere told."""
        taken: list[Lot] = []
        sources = []
        wanted = dict(mix_of(lot.by_species))
        left = lot.solid_m3
        for pile in piles:
            if left > NOTICED_M3 and not pile.empty:
                part, left = pile.take(left, wanted)
                taken.append(part)
                sources.append(pile.place)
        return self._told_of(lot, taken), sources

    @staticmethod
    def _told_of(lot: Lot, taken: Sequence[Lot]) -> Lot:
        """The lot as the entry tells it, with what its sources know of felling and splitting."""
        felled, split, moisture = lot.felled, lot.split, lot.moisture
        for part in taken:
            felled = both_spans(felled, part.felled)
            split = both_spans(split, part.split)
            moisture = part.moisture if moisture is None else moisture
            lot.log_cm = lot.log_cm or part.log_cm
        return Lot(lot.by_species, lot.pieces, lot.log_cm, felled, split, moisture)


def _first(span: Span | None) -> date | None:
    return None if span is None else span[0]


def _last(span: Span | None) -> date | None:
    return None if span is None else span[1]
