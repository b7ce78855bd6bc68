"""Wood by the boiler: how many barrows to bring in, before which rain, and whether kindling lasts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

import numpy as np

from woodreeve.firing.search import Laid
from woodreeve.units import Floats, Ge, Gt, Le, Unit
from woodreeve.workings import worked

__all__ = ["BringIn", "bring_in"]

RAIN_MM = 0.3
"""Rain in an hour that wets wood on a barrow. Judgement. [mm]"""
KINDLING_KG = 1.0
"""Kindling of one lighting. Judgement. [kg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BringIn:
    """What to bring to the boiler.

    Parameters
    ----------
    lacks_at_h : float or None
        Hour of the first fire that what lies there is too little for; ``None`` if it lasts. [h]
    kg, barrows : float
        What to bring, as far as there is room for it. [kg] [-]
    before_h : float or None
        Best brought before this hour, when rain sets in; ``None`` without rain in that time. [h]
    kindling_lasts : int
        Lightings for which kindling is there. [-]
    lightings : int
        Lightings planned. [-]
    """

    lacks_at_h: Annotated[float | None, Unit("h")]
    kg: Annotated[float, Unit("kg")]
    barrows: Annotated[float | None, Unit("-")]
    before_h: Annotated[float | None, Unit("h")]
    kindling_lasts: Annotated[int, Unit("-")]
    lightings: Annotated[int, Unit("-")]


@worked
def bring_in(
    fires: Sequence[Laid],
    lies_there_kg: Annotated[float, Unit("kg"), Ge(0.0), Le(20000.0)],
    rain_mm: Annotated[Floats, Unit("mm"), Ge(0.0), Le(300.0)],
    *,
    barrow_kg: Annotated[float | None, Unit("kg"), Gt(0.0), Le(5000.0)] = None,
    holds_kg: Annotated[float | None, Unit("kg"), Gt(0.0), Le(50000.0)] = None,
    kindling_kg: Annotated[float, Unit("kg"), Ge(0.0), Le(500.0)] = 0.0,
) -> BringIn:
    r"""How much wood to bring to the boiler for the fires planned, and before which rain.

    Parameters
    ----------
    fires : sequence of Laid
        The plan.
    lies_there_kg : float
        Wood by the boiler. [kg] From 0 to 20000.
    rain_mm : Floats
        Rain of each hour ahead. [mm] From 0 to 300.
    barrow_kg : float or None
        Wood on a barrow. [kg] More than 0, up to 5000.
    holds_kg : float or None
        What there is room for by the boiler; unknown: as much as is wanted. [kg] More than 0, up to 50000.
    kindling_kg : float
        Kindling by the boiler. [kg] From 0 to 500.

    Returns
    -------
    BringIn
        Weight, barrows, and until when.

    Raises
    ------
    OutOfRange
        If a number lies outside its range.

    Notes
    -----
    .. math:: m = \max\left(0, \min\left(\sum_i m_i, m_\text{room}\right) - m_0\right)

    A lighting takes 1 kg of kindling; an hour with 0.3 mm of rain or more wets a barrow: judgement.

    References
    ----------
    .. [1] Own rule; common practice, no published source.

    Examples
    --------
    >>> bring_in([Laid(17.0, 30.0, 0, "light")], 10.0, np.array([0.0, 0.0, 1.0]), barrow_kg=20.0).barrows
    1.0
    """
    wanted = sum(one.kg for one in fires)
    room = wanted if holds_kg is None else min(wanted, holds_kg)
    kg = max(room - lies_there_kg, 0.0)
    left, lacks = lies_there_kg, None
    for one in sorted(fires, key=lambda fire: fire.hour):
        left -= one.kg
        if left < -1e-9:
            lacks = one.hour
            break
    wet = np.flatnonzero(np.asarray(rain_mm) >= RAIN_MM)
    rains = float(wet[0]) if kg > 0.0 and wet.size else None
    before = rains if rains is not None and (lacks is None or rains <= lacks) else lacks
    return BringIn(
        lacks_at_h=lacks,
        kg=kg,
        barrows=None if barrow_kg is None else float(np.ceil(kg / barrow_kg - 1e-9)),
        before_h=before if kg > 0.0 else None,
        kindling_lasts=int(kindling_kg / KINDLING_KG),
        lightings=sum(one.kind == "light" for one in fires),
    )
