"""A stack as drying sees it: its wood, its size, how it lies and since when it is covered."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from woodreeve.errors import OutOfRange
from woodreeve.units import Ge, Le, Moisture, Unit
from woodreeve.wood.kinds import Wood
from woodreeve.wood.seasoning_fit import Cover, Place
from woodreeve.wood.seasoning_pace import REFERENCE_LENGTH_MM, REFERENCE_THICKNESS_MM, Length, Thickness
from woodreeve.wood.species import green_moisture
from woodreeve.workings import worked

__all__ = ["GREEN_MOISTURE_SD", "CoverSpell", "DryingStack", "start_moisture"]

GREEN_MOISTURE_SD = 0.03
"""How far the moisture of fresh wood is off its species' figure, one standard deviation. [-]"""


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
