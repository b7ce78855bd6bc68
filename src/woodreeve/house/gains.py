"""Free heat: from people, lights and appliances, and from the sun through the windows."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.workings import worked

__all__ = ["FRAME_SHARE", "SHADING", "internal_gains", "solar_gain", "window_aperture"]

FRAME_SHARE = 0.7
"""Glass over the whole window opening, wooden frames. [-] (SAP 2012 Table 6c, from memory)"""

SHADING = 0.77
"""What trees, reveals and neighbours leave of the sun, on average. [-] (SAP 2012 Table 6d, from memory)"""

_SLANTING = 0.9
"""Loss because the sun seldom stands square to the glass. [-] (SAP 2012, from memory)"""


@worked
def internal_gains(
    occupants: Annotated[float, Unit("-"), Ge(0.0), Le(50.0)],
    floor_area_m2: Annotated[float, Unit("m2"), Ge(1.0), Le(10000.0)],
) -> Annotated[float, Unit("W"), Ge(0.0), Le(20000.0)]:
    r"""Heat that people, lights and appliances give off indoors, mean of day and night.

    Parameters
    ----------
    occupants : float
        People, :math:`N`. [-] From 0 to 50.
    floor_area_m2 : float
        Heated floor area of the whole house, :math:`A`. [m2] From 1 to 10000.

    Returns
    -------
    float
        Internal gains, right to within 30 %. [W]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: G = (60 - 40) N + 35 + 7 N + \frac{1000}{8760} (207.8 + 0.75 \cdot 59.73) (A N)^{0.4714}

    People less what evaporates, cooking, appliances, and lights half of which are of the saving kind.

    References
    ----------
    .. [1] SAP 2012, Table 5 and Appendix L (from memory).

    Examples
    --------
    >>> round(internal_gains(3.0, 120.0))
    578
    """
    electric_kwh = (207.8 + 0.75 * 59.73) * (floor_area_m2 * occupants) ** 0.4714
    return float(20.0 * occupants + 35.0 + 7.0 * occupants + electric_kwh * 1000.0 / 8760.0)


@worked
def window_aperture(
    area_m2: Annotated[float, Unit("m2"), Ge(0.0), Le(2000.0)],
    sun_share: Annotated[float, Unit("-"), Ge(0.0), Le(1.0)],
    frame_share: Annotated[float, Unit("-"), Ge(0.0), Le(1.0)] = FRAME_SHARE,
    shading: Annotated[float, Unit("-"), Ge(0.0), Le(1.0)] = SHADING,
) -> Annotated[float, Unit("m2"), Ge(0.0), Le(2000.0)]:
    r"""Area that would let in as much sun as the window does, if it were an open hole.

    Parameters
    ----------
    area_m2 : float
        Window with its frame, :math:`A`. [m2] From 0 to 2000.
    sun_share : float
        Share of the sun that the glass lets through, :math:`g`. [-] From 0 to 1.
    frame_share : float
        Glass over the whole opening, :math:`F`. [-] From 0 to 1.
    shading : float
        What shading leaves, :math:`Z`. [-] From 0 to 1.

    Returns
    -------
    float
        Aperture. [m2]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: A_s = 0.9\,A\,g\,F\,Z

    References
    ----------
    .. [1] SAP 2012, section 6 and Tables 6b to 6d (from memory).

    Examples
    --------
    >>> round(window_aperture(10.0, 0.76), 2)
    3.69
    """
    return _SLANTING * area_m2 * sun_share * frame_share * shading


@worked
def solar_gain(
    aperture_m2: Annotated[float, Unit("m2"), Ge(0.0), Le(2000.0)],
    sun_on_wall_w_m2: Annotated[Floats, Unit("W/m2"), Ge(0.0), Le(3000.0)],
) -> Annotated[Floats, Unit("W"), Ge(0.0), Le(6e6)]:
    r"""Sun that comes in through the windows of one side.

    Parameters
    ----------
    aperture_m2 : float
        Aperture of the windows, :math:`A_s`. [m2] From 0 to 2000.
    sun_on_wall_w_m2 : Floats
        Sun on that side, :math:`I`. [W/m2] From 0 to 3000.

    Returns
    -------
    Floats
        Heat coming in. [W]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: G = A_s I

    References
    ----------
    .. [1] SAP 2012, section 6 (from memory).

    Examples
    --------
    >>> float(solar_gain(2.0, np.array([300.0]))[0])
    600.0
    """
    return aperture_m2 * np.asarray(sun_on_wall_w_m2, dtype=float)
