"""From the volume of wood to its mass and back, at a moisture."""

from __future__ import annotations

from woodreeve.units import CubicMetre, Kilogram, Moisture
from woodreeve.wood.kinds import Wood
from woodreeve.wood.species import basic_density
from woodreeve.wood.stacking import FactorSet, Form
from woodreeve.wood.volumes import solid_from_stacked, stacked_from_solid
from woodreeve.workings import worked

__all__ = [
    "dried_mass",
    "dry_mass",
    "mass_of_solid",
    "mass_of_stacked",
    "solid_of_mass",
    "stacked_of_mass",
]


@worked
def mass_of_solid(wood: Wood, solid_m3: CubicMetre, moisture: Moisture) -> Kilogram:
    r"""Mass of solid wood at a moisture.

    What a trailer carries: a green load weighs half as much again as the same logs when dry.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    solid_m3 : CubicMetre
        Solid wood, as measured green, :math:`V`. [m3]
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.

    Returns
    -------
    Kilogram
        Mass with its water. [kg]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: m = \frac{\rho V}{1 - M}

    The volume is the green one at every moisture: a stack hardly sinks as it dries.

    References
    ----------
    .. [1] Definition of basic density; see :func:`woodreeve.wood.species.basic_density`.

    Examples
    --------
    >>> round(mass_of_solid("beech", 0.62, 0.20))
    463
    """
    return basic_density(wood) * solid_m3 / (1.0 - moisture)


@worked
def solid_of_mass(wood: Wood, mass_kg: Kilogram, moisture: Moisture) -> CubicMetre:
    r"""Solid wood, as measured green, in a mass at a moisture.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    mass_kg : Kilogram
        Mass with its water, :math:`m`. [kg]
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.

    Returns
    -------
    CubicMetre
        Solid wood, as measured green. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V = \frac{m (1 - M)}{\rho}

    References
    ----------
    .. [1] Definition of basic density; see :func:`woodreeve.wood.species.basic_density`.

    Examples
    --------
    >>> round(solid_of_mass("beech", 463.0, 0.20), 2)
    0.62
    """
    return mass_kg * (1.0 - moisture) / basic_density(wood)


@worked
def mass_of_stacked(
    wood: Wood, stacked_m3: CubicMetre, moisture: Moisture, form: Form, factors: FactorSet = "tfz_2006"
) -> Kilogram:
    r"""Mass of a stack at a moisture.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    stacked_m3 : CubicMetre
        Volume of the stack, air included, :math:`V_s`. [m3]
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.
    form : str
        How it is cut and stacked.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    Kilogram
        Mass with its water. [kg]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: m = \frac{\rho f V_s}{1 - M}

    References
    ----------
    .. [1] As :func:`solid_from_stacked` and :func:`mass_of_solid`.

    Examples
    --------
    >>> round(mass_of_stacked("beech", 1.0, 0.20, "split_33cm"))
    463
    """
    return mass_of_solid(wood, solid_from_stacked(stacked_m3, form, wood, factors), moisture)


@worked
def stacked_of_mass(
    wood: Wood, mass_kg: Kilogram, moisture: Moisture, form: Form, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Stack that a mass of wood at a moisture fills.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    mass_kg : Kilogram
        Mass with its water, :math:`m`. [kg]
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.
    form : str
        How it is cut and stacked.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Volume of the stack, air included. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V_s = \frac{m (1 - M)}{\rho f}

    References
    ----------
    .. [1] As :func:`stacked_from_solid` and :func:`solid_of_mass`.

    Examples
    --------
    >>> round(stacked_of_mass("beech", 463.0, 0.20, "split_33cm"), 2)
    1.0
    """
    return stacked_from_solid(solid_of_mass(wood, mass_kg, moisture), form, wood, factors)


@worked
def dry_mass(mass_kg: Kilogram, moisture: Moisture) -> Kilogram:
    r"""Dry wood in a mass of moist wood.

    Parameters
    ----------
    mass_kg : Kilogram
        Mass with its water, :math:`m`. [kg]
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.

    Returns
    -------
    Kilogram
        Oven-dry mass. [kg]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.

    Notes
    -----
    .. math:: m_0 = m (1 - M)

    References
    ----------
    .. [1] Definition of the wet basis.

    Examples
    --------
    >>> dry_mass(1000.0, 0.20)
    800.0
    """
    return mass_kg * (1.0 - moisture)


@worked
def dried_mass(mass_kg: Kilogram, moisture: Moisture, moisture_after: Moisture) -> Kilogram:
    r"""What a mass of wood weighs once it has dried, or has got wet.

    A tonne of ash at 32 % becomes 850 kg at 20 %: nothing was stolen.

    Parameters
    ----------
    mass_kg : Kilogram
        Mass now, :math:`m_1`. [kg]
    moisture : Moisture
        Water over wet mass now, :math:`M_1`. [-] From 0 to 0.70.
    moisture_after : Moisture
        Water over wet mass afterwards, :math:`M_2`. [-] From 0 to 0.70.

    Returns
    -------
    Kilogram
        Mass afterwards. [kg]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.

    Notes
    -----
    .. math:: m_2 = m_1 \frac{1 - M_1}{1 - M_2}

    Dry wood lost to decay is not in it.

    References
    ----------
    .. [1] Definition of the wet basis: the dry wood stays the same.

    Examples
    --------
    >>> round(dried_mass(1000.0, 0.32, 0.20), 6)
    850.0
    """
    return mass_kg * (1.0 - moisture) / (1.0 - moisture_after)
