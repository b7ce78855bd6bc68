"""One household as the questions see it: its holding, diary and weather, read together for one moment."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property, lru_cache
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any, TypeVar
from zoneinfo import ZoneInfo

import tomlkit

from woodreeve.diary.entry import Entry
from woodreeve.diary.fold import fold
from woodreeve.diary.folded import Folded, StackContents
from woodreeve.errors import OutOfRange, Refused, Unknown, Unreadable
from woodreeve.holding.document import Holding
from woodreeve.holding.toml import load
from woodreeve.house.demand import Demand, demand
from woodreeve.house.from_fuel import demand_from_fuel, weighed_demand
from woodreeve.house.signature import signature_of_house
from woodreeve.weather.readers import read_epw, read_tmy
from woodreeve.weather.series import Hourly
from woodreeve.weather.tables import read_csv, read_dwd_try
from woodreeve.weather.typical import Normals, typical_year
from woodreeve.workings import Trace
from woodreeve.yard.containers import container_sizes
from woodreeve.yard.stock import YardStock, yard_stock

if TYPE_CHECKING:
    from woodreeve.records.following import Burning, FollowedYard
    from woodreeve.records.store import EntryResult, HoldingVersion, Records

__all__ = ["Asking", "Demands", "Household", "read_weather"]

A = TypeVar("A")

MOST_REMEMBERED = 64
"""So many answers are kept; the oldest goes first."""


@lru_cache(maxsize=8)
def _load(document: str) -> Holding:
    return load(document)


@lru_cache(maxsize=8)
def _typical(normals: Normals) -> Hourly:
    return typical_year(normals)


@dataclass(frozen=True, slots=True)
class Demands:
    """The house's heat found in two ways, the one to use, and why the second is missing."""

    fabric: Demand
    fuel: Demand | None
    used: Demand
    missing: str


class Asking:
    """What an answer needs to know: which holding, its diary, the weather and the moment.

    Parameters
    ----------
    document : str
        The holding's description, in TOML.
    moment : datetime
        The moment asked about, with its offset.
    entries : tuple of Entry
        The diary.
    weather : Hourly, optional
        Hourly weather from a file; without it a typical year is made from the holding's monthly means.
    version : int
        Which version of the description it is.
    valid_from : datetime, optional
        Since when it is true.
    last_entry : str
        A mark that changes with every entry.
    """

    def __init__(
        self,
        document: str,
        moment: datetime,
        *,
        entries: tuple[Entry, ...] = (),
        weather: Hourly | None = None,
        version: int = 1,
        valid_from: datetime | None = None,
        last_entry: str = "",
    ) -> None:
        self.document = document
        self.entries = entries
        self.version = version
        self.last_entry = last_entry
        self._weather = weather
        self.holding = _load(document)
        self.moment = moment.astimezone(self.zone)
        self.valid_from = (valid_from or moment).astimezone(self.zone)
        self._is_traced = False
        self._remember: Callable[[Callable[[Asking], FollowedYard], Asking], FollowedYard] | None = None

    @property
    def zone(self) -> ZoneInfo:
        """The time zone of the place."""
        return ZoneInfo(self.holding.place.zone_name)

    @property
    def measures(self) -> dict[str, str]:
        """The units the owner likes to read, by the unit that figures have."""
        wanted = self.holding.measures
        return {
            "degC": "degF" if wanted.temperature == "F" else "degC",
            "kWh": wanted.energy,
            "t": wanted.mass,
            **({"m3": "cord"} if wanted.volume == "cord" else {}),
        }

    @cached_property
    def folded(self) -> Folded:
        """The diary added up to the moment."""
        yard = self.holding.yard
        places = tuple(place.name for place in yard.places)
        return fold(self.entries, container_sizes(yard.containers), until=self.moment, places=places)

    @property
    def split_wood(self) -> dict[str, StackContents]:
        """All split wood outside the boiler room, by place: stacks, and the heap that waits for it."""
        piles = dict(self.folded.stacks)
        if self.folded.heap is not None:
            piles[self.folded.heap.place] = self.folded.heap
        return piles

    @property
    def in_the_round(self) -> dict[str, StackContents]:
        """Wood that is not split yet, by place."""
        return {**self.folded.in_wood, **self.folded.roadside}

    @cached_property
    def stock(self) -> YardStock:
        """The yard added up."""
        return yard_stock(
            self.split_wood,
            self.holding.yard.limits,
            boiler_room=self.folded.boiler_room,
            in_the_round=self.in_the_round,
            reckoned={name: one.now for name, one in self.following.stacks.items()},
        )

    @cached_property
    def following(self) -> FollowedYard:
        """Every stack followed by the drying model to the moment, and foretold from there."""
        from woodreeve.records.following import follow_yard

        return self._remember(follow_yard, self) if self._remember else follow_yard(self)

    @cached_property
    def burning(self) -> Burning:
        """The order in which to burn the stacks, and what is kept for neighbours."""
        from woodreeve.records.following import burning_of

        return burning_of(self)

    @cached_property
    def demands(self) -> Demands:
        """The heat the house wants, from its fabric and from past fuel.

        Raises
        ------
        Unknown
            If house or weather are not known enough.
        """
        house, weather, design = self.holding.house, self.weather, self.holding.climate.design_c
        fabric = demand(house, weather, design_outdoor_c=design)
        if not house.past_fuel:
            return Demands(fabric, None, fabric, "no past fuel has been told")
        base = fabric.base_temperature_c
        try:
            signature = signature_of_house(house, weather, base)
            fuel = demand_from_fuel(house, weather, signature, base, design_outdoor_c=design)
        except (Unknown, OutOfRange, Refused) as reason:
            return Demands(fabric, None, fabric, str(reason))
        return Demands(fabric, fuel, weighed_demand(fabric, fuel), "")

    @cached_property
    def weather(self) -> Hourly:
        """The weather of a usual year: from the file if there is one, or made from the monthly means.

        Raises
        ------
        Unknown
            If there is neither.
        """
        if self._weather is not None:
            return self._weather
        normals = self.holding.normals()
        if normals is None:
            raise Unknown(
                "The usual weather is not known: give twelve monthly mean temperatures in the section "
                "climate, or a "
                "weather file."
            )
        return typical_year(normals) if self._is_traced else _typical(normals)

    @property
    def key(self) -> tuple[object, ...]:
        """All that an answer rests on, for remembering it."""
        minute = self.moment.replace(second=0, microsecond=0)
        return self.version, self.document, self.last_entry, id(self._weather), minute

    @contextmanager
    def traced(self) -> Iterator[Asking]:
        """Ask once more with a trace on, everything the owner gave declared as such.

        Yields
        ------
        Asking
            The same question, to be answered inside the block.
        """
        fresh = Asking(
            self.document,
            self.moment,
            entries=self.entries,
            weather=self._weather,
            version=self.version,
            valid_from=self.valid_from,
            last_entry=self.last_entry,
        )
        fresh._is_traced = True
        written = tomlkit.parse(self.document).unwrap()

        def who(path: str) -> str:
            return "given by the owner" if _stands(written, path) else "left open: the field's default"

        with Trace() as trace:
            trace.given(fresh.holding, "holding", who)
            trace.given(fresh.entries, "diary", "logged by the owner")
            trace.given(fresh.moment, "asked about: moment", "the clock")
            if fresh._weather is not None:
                trace.given(fresh._weather, "weather file", fresh._weather.source)
            yield fresh


def _stands(written: Any, path: str) -> bool:
    """Whether a path of the holding, such as ``holding.house.zones.0.wanted_c``, stands in its document."""
    at = written
    for step in path.split(".")[1:]:
        if isinstance(at, list) and step.isdigit() and int(step) < len(at):
            at = at[int(step)]
        elif isinstance(at, dict) and step in at:
            at = at[step]
        else:
            return False
    return True


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
        moment = moment or self.clock()
        version = self.records.holding_at(self.name, moment)
        asking = Asking(
            version.document,
            moment,
            entries=self.records.entries(self.name),
            weather=self._weather,
            version=version.version,
            valid_from=version.valid_from,
            last_entry=self.records.last_entry(self.name),
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


def read_weather(path: Path) -> Hourly:
    """Read hourly weather from a file of any form we know, told by its content.

    Parameters
    ----------
    path : Path
        The file: EPW, DWD test reference year, TMY3, PVGIS (CSV or JSON) or a plain table.

    Returns
    -------
    Hourly
        The weather.

    Raises
    ------
    Unreadable
        If the file cannot be opened, or is of none of these forms.
    """
    try:
        text = path.read_text("latin-1")
    except OSError as error:
        raise Unreadable(f"The weather file {path} cannot be read: {error.strerror}.") from error
    try:
        return _read_weather(text, path.name)
    except Unreadable as error:
        raise Unreadable(f"The weather file {path.name} cannot be read: {error}") from error


def _read_weather(text: str, name: str) -> Hourly:
    head = text[:4000]
    first = head.split("\n", 1)[0]
    stream = io.StringIO(text)
    if first.startswith("LOCATION,"):
        return read_epw(stream)
    if "\n***" in text[:12_000] or head.startswith("***"):
        return read_dwd_try(stream)
    if head.lstrip().startswith("{"):
        return read_tmy(stream, form="pvgis_json")
    if first.startswith("Latitude (decimal degrees)"):
        return read_tmy(stream, form="pvgis_csv")
    if "Date (MM/DD/YYYY)" in head:
        return read_tmy(stream, form="tmy3")
    return read_csv(stream, source=name)
