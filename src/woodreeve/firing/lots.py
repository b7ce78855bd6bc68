"""The wood that a plan may burn: which stacks are dry enough, what they weigh and what they are worth."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal

from woodreeve.errors import Unknown
from woodreeve.money.fields import Prices
from woodreeve.plant.fields import LogBoiler
from woodreeve.units import Ge, Gt, Le, Moisture, Unit
from woodreeve.wood.heat import energy_per_kg, energy_per_stacked_m3
from woodreeve.wood.mass import mass_of_stacked
from woodreeve.wood.selling import Nation, moisture_limit
from woodreeve.wood.stacking import Form
from woodreeve.workings import worked
from woodreeve.yard.stacks import StackHeat

__all__ = ["Lot", "WettestWood", "lot_of_stack", "usable_lots", "wettest_wood"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WettestWood:
    """How wet the wood may be, and whose limit it is.

    Parameters
    ----------
    moisture : float
        The lowest of the limits, wet basis. [-]
    by : str
        ``maker``, ``nation`` or ``owner``.
    maker, nation, owner : float, optional
        Each limit; ``None`` where none is known. [-]
    """

    moisture: Annotated[float, Unit("-")]
    by: Literal["maker", "nation", "owner"]
    maker: Annotated[float | None, Unit("-")]
    nation: Annotated[float | None, Unit("-")]
    owner: Annotated[float | None, Unit("-")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """A stack as a plan sees it.

    Parameters
    ----------
    name : str
        Name of the stack.
    moisture : float
        Water over wet mass, the central value. [-]
    heat_kwh_per_kg : float
        Net heat of the wood as it is. [kWh/kg]
    full_kg : float
        What the fuel space holds of it, at its stacked density. [kg]
    left_kg : float
        What is there. [kg]
    price_kg : float
        What a kilogram is worth. [money/kg]
    turn : int
        Its turn to be burnt: of stacks that cost the same heat, the lower goes first.
    moisture_known : bool
        Whether it was measured or reckoned; wood that nobody has measured is not planned.
    """

    name: str
    moisture: Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
    heat_kwh_per_kg: Annotated[float, Unit("kWh/kg"), Gt(0.0), Le(6.0)]
    full_kg: Annotated[float, Unit("kg"), Gt(0.0), Le(1000.0)]
    left_kg: Annotated[float, Unit("kg"), Ge(0.0)] = 1e9
    price_kg: Annotated[float, Unit("money/kg"), Ge(0.0)] = 0.0
    turn: int = 1
    moisture_known: bool = True


@worked
def wettest_wood(
    maker: Annotated[float | None, Unit("-"), Ge(0.05), Le(0.5)],
    nation: Nation | None,
    owner: Annotated[float | None, Unit("-"), Ge(0.05), Le(0.5)],
    on: date,
) -> WettestWood:
    r"""How wet the wood may be: the lowest of the maker's, the nation's and the owner's limits.

    Wetter wood is never planned, at no price: it tars the flue and halves the heat.

    Parameters
    ----------
    maker : float or None
        Wettest wood the maker allows, wet basis. [-] From 0.05 to 0.5.
    nation : str or None
        Whose rules hold.
    owner : float or None
        Moisture above which the owner does not burn, wet basis. [-] From 0.05 to 0.5.
    on : date
        The day.

    Returns
    -------
    WettestWood
        The limit and whose it is.

    Raises
    ------
    Unknown
        If none of the three is known.
    OutOfRange
        If a limit lies outside its range.

    Notes
    -----
    .. math:: M_\text{max} = \min(M_\text{maker}, M_\text{nation}, M_\text{owner})

    The nation's figure is the one for wood sold as ready to burn; where a nation has no rule it is left
    out, and the two others stand.

    References
    ----------
    .. [1] As :func:`moisture_limit`; the maker's manual.

    Examples
    --------
    >>> wettest_wood(0.25, None, 0.30, date(2026, 1, 14)).moisture
    0.25
    """
    national = None
    if nation is not None:
        try:
            national = moisture_limit(nation, on).moisture
        except Unknown:
            national = None
    known: list[tuple[float, Literal["maker", "nation", "owner"]]] = []
    if maker is not None:
        known.append((maker, "maker"))
    if national is not None:
        known.append((national, "nation"))
    if owner is not None:
        known.append((owner, "owner"))
    if not known:
        raise Unknown("How wet the wood may be is not known: give the maker's limit (most_moisture).")
    moisture, by = min(known, key=lambda one: one[0])
    return WettestWood(moisture=moisture, by=by, maker=maker, nation=national, owner=owner)


@worked
def lot_of_stack(stack: StackHeat, boiler: LogBoiler, prices: Prices, form: Form, turn: int = 1) -> Lot:
    r"""A stack as a plan sees it: heat by the kilogram, the weight of a full load, and its worth.

    Parameters
    ----------
    stack : StackHeat
        The stack.
    boiler : LogBoiler
        The boiler; its fuel space must be known.
    prices : Prices
        The owner's prices.
    form : str
        How the logs lie in the fuel space.
    turn : int
        Its turn to be burnt.

    Returns
    -------
    Lot
        The stack for planning.

    Raises
    ------
    Unknown
        If nobody has told the fuel space.

    Notes
    -----
    .. math:: m_\text{full} = f\,V\,\rho_s(M), \qquad p = \frac{P_s}{Q_s} q

    with the worth of a stacked cubic metre :math:`P_s`, its heat :math:`Q_s` and the heat of a kilogram
    :math:`q`. Wood without a price counts as free.

    References
    ----------
    .. [1] As :func:`mass_of_stacked` and :func:`energy_per_stacked_m3`.
    """
    if boiler.fuel_space_litres is None:
        raise Unknown("How much wood fits into the boiler is not known: give the fuel space in plant.boiler.")
    moisture: Moisture = stack.moisture.moisture
    litres = boiler.fuel_space_litres * boiler.filling_share
    heat = energy_per_kg(dict(stack.mix), moisture)
    price_kwh = 0.0
    if prices.own_wood_stacked_m3 is not None:
        price_kwh = prices.own_wood_stacked_m3 / energy_per_stacked_m3(dict(stack.mix), moisture, form)
    return Lot(
        name=stack.place,
        moisture=moisture,
        heat_kwh_per_kg=heat,
        full_kg=mass_of_stacked(dict(stack.mix), litres / 1000.0, moisture, form),
        left_kg=stack.mass_kg,
        price_kg=price_kwh * heat,
        turn=turn,
        moisture_known=stack.moisture.known_by != "not_known",
    )


def usable_lots(lots: tuple[Lot, ...], wettest: float) -> tuple[Lot, ...]:
    """The stacks that may be burnt, the cheapest heat first, then in their turn.

    Parameters
    ----------
    lots : tuple of Lot
        All stacks.
    wettest : float
        The moisture that must not be exceeded. [-]

    Returns
    -------
    tuple of Lot
        Those that are dry enough, known and not empty.
    """
    dry = [lot for lot in lots if lot.moisture_known and lot.moisture <= wettest + 1e-9 and lot.left_kg > 1.0]
    return tuple(sorted(dry, key=lambda lot: (round(lot.price_kg / lot.heat_kwh_per_kg, 4), lot.turn)))
