"""What a stated efficiency means, which smoke it would need, and what yours is by your own flue."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.units import Ge, Gt, Le, Moisture, Share, Unit
from woodreeve.wood.burning import burn
from woodreeve.wood.efficiency import gross_efficiency
from woodreeve.wood.flue import flue_loss_at_oxygen, flue_temperature_for_loss
from woodreeve.workings import worked

__all__ = [
    "Claim",
    "OwnEfficiency",
    "efficiency_by_flue",
    "open_claim",
    "oxygen_from_carbon_dioxide",
    "usual_claims",
]

Efficiency = Annotated[float, Unit("-"), Ge(0.0), Le(1.1)]
OxygenDry = Annotated[float, Unit("-"), Ge(0.0), Le(0.19)]
Flue = Annotated[float, Unit("degC"), Ge(20.0), Le(600.0)]
Room = Annotated[float, Unit("degC"), Ge(-30.0), Le(60.0)]

LEAST_FLUE_C = 60.0
"""No boiler that heats water to 60 °C and more can send out smoke much colder than this. Judgement. [degC]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """A stated efficiency, opened.

    Parameters
    ----------
    net, gross : float
        The claim on the net footing, and the same on the gross footing.
    flue_loss : float
        What may leave by the flue once casing and unburnt gas have had their part; below 0 none can.
    flue_c : float or None
        The smoke's temperature that goes with it; ``None`` where no smoke can be so cold.
    possible : bool
        Whether a boiler over hot water can have it.
    """

    net: Efficiency
    gross: Efficiency
    flue_loss: Annotated[float, Unit("-"), Ge(-1.0), Le(1.0)]
    flue_c: Annotated[float, Unit("degC")] | None
    possible: bool


@worked
def open_claim(
    claim: Annotated[float, Unit("-"), Ge(0.4), Le(1.1)] = 0.96,
    oxygen_dry: OxygenDry = 0.08,
    moisture: Moisture = 0.15,
    casing_loss: Share = 0.02,
    unburnt: Share = 0.005,
    air_c: Room = 20.0,
) -> Claim:
    r"""What a claim of efficiency on the net footing means, and which smoke it would need.

    A claim of 96 to 98 % leaves so little for the flue that the smoke would have to be nearly as cold as the
    water; in the laboratory the casing's loss is sometimes left out. Over a winter, with lighting, soot and
    embers, less is had.

    Parameters
    ----------
    claim : float
        Stated efficiency, net, :math:`\eta`. [-] From 0.4 to 1.1.
    oxygen_dry : OxygenDry
        Oxygen in the dry smoke. [-] From 0 to 0.19.
    moisture : Moisture
        Of the wood. [-] From 0 to 0.7.
    casing_loss : Share
        Loss through the casing, :math:`q_c`. [-]
    unburnt : Share
        Heat left in gas and char, :math:`q_u`. [-]
    air_c : Room
        Air that feeds the fire. [degC] From -30 to 60.

    Returns
    -------
    Claim
        Both footings, the flue's share, and the smoke it needs.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: q_A = 1 - \eta - q_c - q_u, \qquad T_g: l(T_g, x, M) = q_A

    Smoke below 60 °C is called impossible: the water that cools it is hotter.

    References
    ----------
    .. [1] Balance of heat; :func:`woodreeve.wood.flue.flue_temperature_for_loss` and
       :func:`woodreeve.wood.efficiency.gross_efficiency`.

    Examples
    --------
    >>> round(open_claim(0.92).flue_c)
    110
    """
    left = 1.0 - claim - casing_loss - unburnt
    gross = gross_efficiency(claim, moisture)
    if left <= 0.0:
        return Claim(net=claim, gross=gross, flue_loss=left, flue_c=None, possible=False)
    flue = flue_temperature_for_loss(left, oxygen_dry, moisture, air_c)
    return Claim(net=claim, gross=gross, flue_loss=left, flue_c=flue, possible=flue >= LEAST_FLUE_C)


@worked
def usual_claims(oxygen_dry: OxygenDry = 0.08, moisture: Moisture = 0.15) -> tuple[Claim, Claim, Claim]:
    r"""The claims that are heard most: 92, 96 and 98 %, opened.

    Parameters
    ----------
    oxygen_dry : OxygenDry
        Oxygen in the dry smoke. [-] From 0 to 0.19.
    moisture : Moisture
        Of the wood. [-] From 0 to 0.7.

    Returns
    -------
    tuple of Claim
        As :func:`open_claim`, for each of the three.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    As :func:`open_claim`.

    References
    ----------
    .. [1] As :func:`open_claim`.

    Examples
    --------
    >>> [one.possible for one in usual_claims()]
    [True, False, False]
    """
    first, second, third = (open_claim(claim, oxygen_dry, moisture) for claim in (0.92, 0.96, 0.98))
    return first, second, third


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnEfficiency:
    """Efficiency at full output by your own flue, on both footings."""

    net: Efficiency
    gross: Efficiency
    flue_loss: Annotated[float, Unit("-"), Ge(-0.2), Le(2.0)]


@worked
def efficiency_by_flue(
    flue_c: Flue,
    oxygen_dry: OxygenDry = 0.08,
    moisture: Moisture = 0.18,
    casing_loss: Share = 0.02,
    unburnt: Share = 0.01,
    air_c: Room = 20.0,
) -> OwnEfficiency:
    r"""Your own efficiency while the fire burns, from flue temperature and oxygen.

    Parameters
    ----------
    flue_c : Flue
        Smoke after the boiler at full output. [degC] From 20 to 600.
    oxygen_dry : OxygenDry
        Oxygen in the dry smoke. [-] From 0 to 0.19.
    moisture : Moisture
        Of the wood. [-] From 0 to 0.7.
    casing_loss : Share
        Loss through the casing, :math:`q_c`. [-]
    unburnt : Share
        Heat left in gas and char, :math:`q_u`. [-]
    air_c : Room
        Air that feeds the fire. [degC] From -30 to 60.

    Returns
    -------
    OwnEfficiency
        Net and gross, and the flue's loss.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: \eta = 1 - l(T_g, x, M) - q_c - q_u

    Lighting, embers and cooling down are not in it: over whole fires expect several points less.

    References
    ----------
    .. [1] Balance of heat; :func:`woodreeve.wood.flue.flue_loss_at_oxygen`. The casing's 2 % and the unburnt
       1 % are judgement; European law allows up to 6 % through the casing (Regulation 2015/1189, Article 2,
       read).

    Examples
    --------
    >>> round(efficiency_by_flue(165.0, 0.07).net, 2)
    0.89
    """
    loss = flue_loss_at_oxygen(flue_c, oxygen_dry, moisture, air_c)
    net = max(1.0 - loss - casing_loss - unburnt, 0.0)
    return OwnEfficiency(net=net, gross=gross_efficiency(net, moisture), flue_loss=loss)


@worked
def oxygen_from_carbon_dioxide(
    carbon_dioxide_dry: Annotated[float, Unit("-"), Gt(0.01), Le(0.21)],
) -> OxygenDry:
    r"""Oxygen in dry wood smoke from its carbon dioxide, for analysers that show the one and not the other.

    Parameters
    ----------
    carbon_dioxide_dry : float
        Carbon dioxide in the dry smoke, :math:`c`. [-] Above 0.01, to 0.21.

    Returns
    -------
    OxygenDry
        Oxygen in the dry smoke. [-]

    Raises
    ------
    OutOfRange
        If the share lies outside its range.

    Notes
    -----
    .. math:: x = 0.2095\,(1 - c/c_{max})

    with the carbon dioxide of smoke without spare air, :math:`c_{max}`, of typical wood.

    References
    ----------
    .. [1] Mass balance; :func:`woodreeve.wood.burning.burn`.

    Examples
    --------
    >>> round(oxygen_from_carbon_dioxide(0.125), 3)
    0.081
    """
    return max(0.2095 * (1.0 - carbon_dioxide_dry / burn(0.0).carbon_dioxide_dry), 0.0)
