"""The flue: its draught, whether its smoke stays dry, what its plate says, sweeping, and who shares it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta

from woodreeve.plant.checks.rules import rule_for
from woodreeve.plant.checks.smoke import (
    draught_at_rest,
    flue_mean_temperature,
    flue_temperature_at_load,
    smoke_dew_point,
)
from woodreeve.plant.checks.verdict import Check, Facts, Verdict, at_least, check, of_yes_no, unknown
from woodreeve.workings import figure

__all__ = ["Rating", "flue_checks", "last_swept", "read_rating"]

DAYS_IN_MONTH = 30.4375
"""Mean length of a month. [day]"""


@dataclass(frozen=True, slots=True)
class Rating:
    """What a chimney's plate says; ``None`` where it does not say."""

    temperature_c: int | None
    condensate: str | None
    sootfire: str | None


_TEMPERATURE = re.compile(r"\bT\s?(\d{3})\b", re.IGNORECASE)
_CONDENSATE = re.compile(r"(?<![A-Za-z0-9])([DW])(?![A-Za-z0-9])", re.IGNORECASE)
_SOOTFIRE = re.compile(r"(?<![A-Za-z0-9])([GO])\s?\d{0,3}(?![A-Za-z])", re.IGNORECASE)


def read_rating(plate: str) -> Rating:
    """Read the letters of a chimney's plate, such as ``EN 1856-1 T450 N1 W V2 L50050 G50``."""
    temperature, condensate, sootfire = (one.search(plate) for one in (_TEMPERATURE, _CONDENSATE, _SOOTFIRE))
    return Rating(
        int(temperature[1]) if temperature else None,
        condensate[1].upper() if condensate else None,
        sootfire[1].upper() if sootfire else None,
    )


def flue_checks(facts: Facts) -> list[Check]:
    """Check the flue, and the boiler's return against the smoke's dew point."""
    return [_return(facts), _draught(facts), *_dry(facts), _plate(facts), _swept(facts), _shared(facts)]


def _return(facts: Facts) -> Check:
    key, kept = "boiler.return", facts.plant.boiler.return_c
    if kept is None:
        return unknown(facts, key, "plant.boiler.return_c")
    dew = smoke_dew_point(facts.plant.boiler)
    return check(
        facts,
        key,
        "does_not_fit" if kept < dew else "tight" if kept < dew + 3.0 else "fits",
        yours=figure(kept, "degC", "holding: plant.boiler.return_c", basis="return kept above"),
        wanted=figure(dew, "degC", smoke_dew_point, basis="water dew point of the smoke"),
        meant="at_least",
    )


def _draught(facts: Facts) -> Check:
    key, flue, boiler = "flue.draught", facts.plant.flue, facts.plant.boiler
    if boiler.draught_wanted_pa is None:
        return unknown(facts, key, "plant.boiler.draught_wanted_pa")
    wanted = figure(
        boiler.draught_wanted_pa, "Pa", "holding: plant.boiler.draught_wanted_pa", basis="from the plate"
    )
    if flue.draught_measured_pa is not None:
        yours = figure(
            flue.draught_measured_pa, "Pa", "holding: plant.flue.draught_measured_pa", basis="measured"
        )
        return check(
            facts, key, at_least(yours.value, wanted.value), yours=yours, wanted=wanted, meant="at_least"
        )
    missing = [
        path
        for path, value in (
            ("plant.flue.height_m", flue.height_m),
            ("plant.boiler.flue_gas_c", boiler.flue_gas_c),
        )
        if value is None
    ]
    if missing:
        return unknown(facts, key, *missing)
    assert flue.height_m is not None
    assert boiler.flue_gas_c is not None
    pascal = draught_at_rest(flue.height_m, gas=flue_mean_temperature(boiler.flue_gas_c))
    yours = figure(pascal, "Pa", draught_at_rest, basis="at rest, on a day of 10 °C, friction left out")
    # Friction in the flue takes part of it, so a bare surplus is called tight.
    return check(
        facts, key, at_least(pascal, wanted.value, tight=0.5), yours=yours, wanted=wanted, meant="at_least"
    )


def _dry(facts: Facts) -> list[Check]:
    boiler = facts.plant.boiler
    if boiler.flue_gas_c is None:
        return [unknown(facts, "flue.dry_full", "plant.boiler.flue_gas_c")]
    dew = figure(
        smoke_dew_point(facts.plant.boiler), "degC", smoke_dew_point, basis="water dew point of the smoke"
    )
    half = flue_temperature_at_load(boiler.flue_gas_c)
    return [
        check(
            facts,
            key,
            _above_dew(flue_mean_temperature(gas), dew.value),
            yours=yours,
            wanted=dew,
            meant="at_least",
        )
        for key, gas, yours in (
            (
                "flue.dry_full",
                boiler.flue_gas_c,
                figure(boiler.flue_gas_c, "degC", "holding: plant.boiler.flue_gas_c"),
            ),
            ("flue.dry_half", half, figure(half, "degC", flue_temperature_at_load, basis="at half output")),
        )
    ]


def _above_dew(mean_c: float, dew_c: float) -> Verdict:
    """The top is colder than the mean: 30 K are wanted between the mean and the dew point."""
    if mean_c < dew_c:
        return "does_not_fit"
    return "tight" if mean_c < dew_c + 30.0 else "fits"


def _plate(facts: Facts) -> Check:
    key, plate = "flue.rating", facts.plant.flue.rating
    if plate is None:
        return unknown(facts, key, "plant.flue.rating")
    read = read_rating(plate)
    if read.sootfire is None or read.temperature_c is None:
        return unknown(facts, key, "plant.flue.rating")
    if read.sootfire == "O" or read.temperature_c < 400:
        return check(facts, key, "does_not_fit", yours=plate)
    return check(facts, key, "tight" if read.temperature_c < 450 else "fits", yours=plate)


def last_swept(facts: Facts) -> date | None:
    """When the chimney was last swept, by holding or diary."""
    told = facts.plant.flue.swept_on
    days = [one.happened.date() for one in facts.of("swept")]
    return max([*days, *([told] if told and told <= facts.on else [])], default=None)


def _swept(facts: Facts) -> Check:
    key, last = "flue.swept", last_swept(facts)
    if last is None:
        return unknown(facts, key, "plant.flue.swept_on")
    rule = rule_for(key, facts.nation, facts.on)
    days = round(DAYS_IN_MONTH * ((rule.months if rule else None) or 12)) + 1
    age = facts.on - last
    late = age > timedelta(days=days)
    verdict: Verdict = "does_not_fit" if late else "tight" if age > timedelta(days=days - 30) else "fits"
    return check(facts, key, verdict, yours=last)


def _shared(facts: Facts) -> Check:
    key, backup = "flue.shared", facts.plant.backup
    if backup.fuel in ("electricity", "none"):
        return check(facts, key, "fits", yours="no")
    if backup.shares_flue is None:
        return unknown(facts, key, "plant.backup.shares_flue")
    return check(facts, key, of_yes_no(backup.shares_flue, good="no"), yours=backup.shares_flue)
