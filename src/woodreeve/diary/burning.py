"""Wood burnt: by the fire, by the week, "as usual", and what a stock-take finds missing."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from woodreeve.diary.amounts import ASSUMED_MOISTURE
from woodreeve.diary.folded import Event, Fire, Stage, Unlogged, Use
from woodreeve.diary.ledger import NOTICED_M3, Ledger
from woodreeve.diary.payloads_plant import AsUsual, Burnt, Lit
from woodreeve.diary.payloads_wood import Counted
from woodreeve.diary.piles import Lot, Pile, mix_of

__all__ = ["USUAL_DAYS", "Burning", "usual_per_day"]

USUAL_DAYS = 28
""""As usual" is the mean of so many days before: a moon of weather, and a whole number of weeks."""

_LOGGED, _AS_USUAL, _UNLOGGED, _DRY, _WET, _FIRES = range(6)
_MOST_DAYS = 3660
"""A gap longer than this many days is spread over its last ten years only."""


class Burning:
    """Fires and use, day by day.

    Parameters
    ----------
    ledger : Ledger
        Where the wood comes from.
    """

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self.fires: list[Fire] = []
        self.unlogged: list[Unlogged] = []
        self.told_until: date | None = None
        self._days: dict[date, list[float]] = {}
        self._by_fire: dict[date, float] = {}

    def fire(self, event: Event, told: Lit) -> None:
        """Book a lighting or a refill."""
        day = event.happened.date()
        self._told(day)
        solid = mass = place = None
        if told.ways():
            source = self._source(event, told.from_place)
            place = told.from_place if source is None else source.place
            lot = self.ledger.take(event, told, source)
            if lot is not None:
                solid = lot.solid_m3
                mass = self._use(lot, source, _LOGGED, day, day, told.moisture)
                self._by_fire[day] = self._by_fire.get(day, 0.0) + solid
        if event.kind == "lit":
            self._day(day)[_FIRES] += 1
        self.fires.append(
            Fire(
                entry=event.id,
                kind="lit" if event.kind == "lit" else "refilled",
                happened=event.happened,
                place=place,
                solid_m3=solid,
                mass_kg=mass,
                count=told.count,
                container=told.container,
            )
        )

    def total(self, event: Event, told: Burnt) -> None:
        """Book wood told by the week: all since a day, less the fires logged meanwhile."""
        day = event.happened.date()
        self._told(day)
        source = self._source(event, told.from_place)
        first = min(told.since, day) if told.since is not None else day
        solid = self._solid(event, told, source)
        if solid is None:
            return
        if told.since is not None:
            by_fire = sum(used for when, used in self._by_fire.items() if first <= when <= day)
            if by_fire > solid + NOTICED_M3:
                figures = {"fires_m3": by_fire, "total_m3": solid}
                self.ledger.find_fault("fires_exceed_total", event, figures=figures)
            solid = max(solid - by_fire, 0.0)
        lot = self.ledger.take_solid(event, solid, self.ledger.mix_told(event, told), source)
        self._use(lot, source, _LOGGED, first, day, told.moisture)

    def as_usual(self, event: Event, told: AsUsual) -> None:
        """Book the answer to "as usual since Monday?", to the end of the day before."""
        last = max(event.happened.date() - timedelta(days=1), told.since)
        self._told(last)
        if told.answer == "no_fires":
            return
        source = self._source(event, told.from_place)
        if told.ways():
            solid = self._solid(event, told, source)
        else:
            rate = usual_per_day(self.use_by_day(), told.since)
            solid = None if rate is None else rate * ((last - told.since).days + 1)
            if rate is None:
                self.ledger.find_fault("no_usual_rate", event)
        if solid is not None:
            lot = self.ledger.take_solid(event, solid, (), source)
            self._use(lot, source, _AS_USUAL, told.since, last, None)

    def count(self, event: Event, told: Counted) -> None:
        """Believe a stock-take, and book what it finds missing."""
        ledger, day = self.ledger, event.happened.date()
        stage: Stage = "roadside" if told.pieces == "roundwood" else "stack"
        pile = ledger.find(told.place) or ledger.pile(stage, told.place)
        mix = ledger.mix_told(event, told) or pile.mix
        pieces, log_cm = told.pieces or pile.pieces, told.log_cm or pile.log_cm
        solid: float | None = 0.0
        if not told.nothing_left:
            solid = ledger.solid_told(event, told, mix, pieces, log_cm, pile.moisture, told.rows)
        if solid is None:
            return
        known_since = pile.counted_on or pile.first_on
        missing = pile.solid_m3 - solid
        if known_since is None:
            pile.readings = [one for one in ledger.readings if ledger.spelled(one.place) == pile.place]
        else:
            self._missing(event, pile, missing, known_since, day)
            if missing < -NOTICED_M3:
                ledger.find_fault(
                    "counted_more",
                    event,
                    pile.place,
                    figures={"counted_m3": solid, "expected_m3": pile.solid_m3},
                )
        pile.pieces = pieces
        pile.log_cm = (told.rows[0].log_cm if told.rows else told.log_cm) or pile.log_cm
        pile.set_to({species: share * solid for species, share in mix}, day)

    def use_by_day(self) -> dict[date, Use]:
        """Use of each day, in the order of days."""
        return {day: _use(self._days[day]) for day in sorted(self._days)}

    def use_by_month(self) -> dict[str, Use]:
        """Use of each month, in the order of months."""
        months: dict[str, list[float]] = {}
        for day in sorted(self._days):
            month = months.setdefault(f"{day.year:04}-{day.month:02}", [0.0] * 6)
            for place, value in enumerate(self._days[day]):
                month[place] += value
        return {month: _use(book) for month, book in months.items()}

    def _solid(self, event: Event, told: Burnt | AsUsual, source: Pile | None) -> float | None:
        mix = self.ledger.mix_told(event, told) or (mix_of({}) if source is None else source.mix)
        pieces, log_cm, moisture = ("split", None, None) if source is None else _like(source)
        return self.ledger.solid_told(event, told, mix, pieces, log_cm, moisture)

    def _source(self, event: Event, place: str | None) -> Pile | None:
        """Where burnt wood is from: as told, or the boiler room, or the only stack there is."""
        if place is None and (room := self.ledger.piles.get(("boiler_room", "boiler room"))) is not None:
            return room
        return self.ledger.source(event, place, ("stack",))

    def _missing(self, event: Event, pile: Pile, missing: float, since: date, until: date) -> None:
        days = max((until - since).days, 1)
        self.unlogged.append(
            Unlogged(
                entry=event.id,
                place=pile.place,
                stage=pile.stage,
                since=since,
                until=until,
                solid_m3=missing,
                per_day_m3=missing / days,
            )
        )
        if missing > 0.0 and pile.stage not in ("in_wood", "roadside"):
            lot = Lot({species: share * missing for species, share in pile.mix})
            self._use(lot, pile, _UNLOGGED, since + timedelta(days=1), until, None)

    def _use(
        self, lot: Lot, source: Pile | None, what: int, first: date, last: date, moisture: float | None
    ) -> float:
        """Spread use evenly over days; gives its weight as it was. [kg]."""
        mix, solid = mix_of(lot.by_species), lot.solid_m3
        known = moisture if moisture is not None or source is None else source.moisture
        dry = solid * self.ledger.measures.mass_per_solid(mix, 0.0)
        wet = solid * self.ledger.measures.mass_per_solid(mix, ASSUMED_MOISTURE if known is None else known)
        first = max(min(first, last), last - timedelta(days=_MOST_DAYS - 1))
        days = (last - first).days + 1
        for number in range(days):
            book = self._day(first + timedelta(days=number))
            book[what] += solid / days
            book[_DRY] += dry / days
            book[_WET] += wet / days
        return wet

    def _day(self, day: date) -> list[float]:
        return self._days.setdefault(day, [0.0] * 6)

    def _told(self, day: date) -> None:
        self.told_until = day if self.told_until is None else max(self.told_until, day)


def usual_per_day(use_by_day: Mapping[date, Use], before: date) -> float | None:
    """Mean daily use told in the 28 days before, from the first day with any; ``None`` for none. [m3]."""
    first = before - timedelta(days=USUAL_DAYS)
    told = {day: use.logged_m3 + use.as_usual_m3 for day, use in use_by_day.items() if first <= day < before}
    used = {day: solid for day, solid in told.items() if solid > 0.0}
    return sum(used.values()) / (before - min(used)).days if used else None


def _like(pile: Pile) -> tuple[str, float | None, float | None]:
    return pile.pieces, pile.log_cm, pile.moisture


def _use(book: list[float]) -> Use:
    return Use(
        fires=round(book[_FIRES]),
        logged_m3=book[_LOGGED],
        as_usual_m3=book[_AS_USUAL],
        unlogged_m3=book[_UNLOGGED],
        solid_m3=book[_LOGGED] + book[_AS_USUAL] + book[_UNLOGGED],
        dry_kg=book[_DRY],
        mass_kg=book[_WET],
    )
