"""The wood of an evening: which stacks may be burnt, what a fill of each weighs, and which are too wet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Annotated

from woodreeve.diary.amounts import form_of
from woodreeve.firing.lots import Lot, WettestWood, lot_of_stack, usable_lots, wettest_wood
from woodreeve.money.fields import Prices
from woodreeve.plant.fields import LogBoiler
from woodreeve.units import Unit
from woodreeve.wood.selling import Nation
from woodreeve.workings import worked
from woodreeve.yard.containers import fill_mass
from woodreeve.yard.fields import Container, WoodLimits
from woodreeve.yard.stacks import StackHeat
from woodreeve.yard.stock import BurnTurn

__all__ = ["TooWet", "WoodTonight", "wood_tonight"]

MOST_LOTS = 4
"""So many stacks are looked at: those whose turn is first. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class TooWet:
    """A stack that is not burnt: too wet, or nobody has measured it."""

    name: str
    moisture: Annotated[float, Unit("-")]
    measured: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodTonight:
    """The wood of an evening.

    Parameters
    ----------
    lots : tuple of Lot
        Stacks that may be burnt, in their turn.
    species : tuple of str
        The main species of each.
    fill_kg : tuple of float or None
        What the owner's fill of the boiler weighs with each; ``None`` where it is not described. [kg]
    limit : WettestWood
        How wet is too wet, and by whose word.
    refused : tuple of TooWet
        Stacks that are not burnt, the driest first.
    """

    lots: tuple[Lot, ...]
    species: tuple[str, ...]
    fill_kg: tuple[float | None, ...]
    limit: WettestWood
    refused: tuple[TooWet, ...]


@worked
def wood_tonight(
    stacks: Sequence[StackHeat],
    order: Sequence[BurnTurn],
    boiler: LogBoiler,
    prices: Prices,
    limits: WoodLimits,
    nation: Nation | None,
    on: date,
    fill: Container | None = None,
    boiler_room: str | None = None,
) -> WoodTonight:
    r"""Which stacks may be burnt tonight.

    Wood that is wetter than the maker, the nation or the owner allows is left out at any price, and so is
    wood that nobody has measured. What lies by the boiler goes first.

    Parameters
    ----------
    stacks : sequence of StackHeat
        All stacks.
    order : sequence of BurnTurn
        Their turns to be burnt.
    boiler : LogBoiler
        The boiler; its fuel space must be known.
    prices : Prices
        The owner's prices.
    limits : WoodLimits
        The owner's limits.
    nation : str or None
        Whose rules hold.
    on : date
        The day.
    fill : Container, optional
        The owner's measure of a boiler's fill.
    boiler_room : str, optional
        Name of the stock by the boiler.

    Returns
    -------
    WoodTonight
        The stacks in their turn, and those refused.

    Raises
    ------
    Unknown
        If the fuel space or every limit is not known.

    Notes
    -----
    .. math:: M \le \min(M_\text{maker}, M_\text{nation}, M_\text{owner})

    Taken are the first four. The stock by the boiler has been carried already: it counts at the price of the
    cheapest heat among the stacks, and so goes first as long as it lasts.

    References
    ----------
    .. [1] As :func:`wettest_wood`, :func:`lot_of_stack` and :func:`fill_mass`.
    """
    limit = wettest_wood(boiler.most_moisture, nation, limits.wet, on)
    turns = {one.place: one.turn for one in order}
    form = form_of("split", boiler.log_length_cm)
    by_name = {stack.place: stack for stack in stacks}
    lots = tuple(
        lot_of_stack(stack, boiler, prices, form, 0 if stack.place == boiler_room else turns[stack.place])
        for stack in stacks
    )
    dry = usable_lots(lots, limit.moisture)
    names = {lot.name for lot in dry}
    cheapest = min((lot.price_kg / lot.heat_kwh_per_kg for lot in dry), default=0.0)
    carried = tuple(
        replace(lot, price_kg=cheapest * lot.heat_kwh_per_kg) if lot.name == boiler_room else lot
        for lot in dry
    )
    usable = usable_lots(carried, limit.moisture)[:MOST_LOTS]
    refused = sorted(
        (lot for lot in lots if lot.name not in names and lot.left_kg > 1.0), key=lambda lot: lot.moisture
    )
    mixes = [by_name[lot.name].mix for lot in usable]
    return WoodTonight(
        lots=usable,
        species=tuple(max(mix, key=lambda name: mix[name]) for mix in mixes),
        fill_kg=tuple(
            None if fill is None else fill_mass(fill, dict(mix), lot.moisture).mass_kg
            for mix, lot in zip(mixes, usable, strict=True)
        ),
        limit=limit,
        refused=tuple(
            TooWet(name=lot.name, moisture=lot.moisture, measured=lot.moisture_known) for lot in refused
        ),
    )
