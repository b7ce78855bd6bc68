"""The sun through the solar library pvlib: its place in the sky, and what falls on any surface.

For the season's simulation, where half a second of loading does not matter.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any, Literal

import numpy as np

from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["SunPosition", "sun_on_surface", "sun_position"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SunPosition:
    """Where the sun stands in the middle of each hour.

    Parameters
    ----------
    zenith_deg : array
        Angle from straight up, with refraction. [deg]
    azimuth_deg : array
        Compass bearing from north over east. [deg]
    outside_w_m2 : array
        Sun outside the atmosphere, face on. [W/m2]
    """

    zenith_deg: Floats
    azimuth_deg: Floats
    outside_w_m2: Floats


def _moments(hourly: Hourly) -> pd.DatetimeIndex:
    import pandas as pd

    return pd.date_range(hourly.start, periods=hourly.hours, freq="h") + pd.Timedelta(minutes=30)


@worked
def sun_position(hourly: Hourly) -> SunPosition:
    r"""Where the sun stands in the middle of each hour, by the solar position algorithm.

    Parameters
    ----------
    hourly : Hourly
        Weather that knows its latitude and longitude.

    Returns
    -------
    SunPosition
        Zenith and azimuth.

    Raises
    ------
    Unknown
        If the weather does not say where it is.

    Notes
    -----
    .. math:: (\theta_z, \gamma) = \text{SPA}(t + 30\,\text{min}, \varphi, \lambda)

    References
    ----------
    .. [1] I. Reda and A. Andreas, "Solar position algorithm for solar radiation applications",
       Solar Energy 76(5), 2004, as implemented in pvlib.
    """
    latitude, longitude = hourly.place()
    from pvlib import irradiance, solarposition

    moments = _moments(hourly)
    found: Any = solarposition.get_solarposition(
        moments, latitude, longitude, altitude=hourly.elevation_m or 0.0
    )
    return SunPosition(
        zenith_deg=found["apparent_zenith"].to_numpy(dtype=float),
        azimuth_deg=found["azimuth"].to_numpy(dtype=float),
        outside_w_m2=np.asarray(irradiance.get_extra_radiation(moments.day_of_year.to_numpy()), dtype=float),
    )


@worked
def sun_on_surface(
    hourly: Hourly,
    position: SunPosition,
    tilt_deg: Annotated[float, Unit("deg"), Ge(0.0), Le(180.0)] = 90.0,
    bearing_deg: Annotated[float, Unit("deg"), Ge(0.0), Le(360.0)] = 180.0,
    *,
    model: Literal["isotropic", "haydavies"] = "haydavies",
    ground_reflection: Annotated[float, Unit("-"), Ge(0.0), Le(1.0)] = 0.2,
) -> Annotated[Floats, Unit("W/m2"), Ge(0.0), Le(3000.0)]:
    r"""Sun that falls on a surface of any tilt and bearing.

    Parameters
    ----------
    hourly : Hourly
        Weather with sun on level ground.
    position : SunPosition
        From :func:`sun_position` on the same weather.
    tilt_deg : float
        Angle from level; 90 is a wall. [deg] From 0 to 180.
    bearing_deg : float
        Compass bearing the surface looks to; 180 is south. [deg] From 0 to 360.
    model : {"isotropic", "haydavies"}
        Sky: evenly bright, or with a bright ring round the sun.
    ground_reflection : float
        Share of the sun that the ground throws back. [-] From 0 to 1.

    Returns
    -------
    Floats
        Sun on the surface. [W/m2]

    Raises
    ------
    Unknown
        If the weather has no sun.
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: I = I_{beam} \cos\theta + I_{sky} + \rho\,G\,(1 - \cos\beta)/2

    Where the weather gives no diffuse part it is estimated by Erbs. Hours with the sun less than
    three degrees over the horizon count as diffuse.

    References
    ----------
    .. [1] J. E. Hay and J. A. Davies, "Calculation of the solar radiation incident on an inclined
       surface", 1980, as implemented in pvlib.
    """
    from pvlib import irradiance

    level = hourly.field("sun_w_m2")
    zenith = position.zenith_deg
    cosine = np.cos(np.radians(zenith))
    if hourly.diffuse_w_m2 is not None:
        diffuse = np.minimum(level, hourly.diffuse_w_m2)
    else:
        split: Any = irradiance.erbs(level, zenith, position.outside_w_m2)
        diffuse = np.minimum(level, np.asarray(split["dhi"], dtype=float))
    high = zenith < 87.0
    beam = np.where(high, (level - diffuse) / np.where(high, cosine, 1.0), 0.0)
    beam = np.minimum(beam, position.outside_w_m2)
    diffuse = np.where(high, diffuse, level)
    total: Any = irradiance.get_total_irradiance(
        tilt_deg,
        bearing_deg,
        zenith,
        position.azimuth_deg,
        beam,
        level,
        diffuse,
        dni_extra=position.outside_w_m2,
        albedo=ground_reflection,
        model=model,
    )
    on_surface = np.nan_to_num(np.asarray(total["poa_global"], dtype=float))
    return np.asarray(np.maximum(0.0, on_surface), dtype=float)
