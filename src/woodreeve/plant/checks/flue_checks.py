"""The flue: draught at rest, smoke above its dew point, what the plate says, sweeping, and who shares it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated

from woodreeve.plant.checks.rules import rule_for
from woodreeve.plant.checks.verdict import Check, Facts, Verdict, at_least, check, of_yes_no, unknown
from woodreeve.plant.fields import LogBoiler
from woodreeve.units import Celsius, Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.burning import excess_air_from_oxygen
from woodreeve.wood.dew_point import dew_point_of_flue_gas
from woodreeve.workings import figure, worked

__all__ = [
    "DewPoint",
    "Rating",
    "draught_at_rest",
    "flue_checks",
    "flue_mean_temperature",
    "flue_temperature_at_load",
    "last_swept",
    "read_rating",
    "smoke_dew_point",
    "smoke_dew_points",
    "usual_fire",
]

Outdoor = Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)]
Gas = Annotated[float, Unit("degC"), Ge(-60.0), Le(1000.0)]
AirRatio = Annotated[float, Unit("-"), Ge(1.0), Le(10.0)]

SPECIFIC_GAS = 287.05
"""Gas constant of air. [J/(kg*K)]"""
MOISTURES: tuple[float, ...] = (0.10, 0.20, 0.25, 0.35)
AIR_RATIOS: tuple[float, ...] = (1.3, 1.5, 1.7, 2.0, 2.5)
USUAL_OXYGEN = 0.08
"""Oxygen in dry smoke of a good fire, where nobody measured. Common practice. [-]"""
USUAL_MOISTURE = 0.25
"""Wettest wood that is burnt, where the maker's word is not told. [-]"""
DAYS_IN_MONTH = 30.4375
"""Mean length of a month. [day]"""


@worked
def draught_at_rest(
    height: Annotated[float, Unit("m"), Gt(0.0), Le(100.0)], outdoor: Outdoor = 10.0, gas: Gas = 150.0
) -> Annotated[float, Unit("Pa")]:
    r"""Draught of a flue by the lightness of its gas, before friction.

    Parameters
    ----------
    height : float
        From the boiler's outlet to the top, :math:`h`. [m] Above 0.
    outdoor : Outdoor
        Outdoor air. [degC] From -60 to 60.
    gas : Gas
        Mean temperature of the smoke in the flue. [degC] From -60 to 1000.

    Returns
    -------
    float
        Draught; below 0 the flue falls. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \Delta p = g h\,(\rho_a - \rho_g), \qquad \rho = \frac{101325}{287.05\,T}

    The smoke is taken as air, which is within 2 % of it.

    References
    ----------
    .. [1] Hydrostatics, form of EN 13384-1 (from memory); row PL-drf01.

    Examples
    --------
    >>> round(draught_at_rest(6.0), 1)
    24.3
    """
    lightness = 1.0 / (outdoor + 273.15) - 1.0 / (gas + 273.15)
    return 9.80665 * height * 101325.0 / SPECIFIC_GAS * lightness


@worked
def flue_mean_temperature(
    outlet: Gas, outdoor: Outdoor = 10.0, kept: Annotated[float, Unit("-"), Ge(0.1), Le(1.0)] = 0.75
) -> Celsius:
    r"""Mean temperature of the smoke on its way up.

    Parameters
    ----------
    outlet : Gas
        Smoke after the boiler, :math:`T_g`. [degC] From -60 to 1000.
    outdoor : Outdoor
        Outdoor air, :math:`T_a`. [degC] From -60 to 60.
    kept : float
        Part of its excess that it keeps on the mean, :math:`k`: less in a bare or outer flue. [-]

    Returns
    -------
    Celsius
        Mean temperature. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: T_m = T_a + k\,(T_g - T_a)

    A reckoning by EN 13384 needs the flue's build; 0.75 is judgement for an insulated or lined flue.

    References
    ----------
    .. [1] Judgement; no source read.

    Examples
    --------
    >>> flue_mean_temperature(170.0)
    130.0
    """
    return outdoor + kept * (outlet - outdoor)


@worked
def flue_temperature_at_load(
    full: Gas,
    boiler_water: Annotated[float, Unit("degC"), Ge(20.0), Le(110.0)] = 75.0,
    load: Annotated[float, Unit("-"), Gt(0.0), Le(1.2)] = 0.5,
) -> Celsius:
    r"""Smoke after the boiler at part load: cooler, and so nearer to its dew point.

    Parameters
    ----------
    full : Gas
        At full output, :math:`T_1`. [degC] From -60 to 1000.
    boiler_water : float
        Water in the boiler, :math:`T_w`. [degC] From 20 to 110.
    load : float
        Output over full output, :math:`p`. [-] Above 0.

    Returns
    -------
    Celsius
        At that load. [degC]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: T_p = T_w + p\,(T_1 - T_w)

    In proportion to the load, which is judgement: makers' sheets tell better.

    References
    ----------
    .. [1] Judgement; no source read.

    Examples
    --------
    >>> flue_temperature_at_load(165.0)
    120.0
    """
    return boiler_water + load * (full - boiler_water)


@dataclass(frozen=True, slots=True)
class UsualFire:
    """A fire of which nothing was measured."""

    moisture: Moisture
    oxygen_dry: Annotated[float, Unit("-"), Ge(0.0), Le(0.19)]


@worked
def usual_fire(
    moisture: Moisture = USUAL_MOISTURE,
    oxygen_dry: Annotated[float, Unit("-"), Ge(0.0), Le(0.19)] = USUAL_OXYGEN,
) -> UsualFire:
    r"""Wood and smoke that are taken where nobody measured.

    Parameters
    ----------
    moisture : Moisture
        The wettest wood that makers usually allow. [-] From 0 to 0.7.
    oxygen_dry : float
        Oxygen in the dry smoke of a good fire. [-] From 0 to 0.19.

    Returns
    -------
    UsualFire
        Both.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    A measurement or the maker's word goes before these.

    References
    ----------
    .. [1] Common practice, no published source.

    Examples
    --------
    >>> usual_fire().moisture
    0.25
    """
    return UsualFire(moisture, oxygen_dry)


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


@dataclass(frozen=True, slots=True)
class DewPoint:
    """Dew point of the smoke of one wetness, for each of the air ratios of the table."""

    moisture: Moisture
    points_c: tuple[Annotated[float, Unit("degC")], ...]


@worked
def smoke_dew_points() -> tuple[DewPoint, ...]:
    r"""Water dew point of wood smoke over moisture and air: what a return or a flue must stay above.

    Returns
    -------
    tuple of DewPoint
        For moistures of 10, 20, 25 and 35 % and air ratios of 1.3, 1.5, 1.7, 2.0 and 2.5. [degC]

    Notes
    -----
    Means over a burn: early in a batch the smoke is steamier, and tars and acids drop out warmer than water.
    No return temperature makes wet wood acceptable.

    References
    ----------
    .. [1] :func:`woodreeve.wood.dew_point.dew_point_of_flue_gas` for typical wood; rows PL-dew01 to PL-dew03.

    Examples
    --------
    >>> round(smoke_dew_points()[1].points_c[1])
    51
    """
    return tuple(
        DewPoint(moisture, tuple(dew_point_of_flue_gas(moisture, ratio) for ratio in AIR_RATIOS))
        for moisture in MOISTURES
    )


@worked
def smoke_dew_point(boiler: LogBoiler) -> Annotated[float, Unit("degC")]:
    r"""Water dew point of the wettest smoke that a boiler is meant to make.

    Parameters
    ----------
    boiler : LogBoiler
        The boiler; its wettest wood and measured oxygen where they are told, else those of a usual fire.

    Returns
    -------
    float
        Dew point. [degC]

    Notes
    -----
    .. math:: T = T_{dew}\bigl(M_{most},\ \lambda(x)\bigr)

    References
    ----------
    .. [1] :func:`woodreeve.wood.dew_point.dew_point_of_flue_gas`.

    Examples
    --------
    >>> round(smoke_dew_point(LogBoiler()))
    52
    """
    wettest = boiler.most_moisture if boiler.most_moisture is not None else usual_fire().moisture
    oxygen = boiler.flue_oxygen if boiler.flue_oxygen is not None else usual_fire().oxygen_dry
    return dew_point_of_flue_gas(wettest, excess_air_from_oxygen(oxygen))


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
