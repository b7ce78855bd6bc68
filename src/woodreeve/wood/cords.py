"""Cords, face cords and round logs."""

from __future__ import annotations

import math
from typing import Annotated

from woodreeve.units import CubicMetre, Ge, Gt, Le, Unit
from woodreeve.workings import worked

__all__ = [
    "CORD_M3",
    "cords_from_stacked",
    "face_cord_volume",
    "log_volume",
    "stacked_from_cords",
]

CORD_M3 = 128.0 * 0.3048**3
"""A full cord of 128 cubic feet. [m3]"""

Cords = Annotated[float, Unit("cord"), Ge(0.0), Le(1e6)]
Diameter = Annotated[float, Unit("m"), Gt(0.0), Le(3.0)]
Length = Annotated[float, Unit("m"), Gt(0.0), Le(40.0)]


@worked
def cords_from_stacked(stacked_m3: CubicMetre) -> Cords:
    r"""Full cords in a stack.

    Parameters
    ----------
    stacked_m3 : CubicMetre
        Volume of the stack, air included, :math:`V_s`. [m3]

    Returns
    -------
    Cords
        Cords of 128 cubic feet. [cord]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.

    Notes
    -----
    .. math:: n = \frac{V_s}{128 \cdot 0.3048^3}

    References
    ----------
    .. [1] Definition; 128 cubic feet and 3.62 m3 are printed at medicalalgorithms.com/cord-of-wood.

    Examples
    --------
    >>> round(cords_from_stacked(3.62), 2)
    1.0
    """
    return stacked_m3 / CORD_M3


@worked
def stacked_from_cords(cords: Cords) -> CubicMetre:
    r"""Stacked volume of full cords.

    Parameters
    ----------
    cords : Cords
        Cords of 128 cubic feet, :math:`n`. [cord]

    Returns
    -------
    CubicMetre
        Volume of the stack, air included. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.

    Notes
    -----
    .. math:: V_s = 128 \cdot 0.3048^3\, n

    References
    ----------
    .. [1] Definition; 128 cubic feet and 3.62 m3 are printed at medicalalgorithms.com/cord-of-wood.

    Examples
    --------
    >>> round(stacked_from_cords(1.0), 2)
    3.62
    """
    return cords * CORD_M3


@worked
def face_cord_volume(piece_length_m: Length) -> CubicMetre:
    r"""Stacked volume of a face cord: 4 by 8 feet, one piece deep.

    What a face cord holds hangs on the length of the pieces: ask for it.

    Parameters
    ----------
    piece_length_m : Length
        Length of the pieces, :math:`L`. [m]

    Returns
    -------
    CubicMetre
        Volume of the stack, air included. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.

    Notes
    -----
    .. math:: V_s = 4 \cdot 8 \cdot 0.3048^2\, L

    References
    ----------
    .. [1] Utah State University Extension, quoted in hearth.com thread 176012.

    Examples
    --------
    >>> round(face_cord_volume(0.4064), 3)
    1.208
    """
    return 32.0 * 0.3048**2 * piece_length_m


@worked
def log_volume(mid_diameter_m: Diameter, length_m: Length) -> CubicMetre:
    r"""Solid volume of a log from its girth half way along.

    Over bark: the bark burns too.

    Parameters
    ----------
    mid_diameter_m : Diameter
        Diameter half way along, over bark, :math:`D`. [m]
    length_m : Length
        Length, :math:`L`. [m]

    Returns
    -------
    CubicMetre
        Solid volume, as measured green. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.

    Notes
    -----
    .. math:: V = \frac{\pi}{4} D^2 L

    References
    ----------
    .. [1] Kofman, COFORD Connects, Harvesting/Transportation 21 (the formula of Huber).

    Examples
    --------
    >>> round(log_volume(0.25, 3.0), 4)
    0.1473
    """
    return math.pi / 4.0 * mid_diameter_m**2 * length_m
