"""The water the plant is filled with: how much for each kilowatt, how hard, treated and filtered."""

from __future__ import annotations

from typing import Annotated

from woodreeve.plant.checks.verdict import Check, Facts, at_most, check, of_yes_no, unknown
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.workings import figure, worked

__all__ = ["german_hardness_limit", "specific_volume", "water_quality_checks"]

PerKilowatt = Annotated[float, Unit("L/kW"), Ge(0.0), Le(1e5)]
Hardness = Annotated[float, Unit("mmol/L"), Ge(0.0), Le(20.0)]


@worked
def specific_volume(
    system: Annotated[float, Unit("L"), Gt(0.0), Le(1e5)],
    output: Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)],
) -> PerKilowatt:
    r"""Heating water for each kilowatt: a big store makes hard water matter.

    All the lime of the fill settles on the boiler, the hottest place; so more water means more lime.

    Parameters
    ----------
    system : float
        All the heating water, :math:`V`. [L] Above 0.
    output : float
        Output of the boiler, :math:`P`. [kW] Above 0, to 500.

    Returns
    -------
    PerKilowatt
        Water for each kilowatt. [L/kW]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: v = V / P

    References
    ----------
    .. [1] Definition of VDI 2035, sheet 1 (from memory).

    Examples
    --------
    >>> specific_volume(1850.0, 25.0)
    74.0
    """
    return system / output


@worked
def german_hardness_limit(
    specific: PerKilowatt, output: Annotated[float, Unit("kW"), Gt(0.0), Le(600.0)] = 25.0
) -> Hardness:
    r"""Hardest fill water that the German guideline allows.

    Parameters
    ----------
    specific : PerKilowatt
        Water for each kilowatt, :math:`v`. [L/kW]
    output : float
        Output of the boiler, up to 50 kW and above. [kW] Above 0, to 600.

    Returns
    -------
    Hardness
        Sum of calcium and magnesium; 20 where there is no limit. [mmol/L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    Up to 50 kW: no limit to 20 L/kW, 3.0 mmol/L to 40 L/kW, 0.05 above. From 50 to 200 kW: 2.0, 1.0 and 0.05;
    from 200 to 600 kW: 1.5, 0.05 and 0.05.

    References
    ----------
    .. [1] VDI 2035, sheet 1, March 2021, table 1 (from memory).

    Examples
    --------
    >>> german_hardness_limit(74.0)
    0.05
    """
    row = (20.0, 3.0, 0.05) if output <= 50.0 else (2.0, 1.0, 0.05) if output <= 200.0 else (1.5, 0.05, 0.05)
    return row[0] if specific <= 20.0 else row[1] if specific <= 40.0 else row[2]


def water_quality_checks(facts: Facts) -> list[Check]:
    """Check hardness against the German guideline, and treatment and filter by the nation's rule."""
    return [_hardness(facts), _filter(facts)]


def _hardness(facts: Facts) -> Check:
    key, water, output = "water.hardness", facts.plant.water, facts.plant.boiler.output_kw
    if water.treatment == "demineralised":
        return check(facts, key, "fits", yours="demineralised")
    missing = [
        f"plant.water.{name}" for name in ("litres", "hardness_mmol_l") if getattr(water, name) is None
    ]
    if output is None:
        missing.append("plant.boiler.output_kw")
    if missing:
        return unknown(facts, key, *missing)
    assert water.litres is not None
    assert water.hardness_mmol_l is not None
    assert output is not None
    limit = german_hardness_limit(specific_volume(water.litres, output), output)
    return check(
        facts,
        key,
        at_most(water.hardness_mmol_l, limit),
        yours=figure(water.hardness_mmol_l, "mmol/L", "holding: plant.water.hardness_mmol_l"),
        wanted=figure(limit, "mmol/L", german_hardness_limit),
        meant="at_most",
    )


def _filter(facts: Facts) -> Check:
    told = facts.plant.water.filter_fitted
    if told is None:
        return unknown(facts, "water.filter", "plant.water.filter_fitted")
    return check(facts, "water.filter", of_yes_no(told), yours=told)
