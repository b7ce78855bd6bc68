"""What a bigger store buys: the knee, each step, what a winter costs, and what a saving is worth."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated

from woodreeve.errors import OutOfRange
from woodreeve.season.design import Variant, Winter
from woodreeve.units import Ge, Gt, Le, Litre, Unit
from woodreeve.workings import worked

__all__ = ["Bought", "Knee", "bigger_store", "knee_of_store", "running_cost", "worth_of_saving"]

FURTHER_L = 500.0
"""Firings spared are told for so much more store. [L]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Knee:
    """Where a bigger store stops paying in firings.

    Parameters
    ----------
    litres : float
        The smallest store beyond which each further 500 litres spare fewer firings than wanted. [L]
    reached : bool
        False where even the last step of those tried spares more.
    spared : tuple of float
        Firings that each step spares, for 500 litres more, from the smallest store on. [-]
    """

    litres: Litre
    reached: bool
    spared: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """What a larger store buys in a winter; less than nothing where it costs.

    Parameters
    ----------
    fires : float
        Firings spared. [-]
    backup_kwh : float
        Heat of the backup spared. [kWh]
    cold_kh : float
        Degree-hours of cold spared. [K*h]
    """

    fires: Annotated[float, Unit("-")]
    backup_kwh: Annotated[float, Unit("kWh")]
    cold_kh: Annotated[float, Unit("K*h")]


@worked
def knee_of_store(
    stores_litres: tuple[float, ...],
    fires: tuple[float, ...],
    least_spared: Annotated[float, Unit("-"), Gt(0.0), Le(500.0)] = 10.0,
) -> Knee:
    r"""The store beyond which more litres spare too few firings to be worth them.

    A store smaller than one load's heat must be lit for again and again; one that holds the load spares
    little by growing further.

    Parameters
    ----------
    stores_litres : tuple of float
        Contents, the smallest first. [L]
    fires : tuple of float
        Firings of a winter with each, the backup's heat counted in. [-]
    least_spared : float
        So many firings a winter should 500 litres more spare at least. [-] Above 0, up to 500.

    Returns
    -------
    Knee
        The store, and what each step spares.

    Raises
    ------
    OutOfRange
        If there are fewer than two stores, or not one count of firings for each, or they do not grow.

    Notes
    -----
    .. math:: s_k = 500\,\frac{n_k - n_{k+1}}{V_{k+1} - V_k}, \qquad
              V^* = \min\{V_k : s_j < s_{\min} \text{ for all } j \ge k\}

    References
    ----------
    .. [1] Own rule; how many firings 500 litres should spare is the owner's to say.

    Examples
    --------
    >>> knee_of_store((500.0, 1000.0, 1500.0, 2000.0), (200.0, 150.0, 120.0, 115.0)).litres
    1500.0
    """
    if len(stores_litres) < 2 or len(fires) != len(stores_litres):
        raise OutOfRange("fires", f"{len(fires)} long", "one for each of at least two stores")
    if any(not one < other for one, other in pairwise(stores_litres)):
        raise OutOfRange("stores_litres", str(stores_litres), "the smallest first, each larger", "L")
    spared = tuple(
        FURTHER_L * (fires[n] - fires[n + 1]) / (stores_litres[n + 1] - stores_litres[n])
        for n in range(len(fires) - 1)
    )
    at = len(fires) - 1
    while at > 0 and spared[at - 1] < least_spared:
        at -= 1
    return Knee(litres=stores_litres[at] + 0.0, reached=at < len(fires) - 1, spared=spared)


@worked
def bigger_store(smaller: Variant, larger: Variant) -> Bought:
    r"""What a larger store buys over a smaller one, all else alike.

    Parameters
    ----------
    smaller, larger : Variant
        The same plant with two stores.

    Returns
    -------
    Bought
        Firings, backup heat and cold spared in the first of the winters.

    Raises
    ------
    OutOfRange
        If the second store is not larger.

    Notes
    -----
    .. math:: \Delta n = n_1 - n_2, \qquad \Delta Q = Q_1 - Q_2

    References
    ----------
    .. [1] Plain arithmetic on :func:`design_sweep`.
    """
    if not larger.store_litres > smaller.store_litres:
        raise OutOfRange("larger", f"{larger.store_litres:g}", f"more than {smaller.store_litres:g}", "L")
    before, after = smaller.winters[0], larger.winters[0]
    return Bought(
        fires=before.fires - after.fires,
        backup_kwh=before.backup_kwh - after.backup_kwh,
        cold_kh=before.cold_kh - after.cold_kh,
    )


@worked
def running_cost(
    winter: Winter,
    *,
    wood_price: Annotated[float, Unit("money/m3"), Ge(0.0)],
    stacked_m3: Annotated[float, Unit("m3"), Ge(0.0)],
    fuel_price: Annotated[float, Unit("money"), Ge(0.0)] = 0.0,
    fuel_kwh: Annotated[float, Unit("kWh"), Gt(0.0)] = 1.0,
    lighting_price: Annotated[float, Unit("money"), Ge(0.0)] = 0.0,
) -> Annotated[float, Unit("money")]:
    r"""What a winter's wood, backup fuel and lightings cost.

    Parameters
    ----------
    winter : Winter
        Fuel and fires of it.
    wood_price : float
        Worth of a stacked cubic metre of the wood. [money/m3] 0 or more.
    stacked_m3 : float
        The winter's wood, stacked. [m3] 0 or more.
    fuel_price : float
        Price of one litre, or one kWh, of the backup's fuel. [money] 0 or more.
    fuel_kwh : float
        Net heat of that litre or kWh. [kWh] Above 0.
    lighting_price : float
        What sparing one lighting is worth. [money] 0 or more.

    Returns
    -------
    float
        The sum; electricity, service and the plant itself are left out. [money]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: K = V_s\,p_w + \frac{Q_f}{q_f}\,p_f + n\,p_l

    References
    ----------
    .. [1] Plain arithmetic.
    """
    wood = stacked_m3 * wood_price
    return wood + winter.backup_fuel_kwh / fuel_kwh * fuel_price + winter.fires * lighting_price


@worked
def worth_of_saving(
    cost_before: Annotated[float, Unit("money"), Ge(0.0)],
    cost_after: Annotated[float, Unit("money"), Ge(0.0)],
    life_years: Annotated[float, Unit("year"), Gt(1.0), Le(60.0)] = 20.0,
    discount_rate: Annotated[float, Unit("-"), Ge(0.0), Le(0.3)] = 0.035,
) -> Annotated[float, Unit("money")]:
    r"""The most that may be paid once for what spares money each year.

    Parameters
    ----------
    cost_before, cost_after : float
        Cost of a year without and with it. [money] 0 or more.
    life_years : float
        Years it lasts. [year] Above 1, up to 60.
    discount_rate : float
        Rate of interest above inflation. [-] From 0 to 0.3.

    Returns
    -------
    float
        Present worth; 0 where nothing is spared. [money]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: W = (K_1 - K_2)\,\frac{1 - (1 + r)^{-n}}{r}, \qquad W = (K_1 - K_2)\,n \text{ at } r = 0

    References
    ----------
    .. [1] Present worth of an even yearly payment, any textbook of engineering economics (from memory).

    Examples
    --------
    >>> round(worth_of_saving(1100.0, 1000.0, 20.0, 0.035), 1)
    1421.2
    """
    spared = max(cost_before - cost_after, 0.0)
    if discount_rate < 1e-9:
        return spared * life_years
    return float(spared * (1.0 - (1.0 + discount_rate) ** -life_years) / discount_rate)
