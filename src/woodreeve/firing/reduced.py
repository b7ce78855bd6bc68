"""A rough plant of two numbers, heat in the store and heat in the firebox, solved for what lies ahead.

It knows no layers, no rooms and no valves, so its plans are not good enough to be followed. But what it
says a kWh in the store is worth at each hour guides the search in the full kernel, and values what is
left at a plan's end.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from woodreeve.firing.flock import Flock
from woodreeve.firing.lots import Lot
from woodreeve.firing.presence import Tending
from woodreeve.firing.prices import PlanPrices
from woodreeve.house.dynamic import RoomDynamics
from woodreeve.season import slots as s
from woodreeve.season.inputs import Fire, Hours
from woodreeve.season.run import Case, run
from woodreeve.season.setup import Prepared
from woodreeve.units import Floats

__all__ = ["CostToGo", "Rough", "Wanted", "cost_to_go", "heat_wanted", "rough_plant"]

ENERGIES, FIRES = 61, 25
"""Points of the grid: heat in the store, and heat in the firebox."""
SIZES = (0.25, 0.4, 0.55, 0.7, 0.85, 1.0)
"""Sizes of a fire that are tried, over a full load."""
OVERFLOW = 0.03
"""Price of a kWh more than the store takes: the rough plant does not know how heat lies in layers, so it only
warns; the kernel forbids. [money/kWh]"""
DRAWN_MEANWHILE_K = 3.0
"""The rough store takes so much more than the true one, as house and taps draw on it within each hour: found
by trying which rough store guides a narrow search best. [K]"""
NO_BACKUP_BELOW_C = 38.0
"""Water cooler than this hardly warms rooms. Judgement. [degC]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Heat that rooms and taps ask for, hour by hour, of a store that always has it."""

    heat_kwh: Floats
    mass_c: Floats
    """Temperatures of air and mass, downstairs and upstairs, at the beginning of each hour. [degC]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rough:
    """The plant's few figures."""

    capacity_kwh_k: float
    useful_above_c: float
    most_kwh: float
    loss_kw_k: float
    room_c: float
    power_kw: float
    tail_h: float
    per_kwh: float
    """Heat to the water for each kWh of wood. [-]"""
    lost_at_lighting_kwh: float
    backup_kw: float
    backup_efficiency: float
    house_kw_k: float
    house_j_k: Floats
    body_j_k: float
    char_j: float

    def energy_kwh(self, flock: Flock, mass_c: Floats) -> Floats:
        """Heat of each future that can be used: in store and boiler, less what the house lacks."""
        above = np.clip(flock.store_c - self.useful_above_c, 0.0, None)
        energy = above.sum(axis=0) * self.capacity_kwh_k / flock.store_c.shape[0]
        body = np.clip(flock.rows[s.BODY_C] - np.maximum(flock.store_c[-1], self.useful_above_c), 0.0, None)
        now = flock.rows[[s.AIR_1_C, s.MASS_1_C, s.AIR_2_C, s.MASS_2_C]]
        house = ((now - mass_c[:, None]) * self.house_j_k[:, None]).sum(axis=0) / 3.6e6
        return np.asarray(
            energy + body * self.body_j_k / 3.6e6 + np.minimum(house, 0.0) + 0.3 * np.maximum(house, 0.0)
        )

    def fire_kwh(self, flock: Flock) -> Floats:
        """Heat that the fuel of each future will still give to the water."""
        fuel = np.clip(flock.rows[s.FUEL_J] - self.char_j, 0.0, None) / 3.6e6
        return np.asarray(fuel * self.per_kwh)

    def useful_kwh(self, wood_kwh: float) -> float:
        """Heat to the water of a fire lit in a cold boiler."""
        return max(self.per_kwh * wood_kwh - self.lost_at_lighting_kwh, 0.0)


def heat_wanted(prepared: Prepared, hours: Hours) -> Wanted:
    """What rooms and taps ask for, by a run with a store that is always hot.

    Parameters
    ----------
    prepared : Prepared
        Plant and rooms in their present state.
    hours : Hours
        The weather ahead.

    Returns
    -------
    Wanted
        Heat of each hour, and how warm the house would be.
    """
    values = prepared.values.copy()
    values[[s.STORE_STEP, s.STORE_COOLING, s.STORE_CONDUCTION]] *= 1e-6
    values[[s.FUEL_J, s.FUEL_KG, s.BURNING]] = 0.0
    values[s.BACKUP_ALLOWED] = 0.0
    hot = replace(prepared, values=values, store_c=np.full(prepared.store.layers, 75.0))
    result = run(Case(prepared=hot, hours=hours))
    given = result.rows[:, s.STORE_TO_ROOMS_J] + result.rows[:, s.STORE_TO_COIL_J]
    return Wanted(
        heat_kwh=np.diff(given) / 3.6e6,
        mass_c=result.rows[:, [s.AIR_1_C, s.MASS_1_C, s.AIR_2_C, s.MASS_2_C]],
    )


def rough_plant(prepared: Prepared, rooms: RoomDynamics, lot: Lot) -> Rough:
    """Read the few figures off the plant, the fire's by two trial fires in the kernel.

    Parameters
    ----------
    prepared : Prepared
        The plant.
    rooms : RoomDynamics
        The house.
    lot : Lot
        The wood of the trial fires.

    Returns
    -------
    Rough
        The rough plant.
    """
    x = prepared.values
    full = min(lot.full_kg, float(x[s.SPACE_KG]))
    gives = [_trial(prepared, lot, share * full) for share in (0.5, 1.0)]
    heat = lot.heat_kwh_per_kg * full
    per_kwh = (gives[1] - gives[0]) / (0.5 * heat)
    allowed = x[s.BACKUP_ALLOWED] > 0.0
    above = float(x[s.BACKUP_BELOW_C]) if allowed and not x[s.BACKUP_FOLLOWS_CURVE] else NO_BACKUP_BELOW_C
    capacity = x[s.STORE_LAYER_J_K] * prepared.store.layers / 3.6e6
    power = x[s.FULL_W] * per_kwh / 1000.0
    filled_c = float(x[s.STORE_LIMIT_C]) + DRAWN_MEANWHILE_K
    step = prepared.settings.step_s
    cooled = x[s.STORE_COOLING] * prepared.store.substeps * prepared.store.layers
    zones = (rooms.downstairs, rooms.upstairs)
    return Rough(
        capacity_kwh_k=float(capacity),
        useful_above_c=above,
        most_kwh=float(capacity) * max(filled_c - above, 5.0),
        loss_kw_k=float(cooled * x[s.STORE_LAYER_J_K] / step / 1000.0),
        room_c=float(x[s.STORE_ROOM_C]),
        power_kw=float(power),
        tail_h=float(step / x[s.TAIL] / 3600.0),
        per_kwh=float(per_kwh),
        lost_at_lighting_kwh=float(max(per_kwh * heat - gives[1], 0.0)),
        backup_kw=float(x[s.BACKUP_W] / 1000.0) if allowed else 0.0,
        backup_efficiency=float(x[s.BACKUP_EFFICIENCY]),
        house_kw_k=sum(
            z.air_out_w_k + (1.0 / (1.0 / z.mass_out_w_k + 1.0 / z.between_w_k) if z.mass_out_w_k else 0.0)
            for z in zones
        )
        / 1000.0,
        house_j_k=1000.0
        * np.array([zones[0].air_kj_k, zones[0].mass_kj_k, zones[1].air_kj_k, zones[1].mass_kj_k]),
        body_j_k=float(x[s.BODY_J_K]),
        char_j=float(x[s.CHAR_J]),
    )


def _trial(prepared: Prepared, lot: Lot, kg: float) -> float:
    """Heat that a fire lit in a cold boiler gives to a large store that stays cool. [kWh]."""
    values = prepared.values.copy()
    values[[s.STORE_STEP, s.STORE_COOLING, s.STORE_CONDUCTION]] *= 1e-6
    values[[s.FUEL_J, s.FUEL_KG, s.BURNING, s.BACKUP_ALLOWED]] = 0.0
    values[s.BODY_C] = 25.0
    cool = replace(prepared, values=values, store_c=np.full(prepared.store.layers, 45.0))
    fire = Fire(hour=0.0, kg=kg, moisture=lot.moisture, heat_kwh_per_kg=lot.heat_kwh_per_kg)
    still = Hours(outdoor_c=np.full(12, 5.0))
    result = run(Case(prepared=cool, hours=still, firing=(fire,)), record_every_h=None)
    return result.kwh(s.CHARGED_J) + result.kwh(s.DIRECT_J)


@dataclass(frozen=True, slots=True, kw_only=True)
class CostToGo:
    """What lies ahead costs, from each hour, store and fire on, if all is done well."""

    values: Floats
    most_kwh: float
    most_fire_kwh: float

    def at(self, hour: float, energy: Floats, fire: Floats) -> Floats:
        """Cost from an hour on. [money]."""
        low = min(int(hour), self.values.shape[0] - 1)
        part = hour - low
        found = self._at_hour(low, energy, fire)
        if part > 1e-9 and low + 1 < self.values.shape[0]:
            found = (1.0 - part) * found + part * self._at_hour(low + 1, energy, fire)
        return found

    def _at_hour(self, hour: int, energy: Floats, fire: Floats) -> Floats:
        table = self.values[hour]
        x = energy / self.most_kwh * (ENERGIES - 1)
        y = np.clip(fire / self.most_fire_kwh, 0.0, 1.0) * (FIRES - 1)
        i = np.clip(x.astype(np.int64), 0, ENERGIES - 2)
        j = np.clip(y.astype(np.int64), 0, FIRES - 2)
        # Beyond the grid's ends the last slopes go on.
        u, v = np.clip(x - i, -ENERGIES, 2.0), y - j
        low = table[i, j] * (1.0 - u) + table[i + 1, j] * u
        high = table[i, j + 1] * (1.0 - u) + table[i + 1, j + 1] * u
        return np.asarray(low * (1.0 - v) + high * v)

    def worth_kwh(self, hour: float, energy: float) -> float:
        """What one more kWh in the store is worth at an hour. [money/kWh]."""
        around = np.array([energy - 2.0, energy + 2.0])
        low, high = self.at(hour, around, np.zeros(2))
        return float(low - high) / 4.0


def cost_to_go(
    rough: Rough,
    wanted_kwh: Floats,
    tending: tuple[Tending, ...],
    lots: tuple[Lot, ...],
    prices: PlanPrices,
    hour_of_day: int,
    most_kg: float,
) -> CostToGo:
    """Solve the rough plant from its end back to now.

    Parameters
    ----------
    rough : Rough
        The rough plant.
    wanted_kwh : array
        Heat wanted in each hour. [kWh]
    tending : tuple of Tending
        When wood may be put on, over all these hours.
    lots : tuple of Lot
        The wood that may be burnt, cheapest first.
    prices : PlanPrices
        What things cost.
    hour_of_day : int
        Hour of the clock at the beginning.
    most_kg : float
        What the firebox holds. [kg]

    Returns
    -------
    CostToGo
        The cost from each hour on.
    """
    hours = wanted_kwh.size
    lot = lots[0] if lots else None
    full_kg = min(lot.full_kg, most_kg) if lot else 1.0
    full_kwh = full_kg * lot.heat_kwh_per_kg if lot else 1.0
    most_fire = 1.1 * rough.per_kwh * full_kwh
    energy = np.linspace(0.0, 1.0, ENERGIES) * rough.most_kwh
    fire = np.linspace(0.0, 1.0, FIRES) * most_fire
    released, j, v = _burnt_in_an_hour(rough, fire)
    cell = rough.most_kwh / (ENERGIES - 1)
    lost = rough.loss_kw_k * (energy / rough.capacity_kwh_k + rough.useful_above_c - rough.room_c)
    ahead = energy[:, None] + released[None, :] - lost[:, None]
    cold_kwh = prices.cold_kh / max(rough.house_kw_k, 1e-6)
    allowed: dict[int, Tending] = {}
    for one in tending:
        allowed.setdefault(int(one.hour), one)
    dead = 0.03 * rough.per_kwh * full_kwh
    embers = 0.10 * rough.per_kwh * full_kwh
    values = np.empty((hours + 1, ENERGIES, FIRES))
    values[hours] = -_worth_at_the_end(rough, prices, lot, full_kwh) * (energy[:, None] + fire[None, :])
    for hour in range(hours - 1, -1, -1):
        after = values[hour + 1][:, j] * (1.0 - v) + values[hour + 1][:, j + 1] * v
        next_energy = ahead - wanted_kwh[hour]
        short = np.clip(-next_energy, 0.0, None)
        over = np.clip(next_energy - rough.most_kwh, 0.0, None)
        by_night = not 6 <= (hour_of_day + hour) % 24 < 22
        weight = prices.backup_weight_night if by_night else prices.backup_weight_day
        backup = prices.backup_fuel_kwh * weight / rough.backup_efficiency
        helped = np.minimum(short, rough.backup_kw)
        cost = helped * min(backup, cold_kwh) if rough.backup_kw else 0.0
        cost = cost + (short - helped) * cold_kwh + over * OVERFLOW
        x = np.clip(next_energy, 0.0, rough.most_kwh) / cell
        i = np.minimum(x.astype(np.int64), ENERGIES - 2)
        u = x - i
        column = np.arange(FIRES)[None, :]
        waits = cost + after[i, column] * (1.0 - u) + after[i + 1, column] * u
        values[hour] = waits
        now = allowed.get(hour)
        if now is not None and lot is not None:
            best_lit, best_laid = _best_fires(rough, waits, most_fire, lot, full_kg, dead)
            odd = prices.odd_visit if now.odd else 0.0
            if now.light:
                lit = (best_lit + prices.lighting + odd)[:, None]
                values[hour] = np.where(fire[None, :] <= dead, np.minimum(waits, lit), values[hour])
            if now.refill:
                laid = (best_laid + prices.refill + odd)[:, None]
                ember = (fire[None, :] > dead) & (fire[None, :] <= embers)
                values[hour] = np.where(ember, np.minimum(values[hour], laid), values[hour])
    return CostToGo(values=values, most_kwh=rough.most_kwh, most_fire_kwh=most_fire)


def _burnt_in_an_hour(
    rough: Rough, fire: Floats
) -> tuple[Floats, np.ndarray[tuple[int], np.dtype[np.int64]], Floats]:
    """Heat given in an hour from each fire, and where on the grid what is left lies."""
    threshold = rough.power_kw * rough.tail_h
    steady = np.clip((fire - threshold) / rough.power_kw, 0.0, 1.0)
    left = np.where(
        fire > threshold,
        np.where(steady < 1.0, threshold * np.exp(-(1.0 - steady) / rough.tail_h), fire - rough.power_kw),
        fire * np.exp(-1.0 / rough.tail_h),
    )
    place = left / fire[-1] * (fire.size - 1)
    j = np.minimum(place.astype(np.int64), fire.size - 2)
    return fire - left, j, place - j


def _best_fires(
    rough: Rough, waits: Floats, most_fire: float, lot: Lot, full_kg: float, dead: float
) -> tuple[Floats, Floats]:
    """The cheapest fire to light and the cheapest load to lay on, for each heat in the store."""
    lit: list[Floats] = []
    laid: list[Floats] = []
    for size in SIZES:
        kg = size * full_kg
        for gains, into in (
            (rough.useful_kwh(kg * lot.heat_kwh_per_kg), lit),
            (rough.per_kwh * kg * lot.heat_kwh_per_kg, laid),
        ):
            place = min(gains / most_fire, 1.0) * (FIRES - 1)
            j = min(int(place), FIRES - 2)
            v = place - j
            into.append(kg * lot.price_kg + waits[:, j] * (1.0 - v) + waits[:, j + 1] * v)
    return np.min(lit, axis=0), np.min(laid, axis=0)


def _worth_at_the_end(rough: Rough, prices: PlanPrices, lot: Lot | None, full_kwh: float) -> float:
    """What a kWh in the store saves later: what a usual fire would cost for it, or the backup if cheaper."""
    backup = prices.backup_fuel_kwh * prices.backup_weight_day / rough.backup_efficiency
    if lot is None:
        return backup
    wood = lot.price_kg / lot.heat_kwh_per_kg * full_kwh + prices.lighting
    fire = wood / max(rough.useful_kwh(full_kwh), 1.0)
    return min(fire, backup) if rough.backup_kw else fire
