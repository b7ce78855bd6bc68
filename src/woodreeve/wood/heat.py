"""Heat in a log: from bone-dry wood to wood as it lies in the stack."""

from __future__ import annotations

from typing import Annotated

from woodreeve.units import DryHeat, Ge, KwhPerKg, KwhPerM3, Le, MjPerKg, Moisture, OneOrMany, Unit
from woodreeve.wood.cords import CORD_M3
from woodreeve.wood.moisture import MoistureOf
from woodreeve.wood.species import Wood, basic_density, net_heat_dry
from woodreeve.wood.stacking import Form, LooseForm, loose_solid_share, stacked_solid_share
from woodreeve.workings import worked

__all__ = [
    "KWH_PER_MJ",
    "VAPORISATION_HEAT",
    "energy_per_cord",
    "energy_per_kg",
    "energy_per_loose_m3",
    "energy_per_solid_m3",
    "energy_per_stacked_m3",
    "heat_in_a_cubic_metre",
    "net_heat",
]

VAPORISATION_HEAT: MjPerKg = 2.443
"""Heat that 1 kg of water takes to leave as vapour at 25 °C. [MJ/kg]"""

KWH_PER_MJ = 1.0 / 3.6
"""Kilowatt-hours in a megajoule. [kWh/MJ]"""

DryKgPerM3 = Annotated[float, Unit("kg/m3"), Ge(0.0), Le(1400.0)]
"""Dry wood in a cubic metre of any kind."""
KwhPerCord = Annotated[float, Unit("kWh/cord"), Ge(0.0), Le(40000.0)]


@worked
def net_heat(
    net_heat_dry_mj_kg: DryHeat, moisture: MoistureOf[OneOrMany]
) -> Annotated[OneOrMany, Unit("MJ/kg"), Ge(-3.0), Le(50.0)]:
    r"""Net calorific value of wood as it is, its water included.

    Wet wood gives less twice: there is less wood in the kilogram, and
    part of the heat goes up the flue as steam.

    Parameters
    ----------
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood, :math:`q_d`. [MJ/kg]
        From 15 to 22.
    moisture : Moisture
        Water over wet mass, :math:`M`; one value or many. [-] From 0 to 0.70.

    Returns
    -------
    MjPerKg
        Net calorific value of the wood as it is, :math:`q`. [MJ/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: q = q_d (1 - M) - 2.443 M

    Ash is not corrected for: below 1 % of dry mass it moves :math:`q`
    by less than the spread between trees of one species.

    References
    ----------
    .. [1] ISO 17225-1, "Solid biofuels. Fuel specifications and classes.
       Part 1", annex on calorific value as received (from memory; the
       coefficient is confirmed by rows WD-NCV-01 to 05 of the test sheet).

    Examples
    --------
    >>> round(net_heat(19.0, 0.20), 2)
    14.71
    """
    return net_heat_dry_mj_kg * (1.0 - moisture) - VAPORISATION_HEAT * moisture


@worked
def energy_per_kg(wood: Wood, moisture: Moisture, net_heat_dry_mj_kg: DryHeat | None = None) -> KwhPerKg:
    r"""Net heat in a kilogram of wood as it is.

    By mass all species are nearly alike: moisture decides. Buy and sell by mass only with the moisture.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    net_heat_dry_mj_kg : DryHeat, optional
        Net calorific value of the oven-dry wood, in place of the species' own. [MJ/kg] From 15 to 22.

    Returns
    -------
    KwhPerKg
        Net heat, :math:`q / 3.6`. [kWh/kg]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the species is not known.

    Notes
    -----
    .. math:: e = \frac{q_d (1 - M) - 2.443 M}{3.6}

    References
    ----------
    .. [1] As :func:`net_heat` and :func:`woodreeve.wood.species.net_heat_dry`.

    Examples
    --------
    >>> round(energy_per_kg("ash", 0.20), 2)
    4.06
    """
    dry = net_heat_dry(wood) if net_heat_dry_mj_kg is None else net_heat_dry_mj_kg
    return net_heat(dry, moisture) * KWH_PER_MJ


@worked
def heat_in_a_cubic_metre(dry_kg_m3: DryKgPerM3, net_heat_dry_mj_kg: DryHeat, moisture: Moisture) -> KwhPerM3:
    r"""Net heat in a cubic metre that holds a known mass of dry wood.

    Drying gives little more heat per dry kilogram: the figure falls by 3 % from bone-dry to 20 % moisture
    and by 13 % to 50 %. The gain of dry wood is clean and complete burning.

    Parameters
    ----------
    dry_kg_m3 : float
        Dry wood in the cubic metre, solid, stacked or loose, :math:`\rho`. [kg/m3]
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood, :math:`q_d`. [MJ/kg] From 15 to 22.
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.

    Returns
    -------
    KwhPerM3
        Net heat. [kWh/m3]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: e = \frac{\rho}{3.6} \cdot \frac{q_d (1 - M) - 2.443 M}{1 - M}

    References
    ----------
    .. [1] As :func:`net_heat`; checked against the printed tables in rows WD-NCV-35 and 36.

    Examples
    --------
    >>> round(heat_in_a_cubic_metre(570.0, 19.0, 0.20))
    2912
    """
    return dry_kg_m3 * net_heat(net_heat_dry_mj_kg, moisture) / (1.0 - moisture) * KWH_PER_MJ


@worked
def energy_per_solid_m3(
    wood: Wood, moisture: Moisture, net_heat_dry_mj_kg: DryHeat | None = None
) -> KwhPerM3:
    r"""Net heat in a solid cubic metre, measured green.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass when it is burnt. [-] From 0 to 0.70.
    net_heat_dry_mj_kg : DryHeat, optional
        Net calorific value of the oven-dry wood, in place of the species' own. [MJ/kg] From 15 to 22.

    Returns
    -------
    KwhPerM3
        Net heat per green solid cubic metre. [kWh/m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the species is not known.

    Notes
    -----
    Basic density :math:`\rho`, then as :func:`heat_in_a_cubic_metre`:

    .. math:: e = \frac{\rho}{3.6} \cdot \frac{q_d (1 - M) - 2.443 M}{1 - M}

    References
    ----------
    .. [1] As :func:`woodreeve.wood.species.basic_density` and :func:`net_heat`.

    Examples
    --------
    >>> round(energy_per_solid_m3("beech", 0.20))
    3033
    """
    dry = net_heat_dry(wood) if net_heat_dry_mj_kg is None else net_heat_dry_mj_kg
    return heat_in_a_cubic_metre(basic_density(wood), dry, moisture)


@worked
def energy_per_stacked_m3(
    wood: Wood, moisture: Moisture, form: Form = "split_33cm", net_heat_dry_mj_kg: DryHeat | None = None
) -> KwhPerM3:
    r"""Net heat in a stacked cubic metre, air between the logs included.

    Retail tables print up to 10 % more. A stack of your own that was weighed overrules any table.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass when it is burnt. [-] From 0 to 0.70.
    form : str
        How it is cut and stacked.
    net_heat_dry_mj_kg : DryHeat, optional
        Net calorific value of the oven-dry wood, in place of the species' own. [MJ/kg] From 15 to 22.

    Returns
    -------
    KwhPerM3
        Net heat per stacked cubic metre. [kWh/m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the species or the form is not known.

    Notes
    -----
    Solid share :math:`f` of the stack:

    .. math:: e = \frac{f \rho}{3.6} \cdot \frac{q_d (1 - M) - 2.443 M}{1 - M}

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and :func:`energy_per_solid_m3`.

    Examples
    --------
    >>> round(energy_per_stacked_m3("beech", 0.20))
    1880
    """
    dry = net_heat_dry(wood) if net_heat_dry_mj_kg is None else net_heat_dry_mj_kg
    return heat_in_a_cubic_metre(stacked_solid_share(form, wood) * basic_density(wood), dry, moisture)


@worked
def energy_per_loose_m3(
    wood: Wood, moisture: Moisture, form: LooseForm = "split_33cm", net_heat_dry_mj_kg: DryHeat | None = None
) -> KwhPerM3:
    r"""Net heat in a cubic metre of logs tipped loose.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass when it is burnt. [-] From 0 to 0.70.
    form : str
        How it is cut.
    net_heat_dry_mj_kg : DryHeat, optional
        Net calorific value of the oven-dry wood, in place of the species' own. [MJ/kg] From 15 to 22.

    Returns
    -------
    KwhPerM3
        Net heat per loose cubic metre. [kWh/m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the species or the form is not known.

    Notes
    -----
    Solid share :math:`f` of the heap:

    .. math:: e = \frac{f \rho}{3.6} \cdot \frac{q_d (1 - M) - 2.443 M}{1 - M}

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.loose_solid_share` and :func:`energy_per_solid_m3`.

    Examples
    --------
    >>> round(energy_per_loose_m3("beech", 0.20))
    1271
    """
    dry = net_heat_dry(wood) if net_heat_dry_mj_kg is None else net_heat_dry_mj_kg
    return heat_in_a_cubic_metre(loose_solid_share(form, wood) * basic_density(wood), dry, moisture)


@worked
def energy_per_cord(
    wood: Wood, moisture: Moisture, form: Form = "split_33cm", net_heat_dry_mj_kg: DryHeat | None = None
) -> KwhPerCord:
    r"""Net heat in a full cord of 128 cubic feet, stacked.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass when it is burnt. [-] From 0 to 0.70.
    form : str
        How it is cut and stacked.
    net_heat_dry_mj_kg : DryHeat, optional
        Net calorific value of the oven-dry wood, in place of the species' own. [MJ/kg] From 15 to 22.

    Returns
    -------
    KwhPerCord
        Net heat per cord. [kWh/cord]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the species or the form is not known.

    Notes
    -----
    .. math:: e_\mathrm{cord} = 128 \cdot 0.3048^3\, e_\mathrm{stacked}

    References
    ----------
    .. [1] A cord is 128 cubic feet by definition; else as :func:`energy_per_stacked_m3`.

    Examples
    --------
    >>> round(energy_per_cord("white oak", 0.20))
    7535
    """
    return energy_per_stacked_m3(wood, moisture, form, net_heat_dry_mj_kg) * CORD_M3
