"""Answers which boiler and store would suit a house, before they are bought: many tried over winters."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise
from typing import Literal, TypeAlias

from woodreeve.errors import OutOfRange
from woodreeve.holding.document import Holding
from woodreeve.house.demand import demand
from woodreeve.house.from_fuel import weighed_demand
from woodreeve.house.fuel import fuel_energy
from woodreeve.plant.fields import BackupBoiler
from woodreeve.records.asking import Asking
from woodreeve.season.design import Sweep, Variant, design_sweep
from woodreeve.season.inputs import FiringRule
from woodreeve.season.knee import Knee, bigger_store, knee_of_store, running_cost, worth_of_saving
from woodreeve.season.sizes import Choices, Insulation, Presence, boilers_to_try, stores_to_try
from woodreeve.season.year import common_evening_rule
from woodreeve.supply.need import BurntWood, burnt_wood, full_load_kg
from woodreeve.weather.normals import normals_of
from woodreeve.weather.series import Hourly
from woodreeve.weather.typical import hard_winter_year, typical_year
from woodreeve.wood.heat import energy_per_kg
from woodreeve.wood.mass import stacked_of_mass
from woodreeve.workings import Figure, Said, figure
from woodreeve.workings.trace import current_trace

__all__ = [
    "WEATHERS",
    "DesignAnswer",
    "Line",
    "Picked",
    "Priced",
    "Step",
    "Tried",
    "WeatherName",
    "answer",
    "tried",
    "weighed",
]

WeatherName: TypeAlias = Literal["typical", "free", "hard"]
"""A typical winter, one as it may fall, and a hard one."""

WEATHERS: tuple[WeatherName, ...] = ("typical", "free", "hard")

Key: TypeAlias = tuple[float, float, Insulation, Presence]

NET_OF_GROSS = {"natural_gas": 1.0 / 1.11, "lpg": 1.0 / 1.09, "oil": 1.0 / 1.07}
"""Net heat in a gross kWh of a fuel, rounded, from memory. [-]"""

LEAST_SPARED = 10.0
"""So many firings a winter should 500 litres more spare, where the owner has not said. Judgement. [-]"""


@dataclass(frozen=True, slots=True)
class Picked:
    """Which variant is looked at, and what a bigger store should spare."""

    boiler_kw: float | None = None
    store_litres: float | None = None
    insulation: Insulation = "as_it_is"
    presence: Presence = "morning_and_evening"
    least_spared: float = LEAST_SPARED


@dataclass(frozen=True, slots=True)
class Tried:
    """Runs that are done, the house's load, and what was tried."""

    sweep: Sweep
    design_load_kw: Figure
    choices: Choices


@dataclass(frozen=True, slots=True)
class Line:
    """One variant in the three winters; where one figure stands alone it is the typical winter's."""

    boiler_kw: Figure
    store_litres: Figure
    insulation: Insulation
    presence: Presence
    load_kg: Figure
    fires: tuple[Figure, ...]
    fires_for_all: Figure
    backup_share: tuple[Figure, ...]
    cold_kh: tuple[Figure, ...]
    wood_kg: tuple[Figure, ...]
    store_loss_kwh: Figure
    cost: Figure | None


@dataclass(frozen=True, slots=True)
class Step:
    """What the next larger store buys."""

    from_litres: Figure
    to_litres: Figure
    fires_spared: Figure
    spared_for_500: Figure
    backup_spared_kwh: Figure
    worth: Figure | None


@dataclass(frozen=True, slots=True)
class Priced:
    """Prices that the running cost rests on, and the fields of those that are missing."""

    wood: BurntWood
    costs: Mapping[str, float]
    missing: tuple[str, ...]
    currency: str

    @property
    def known(self) -> bool:
        """Whether wood and backup fuel have a price."""
        return set(self.missing) <= {"prices.lighting"}


@dataclass(frozen=True, slots=True)
class DesignAnswer:
    """Every variant, the knee for each boiler, and what each step of the picked one buys."""

    moment: datetime
    sentence: Said
    design_load_kw: Figure
    picked: Picked
    weathers: tuple[WeatherName, ...]
    boilers_kw: tuple[float, ...]
    stores_litres: tuple[float, ...]
    insulations: tuple[Insulation, ...]
    presences: tuple[Presence, ...]
    lines: tuple[Line, ...]
    knees: tuple[Figure, ...]
    knees_reached: tuple[bool, ...]
    steps: tuple[Step, ...]
    picked_line: Line
    missing_prices: tuple[str, ...]
    assumed: tuple[str, ...]

    def line(self, boiler_kw: float, litres: float, insulation: str, presence: str) -> Line:
        """One variant by its figures."""
        return next(
            one
            for one in self.lines
            if (one.boiler_kw.value, one.store_litres.value) == (boiler_kw, litres)
            and (one.insulation, one.presence) == (insulation, presence)
        )

    def lines_of(self, boiler_kw: float, insulation: str, presence: str) -> tuple[Line, ...]:
        """The variants that differ in their store only, the smallest first."""
        return tuple(self.line(boiler_kw, litres, insulation, presence) for litres in self.stores_litres)


def answer(
    asking: Asking,
    picked: Picked | None = None,
    *,
    choices: Choices | None = None,
    progress: Callable[[float], bool] | None = None,
) -> DesignAnswer:
    """Answer for one holding, whether it has a plant yet or not.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather and the moment.
    picked : Picked, optional
        Which variant is looked at.
    choices : Choices, optional
        What is tried; sizes that suit the house if left out.
    progress : callable, optional
        Told the share done; the work stops where it answers False.

    Returns
    -------
    DesignAnswer
        All variants, knees and steps.

    Raises
    ------
    Unknown
        If house or weather are not known enough.
    Refused
        If part of the plant is not modelled, or the work was stopped.
    """
    return weighed(asking, tried(asking, choices, progress), picked or Picked())


def tried(
    asking: Asking, choices: Choices | None = None, progress: Callable[[float], bool] | None = None
) -> Tried:
    """Run all variants: the long part, which does not depend on what is picked."""
    holding = asking.holding
    load = _design_load(asking)
    if choices is None:
        choices = Choices(
            boilers_kw=boilers_to_try(load.value, holding.plant.boiler.output_kw),
            stores_litres=stores_to_try(load.value, holding.plant.store.litres),
        )
    _declare(choices)
    boiler = holding.plant.boiler
    load_kg = _full_load(asking)
    rule = _rule(asking, load_kg)
    space = {} if boiler.fuel_space_litres is None else {"space_litres": boiler.fuel_space_litres}
    sweep = design_sweep(
        holding.house, holding.plant, _winters(asking), rule, load_kg, choices, progress=progress, **space
    )
    return Tried(sweep, load, choices)


def weighed(asking: Asking, done: Tried, picked: Picked) -> DesignAnswer:
    """Weigh runs that are done: knees, steps and costs, at once."""
    sweep, load_kw, choices = done.sweep, done.design_load_kw, done.choices
    picked = _snapped(picked, asking.holding, load_kw.value, choices)
    assert picked.boiler_kw is not None
    assert picked.store_litres is not None
    priced = _priced(asking)
    lines = {_key(one): _line(one, priced) for one in sweep.variants}
    stores = choices.stores_litres
    variants = {_key(one): one for one in sweep.variants}

    def row(boiler_kw: float) -> list[Variant]:
        return [variants[boiler_kw, litres, picked.insulation, picked.presence] for litres in stores]

    knees = [_knee(row(boiler_kw), picked) for boiler_kw in choices.boilers_kw]
    own = row(picked.boiler_kw)
    knee = knees[choices.boilers_kw.index(picked.boiler_kw)]
    shown = lines[picked.boiler_kw, picked.store_litres, picked.insulation, picked.presence]
    return DesignAnswer(
        moment=asking.moment,
        sentence=_sentence(knee, picked, own, lines),
        design_load_kw=load_kw,
        picked=picked,
        weathers=WEATHERS,
        boilers_kw=choices.boilers_kw,
        stores_litres=stores,
        insulations=choices.insulations,
        presences=choices.presences,
        lines=tuple(lines.values()),
        knees=tuple(figure(one.litres, "L", knee_of_store, basis="store") for one in knees),
        knees_reached=tuple(one.reached for one in knees),
        steps=_steps(own, knee, priced, asking.holding),
        picked_line=shown,
        missing_prices=priced.missing,
        assumed=sweep.assumed,
    )


def _key(one: Variant) -> Key:
    return one.boiler_kw, one.store_litres, one.insulation, one.presence


def _design_load(asking: Asking) -> Figure:
    used = asking.demands.used
    by = weighed_demand if used.method == "both" else demand
    return figure(used.design_load_kw, "kW", by, basis="on the coldest day")


def _winters(asking: Asking) -> tuple[Hourly, ...]:
    usual = asking.weather
    told = asking.holding.normals()
    normals = normals_of(usual) if told is None else told
    return (
        usual,
        typical_year(normals, free=True),
        hard_winter_year(normals, spell_c=asking.holding.climate.design_c),
    )


def _full_load(asking: Asking) -> float:
    """A full load of the owner's wood; of a fuel space of 100 litres where none is told."""
    boiler = asking.holding.plant.boiler
    wood = burnt_wood(asking.stock, asking.holding.yard.limits, boiler.log_length_cm)
    told = boiler if boiler.fuel_space_litres is not None else replace(boiler, fuel_space_litres=100.0)
    return full_load_kg(told, wood)


def _rule(asking: Asking, load_kg: float) -> FiringRule:
    """The common rule with the owner's wood."""
    boiler = asking.holding.plant.boiler
    wood = burnt_wood(asking.stock, asking.holding.yard.limits, boiler.log_length_cm)
    heat = energy_per_kg(wood.mix, wood.moisture)
    if boiler.efficiency_net is None:
        return common_evening_rule(load_kg, wood.moisture, heat)
    return common_evening_rule(load_kg, wood.moisture, heat, boiler.efficiency_net)


def _declare(choices: Choices) -> None:
    """Tell a trace what is tried."""
    trace = current_trace()
    if trace is not None:
        trace.given(choices, "question.choices", "asked for")


def _snapped(picked: Picked, holding: Holding, load_kw: float, choices: Choices) -> Picked:
    """The nearest variant that was tried to the one asked for, or to what is there, or to a usual one."""
    boiler = picked.boiler_kw or holding.plant.boiler.output_kw or 2.0 * load_kw
    litres = picked.store_litres or holding.plant.store.litres or 55.0 * boiler
    insulation = picked.insulation if picked.insulation in choices.insulations else choices.insulations[0]
    presence = picked.presence if picked.presence in choices.presences else choices.presences[-1]
    if not 0.0 < picked.least_spared <= 500.0:
        raise OutOfRange("spares", f"{picked.least_spared:g}", "more than 0, up to 500", "firings")
    return Picked(
        boiler_kw=min(choices.boilers_kw, key=lambda one: abs(one - boiler)),
        store_litres=min(choices.stores_litres, key=lambda one: abs(one - litres)),
        insulation=insulation,
        presence=presence,
        least_spared=picked.least_spared,
    )


def _priced(asking: Asking) -> Priced:
    """The owner's prices of wood, backup fuel and lighting; what is missing is named."""
    prices, plant = asking.holding.prices, asking.holding.plant
    wood = burnt_wood(asking.stock, asking.holding.yard.limits, plant.boiler.log_length_cm)
    costs: dict[str, float] = {}
    missing = []
    if prices.own_wood_stacked_m3 is None:
        missing.append("prices.own_wood_stacked_m3")
    else:
        costs["wood_price"] = prices.own_wood_stacked_m3
    fuel = _fuel_price(asking.holding, plant.backup)
    if fuel is None:
        missing.append("prices.backup_fuel")
    else:
        costs |= fuel
    if prices.lighting is None:
        missing.append("prices.lighting")
    else:
        costs["lighting_price"] = prices.lighting
    return Priced(wood, costs, tuple(missing), prices.currency)


def _fuel_price(holding: Holding, backup: BackupBoiler) -> dict[str, float] | None:
    """Price and net heat of a litre or a kWh of the backup's fuel; nothing where there is no backup."""
    prices = holding.prices
    if backup.fuel in (None, "none"):
        return {}
    if backup.fuel == "electricity":
        return None if prices.electricity is None else {"fuel_price": prices.electricity}
    if prices.backup_fuel_litre is not None and backup.fuel in ("oil", "lpg"):
        heat = fuel_energy("kerosene" if backup.fuel == "oil" else "lpg", "net")
        return {"fuel_price": prices.backup_fuel_litre, "fuel_kwh": heat}
    if prices.backup_fuel is None:
        return None
    if prices.backup_fuel_basis == "net":
        return {"fuel_price": prices.backup_fuel}
    return {"fuel_price": prices.backup_fuel, "fuel_kwh": NET_OF_GROSS.get(backup.fuel, 1.0)}


def _cost(one: Variant, priced: Priced) -> float | None:
    if not priced.known:
        return None
    typical, wood = one.winters[0], priced.wood
    stacked_m3 = stacked_of_mass(wood.mix, typical.wood_kg, wood.moisture, wood.form)
    return running_cost(typical, stacked_m3=stacked_m3, **priced.costs)


def _line(one: Variant, priced: Priced) -> Line:
    def of(name: str, unit: str, basis: str = "") -> tuple[Figure, ...]:
        return tuple(figure(getattr(winter, name), unit, design_sweep, basis=basis) for winter in one.winters)

    cost = _cost(one, priced)
    return Line(
        boiler_kw=figure(one.boiler_kw, "kW", design_sweep),
        store_litres=figure(one.store_litres, "L", design_sweep, basis="store"),
        insulation=one.insulation,
        presence=one.presence,
        load_kg=figure(one.load_kg, "kg", design_sweep, basis="as burnt"),
        fires=of("fires", "1", "October to April"),
        fires_for_all=of("fires_for_all", "1", "the backup's heat counted in")[0],
        backup_share=of("backup_share", "-", "of all heat given"),
        cold_kh=of("cold_kh", "K*h", "under the wanted temperature"),
        wood_kg=of("wood_kg", "kg", "as burnt"),
        store_loss_kwh=of("store_loss_kwh", "kWh")[0],
        cost=None
        if cost is None
        else figure(cost, priced.currency, running_cost, basis="of a typical winter"),
    )


def _knee(row: list[Variant], picked: Picked) -> Knee:
    return knee_of_store(
        tuple(one.store_litres for one in row),
        tuple(one.winters[0].fires_for_all for one in row),
        picked.least_spared,
    )


def _steps(row: list[Variant], knee: Knee, priced: Priced, holding: Holding) -> tuple[Step, ...]:
    steps = []
    for number, (one, other) in enumerate(pairwise(row)):
        bought = bigger_store(one, other)
        costs = _cost(one, priced), _cost(other, priced)
        worth = None
        if costs[0] is not None and costs[1] is not None:
            prices = holding.prices
            worth = worth_of_saving(costs[0], costs[1], prices.plant_life_years, prices.discount_rate)
        steps.append(
            Step(
                from_litres=figure(one.store_litres, "L", design_sweep, basis="store"),
                to_litres=figure(other.store_litres, "L", design_sweep, basis="store"),
                fires_spared=figure(bought.fires, "1", bigger_store),
                spared_for_500=figure(
                    knee.spared[number], "1", knee_of_store, basis="for 500 l more, backup counted in"
                ),
                backup_spared_kwh=figure(bought.backup_kwh, "kWh", bigger_store),
                worth=None
                if worth is None
                else figure(worth, holding.prices.currency, worth_of_saving, basis="at most, once"),
            )
        )
    return tuple(steps)


def _sentence(knee: Knee, picked: Picked, row: list[Variant], lines: Mapping[Key, Line]) -> Said:
    assert picked.boiler_kw is not None
    at = next(one for one in row if one.store_litres == knee.litres)
    line = lines[_key(at)]
    values: dict[str, Figure | str | int] = {
        "boiler": line.boiler_kw,
        "litres": line.store_litres,
        "fires": line.fires[0],
        "share": line.backup_share[0],
        "least": int(picked.least_spared) if picked.least_spared.is_integer() else str(picked.least_spared),
    }
    return Said("design.knee" if knee.reached else "design.no_knee", values)
