"""What is known of each kind of wood: density, sap, shrinkage, heat and ash, each figure with its source.

Where nothing was found for a species the cell stays blank and a fall-back is used: the species of the
same genus, else all broadleaved or all coniferous species; :func:`figure_source` says so in words.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.units import DryHeat, Ge, Le, Moisture, Share, Unit, WoodDensity
from woodreeve.wood.fallbacks import figure_source, species_figure
from woodreeve.wood.kinds import (
    MIXED,
    SPECIES,
    Group,
    Quantity,
    Species,
    SpeciesFigure,
    Status,
    Wood,
    figures_of,
    group_shares,
    shares_of,
    species,
)
from woodreeve.workings import worked

__all__ = [
    "MIXED",
    "SPECIES",
    "DryBasisPair",
    "Group",
    "Quantity",
    "Species",
    "SpeciesFigure",
    "Status",
    "Wood",
    "ash_share",
    "bark_share",
    "basic_density",
    "figure_source",
    "figures_of",
    "green_heart_and_sap",
    "green_moisture",
    "group_shares",
    "net_heat_dry",
    "shares_of",
    "shrinkage",
    "species",
    "species_figure",
]


def _by_dry_mass(wood: Wood) -> dict[str, float]:
    """Shares of the dry mass, from shares of the solid volume."""
    mass = {key: share * species_figure(key, "basic_density").value for key, share in shares_of(wood).items()}
    total = sum(mass.values())
    return {key: part / total for key, part in mass.items()}


@worked
def basic_density(wood: Wood) -> WoodDensity:
    r"""Dry wood in a green solid cubic metre.

    By mass all species heat about alike; by the cubic metre, density decides.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.

    Returns
    -------
    WoodDensity
        Oven-dry mass over green volume. [kg/m3]

    Raises
    ------
    UnknownName
        If a name is not known.
    OutOfRange
        If the shares of a mixture do not sum to 1.

    Notes
    -----
    A mixture with volume shares :math:`s_i`:

    .. math:: \rho = \sum_i s_i \rho_i

    A single tree is often 10 % off the mean of its species.

    References
    ----------
    .. [1] Fischer et al. 2026, "Global Wood Density Database", version 2, doi 10.5281/zenodo.18262736,
       table of species means (some are model-smoothed).

    Examples
    --------
    >>> basic_density("beech")
    597.0
    >>> round(basic_density({"beech": 0.5, "birch": 0.5}), 1)
    571.0
    """
    if isinstance(wood, str):
        return species_figure(wood, "basic_density").value
    return sum(share * species_figure(key, "basic_density").value for key, share in shares_of(wood).items())


@worked
def net_heat_dry(wood: Wood) -> DryHeat:
    r"""Net heat of the oven-dry wood.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.

    Returns
    -------
    DryHeat
        Net calorific value of the oven-dry wood. [MJ/kg]

    Raises
    ------
    UnknownName
        If a name is not known.
    OutOfRange
        If the shares of a mixture do not sum to 1.

    Notes
    -----
    A mixture with shares :math:`g_i` of the dry mass:

    .. math:: q_d = \sum_i g_i q_{d,i}

    Where nothing was read for a species: 18.9 for broadleaved and 19.1 for coniferous wood.

    References
    ----------
    .. [1] Species figures name their own source; see :func:`figure_source`.
    .. [2] EN 14961-1, Annex B, typical values (from memory).

    Examples
    --------
    >>> net_heat_dry("ash")
    18.9
    """
    if isinstance(wood, str):
        return species_figure(wood, "net_heat_dry").value
    return sum(share * species_figure(key, "net_heat_dry").value for key, share in _by_dry_mass(wood).items())


@worked
def green_moisture(wood: Wood) -> Moisture:
    r"""Moisture of the wood as felled.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.

    Returns
    -------
    Moisture
        Water over wet mass in the standing or just felled tree. [-]

    Raises
    ------
    UnknownName
        If a name is not known.
    OutOfRange
        If the shares of a mixture do not sum to 1.

    Notes
    -----
    A mixture with shares :math:`g_i` of the dry mass and dry-basis moistures :math:`u_i`:

    .. math:: u = \sum_i g_i u_i, \qquad M = \frac{u}{1 + u}

    A fresh figure differs by tree, season and, in conifers, by the share of wet sapwood; no source for the
    season was read. Measure where it matters.

    References
    ----------
    .. [1] Forest Research, "The woodfuel supply chain"; USDA Forest Inventory, REF_SPECIES table; "Wood
       Handbook", FPL-GTR-190, 2010, Table 4-1. Each figure names its own; see :func:`figure_source`.

    Examples
    --------
    >>> green_moisture("ash")
    0.32
    """
    if isinstance(wood, str):
        return species_figure(wood, "green_moisture").value
    water = 0.0
    for key, share in _by_dry_mass(wood).items():
        wet = species_figure(key, "green_moisture").value
        water += share * wet / (1.0 - wet)
    return water / (1.0 + water)


@worked
def ash_share(wood: Wood) -> Share:
    r"""Ash of clean wood.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.

    Returns
    -------
    Share
        Ash over dry mass, without bark, grit and unburnt carbon. [-]

    Raises
    ------
    UnknownName
        If a name is not known.
    OutOfRange
        If the shares of a mixture do not sum to 1.

    Notes
    -----
    A mixture with shares :math:`g_i` of the dry mass:

    .. math:: a = \sum_i g_i a_i

    Bark is another fuel: 2.9 to 6.5 % ash was read for conifer bark.

    References
    ----------
    .. [1] Species figures name their own source; see :func:`figure_source`.
    .. [2] EN 14961-1, typical value 0.3 % of stem wood (from memory).

    Examples
    --------
    >>> ash_share("oak")
    0.004
    """
    if isinstance(wood, str):
        return species_figure(wood, "ash_share").value
    return sum(share * species_figure(key, "ash_share").value for key, share in _by_dry_mass(wood).items())


@worked
def shrinkage(wood: Wood) -> Share:
    r"""Volume that the solid wood loses from green to oven-dry.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.

    Returns
    -------
    Share
        Loss over the green volume. [-]

    Raises
    ------
    UnknownName
        If a name is not known.
    OutOfRange
        If the shares of a mixture do not sum to 1.

    Notes
    -----
    A mixture with volume shares :math:`s_i`:

    .. math:: S = \sum_i s_i S_i

    A stack hardly sinks with it: a test institute found that negligible for trade.

    References
    ----------
    .. [1] "Wood Handbook", FPL-GTR-190, 2010, Table 4-3: American species, used for their European relatives.
    .. [2] Central European wood handbooks (from memory).

    Examples
    --------
    >>> shrinkage("american beech")
    0.172
    """
    if isinstance(wood, str):
        return species_figure(wood, "shrinkage").value
    return sum(share * species_figure(key, "shrinkage").value for key, share in shares_of(wood).items())


@worked
def bark_share(wood: Wood) -> Share:
    r"""Bark in a log's volume.

    Parameters
    ----------
    wood : str or mapping
        A species, a group, or a mixture by solid volume.

    Returns
    -------
    Share
        Bark over the volume of the log with its bark. [-]

    Raises
    ------
    UnknownName
        If a name is not known.
    OutOfRange
        If the shares of a mixture do not sum to 1.

    Notes
    -----
    A mixture with volume shares :math:`s_i`:

    .. math:: b = \sum_i s_i b_i

    Read for North American species only; European ones take the mean of their genus or group.

    References
    ----------
    .. [1] USDA Forest Inventory, REF_SPECIES table, read in GitHub silvxlabs/nsvb at e569d88.

    Examples
    --------
    >>> bark_share("red oak")
    0.2
    """
    if isinstance(wood, str):
        return species_figure(wood, "bark_share").value
    return sum(share * species_figure(key, "bark_share").value for key, share in shares_of(wood).items())


GreenDryBasis = Annotated[float, Unit("-"), Ge(0.0), Le(3.0)]
"""Water over dry mass of fresh wood; conifer sapwood reaches 2.5."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DryBasisPair:
    """Moisture of fresh heartwood and sapwood, over dry mass; ``None`` where the table has no entry."""

    heartwood: GreenDryBasis | None
    sapwood: GreenDryBasis | None


@worked
def green_heart_and_sap(name: str) -> DryBasisPair:
    r"""Moisture of fresh heartwood and of fresh sapwood.

    Parameters
    ----------
    name : str
        A species.

    Returns
    -------
    DryBasisPair
        Both over dry mass, where known.

    Raises
    ------
    UnknownName
        If the name is not known.

    Notes
    -----
    Sapwood is the wet part of a conifer, so thin conifer logs, mostly sapwood, are the wetter ones.

    .. math:: u = \frac{m_\mathrm{water}}{m_\mathrm{dry}}

    References
    ----------
    .. [1] "Wood Handbook", FPL-GTR-190, 2010, Table 4-1.

    Examples
    --------
    >>> green_heart_and_sap("white ash").sapwood
    0.44
    """
    heart = figures_of(name, "green_heartwood_dry_basis")
    sap = figures_of(name, "green_sapwood_dry_basis")
    return DryBasisPair(
        heartwood=heart[0].value if heart else None,
        sapwood=sap[0].value if sap else None,
    )
