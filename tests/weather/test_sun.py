"""The sun: our short equations against the solar library, and the library's own way for walls."""

import numpy as np
import pytest

from tests.weather.weather_texts import essen
from woodreeve.errors import Unknown
from woodreeve.weather.series import Hourly, start_of_year
from woodreeve.weather.sun import sun_on_surface, sun_position
from woodreeve.weather.sunpath import (
    BEARINGS,
    SOLAR_CONSTANT,
    Facing,
    diffuse_share,
    sun_on_facade,
    sun_path_of,
)


def refraction_deg(seen_height_deg: np.ndarray) -> np.ndarray:
    """How much the air lifts the sun, Bennett's formula."""
    height = np.maximum(seen_height_deg, 0.0)
    return 1.0 / np.tan(np.radians(height + 7.31 / (height + 4.4))) / 60.0


def test_the_sun_stands_where_the_library_has_it() -> None:
    """Height, refraction apart, within 0.3 degrees and bearing within 0.5, whenever it is well up."""
    year = essen()
    ours, library = sun_path_of(year), sun_position(year)
    height = np.degrees(np.arcsin(ours.height_sine))
    up = height > 5.0
    true = 90.0 - library.zenith_deg - refraction_deg(90.0 - library.zenith_deg)
    assert np.abs(height - true)[up].max() < 0.3
    turned = (np.degrees(ours.bearing_rad) - library.azimuth_deg + 180.0) % 360.0 - 180.0
    assert np.abs(turned)[up].max() < 0.5


def test_the_sun_outside_the_air_is_that_of_the_library() -> None:
    """Sums of days within 1 %, refraction apart; the library's solar constant is 1366.1 W/m2."""
    year = essen()
    ours, library = sun_path_of(year), sun_position(year)
    seen = 90.0 - library.zenith_deg
    height = np.maximum(0.0, np.sin(np.radians(seen - refraction_deg(seen))))
    level = library.outside_w_m2 * height * SOLAR_CONSTANT / 1366.1
    mine, theirs = (values.reshape(-1, 24).sum(axis=1) for values in (ours.outside_w_m2, level))
    off = np.abs(mine / theirs - 1.0)
    assert off.max() < 0.01


def test_the_diffuse_share_is_that_of_the_library() -> None:
    """The library's own Erbs model over all clearnesses."""
    from pvlib.irradiance import erbs

    clearness = np.linspace(0.02, 0.95, 60)
    outside = 1361.0 * np.cos(np.radians(40.0))
    split = erbs(clearness * outside, 40.0, 100, min_cos_zenith=0.065, max_zenith=87)
    kt = np.asarray(split["kt"])
    assert diffuse_share(kt) == pytest.approx(np.asarray(split["dhi"]) / (clearness * outside), abs=0.002)


@pytest.mark.parametrize("facing", list(BEARINGS))
def test_the_sun_on_a_wall_is_near_that_of_the_library(facing: Facing) -> None:
    """Month sums within 6 % or 2 kWh/m2 of the isotropic sky of the library, every facing."""
    year = essen()
    ours = sun_on_facade(sun_path_of(year), year.field("sun_w_m2"), year.field("diffuse_w_m2"), facing)
    library = sun_on_surface(year, sun_position(year), 90.0, BEARINGS[facing], model="isotropic")
    months = year.month_numbers()
    mine, theirs = (np.bincount(months, weights=values)[1:] / 1000.0 for values in (ours, library))
    assert (np.abs(mine - theirs) <= np.maximum(0.06 * theirs, 2.0)).all()


def test_a_bright_ring_round_the_sun_favours_the_south() -> None:
    """Hay and Davies give a south wall more than an even sky does, and a north wall less."""
    year = essen()
    position = sun_position(year)
    sums = {
        (side, model): sun_on_surface(year, position, 90.0, bearing, model=model).sum()  # type: ignore[arg-type]  # from a list
        for side, bearing in (("south", 180.0), ("north", 0.0))
        for model in ("isotropic", "haydavies")
    }
    assert sums["south", "haydavies"] > sums["south", "isotropic"]
    assert sums["north", "haydavies"] < sums["north", "isotropic"]


def test_a_level_surface_gets_the_level_sun() -> None:
    """Tilt 0 gives back what was measured."""
    year = essen()
    level = sun_on_surface(year, sun_position(year), 0.0, 180.0, model="isotropic")
    assert level.sum() == pytest.approx(year.field("sun_w_m2").sum(), rel=0.01)


def test_without_a_diffuse_series_it_is_estimated() -> None:
    """A south wall then gets within 15 % of what it gets with the measured one, over the year."""
    year = essen()
    bare = Hourly(
        start=year.start,
        temperature_c=year.temperature_c,
        sun_w_m2=year.sun_w_m2,
        latitude_deg=year.latitude_deg,
        longitude_deg=year.longitude_deg,
        utc_offset_h=year.utc_offset_h,
    )
    known = sun_on_facade(sun_path_of(year), year.field("sun_w_m2"), year.diffuse_w_m2, "south").sum()
    assert sun_on_facade(sun_path_of(bare), bare.field("sun_w_m2"), None, "south").sum() == pytest.approx(
        known, rel=0.15
    )
    assert sun_on_surface(bare, sun_position(bare)).sum() == pytest.approx(
        sun_on_surface(year, sun_position(year)).sum(), rel=0.15
    )


def test_weather_without_a_place_has_no_sun_path() -> None:
    """Said in one sentence, by both ways."""
    nowhere = Hourly(start=start_of_year(2001, 0.0), temperature_c=np.zeros(24))
    for way in (sun_path_of, sun_position):
        with pytest.raises(Unknown, match="where it is"):
            way(nowhere)
