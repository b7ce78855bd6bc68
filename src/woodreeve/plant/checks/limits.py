"""Limits printed on plates and in laws: efficiency classes, least efficiency, dust and carbon monoxide."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from woodreeve.units import Ge, Gt, Le, Moisture, Unit
from woodreeve.workings import worked

__all__ = [
    "at_other_oxygen",
    "class_efficiency",
    "eu_emission_limit",
    "eu_least_efficiency",
    "german_emission_limit",
    "gross_heat_as_received",
]

Output = Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)]
Efficiency = Annotated[float, Unit("-"), Ge(0.0), Le(1.1)]
Concentration = Annotated[float, Unit("mg/m3"), Ge(0.0), Le(1e6)]
Oxygen = Annotated[float, Unit("-"), Ge(0.0), Le(0.20)]

_CLASSES = {"class_3": (0.67, 0.06), "class_4": (0.80, 0.02), "class_5": (0.87, 0.01)}


@worked
def class_efficiency(output: Output, boiler_class: Literal["class_3", "class_4", "class_5"]) -> Efficiency:
    r"""Least efficiency of a boiler of a certain class, on the net footing, at full output in a laboratory.

    Parameters
    ----------
    output : Output
        Rated output, :math:`P`. [kW] Above 0, to 500.
    boiler_class : str
        The class on its plate.

    Returns
    -------
    Efficiency
        Least efficiency, net. [-]

    Raises
    ------
    OutOfRange
        If the output lies outside its range.
    UnknownName
        If there is no such class.

    Notes
    -----
    .. math:: \eta = 0.87 + 0.01 \log_{10} P\ (5), \quad 0.80 + 0.02 \log_{10} P\ (4), \quad
       0.67 + 0.06 \log_{10} P\ (3)

    References
    ----------
    .. [1] EN 303-5 (from memory); rows PL-lim07 and PL-lim08.

    Examples
    --------
    >>> round(class_efficiency(25.0, "class_5"), 3)
    0.884
    """
    base, slope = _CLASSES[boiler_class]
    return base + slope * math.log10(output)


@worked
def eu_least_efficiency(output: Output) -> Efficiency:
    r"""Least seasonal efficiency of a new boiler in the European Union, on the gross footing.

    A maker's net figure of the same boiler is often ten points higher: never set one against the other.

    Parameters
    ----------
    output : Output
        Rated output. [kW] Above 0, to 500.

    Returns
    -------
    Efficiency
        Least seasonal efficiency, gross. [-]

    Raises
    ------
    OutOfRange
        If the output lies outside its range.

    Notes
    -----
    75 % up to 20 kW, 77 % above.

    References
    ----------
    .. [1] Commission Regulation (EU) 2015/1189, Annex II, point 1, since 1 January 2020 (read); rows PL-lim01
       and PL-lim02.

    Examples
    --------
    >>> eu_least_efficiency(25.0)
    0.77
    """
    return 0.75 if output <= 20.0 else 0.77


@worked
def eu_emission_limit(
    what: Literal["dust", "organic_gas", "carbon_monoxide", "nitrogen_oxides"],
) -> Concentration:
    r"""Most that a new boiler fed by hand may send out in the European Union, over the season.

    Parameters
    ----------
    what : str
        Which of the four.

    Returns
    -------
    Concentration
        Limit at 10 % oxygen (that figure from memory). [mg/m3]

    Raises
    ------
    UnknownName
        If there is no such limit.

    Notes
    -----
    Dust 60, organic gas 30, carbon monoxide 700, nitrogen oxides 200.

    References
    ----------
    .. [1] Commission Regulation (EU) 2015/1189, Annex II, point 1, since 1 January 2020 (read); rows PL-lim03
       and PL-lim04.

    Examples
    --------
    >>> eu_emission_limit("dust")
    60.0
    """
    return {"dust": 60.0, "organic_gas": 30.0, "carbon_monoxide": 700.0, "nitrogen_oxides": 200.0}[what]


@worked
def german_emission_limit(what: Literal["dust", "carbon_monoxide"]) -> Concentration:
    r"""Most that a log boiler built after 2016 may send out in Germany.

    Parameters
    ----------
    what : str
        Dust or carbon monoxide.

    Returns
    -------
    Concentration
        Limit at 13 % oxygen. [mg/m3]

    Raises
    ------
    UnknownName
        If there is no such limit.

    Notes
    -----
    Dust 20, carbon monoxide 400.

    References
    ----------
    .. [1] 1. BImSchV (Germany), section 5(1), stage 2: log boilers built after 31 December 2016 (read); rows
       PL-lim09 and PL-lim10.

    Examples
    --------
    >>> german_emission_limit("carbon_monoxide")
    400.0
    """
    return {"dust": 20.0, "carbon_monoxide": 400.0}[what]


@worked
def at_other_oxygen(concentration: Concentration, oxygen: Oxygen, wanted_oxygen: Oxygen) -> Concentration:
    r"""A concentration in smoke, told for another content of oxygen.

    Parameters
    ----------
    concentration : Concentration
        As stated. [mg/m3]
    oxygen : Oxygen
        The oxygen it is stated for, :math:`x_1`. [-] From 0 to 0.2.
    wanted_oxygen : Oxygen
        The oxygen wanted, :math:`x_2`. [-] From 0 to 0.2.

    Returns
    -------
    Concentration
        At the other oxygen. [mg/m3]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: c_2 = c_1\,\frac{21 - x_2}{21 - x_1}

    References
    ----------
    .. [1] Usual conversion (from memory); row PL-lim11.

    Examples
    --------
    >>> round(at_other_oxygen(700.0, 0.10, 0.13), 1)
    509.1
    """
    return concentration * (0.21 - wanted_oxygen) / (0.21 - oxygen)


@worked
def gross_heat_as_received(
    gross_heat_dry: Annotated[float, Unit("MJ/kg"), Ge(15.0), Le(24.0)], moisture: Moisture
) -> Annotated[float, Unit("MJ/kg"), Ge(0.0), Le(24.0)]:
    r"""Gross calorific value of moist wood.

    Parameters
    ----------
    gross_heat_dry : float
        Gross calorific value of the moisture-free wood, :math:`q_g`. [MJ/kg] From 15 to 24.
    moisture : Moisture
        Water over wet mass, :math:`M`. [-] From 0 to 0.7.

    Returns
    -------
    float
        Gross calorific value as it is. [MJ/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: q = q_g\,(1 - M)

    References
    ----------
    .. [1] Commission Regulation (EU) 2015/1189, Annex III, point 5 (read); row PL-lim06.

    Examples
    --------
    >>> gross_heat_as_received(20.0, 0.20)
    16.0
    """
    return gross_heat_dry * (1.0 - moisture)
