"""Answers whether the plant is rightly sized, safe and legal, to the best of our knowledge."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, datetime

from woodreeve.errors import Unknown
from woodreeve.house.demand import demand
from woodreeve.house.from_fuel import weighed_demand
from woodreeve.plant.checks.all import all_checks, first_to_tell
from woodreeve.plant.checks.efficiency_claim import Claim, efficiency_by_flue, open_claim, usual_claims
from woodreeve.plant.checks.heating import radiators_at_store
from woodreeve.plant.checks.limits import class_efficiency, eu_least_efficiency
from woodreeve.plant.checks.pump import pump_point, pump_point_of
from woodreeve.plant.checks.rules import Nation, gathered_on
from woodreeve.plant.checks.smoke import AIR_RATIOS, MOISTURES, smoke_dew_points
from woodreeve.plant.checks.store_checks import StoreRule, flow_and_return, lit_at, load_of, store_rules
from woodreeve.plant.checks.store_size import (
    heat_of_full_load,
    lighting_temperature,
    load_into_store,
    usable_store_heat,
)
from woodreeve.plant.checks.verdict import Check, Facts
from woodreeve.plant.fields import LogBoiler
from woodreeve.records.asking import Asking
from woodreeve.workings import Figure, Said, figure

__all__ = [
    "ClaimLine",
    "DewPointLine",
    "Efficiency",
    "Loads",
    "PlantAnswer",
    "PumpWork",
    "StoreLine",
    "answer",
    "facts_of",
]


@dataclass(frozen=True, slots=True)
class Loads:
    """What a load, a store and a day come to."""

    full_load_kwh: Figure | None
    lit_at_c: Figure
    lit_fires: int
    room_kwh: Figure | None
    share_that_fits: Figure | None
    usable_kwh: Figure | None


@dataclass(frozen=True, slots=True)
class PumpWork:
    """Where the charging pump works: pipes and fittings alone."""

    flow_kg_h: Figure
    speed_m_s: Figure
    friction_pa_m: Figure
    pressure_kpa: Figure
    head_m: Figure


@dataclass(frozen=True, slots=True)
class ClaimLine:
    """A claim of efficiency, opened."""

    yours: bool
    net: Figure
    gross: Figure
    flue_loss: Figure
    flue_c: Figure | None
    possible: bool


@dataclass(frozen=True, slots=True)
class Efficiency:
    """What claims of efficiency mean, and your own by your flue."""

    claims: tuple[ClaimLine, ...]
    own_net: Figure | None
    own_gross: Figure | None
    own_flue_loss: Figure | None
    class_net: Figure | None
    eu_gross: Figure | None


@dataclass(frozen=True, slots=True)
class DewPointLine:
    """Water dew point of the smoke of one wetness, for each air ratio of the table."""

    moisture: float
    points: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class StoreLine:
    """What radiators and floors give with the store's top at a temperature."""

    store_c: float
    output_kw: Figure
    carries_cold_day: bool | None


@dataclass(frozen=True, slots=True)
class PlantAnswer:
    """Every check with its verdict, and the figures behind the sizes."""

    moment: datetime
    sentence: Said
    nation: Nation
    rules_gathered_on: date
    checks: tuple[Check, ...]
    tell_first: str | None
    store_rules: tuple[StoreRule, ...]
    loads: Loads
    design_load_kw: Figure | None
    at_store: tuple[StoreLine, ...]
    pump: PumpWork | None
    efficiency: Efficiency
    air_ratios: tuple[float, ...]
    dew_points: tuple[DewPointLine, ...]
    missing_house: str


def answer(asking: Asking) -> PlantAnswer:
    """Answer for one holding at one moment.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather and the moment.

    Returns
    -------
    PlantAnswer
        The checks in the order of the plant, each with verdict, rule and source. What nobody told is "not
        known" and names the field; without a house the sizes are not known.
    """
    facts, missing = facts_of(asking)
    checks = all_checks(facts)
    first = first_to_tell(checks)
    return PlantAnswer(
        moment=asking.moment,
        sentence=_sentence(checks, first),
        nation=facts.nation,
        rules_gathered_on=gathered_on(),
        checks=checks,
        tell_first=first,
        store_rules=store_rules(facts),
        loads=_loads(facts),
        design_load_kw=None
        if facts.design_load_kw is None
        else figure(facts.design_load_kw, "kW", facts.design_by, basis="house on the coldest day"),
        at_store=_at_store(facts),
        pump=_pump(facts),
        efficiency=_efficiency(facts.plant.boiler),
        air_ratios=AIR_RATIOS,
        dew_points=_dew_points(),
        missing_house=missing,
    )


def facts_of(asking: Asking) -> tuple[Facts, str]:
    """Gather what the checks look at, and say why the house's load is missing where it is."""
    holding = asking.holding
    missing, load, by = "", None, "demand"
    try:
        used = asking.demands.used
        load, by = used.design_load_kw, weighed_demand.__name__ if used.method == "both" else demand.__name__
    except Unknown as reason:
        missing = str(reason)
    facts = Facts(
        plant=holding.plant,
        nation=holding.place.nation or "other",
        on=asking.moment.date(),
        design_load_kw=load,
        design_by=by,
        events=asking.folded.events,
    )
    return facts, missing


def _sentence(checks: tuple[Check, ...], first: str | None) -> Said:
    counted = Counter(one.verdict for one in checks)
    values: dict[str, Figure | str | int] = {
        name: counted[name] for name in ("fits", "tight", "does_not_fit", "not_known")
    }
    if first is not None:
        values["first"] = first
    return Said("plant.checks", values)


def _loads(facts: Facts) -> Loads:
    lit, load, store = lit_at(facts), load_of(facts), facts.plant.store
    room = share = usable = None
    if load is not None and store.litres is not None:
        found = load_into_store(load, store.litres, store.limit_c, lit.mean_c)
        room = figure(found.room_kwh, "kWh", load_into_store, basis="when lit")
        share = figure(found.share, "-", load_into_store, basis="of a full load")
    curve = flow_and_return(facts.plant.circuits)
    if store.litres is not None and curve is not None:
        heat = usable_store_heat(store.litres, store.limit_c, *curve)
        usable = figure(
            heat.kwh,
            "kWh",
            usable_store_heat,
            basis="down to the curve's flow on the coldest day",
            low=heat.mixed_kwh,
            high=heat.layered_kwh,
        )
    return Loads(
        full_load_kwh=None if load is None else figure(load, "kWh", heat_of_full_load, basis="to the water"),
        lit_at_c=figure(lit.mean_c, "degC", lighting_temperature, basis="mean of the store"),
        lit_fires=lit.fires,
        room_kwh=room,
        share_that_fits=share,
        usable_kwh=usable,
    )


def _at_store(facts: Facts) -> tuple[StoreLine, ...]:
    load = facts.design_load_kw
    if not any(one.rated_w for one in facts.plant.circuits):
        return ()
    return tuple(
        StoreLine(
            one.store_c,
            figure(one.output, "kW", radiators_at_store),
            None if load is None else one.output >= load,
        )
        for one in radiators_at_store(facts.plant.circuits)
    )


def _pump(facts: Facts) -> PumpWork | None:
    point = pump_point_of(facts)
    if point is None:
        return None
    return PumpWork(
        flow_kg_h=figure(point.flow_kg_h, "kg/h", pump_point),
        speed_m_s=figure(point.speed_m_s, "m/s", pump_point),
        friction_pa_m=figure(point.friction_pa_m, "Pa/m", pump_point),
        pressure_kpa=figure(point.pressure_kpa, "kPa", pump_point, basis="pipe and fittings alone"),
        head_m=figure(point.head_m, "m", pump_point, basis="pipe and fittings alone"),
    )


def _efficiency(boiler: LogBoiler) -> Efficiency:
    oxygen = {} if boiler.flue_oxygen is None else {"oxygen_dry": boiler.flue_oxygen}
    lines = []
    if boiler.efficiency_net is not None and boiler.efficiency_net >= 0.4:
        lines.append(_claim(open_claim(boiler.efficiency_net, **oxygen), open_claim.__name__, yours=True))
    lines += [_claim(one, usual_claims.__name__) for one in usual_claims(**oxygen)]
    own = None if boiler.flue_gas_c is None else efficiency_by_flue(boiler.flue_gas_c, **oxygen)
    by_flue = "by your flue, at full output"
    in_class = None
    if (
        boiler.output_kw is not None
        and boiler.efficiency_class is not None
        and boiler.efficiency_class != "none"
    ):
        least = class_efficiency(boiler.output_kw, boiler.efficiency_class)
        in_class = figure(least, "-", class_efficiency, basis="net, at full output, in a laboratory")
    return Efficiency(
        claims=tuple(lines),
        own_net=None if own is None else figure(own.net, "-", efficiency_by_flue, basis=f"net, {by_flue}"),
        own_gross=None
        if own is None
        else figure(own.gross, "-", efficiency_by_flue, basis=f"gross, {by_flue}"),
        own_flue_loss=None if own is None else figure(own.flue_loss, "-", efficiency_by_flue, basis="net"),
        class_net=in_class,
        eu_gross=None
        if boiler.output_kw is None
        else figure(eu_least_efficiency(boiler.output_kw), "-", eu_least_efficiency, basis="gross, seasonal"),
    )


def _claim(one: Claim, by: str, *, yours: bool = False) -> ClaimLine:
    return ClaimLine(
        yours=yours,
        net=figure(one.net, "-", by, basis="net"),
        gross=figure(one.gross, "-", by, basis="gross"),
        flue_loss=figure(one.flue_loss, "-", by, basis="net, left for the flue"),
        flue_c=None if one.flue_c is None else figure(one.flue_c, "degC", by, basis="smoke it would need"),
        possible=one.possible,
    )


def _dew_points() -> tuple[DewPointLine, ...]:
    return tuple(
        DewPointLine(moisture, tuple(figure(point, "degC", smoke_dew_points) for point in line.points_c))
        for moisture, line in zip(MOISTURES, smoke_dew_points(), strict=True)
    )
