"""The demo's diary: a season and a half at Aldermoor, invented, the same at every call.

The yard's work, sales and services are a list; the fires between them come from a run of the demo's own
plant and house, kept in a file beside this one. Who did it and what was left out is thrown with dice of a
fixed seed, so that every entry has the same id for ever.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from itertools import groupby
from typing import Any
from zoneinfo import ZoneInfo

from woodreeve.diary.entry import order_of, payload_text
from woodreeve.diary.kinds import Entry, current_form
from woodreeve.holding.demo.fires import DemoFire, demo_fires
from woodreeve.holding.demo.yearwork import YEARWORK, Deed

__all__ = ["BEGINS", "ENDS", "ZONE", "entries"]

ZONE = ZoneInfo("Europe/London")
BEGINS = date(2024, 9, 14)
"""First day of the diary; what stood in the yard before was written down on it."""
ENDS = datetime(2026, 1, 13, 17, 0, tzinfo=ZONE)
"""The evening at which the demo opens."""

BARROW_STACKED_M3 = 0.0815
BOILER_FILL_STACKED_M3 = 0.102
MOST_FILLS_A_DAY = 2.5

UNLOGGED = (date(2025, 12, 27), date(2025, 12, 31))
"""Days over the turn of the year on which nobody wrote anything down."""


@dataclass
class _Dice:
    """Numbers from 0 to 1 that are the same on every machine and for ever."""

    seed: str
    thrown: int = 0

    def throw(self) -> float:
        self.thrown += 1
        digest = hashlib.sha256(f"{self.seed} {self.thrown}".encode()).digest()
        return int.from_bytes(digest[:6], "big") / 2**48


@dataclass
class _Household:
    """What the household has in its head: whose turn it is, and what is left by the boiler."""

    dice: _Dice = field(default_factory=lambda: _Dice("aldermoor"))
    by_boiler_m3: float = 0.0


def entries(holding: str) -> tuple[Entry, ...]:
    """Make the diary.

    Parameters
    ----------
    holding : str
        Name of the holding the entries belong to.

    Returns
    -------
    tuple of Entry
        In the order in which they happened.
    """
    told = sorted([*YEARWORK, *_fires()], key=lambda deed: (deed.happened, deed.kind))
    made: list[Entry] = []
    ids: dict[str, str] = {}
    for number, deed in enumerate(told):
        identity = hashlib.sha256(f"{holding} {number} {deed.kind} {deed.happened}".encode()).hexdigest()[:32]
        if deed.mark:
            ids[deed.mark] = identity
        payload = dict(deed.payload)
        if "target" in payload:
            payload["target"] = ids[payload["target"]]
        happened = deed.happened.replace(tzinfo=ZONE)
        entered = deed.entered.replace(tzinfo=ZONE) if deed.entered else happened + timedelta(minutes=7)
        made.append(
            Entry(
                id=identity,
                holding=holding,
                kind=deed.kind,
                form=current_form(deed.kind),
                happened=_with_plain_offset(happened),
                entered=_with_plain_offset(entered),
                sent=None,
                by=deed.by,
                payload=_as_sent(payload),
            )
        )
    return tuple(sorted(made, key=order_of))


def _as_sent(payload: dict[str, Any]) -> dict[str, Any]:
    """The payload as a telephone would send it: each number an object of its own, for a trace to know."""
    sent: dict[str, Any] = json.loads(payload_text(payload))
    return sent


def _with_plain_offset(moment: datetime) -> datetime:
    """The moment with its offset alone, as an entry keeps it."""
    return datetime.fromisoformat(moment.isoformat())


def _fires() -> Iterator[Deed]:
    """The fires of each day, and the barrows that were brought in for them."""
    home = _Household()
    for day, fires in groupby(demo_fires(), key=lambda fire: fire.moment.date()):
        yield from _day(home, day, list(fires))


def _day(home: _Household, day: date, fires: list[DemoFire]) -> Iterator[Deed]:
    who = "Mair" if home.dice.throw() < 0.4 else "Tom"
    if home.by_boiler_m3 < MOST_FILLS_A_DAY * BOILER_FILL_STACKED_M3 + 0.1:
        early = sum(fire.fills for fire in fires if fire.moment.hour < 14) * BOILER_FILL_STACKED_M3
        eve = home.by_boiler_m3 < early
        yield _brought_in(home, day - timedelta(days=1) if eve else day, who)
    for fire in fires:
        home.by_boiler_m3 -= fire.fills * BOILER_FILL_STACKED_M3
        looked = home.dice.throw() < 0.7
        if UNLOGGED[0] <= day <= UNLOGGED[1]:
            continue
        payload: dict[str, Any] = {"count": fire.fills, "container": "boiler fill"}
        if looked and fire.kind == "lit":
            payload |= {"store_top_c": fire.top_c, "store_middle_c": fire.middle_c}
            payload |= {"store_bottom_c": fire.bottom_c}
        yield Deed(fire.moment, fire.kind, payload, who)


_TAKEN_FROM = (
    (date(2025, 3, 10), "lean-to"),
    (date(2025, 12, 1), "gable"),
    (date(2025, 12, 26), "orchard wall"),
    (date(2026, 12, 31), "lean-to"),
)
"""Which stack the barrows came from, until when."""


def _brought_in(home: _Household, day: date, who: str) -> Deed:
    barrows = 13 + int(home.dice.throw() * 3)
    home.by_boiler_m3 += barrows * BARROW_STACKED_M3
    place = next(name for until, name in _TAKEN_FROM if day <= until)
    at = datetime.combine(day, time(14, int(home.dice.throw() * 59)))
    return Deed(at, "brought_in", {"count": barrows, "container": "barrow", "from_place": place}, who)
