"""The yard as a whole: all the heat in it, how much of it is dry enough, and what to burn first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import Annotated, Literal

from woodreeve.diary.folded import StackContents
from woodreeve.units import Unit
from woodreeve.workings import worked
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.stacks import Dryness, MoistureNow, StackHeat, stack_heat

__all__ = ["BurnTurn", "YardStock", "burning_turns", "yard_stock"]

LEAST_STACKED_M3 = 0.005
"""Less than a few logs is an empty place. [m3]"""

_TURN: Mapping[Dryness, int] = {"ideal": 0, "fine": 0, "damp": 1, "not_known": 2, "wet": 3}


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnTurn:
    """A stack's turn to be burnt.

    Parameters
    ----------
    place : str
        The stack.
    turn : int
        1 is next.
    why : str
        ``dry_and_spoils``, ``dry``, ``damp``, ``not_measured`` or ``too_wet``.
    burn : bool
        Whether it may be burnt as it is.
    """

    place: str
    turn: int
    why: Literal["dry_and_spoils", "dry", "damp", "not_measured", "too_wet"]
    burn: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class YardStock:
    """All the wood that is split, and what lies in the round.

    Parameters
    ----------
    stacks : tuple of StackHeat
        Each stack with wood in it, the boiler room last.
    order : tuple of BurnTurn
        What to burn first.
    heat_kwh, low_kwh, high_kwh : float
        Net heat of all split wood. [kWh]
    dry_kwh, dry_low_kwh, dry_high_kwh : float
        The part of it that is dry enough, ``ideal`` or ``fine``. [kWh]
    share_dry_enough : float
        That over all split wood. [-]
    share_not_known : float
        Share of the heat in stacks whose moisture nobody knows. [-]
    stacked_m3, mass_kg, dry_kg : float
        All split wood: air included, as it is, oven-dry. [m3] [kg] [kg]
    roadside_kwh, roadside_solid_m3 : float
        Wood in the round, by the road and in the wood: next year's, not counted above. [kWh] [m3]
    """

    stacks: tuple[StackHeat, ...]
    order: tuple[BurnTurn, ...]
    heat_kwh: Annotated[float, Unit("kWh")]
    low_kwh: Annotated[float, Unit("kWh")]
    high_kwh: Annotated[float, Unit("kWh")]
    dry_kwh: Annotated[float, Unit("kWh")]
    dry_low_kwh: Annotated[float, Unit("kWh")]
    dry_high_kwh: Annotated[float, Unit("kWh")]
    share_dry_enough: Annotated[float, Unit("-")]
    share_not_known: Annotated[float, Unit("-")]
    stacked_m3: Annotated[float, Unit("m3")]
    mass_kg: Annotated[float, Unit("kg")]
    dry_kg: Annotated[float, Unit("kg")]
    roadside_kwh: Annotated[float, Unit("kWh")]
    roadside_solid_m3: Annotated[float, Unit("m3")]


@worked
def burning_turns(stacks: tuple[StackHeat, ...]) -> tuple[BurnTurn, ...]:
    """Say in which order the stacks are best burnt.

    Dry wood first, and of the dry wood what rots soonest; damp wood waits, and what is too wet or not
    measured is not burnt before it is dry or measured.

    Parameters
    ----------
    stacks : tuple of StackHeat
        Stacks with wood in them.

    Returns
    -------
    tuple of BurnTurn
        In order, each with its reason.

    Notes
    -----
    Sorted by: dry enough, damp, not measured, too wet; then by whether more than half of it is birch,
    alder, willow or poplar; then by moisture; then by name.

    References
    ----------
    .. [1] Common practice, no published source.
    """
    ordered = sorted(
        stacks,
        key=lambda one: (_TURN[one.dryness], one.spoils <= 0.5, round(one.moisture.moisture, 4), one.place),
    )
    return tuple(
        BurnTurn(place=one.place, turn=turn, why=_why(one), burn=_TURN[one.dryness] < 2)
        for turn, one in enumerate(ordered, start=1)
    )


def _why(one: StackHeat) -> Literal["dry_and_spoils", "dry", "damp", "not_measured", "too_wet"]:
    match one.dryness:
        case "ideal" | "fine":
            return "dry_and_spoils" if one.spoils > 0.5 else "dry"
        case "damp":
            return "damp"
        case "wet":
            return "too_wet"
        case _:
            return "not_measured"


@worked
def yard_stock(
    stacks: Mapping[str, StackContents],
    limits: WoodLimits,
    *,
    boiler_room: StackContents | None = None,
    in_the_round: Mapping[str, StackContents] | None = None,
    reckoned: Mapping[str, MoistureNow] | None = None,
) -> YardStock:
    r"""Add up the yard: heat in all stacks, how much of it is dry enough, and the burning order.

    Parameters
    ----------
    stacks : mapping
        Contents of each stack, as the diary tells them; empty places are left out.
    limits : WoodLimits
        How wet is too wet.
    boiler_room : StackContents, optional
        The stock by the boiler.
    in_the_round : mapping, optional
        Roundwood by the road.
    reckoned : mapping, optional
        Moisture by place from the drying model, where there is one.

    Returns
    -------
    YardStock
        Stacks, order and sums. [kWh]

    Raises
    ------
    UnknownName
        If a species is not known.

    Notes
    -----
    The stacks' errors are taken as independent, so the range of the sum is

    .. math:: Q \pm \sqrt{\textstyle\sum_i d_i^2}

    with each stack's own half range :math:`d_i`, taken apart for the low and the high side.

    References
    ----------
    .. [1] As :func:`stack_heat`; propagation of independent errors: any textbook.
    """
    known = reckoned or {}
    piles = [pile for pile in stacks.values() if pile.stacked_m3 >= LEAST_STACKED_M3]
    if boiler_room is not None and boiler_room.stacked_m3 >= LEAST_STACKED_M3:
        piles.append(boiler_room)
    held = tuple(stack_heat(pile, limits, known.get(pile.place)) for pile in piles)
    dry = tuple(one for one in held if one.dryness in ("ideal", "fine"))
    rounds = [stack_heat(pile, limits) for pile in (in_the_round or {}).values() if pile.solid_m3 > 0.0]
    heat, low, high = _summed(held)
    dry_heat, dry_low, dry_high = _summed(dry)
    not_known = sum(one.heat_kwh for one in held if one.dryness == "not_known")
    return YardStock(
        stacks=held,
        order=burning_turns(held),
        heat_kwh=heat,
        low_kwh=low,
        high_kwh=high,
        dry_kwh=dry_heat,
        dry_low_kwh=dry_low,
        dry_high_kwh=dry_high,
        share_dry_enough=dry_heat / heat if heat > 0.0 else 0.0,
        share_not_known=not_known / heat if heat > 0.0 else 0.0,
        stacked_m3=float(sum(one.stacked_m3 for one in held)),
        mass_kg=float(sum(one.mass_kg for one in held)),
        dry_kg=float(sum(one.dry_kg for one in held)),
        roadside_kwh=float(sum(one.heat_kwh for one in rounds)),
        roadside_solid_m3=float(sum(pile.solid_m3 for pile in (in_the_round or {}).values())),
    )


def _summed(stacks: tuple[StackHeat, ...]) -> tuple[float, float, float]:
    heat = float(sum(one.heat_kwh for one in stacks))
    below = hypot(*(one.heat_kwh - one.low_kwh for one in stacks))
    above = hypot(*(one.high_kwh - one.heat_kwh for one in stacks))
    return heat, max(heat - below, 0.0), heat + above
