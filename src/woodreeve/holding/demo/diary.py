"""The demo's diary: a season and a half at Aldermoor, invented, the same at every call.

The yard's work, sales and services are a list; the fires between them follow an invented weather
thrown with dice of a fixed seed, so that every entry has the same id for ever.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from math import cos, pi
from typing import Any
from zoneinfo import ZoneInfo

from woodreeve.diary.entry import order_of, payload_text
from woodreeve.diary.kinds import Entry, current_form
from woodreeve.holding.demo.yearwork import YEARWORK, Deed

__all__ = ["BEGINS", "ENDS", "ZONE", "entries"]

ZONE = ZoneInfo("Europe/London")
BEGINS = date(2024, 9, 14)
"""First day of the diary; what stood in the yard before was written down on it."""
ENDS = datetime(2026, 1, 13, 17, 0, tzinfo=ZONE)
"""The evening at which the demo opens."""

BARROW_STACKED_M3 = 0.0815
BOILER_FILL_STACKED_M3 = 0.102
FILL_HEAT_KWH = 131.0
"""Heat to water from one boiler fill, as the household reckons when it decides to light."""

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
    """What the household has in its head: how cold it was, and what is left where."""

    weather: _Dice = field(default_factory=lambda: _Dice("aldermoor weather"))
    dice: _Dice = field(default_factory=lambda: _Dice("aldermoor"))
    warmth_off_normal_k: float = 0.0
    heat_short_kwh: float = 40.0
    by_boiler_m3: float = 0.0

    def outdoor_c(self, day: date) -> float:
        """A day's mean outdoor temperature: the time of year, and weather that lasts some days."""
        self.warmth_off_normal_k = (
            0.72 * self.warmth_off_normal_k
            + 2.1 * (self.dice.throw() + self.dice.throw() + self.dice.throw() - 1.5) * 2.0
        )
        season = -5.7 * cos(2.0 * pi * (day.timetuple().tm_yday - 22) / 365.25)
        return 8.4 + season + self.warmth_off_normal_k


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
    day = date(2024, 9, 28)
    while day < ENDS.date():
        need = max(0.0, 0.43 * (15.5 - home.outdoor_c(day)) * 24.0) + 9.0
        summer = 5 <= day.month <= 8 or (day.month == 9 and day.day < 20)
        if not summer:
            home.heat_short_kwh = min(home.heat_short_kwh + need, 260.0)
            yield from _evening(home, day, need)
        day += timedelta(days=1)


def _evening(home: _Household, day: date, need_kwh: float) -> Iterator[Deed]:
    minute = int(home.dice.throw() * 55)
    late = home.dice.throw() < 0.25
    who = "Mair" if home.dice.throw() < 0.4 else "Tom"
    lit_at = datetime.combine(day, time(18 if late else 16, minute))
    if home.heat_short_kwh < 85.0:
        return
    fills = 2 if home.heat_short_kwh > 200.0 else 1
    extra = 0.5 if fills == 1 and need_kwh > 125.0 else 0.0
    home.heat_short_kwh -= (fills + extra) * FILL_HEAT_KWH
    if home.by_boiler_m3 < 2.5 * BOILER_FILL_STACKED_M3 + 0.1:
        yield _brought_in(home, day, who)
    if UNLOGGED[0] <= day <= UNLOGGED[1]:
        home.by_boiler_m3 -= (fills + extra) * BOILER_FILL_STACKED_M3
        return
    payload: dict[str, Any] = {"count": 1, "container": "boiler fill"}
    if home.dice.throw() < 0.7:
        payload["store_top_c"] = round(40 + 14 * home.dice.throw())
        payload["store_bottom_c"] = round(26 + 8 * home.dice.throw())
    yield Deed(lit_at, "lit", payload, who)
    home.by_boiler_m3 -= BOILER_FILL_STACKED_M3
    again = (fills - 1) + extra
    if again:
        yield Deed(
            lit_at + timedelta(hours=3, minutes=minute // 2),
            "refilled",
            {"count": again, "container": "boiler fill"},
            who,
        )
        home.by_boiler_m3 -= again * BOILER_FILL_STACKED_M3


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
