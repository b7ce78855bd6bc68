"""The first sentence: what to burn now, how wet it is, and what comes next."""

from __future__ import annotations

from collections.abc import Sequence

from woodreeve.answers.stacks.lines import StackLine
from woodreeve.workings import Dated, Figure, Said, figure
from woodreeve.yard.stock import YardStock, yard_stock

__all__ = ["moisture_said", "said_of", "wood_said"]

Values = dict[str, Figure | Dated | Said | str | int]

_COMES = ("date", "perhaps_spring", "next_spring", "not_in_sight")


def said_of(lines: Sequence[StackLine], stock: YardStock) -> Said:
    """The sentence of the answer.

    Parameters
    ----------
    lines : sequence of StackLine
        The stacks in the order of burning.
    stock : YardStock
        The yard.

    Returns
    -------
    Said
        Which stack first, at which moisture, and what is worth knowing of the next.
    """
    if not lines:
        return Said("stacks.empty")
    stacks = [line for line in lines if line.where == "stack"]
    first = next(
        (line for line in stacks if line.burn and line.burnt_kwh and line.burnt_kwh.value > 0.0), None
    )
    first = first or next((line for line in stacks if line.burn), None)
    if first is None:
        return _nothing_to_burn(stacks or lines, stock)
    return Said(
        "stacks.burn",
        {
            "wood": wood_said(first),
            "stack": first.name,
            "moisture": moisture_said(first),
            "then": _then([line for line in stacks if line is not first], stock),
        },
    )


def _nothing_to_burn(stacks: Sequence[StackLine], stock: YardStock) -> Said:
    first = stacks[0]
    if all(line.why == "not_measured" for line in stacks):
        stacked = figure(stock.stacked_m3, "m3", yard_stock, basis="stacked")
        return Said("stacks.nothing_measured", {"stack": first.name, "stacked": stacked})
    known = [line for line in stacks if line.moisture is not None]
    driest = min(known, key=lambda line: line.moisture.value if line.moisture else 1.0, default=first)
    then = _then([driest], stock)
    return Said("stacks.nothing_dry", {"stack": driest.name, "moisture": moisture_said(driest), "then": then})


def moisture_said(line: StackLine) -> Said:
    """A stack's moisture: as measured, or reckoned with its range, or "so much or less"."""
    if line.moisture is None:
        return Said("stacks.moisture.not_known")
    values: Values = {"moisture": line.moisture}
    if line.or_less:
        return Said("stacks.moisture.or_less", values)
    return Said(f"stacks.moisture.{line.known_by}", values)


def _then(others: Sequence[StackLine], stock: YardStock) -> Said:
    """What is worth knowing of the other stacks: the next to become ready, or one nobody has measured."""
    coming = [line for line in others if line.ready is not None and line.ready.verdict in _COMES]
    days = [
        (line.ready.day.value, line.turn, line.ready.said, line)
        for line in coming
        if line.ready and line.ready.day
    ]
    if days:
        _, _, ready, line = min(days, key=lambda one: one[:2])
        return Said("stacks.then.ready", {"wood": wood_said(line), "stack": line.name, "ready": ready})
    unknown = [line for line in others if line.dryness == "not_known"]
    if unknown:
        return Said("stacks.then.measure", {"stack": unknown[0].name})
    share = figure(stock.share_dry_enough, "-", yard_stock, basis="of the heat in split wood")
    if coming:
        return Said("stacks.then.none", {"wood": wood_said(coming[0]), "stack": coming[0].name})
    return Said("stacks.then.share", {"share": share})


def wood_said(line: StackLine) -> str:
    """The species that most of a stack is, as a name that the words can translate."""
    return max(line.mix.items(), key=lambda part: part[1])[0] if line.mix else "wood"
