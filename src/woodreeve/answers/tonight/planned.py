"""Answers whether to light the boiler tonight, when, with how much and from which stack."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, get_args

from woodreeve.answers.tonight.lines import (
    Lines,
    charted,
    measure_of,
    names_of,
    sentence_of,
    store_now,
    weather_used,
)
from woodreeve.answers.tonight.parts import TonightAnswer, WetStack
from woodreeve.errors import Unknown
from woodreeve.plant.cautions import Caution, situations
from woodreeve.plant.heat_escape import EscapeGap, escape_gap_on, heat_escape_gap
from woodreeve.records.asking import Asking
from woodreeve.wood.selling import Nation
from woodreeve.workings import Said, dated, figure
from woodreeve.yard.containers import fill_mass
from woodreeve.yard.fields import Container
from woodreeve.yard.stock import yard_stock

if TYPE_CHECKING:
    from woodreeve.firing.standing import Standing
    from woodreeve.firing.wood_tonight import WoodTonight

__all__ = ["answer"]

DO_NOT_LIGHT = (("water_missing", 0), ("chimney_fire", 4), ("co_alarm", 3), ("power_cut", 3), ("too_hot", 0))
"""Situations, and the line of what to do in each that forbids a fire, or more wood."""


def answer(asking: Asking) -> TonightAnswer:
    """Answer for one holding at one moment.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather, forecast and the moment.

    Returns
    -------
    TonightAnswer
        The sentence, the plan and what stands beside it. Where the plant or the house is not known enough,
        the answer says what is missing.
    """
    gap = escape_gap_on(asking.holding.plant, asking.folded.events, asking.moment.date())
    try:
        return _planned(asking, gap)
    except Unknown as missing:
        return replace(_empty(asking, gap), missing=str(missing))


def _empty(asking: Asking, gap: EscapeGap) -> TonightAnswer:
    return TonightAnswer(
        moment=asking.moment,
        begins=asking.moment,
        sentence=Said("tonight.unknown"),
        gap=_gap_said(gap),
        gap_verdict=gap.verdict,
        verdict="unknown",
        missing="",
        plan=None,
        ways=(),
        against=None,
        reasons=(),
        store=None,
        lowest_c=None,
        lowest_at=None,
        ahead=None,
        weather=None,
        wettest=None,
        wettest_by="",
        refused=(),
        by_boiler_kg=None,
        do_not_light=_do_not_light(),
        boiler_room=asking.folded.boiler_room.place if asking.folded.boiler_room else "",
        fill=names_of(measure_of(asking, "boiler_fill"))[0],
        carried_in=names_of(measure_of(asking, "carrying"))[0],
        carried_in_many=names_of(measure_of(asking, "carrying"))[1],
        currency=asking.holding.prices.currency,
        assumed=(),
    )


def _do_not_light() -> tuple[Caution, ...]:
    """The lines of the emergency card that speak of the next fire."""
    known = {one.key: one for one in situations()}
    return tuple(known[key].do[number] for key, number in DO_NOT_LIGHT)


def _planned(asking: Asking, gap: EscapeGap) -> TonightAnswer:
    # The compiler is only loaded when it is needed, after its folder has been named.
    from woodreeve.firing.tonight import tonight_plan, weather_of_plan
    from woodreeve.firing.wood_tonight import wood_tonight

    holding, folded = asking.holding, asking.folded
    fill, barrow = measure_of(asking, "boiler_fill"), measure_of(asking, "carrying")
    wood = wood_tonight(
        asking.stock.stacks,
        asking.stock.order,
        holding.plant.boiler,
        holding.prices,
        holding.yard.limits,
        _nation(holding.place.nation),
        asking.moment.date(),
        fill,
        folded.boiler_room.place if folded.boiler_room else None,
    )
    standing = _standing(asking, wood)
    spread = _spread(asking)
    weather = (
        weather_of_plan(asking.weather, standing.begins, asking.forecast)
        if spread is None
        else weather_of_plan(asking.weather, standing.begins, asking.forecast, spread)
    )
    plan = tonight_plan(
        holding.house,
        holding.plant,
        holding.prices,
        holding.wishes,
        standing,
        wood,
        weather,
        holding.place.zone_name,
        _barrow_kg(asking, barrow),
    )
    lines = Lines(asking, standing, plan)
    way = lines.way(plan.plan)
    verdict = "failed_test" if gap.verdict == "failed_test" else plan.verdict
    ways = tuple(lines.way(one) for one in plan.ways)
    by_boiler = next((one for one in asking.stock.stacks if _is_boiler_room(asking, one.place)), None)
    return replace(
        _empty(asking, gap),
        begins=standing.begins.astimezone(asking.zone),
        sentence=sentence_of(asking, verdict, lines, way, ways, wood),
        verdict=verdict,
        plan=way,
        ways=ways,
        against=plan.against,
        reasons=plan.reasons,
        store=store_now(asking, standing, plan),
        lowest_c=figure(plan.low_c, "degC", "tonight_plan", basis="where the heating draws"),
        lowest_at=lines.until(plan.low_h),
        ahead=charted(plan),
        weather=weather_used(asking, weather.outlook),
        wettest=figure(wood.limit.moisture, "-", "wood_tonight", basis="wet basis"),
        wettest_by=wood.limit.by,
        refused=tuple(
            WetStack(one.name, figure(one.moisture, "-", "wood_tonight", basis="wet basis"), one.measured)
            for one in wood.refused
        ),
        by_boiler_kg=None if by_boiler is None else figure(by_boiler.mass_kg, "kg", yard_stock),
        assumed=tuple(dict.fromkeys((*standing.assumed, *plan.assumed))),
    )


def _standing(asking: Asking, wood: WoodTonight) -> Standing:
    from woodreeve.firing.standing import how_things_stand

    folded, spread = asking.folded, _spread(asking)
    known = (
        asking.holding.house,
        asking.holding.plant,
        asking.weather,
        asking.moment,
        folded.fires,
        folded.of("lit", "refilled"),
        wood.lots[0] if wood.lots else None,
    )
    return how_things_stand(*known) if spread is None else how_things_stand(*known, spread)


def _nation(told: str | None) -> Nation | None:
    """The nation, where its rules on wood are known."""
    return next((one for one in get_args(Nation) if one == told), None)


def _spread(asking: Asking) -> float | None:
    """How much daily means spread in this month, where the climate tells it."""
    normals = asking.holding.climate.normals
    told = None if normals is None else normals.day_noise_sd_k
    return None if not told else told[asking.moment.month - 1]


def _is_boiler_room(asking: Asking, place: str) -> bool:
    room = asking.folded.boiler_room
    return room is not None and room.place == place


def _barrow_kg(asking: Asking, barrow: Container | None) -> float | None:
    """What one barrow of the wood by the boiler, or of the first dry stack, weighs."""
    stacks = asking.stock.stacks
    if barrow is None or not stacks:
        return None
    turns = {one.place: one.turn for one in asking.stock.order}
    first = min(stacks, key=lambda one: (not _is_boiler_room(asking, one.place), turns[one.place]))
    return fill_mass(barrow, dict(first.mix), first.moisture.moisture).mass_kg


def _gap_said(gap: EscapeGap) -> Said | None:
    if not gap.is_gap:
        return None
    return Said(gap.key, {"day": dated(gap.tested_on, heat_escape_gap, of=gap)} if gap.tested_on else {})
