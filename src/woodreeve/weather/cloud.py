"""Sun on level ground under a sky of which only the cloud is known."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.workings import worked

__all__ = ["sun_under_cloud"]


@worked
def sun_under_cloud(
    height_sine: Annotated[Floats, Unit("-"), Ge(-1.0), Le(1.0)],
    cloud: Annotated[Floats, Unit("-"), Ge(0.0), Le(1.0)],
) -> Annotated[Floats, Unit("W/m2"), Ge(0.0), Le(1500.0)]:
    r"""Global sun on level ground, from the sun's height and the share of the sky that is clouded.

    Some forecasts tell cloud but no sun; windows to the south still need to know.

    Parameters
    ----------
    height_sine : Floats
        Sine of the sun's height over the horizon, :math:`s`. [-] From -1 to 1.
    cloud : Floats
        Share of the sky under cloud, :math:`N`. [-] From 0 to 1.

    Returns
    -------
    Floats
        Sun on level ground; none while the sun is down. [W/m2]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: G = (910 s - 30)(1 - 0.75 N^{3.4})

    The figures are those of one city in northern Germany; thin high cloud lets more through than told.

    References
    ----------
    .. [1] F. Kasten and G. Czeplak, "Solar and terrestrial radiation dependent on the amount and type of
       cloud", Solar Energy 24, 1980, pages 177 to 189 (from memory).

    Examples
    --------
    >>> sun_under_cloud(np.array([0.5, 0.5, -0.1]), np.array([0.0, 1.0, 0.0])).tolist()
    [425.0, 106.25, 0.0]
    """
    clear = np.maximum(0.0, 910.0 * np.asarray(height_sine, dtype=float) - 30.0)
    return np.asarray(clear * (1.0 - 0.75 * np.asarray(cloud, dtype=float) ** 3.4))
