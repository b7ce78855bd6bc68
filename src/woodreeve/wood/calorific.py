"""Heat of dry wood as laboratories state it: gross and net, measured or from what the wood is made of."""

from __future__ import annotations

from typing import Annotated, Literal

from woodreeve.units import DryHeat, Ge, Le, MjPerKg, Moisture, Share, Unit
from woodreeve.workings import worked

__all__ = [
    "gross_heat_dry_from_composition",
    "gross_heat_dry_from_net",
    "net_heat_dry_from_gross",
    "net_heat_from_gross",
]

GrossHeatDry = Annotated[float, Unit("MJ/kg"), Ge(15.0), Le(25.0)]
"""Gross calorific value of oven-dry wood."""


@worked
def gross_heat_dry_from_composition(
    carbon: Share,
    hydrogen: Share,
    oxygen: Share,
    nitrogen: Share = 0.0,
    sulphur: Share = 0.0,
    ash: Share = 0.0,
) -> MjPerKg:
    r"""Gross heat of the dry fuel from what it is made of.

    Parameters
    ----------
    carbon : Share
        Carbon over dry mass, :math:`C`. [-]
    hydrogen : Share
        Hydrogen over dry mass, :math:`H`. [-]
    oxygen : Share
        Oxygen over dry mass, :math:`O`. [-]
    nitrogen : Share
        Nitrogen over dry mass, :math:`N`. [-]
    sulphur : Share
        Sulphur over dry mass, :math:`S`. [-]
    ash : Share
        Ash over dry mass, :math:`A`. [-]

    Returns
    -------
    MjPerKg
        Gross calorific value of the dry fuel. [MJ/kg]

    Raises
    ------
    OutOfRange
        If a share does not lie between 0 and 1.

    Notes
    -----
    .. math:: q_g = 34.91 C + 117.83 H + 10.05 S - 1.51 N - 10.34 O - 2.11 A

    A fit over many fuels: expect 1 to 2 % for wood (from memory).

    References
    ----------
    .. [1] The Channiwala and Parikh form, read at stoves.bioenergylists.org, Kanchanrai, practice 6.

    Examples
    --------
    >>> round(gross_heat_dry_from_composition(0.502, 0.060, 0.433, nitrogen=0.001, ash=0.004), 2)
    20.11
    """
    return (
        34.91 * carbon + 117.83 * hydrogen + 10.05 * sulphur - 1.51 * nitrogen - 10.34 * oxygen - 2.11 * ash
    )


@worked
def net_heat_dry_from_gross(
    gross_heat_dry_mj_kg: GrossHeatDry,
    hydrogen: Share,
    oxygen_and_nitrogen: Share = 0.44,
    method: Literal["constant_pressure", "constant_volume"] = "constant_pressure",
) -> MjPerKg:
    r"""Net heat of the dry wood from its gross heat.

    Laboratories burn at constant volume and may print either; a fire burns at constant pressure. The two
    differ by about 0.07 MJ/kg.

    Parameters
    ----------
    gross_heat_dry_mj_kg : GrossHeatDry
        Gross calorific value of the oven-dry wood at constant volume, :math:`q_g`. [MJ/kg] From 15 to 25.
    hydrogen : Share
        Hydrogen over dry mass, :math:`H`. [-]
    oxygen_and_nitrogen : Share
        Oxygen and nitrogen over dry mass, :math:`O + N`; used at constant pressure only. [-]
    method : str
        ``constant_pressure`` as fuel standards state it, or ``constant_volume``.

    Returns
    -------
    MjPerKg
        Net calorific value of the oven-dry wood. [MJ/kg]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the method is not known.

    Notes
    -----
    .. math:: q_{p} = q_g - 21.22 H - 0.08 (O + N), \qquad q_{V} = q_g - 20.60 H

    References
    ----------
    .. [1] ISO 18125 / EN 14918, "Solid biofuels. Determination of calorific value" (from memory; the
       constant-volume coefficient is confirmed by rows WD-NCV-09 to 12 of the test sheet).

    Examples
    --------
    >>> round(net_heat_dry_from_gross(20.251, 0.062, 0.441), 2)
    18.9
    """
    if method == "constant_volume":
        return gross_heat_dry_mj_kg - 20.60 * hydrogen
    return gross_heat_dry_mj_kg - 21.22 * hydrogen - 0.08 * oxygen_and_nitrogen


@worked
def gross_heat_dry_from_net(
    net_heat_dry_mj_kg: DryHeat, hydrogen: Share = 0.062, oxygen_and_nitrogen: Share = 0.441
) -> MjPerKg:
    r"""Gross heat of the dry wood from its net heat, at constant pressure.

    Parameters
    ----------
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood, :math:`q_d`. [MJ/kg] From 15 to 22.
    hydrogen : Share
        Hydrogen over dry mass, :math:`H`. [-]
    oxygen_and_nitrogen : Share
        Oxygen and nitrogen over dry mass, :math:`O + N`. [-]

    Returns
    -------
    MjPerKg
        Gross calorific value of the oven-dry wood. [MJ/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: q_g = q_d + 21.22 H + 0.08 (O + N)

    References
    ----------
    .. [1] ISO 18125 / EN 14918, "Solid biofuels. Determination of calorific value" (from memory).

    Examples
    --------
    >>> round(gross_heat_dry_from_net(18.9), 3)
    20.251
    """
    return net_heat_dry_mj_kg + 21.22 * hydrogen + 0.08 * oxygen_and_nitrogen


@worked
def net_heat_from_gross(gross_heat_dry_mj_kg: GrossHeatDry, hydrogen: Share, moisture: Moisture) -> MjPerKg:
    r"""Net heat of wood as it is, straight from the gross heat of the dry wood.

    Parameters
    ----------
    gross_heat_dry_mj_kg : GrossHeatDry
        Gross calorific value of the oven-dry wood, :math:`q_g`. [MJ/kg] From 15 to 25.
    hydrogen : Share
        Hydrogen over dry mass, :math:`h`. [-]
    moisture : Moisture
        Water over wet mass, :math:`w`. [-] From 0 to 0.70.

    Returns
    -------
    MjPerKg
        Net calorific value of the wood as it is. [MJ/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: q = q_g (1 - w) - 2.447 w - 2.447 \cdot 9.01\, h (1 - w)

    A second way beside :func:`woodreeve.wood.heat.net_heat`, as its source prints it; the two differ by
    about 0.1 MJ/kg.

    References
    ----------
    .. [1] stoves.bioenergylists.org, Kanchanrai, practice 6.

    Examples
    --------
    >>> round(net_heat_from_gross(20.108, 0.06, 0.20), 2)
    14.54
    """
    steam = 2.447
    return (
        gross_heat_dry_mj_kg * (1.0 - moisture)
        - steam * moisture
        - steam * 9.01 * hydrogen * (1.0 - moisture)
    )
