"""How the house model spreads a year's heat over months and days, beside a profile fitted to metered gas.

    python -m studies.demand_shape        about ten seconds

The second opinion is the German standard load profile of single houses (BDEW, VKU, GEODE; see
``woodreeve.house.standard_profile``), which knows no house, only temperatures, and includes hot water. Both
run on fifteen German test reference years. Three houses. ``plain`` is one of which only this is said: three
people, 20 °C throughout; its floor area is chosen so that it takes 20,000 kWh a year in each place, as the
profile's houses do. ``farmhouse`` is that of the common-practice check (tests/house/large_farmhouse.py) as
it is, with its night set-back and its windows. ``farmhouse_bare`` is the same without set-back and without
sun, to see what these two do. Nothing is tuned; only shapes are compared. The limits (months and the thirty
largest days within 1.5 points, the largest day within 12 %) were set for the first house before its first
run. The figures go to measured/demand_shape.json.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from scipy.optimize import brentq

from studies.stamp import write
from tests.house.large_farmhouse import HOUSE
from tests.published.weather_files import reference_year
from woodreeve.house.demand import demand
from woodreeve.house.describe import House, Zone
from woodreeve.house.standard_profile import profile_day_factor, profile_temperature
from woodreeve.units import Floats
from woodreeve.weather.series import Hourly

REGIONS = range(1, 16)
MONTH_LIMIT_POINTS = 1.5
TOP_LIMIT_POINTS = 1.5
LARGEST_LIMIT_PERCENT = 12.0
PLAIN_KWH = 20_000.0
CODE = (
    "studies/demand_shape.py",
    "tests/house/large_farmhouse.py",
    "src/woodreeve/house/*.py",
    "src/woodreeve/house/data/*.csv",
    "src/woodreeve/weather/series.py",
    "src/woodreeve/weather/sunpath.py",
)


def profile_days(means: Floats) -> Floats:
    """Day factors of the profile; the first days look back into the year's end."""
    before = [np.roll(means, shift) for shift in range(4)]
    felt = [profile_temperature(np.array(days)) for days in zip(*before, strict=True)]
    return np.array([profile_day_factor(one) for one in felt])


def shape(days: Floats, months: Floats) -> dict[str, Any]:
    """Shares of months, of the thirty largest days, and the largest day over the mean day."""
    share = days / days.sum()
    by_month = np.bincount(months, weights=share, minlength=13)[1:]
    return {
        "months_percent": [round(100 * float(one), 2) for one in by_month],
        "top_30_percent": round(100 * float(np.sort(share)[-30:].sum()), 2),
        "largest_day": round(float(days.max() / days.mean()), 3),
    }


def plain(area_m2: float) -> House:
    """Two storeys of an old house of which nothing else is known."""
    storeys = ("downstairs", "upstairs")
    zones = tuple(Zone(name=name, floor_area_m2=area_m2 / 2, wanted_c=20.0) for name in storeys)
    return House(zones=zones, occupants=3.0)


def plain_of(year_kwh: float, year: Hourly) -> House:
    """The plain house of the size that takes so much heat in this weather."""
    return plain(float(brentq(lambda area: demand(plain(area), year).year_kwh - year_kwh, 12.0, 300.0)))


def without_setback(house: House) -> House:
    """The same, as warm by night as by day."""
    return replace(house, zones=tuple(replace(zone, setback_c=None) for zone in house.zones))


def without_sun(year: Hourly) -> Hourly:
    """The same weather under a black sky."""
    return replace(year, sun_w_m2=None, diffuse_w_m2=None)


def beside_profile(house: House, year: Hourly) -> dict[str, Any]:
    """One house in one place: its shape, that of the profile, and how far they are apart."""
    found = demand(house, year)
    days = found.hourly_kw.reshape(-1, 24).sum(axis=1)
    months = year.day_months()
    ours, profile = shape(days, months), shape(profile_days(year.day_means()), months)
    apart = np.subtract(ours["months_percent"], profile["months_percent"])
    top = round(ours["top_30_percent"] - profile["top_30_percent"], 2)
    largest = round(100 * (ours["largest_day"] / profile["largest_day"] - 1), 1)
    worst = float(np.abs(apart).max())
    return {
        "place": year.source.split(";")[0],
        "year_kwh": round(found.year_kwh),
        "hot_water_percent": round(100 * found.hot_water_year_kwh / found.year_kwh, 1),
        "house": ours,
        "profile": profile,
        "month_worst_points": round(float(apart[np.abs(apart).argmax()]), 2),
        "worst_month": int(np.abs(apart).argmax()) + 1,
        "top_30_points": top,
        "largest_day_percent": largest,
        "within": {
            "months": worst <= MONTH_LIMIT_POINTS,
            "top_30": abs(top) <= TOP_LIMIT_POINTS,
            "largest_day": abs(largest) <= LARGEST_LIMIT_PERCENT,
        },
    }


def main() -> None:
    """Measure and write down."""
    years = [reference_year(region) for region in REGIONS]
    figures = {
        "what": "shape of the house model's year beside the standard load profile",
        "data": "German test reference years 2010, Deutscher Wetterdienst, inside the package demandlib",
        "limits": {
            "months": MONTH_LIMIT_POINTS,
            "top_30": TOP_LIMIT_POINTS,
            "largest_day": LARGEST_LIMIT_PERCENT,
        },
        "houses": {
            "plain": [beside_profile(plain_of(PLAIN_KWH, year), year) for year in years],
            "farmhouse": [beside_profile(HOUSE, year) for year in years],
            "farmhouse_bare": [beside_profile(without_setback(HOUSE), without_sun(year)) for year in years],
        },
    }
    print(write("demand_shape", figures, CODE))


if __name__ == "__main__":
    main()
