"""Why a reading may lie far from what was expected: the likely causes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal

from woodreeve.learning.course import ReadingSeen
from woodreeve.units import Ge, Le, Unit
from woodreeve.wood.moisture import to_dry_basis, to_wet_basis
from woodreeve.wood.seasoning_readings import SETTING_SD
from woodreeve.workings import worked

__all__ = ["Cause", "Doubt", "doubts_about"]

Cause = Literal["wet_surface", "wrong_basis", "species_setting", "cold_wood", "decay", "one_spot", "truly_so"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A likely cause of an odd reading; what to do about it is for the words to say."""

    cause: Cause


@worked
def doubts_about(
    seen: ReadingSeen,
    *,
    stack_since: date,
    air_c: Annotated[float, Unit("degC"), Ge(-60.0), Le(60.0)] | None = None,
) -> tuple[Doubt, ...]:
    r"""Likely causes of a reading far from what was expected, the likeliest first.

    An odd reading is kept, shown and hardly followed; the owner decides what it was.

    Parameters
    ----------
    seen : ReadingSeen
        The reading and what was expected.
    stack_since : date
        Since when the stack has stood.
    air_c : float, optional
        Mean air temperature of the day before. [degC] From -60 to 60.

    Returns
    -------
    tuple of Doubt
        Causes that fit; empty if the reading is not odd.

    Raises
    ------
    OutOfRange
        If the temperature lies outside the range given above.

    Notes
    -----
    The other basis is named if the number, read so, would lie within two standard deviations:

    .. math:: \left|M' - M_{expected}\right| \le 2 \sqrt{\sigma^2 + \sigma_{forecast}^2}

    References
    ----------
    .. [1] Common practice, no published source.
    """
    if not seen.odd:
        return ()
    reading = seen.reading
    wetter = reading.moisture > seen.expected
    found: list[Cause] = []
    if reading.how == "meter" and _fits_other_basis(seen):
        found.append("wrong_basis")
    if reading.how == "meter" and wetter and reading.surface_may_be_wet:
        found.append("wet_surface")
    if reading.how == "meter" and not wetter and air_c is not None and air_c < 5.0:
        found.append("cold_wood")
    if reading.how == "meter" and abs(reading.moisture - seen.expected) <= 6.0 * SETTING_SD:
        found.append("species_setting")
    if wetter and (reading.taken - stack_since).days > 540:
        found.append("decay")
    if reading.how != "meter":
        found.append("one_spot")
    found.append("truly_so")
    return tuple(Doubt(cause=cause) for cause in found)


def _fits_other_basis(seen: ReadingSeen) -> bool:
    """Whether the meter's number, taken on the other basis, agrees with the forecast."""
    reading = seen.reading
    if reading.basis == "dry":
        shown = to_dry_basis(reading.moisture)
        other = shown if shown <= 0.7 else 0.7
    elif reading.basis == "wet":
        other = to_wet_basis(reading.moisture)
    else:
        return False
    allowed = 2.0 * float((reading.sd**2 + seen.expected_sd**2) ** 0.5)
    return abs(other - seen.expected) <= allowed
