"""Plants for tests of the checks."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

from woodreeve.diary.folded import Event
from woodreeve.diary.kinds import KINDS
from woodreeve.plant.checks.all import all_checks
from woodreeve.plant.checks.rules import Nation
from woodreeve.plant.checks.verdict import Check, Facts
from woodreeve.plant.fields import LogBoiler, Plant, Store

TODAY = date(2026, 1, 13)


def facts(
    plant: Plant, nation: Nation = "other", load_kw: float | None = 10.0, events: tuple[Event, ...] = ()
) -> Facts:
    """What the checks look at, on a winter's day."""
    by_kind: dict[str, tuple[Event, ...]] = {}
    for event in events:
        by_kind[event.kind] = (*by_kind.get(event.kind, ()), event)
    return Facts(plant=plant, nation=nation, on=TODAY, design_load_kw=load_kw, events=by_kind)


def event(kind: str, day: str, **payload: Any) -> Event:
    """An entry of the diary, read."""
    happened = datetime.fromisoformat(f"{day}T10:00").replace(tzinfo=UTC)
    return Event(id=f"{kind}-{day}", kind=kind, happened=happened, by="me", payload=KINDS[kind](**payload))


def found(facts: Facts, key: str) -> Check:
    """One check of a plant."""
    return next(one for one in all_checks(facts) if one.key == key)


def forty_five_kw(litres: float = 2500.0, **boiler: Any) -> Plant:
    """A 45 kW boiler on a store of 2,500 litres."""
    told = {"output_kw": 45.0, "least_output_kw": 22.0, "fuel_space_litres": 185.0, "burn_hours": 5.0}
    return Plant(boiler=LogBoiler(**{**told, **boiler}), store=Store(litres=litres, height_m=2.0))
