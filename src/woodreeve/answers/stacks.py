"""Answers what is in each stack, how wet it is, and which to burn first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from woodreeve.diary.findings import Finding
from woodreeve.diary.folded import StackContents
from woodreeve.records.household import Asking
from woodreeve.workings import Figure, Said, figure
from woodreeve.yard.stacks import Dryness, StackHeat, stack_heat
from woodreeve.yard.stock import BurnTurn, YardStock, yard_stock

__all__ = ["RoundLine", "StackLine", "StacksAnswer", "answer"]

Why = Literal["dry_and_spoils", "dry", "damp", "not_measured", "too_wet"]


@dataclass(frozen=True, slots=True)
class StackLine:
    """One stack: its wood, its moisture, its heat and its turn."""

    name: str
    where: Literal["stack", "boiler_room"]
    mix: Mapping[str, float]
    stacked_m3: Figure
    mass_kg: Figure
    heat_kwh: Figure
    moisture: Figure | None
    measured_on: date | None
    dryness: Dryness
    split_on: date | None
    covered_on: date | None
    turn: int
    why: Why
    burn: bool


@dataclass(frozen=True, slots=True)
class RoundLine:
    """Wood that is not split yet."""

    name: str
    mix: Mapping[str, float]
    solid_m3: Figure
    heat_kwh: Figure


@dataclass(frozen=True, slots=True)
class StacksAnswer:
    """The yard, stack by stack, in the order in which to burn it."""

    moment: datetime
    sentence: Said
    stacks: tuple[StackLine, ...]
    in_the_round: tuple[RoundLine, ...]
    stacked_m3: Figure
    heat_kwh: Figure
    dry_heat_kwh: Figure
    dry_share: Figure
    target_moisture: Figure
    fine_moisture: Figure
    wet_limit: Figure
    findings: tuple[Finding, ...]


def answer(asking: Asking) -> StacksAnswer:
    """Answer for one holding at one moment.

    Parameters
    ----------
    asking : Asking
        The holding, its diary and the moment.

    Returns
    -------
    StacksAnswer
        Every stack with its wood, moisture, heat and turn.
    """
    folded = asking.folded
    limits = asking.holding.yard.limits
    rounds = asking.in_the_round
    stock = asking.stock
    turns = {turn.place: turn for turn in stock.order}
    held = asking.split_wood
    if folded.boiler_room is not None:
        held[folded.boiler_room.place] = folded.boiler_room
    lines = [_line(one, held[one.place], turns[one.place]) for one in stock.stacks]
    lines.sort(key=lambda line: line.turn)
    return StacksAnswer(
        moment=asking.moment,
        sentence=_sentence(lines, stock),
        stacks=tuple(lines),
        in_the_round=tuple(
            _round(pile, stack_heat(pile, limits)) for pile in rounds.values() if pile.solid_m3 > 0.0
        ),
        stacked_m3=figure(stock.stacked_m3, "m3", yard_stock, basis="stacked"),
        heat_kwh=figure(
            stock.heat_kwh,
            "kWh",
            yard_stock,
            basis="net heat of the wood",
            low=stock.low_kwh,
            high=stock.high_kwh,
        ),
        dry_heat_kwh=figure(
            stock.dry_kwh,
            "kWh",
            yard_stock,
            basis="net heat of the wood that is dry enough",
            low=stock.dry_low_kwh,
            high=stock.dry_high_kwh,
        ),
        dry_share=figure(stock.share_dry_enough, "-", yard_stock, basis="of the heat in split wood"),
        target_moisture=figure(limits.ideal, "-", "holding: yard.limits.ideal", basis="wet basis"),
        fine_moisture=figure(limits.fine, "-", "holding: yard.limits.fine", basis="wet basis"),
        wet_limit=figure(limits.wet, "-", "holding: yard.limits.wet", basis="wet basis"),
        findings=folded.findings,
    )


def _line(heat: StackHeat, contents: StackContents, turn: BurnTurn) -> StackLine:
    now = heat.moisture
    known = now.known_by != "not_known"
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
        moisture=figure(now.moisture, "-", "moisture_of_stack", basis="wet basis", low=now.low, high=now.high)
        if known
        else None,
        measured_on=now.measured_on.date() if now.measured_on else None,
        dryness=heat.dryness,
        split_on=contents.split_on,
        covered_on=contents.covered_on,
        turn=turn.turn,
        why=turn.why,
        burn=turn.burn,
    )


def _round(pile: StackContents, heat: StackHeat) -> RoundLine:
    return RoundLine(
        name=pile.place,
        mix=heat.mix,
        solid_m3=figure(pile.solid_m3, "m3", "fold", basis="solid"),
        heat_kwh=figure(heat.heat_kwh, "kWh", stack_heat, basis="net heat at the moisture it has now"),
    )


def _sentence(lines: list[StackLine], stock: YardStock) -> Said:
    if not lines:
        return Said("stacks.empty")
    first = lines[0]
    if not first.burn:
        key = "stacks.nothing_measured" if first.why == "not_measured" else "stacks.nothing_dry"
        return Said(
            key, {"stack": first.name, "stacked": figure(stock.stacked_m3, "m3", yard_stock, basis="stacked")}
        )
    values: dict[str, Figure | str | int] = {
        "stack": first.name,
        "share": figure(stock.share_dry_enough, "-", yard_stock),
    }
    if first.moisture is not None:
        values["moisture"] = first.moisture
    to_measure = [line.name for line in lines if line.dryness == "not_known"]
    if to_measure:
        values["unmeasured"] = to_measure[0]
        return Said("stacks.burn_and_measure", values)
    return Said("stacks.burn", values)
