"""Burning wood: the air it needs, the gas it makes, the carbon monoxide it wastes and the ash it leaves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from woodreeve.errors import OutOfRange
from woodreeve.units import DryHeat, Ge, Kilogram, Le, Moisture, Share, Unit
from woodreeve.wood.heat import net_heat
from woodreeve.workings import worked

__all__ = [
    "BEECH",
    "DRY_OAK",
    "TYPICAL_WOOD",
    "Composition",
    "ExcessAir",
    "FlueGas",
    "OxygenDry",
    "ash_mass",
    "burn",
    "carbon_monoxide_loss",
    "excess_air_from_oxygen",
]

ExcessAir = Annotated[float, Unit("-"), Ge(1.0), Le(10.0)]
"""Air over the air just needed."""
OxygenDry = Annotated[float, Unit("-"), Ge(0.0), Le(0.19)]
"""Oxygen in the dry flue gas, as an analyser shows it."""
MolPerKg = Annotated[float, Unit("mol/kg"), Ge(0.0)]
GasPerKg = Annotated[float, Unit("m3/kg"), Ge(0.0)]
MassRatio = Annotated[float, Unit("kg/kg"), Ge(0.0)]

CARBON, HYDROGEN, OXYGEN, NITROGEN, SULPHUR, WATER = 12.011, 2.016, 31.998, 28.01, 32.06, 18.015
"""Molar masses: of C, H2, O2, N2, S and H2O. [g/mol]"""
OXYGEN_IN_AIR = 0.2095
"""Oxygen in dry air, by volume; the rest is counted as nitrogen. [-]"""
AIR_MOLAR_MASS = 28.965
"""Molar mass of dry air. [g/mol]"""
MOLAR_VOLUME = 0.022414
"""Volume of a mole of gas at 0 °C and 101 325 Pa. [m3/mol]"""
CO_HEAT_KJ_MOL = 283.0
"""Heat of burning carbon monoxide, from memory. [kJ/mol]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Composition:
    """What dry wood is made of, as shares of the dry mass; the rest is ash."""

    carbon: Share
    hydrogen: Share
    oxygen: Share
    nitrogen: Share = 0.0
    sulphur: Share = 0.0

    def __post_init__(self) -> None:
        """See to it that the shares leave no less than nothing for ash."""
        total = self.carbon + self.hydrogen + self.oxygen + self.nitrogen + self.sulphur
        if not 0.5 <= total <= 1.0 + 1e-9:
            raise OutOfRange("sum of the shares of the elements", f"{total:g}", "between 0.5 and 1")


TYPICAL_WOOD = Composition(carbon=0.49, hydrogen=0.062, oxygen=0.44, nitrogen=0.001, sulphur=0.0002)
"""Typical broadleaved wood: EN 14961-1, Annex B (from memory)."""
DRY_OAK = Composition(carbon=0.502, hydrogen=0.060, oxygen=0.433, nitrogen=0.001)
"""Oak: read at stoves.bioenergylists.org, Kanchanrai, practice 6."""
BEECH = Composition(carbon=0.484, hydrogen=0.060, oxygen=0.4428, nitrogen=0.0016, sulphur=0.0002)
"""Beech pellets, middle of the ranges of Resources 2024, 13(8), 104; oxygen as the rest after 1.14 % ash."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FlueGas:
    """What a kilogram of wood, its water included, takes in and gives off. Volumes at 0 °C and 101 325 Pa."""

    air_kg: MassRatio
    air_m3: GasPerKg
    dry_gas_m3: GasPerKg
    wet_gas_m3: GasPerKg
    carbon_dioxide_dry: Share
    oxygen_dry: Share
    sulphur_dioxide_dry: Share
    water_share: Share
    carbon_dioxide_mol: MolPerKg
    water_mol: MolPerKg
    nitrogen_mol: MolPerKg
    oxygen_mol: MolPerKg
    sulphur_dioxide_mol: MolPerKg

    @property
    def dry_mol(self) -> MolPerKg:
        """All gas but the water."""
        return self.carbon_dioxide_mol + self.nitrogen_mol + self.oxygen_mol + self.sulphur_dioxide_mol


@worked
def burn(moisture: Moisture, excess_air: ExcessAir = 1.0, fuel: Composition = TYPICAL_WOOD) -> FlueGas:
    r"""Air taken in and gas given off when wood burns completely.

    Parameters
    ----------
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.70.
    excess_air : ExcessAir
        Air over the air just needed, :math:`\lambda`. [-] From 1 to 10; 1.5 is a good fire.
    fuel : Composition
        What the dry wood is made of.

    Returns
    -------
    FlueGas
        Amounts for one kilogram of wood as it is.

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    Moles for each kilogram as fired, with :math:`d = 1000 (1 - M)` grams of dry wood:

    .. math:: n_{O_2} = d \left( \frac{C}{12.011} + \frac{H}{4.032} + \frac{S}{32.06}
              - \frac{O}{31.998} \right), \qquad n_\mathrm{air} = \lambda \frac{n_{O_2}}{0.2095}

    .. math:: n_{CO_2} = \frac{d\, C}{12.011}, \quad n_{H_2O} = \frac{d\, H}{2.016} + \frac{1000 M}{18.015},
              \quad n_{N_2} = \frac{d\, N}{28.01} + 0.7905\, n_\mathrm{air}

    The air is taken as dry; damp air adds about 1 % to the water. An equilibrium code gives the same products
    to five digits.

    References
    ----------
    .. [1] Mass balance, from first principles.
    .. [2] Kubler, Wood and Fiber Science, abstract: 6 kg of air for each kilogram of dry wood.

    Examples
    --------
    >>> gas = burn(0.20, 1.5)
    >>> round(gas.wet_gas_m3, 2), round(gas.carbon_dioxide_dry, 3)
    (6.22, 0.135)
    """
    dry = 1000.0 * (1.0 - moisture)
    needed = dry * (
        fuel.carbon / CARBON
        + fuel.hydrogen / (2.0 * HYDROGEN)
        + fuel.sulphur / SULPHUR
        - fuel.oxygen / OXYGEN
    )
    air = excess_air * needed / OXYGEN_IN_AIR
    carbon_dioxide = dry * fuel.carbon / CARBON
    sulphur_dioxide = dry * fuel.sulphur / SULPHUR
    water = dry * fuel.hydrogen / HYDROGEN + 1000.0 * moisture / WATER
    nitrogen = dry * fuel.nitrogen / NITROGEN + (1.0 - OXYGEN_IN_AIR) * air
    spare = (excess_air - 1.0) * needed
    dry_gas = carbon_dioxide + sulphur_dioxide + nitrogen + spare
    return FlueGas(
        air_kg=air * AIR_MOLAR_MASS / 1000.0,
        air_m3=air * MOLAR_VOLUME,
        dry_gas_m3=dry_gas * MOLAR_VOLUME,
        wet_gas_m3=(dry_gas + water) * MOLAR_VOLUME,
        carbon_dioxide_dry=carbon_dioxide / dry_gas,
        oxygen_dry=spare / dry_gas,
        sulphur_dioxide_dry=sulphur_dioxide / dry_gas,
        water_share=water / (dry_gas + water),
        carbon_dioxide_mol=carbon_dioxide,
        water_mol=water,
        nitrogen_mol=nitrogen,
        oxygen_mol=spare,
        sulphur_dioxide_mol=sulphur_dioxide,
    )


@worked
def excess_air_from_oxygen(oxygen_dry: OxygenDry, fuel: Composition = TYPICAL_WOOD) -> ExcessAir:
    r"""Excess air, from the oxygen that an analyser shows in the dry flue gas.

    Parameters
    ----------
    oxygen_dry : OxygenDry
        Oxygen in the dry flue gas, :math:`x`. [-] From 0 to 0.19.
    fuel : Composition
        What the dry wood is made of.

    Returns
    -------
    ExcessAir
        Air over the air just needed. [-]

    Raises
    ------
    OutOfRange
        If the oxygen lies outside the range given above.

    Notes
    -----
    With dry gas :math:`n_1`, air :math:`a_1`, oxygen :math:`n_{O_2}` of just enough air, as in :func:`burn`:

    .. math:: \lambda = 1 + \frac{x\, n_1}{n_{O_2} - x\, a_1}

    Close to :math:`20.95 / (20.95 - x)` with :math:`x` in per cent.

    References
    ----------
    .. [1] Mass balance, from first principles.

    Examples
    --------
    >>> round(excess_air_from_oxygen(0.08), 2)
    1.61
    """
    just_enough = burn(0.0, 1.0, fuel)
    air = just_enough.air_m3 / MOLAR_VOLUME
    return 1.0 + oxygen_dry * just_enough.dry_mol / (air * (OXYGEN_IN_AIR - oxygen_dry))


@worked
def carbon_monoxide_loss(
    carbon_monoxide_dry: Share,
    excess_air: ExcessAir,
    moisture: Moisture,
    fuel: Composition = TYPICAL_WOOD,
    net_heat_dry_mj_kg: DryHeat = 18.9,
) -> Share:
    r"""Heat lost as unburnt carbon monoxide.

    Parameters
    ----------
    carbon_monoxide_dry : Share
        Carbon monoxide in the dry flue gas, :math:`x`; 1000 ppm is 0.001. [-]
    excess_air : ExcessAir
        Air over the air just needed. [-] From 1 to 10.
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    fuel : Composition
        What the dry wood is made of.
    net_heat_dry_mj_kg : DryHeat
        Net calorific value of the oven-dry wood. [MJ/kg] From 15 to 22.

    Returns
    -------
    Share
        Loss over the net heat of the wood. [-]

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    With dry gas :math:`n` in moles for each kilogram and net heat :math:`q` in kJ/kg:

    .. math:: l = \frac{283\, x\, n}{q}

    Tar, methane and soot are not in it. Carbon monoxide kills: a room where it can gather needs an alarm, and
    a fire that makes much of it needs a sweep or the maker, not a formula.

    References
    ----------
    .. [1] Mass balance; heat of burning carbon monoxide 283.0 kJ/mol (from memory).

    Examples
    --------
    >>> round(carbon_monoxide_loss(0.001, 1.5, 0.20), 4)
    0.0047
    """
    gas = burn(moisture, excess_air, fuel)
    heat_kj_kg = 1000.0 * net_heat(net_heat_dry_mj_kg, moisture)
    return CO_HEAT_KJ_MOL * carbon_monoxide_dry * gas.dry_mol / heat_kj_kg


@worked
def ash_mass(dry_mass_kg: Kilogram, ash_share_dry: Share) -> Kilogram:
    r"""Ash that an amount of wood leaves.

    Parameters
    ----------
    dry_mass_kg : Kilogram
        Oven-dry mass of the wood, :math:`m_0`. [kg]
    ash_share_dry : Share
        Ash over dry mass, :math:`a`. [-]

    Returns
    -------
    Kilogram
        Ash of the wood alone. [kg]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.

    Notes
    -----
    .. math:: m_a = a\, m_0

    Allow two to three times as much for bark, grit and unburnt carbon (from memory).

    References
    ----------
    .. [1] Definition of the ash content.

    Examples
    --------
    >>> round(ash_mass(8000.0, 0.0046), 1)
    36.8
    """
    return ash_share_dry * dry_mass_kg
