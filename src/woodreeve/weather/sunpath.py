"""Where the sun stands and what falls on a wall: short equations, good enough for a house's gains.

:mod:`woodreeve.weather.sun` does the same through a solar library for the season's simulation; these
are for answers that must come at once, and the tests hold them against that library.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np

from woodreeve.units import Floats, Ge, Le, Unit
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

__all__ = [
    "BEARINGS",
    "SOLAR_CONSTANT",
    "Facing",
    "SunPath",
    "diffuse_share",
    "sun_on_facade",
    "sun_path",
    "sun_path_of",
]

SOLAR_CONSTANT = 1361.0
"""Sun outside the atmosphere, face on, at mean distance. [W/m2] (Kopp and Lean 2011, from memory)"""

GROUND_REFLECTION = 0.2
"""Share of the sun that grass and yard throw back. [-] (usual value, from memory)"""

EQUINOX_SHIFT = 0.5
"""How much earlier in the calendar the equinox falls now than when the series was fitted. [day] (Equinox of
March 2001 on day 78.6 of its year, of 1971 on day 79.3; mean of a leap cycle)"""

Facing = Literal["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest", "up"]
"""Which way a window looks; ``up`` is a roof window lying flat."""

BEARINGS: dict[str, float] = {
    "north": 0.0,
    "northeast": 45.0,
    "east": 90.0,
    "southeast": 135.0,
    "south": 180.0,
    "southwest": 225.0,
    "west": 270.0,
    "northwest": 315.0,
}
"""Compass bearing of each facing. [deg]"""

Latitude = Annotated[float, Unit("deg"), Ge(-90.0), Le(90.0)]
Longitude = Annotated[float, Unit("deg"), Ge(-180.0), Le(180.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class SunPath:
    """Where the sun stands in the middle of each hour.

    Parameters
    ----------
    height_sine : array
        Sine of its height over the horizon; negative at night. [-]
    bearing_rad : array
        Compass bearing from north over east. [rad]
    outside_w_m2 : array
        Sun on level ground if there were no air. [W/m2]
    hour_angle_rad : array
        How far the sun has turned past noon. [rad]
    declination_rad : array
        Sun's height over the equator. [rad]
    """

    height_sine: Floats
    bearing_rad: Floats
    outside_w_m2: Floats
    hour_angle_rad: Floats
    declination_rad: Floats


@worked
def sun_path(
    day_of_year: Annotated[Floats, Unit("day"), Ge(1.0), Le(366.0)],
    standard_hour: Annotated[Floats, Unit("h"), Ge(0.0), Le(24.0)],
    latitude_deg: Latitude,
    longitude_deg: Longitude,
    utc_offset_h: Annotated[float, Unit("h"), Ge(-12.0), Le(14.0)] = 0.0,
) -> SunPath:
    r"""Where the sun stands at given moments.

    Parameters
    ----------
    day_of_year : Floats
        Number of the day in the year, :math:`n`. [day] From 1 to 366.
    standard_hour : Floats
        Local standard time, no summer time. [h] From 0 to 24.
    latitude_deg : Latitude
        Latitude, north positive, :math:`\varphi`. [deg] From -90 to 90.
    longitude_deg : Longitude
        Longitude, east positive. [deg] From -180 to 180.
    utc_offset_h : float
        Local standard time less UTC. [h] From -12 to 14.

    Returns
    -------
    SunPath
        Sine of height, bearing, and sun outside the atmosphere.

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    With :math:`B = 2\pi (n - 1/2 + h/24)/365` the declination is

    .. math::

        \delta = 0.006918 - 0.399912 \cos B + 0.070257 \sin B - 0.006758 \cos 2B
        + 0.000907 \sin 2B - 0.002697 \cos 3B + 0.00148 \sin 3B

    and the equation of time, in minutes,

    .. math::

        E = 229.18\,(0.000075 + 0.001868 \cos B - 0.032077 \sin B - 0.014615 \cos 2B - 0.04089 \sin 2B)

    .. math:: \sin \alpha = \sin\varphi \sin\delta + \cos\varphi \cos\delta \cos\omega

    :math:`\omega` being the hour angle. Refraction is left out (half a degree at sunrise). The half
    day in :math:`B` is ours: the equinox of these years falls so much earlier in the calendar than in 1971.

    References
    ----------
    .. [1] J. W. Spencer, "Fourier series representation of the position of the sun", Search 2(5),
       1971 (coefficients from memory; checked in the tests against the solar library pvlib).

    Examples
    --------
    >>> noon = sun_path(np.array([172.0]), np.array([12.0]), 51.5, 0.0)
    >>> round(float(np.degrees(np.arcsin(noon.height_sine[0]))))
    62
    """
    hour = np.asarray(standard_hour, dtype=float)
    days = np.asarray(day_of_year, dtype=float) - 1.0 + hour / 24.0
    turn = 2.0 * np.pi * (days + EQUINOX_SHIFT) / 365.0
    c1, s1 = np.cos(turn), np.sin(turn)
    c2, s2 = c1 * c1 - s1 * s1, 2.0 * s1 * c1
    c3, s3 = c2 * c1 - s2 * s1, s2 * c1 + c2 * s1
    declination = (
        0.006918
        - 0.399912 * c1
        + 0.070257 * s1
        - 0.006758 * c2
        + 0.000907 * s2
        - 0.002697 * c3
        + 0.00148 * s3
    )
    minutes = 229.18 * (0.000075 + 0.001868 * c1 - 0.032077 * s1 - 0.014615 * c2 - 0.04089 * s2)
    distance = 1.000110 + 0.034221 * c1 + 0.001280 * s1 + 0.000719 * c2 + 0.000077 * s2
    solar_hour = hour - utc_offset_h + longitude_deg / 15.0 + minutes / 60.0
    angle = np.radians(15.0 * (solar_hour - 12.0))
    latitude = np.radians(latitude_deg)
    sin_d, cos_d = np.sin(declination), np.cos(declination)
    height = np.sin(latitude) * sin_d + np.cos(latitude) * cos_d * np.cos(angle)
    eastward = -cos_d * np.sin(angle)
    northward = np.cos(latitude) * sin_d - np.sin(latitude) * cos_d * np.cos(angle)
    return SunPath(
        height_sine=height,
        bearing_rad=np.arctan2(eastward, northward) % (2.0 * np.pi),
        outside_w_m2=SOLAR_CONSTANT * distance * np.maximum(0.0, height),
        hour_angle_rad=(angle + np.pi) % (2.0 * np.pi) - np.pi,
        declination_rad=declination,
    )


def sun_path_of(hourly: Hourly) -> SunPath:
    """Where the sun stands in the middle of each hour of a weather series.

    Raises
    ------
    Unknown
        If the weather does not say where it is.
    """
    latitude, longitude = hourly.place()
    return sun_path(
        hourly.day_of_year().astype(float),
        hourly.hour_of_day() + 0.5,
        latitude,
        longitude,
        hourly.utc_offset_h,
    )


@worked
def diffuse_share(
    clearness: Annotated[Floats, Unit("-"), Ge(0.0), Le(2.0)],
) -> Annotated[Floats, Unit("-"), Ge(0.0), Le(1.0)]:
    r"""How much of the sun comes from the whole sky and not from the disc.

    Parameters
    ----------
    clearness : Floats
        Sun on level ground over the sun outside the atmosphere, :math:`k`. [-] From 0 to 2.

    Returns
    -------
    Floats
        Diffuse share of the sun on level ground, :math:`f`. [-]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math::

        f = \begin{cases}
        1 - 0.09\,k & k \le 0.22 \\
        0.9511 - 0.1604\,k + 4.388\,k^2 - 16.638\,k^3 + 12.336\,k^4 & k \le 0.80 \\
        0.165 & \text{else}
        \end{cases}

    References
    ----------
    .. [1] D. G. Erbs, S. A. Klein, J. A. Duffie, "Estimation of the diffuse radiation fraction for
       hourly, daily and monthly-average global radiation", Solar Energy 28(4), 1982 (from memory;
       checked in the tests against the solar library pvlib).

    Examples
    --------
    >>> float(diffuse_share(np.array([0.2]))[0])
    0.982
    """
    k = np.asarray(clearness, dtype=float)
    middle = 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    return np.where(k <= 0.22, 1.0 - 0.09 * k, np.where(k <= 0.80, middle, 0.165))


def _facade(path: SunPath, level: Floats, diffuse: Floats, facing: Facing) -> Floats:
    if facing == "up":
        return level
    beam_level = np.maximum(0.0, level - diffuse)
    height_cosine = np.sqrt(np.maximum(0.0, 1.0 - path.height_sine**2))
    towards = height_cosine * np.cos(path.bearing_rad - np.radians(BEARINGS[facing]))
    ratio = np.minimum(8.0, np.maximum(0.0, towards) / np.maximum(path.height_sine, 0.02))
    wall = np.where(path.height_sine > 0.0, beam_level * ratio, 0.0)
    return wall + 0.5 * diffuse + 0.5 * GROUND_REFLECTION * level


@worked
def sun_on_facade(
    path: SunPath,
    sun_w_m2: Annotated[Floats, Unit("W/m2"), Ge(0.0), Le(1500.0)],
    diffuse_w_m2: Annotated[Floats | None, Unit("W/m2"), Ge(0.0), Le(1000.0)],
    facing: Facing,
) -> Annotated[Floats, Unit("W/m2"), Ge(0.0), Le(3000.0)]:
    r"""Sun that falls on an upright wall or window.

    Parameters
    ----------
    path : SunPath
        Where the sun stands in each hour.
    sun_w_m2 : Floats
        Global sun on level ground, :math:`G`. [W/m2] From 0 to 1500.
    diffuse_w_m2 : Floats or None
        Its diffuse part, :math:`D`; where unknown it is estimated from the clearness of the
        hour. [W/m2] From 0 to 1000.
    facing : str
        Which way the wall looks.

    Returns
    -------
    Floats
        Sun on the wall. [W/m2]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.
    UnknownName
        If the facing is none of the eight winds or ``up``.

    Notes
    -----
    .. math:: I = (G - D) \frac{\max(0, \cos\theta)}{\sin\alpha} + \frac{D}{2} + \frac{0.2\,G}{2}

    A uniformly bright sky; ground that throws back a fifth; the ratio capped at 8 when the sun is
    low, because level measurements near the horizon mean little.

    References
    ----------
    .. [1] B. Y. H. Liu and R. C. Jordan, isotropic sky model, 1963 (from memory; checked in the tests
       against the solar library pvlib).

    Examples
    --------
    >>> noon = sun_path(np.array([80.0]), np.array([12.0]), 52.0, 0.0)
    >>> float(sun_on_facade(noon, np.array([500.0]), np.array([100.0]), "north")[0])
    100.0
    """
    level = np.asarray(sun_w_m2, dtype=float)
    if diffuse_w_m2 is None:
        outside = np.maximum(path.outside_w_m2, 1.0)
        diffuse = level * diffuse_share(np.minimum(2.0, level / outside))
    else:
        diffuse = np.minimum(level, np.asarray(diffuse_w_m2, dtype=float))
    return _facade(path, level, diffuse, facing)
