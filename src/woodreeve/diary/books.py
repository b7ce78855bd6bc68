"""What each kind of entry does to the books of wood, fire and readings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any

from woodreeve.diary import payloads_plant as plant
from woodreeve.diary import payloads_wood as wood
from woodreeve.diary.burning import Burning
from woodreeve.diary.findings import Finding
from woodreeve.diary.folded import Event, Folded, MarkerWeight, Stage
from woodreeve.diary.ledger import BOILER_ROOM, HEAP, Ledger
from woodreeve.diary.piles import Span
from woodreeve.diary.readings import marker_weight, readings_of, with_dry_weights

__all__ = ["BOOKS", "Books"]

ANYWHERE: tuple[Stage, ...] = ("stack", "heap", "roadside", "boiler_room")


class Books:
    """Wood, fire and readings, each kept in its own book."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self.burning = Burning(ledger)
        self.markers: list[MarkerWeight] = []

    def felled(self, event: Event, told: wood.Felled) -> None:
        """Trees down: they lie in the wood."""
        lot = self.ledger.lot_of(event, told, pieces="roundwood", felled=_span(event.happened.date()))
        if lot is not None:
            self.ledger.bring(event, lot, "in_wood", told.compartment)

    def extracted(self, event: Event, told: wood.Extracted) -> None:
        """From the wood to the roadside."""
        lot = self.ledger.lot_of(event, told, pieces="roundwood")
        if lot is not None:
            lot, source = self.ledger.out_of_the_wood(lot, told.compartment)
            self.ledger.bring(event, lot, "roadside", told.place, source)

    def bought(self, event: Event, told: wood.Bought) -> None:
        """From outside to the roadside, or straight to a stack."""
        felled, split = _span(told.felled_on), _span(told.split_on)
        lot = self.ledger.lot_of(event, told, pieces=told.pieces, felled=felled, split=split)
        if lot is not None:
            self.ledger.bring(event, lot, "roadside" if told.pieces == "roundwood" else "stack", told.place)

    def split(self, event: Event, told: wood.Split) -> None:
        """From the roadside, or from a stack of rounds, to a stack or to the heap."""
        source = self.ledger.source(event, told.from_place, ("roadside", "stack"))
        lot = self.ledger.take(event, told, source, told.pieces)
        if lot is None:
            return
        was_long = lot.pieces != told.pieces
        lot.log_cm = told.log_cm or (None if was_long else lot.log_cm)
        lot.pieces, lot.split = told.pieces, _span(event.happened.date())
        stage: Stage = "heap" if told.to_place is None else "stack"
        self.ledger.bring(event, lot, stage, told.to_place or HEAP, None if source is None else source.place)

    def stacked(self, event: Event, told: wood.Stacked) -> None:
        """From the heap, or from where it says, to a stack."""
        felled, split = _span(told.felled_on), _span(told.split_on)
        like = self.ledger.find(told.from_place or HEAP)
        lot = self.ledger.lot_of(
            event, told, pieces=told.pieces, rows=told.rows, felled=felled, split=split, like=like
        )
        if lot is not None:
            lot, source = self.ledger.stack_from(event, lot, told.from_place)
            self.ledger.bring(event, lot, "stack", told.place, source)

    def moved(self, event: Event, told: wood.Moved) -> None:
        """From one place to another."""
        source = self.ledger.source(event, told.from_place, ANYWHERE)
        lot = self.ledger.take(event, told, source)
        if lot is not None:
            long = lot.pieces == "roundwood"
            self.ledger.bring(event, lot, "roadside" if long else "stack", told.to_place, told.from_place)

    def brought_in(self, event: Event, told: wood.BroughtIn) -> None:
        """From a stack to the boiler room."""
        source = self.ledger.source(event, told.from_place, ("stack",))
        lot = self.ledger.take(event, told, source)
        if lot is not None:
            self.ledger.bring(
                event, lot, "boiler_room", BOILER_ROOM, None if source is None else source.place
            )

    def gone(self, event: Event, told: wood.Spoiled | wood.Sold | wood.GivenAway) -> None:
        """Out of the yard for good."""
        source = self.ledger.source(event, told.place, ANYWHERE)
        lot = self.ledger.take(event, told, source)
        if lot is not None:
            self.ledger.note_flow(event, lot, told.place, None)

    def fire(self, event: Event, told: plant.Lit) -> None:
        """Lit or refilled."""
        self.burning.fire(event, told)

    def burnt(self, event: Event, told: plant.Burnt) -> None:
        """Used, by the week."""
        self.burning.total(event, told)

    def as_usual(self, event: Event, told: plant.AsUsual) -> None:
        """Used, as usual."""
        self.burning.as_usual(event, told)

    def counted(self, event: Event, told: wood.Counted) -> None:
        """A stock-take."""
        self.burning.count(event, told)

    def covered(self, event: Event, told: wood.Covered) -> None:
        """Under cover from now on."""
        pile = self.ledger.find(told.place) or self.ledger.pile("stack", told.place)
        if pile.cover is None:
            pile.covered_on = event.happened.date()
        pile.cover = told.cover

    def uncovered(self, event: Event, told: wood.Uncovered) -> None:
        """In the rain from now on."""
        pile = self.ledger.find(told.place)
        if pile is None:
            self.ledger.find_fault("unknown_place", event, self.ledger.spelled(told.place))
        else:
            pile.cover = pile.covered_on = None

    def measured(self, event: Event, told: wood.Measured) -> None:
        """Moisture of a pile."""
        found, faults = readings_of(event, told)
        for fault in faults:
            self.ledger.find_fault(fault.kind, event, self.ledger.spelled(told.place), figures=fault.figures)
        pile = self.ledger.find(told.place)
        if pile is None:
            self.ledger.find_fault("unknown_place", event, self.ledger.spelled(told.place))
        for reading in found:
            placed = replace(reading, place=self.ledger.spelled(told.place))
            self.ledger.readings.append(placed)
            if pile is not None:
                pile.readings.append(placed)
        if pile is not None and found:
            self.ledger.note_measured(pile)

    def weighed(self, event: Event, told: wood.Weighed) -> None:
        """A marker piece; weighed containers were read before."""
        if told.marker is not None:
            place = None if told.place is None else self.ledger.spelled(told.place)
            self.markers.append(replace(marker_weight(event, told), place=place))

    def close(self, events: Sequence[Event], findings: Iterable[Finding]) -> Folded:
        """Draw the line under all books."""
        ledger, burning = self.ledger, self.burning
        by_kind: dict[str, list[Event]] = {}
        for event in events:
            by_kind.setdefault(event.kind, []).append(event)
        return Folded(
            stacks=ledger.contents("stack"),
            roadside=ledger.contents("roadside"),
            in_wood=ledger.contents("in_wood"),
            heap=ledger.contents("heap").get(HEAP),
            boiler_room=next(iter(ledger.contents("boiler_room").values()), None),
            used_up=tuple(ledger.used_up()),
            readings=tuple(ledger.readings),
            markers=with_dry_weights(self.markers),
            containers=dict(ledger.measures.fills),
            fires=tuple(burning.fires),
            flows=tuple(ledger.flows),
            unlogged=tuple(burning.unlogged),
            use_by_day=burning.use_by_day(),
            use_by_month=burning.use_by_month(),
            events={kind: tuple(of_kind) for kind, of_kind in by_kind.items()},
            burning_told_until=burning.told_until,
            findings=(*sorted(findings, key=_in_order), *ledger.faults_found()),
            count=len(events),
        )


def _in_order(finding: Finding) -> tuple[str, str, tuple[str, ...]]:
    return finding.kind, finding.entry or "", finding.others


def _span(day: date | None) -> Span | None:
    return None if day is None else (day, day)


BOOKS: Mapping[str, Callable[[Books, Event, Any], None]] = MappingProxyType(
    {
        "felled": Books.felled,
        "extracted": Books.extracted,
        "bought": Books.bought,
        "split": Books.split,
        "stacked": Books.stacked,
        "moved": Books.moved,
        "brought_in": Books.brought_in,
        "spoiled": Books.gone,
        "sold": Books.gone,
        "given_away": Books.gone,
        "lit": Books.fire,
        "refilled": Books.fire,
        "burnt": Books.burnt,
        "as_usual": Books.as_usual,
        "counted": Books.counted,
        "covered": Books.covered,
        "uncovered": Books.uncovered,
        "measured": Books.measured,
        "weighed": Books.weighed,
    }
)
"""The kinds of entry that change a book; all others are kept as events only."""
