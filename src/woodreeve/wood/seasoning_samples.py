"""Moisture by the scales: pieces dried in an oven, and marker pieces weighed again and again."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal, TypeAlias

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.seasoning_readings import ONE_SPOT_SD, PIECE_SPREAD, Sd, StackReading
from woodreeve.workings import worked

__all__ = [
    "OvenSample",
    "OvenVerdict",
    "mass_holds",
    "marker_reading",
    "oven_reading",
    "oven_sample",
    "reading_of_pieces",
]

CONSTANT_SHARE = 0.002
"""Dry enough when another hour takes off no more than this share of all water lost so far. [-]"""

OVEN_SD = 0.003
"""Error of one oven-dried sample itself; assumed. [-]"""

OVEN_PIECE_SPREAD = 0.03
"""How far whole oven-dried pieces lie apart where fewer than four were dried; assumed. [-]"""

Gram: TypeAlias = Annotated[float, Unit("g"), Gt(0.0), Le(100_000.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class OvenSample:
    """A sample weighed wet, then dried at 105 °C and weighed again until its mass holds.

    Parameters
    ----------
    wet_g : float
        Mass as taken from the stack. [g]
    dried_g : tuple of float
        Masses in the oven, one after another. [g]
    hours_between_last : float, optional
        Hours in the oven between the last two weighings. [h]
    """

    wet_g: Gram
    dried_g: tuple[Gram, ...]
    hours_between_last: Annotated[float, Unit("h"), Gt(0.0), Le(200.0)] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OvenVerdict:
    """Moisture of an oven sample, and whether the drying was complete."""

    moisture: Moisture
    complete: Literal["complete", "not_complete", "cannot_tell"]
    sentence: str


def mass_holds(wet_g: float, before_g: float, after_g: float, hours: float = 1.0) -> bool:
    """Whether a sample in the oven is dry: the one rule of the project, for diary and model alike.

    ISO 18134-1 (from memory; its text is sold and was not read) calls the mass constant when a further hour
    at 105 °C changes it by no more than 0.2 % of the total loss in mass: of the water gone, not of the
    sample.

    Parameters
    ----------
    wet_g, before_g, after_g : float
        Mass as taken from the stack, and at the last two weighings. [g]
    hours : float
        Hours in the oven between these two. [h]

    Returns
    -------
    bool
        Whether it lost no more than that between the two.
    """
    return before_g - after_g <= CONSTANT_SHARE * (wet_g - min(before_g, after_g)) * hours


@worked
def oven_sample(sample: OvenSample) -> OvenVerdict:
    r"""Moisture of a sample from its masses, and whether it was dried long enough.

    Parameters
    ----------
    sample : OvenSample
        The weighings.

    Returns
    -------
    OvenVerdict
        Moisture over wet mass, and the verdict. If drying was not complete, the true moisture is higher.

    Raises
    ------
    OutOfRange
        If there is no dry mass, or a dry mass exceeds the wet one.

    Notes
    -----
    .. math:: M = \frac{m_{wet} - m_{dry}}{m_{wet}}

    The mass counts as constant when a further hour at 105 °C takes off no more than 0.2 % of the water
    lost so far. A single weighing cannot tell; nor can two that are less than an hour apart.

    References
    ----------
    .. [1] ISO 18134-1, "Solid biofuels. Determination of moisture content. Part 1" (from memory: 105 °C,
       constancy of 0.2 % of the total loss over 60 minutes).

    Examples
    --------
    >>> oven_sample(OvenSample(wet_g=250.0, dried_g=(201.0, 200.0, 200.0), hours_between_last=1.0)).moisture
    0.2
    """
    if not sample.dried_g:
        raise OutOfRange("dried_g", "no weighing", "at least one weighing", "g")
    last = min(sample.dried_g)
    if max(sample.dried_g) > sample.wet_g:
        raise OutOfRange(
            "dried_g", f"{max(sample.dried_g):g}", f"at most the wet mass of {sample.wet_g:g}", "g"
        )
    moisture = (sample.wet_g - last) / sample.wet_g
    if len(sample.dried_g) < 2 or (sample.hours_between_last or 1.0) < 1.0:
        verdict: Literal["complete", "not_complete", "cannot_tell"] = "cannot_tell"
        sentence = "Weigh once more after an hour in the oven: one weighing cannot tell if it is dry."
    elif mass_holds(
        sample.wet_g, sample.dried_g[-2], sample.dried_g[-1], hours=sample.hours_between_last or 1.0
    ):
        verdict, sentence = "complete", "The mass holds: the sample is dry."
    else:
        verdict = "not_complete"
        sentence = "It still loses mass: the true moisture is higher than this. Dry on."
    return OvenVerdict(moisture=moisture, complete=verdict, sentence=sentence)


@worked
def oven_reading(taken: date, samples: tuple[OvenSample, ...], *, one_spot: bool = False) -> StackReading:
    r"""The stack's mean moisture from oven-dried samples.

    Parameters
    ----------
    taken : date
        The day the pieces left the stack.
    samples : tuple of OvenSample
        One for each piece.
    one_spot : bool
        Whether all pieces came from one place of the stack.

    Returns
    -------
    StackReading
        A value; a lower bound if any sample was not dried to the end.

    Raises
    ------
    OutOfRange
        If there is no sample, or its masses make no sense.

    Notes
    -----
    .. math:: M = \frac{1}{n}\sum_i M_i, \quad \sigma^2 = 0.003^2 + s^2 / n + o^2

    with the spread :math:`s` between pieces as found, or 0.03 where fewer than four were dried.

    References
    ----------
    .. [1] :func:`oven_sample` for each sample; the spread is assumed.
    """
    if not samples:
        raise OutOfRange("samples", "none", "at least one sample")
    verdicts = [oven_sample(sample) for sample in samples]
    return reading_of_pieces(
        taken,
        [verdict.moisture for verdict in verdicts],
        unfinished=any(verdict.complete == "not_complete" for verdict in verdicts),
        one_spot=one_spot,
        notes=tuple(dict.fromkeys(v.sentence for v in verdicts if v.complete != "complete")),
    )


def reading_of_pieces(
    taken: date,
    moistures: Sequence[float],
    *,
    unfinished: bool = False,
    one_spot: bool = False,
    notes: tuple[str, ...] = (),
) -> StackReading:
    """The stack's mean moisture from that of a few oven-dried pieces; see :func:`oven_reading`."""
    spread = float(np.std(moistures, ddof=1)) if len(moistures) >= 4 else OVEN_PIECE_SPREAD
    spot = ONE_SPOT_SD if one_spot else 0.0
    mean = float(np.mean(moistures))
    return StackReading(
        taken=taken,
        kind="above" if unfinished else "value",
        moisture=mean,
        sd=max(math.sqrt(OVEN_SD**2 + spread**2 / len(moistures) + spot**2), 0.005),
        how="oven",
        safe_moisture=None if unfinished else mean,
        notes=notes,
    )


@worked
def marker_reading(
    taken: date,
    dry_kg: Sequence[Annotated[float, Unit("kg"), Gt(0.0), Le(500.0)]],
    now_kg: Sequence[Annotated[float, Unit("kg"), Gt(0.0), Le(500.0)]],
    *,
    dry_mass_sd: Annotated[float, Unit("-"), Ge(0.0), Le(0.2)] = 0.01,
    piece_spread: Sd = PIECE_SPREAD,
) -> StackReading:
    r"""The stack's mean moisture from marker pieces whose dry mass is known.

    A marked piece, weighed and put back, follows the stack better than any meter: the scales see the
    water go. One piece is still only one piece.

    Parameters
    ----------
    taken : date
        The day of the weighing.
    dry_kg : sequence of float
        Dry mass of each piece, from an oven check of a slice of it, :math:`m_d`. [kg]
    now_kg : sequence of float
        Their masses on the day, :math:`m`. [kg]
    dry_mass_sd : float
        How far the dry masses may be off, as a moisture. [-] From 0 to 0.2.
    piece_spread : float
        How far single pieces of a stack lie apart. [-] Above 0, to 0.3.

    Returns
    -------
    StackReading
        A value.

    Raises
    ------
    OutOfRange
        If a piece weighs less than its dry mass, or the lists differ in length.

    Notes
    -----
    .. math:: M = \frac{1}{n} \sum_i \left(1 - \frac{m_{d,i}}{m_i}\right), \quad
       \sigma^2 = \sigma_d^2 + s^2 / n

    References
    ----------
    .. [1] Definition of moisture; sizes of the errors assumed.

    Examples
    --------
    >>> marker_reading(date(2026, 5, 1), [1.5], [2.0]).moisture
    0.25
    """
    if len(dry_kg) != len(now_kg) or not len(dry_kg):
        raise OutOfRange(
            "now_kg", f"{len(now_kg)} masses", f"{len(dry_kg)} masses, one for each marker piece"
        )
    for dry, now in zip(dry_kg, now_kg, strict=True):
        if now < dry:
            raise OutOfRange("now_kg", f"{now:g}", f"at least the piece's dry mass of {dry:g}", "kg")
    found = [1.0 - dry / now for dry, now in zip(dry_kg, now_kg, strict=True)]
    mean = sum(found) / len(found)
    return StackReading(
        taken=taken,
        kind="value",
        moisture=mean,
        sd=max(math.sqrt(dry_mass_sd**2 + piece_spread**2 / len(found)), 0.005),
        how="marker",
        safe_moisture=mean,
    )
