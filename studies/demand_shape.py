"""How the house model spreads a year's heat over months and days, beside a profile fitted to metered gas.

    python -m studies.demand_shape        about ten seconds

The second opinion is the German standard load profile of single houses (BDEW, VKU, GEODE; see
``woodreeve.house.standard_profile``), which knows no house, only temperatures, and includes hot water. Both
run on fifteen German test reference years. Two houses: the large farmhouse of the common-practice check
(tests/house/large_farmhouse.py) as it is, and the same with every area shrunk alike, three people in it,
until it takes 20,000 kWh a year in that place, which is what the profile's houses are like. Nothing else is
scaled, nothing is tuned; only shapes are compared. The limits (months and the thirty largest days within
1.5 points, the largest day within 12 %) were set for the second house before the first run. The figures go
to measured/demand_shape.json.
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
from woodreeve.house.describe import House
from woodreeve.house.standard_profile import profile_day_factor, profile_temperature
from woodreeve.units import Floats
from woodreeve.weather.series import Hourly

REGIONS = range(1, 16)
MONTH_LIMIT_POINTS = 1.5
TOP_LIMIT_POINTS = 1.5
LARGEST_LIMIT_PERCENT = 12.0
SHRUNK_KWH = 20_000.0
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


def shrunk(factor: float) -> House:
    """The farmhouse with every area times a factor, and three people in it."""
    zones = tuple(
        replace(
            zone,
            floor_area_m2=(zone.floor_area_m2 or 0.0) * factor,
            elements=tuple(replace(part, area_m2=part.area_m2 * factor) for part in zone.elements),
        )
        for zone in HOUSE.zones
    )
    return replace(HOUSE, zones=zones, occupants=3.0)


def house_of(year_kwh: float, year: Hourly) -> House:
    """The farmhouse shrunk until it takes so much heat in this weather."""
    factor = brentq(lambda part: demand(shrunk(part), year).year_kwh - year_kwh, 0.05, 1.0, xtol=1e-4)
    return shrunk(float(factor))


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
            "farmhouse": [beside_profile(HOUSE, year) for year in years],
            "shrunk": [beside_profile(house_of(SHRUNK_KWH, year), year) for year in years],
        },
    }
    print(write("demand_shape", figures, CODE))


if __name__ == "__main__":
    main()
