"""What a hot-water store loses, from its label, its insulation or its energy class."""

from __future__ import annotations

import math
from typing import Annotated

from woodreeve.errors import Unknown
from woodreeve.plant.fields import EnergyClass
from woodreeve.units import (
    Ge,
    Gt,
    Le,
    Unit,
    Watt,
    WattPerKelvin,
)
from woodreeve.workings import worked

__all__ = [
    "class_standing_loss",
    "energy_class_of",
    "insulation_loss",
    "standing_loss_per_kelvin",
]

_CLASS_COEFFICIENTS: dict[str, tuple[float, float]] = {
    "A+": (5.5, 3.16),
    "A": (8.5, 4.25),
    "B": (12.0, 5.93),
    "C": (16.66, 8.33),
    "D": (21.0, 10.33),
    "E": (26.0, 13.66),
    "F": (31.0, 16.66),
}
"""Upper limit of each class: constant [W] and factor of the content in litres to the power 0.4. [W]"""

LABEL_DIFFERENCE_K = 45.0
"""Water at 65 °C in a room of 20 °C, at which the label's loss is stated. [K]"""

Height = Annotated[float, Unit("m"), Gt(0.0), Le(10.0)]
Content = Annotated[float, Unit("L"), Gt(0.0), Le(1e5)]
Water = Annotated[float, Unit("degC"), Ge(-20.0), Le(150.0)]


@worked
def class_standing_loss(content: Content, energy_class: EnergyClass) -> Watt:
    r"""Most heat that a tank of a certain energy class may lose.

    Pipe stubs and poor fitting often add as much again.

    Parameters
    ----------
    content : Content
        Litres of the tank. [L] More than 0.
    energy_class : EnergyClass
        Letter on its label, from A+ to F; G has no upper limit.

    Returns
    -------
    Watt
        Standing loss with water at 65 °C in a room of 20 °C. [W]

    Raises
    ------
    OutOfRange
        If the content is out of range.
    Unknown
        For class G.

    Notes
    -----
    .. math:: S = a + b\,V^{0.4}

    References
    ----------
    .. [1] Commission Delegated Regulation (EU) No 812/2013, Annex II, Table 2 (coefficients from
       memory: the copy that was read shows the table as pictures); rows lab01 to lab05.

    Examples
    --------
    >>> round(class_standing_loss(1000.0, "C"), 1)
    148.7
    """
    if energy_class not in _CLASS_COEFFICIENTS:
        raise Unknown(
            f"Class {energy_class} has no upper limit of standing loss: give loss_w_per_k of the store."
        )
    constant, factor = _CLASS_COEFFICIENTS[energy_class]
    return float(constant + factor * content**0.4)


@worked
def energy_class_of(
    content: Content, standing_loss: Annotated[float, Unit("W"), Gt(0.0), Le(1e5)]
) -> EnergyClass:
    r"""Energy class of a tank with a certain standing loss.

    Parameters
    ----------
    content : Content
        Litres of the tank. [L] More than 0.
    standing_loss : float
        Loss with water at 65 °C in a room of 20 °C. [W] More than 0.

    Returns
    -------
    EnergyClass
        The best class whose limit it keeps.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: S < a_k + b_k V^{0.4}

    References
    ----------
    .. [1] Commission Delegated Regulation (EU) No 812/2013, Annex II, Table 2 (coefficients from memory).

    Examples
    --------
    >>> energy_class_of(500.0, 90.0)
    'C'
    """
    letters: tuple[EnergyClass, ...] = ("A+", "A", "B", "C", "D", "E", "F")
    for letter in letters:
        if standing_loss < class_standing_loss(content, letter):
            return letter
    return "G"


@worked
def standing_loss_per_kelvin(content: Content, energy_class: EnergyClass) -> WattPerKelvin:
    r"""Loss of a tank for each degree above its room, from its label.

    Parameters
    ----------
    content : Content
        Litres of the tank. [L] More than 0.
    energy_class : EnergyClass
        Letter on its label, from A+ to F.

    Returns
    -------
    WattPerKelvin
        Loss coefficient at the class limit. [W/K]

    Raises
    ------
    OutOfRange
        If the content is out of range.
    Unknown
        For class G.

    Notes
    -----
    .. math:: UA = S / 45\ \mathrm{K}

    References
    ----------
    .. [1] Label condition of 65 °C in 20 °C: heizungsjournal.de 13870 (read); row lab07.

    Examples
    --------
    >>> round(standing_loss_per_kelvin(1000.0, "C"), 3)
    3.304
    """
    return class_standing_loss(content, energy_class) / LABEL_DIFFERENCE_K


@worked
def insulation_loss(
    content: Content,
    height: Height,
    thickness: Annotated[float, Unit("cm"), Gt(0.0), Le(100.0)],
    conductivity: Annotated[float, Unit("W/(m*K)"), Gt(0.01), Le(0.5)] = 0.04,
    surface: Annotated[float, Unit("W/(m2*K)"), Gt(1.0), Le(50.0)] = 8.0,
) -> WattPerKelvin:
    r"""Loss of an upright round tank for each degree, from its insulation.

    Parameters
    ----------
    content : Content
        Litres of the tank. [L] More than 0.
    height : Height
        Its inside height. [m] More than 0.
    thickness : float
        Insulation all round. [cm] More than 0.
    conductivity : float
        Of the insulation. [W/(m*K)]
    surface : float
        From the outside of the insulation to the room. [W/(m2*K)]

    Returns
    -------
    WattPerKelvin
        Loss coefficient without pipe stubs. [W/K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: UA = \frac{2\pi r h}{\tfrac{r}{\lambda}\ln\tfrac{r+d}{r} + \tfrac{r}{\alpha (r+d)}}
       + \frac{2 \pi r^2}{d/\lambda + 1/\alpha}

    References
    ----------
    .. [1] Steady conduction through a round wall and two flat ends (textbook, from memory).

    Examples
    --------
    >>> round(insulation_loss(1500.0, 2.0, 10.0), 2)
    3.15
    """
    radius = math.sqrt(content / 1000.0 / (math.pi * height))
    thick = thickness / 100.0
    wall = 2.0 * math.pi * radius * height
    wall /= radius / conductivity * math.log((radius + thick) / radius) + radius / surface / (radius + thick)
    ends = 2.0 * math.pi * radius**2 / (thick / conductivity + 1.0 / surface)
    return wall + ends
