"""Many futures of one plant side by side: copied where a choice parts them, fed with wood, and advanced."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from woodreeve.errors import OutOfRange
from woodreeve.season import slots as s
from woodreeve.season.batch import LANES
from woodreeve.season.inputs import Hours
from woodreeve.season.run import Case, Lanes, Result
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats

__all__ = ["Flock", "Ints", "PlantState", "Runner", "begin_from", "state_at"]

Ints = NDArray[np.int64]

CHANGING = 18
"""So many rows of the working array change by themselves: they are the state. See :mod:`season.slots`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantState:
    """All temperatures, the fuel that is left, and what burner and pumps are doing.

    Parameters
    ----------
    rows : array
        The first 18 rows of the kernel's working array.
    store_c, cylinder_c : array
        Layers from the lowest. [degC]
    load_kwh : float
        Net heat of the load that burns, or burnt last. [kWh]
    """

    rows: Floats
    store_c: Floats
    cylinder_c: Floats
    load_kwh: float = 0.0


def state_at(result: Result, snapshot: int = -1, load_kwh: float = 0.0) -> PlantState:
    """The state that a run has come to.

    Parameters
    ----------
    result : Result
        A run.
    snapshot : int
        Which of its snapshots; the last if left out.
    load_kwh : float
        Net heat of the load that burns. [kWh]

    Returns
    -------
    PlantState
        Temperatures and fuel at that time.
    """
    return PlantState(
        rows=np.array(result.rows[snapshot, :CHANGING]),
        store_c=np.array(result.store_c[snapshot]),
        cylinder_c=np.array(result.cylinder_c[snapshot]),
        load_kwh=load_kwh,
    )


def begin_from(prepared: Prepared, state: PlantState) -> Prepared:
    """The same plant, at the beginning in another state.

    Raises
    ------
    OutOfRange
        If the state was made with another number of layers.
    """
    for name, given, wanted in (
        ("layers of the store", state.store_c.size, prepared.store.layers),
        ("layers of the cylinder", state.cylinder_c.size, prepared.cylinder.layers),
    ):
        if given != wanted:
            raise OutOfRange(name, given, f"{wanted}, as the plant has")
    values = prepared.values.copy()
    values[:CHANGING] = state.rows
    values[s.TOTALS :] = 0.0
    values[s.HOTTEST_BODY_C] = values[s.BODY_C]
    values[s.HOTTEST_STORE_C] = state.store_c[-1]
    return replace(prepared, values=values, store_c=state.store_c, cylinder_c=state.cylinder_c)


@dataclass(slots=True)
class Flock:
    """So many futures: the working array and the layers of each, a column for each future."""

    rows: Floats
    store_c: Floats
    cylinder_c: Floats
    weather: Ints

    @classmethod
    def of(cls, prepared: Prepared, weather: Ints) -> Flock:
        """As many like futures as numbers of weathers are given."""
        n = weather.size
        values = prepared.values.copy()
        values[s.RULE] = 0.0
        return cls(
            np.repeat(values[:, None], n, axis=1),
            np.repeat(prepared.store_c[:, None], n, axis=1),
            np.repeat(prepared.cylinder_c[:, None], n, axis=1),
            weather.astype(np.int64),
        )

    @property
    def size(self) -> int:
        """How many futures."""
        return int(self.weather.size)

    def take(self, which: Ints) -> Flock:
        """The futures with these numbers; one named twice is copied."""
        return Flock(
            self.rows[:, which], self.store_c[:, which], self.cylinder_c[:, which], self.weather[which]
        )

    def load(self, which: Ints, kg: Floats, heat_kwh_per_kg: Floats, moisture: Floats) -> None:
        """Put wood into the boilers of some futures, and begin to watch their temperatures anew."""
        self.rows[s.LOAD_KG, which] = kg
        self.rows[s.LOAD_J_PER_KG, which] = heat_kwh_per_kg * 3.6e6
        self.rows[s.LOAD_MOISTURE, which] = moisture
        self.rows[s.HOTTEST_BODY_C, which] = self.rows[s.BODY_C, which]
        self.rows[s.HOTTEST_STORE_C, which] = self.store_c[-1, which]

    def total(self, row: int) -> Floats:
        """One row of the working array."""
        return np.asarray(self.rows[row])


class Runner:
    """Advances flocks through the hours ahead with the full kernel, sixteen futures at a time."""

    def __init__(self, prepared: Prepared, hours: tuple[Hours, ...]) -> None:
        cases = [Case(prepared=prepared, hours=hours[min(n, len(hours) - 1)]) for n in range(LANES)]
        self._lanes = Lanes(cases, LANES, None)
        self.steps_per_hour = self._lanes.steps_per_hour
        self.last_step = self._lanes.steps
        self._layers, self._taps = prepared.store.layers, prepared.cylinder.layers

    def step_of(self, hour: float) -> int:
        """The step that begins at an hour."""
        return round(hour * self.steps_per_hour)

    def advance(self, flock: Flock, first: int, last: int) -> None:
        """Advance all futures from before step ``first`` to before step ``last``, in place."""
        if last <= first or flock.size == 0:
            return
        lanes = self._lanes
        X = lanes.X.reshape(s.SLOTS, LANES)
        T = lanes.T.reshape(self._layers + 1, LANES)
        U = lanes.U.reshape(self._taps + 1, LANES)
        for begin in range(0, flock.size, LANES):
            end = min(begin + LANES, flock.size)
            n = end - begin
            X[:, :n] = flock.rows[:, begin:end]
            T[: self._layers, :n] = flock.store_c[:, begin:end]
            U[: self._taps, :n] = flock.cylinder_c[:, begin:end]
            lanes.weather_of[:n] = flock.weather[begin:end]
            if n < LANES:
                X[:, n:] = X[:, :1]
                T[:, n:] = T[:, :1]
                U[:, n:] = U[:, :1]
                lanes.weather_of[n:] = lanes.weather_of[0]
            lanes.at = first
            lanes.cursor[:] = (0, 2)
            lanes.advance(last)
            flock.rows[:, begin:end] = X[:, :n]
            flock.store_c[:, begin:end] = T[: self._layers, :n]
            flock.cylinder_c[:, begin:end] = U[: self._taps, :n]
