"""How near a year made from monthly means comes to the real year behind the means.

    python -m studies.typical_year        about a minute

For each of fifteen German test reference years (Deutscher Wetterdienst, inside the package demandlib) the
monthly means are read off, fifty years are made from them and held against the real one. Once as the
owner of good station data would (means, daily swing, spread of days, persistence), and once as most owners
would: twelve mean temperatures and nothing else. Seeds are 0 to 49. The figures go to
measured/typical_year.json.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from studies.stamp import write
from tests.published.weather_files import reference_year
from woodreeve.weather.climate import coldest_spell, daily_swing
from woodreeve.weather.degree_days import degree_days_hourly
from woodreeve.weather.series import Hourly
from woodreeve.weather.typical import Normals, normals_of, typical_year

REGIONS = range(1, 16)
SEEDS = range(50)
CODE = (
    "studies/typical_year.py",
    "src/woodreeve/weather/typical.py",
    "src/woodreeve/weather/normals.py",
    "src/woodreeve/weather/synthesis.py",
    "src/woodreeve/weather/series.py",
    "src/woodreeve/weather/climate.py",
    "src/woodreeve/weather/degree_days.py",
)


def full_normals(year: Hourly) -> Normals:
    """Means, swing, spread and persistence: all that a station can tell of temperature."""
    whole = normals_of(year)
    return Normals(
        temperature_c=whole.temperature_c,
        swing_k=whole.swing_k,
        day_noise_sd_k=whole.day_noise_sd_k,
        persistence=whole.persistence,
    )


def bare_normals(year: Hourly) -> Normals:
    """Twelve mean temperatures."""
    return Normals(temperature_c=normals_of(year).temperature_c)


def month_degree_days(year: Hourly, base: float) -> np.ndarray[Any, np.dtype[np.float64]]:
    """Degree days of each month, hour by hour."""
    below = np.maximum(0.0, base - year.temperature_c)
    return np.bincount(year.month_numbers(), weights=below)[1:] / 24.0


def of_region(region: int, normals: Callable[[Hourly], Normals]) -> dict[str, Any]:
    """One place: the real year's figures and those of fifty made years."""
    real = reference_year(region)
    made = [typical_year(normals(real), seed=seed) for seed in SEEDS]
    row: dict[str, Any] = {"region": region, "place": real.source.split(";")[0]}
    for base in (15.5, 18.0):
        true = degree_days_hourly(real.temperature_c, base)
        off = np.array([degree_days_hourly(year.temperature_c, base) / true - 1.0 for year in made])
        row[f"degree_days_{base:g}"] = round(true)
        row[f"degree_days_{base:g}_off_percent"] = round(100 * float(off.mean()), 2)
        row[f"degree_days_{base:g}_worst_percent"] = round(100 * float(np.abs(off).max()), 2)
    true_months = month_degree_days(real, 15.5)
    months = np.mean([month_degree_days(year, 15.5) for year in made], axis=0)
    row["month_worst_kd"] = round(float(np.abs(months - true_months).max()), 1)
    row["swing_off_percent"] = round(
        100
        * (np.mean([daily_swing(year.temperature_c) for year in made]) / daily_swing(real.temperature_c) - 1),
        1,
    )
    for days in (1, 3, 7):
        true = coldest_spell(real.temperature_c, float(days))
        spells = [coldest_spell(year.temperature_c, float(days)) for year in made]
        row[f"coldest_{days}_c"] = round(true, 1)
        row[f"coldest_{days}_off_k"] = round(float(np.median(spells)) - true, 1)
    return row


def summary(rows: Sequence[dict[str, Any]]) -> dict[str, float]:
    """All places together: mean size of what is off, and the worst."""
    told = {}
    for key in (
        "degree_days_15.5_off_percent",
        "degree_days_18_off_percent",
        "month_worst_kd",
        "swing_off_percent",
        "coldest_1_off_k",
        "coldest_3_off_k",
        "coldest_7_off_k",
    ):
        values = np.array([row[key] for row in rows])
        told[f"{key}_bias"] = round(float(values.mean()), 2)
        told[f"{key}_mean"] = round(float(np.abs(values).mean()), 2)
        told[f"{key}_worst"] = round(float(values[np.abs(values).argmax()]), 2)
    return told


def main() -> None:
    """Measure and write down."""
    ways = {"station": full_normals, "twelve_means": bare_normals}
    rows = {name: [of_region(region, normals) for region in REGIONS] for name, normals in ways.items()}
    figures = {
        "what": f"{len(SEEDS)} made years for each of {len(REGIONS)} real ones",
        "data": "German test reference years 2010, Deutscher Wetterdienst, inside the package demandlib",
        "seeds": [SEEDS.start, SEEDS.stop - 1],
        "ways": {name: {"summary": summary(found), "places": found} for name, found in rows.items()},
    }
    print(write("typical_year", figures, CODE))


if __name__ == "__main__":
    main()
