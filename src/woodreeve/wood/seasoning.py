"""How a stack dries: from its wood, size, cover and weather to its moisture on any day."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from typing import Annotated

import numpy as np

from woodreeve.units import Floats, Ge, Gt, Le, Moisture, MoistureDryBasis, Unit
from woodreeve.wood.kinds import Wood
from woodreeve.wood.moisture import FIBRE_SATURATION, equilibrium_moisture, to_dry_basis, to_wet_basis
from woodreeve.wood.seasoning_fit import Cover, DryingParameters, Place, fitted
from woodreeve.wood.seasoning_pace import (
    REFERENCE_LENGTH_MM,
    REFERENCE_THICKNESS_MM,
    DryingRate,
    Length,
    Thickness,
    drying_pace,
    rain_reaching,
)
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack, start_moisture
from woodreeve.wood.seasoning_weather import (
    REFERENCE_POWER_KPA,
    DryingWeather,
    drying_power,
    trial_climate,
)
from woodreeve.workings import worked

__all__ = ["DryingDays", "day_of_drying", "drying_course", "drying_days", "moisture_after"]

REFERENCE_RAIN_MM = 50.0
"""Rain of a month at which the effect of rain is quoted. [mm/month]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingDays:
    """For each day, how fast the stack would move and where it would settle.

    Parameters
    ----------
    start : date
        First day.
    rate : array
        Drying rate of the day, cover and rain in it. [1/day]
    equilibrium_dry_basis : array
        Moisture at which the wood would settle on such days for ever. [-]
    """

    start: date
    rate: Annotated[Floats, Unit("1/day"), Ge(0.0), Le(50.0)]
    equilibrium_dry_basis: Annotated[Floats, Unit("-"), Ge(0.0), Le(2.34)]


@worked
def day_of_drying(
    moisture_dry_basis: MoistureDryBasis,
    equilibrium_dry_basis: MoistureDryBasis,
    rate: DryingRate,
    slow_share: Annotated[float, Unit("-"), Gt(0.0), Le(1.0)],
) -> MoistureDryBasis:
    r"""One day of a stack's life: it moves towards its equilibrium, the slower the drier it is.

    Parameters
    ----------
    moisture_dry_basis : MoistureDryBasis
        Mean moisture in the morning over dry wood, :math:`u`. [-] From 0 to 2.34.
    equilibrium_dry_basis : MoistureDryBasis
        Where it would settle, :math:`u_e`. [-] From 0 to 2.34.
    rate : DryingRate
        Drying rate of the day, :math:`k`. [1/day] From 0 to 50.
    slow_share : float
        Share of the rate left near equilibrium, :math:`s`. [-] Above 0, to 1.

    Returns
    -------
    MoistureDryBasis
        Mean moisture next morning. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math::

        u' = u_e + (u - u_e)\, e^{-k (s + (1 - s) x)}, \quad
        x = \min\left(1, \frac{u - u_e}{0.30 - \min(u_e, 0.25)}\right)

    and :math:`x = 1` when the wood takes water up. Above fibre saturation it is the plain
    exponential; below, the core lags behind the shell. A shell-and-core model and the diffusion
    equation were tried instead and did no better on trials left out of the fit.

    References
    ----------
    .. [1] ``studies/seasoning.py`` of this project, 29 published drying trials.

    Examples
    --------
    >>> day_of_drying(0.80, 0.15, 0.0, 0.5)
    0.8
    """
    short = moisture_dry_basis - equilibrium_dry_basis
    pace = 1.0
    if short > 0.0:
        above = FIBRE_SATURATION - min(equilibrium_dry_basis, 0.25)
        pace = slow_share + (1.0 - slow_share) * min(1.0, short / above)
    return equilibrium_dry_basis + short * math.exp(-rate * pace)


@worked
def drying_days(
    stack: DryingStack, weather: DryingWeather, *, parameters: DryingParameters | None = None
) -> DryingDays:
    r"""What each day of a span of weather would do to a stack.

    Parameters
    ----------
    stack : DryingStack
        The stack.
    weather : DryingWeather
        Its weather, from the stack's start on.
    parameters : DryingParameters, optional
        The model's figures; the fitted ones if not given.

    Returns
    -------
    DryingDays
        Drying rate and equilibrium of each day.

    Raises
    ------
    Unknown
        If the weather begins after the stack.

    Notes
    -----
    .. math::

        k_d = k\, C_d\, \frac{D_d}{0.5}\, e^{-b P_d / 50}, \quad
        u_{e,d} = \mathrm{EMC}(\max(T_d, 0), h_d) + r P_d / 50

    :math:`C` is 1 but for a wrapped sheet and a closed shed; :math:`P` is the rain that reaches the wood.

    References
    ----------
    .. [1] ``studies/seasoning.py`` of this project, 29 published drying trials.
    """
    p = parameters or fitted()
    span = weather.span(stack.start, (weather.end - stack.start).days)
    pace = drying_pace(
        stack.wood,
        stack.thickness_mm,
        stack.length_mm,
        unsplit_bark=stack.unsplit_bark,
        place=stack.place,
        parameters=p,
    )
    rain = np.empty(span.days)
    cover_factor = np.ones(span.days)
    edges = [
        0,
        *sorted({min(max((s.since - stack.start).days, 0), span.days) for s in stack.covers}),
        span.days,
    ]
    for first, last in pairwise(edges):
        if first < last:
            cover = stack.cover_on(stack.start + timedelta(days=first))
            rain[first:last] = rain_reaching(span.rain_mm_month[first:last], cover)
            cover_factor[first:last] = {"wrapped_tarp": p.wrapped_tarp, "closed_shed": p.closed_shed}.get(
                cover, 1.0
            )
    power = drying_power(span.air_c, span.relative_humidity)
    settled = equilibrium_moisture(np.maximum(span.air_c, 0.0), np.minimum(span.relative_humidity, 0.95))
    wet = rain / REFERENCE_RAIN_MM
    return DryingDays(
        start=stack.start,
        rate=pace * cover_factor * (power / REFERENCE_POWER_KPA) * np.exp(-p.rain_hindrance * wet),
        equilibrium_dry_basis=settled + p.rain_wetting * wet,
    )


@worked
def drying_course(
    stack: DryingStack,
    weather: DryingWeather,
    *,
    log_rate: Annotated[float, Unit("-"), Ge(-5.0), Le(5.0)] = 0.0,
    parameters: DryingParameters | None = None,
) -> Annotated[Floats, Unit("-"), Ge(0.0), Le(0.7)]:
    r"""The expected moisture of a stack, day after day, without any reading.

    Parameters
    ----------
    stack : DryingStack
        The stack.
    weather : DryingWeather
        Its weather, from the stack's start on.
    log_rate : float
        The stack's own log rate, 0 for an average one. [-] From -5 to 5.
    parameters : DryingParameters, optional
        The model's figures; the fitted ones if not given.

    Returns
    -------
    Floats
        Moisture at the end of each day. [-]

    Raises
    ------
    Unknown
        If the weather begins after the stack.

    Notes
    -----
    .. math:: u_{d+1} = f(u_d, u_{e,d}, k_d e^{z}), \quad M = u / (1 + u)

    with the step :math:`f` of :func:`day_of_drying`.

    References
    ----------
    .. [1] ``studies/seasoning.py`` of this project, 29 published drying trials.
    """
    from woodreeve.wood.seasoning_kernel import course

    p = parameters or fitted()
    days = drying_days(stack, weather, parameters=p)
    first = to_dry_basis(start_moisture(stack))
    path: Floats = course(first, days.rate * math.exp(log_rate), days.equilibrium_dry_basis, p.slow_share)
    return to_wet_basis(path)


@worked
def moisture_after(
    wood: Wood,
    days: Annotated[float, Unit("day"), Ge(1.0), Le(3650.0)],
    *,
    climate: str,
    start: date,
    thickness_mm: Thickness = REFERENCE_THICKNESS_MM,
    length_mm: Length = REFERENCE_LENGTH_MM,
    cover: Cover = "roof",
    place: Place = "airy_row",
    unsplit_bark: bool = False,
    start_moisture: Moisture | None = None,
) -> Moisture:
    r"""Moisture of a stack after so many days in the typical weather of a place with drying trials.

    Parameters
    ----------
    wood : str or mapping
        Species, or species to shares.
    days : float
        Days since the start; whole days count. [day] From 1 to 3650.
    climate : str
        A place of the sheet of climates, for instance ``Denmark`` or ``south England``.
    start : date
        The day from which it lies so.
    thickness_mm : Thickness
        Short side or diameter. [mm] From 10 to 800.
    length_mm : Length
        Length of the pieces. [mm] From 50 to 12000.
    cover : str
        What keeps the rain off.
    place : str
        How it lies.
    unsplit_bark : bool
        Whether it is rounds in their bark.
    start_moisture : Moisture, optional
        Moisture on the first day; unknown takes the species' green moisture. [-] From 0 to 0.7.

    Returns
    -------
    Moisture
        Expected moisture, without any reading. [-]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the species, place or cover is not known.

    Notes
    -----
    .. math:: M = \frac{u_n}{1 + u_n}

    with :math:`u_n` from :func:`drying_course`. In trials of sources that the fit had not seen, such a
    value was off by less than three points in about two cases of three.

    References
    ----------
    .. [1] ``studies/seasoning.py`` of this project, 29 published drying trials.

    Examples
    --------
    >>> dry = moisture_after("ash", 180.0, climate="south England", start=date(2026, 4, 1))
    >>> 0.13 < dry < 0.20
    True
    """
    stack = DryingStack(
        name="stack",
        wood=wood,
        start=start,
        thickness_mm=thickness_mm,
        length_mm=length_mm,
        unsplit_bark=unsplit_bark,
        covers=(CoverSpell(since=start, cover=cover),),
        place=place,
        start_moisture=start_moisture,
    )
    count = int(days)
    return float(drying_course(stack, trial_climate(climate, start=start, days=count))[count - 1])
