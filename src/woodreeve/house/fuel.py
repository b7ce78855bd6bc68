"""Heat in the fuel of the past: litres of oil, kilowatt-hours, tonnes of wood."""

from __future__ import annotations

from typing import Annotated, Literal

from woodreeve.errors import Unknown
from woodreeve.house.describe import Fuel
from woodreeve.units import Ge, Gt, KilowattHour, Le, Unit
from woodreeve.workings import worked

__all__ = ["EFFICIENCY_SPREAD", "USUAL_EFFICIENCY", "Efficiency", "fuel_energy", "useful_heat"]

EFFICIENCY_SPREAD = 0.08
"""How far a yearly efficiency may be from what is said, as a share, in 8 cases of 10. [-] (from memory)"""

USUAL_EFFICIENCY: dict[Fuel, float] = {
    "kerosene": 0.80,
    "gas_oil": 0.80,
    "lpg": 0.82,
    "electricity": 1.0,
    "wood": 0.75,
}
"""Efficiency over the year where nobody gives one; gross, for wood net and store included. [-] (judgement)"""

Efficiency = Annotated[float, Unit("-"), Ge(0.2), Le(1.1)]
Basis = Literal["gross", "net"]

_ENERGY: dict[tuple[str, str], float] = {
    ("kerosene", "gross"): 10.3,
    ("kerosene", "net"): 9.8,
    ("gas_oil", "gross"): 10.7,
    ("gas_oil", "net"): 10.0,
    ("lpg", "gross"): 7.1,
    ("lpg", "net"): 6.6,
    ("electricity", "gross"): 1.0,
    ("electricity", "net"): 1.0,
}


@worked
def fuel_energy(
    fuel: Literal["kerosene", "gas_oil", "lpg", "electricity"], basis: Basis
) -> Annotated[float, Unit("kWh"), Gt(0.0), Le(20.0)]:
    r"""Heat in a litre of oil or LPG, or in a kilowatt-hour.

    Parameters
    ----------
    fuel : {"kerosene", "gas_oil", "lpg", "electricity"}
        Which.
    basis : {"gross", "net"}
        With or without the heat of the steam in the flue. Pair it with an efficiency on the same basis.

    Returns
    -------
    float
        Heat of one litre, or one kWh. [kWh]

    Raises
    ------
    UnknownName
        If the fuel or the basis is not known.

    Notes
    -----
    .. math:: e = \text{table}(\text{fuel}, \text{basis})

    References
    ----------
    .. [1] DUKES 2005, Annex A, gross: kerosene (aviation turbine fuel) 10.3, gas oil 10.7, as tabled at
       https://azocleantech.com/article.aspx?ArticleID=8
    .. [2] SEAI conversion factors, net: kerosene 9.80,
       http://www.seai.ie/Your_Business/Public_Sector/FAQ/Energy_Reporting_Overview/
    .. [3] Gas oil net 10.0, LPG 7.1 gross and 6.6 net (from memory).

    Examples
    --------
    >>> fuel_energy("kerosene", "gross")
    10.3
    """
    return _ENERGY[fuel, basis]


@worked
def useful_heat(
    amount: Annotated[float, Unit("-"), Ge(0.0), Le(1e6)],
    energy_kwh: Annotated[float, Unit("kWh"), Gt(0.0), Le(6000.0)],
    efficiency: Efficiency,
) -> KilowattHour:
    r"""Heat that came into rooms and taps from an amount of fuel.

    Parameters
    ----------
    amount : float
        Litres, kWh or tonnes, :math:`n`. [-] From 0 to 1e6.
    energy_kwh : float
        Heat in one of them, :math:`e`. [kWh] Above 0, to 6000.
    efficiency : Efficiency
        Useful heat over fuel heat, over the year, on the same basis, :math:`\eta`. [-] From 0.2 to 1.1.

    Returns
    -------
    KilowattHour
        Useful heat. [kWh]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: Q = n\,e\,\eta

    References
    ----------
    .. [1] Definition of the efficiency.

    Examples
    --------
    >>> round(useful_heat(2400.0, 10.3, 0.80))
    19776
    """
    return amount * energy_kwh * efficiency


def energy_of(fuel: Fuel, basis: Basis, given_kwh: float | None) -> float:
    """Heat in a unit of fuel: the owner's figure, or the table's; wood must bring its own."""
    if given_kwh is not None:
        return given_kwh
    if fuel == "wood":
        raise Unknown("The heat in a tonne of wood must be given: it depends on its moisture.")
    return fuel_energy(fuel, basis)
