"""One household: its records, open, with a clock, and the answers it remembers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from threading import Lock
from typing import TYPE_CHECKING, Any, TypeVar

from woodreeve.records.asking import Asking, holding_of
from woodreeve.weather.series import Hourly

if TYPE_CHECKING:
    from woodreeve.records.store import EntryResult, HoldingVersion, Records

__all__ = ["Asking", "Household"]

A = TypeVar("A")

MOST_REMEMBERED = 64
"""So many answers are kept; the oldest goes first."""


class Household:
    """One holding's records, open, with a clock.

    Parameters
    ----------
    records : Records
        The records.
    name : str
        The holding.
    clock : callable
        Gives the moment now, with its offset.
    weather : Hourly, optional
        Weather from a file, in place of the holding's monthly means.
    demo : bool
        Whether it is the demonstration holding.
    """

    def __init__(
        self,
        records: Records,
        name: str,
        *,
        clock: Callable[[], datetime],
        weather: Hourly | None = None,
        demo: bool = False,
    ) -> None:
        self.records = records
        self.name = name
        self.clock = clock
        self.demo = demo
        self._weather = weather
        self._remembered: dict[tuple[object, ...], Any] = {}
        self._lock = Lock()

    @property
    def store_name(self) -> str:
        """What the telephone calls its own store of entries: the demo's is never the owner's."""
        return f"demo-{self.name}" if self.demo else self.name

    def ask(self, moment: datetime | None = None) -> Asking:
        """Read what an answer needs.

        Parameters
        ----------
        moment : datetime, optional
            The moment asked about; now if left out.

        Returns
        -------
        Asking
            Holding, diary and weather at that moment.

        Raises
        ------
        UnknownName
            If there is no such holding.
        """
        from woodreeve.records.forecasts import newest_forecast

        moment = moment or self.clock()
        version = self.records.holding_at(self.name, moment)
        place = holding_of(version.document).place
        asking = Asking(
            version.document,
            moment,
            entries=self.records.entries(self.name),
            weather=self._weather,
            version=version.version,
            valid_from=version.valid_from,
            last_entry=self.records.last_entry(self.name),
            forecast=newest_forecast(
                self.records,
                self.name,
                moment,
                latitude_deg=place.latitude_deg,
                longitude_deg=place.longitude_deg,
            ),
        )
        asking._remember = self.remembered
        return asking

    def add_entries(self, given: Iterable[Mapping[str, Any]]) -> list[EntryResult]:
        """Add entries as a telephone or a command sends them; those without a holding are this one's.

        Parameters
        ----------
        given : iterable of mapping
            JSON objects of entries.

        Returns
        -------
        list of EntryResult
            What became of each.
        """
        named = [{"holding": self.name, **one} for one in given]
        return self.records.add_entries(self.name, named, arrived=self.clock())

    def save(self, document: str, *, based_on: int, is_change: bool, by: str = "owner") -> HoldingVersion:
        """Save the holding's description.

        Parameters
        ----------
        document : str
            The TOML text, checked by the caller.
        based_on : int
            The version it was made from.
        is_change : bool
            Whether the place is new from now on; else a slip was put right, and the version stays true
            since when it was.
        by : str
            Who saves it.

        Returns
        -------
        HoldingVersion
            As it is kept.

        Raises
        ------
        StaleHolding
            If another version was saved meanwhile.
        """
        now = self.clock()
        before = self.records.holding_newest(self.name)
        return self.records.save_holding(
            self.name,
            document,
            based_on=based_on,
            valid_from=now if is_change else before.valid_from,
            entered=now,
            by=by,
        )

    def warm(self) -> None:
        """Work the first answers' inputs out once, so that the first page comes at once."""
        self.ask()

    def remembered(self, answer: Callable[[Asking], A], asking: Asking) -> A:
        """An answer, worked out once as long as nothing it rests on changes.

        Parameters
        ----------
        answer : callable
            Works the answer out.
        asking : Asking
            What it rests on.

        Returns
        -------
        object
            What ``answer`` gives.
        """
        key = (answer.__module__, *asking.key)
        with self._lock:
            if key in self._remembered:
                found: A = self._remembered[key]
                return found
        found = answer(asking)
        with self._lock:
            self._remembered[key] = found
            while len(self._remembered) > MOST_REMEMBERED:
                self._remembered.pop(next(iter(self._remembered)))
        return found

    def close(self) -> None:
        """Close the records."""
        self.records.close()
