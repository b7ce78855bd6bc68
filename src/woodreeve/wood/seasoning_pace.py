"""How fast wood dries by its kind, its size, its bark and how it lies."""

from __future__ import annotations

import math
from typing import Annotated, TypeAlias

from woodreeve.units import Ge, Le, OneOrMany, Unit
from woodreeve.wood.kinds import Wood, shares_of, species
from woodreeve.wood.seasoning_fit import Cover, DryingParameters, Place, fitted
from woodreeve.wood.species import basic_density
from woodreeve.workings import worked

__all__ = [
    "DryingRate",
    "Length",
    "REFERENCE_LENGTH_MM",
    "REFERENCE_THICKNESS_MM",
    "Thickness",
    "drying_pace",
    "drying_size_factor",
    "rain_reaching",
]

REFERENCE_THICKNESS_MM = 100.0
REFERENCE_LENGTH_MM = 330.0
REFERENCE_DENSITY = 500.0

_OPENNESS: dict[Cover, float] = {"none": 1.0, "part": 0.5}

Thickness: TypeAlias = Annotated[float, Unit("mm"), Ge(10.0), Le(800.0)]
"""Short side of a split piece, or the diameter of a round."""

Length: TypeAlias = Annotated[float, Unit("mm"), Ge(50.0), Le(12000.0)]

DryingRate: TypeAlias = Annotated[float, Unit("1/day"), Ge(0.0), Le(50.0)]
"""Share of the way to equilibrium that is made in a day."""

_Rain: TypeAlias = Annotated[OneOrMany, Unit("mm/month"), Ge(0.0), Le(3000.0)]


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

    :math:`F` is the size factor, :math:`\rho` the basic density; :math:`a` is 0 in the fitted figures,
    because density foretold nothing beyond oak and conifer on trials left out of the fit. In a mixture the
    logarithms of the species' factors are weighted by their shares. Wind, sun and ground under the stack
    are not in it, because no trial told them: they sit in the stack's own rate, which readings teach.

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
