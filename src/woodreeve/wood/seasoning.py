"""How a stack dries: from its wood, size, cover and weather to its moisture on any day."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from typing import Annotated, TypeAlias

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Floats, Ge, Gt, Le, Moisture, MoistureDryBasis, OneOrMany, Unit
from woodreeve.wood.kinds import Wood, shares_of, species
from woodreeve.wood.moisture import FIBRE_SATURATION, equilibrium_moisture, to_dry_basis, to_wet_basis
from woodreeve.wood.seasoning_fit import Cover, DryingParameters, Place, fitted
from woodreeve.wood.seasoning_weather import REFERENCE_POWER_KPA, DryingWeather, drying_power
from woodreeve.wood.species import basic_density, green_moisture
from woodreeve.workings import worked

__all__ = [
    "GREEN_MOISTURE_SD",
    "CoverSpell",
    "DryingDays",
    "DryingRate",
    "DryingStack",
    "day_of_drying",
    "drying_course",
    "drying_days",
    "drying_pace",
    "drying_size_factor",
    "rain_reaching",
    "start_moisture",
]

GREEN_MOISTURE_SD = 0.03
"""How far the moisture of fresh wood is off its species' figure, one standard deviation. [-]"""

REFERENCE_THICKNESS_MM = 100.0
REFERENCE_LENGTH_MM = 330.0
REFERENCE_DENSITY = 500.0
REFERENCE_RAIN_MM = 50.0

_OPENNESS: dict[Cover, float] = {"none": 1.0, "part": 0.5}

Thickness: TypeAlias = Annotated[float, Unit("mm"), Ge(10.0), Le(800.0)]
"""Short side of a split piece, or the diameter of a round."""

Length: TypeAlias = Annotated[float, Unit("mm"), Ge(50.0), Le(12000.0)]

DryingRate: TypeAlias = Annotated[float, Unit("1/day"), Ge(0.0), Le(50.0)]
"""Share of the way to equilibrium that is made in a day."""

_Rain: TypeAlias = Annotated[OneOrMany, Unit("mm/month"), Ge(0.0), Le(3000.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverSpell:
    """A cover and the day since when the wood is under it."""

    since: date
    cover: Cover


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingStack:
    """What decides how a stack dries.

    Parameters
    ----------
    name : str
        As the owner calls it.
    wood : str or mapping
        Species, or species to shares of the solid volume.
    start : date
        The day from which it lies as described: split, or felled if it lies as rounds.
    thickness_mm : float
        Short side of the pieces as split, or diameter of rounds. [mm]
    length_mm : float
        Length of the pieces. [mm]
    unsplit_bark : bool
        Whether it is mainly rounds in their bark.
    covers : tuple of CoverSpell
        Its covers in the order of time; uncovered before the first.
    place : str
        How it lies.
    start_moisture : float, optional
        Moisture on the first day; unknown takes the species' green moisture. [-]
    start_moisture_sd : float
        How far that may be off: 0.03, or 0.02 after an oven. [-]
    """

    name: str
    wood: Wood
    start: date
    thickness_mm: Thickness = REFERENCE_THICKNESS_MM
    length_mm: Length = REFERENCE_LENGTH_MM
    unsplit_bark: bool = False
    covers: tuple[CoverSpell, ...] = ()
    place: Place = "airy_row"
    start_moisture: Moisture | None = None
    start_moisture_sd: Annotated[float, Unit("-"), Ge(0.0), Le(0.2)] = GREEN_MOISTURE_SD

    def __post_init__(self) -> None:
        """Refuse covers that are not in the order of time."""
        if list(self.covers) != sorted(self.covers, key=lambda spell: spell.since):
            raise OutOfRange("covers", [str(spell.since) for spell in self.covers], "in the order of time")

    def cover_on(self, day: date) -> Cover:
        """The cover it lies under on a day."""
        now: Cover = "none"
        for spell in self.covers:
            if spell.since <= day:
                now = spell.cover
        return now


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
def drying_size_factor(
    thickness_mm: Thickness,
    length_mm: Length,
    *,
    thickness_exponent: Annotated[float, Unit("-"), Ge(0.0), Le(3.0)] = 1.0,
    end_grain: Annotated[float, Unit("-"), Ge(0.0), Le(20.0)] = 2.0,
) -> Annotated[float, Unit("-"), Ge(0.0), Le(100.0)]:
    r"""How much faster small pieces dry than pieces 100 mm thick and 330 mm long.

    Water leaves through the sides and, more easily, through the ends: split small, cut short.

    Parameters
    ----------
    thickness_mm : Thickness
        Short side or diameter, :math:`d`. [mm] From 10 to 800.
    length_mm : Length
        Length, :math:`L`. [mm] From 50 to 12000.
    thickness_exponent : float
        :math:`n`: 1 where the surface sets the pace, 2 where the inside does. [-] From 0 to 3.
    end_grain : float
        Worth of an end against a side, :math:`\lambda`. [-] From 0 to 20.

    Returns
    -------
    float
        Factor on the drying rate, 1 for the usual split log. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: F = \frac{(100/d)^n + \lambda (100/L)^n}{1 + \lambda (100/330)^n}

    Fitted on trials from 50 to 380 mm. :math:`n = 1` did better than 1.34 or 2 on trials left out of
    the fit; :math:`\lambda = 2` is assumed, the trials cannot tell.

    References
    ----------
    .. [1] ``studies/seasoning.py`` of this project, 29 published drying trials.

    Examples
    --------
    >>> drying_size_factor(100.0, 330.0)
    1.0
    """
    sides = (REFERENCE_THICKNESS_MM / thickness_mm) ** thickness_exponent
    ends = end_grain * (REFERENCE_THICKNESS_MM / length_mm) ** thickness_exponent
    usual_ends = end_grain * (REFERENCE_THICKNESS_MM / REFERENCE_LENGTH_MM) ** thickness_exponent
    return float((sides + ends) / (1.0 + usual_ends))


@worked
def drying_pace(
    wood: Wood,
    thickness_mm: Thickness = REFERENCE_THICKNESS_MM,
    length_mm: Length = REFERENCE_LENGTH_MM,
    *,
    unsplit_bark: bool = False,
    place: Place = "airy_row",
    parameters: DryingParameters | None = None,
) -> DryingRate:
    r"""Drying rate of a stack under a roof on a fair late-spring day.

    Parameters
    ----------
    wood : str or mapping
        Species, or species to shares.
    thickness_mm : Thickness
        Short side or diameter. [mm] From 10 to 800.
    length_mm : Length
        Length of the pieces. [mm] From 50 to 12000.
    unsplit_bark : bool
        Whether it is rounds in their bark.
    place : {"airy_row", "block_or_pile", "sunny_top"}
        How it lies.
    parameters : DryingParameters, optional
        The model's figures; the fitted ones if not given.

    Returns
    -------
    DryingRate
        Share of the way to equilibrium made in a day, at a drying power of 0.5 kPa. [1/day]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.
    UnknownName
        If the species or place is not known.

    Notes
    -----
    .. math:: k = k_0\, F\, S_{oak}\, S_{conifer}\, S_{bark}\, S_{place} \left(\rho / 500\right)^{a}

    :math:`F` is the size factor, :math:`\rho` the basic density. In a mixture the logarithms of the
    species' factors are weighted by their shares. Wind, sun and ground under the stack are not in it,
    because no trial told them: they sit in the stack's own rate, which readings teach.

    References
    ----------
    .. [1] ``studies/seasoning.py`` of this project, 29 published drying trials.

    Examples
    --------
    >>> drying_pace("beech") > drying_pace("pedunculate oak")
    True
    """
    p = parameters or fitted()
    log_factor = 0.0
    for key, share in shares_of(wood).items():
        kind = species(key)
        log_factor += share * p.density_exponent * math.log(basic_density(key) / REFERENCE_DENSITY)
        if kind.group == "conifer":
            log_factor += share * math.log(p.conifer)
        elif kind.genus == "Quercus":
            log_factor += share * math.log(p.oak)
    log_factor += math.log(p.bark) if unsplit_bark else 0.0
    log_factor += {
        "airy_row": 0.0,
        "block_or_pile": math.log(p.block_or_pile),
        "sunny_top": math.log(p.sunny_top),
    }[place]
    size = drying_size_factor(
        thickness_mm, length_mm, thickness_exponent=p.thickness_exponent, end_grain=p.end_grain
    )
    return p.rate * size * math.exp(log_factor)


@worked
def rain_reaching(rain_mm_month: _Rain[OneOrMany], cover: Cover) -> _Rain[OneOrMany]:
    r"""Rain that reaches the wood under its cover.

    Parameters
    ----------
    rain_mm_month : float or Floats
        Rain of a month, :math:`P`; one value or many. [mm/month] From 0 to 3000.
    cover : str
        What keeps it off.

    Returns
    -------
    float
        Rain on the wood. [mm/month]

    Raises
    ------
    OutOfRange
        If the rain lies outside the range given above.
    UnknownName
        If the cover is not known.

    Notes
    -----
    .. math:: P_w = c P

    :math:`c` is 1 uncovered, 0.5 under a part cover and 0 under all others: driving rain at the
    sides was told by no trial.

    References
    ----------
    .. [1] Assumed in the fit of ``studies/seasoning.py`` of this project.

    Examples
    --------
    >>> rain_reaching(80.0, "part")
    40.0
    """
    return _OPENNESS.get(cover, 0.0) * rain_mm_month


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
def start_moisture(stack: DryingStack) -> Moisture:
    r"""Moisture a stack starts with: what the owner found, else the green moisture of its wood.

    Parameters
    ----------
    stack : DryingStack
        The stack.

    Returns
    -------
    Moisture
        Moisture on its first day. [-]

    Notes
    -----
    .. math:: M_0 = M_{given} \quad\text{or}\quad M_{green}

    References
    ----------
    .. [1] The owner's figure, or the green moisture of :func:`woodreeve.wood.species.green_moisture`.
    """
    return green_moisture(stack.wood) if stack.start_moisture is None else stack.start_moisture


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
