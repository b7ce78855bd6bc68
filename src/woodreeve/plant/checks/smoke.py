"""Smoke in the flue: its draught at rest, how it cools, and the dew point it must stay above."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.plant.fields import LogBoiler
from woodreeve.units import Celsius, Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.burning import excess_air_from_oxygen
from woodreeve.wood.dew_point import dew_point_of_flue_gas
from woodreeve.workings import worked

__all__ = [
    "AIR_RATIOS",
    "MOISTURES",
    "DewPoint",
    "UsualFire",
    "draught_at_rest",
    "flue_mean_temperature",
    "flue_temperature_at_load",
    "smoke_dew_point",
    "smoke_dew_points",
    "usual_fire",
]

Outdoor = Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)]
Gas = Annotated[float, Unit("degC"), Ge(-60.0), Le(1000.0)]

SPECIFIC_GAS = 287.05
"""Gas constant of air. [J/(kg*K)]"""
MOISTURES: tuple[float, ...] = (0.10, 0.20, 0.25, 0.35)
AIR_RATIOS: tuple[float, ...] = (1.3, 1.5, 1.7, 2.0, 2.5)
USUAL_OXYGEN = 0.08
"""Oxygen in dry smoke of a good fire, where nobody measured. Common practice. [-]"""
USUAL_MOISTURE = 0.25
"""Wettest wood that is burnt, where the maker's word is not told. [-]"""


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
