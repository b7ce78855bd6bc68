"""Hot water swells: how much, and how large a vessel or cistern must take it up."""

from __future__ import annotations

from typing import Annotated

from woodreeve.plant.water import water_density
from woodreeve.units import Ge, Gt, Le, Litre, Unit
from woodreeve.wood.dew_point import vapour_pressure_over_water
from woodreeve.workings import worked

__all__ = [
    "cistern_wanted",
    "expansion_share",
    "expansion_to_overshoot",
    "litres_when_hot",
    "open_cistern",
    "pressure_that_keeps_liquid",
    "volume_ratio",
]

Water = Annotated[float, Unit("degC"), Ge(0.0), Le(110.0)]
Hot = Annotated[float, Unit("degC"), Ge(99.0), Le(180.0)]
Antifreeze = Annotated[float, Unit("-"), Ge(0.0), Le(0.6)]
System = Annotated[float, Unit("L"), Gt(0.0), Le(1e5)]
Expansion = Annotated[float, Unit("-"), Ge(0.0), Le(0.2)]

OVERSHOOT_C = 110.0
"""Hottest water that a boiler with a thermal discharge may reach. [degC]"""


@worked
def volume_ratio(
    temperature: Water, antifreeze: Antifreeze = 0.0
) -> Annotated[float, Unit("-"), Ge(0.99), Le(1.2)]:
    r"""Volume of heating water over its volume at 0 °C.

    Parameters
    ----------
    temperature : Water
        Temperature, :math:`T`. [degC] From 0 to 110.
    antifreeze : Antifreeze
        Share of antifreeze, :math:`a`. [-] From 0 to 0.6.

    Returns
    -------
    float
        Volume ratio. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: r = \rho(0)/\rho(T) + 0.0324\,a

    References
    ----------
    .. [1] IAPWS SR6-08 (2011), density; table of bosy-online.de, Ausdehnung von Wasser (read): antifreeze
       adds about 0.0032 for each 10 %, here 0.00324, so that its figure for 30 % at 80 °C comes out;
       rows PL-exp01, PL-exp02 and PL-exp06.

    Examples
    --------
    >>> round(volume_ratio(90.0), 4)
    1.0358
    """
    return water_density(0.0) / water_density(temperature) + 0.0324 * antifreeze


@worked
def expansion_share(cold: Water = 10.0, hot: Water = 90.0, antifreeze: Antifreeze = 0.0) -> Expansion:
    r"""How much heating water swells between two temperatures.

    Parameters
    ----------
    cold : Water
        When filled. [degC] From 0 to 110.
    hot : Water
        When hot, not below ``cold``. [degC] From 0 to 110.
    antifreeze : Antifreeze
        Share of antifreeze. [-] From 0 to 0.6.

    Returns
    -------
    Expansion
        Swelling over the cold volume, :math:`e`. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: e = r(T_h, a) / r(T_c, 0) - 1

    References
    ----------
    .. [1] As :func:`volume_ratio`; rows PL-exp03 and PL-exp04.

    Examples
    --------
    >>> round(expansion_share(), 4)
    0.0356
    """
    return max(volume_ratio(hot, antifreeze) / volume_ratio(cold) - 1.0, 0.0)


@worked
def expansion_to_overshoot(antifreeze: Antifreeze = 0.0, hot: Water = 110.0) -> Expansion:
    r"""How much heating water swells up to the hottest that a boiler with a thermal discharge may reach.

    Parameters
    ----------
    antifreeze : Antifreeze
        Share of antifreeze. [-] From 0 to 0.6.
    hot : Water
        The hottest. [degC] From 0 to 110.

    Returns
    -------
    Expansion
        Swelling over the volume at 10 °C. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    All the water is reckoned at that temperature, which is the safe side: only the boiler's gets there.

    References
    ----------
    .. [1] :func:`expansion_share`; limit of 110 °C: glossary of a fuel trade site (name withheld),
       entry 596 (read).

    Examples
    --------
    >>> round(expansion_to_overshoot(), 4)
    0.0513
    """
    return expansion_share(10.0, hot, antifreeze)


@worked
def cistern_wanted(system: System, antifreeze: Antifreeze = 0.0) -> Litre:
    r"""Cistern of an open system: twice what its water swells up to 90 °C.

    Parameters
    ----------
    system : System
        All the heating water. [L] Above 0.
    antifreeze : Antifreeze
        Share of antifreeze. [-] From 0 to 0.6.

    Returns
    -------
    Litre
        Content. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    As :func:`open_cistern` with a factor of 2.

    References
    ----------
    .. [1] engineeringtoolbox.com d_885 (read).

    Examples
    --------
    >>> round(cistern_wanted(1500.0))
    107
    """
    return open_cistern(system, expansion_share(10.0, 90.0, antifreeze), 2.0)


@worked
def litres_when_hot(litres: Litre, cold: Water, hot: Water, antifreeze: Antifreeze = 0.0) -> Litre:
    r"""Volume of heating water after it has been warmed.

    Parameters
    ----------
    litres : Litre
        Volume when filled, :math:`V`. [L]
    cold : Water
        When filled. [degC] From 0 to 110.
    hot : Water
        When hot. [degC] From 0 to 110.
    antifreeze : Antifreeze
        Share of antifreeze. [-] From 0 to 0.6.

    Returns
    -------
    Litre
        Volume when hot. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V_h = V\,(1 + e)

    References
    ----------
    .. [1] SBZ Monteur, setting of a diaphragm vessel (read): 1000 L at 20 °C are about 1015 L at 60 °C; row
       PL-exp05.

    Examples
    --------
    >>> round(litres_when_hot(1000.0, 20.0, 60.0), 1)
    1015.3
    """
    return litres * (1.0 + expansion_share(cold, hot, antifreeze))


@worked
def open_cistern(
    system: System, share: Expansion = 0.10, factor: Annotated[float, Unit("-"), Ge(1.0), Le(5.0)] = 1.0
) -> Litre:
    r"""Cistern above an open system.

    Parameters
    ----------
    system : System
        All the heating water, :math:`V`. [L] Above 0.
    share : Expansion
        A tenth of the content by habit, or how much the water swells, :math:`e`. [-] From 0 to 0.2.
    factor : float
        How often the swelling must find room, :math:`k`: 2 where ``share`` is the swelling. [-] From 1 to 5.

    Returns
    -------
    Litre
        Content. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V_c = k\,e\,V

    References
    ----------
    .. [1] haustechnikdialog.de SHKwissen 958 (read): 10 % of the content; engineeringtoolbox.com d_885
       (read): twice the swelling; rows PL-ves01 and PL-ves02.

    Examples
    --------
    >>> open_cistern(1500.0)
    150.0
    """
    return system * share * factor


@worked
def pressure_that_keeps_liquid(
    temperature: Hot = OVERSHOOT_C,
) -> Annotated[float, Unit("bar"), Ge(-0.1), Le(10.0)]:
    r"""Overpressure that keeps hot water from boiling.

    Above 100 °C water stays liquid only under pressure; a leak then flashes to steam, about 1700-fold.

    Parameters
    ----------
    temperature : Hot
        Temperature of the water. [degC] From 99 to 180.

    Returns
    -------
    float
        Pressure over 1 bar. [bar]

    Raises
    ------
    OutOfRange
        If the temperature lies outside its range.

    Notes
    -----
    .. math:: p = p_s(T) - 1\ \mathrm{bar}

    References
    ----------
    .. [1] IAPWS-IF97 saturation; table of bosy-online.de (read); rows PL-vap01 and PL-vap02.

    Examples
    --------
    >>> round(pressure_that_keeps_liquid(110.0), 2)
    0.43
    """
    return vapour_pressure_over_water(temperature) / 1e5 - 1.0
