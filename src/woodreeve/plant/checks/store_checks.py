"""The store against one full load, the night, its losses, and each published rule of its size."""

from __future__ import annotations

from dataclasses import dataclass

from woodreeve.diary.payloads_plant import Lit
from woodreeve.plant.checks.rules import Rule, rule
from woodreeve.plant.checks.store_day import night_heat
from woodreeve.plant.checks.store_rules import en303_store, eu_sheet_store, german_store, litres_per_kilowatt
from woodreeve.plant.checks.store_size import (
    LitAt,
    heat_of_full_load,
    label_loss,
    lighting_temperature,
    load_beyond_house,
    load_into_store,
    return_of,
    usable_store_heat,
)
from woodreeve.plant.checks.verdict import Check, Facts, Verdict, at_least, at_most, check, unknown
from woodreeve.plant.fields import Circuit, Store
from woodreeve.plant.store import class_standing_loss, insulation_loss, standing_loss_per_kelvin
from woodreeve.workings import Figure, figure

__all__ = ["StoreRule", "flow_and_return", "lit_at", "load_of", "store_checks", "store_rules"]

CONTENT_LIMIT_L = 2000.0
"""The European limit of standing loss holds for tanks up to this. [L]"""


SIDE_BY_SIDE = (
    "store_de_must",
    "store_de_should",
    "store_eu_sheet",
    "store_en303",
    "store_ch_so",
    "store_cz",
)
"""The published rules of store size that are shown beside each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreRule:
    """One published rule beside the others: the store it asks for, and how yours stands to it."""

    rule: Rule
    wanted: Figure | None
    verdict: Verdict
    missing: tuple[str, ...] = ()


def load_of(facts: Facts) -> float | None:
    """Heat of a full load; ``None`` where the fuel space is not known."""
    boiler = facts.plant.boiler
    if boiler.fuel_space_litres is None:
        return None
    if boiler.efficiency_net is None:
        return heat_of_full_load(boiler.fuel_space_litres, filling=boiler.filling_share)
    return heat_of_full_load(boiler.fuel_space_litres, boiler.efficiency_net, boiler.filling_share)


def lit_at(facts: Facts) -> LitAt:
    """How warm the store usually is when a fire is lit."""
    told = [one.payload for one in facts.of("lit") if isinstance(one.payload, Lit)]
    return lighting_temperature(tuple(told))


def flow_and_return(circuits: tuple[Circuit, ...]) -> tuple[float, float] | None:
    """The hottest flow that any curve asks for on the coldest day, and its return."""
    told = [one for one in circuits if one.design_flow_c is not None]
    if not told:
        return None
    hottest = max(told, key=lambda one: one.design_flow_c or 0.0)
    assert hottest.design_flow_c is not None
    return hottest.design_flow_c, return_of(hottest.design_flow_c)


def store_rules(facts: Facts) -> tuple[StoreRule, ...]:
    """Every published rule of store size side by side, wherever it holds."""
    return tuple(_line(facts, name) for name in SIDE_BY_SIDE)


def _line(facts: Facts, name: str) -> StoreRule:
    boiler, store = facts.plant.boiler, facts.plant.store
    needed: dict[str, object] = {"plant.boiler.output_kw": boiler.output_kw}
    if name == "store_de_should":
        needed["plant.boiler.fuel_space_litres"] = boiler.fuel_space_litres
    if name == "store_en303":
        needed |= {
            "plant.boiler.burn_hours": boiler.burn_hours,
            "plant.boiler.least_output_kw": boiler.least_output_kw,
            "house": facts.design_load_kw,
        }
    missing = [path for path, value in needed.items() if value is None]
    wanted = None if missing else _wanted(facts, name)
    if store.litres is None:
        missing.append("plant.store.litres")
    verdict: Verdict = "not_known"
    if wanted is not None and store.litres is not None:
        verdict = at_least(store.litres, wanted.value)
    return StoreRule(rule=rule(name), wanted=wanted, verdict=verdict, missing=tuple(missing))


def _wanted(facts: Facts, name: str) -> Figure:
    boiler = facts.plant.boiler
    assert boiler.output_kw is not None
    if name == "store_en303":
        assert boiler.burn_hours is not None
        assert boiler.least_output_kw is not None
        assert facts.design_load_kw is not None
        litres = en303_store(
            boiler.burn_hours, boiler.output_kw, facts.design_load_kw, boiler.least_output_kw
        )
        return figure(litres, "L", en303_store, basis="store")
    if name == "store_de_should":
        assert boiler.fuel_space_litres is not None
        return figure(
            german_store(boiler.output_kw, boiler.fuel_space_litres), "L", german_store, basis="store"
        )
    if name == "store_eu_sheet":
        return figure(eu_sheet_store(boiler.output_kw), "L", eu_sheet_store, basis="store")
    return figure(litres_per_kilowatt(boiler.output_kw), "L", litres_per_kilowatt, basis="store")


def loss_of(store: Store) -> float | None:
    """Loss for each degree of the whole store, as told; ``None`` where nothing was told."""
    if store.loss_w_per_k is not None:
        return store.loss_w_per_k
    if store.litres is None:
        return None
    if store.energy_class is not None and store.energy_class != "G" and store.tanks == 1:
        return standing_loss_per_kelvin(store.litres, store.energy_class)
    if store.insulation_cm and store.height_m is not None and store.tanks == 1:
        return insulation_loss(store.litres, store.height_m, store.insulation_cm)
    return None


def store_checks(facts: Facts) -> list[Check]:
    """Check the store against a full load, the night, and the law."""
    return [*_full_load(facts), _night(facts), _law(facts), _loss(facts)]


def _full_load(facts: Facts) -> list[Check]:
    keys, plant = ("store.full_load", "store.mild_day"), facts.plant
    load = load_of(facts)
    if load is None:
        return [unknown(facts, key, "plant.boiler.fuel_space_litres") for key in keys]
    if plant.store.litres is None:
        return [unknown(facts, key, "plant.store.litres") for key in keys]
    found = load_into_store(load, plant.store.litres, plant.store.limit_c, lit_at(facts).mean_c)
    share = figure(found.share, "-", load_into_store, basis="of a full load")
    mild = check(facts, keys[1], "fits" if found.share >= 1.0 else "tight", yours=share)
    if plant.boiler.output_kw is None:
        return [unknown(facts, keys[0], "plant.boiler.output_kw"), mild]
    if facts.design_load_kw is None:
        return [unknown(facts, keys[0], "house"), mild]
    left = load_beyond_house(load, facts.design_load_kw, plant.boiler.output_kw)
    cold = check(
        facts,
        keys[0],
        at_least(found.room_kwh, left),
        yours=figure(found.room_kwh, "kWh", load_into_store, basis="room in the store when lit"),
        wanted=figure(left, "kWh", load_beyond_house, basis="a full load, less what the house draws"),
        meant="at_least",
    )
    return [cold, mild]


def _night(facts: Facts) -> Check:
    key, store = "store.night", facts.plant.store
    curve = flow_and_return(facts.plant.circuits)
    if store.litres is None:
        return unknown(facts, key, "plant.store.litres")
    if curve is None:
        return unknown(facts, key, "plant.circuits[0].design_flow_c")
    if facts.design_load_kw is None:
        return unknown(facts, key, "house")
    usable = usable_store_heat(store.litres, store.limit_c, *curve)
    night = night_heat(facts.design_load_kw)
    return check(
        facts,
        key,
        at_least(usable.kwh, night),
        yours=figure(
            usable.kwh,
            "kWh",
            usable_store_heat,
            basis="usable down to the curve's flow",
            low=usable.mixed_kwh,
            high=usable.layered_kwh,
        ),
        wanted=figure(night, "kWh", night_heat, basis="eight hours of the coldest day"),
        meant="at_least",
    )


def _law(facts: Facts) -> Check:
    key, plant = "store.law", facts.plant
    if facts.nation in ("germany", "switzerland"):
        if plant.boiler.output_kw is None:
            return unknown(facts, key, "plant.boiler.output_kw")
        if plant.store.litres is None:
            return unknown(facts, key, "plant.store.litres")
        least = litres_per_kilowatt(plant.boiler.output_kw)
        return check(
            facts,
            key,
            at_least(plant.store.litres, least),
            yours=figure(plant.store.litres, "L", "holding: plant.store.litres", basis="store"),
            wanted=figure(least, "L", litres_per_kilowatt, basis="store"),
            meant="at_least",
        )
    return check(facts, key, "not_known")


def _loss(facts: Facts) -> Check:
    key, store = "store.loss", facts.plant.store
    if store.litres is None:
        return unknown(facts, key, "plant.store.litres")
    each = loss_of(store)
    if each is None:
        return unknown(facts, key, "plant.store.energy_class")
    watts = label_loss(each)
    most = class_standing_loss(store.litres, "C")
    verdict = at_most(watts, most, tight=0.0) if store.litres <= CONTENT_LIMIT_L else "fits"
    return check(
        facts,
        key,
        verdict,
        yours=figure(watts, "W", label_loss, basis="water at 65 °C in a room of 20 °C"),
        wanted=figure(most, "W", class_standing_loss, basis="limit of class C"),
        meant="at_most",
    )
