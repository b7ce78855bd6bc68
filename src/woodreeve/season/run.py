"""Run a span: one plant and house through a day, a winter or a year, with every temperature kept."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.season import slots as s
from woodreeve.season.inputs import (
    Event,
    Fault,
    Firing,
    FiringRule,
    Hours,
    fault_events,
    fire_events,
    rule_events,
    rule_values,
)
from woodreeve.season.kernel import advance, fill_radiator_tables
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats

__all__ = ["Balance", "Case", "Lanes", "Result", "run"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One run: plant and house, weather and wishes, fires and faults."""

    prepared: Prepared
    hours: Hours
    firing: Firing = ()
    faults: tuple[Fault, ...] = ()
    electric_discharge: bool = False
    """Whether the thermal discharge's water comes from an electric pump, which a power cut stops."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Heat in, out and stored, in kWh, and what does not close."""

    gained_kwh: float
    given_kwh: float
    stored_kwh: float

    @property
    def open_kwh(self) -> float:
        """What is missing: rounding, if the sums are right."""
        return self.gained_kwh - self.given_kwh - self.stored_kwh

    @property
    def open_share(self) -> float:
        """The same over the heat that went through."""
        through = max(abs(self.gained_kwh), abs(self.given_kwh), abs(self.stored_kwh), 1e-9)
        return abs(self.open_kwh) / through


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What a run gave: snapshots of all rows and layers, the last of them at the end."""

    case: Case
    steps: np.ndarray[tuple[int], np.dtype[np.int64]]
    """Step of each snapshot."""
    rows: Floats
    """Snapshot by row of the working array; see :mod:`woodreeve.season.slots`."""
    store_c: Floats
    """Snapshot by layer of the store, from the lowest. [degC]"""
    cylinder_c: Floats
    """Snapshot by layer of the cylinder, from the lowest. [degC]"""

    @property
    def hours(self) -> Floats:
        """Hours from the beginning, of each snapshot."""
        return np.asarray(self.steps * (self.case.prepared.settings.step_s / 3600.0))

    def series(self, row: int) -> Floats:
        """One row through all snapshots."""
        return self.rows[:, row]

    def total(self, row: int) -> float:
        """A sum at the end, as the kernel keeps it (J, kg, s or a count)."""
        return float(self.rows[-1, row])

    def kwh(self, row: int) -> float:
        """A sum of heat at the end, in kWh."""
        return self.total(row) / 3.6e6

    def store_balance(self) -> Balance:
        """The store's own account."""
        first, last = self.rows[0], self.rows[-1]
        capacity = last[s.STORE_LAYER_J_K] / 3.6e6
        change = (last - first) / 3.6e6
        gained = change[s.CHARGED_J] + change[s.BACKUP_TO_STORE_J]
        given = change[[s.STORE_TO_ROOMS_J, s.STORE_TO_COIL_J, s.CREPT_J, s.STORE_LOSS_J]].sum()
        stored = capacity * (self.store_c[-1].sum() - self.store_c[0].sum())
        return Balance(gained_kwh=float(gained), given_kwh=float(given), stored_kwh=float(stored))

    def cylinder_balance(self) -> Balance:
        """The cylinder's own account."""
        first, last = self.rows[0], self.rows[-1]
        capacity = last[s.CYLINDER_LAYER_J_K] / 3.6e6
        change = (last - first) / 3.6e6
        gained = change[[s.STORE_TO_COIL_J, s.BACKUP_TO_COIL_J, s.IMMERSION_J]].sum()
        given = change[[s.TAPPED_J, s.CYLINDER_LOSS_J]].sum()
        stored = capacity * (self.cylinder_c[-1].sum() - self.cylinder_c[0].sum())
        return Balance(gained_kwh=float(gained), given_kwh=float(given), stored_kwh=float(stored))

    def boiler_balance(self) -> Balance:
        """The log boiler's account: wood in, heat out, heat kept in body and fuel."""
        first, last = self.rows[0], self.rows[-1]
        change = (last - first) / 3.6e6
        out = (s.FLUE_J, s.UNBURNT_J, s.CASING_J, s.DISCHARGE_J, s.STEAM_J, s.CHARGED_J, s.DIRECT_J)
        gained = change[s.LOADED_J] + change[s.CREPT_J]
        stored = (last[s.BODY_C] - first[s.BODY_C]) * last[s.BODY_J_K] / 3.6e6 + change[s.FUEL_J]
        return Balance(
            gained_kwh=float(gained), given_kwh=float(change[list(out)].sum()), stored_kwh=float(stored)
        )

    def house_balance(self, capacities_j_k: Floats) -> Balance:
        """The rooms' account, with the heat capacities of air and mass downstairs and upstairs."""
        first, last = self.rows[0], self.rows[-1]
        change = (last - first) / 3.6e6
        gained = change[[s.SUN_J, s.INSIDE_J, s.RADIATED_1_J, s.RADIATED_2_J]].sum()
        given = change[[s.HOUSE_LOSS_J, s.WINDOW_J]].sum()
        state = [s.AIR_1_C, s.MASS_1_C, s.AIR_2_C, s.MASS_2_C]
        stored = ((last[state] - first[state]) * capacities_j_k).sum() / 3.6e6
        return Balance(gained_kwh=float(gained), given_kwh=float(given), stored_kwh=float(stored))


class Lanes:
    """Runs of one shape, advanced side by side; a span may be advanced in pieces."""

    def __init__(self, cases: list[Case], width: int, record_every_h: float | None) -> None:
        first = cases[0]
        settings = first.prepared.settings
        self.cases, self.width, self.settings = cases, width, settings
        self.lane = (0,) * width
        padded = cases + [cases[-1]] * (width - len(cases))
        self.steps_per_hour = 3600 // settings.step_s
        tables: dict[int, Floats] = {}
        for case in padded:
            if id(case.hours) not in tables:
                tables[id(case.hours)] = case.hours.table()
        order = list(tables)
        self.hours = np.stack(list(tables.values()))
        self.weather_of = np.array([order.index(id(case.hours)) for case in padded], dtype=np.int64)
        self.steps = self.hours.shape[1] * self.steps_per_hour
        self.taps = _taps(first.hours, settings.step_s)
        values = []
        events: list[tuple[int, int, float]] = []
        for number, case in enumerate(padded):
            x = case.prepared.values.copy()
            x[s.RULE] = 0.0
            happening: list[Event] = fault_events(case.faults, x, settings.step_s, case.electric_discharge)
            if isinstance(case.firing, FiringRule):
                for row, value in rule_values(case.firing).items():
                    x[row] = value
                happening += rule_events(
                    case.firing, self.hours.shape[1], case.hours.first_hour_of_day, settings.step_s
                )
            else:
                happening += fire_events(case.firing, settings.step_s)
            values.append(x)
            events += [(event.step, event.row * width + number, event.value) for event in happening]
        events.sort(key=lambda event: event[0])
        self.X = _aligned(np.stack(values, axis=1))
        self.T = _columns([case.prepared.store_c for case in padded])
        self.U = _columns([case.prepared.cylinder_c for case in padded])
        self.store = first.prepared.store.numbers()
        self.cylinder = first.prepared.cylinder.numbers()
        self.event_step = np.array([event[0] for event in events], dtype=np.int64)
        self.event_row = np.array([event[1] for event in events], dtype=np.int64)
        self.event_value = np.array([event[2] for event in events], dtype=np.float64)
        self.cursor = np.zeros(2, dtype=np.int64)
        if record_every_h is None:
            self.record_step = np.array([0, self.steps], dtype=np.int64)
        else:
            every = max(1, round(record_every_h * self.steps_per_hour))
            marks = np.arange(0, self.steps, every, dtype=np.int64)
            self.record_step = np.append(marks, self.steps)
        layers, taps = first.prepared.store.layers, first.prepared.cylinder.layers
        self.row_size = (s.SLOTS + layers + taps) * width
        self.history = _aligned(self.record_step.size * self.row_size)
        self.table_1 = _aligned(s.RADIATOR_STEPS * width)
        self.table_2 = _aligned(s.RADIATOR_STEPS * width)
        self.work = _aligned(4 * width)
        self.net = _aligned(16 * width)
        self.drawn = _aligned(8 * width)
        self.warmth = _aligned(width)
        self.at = 0
        fill_radiator_tables(self.lane, self.X, self.table_1, self.table_2)

    def advance(self, until: int) -> None:
        """Advance to before step `until`."""
        advance(
            self.lane, self.at, until, float(self.settings.step_s), self.steps_per_hour,
            self.cases[0].hours.first_hour_of_day, self.X, self.T, self.U, self.store, self.cylinder,
            self.hours, self.weather_of, self.taps, self.event_step, self.event_row, self.event_value,
            self.cursor, self.record_step, self.history, self.table_1, self.table_2, self.work, self.net,
            self.drawn, self.warmth,
        )  # fmt: skip
        self.at = until

    def results(self) -> list[Result]:
        """The results of all cases, after the last step."""
        layers = self.cases[0].prepared.store.layers
        shaped = self.history.reshape(self.record_step.size, -1, self.width)
        return [
            Result(
                case=case,
                steps=self.record_step,
                rows=shaped[:, : s.SLOTS, number],
                store_c=shaped[:, s.SLOTS : s.SLOTS + layers, number],
                cylinder_c=shaped[:, s.SLOTS + layers :, number],
            )
            for number, case in enumerate(self.cases)
        ]


def _aligned(values: Floats | int) -> Floats:
    """An array that begins on a cache line: whole rows of lanes then never straddle two."""
    given = np.zeros(values) if isinstance(values, int) else np.asarray(values, dtype=np.float64).ravel()
    room = np.zeros(given.size + 8)
    first = (-room.ctypes.data // 8) % 8
    placed = room[first : first + given.size]
    placed[:] = given
    return placed


def _columns(temperatures: list[Floats]) -> Floats:
    """Layers of all lanes, with one layer more for the kernel's own use."""
    together = np.stack([np.append(layers, layers[-1]) for layers in temperatures], axis=1)
    return _aligned(together)


def _taps(hours: Hours, step_s: int) -> Floats:
    """Heat wanted at the taps in each step of the usual day."""
    minutes = (
        np.zeros(1440) if hours.tap_powers_w is None else np.asarray(hours.tap_powers_w, dtype=np.float64)
    )
    if minutes.size != 1440:
        raise OutOfRange("tap_powers_w", f"{minutes.size} long", "1440 long, one value a minute")
    seconds = np.repeat(minutes, 60)
    return np.ascontiguousarray(seconds.reshape(-1, step_s).mean(axis=1))


def run(case: Case, *, record_every_h: float | None = 1.0) -> Result:
    """Run one case through all its hours.

    Parameters
    ----------
    case : Case
        Plant and house, weather and wishes, fires and faults.
    record_every_h : float, optional
        How often everything is kept; ``None`` keeps beginning and end only. [h]

    Returns
    -------
    Result
        Snapshots and sums.

    Raises
    ------
    OutOfRange
        If a series, a fire or a rule is not as it must be.
    """
    lanes = Lanes([replace(case)], 1, record_every_h)
    lanes.advance(lanes.steps)
    return lanes.results()[0]
