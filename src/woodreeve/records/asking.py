"""What an answer needs to know, read together: which holding, its diary, the weather and the moment."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

import tomlkit

from woodreeve.diary.entry import Entry
from woodreeve.diary.fold import fold
from woodreeve.diary.folded import Folded, StackContents
from woodreeve.errors import OutOfRange, Refused, Unknown
from woodreeve.holding.document import Holding
from woodreeve.holding.toml import load
from woodreeve.house.demand import Demand, demand
from woodreeve.house.from_fuel import demand_from_fuel, weighed_demand
from woodreeve.house.signature import signature_of_house
from woodreeve.weather.series import Hourly
from woodreeve.weather.typical import Normals, typical_year
from woodreeve.workings import Trace
from woodreeve.yard.containers import container_sizes
from woodreeve.yard.stock import YardStock, yard_stock

if TYPE_CHECKING:
    from woodreeve.records.following import Burning, FollowedYard
    from woodreeve.weather.forecast import Forecast

__all__ = ["Asking", "Demands", "holding_of"]


@lru_cache(maxsize=8)
def holding_of(document: str) -> Holding:
    """Read a holding's document; the last few are kept read."""
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
    forecast : Forecast, optional
        The newest forecast that was there at the moment.
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
        forecast: Forecast | None = None,
    ) -> None:
        self.document = document
        self.entries = entries
        self.version = version
        self.last_entry = last_entry
        self.forecast = forecast
        self._weather = weather
        self.holding = holding_of(document)
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
        ahead = None if self.forecast is None else (self.forecast.source, self.forecast.fetched)
        return self.version, self.document, self.last_entry, id(self._weather), ahead, minute

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
            forecast=self.forecast,
        )
        fresh._is_traced = True
        written = tomlkit.parse(self.document).unwrap()

        def who(path: str) -> str:
            return "given by the owner" if _stands(written, path) else "left open: the field's default"

        with Trace() as trace:
            trace.given(fresh.holding, "holding", who)
            trace.given(fresh.entries, "diary", "logged by the owner")
            trace.given(fresh.moment, "asked about: moment", "the clock")
            if fresh.forecast is not None:
                trace.given(fresh.forecast, "forecast", fresh.forecast.source)
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
