"""What no single field can tell: figures that contradict each other, and names that lead nowhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from woodreeve.errors import UnknownName
from woodreeve.holding.document import Holding
from woodreeve.holding.reading import Problem
from woodreeve.plant.fields import Circuit, Plant
from woodreeve.wood.species import species

__all__ = ["cross_checks"]


def cross_checks(holding: Holding) -> list[Problem]:
    """List what contradicts itself (serious) or leads nowhere (not serious) in a holding.

    Parameters
    ----------
    holding : Holding
        A holding whose single fields are in order.

    Returns
    -------
    list of Problem
        In the order of the document, without file and line.
    """
    return [
        *_place(holding),
        *_house_and_circuits(holding),
        *_plant(holding.plant),
        *_yard(holding),
        *_woodland(holding),
        *_supply(holding),
        *_wishes(holding),
        *_species(holding),
    ]


def _wrong(path: str, value: object, sentence: str) -> Problem:
    return Problem(path, str(value), f"{path} is {value}, but {sentence}.")


def _odd(path: str, value: object, sentence: str) -> Problem:
    return Problem(path, str(value), f"{path} is {value}, but {sentence}.", serious=False)


def _place(holding: Holding) -> Iterator[Problem]:
    try:
        ZoneInfo(holding.place.zone_name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        yield _wrong(
            "place.zone", holding.place.zone, "no such time zone is known: write it like Europe/London"
        )


def _house_and_circuits(holding: Holding) -> Iterator[Problem]:
    for number, span in enumerate(holding.house.past_fuel):
        if span.last_day <= span.first_day:
            path = f"house.past_fuel[{number}].last_day"
            yield _wrong(path, span.last_day, f"must be after the first day {span.first_day}")
    zones = [zone.name for zone in holding.house.zones]
    for number, circuit in enumerate(holding.plant.circuits):
        path = f"plant.circuits[{number}]"
        if circuit.zone is not None and circuit.zone not in zones:
            yield _odd(f"{path}.zone", circuit.zone, f"the house has no such zone: it has {_listed(zones)}")
        yield from _curve(path, circuit)


def _curve(path: str, circuit: Circuit) -> Iterator[Problem]:
    if circuit.design_flow_c is not None and circuit.mild_flow_c > circuit.design_flow_c:
        yield _wrong(
            f"{path}.mild_flow_c",
            f"{circuit.mild_flow_c:g} degC",
            f"the curve must rise towards the cold, where its flow is {circuit.design_flow_c:g} degC",
        )
    if circuit.design_outdoor_c is not None and circuit.design_outdoor_c >= circuit.mild_outdoor_c:
        yield _wrong(
            f"{path}.design_outdoor_c",
            f"{circuit.design_outdoor_c:g} degC",
            f"the coldest day must be colder than the heating limit of {circuit.mild_outdoor_c:g} degC",
        )
    hottest, wanted = circuit.most_flow_c, circuit.design_flow_c
    if hottest is not None and wanted is not None and wanted > hottest:
        yield _wrong(
            f"{path}.design_flow_c", f"{wanted:g} degC", f"the hottest flow allowed is {hottest:g} degC"
        )


def _plant(plant: Plant) -> Iterator[Problem]:
    boiler, store, water = plant.boiler, plant.store, plant.water
    if (
        boiler.output_kw is not None
        and boiler.least_output_kw is not None
        and boiler.least_output_kw > boiler.output_kw
    ):
        yield _wrong(
            "plant.boiler.least_output_kw",
            f"{boiler.least_output_kw:g} kW",
            f"must not be above the rated output of {boiler.output_kw:g} kW",
        )
    driest, wettest = boiler.least_moisture, boiler.most_moisture
    if driest is not None and wettest is not None and driest >= wettest:
        yield _wrong(
            "plant.boiler.least_moisture",
            f"{driest:g}",
            f"must be below the wettest wood allowed, {wettest:g}",
        )
    for hot, cold, what in (
        ("charge_in_height", "charge_out_height", "the boiler's"),
        ("heating_out_height", "heating_back_height", "the heating's"),
        ("hot_water_out_height", "hot_water_back_height", "the cylinder's"),
    ):
        if getattr(store, hot) <= getattr(store, cold):
            yield _wrong(
                f"plant.store.{hot}",
                f"{getattr(store, hot):g}",
                f"{what} flow port must stand above its return port at {getattr(store, cold):g}",
            )
    if (store.tanks == 1) != (store.arrangement == "single"):
        yield _odd("plant.store.arrangement", store.arrangement, f"the number of tanks is {store.tanks}")
    charge, valve = water.vessel_charge_bar, water.safety_valve_bar
    if charge is not None and valve is not None and charge >= valve:
        yield _wrong(
            "plant.water.vessel_charge_bar",
            f"{charge:g} bar",
            f"must be below the safety valve's {valve:g} bar",
        )


def _yard(holding: Holding) -> Iterator[Problem]:
    limits = holding.yard.limits
    if not limits.ideal <= limits.fine <= limits.wet:
        yield _wrong(
            "yard.limits.fine",
            f"{limits.fine:g}",
            f"must lie between ideal, {limits.ideal:g}, and too wet, {limits.wet:g}",
        )


def _woodland(holding: Holding) -> Iterator[Problem]:
    known = [compartment.name for compartment in holding.woodland.compartments]
    for number, compartment in enumerate(holding.woodland.compartments):
        total = sum(compartment.species.values())
        if total > 1.02:
            path = f"woodland.compartments[{number}].species"
            yield _wrong(path, f"{total:g} in all", "shares must not add up to more than 1")
    for number, licence in enumerate(holding.woodland.licences):
        path = f"woodland.licences[{number}]"
        if licence.granted_on and licence.ends_on and licence.ends_on < licence.granted_on:
            yield _wrong(
                f"{path}.ends_on", licence.ends_on, f"must not be before the grant on {licence.granted_on}"
            )
        for name in licence.compartments:
            if name not in known:
                yield _odd(
                    f"{path}.compartments", name, f"there is no such compartment: there are {_listed(known)}"
                )


def _supply(holding: Holding) -> Iterator[Problem]:
    for number, customer in enumerate(holding.supply.customers):
        agreed = customer.agreement
        if agreed.since and agreed.until and agreed.until < agreed.since:
            path = f"supply.customers[{number}].agreement.until"
            yield _wrong(path, agreed.until, f"must not be before its first day {agreed.since}")


def _wishes(holding: Holding) -> Iterator[Problem]:
    presence = holding.wishes.presence
    for number, window in enumerate(presence.windows):
        if window.ends <= window.begins:
            yield _wrong(
                f"wishes.presence.windows[{number}].ends",
                f"{window.ends:%H:%M}",
                f"must be later on the same day than {window.begins:%H:%M}: split a window at midnight",
            )
    for number, away in enumerate(presence.away):
        if away.ends < away.begins:
            yield _wrong(
                f"wishes.presence.away[{number}].ends", away.ends, f"must not be before {away.begins}"
            )


def _species(holding: Holding) -> Iterator[Problem]:
    for path, name in _named_species(holding):
        try:
            species(name)
        except UnknownName as error:
            yield Problem(path, name, f"{path}: {error}", serious=False)


def _named_species(holding: Holding) -> Iterator[tuple[str, str]]:
    for number, compartment in enumerate(holding.woodland.compartments):
        for name in compartment.species:
            yield f"woodland.compartments[{number}].species", name
    for number, container in enumerate(holding.yard.containers):
        for which, weighing in enumerate(container.weighings):
            yield f"yard.containers[{number}].weighings[{which}].species", weighing.species
    for number, customer in enumerate(holding.supply.customers):
        for name in customer.agreement.species:
            yield f"supply.customers[{number}].agreement.species", name


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names) or "none"
