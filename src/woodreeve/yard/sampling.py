"""How to sample a stack: how many pieces, from where, and what each reading is worth."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from woodreeve.errors import OutOfRange
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.wood.seasoning_readings import METER_SD, PIECE_SPREAD, moisture_sd
from woodreeve.workings import worked

__all__ = ["SamplePiece", "SamplingPlan", "pieces_to_split", "range_after", "sampling_plan"]

LEAST_PIECES = 3
"""Fewer say nothing about a stack. [-]"""

MOST_PIECES = 60

_Sd: TypeAlias = Annotated[float, Unit("-"), Gt(0.0), Le(0.3)]


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplePiece:
    """Where one piece is to be taken from."""

    height: Literal["top", "middle", "bottom"]
    depth: Literal["outside", "core"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplingPlan:
    """How a stack is to be sampled.

    Parameters
    ----------
    pieces : tuple of SamplePiece
        One for each piece to be split again.
    values_per_piece : int
        Values on each fresh face: the middle, and 5 cm from each end.
    sd : float
        How far the mean of it all may be off. [-]
    oven_instead : bool
        Whether the wood is too wet for a meter: then the scales and the oven are the way.
    """

    pieces: tuple[SamplePiece, ...]
    values_per_piece: int
    sd: _Sd
    oven_instead: bool


@worked
def pieces_to_split(
    wanted_sd: _Sd,
    *,
    piece_spread: Annotated[float, Unit("-"), Gt(0.0), Le(0.3)] = PIECE_SPREAD,
    meter_sd: Annotated[float, Unit("-"), Ge(0.0), Le(0.2)] = METER_SD,
) -> Annotated[float, Unit("-"), Ge(1.0), Le(1000.0)]:
    r"""How many pieces must be split for a mean of a given sureness.

    Parameters
    ----------
    wanted_sd : float
        How far the mean may be off, one standard deviation, :math:`\sigma`. [-] Above 0, to 0.3.
    piece_spread : float
        How far single pieces lie apart, :math:`s`. [-] Above 0, to 0.3.
    meter_sd : float
        The meter's own error, :math:`e`. [-] From 0 to 0.2.

    Returns
    -------
    float
        Pieces, at least 3. [-]

    Raises
    ------
    OutOfRange
        If no number of pieces is enough because the meter itself is no better, or it would be over 60.

    Notes
    -----
    .. math:: n = \frac{s^2}{\sigma^2 - e^2}

    References
    ----------
    .. [1] Error of a mean; the usual sizes of both errors are assumed, see
       :func:`woodreeve.wood.seasoning_readings.moisture_sd`.

    Examples
    --------
    >>> pieces_to_split(0.025)
    4.0
    """
    left = wanted_sd**2 - meter_sd**2
    if left <= 0.0:
        raise OutOfRange(
            "wanted_sd",
            f"{wanted_sd:g}",
            f"more than the meter's own error of {meter_sd:g}",
            "-",
            "use the oven",
        )
    pieces = math.ceil(piece_spread**2 / left - 1e-9)
    if pieces > MOST_PIECES:
        raise OutOfRange("wanted_sd", f"{wanted_sd:g}", "wide enough for 60 pieces", "-", "use the oven")
    return float(max(pieces, LEAST_PIECES))


@worked
def range_after(
    forecast_sd: Annotated[float, Unit("-"), Gt(0.0), Le(0.3)],
    reading_sd: _Sd,
    readings: Annotated[float, Unit("-"), Ge(0.0), Le(100.0)] = 1.0,
) -> Annotated[float, Unit("-"), Ge(0.0), Le(0.5)]:
    r"""Half the range (8 cases in 10) of today's moisture after some more readings.

    Parameters
    ----------
    forecast_sd : float
        How far the forecast may be off now, one standard deviation, :math:`p`. [-] Above 0, to 0.3.
    reading_sd : float
        How far one reading may be off, :math:`\sigma`. [-] Above 0, to 0.3.
    readings : float
        How many readings of that kind, :math:`n`. [-] From 0 to 100.

    Returns
    -------
    float
        Half the width of the range, plus or minus. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: h = 1.2816 \left(\frac{1}{p^2} + \frac{n}{\sigma^2}\right)^{-1/2}

    for readings whose errors do not hang together: the same meter on the same day does not count twice.

    References
    ----------
    .. [1] Mean of normal findings weighted by their certainty (textbook).

    Examples
    --------
    >>> round(range_after(0.05, 0.025, 0.0), 3), round(range_after(0.05, 0.025, 1.0), 3)
    (0.064, 0.029)
    """
    return 1.2816 / math.sqrt(1.0 / forecast_sd**2 + readings / reading_sd**2)


@worked
def sampling_plan(
    wanted_sd: _Sd = 0.02,
    *,
    rows: Annotated[float, Unit("-"), Ge(1.0), Le(20.0)] = 1.0,
    likely_moisture: Annotated[float, Unit("-"), Ge(0.0), Le(0.7)] = 0.22,
    piece_spread: Annotated[float, Unit("-"), Gt(0.0), Le(0.3)] = PIECE_SPREAD,
    meter_sd: Annotated[float, Unit("-"), Ge(0.0), Le(0.2)] = METER_SD,
) -> SamplingPlan:
    r"""Which pieces of a stack to split and read.

    Parameters
    ----------
    wanted_sd : float
        How far the mean may be off, one standard deviation. [-] Above 0, to 0.3.
    rows : float
        Rows of the stack, one behind the other. [-] From 1 to 20.
    likely_moisture : float
        What the forecast says; above 25 % a meter is of little use. [-] From 0 to 0.7.
    piece_spread : float
        How far single pieces lie apart. [-] Above 0, to 0.3.
    meter_sd : float
        The meter's own error. [-] From 0 to 0.2.

    Returns
    -------
    SamplingPlan
        The pieces in turn from top, middle and bottom, outside and core.

    Raises
    ------
    OutOfRange
        If the wish cannot be met with 60 pieces, or a number lies outside the range given above.

    Notes
    -----
    Split each piece again and read the fresh face at once, in the middle and about 5 cm from each end:
    the outside of a piece is drier than its core, and a core value alone overstates its mean.

    .. math:: n = \max\left(3, \frac{s^2}{\sigma^2 - e^2}\right)

    References
    ----------
    .. [1] Three pieces, nine values: verbraucherschutz.tv, as read; places on the face: German meter
       guideline as quoted on a trade page.
    """
    count = round(pieces_to_split(wanted_sd, piece_spread=piece_spread, meter_sd=meter_sd))
    heights: tuple[Literal["top", "middle", "bottom"], ...] = ("top", "middle", "bottom")
    depths: tuple[Literal["outside", "core"], ...] = ("core", "outside") if rows > 1.0 else ("outside",)
    pieces = tuple(
        SamplePiece(height=heights[k % 3], depth=depths[(k // 3 + k % 3) % len(depths)]) for k in range(count)
    )
    return SamplingPlan(
        pieces=pieces,
        values_per_piece=3,
        sd=moisture_sd(float(count), piece_spread=piece_spread, meter_sd=meter_sd),
        oven_instead=likely_moisture > 0.25,
    )
