"""Which stack to burn when: dry before wet, short-lived before lasting, dense wood in frost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Floats, Gt, KilowattHour, Le, Moisture, Share, Unit
from woodreeve.wood.kinds import Wood, shares_of
from woodreeve.workings import worked
from woodreeve.yard.stacks import spoiling_share

__all__ = [
    "BurnPeriod",
    "BurnPlan",
    "BurnReason",
    "BurnStack",
    "BurnStep",
    "burning_order",
]

BurnReason = Literal[
    "dry", "too_wet", "promised", "spoils", "light_for_mild", "dense_for_frost", "too_long", "not_needed"
]

WET_POINT_COST = 1.0
"""Cost of a kWh from wood one point wetter than ideal; what the other costs are measured in. [-]"""
SPOIL_COST = 0.5
"""Cost of leaving a kWh of the shortest-lived wood one more period. [-]"""
FROST_COST = 3.0
"""Cost of the lightest wood in the hardest frost, or the densest on the mildest days. [-]"""
WAIT_COST = 0.02
"""Cost of putting off wood that could be burnt today: ties go to the stack named first. [-]"""
SHORT_COST = 500.0
"""Cost of a kWh that no stack can give: always dearer than wet wood. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnStack:
    """A stack as the question "which first" sees it.

    Parameters
    ----------
    name : str
        The stack.
    wood : str or mapping
        Species, or species to shares.
    heat_kwh : KilowattHour
        Heat that lies in it. [kWh]
    moisture : array
        Its likely moisture in each period. [-]
    promised_kwh : KilowattHour
        Heat of the part that is promised to others. [kWh]
    heat_per_fill_kwh : KilowattHour
        Heat of a full fill of the boiler with it. [kWh]
    log_length_cm : float, optional
        Length of its logs. [cm]
    """

    name: str
    wood: Wood
    heat_kwh: KilowattHour
    moisture: tuple[Moisture, ...]
    promised_kwh: KilowattHour = 0.0
    heat_per_fill_kwh: KilowattHour = 0.0
    log_length_cm: Annotated[float, Unit("cm"), Gt(0.0), Le(1200.0)] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnPeriod:
    """A month or a week of the winter: heat that is wanted, and how cold it is among the periods."""

    name: str
    wanted_kwh: KilowattHour
    coldness: Share
    """0 for the mildest period of the winter, 1 for the hardest frost."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnStep:
    """A stack in the order of burning."""

    name: str
    place: int
    burnt_kwh: tuple[float, ...]
    """Heat taken from it in each period. [kWh]"""
    total_kwh: KilowattHour
    left_kwh: KilowattHour
    """Heat that stays, promises not counted. [kWh]"""
    first_period: str | None
    reasons: tuple[BurnReason, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnPlan:
    """Stacks in the order of burning, and what no stack can give."""

    steps: tuple[BurnStep, ...]
    short_kwh: tuple[float, ...]
    """Heat wanted and not there, for each period. [kWh]"""
    short_all_kwh: KilowattHour
    """The same over all periods. [kWh]"""
    wet_kwh: KilowattHour
    """Heat that has to come from wood above the ideal moisture. [kWh]"""


@worked
def burning_order(
    stacks: tuple[BurnStack, ...],
    periods: tuple[BurnPeriod, ...],
    *,
    ideal: Moisture = 0.20,
    wet_limit: Moisture = 0.30,
    longest_log_cm: Annotated[float, Unit("cm"), Gt(0.0), Le(200.0)] | None = None,
) -> BurnPlan:
    r"""The order that burns least wet wood, keeps promises and lets nothing spoil.

    Parameters
    ----------
    stacks : tuple of BurnStack
        The stacks with their likely moisture in each period.
    periods : tuple of BurnPeriod
        The winter from today on.
    ideal : Moisture
        At or below this wood burns as it should. [-] From 0 to 0.7.
    wet_limit : Moisture
        Above this wood is not burnt. [-] From 0 to 0.7.
    longest_log_cm : float, optional
        The longest log the boiler takes. [cm] Above 0, to 200.

    Returns
    -------
    BurnPlan
        Stacks in order, heat from each in each period, and the heat that is not there.

    Raises
    ------
    OutOfRange
        If there is no period, a stack has not one moisture for each, or a limit lies outside its range.

    Notes
    -----
    Heat :math:`x_{sp}` is shared out so that

    .. math:: \min \sum_{s,p} x_{sp} \left[ 100 \max(M_{sp} - M_{ideal}, 0) - 0.5\, (P - p)\, r_s
       + 3 \left|d_s - c_p\right| \right] + 500 \sum_p y_p

    with the winter's wants met or short by :math:`y_p`, no stack giving more than it holds less what is
    promised, and none above the wet limit or too long for the boiler. :math:`P` is the number of periods
    and :math:`r` the share of the stack that rots soon: what is left over has waited through all of them.
    :math:`d` says how much heat a fill of it holds among these stacks, :math:`c` how cold the period is.
    The weights are this project's own: a point of moisture weighs as much as leaving birch for two periods.

    References
    ----------
    .. [1] A transport problem, solved by HiGHS through SciPy; the rules are common practice, no published
       source.
    """
    if not periods:
        raise OutOfRange("periods", "none", "at least one period of the winter")
    for stack in stacks:
        if len(stack.moisture) != len(periods):
            raise OutOfRange(
                f"moisture of {stack.name}",
                f"{len(stack.moisture)} values",
                f"{len(periods)} values, one a period",
            )
    density = _density(stacks)
    too_long = [
        longest_log_cm is not None
        and stack.log_length_cm is not None
        and stack.log_length_cm > longest_log_cm
        for stack in stacks
    ]
    burnt, short = _share_out(stacks, periods, density, too_long, ideal, wet_limit)
    steps = [
        _step(stack, periods, burnt[k], density[k], too_long[k], ideal) for k, stack in enumerate(stacks)
    ]
    order = sorted(range(len(stacks)), key=lambda k: (_middle_period(burnt[k]), -_spoils(stacks[k]), k))
    wet = sum(
        float(burnt[k, p])
        for k, stack in enumerate(stacks)
        for p in range(len(periods))
        if stack.moisture[p] > ideal + 1e-9
    )
    return BurnPlan(
        steps=tuple(_placed(steps[k], place) for place, k in enumerate(order, start=1)),
        short_kwh=tuple(float(value) for value in short),
        short_all_kwh=float(short.sum()),
        wet_kwh=wet,
    )


def _spoils(stack: BurnStack) -> float:
    """Share of the stack that rots soon."""
    return spoiling_share(shares_of(stack.wood))


def _density(stacks: Sequence[BurnStack]) -> list[float]:
    """Heat of a fill among these stacks, 0 for the lightest and 1 for the densest."""
    fills = [stack.heat_per_fill_kwh for stack in stacks]
    least, most = min(fills, default=0.0), max(fills, default=0.0)
    return [
        0.5 if most - least < 0.05 * max(most, 1.0) else (fill - least) / (most - least) for fill in fills
    ]


def _share_out(
    stacks: Sequence[BurnStack],
    periods: Sequence[BurnPeriod],
    density: Sequence[float],
    too_long: Sequence[bool],
    ideal: float,
    wet_limit: float,
) -> tuple[Floats, Floats]:
    from scipy.optimize import linprog

    count, spans = len(stacks), len(periods)
    cost = np.zeros((count + 1, spans))
    most = np.zeros((count + 1, spans))
    for k, stack in enumerate(stacks):
        spoils = _spoils(stack)
        for p, period in enumerate(periods):
            wet = 100.0 * max(stack.moisture[p] - ideal, 0.0)
            cost[k, p] = (
                WET_POINT_COST * wet
                + SPOIL_COST * spoils * (p - spans)
                + FROST_COST * abs(density[k] - period.coldness)
                + WAIT_COST * p
            )
            usable = stack.moisture[p] <= wet_limit and not too_long[k]
            most[k, p] = max(stack.heat_kwh - stack.promised_kwh, 0.0) if usable else 0.0
    cost[count] = SHORT_COST
    most[count] = [period.wanted_kwh for period in periods]
    holds = np.kron(np.eye(count + 1)[:count], np.ones(spans))
    wants = np.kron(np.ones(count + 1), np.eye(spans))
    solved = linprog(
        cost.ravel(),
        A_ub=holds if count else None,
        b_ub=[max(stack.heat_kwh - stack.promised_kwh, 0.0) for stack in stacks] if count else None,
        A_eq=wants,
        b_eq=[period.wanted_kwh for period in periods],
        bounds=list(zip(np.zeros(most.size), most.ravel(), strict=True)),
        method="highs",
    )
    shared: Floats = np.asarray(solved.x, dtype=float).reshape(count + 1, spans)
    return shared[:count], shared[count]


def _step(
    stack: BurnStack,
    periods: Sequence[BurnPeriod],
    burnt: Floats,
    density: float,
    too_long: bool,
    ideal: float,
) -> BurnStep:
    total = float(burnt.sum())
    used = np.nonzero(burnt > 1e-6 * max(total, 1.0))[0]
    coldness = float(burnt @ [period.coldness for period in periods]) / total if total > 0.0 else 0.0
    reasons: list[BurnReason] = []
    if too_long:
        reasons.append("too_long")
    if used.size and all(stack.moisture[p] <= ideal for p in used):
        reasons.append("dry")
    elif min(stack.moisture) > ideal:
        reasons.append("too_wet")
    if _spoils(stack) >= 0.5:
        reasons.append("spoils")
    if used.size and density <= 0.35 and coldness <= 0.5:
        reasons.append("light_for_mild")
    if used.size and density >= 0.65 and coldness >= 0.5:
        reasons.append("dense_for_frost")
    if stack.promised_kwh > 0.0:
        reasons.append("promised")
    if not used.size and not too_long and min(stack.moisture) <= ideal:
        reasons.append("not_needed")
    return BurnStep(
        name=stack.name,
        place=0,
        burnt_kwh=tuple(float(value) for value in burnt),
        total_kwh=total,
        left_kwh=max(stack.heat_kwh - stack.promised_kwh - total, 0.0),
        first_period=periods[int(used[0])].name if used.size else None,
        reasons=tuple(reasons),
    )


def _middle_period(burnt: Floats) -> float:
    total = float(burnt.sum())
    return float(burnt @ np.arange(burnt.size)) / total if total > 1e-6 else float(burnt.size)


def _placed(step: BurnStep, place: int) -> BurnStep:
    return BurnStep(
        name=step.name,
        place=place,
        burnt_kwh=step.burnt_kwh,
        total_kwh=step.total_kwh,
        left_kwh=step.left_kwh,
        first_period=step.first_period,
        reasons=step.reasons,
    )
