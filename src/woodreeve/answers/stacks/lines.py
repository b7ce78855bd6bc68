"""One stack as a line of the answer: its wood, its moisture, when it is ready and when to burn it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from woodreeve.answers.stacks.ready import ReadyWhen, ready_of
from woodreeve.diary.folded import StackContents
from woodreeve.learning.present import FollowedStack
from woodreeve.records.asking import Asking
from woodreeve.workings import Figure, figure
from woodreeve.yard.order import BurnReason, BurnStep, burning_order
from woodreeve.yard.stacks import Dryness, MoistureNow, StackHeat, stack_heat
from woodreeve.yard.stock import BurnTurn

__all__ = ["KnownBy", "StackLine", "lines_of"]

Why = Literal["dry_and_spoils", "dry", "damp", "not_measured", "too_wet"]
KnownBy = Literal["measured", "above_meter", "reckoned", "not_known"]


@dataclass(frozen=True, slots=True)
class StackLine:
    """One stack: its wood, its moisture, its heat and its turn.

    Parameters
    ----------
    moisture : Figure, optional
        Today's, on the wet basis; unknown where nobody measured and nothing could be reckoned.
    or_less : bool
        Whether it is to be said as "about so much or less".
    known_by : str
        Whether it rests on a recent reading, or is reckoned.
    ready : ReadyWhen, optional
        When it comes to the owner's ideal; unknown where the stack cannot be followed.
    not_followed : str
        Why it cannot be.
    reasons : tuple of str
        Why it has this turn.
    burn_from : date, optional
        The month in which its turn comes.
    burnt_kwh : Figure, optional
        How much of its heat the order takes until the end of June.
    odd_readings : int
        Readings that need a second look.
    """

    name: str
    where: Literal["stack", "boiler_room"]
    mix: Mapping[str, float]
    stacked_m3: Figure
    mass_kg: Figure
    heat_kwh: Figure
    moisture: Figure | None
    or_less: bool
    known_by: KnownBy
    measured_on: date | None
    dryness: Dryness
    split_on: date | None
    covered_on: date | None
    turn: int
    why: Why
    reasons: tuple[BurnReason | Literal["not_measured"], ...]
    burn_from: date | None
    burnt_kwh: Figure | None
    burn: bool
    ready: ReadyWhen | None
    not_followed: str
    odd_readings: int


def lines_of(asking: Asking) -> list[StackLine]:
    """Every stack with wood in it, in the order in which to burn them; what is by the boiler comes first."""
    held = dict(asking.split_wood)
    room = asking.folded.boiler_room
    if room is not None:
        held[room.place] = room
    turns = {turn.place: turn for turn in asking.stock.order}
    plan = asking.burning.plan
    steps = {step.name: step for step in plan.steps} if plan else {}

    def place_in_order(one: StackHeat) -> tuple[bool, bool, int, int]:
        is_room = held[one.place].stage == "boiler_room"
        turn = turns[one.place]
        return not is_room, not turn.burn, steps[one.place].place if one.place in steps else 0, turn.turn

    ordered = sorted(asking.stock.stacks, key=place_in_order)
    following = asking.following
    return [
        _line(
            one,
            held[one.place],
            turns[one.place],
            turn=number,
            step=steps.get(one.place),
            followed=following.stacks.get(one.place),
            not_followed=following.not_followed.get(one.place, ""),
            season_start=following.season_start,
            today=asking.moment.date(),
        )
        for number, one in enumerate(ordered, start=1)
    ]


def _line(
    heat: StackHeat,
    contents: StackContents,
    burn: BurnTurn,
    *,
    turn: int,
    step: BurnStep | None,
    followed: FollowedStack | None,
    not_followed: str,
    season_start: date,
    today: date,
) -> StackLine:
    now = heat.moisture
    or_less = followed is not None and followed.outlook.shown.or_less
    begins = step.first_period if step is not None else None
    return StackLine(
        name=heat.place,
        where="boiler_room" if contents.stage == "boiler_room" else "stack",
        mix=heat.mix,
        stacked_m3=figure(heat.stacked_m3, "m3", stack_heat, basis="stacked"),
        mass_kg=figure(heat.mass_kg, "kg", stack_heat, basis="as it lies, water included"),
        heat_kwh=figure(
            heat.heat_kwh,
            "kWh",
            stack_heat,
            basis="net heat of the wood",
            low=heat.low_kwh,
            high=heat.high_kwh,
        ),
        moisture=figure(
            now.moisture,
            "-",
            "moisture_of_stack" if followed is None else "moisture_as_reckoned",
            basis="wet basis",
            low=None if or_less else now.low,
            high=None if or_less else now.high,
        )
        if now.known_by != "not_known"
        else None,
        or_less=or_less,
        known_by=now.known_by,
        measured_on=now.measured_on.date() if now.measured_on else None,
        dryness=heat.dryness,
        split_on=contents.split_on,
        covered_on=contents.covered_on,
        turn=turn,
        why=burn.why,
        reasons=_reasons(step, now) if step is not None else (),
        burn_from=date.fromisoformat(f"{begins}-01") if begins is not None else None,
        burnt_kwh=figure(step.total_kwh, "kWh", burning_order, basis="net heat of the wood")
        if step is not None
        else None,
        burn=burn.burn,
        ready=None if followed is None else ready_of(followed, season_start, today),
        not_followed=not_followed,
        odd_readings=len(followed.outlook.odd) if followed is not None else 0,
    )


def _reasons(step: BurnStep, now: MoistureNow) -> tuple[BurnReason | Literal["not_measured"], ...]:
    """Why it has its turn; wood that nobody measured is not said to be wet."""
    if now.known_by != "not_known":
        return step.reasons
    return tuple("not_measured" if reason == "too_wet" else reason for reason in step.reasons)
