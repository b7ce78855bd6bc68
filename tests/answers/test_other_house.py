"""The main job on real input: a house that is not the demo's, on a real test reference year, from a command.

The weather is a test reference year of the Deutscher Wetterdienst as it lies in the package demandlib; the
house is a brick house in the Ruhr, fixed before its first run (see ``brick_house.toml``).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from tests.cli.running import run
from tests.published.sheets import rows
from tests.published.weather_files import reference_year
from woodreeve.records.weather_files import read_weather
from woodreeve.weather.degree_days import degree_days_hourly

HOUSE = Path(__file__).parent / "brick_house.toml"


def with_weather_file(region: int, use: Callable[[Path], Any]) -> Any:
    """Do something with the file of a region where it lies."""
    found = files("demandlib") / "vdi" / "resources_weather" / f"TRY2010_{region:02d}_Jahr.dat"
    with as_file(found) as path:
        return use(path)


@cache
def winter() -> dict[str, Any]:
    """What ``woodreeve winter`` answers, in JSON."""

    def asked(path: Path) -> Any:
        words = ("--from", str(HOUSE), "--weather", str(path), "--at", "2026-01-13T17:00", "--json")
        return run("winter", *words).json()

    answer: dict[str, Any] = with_weather_file(5, asked)
    return answer


@cache
def printed(row: str) -> tuple[float, ...]:
    """The figures of a row of the sheet."""
    text = next(one.printed for one in rows() if one.id == row)
    return tuple(float(part) for part in text.split())


def calendar(field: str) -> np.ndarray:
    """A figure of every month, January first."""
    months = sorted(winter()["months"], key=lambda month: str(month["month"][5:7]))
    return np.array([month[field]["value"] for month in months])


def shares() -> np.ndarray:
    """Each month's share of the year's heat of rooms and hot water, in per cent."""
    heat = calendar("space_heat_kwh") + calendar("hot_water_kwh")
    return heat / heat.sum() * 100.0


def test_the_file_is_told_by_its_content_and_read_whole() -> None:
    """Its degree days are those of the sheet, rows WX-T05-mean, HDDh15.5 and HDDh18."""
    read = with_weather_file(5, read_weather)
    assert np.array_equal(read.temperature_c, reference_year(5).temperature_c)
    assert read.temperature_c.mean() == pytest.approx(printed("WX-T05-mean")[0], abs=0.01)
    for base, row in ((15.5, "WX-T05-HDDh15.5"), (18.0, "WX-T05-HDDh18")):
        assert degree_days_hourly(read.temperature_c, base) == pytest.approx(printed(row)[0], abs=1.0)


def test_it_gives_wood_for_every_month_and_the_year() -> None:
    """Kilowatt hours, tonnes and stacked cubic metres, with ranges."""
    answer = winter()
    assert "Deutscher Wetterdienst" in answer["weather"]
    assert len(answer["months"]) == 12
    for field in ("heat_kwh", "wood_t", "wood_stacked_m3"):
        assert (calendar(field) > 0.0).all()
        year = answer["next"][field]
        assert calendar(field).sum() == pytest.approx(year["value"], rel=1e-9)
        assert year["low"] < year["value"] < year["high"]


def test_a_tonne_of_this_wood_gives_what_common_practice_says() -> None:
    """3.1 to 3.4 MWh useful, at 20 % moisture and 80 %: common practice, no published source."""
    year = winter()["next"]
    assert winter()["burnt_moisture"]["value"] == pytest.approx(0.20)
    assert 3_100.0 < year["heat_kwh"]["value"] / year["wood_t"]["value"] < 3_400.0


def test_such_a_house_takes_what_common_practice_says() -> None:
    """150 m2 of 1950s brick with old double glazing take 150 to 250 kWh/m2 (common practice, no source)."""
    heat = (calendar("space_heat_kwh") + calendar("hot_water_kwh")).sum()
    assert 150.0 < heat / 150.0 < 250.0


def test_cold_months_take_more_in_the_order_of_their_degree_days() -> None:
    """But for the sun, which orders months that are nearly alike: rank correlation above 0.97."""
    from scipy.stats import spearmanr

    hours = reference_year(5)
    numbers = hours.month_numbers()
    base = winter()["base_temperature_c"]["value"]
    cold = [degree_days_hourly(hours.temperature_c[numbers == month], base) for month in range(1, 13)]
    assert spearmanr(cold, calendar("space_heat_kwh")).statistic > 0.97


def test_the_shape_of_the_year_is_that_of_metered_gas() -> None:
    """Row BDEW-T05-M, the standard load profile run by demandlib: the months correlate above 0.99."""
    assert np.corrcoef(shares(), printed("BDEW-T05-M"))[0, 1] > 0.99


@pytest.mark.xfail(
    reason="this house misses the sheet's 1.5 points by up to 0.2 in December, July and August: the "
    "profile's houses heat more lazily and keep heating in summer (see tests/house/test_shape.py)"
)
def test_each_month_is_within_the_sheets_tolerance_of_metered_gas() -> None:
    """Row BDEW-T05-M: 1.5 points a month."""
    assert np.abs(shares() - printed("BDEW-T05-M")).max() < 1.5


def test_how_far_the_months_are_off_is_known() -> None:
    """The largest miss is 1.7 points; it is pinned, so that a change shows."""
    assert np.abs(shares() - printed("BDEW-T05-M")).max() == pytest.approx(1.67, abs=0.05)


def test_a_colder_place_takes_more() -> None:
    """Bad Marienberg against Essen, as their degree days: rows WX-T06-HDDh15.5 and WX-T05-HDDh15.5."""

    def asked(path: Path) -> Any:
        return run(
            "winter", "--from", str(HOUSE), "--weather", str(path), "--at", "2026-01-13", "--json"
        ).json()

    hills = with_weather_file(6, asked)
    rooms = sum(month["space_heat_kwh"]["value"] for month in hills["months"])
    colder = printed("WX-T06-HDDh15.5")[0] / printed("WX-T05-HDDh15.5")[0]
    assert rooms / calendar("space_heat_kwh").sum() == pytest.approx(colder, rel=0.1)
