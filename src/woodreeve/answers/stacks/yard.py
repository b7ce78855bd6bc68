"""Answers what is in each stack, how wet it is, and which to burn first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from woodreeve.answers.stacks.lines import StackLine, lines_of
from woodreeve.answers.stacks.said import said_of
from woodreeve.diary.findings import Finding
from woodreeve.diary.folded import StackContents
from woodreeve.learning.burning import SetAside, set_aside
from woodreeve.records.asking import Asking
from woodreeve.workings import Figure, Said, figure
from woodreeve.yard.order import burning_order
from woodreeve.yard.stacks import StackHeat, stack_heat
from woodreeve.yard.stock import yard_stock

__all__ = ["KeptLine", "RoundLine", "StacksAnswer", "answer"]


@dataclass(frozen=True, slots=True)
class RoundLine:
    """Wood that is not split yet."""

    name: str
    mix: Mapping[str, float]
    solid_m3: Figure
    heat_kwh: Figure


@dataclass(frozen=True, slots=True)
class KeptLine:
    """Wood that a neighbour still has to get, and the stack it is kept in; none where none suits."""

    customer: str
    stacked_m3: Figure
    by: date | None
    stack: str | None


@dataclass(frozen=True, slots=True)
class StacksAnswer:
    """The yard, stack by stack, in the order in which to burn it.

    Parameters
    ----------
    kept : tuple of KeptLine
        What is kept for neighbours.
    short_kwh, wet_kwh : Figure, optional
        Heat wanted until the end of June that no stack can give, and heat that has to come from wood above
        the ideal; unknown where the house's need is.
    no_order : str
        Why there is no order for the winter, if there is none.
    season_start : date
        When the next winter's fires begin.
    weather : str
        What the stacks are followed through.
    rain_known : bool
        Whether its rain is known.
    learned_from : int
        Used-up stacks that were learned from.
    """

    moment: datetime
    sentence: Said
    stacks: tuple[StackLine, ...]
    in_the_round: tuple[RoundLine, ...]
    kept: tuple[KeptLine, ...]
    short_kwh: Figure | None
    wet_kwh: Figure | None
    no_order: str
    season_start: date
    weather: str
    rain_known: bool
    learned_from: int
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
    stock, burning, following = asking.stock, asking.burning, asking.following
    lines = lines_of(asking)
    plan = burning.plan
    weather = following.weather
    return StacksAnswer(
        moment=asking.moment,
        sentence=said_of(lines, stock),
        stacks=tuple(lines),
        in_the_round=tuple(
            _round(pile, stack_heat(pile, limits))
            for pile in asking.in_the_round.values()
            if pile.solid_m3 > 0.0
        ),
        kept=tuple(_kept(one) for one in burning.kept),
        short_kwh=figure(plan.short_all_kwh, "kWh", burning_order, basis="net heat of wood")
        if plan
        else None,
        wet_kwh=figure(plan.wet_kwh, "kWh", burning_order, basis="net heat of wood") if plan else None,
        no_order=burning.missing,
        season_start=following.season_start,
        weather=weather.source if weather is not None else "",
        rain_known=weather is not None and weather.rain_known,
        learned_from=len(following.finished),
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


def _round(pile: StackContents, heat: StackHeat) -> RoundLine:
    return RoundLine(
        name=pile.place,
        mix=heat.mix,
        solid_m3=figure(pile.solid_m3, "m3", "fold", basis="solid"),
        heat_kwh=figure(heat.heat_kwh, "kWh", stack_heat, basis="net heat at the moisture it has now"),
    )


def _kept(one: SetAside) -> KeptLine:
    return KeptLine(
        customer=one.customer,
        stacked_m3=figure(one.stacked_m3, "m3", set_aside, basis="stacked"),
        by=one.by,
        stack=one.place,
    )
