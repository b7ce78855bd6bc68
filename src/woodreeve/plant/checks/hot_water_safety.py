"""Hot water that is hot enough against legionella, not so hot that it scalds, and safe in its cylinder."""

from __future__ import annotations

from typing import Annotated

from woodreeve.plant.checks.expansion import expansion_share
from woodreeve.plant.checks.verdict import Check, Facts, at_least, check, of_yes_no, unknown
from woodreeve.plant.checks.vessel import vessel_size
from woodreeve.plant.hot_water import coil_power
from woodreeve.units import Ge, Gt, Kilowatt, Le, Litre, Unit
from woodreeve.workings import figure, worked

__all__ = ["coil_wanted", "drinking_water_vessel", "hot_water_checks", "least_hot_water"]


@worked
def least_hot_water(
    least: Annotated[float, Unit("degC"), Ge(40.0), Le(80.0)] = 60.0,
) -> Annotated[float, Unit("degC")]:
    r"""Temperature at which stored hot water must stand, or be brought to often.

    Parameters
    ----------
    least : float
        The temperature. [degC] From 40 to 80.

    Returns
    -------
    float
        The temperature. [degC]

    Raises
    ------
    OutOfRange
        If it lies outside its range.

    Notes
    -----
    Below it legionella can grow; 50 °C should be reached at the tap within a minute.

    References
    ----------
    .. [1] Health and Safety Executive, hot and cold water systems, hse.gov.uk (read): store at 60 °C or
       above.

    Examples
    --------
    >>> least_hot_water()
    60.0
    """
    return least


@worked
def coil_wanted(
    cylinder: Litre,
    lift: Annotated[float, Unit("K"), Ge(0.0), Le(100.0)] = 20.0,
    minutes: Annotated[float, Unit("min"), Gt(0.0), Le(10000.0)] = 20.0,
) -> Kilowatt:
    r"""Coil that brings a cylinder back while somebody waits.

    Parameters
    ----------
    cylinder : Litre
        Water in the cylinder. [L]
    lift : float
        Rise wanted. [K] From 0 to 100.
    minutes : float
        Time for it. [min] Above 0.

    Returns
    -------
    Kilowatt
        Heat rate. [kW]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    As :func:`woodreeve.plant.hot_water.coil_power`, 20 K in 20 minutes.

    References
    ----------
    .. [1] Common practice, no published source.

    Examples
    --------
    >>> round(coil_wanted(200.0), 1)
    13.8
    """
    return coil_power(cylinder, lift, minutes)


@worked
def drinking_water_vessel(
    cylinder: Annotated[float, Unit("L"), Gt(0.0), Le(5000.0)],
    supply: Annotated[float, Unit("bar"), Ge(0.5), Le(10.0)] = 3.0,
    relief: Annotated[float, Unit("bar"), Ge(1.0), Le(12.0)] = 6.0,
    hot: Annotated[float, Unit("degC"), Ge(20.0), Le(110.0)] = 65.0,
) -> Litre:
    r"""Small expansion vessel on the drinking-water side of an unvented cylinder.

    Each time the cylinder is heated its cold-water side is shut; the swelling water needs room, or the relief
    valve drips and furs up.

    Parameters
    ----------
    cylinder : float
        Drinking water in the cylinder, :math:`V`. [L] Above 0.
    supply : float
        Pressure after the reducing valve, gauge, to which the vessel's gas is set. [bar] From 0.5 to 10.
    relief : float
        Pressure at which the relief valve opens, gauge. [bar] From 1 to 12.
    hot : float
        Hottest water in it. [degC] From 20 to 110.

    Returns
    -------
    Litre
        Nominal size. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    :func:`woodreeve.plant.checks.vessel.vessel_size` without reserve, up to a tenth under the relief
    valve:

    .. math:: V_n = e\,V\,\frac{0.9\,p_r + 1}{0.9\,p_r - p_s}

    References
    ----------
    .. [1] Boyle's law; the tenth and the usual pressures are common practice, no published source.

    Examples
    --------
    >>> round(drinking_water_vessel(250.0), 1)
    13.0
    """
    return vessel_size(cylinder, expansion_share(10.0, hot), 0.0, supply, 0.9 * relief)


def hot_water_checks(facts: Facts) -> list[Check]:
    """Check coil, hygiene, scalding, and what an unvented cylinder needs."""
    return [_coil(facts), _hot_enough(facts), _scald(facts), *_unvented(facts)]


def _coil(facts: Facts) -> Check:
    key, cylinder = "hot_water.coil", facts.plant.cylinder
    missing = [f"plant.cylinder.{name}" for name in ("litres", "coil_kw") if getattr(cylinder, name) is None]
    if missing:
        return unknown(facts, key, *missing)
    assert cylinder.litres is not None
    assert cylinder.coil_kw is not None
    wanted = coil_wanted(cylinder.litres)
    return check(
        facts,
        key,
        at_least(cylinder.coil_kw, wanted),
        yours=figure(cylinder.coil_kw, "kW", "holding: plant.cylinder.coil_kw", basis="flow at 80 °C"),
        wanted=figure(wanted, "kW", coil_wanted, basis="20 K in 20 minutes"),
        meant="at_least",
    )


def _hot_enough(facts: Facts) -> Check:
    target = facts.plant.cylinder.target_c
    hygiene = facts.plant.cylinder.hygiene_c
    least = least_hot_water()
    verdict = at_least(target, least, tight=0.0)
    if verdict == "does_not_fit" and hygiene >= least:
        verdict = "tight"
    return check(
        facts,
        "hot_water.hygiene",
        verdict,
        yours=figure(target, "degC", "holding: plant.cylinder.target_c"),
        wanted=figure(least, "degC", least_hot_water),
        meant="at_least",
    )


def _scald(facts: Facts) -> Check:
    key, told = "hot_water.scalding", facts.plant.cylinder.mixing_valve
    if told is None:
        return unknown(facts, key, "plant.cylinder.mixing_valve")
    return check(facts, key, of_yes_no(told), yours=told)


def _unvented(facts: Facts) -> list[Check]:
    cylinder = facts.plant.cylinder
    if cylinder.unvented == "no":
        return []
    if cylinder.unvented is None:
        return [unknown(facts, "hot_water.cut_out", "plant.cylinder.unvented")]
    found = []
    for key, name in (("hot_water.cut_out", "cut_out"), ("hot_water.relief", "relief_devices")):
        told = getattr(cylinder, name)
        if told is None:
            found.append(unknown(facts, key, f"plant.cylinder.{name}"))
        else:
            found.append(check(facts, key, of_yes_no(told), yours=told))
    missing = [
        f"plant.cylinder.{name}"
        for name in ("litres", "water_vessel_litres")
        if getattr(cylinder, name) is None
    ]
    if missing:
        return [*found, unknown(facts, "hot_water.vessel", *missing)]
    assert cylinder.litres is not None
    assert cylinder.water_vessel_litres is not None
    wanted = drinking_water_vessel(cylinder.litres)
    found.append(
        check(
            facts,
            "hot_water.vessel",
            at_least(cylinder.water_vessel_litres, wanted),
            yours=figure(cylinder.water_vessel_litres, "L", "holding: plant.cylinder.water_vessel_litres"),
            wanted=figure(wanted, "L", drinking_water_vessel, basis="3 bar supply, 6 bar relief valve"),
            meant="at_least",
        )
    )
    return found
