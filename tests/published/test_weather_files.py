"""All reference years of the package demandlib against figures worked out from them by another script.

Our readers and our degree-day formulas are checked at once: one digit read from the wrong column, or one
day cut at the wrong hour, shows. Source of the data: Deutscher Wetterdienst, test reference years 2010. The
figures were worked out separately (plain numpy on the files), printed to the digits below.
"""

import numpy as np
import pytest

from tests.published.weather_files import reference_year
from woodreeve.weather import climate, degree_days
from woodreeve.weather.typical import normals_of

# region: mean, min, max, degree days (hourly 15.5, daily 15.5, max/min 15.5, hourly 18, daily 18, G20/15),
# 0.4 percentile, coldest 1, 3 and 7 days, daily swing, (spread of days, not compared), lag-1, sun
FIGURES = {
    1: (10.09, -7.8, 31.5, 2251, 2208, 2262, 3010, 2975, 3402, -4.8, -4.8, -3.6, -1.3, 5.2, 2.57, 0.62, 963),
    2: (9.54, -8, 31.4, 2432, 2386, 2431, 3196, 3152, 3604, -5.5, -5.3, -3.6, -0.7, 5.4, 2.54, 0.6, 1050),
    3: (9.52, -10.4, 31.3, 2473, 2409, 2508, 3244, 3194, 3678, -7.1, -5.6, -4.5, -1.4, 6.8, 3.07, 0.71, 944),
    4: (9.54, -13.4, 35.4, 2588, 2507, 2579, 3313, 3225, 3667, -8.8, -9.4, -8, -3.5, 8, 3.59, 0.71, 1075),
    5: (10.36, -8.9, 31.4, 2212, 2148, 2193, 2958, 2909, 3360, -5.6, -4.9, -2.7, -1.4, 6.4, 3.22, 0.67, 960),
    6: (7.79, -9, 29.4, 3002, 2958, 2973, 3813, 3781, 4359, -6.8, -6.2, -5.3, -3.9, 5.8, 3.33, 0.69, 972),
    7: (9.35, -10.2, 33.7, 2583, 2502, 2583, 3340, 3258, 3734, -6.8, -7.2, -6, -3.3, 7.5, 3.06, 0.65, 1003),
    8: (6.74, -14.8, 29.2, 3343, 3286, 3333, 4174, 4136, 4725, -9.3, -9.6, -7.3, -4.8, 6.8, 3.42, 0.69, 994),
    9: (8.73, -12.8, 32.6, 2780, 2726, 2771, 3544, 3483, 3975, -7.2, -8, -6.2, -3.9, 6.7, 3.66, 0.67, 1058),
    10: (
        7.39,
        -12.6,
        30.8,
        3196,
        3106,
        3198,
        3991,
        3917,
        4440,
        -9.3,
        -8.5,
        -6.6,
        -4.6,
        7.3,
        3.19,
        0.67,
        1039,
    ),
    11: (
        3.8,
        -16.6,
        26.2,
        4316,
        4295,
        4302,
        5198,
        5189,
        5856,
        -13.6,
        -14.2,
        -12.1,
        -6.9,
        5.3,
        3.53,
        0.58,
        985,
    ),
    12: (
        11.13,
        -9.3,
        36.3,
        2140,
        2049,
        2153,
        2825,
        2723,
        3132,
        -6.7,
        -6.2,
        -5.1,
        -3.3,
        8.8,
        3.36,
        0.75,
        1089,
    ),
    14: (
        7.78,
        -13.5,
        28.2,
        3058,
        3014,
        3032,
        3844,
        3798,
        4335,
        -10.4,
        -10.9,
        -10.2,
        -8.5,
        6,
        3.67,
        0.73,
        1063,
    ),
    15: (
        7.37,
        -16.6,
        29.3,
        3257,
        3120,
        3084,
        4043,
        3913,
        4464,
        -12.7,
        -11.6,
        -10,
        -7.1,
        10.3,
        3.27,
        0.66,
        1111,
    ),
}


def _worked_out(region: int) -> list[float]:
    year = reference_year(region)
    hours, days = year.temperature_c, year.day_means()
    by_day = year.by_day("temperature_c")
    return [
        climate.mean_temperature(hours),
        climate.extreme_temperature(hours, which="lowest"),
        climate.extreme_temperature(hours, which="highest"),
        degree_days.degree_days_hourly(hours, 15.5),
        degree_days.degree_days_daily_mean(days, 15.5),
        degree_days.degree_days_max_min(by_day.max(axis=1), by_day.min(axis=1), 15.5),
        degree_days.degree_days_hourly(hours, 18.0),
        degree_days.degree_days_daily_mean(days, 18.0),
        degree_days.degree_days_german(days),
        climate.design_temperature(hours, 0.996),
        *(climate.coldest_spell(hours, float(length)) for length in (1, 3, 7)),
        climate.daily_swing(hours),
        climate.day_to_day_correlation(hours),
        climate.yearly_sun(year.field("sun_w_m2")),
    ]


TOLERANCES = [0.01, 0.05, 0.05, 1, 1, 1, 1, 1, 1, 0.06, 0.06, 0.06, 0.06, 0.06, 0.01, 1]


@pytest.mark.parametrize("region", sorted(FIGURES))
def test_a_reference_year_has_the_figures_worked_out_from_it_elsewhere(region: int) -> None:
    """Sixteen figures of each file agree to the digit they were printed to."""
    figures = FIGURES[region]
    wanted = [*figures[:14], figures[15], figures[16]]
    off = [
        (got, want)
        for got, want, within in zip(_worked_out(region), wanted, TOLERANCES, strict=True)
        if abs(got - want) > within
    ]
    assert off == []


@pytest.mark.parametrize("region", range(1, 16))
def test_every_file_of_the_package_reads_whole(region: int) -> None:
    """8760 hours from local midnight, a place in Germany, and no odd value."""
    year = reference_year(region)
    assert year.hours == 8760
    assert year.hour_of_day()[0] == 0.0
    assert year.month_numbers()[[0, -1]].tolist() == [1, 12]
    latitude, longitude = year.place()
    assert 47.0 < latitude < 55.0
    assert 5.0 < longitude < 15.5
    assert year.field("diffuse_w_m2").max() <= year.field("sun_w_m2").max()
    assert "Deutscher Wetterdienst" in year.source


ESSEN_MONTHS = {
    "mean": (3.136, 3.517, 6.574, 9.454, 13.74, 15.926, 18.213, 18.212, 14.639, 10.786, 6.09, 3.545),
    "spread": (3.568, 3.287, 3.145, 3.523, 3.349, 3.167, 3.448, 3.239, 2.85, 3.169, 3.188, 3.923),
    "swing": (4.28, 5.82, 5.65, 7.14, 8.0, 8.86, 7.46, 7.99, 6.7, 5.54, 4.62, 4.35),
    "sun": (19.7, 40.3, 58.6, 103.0, 138.9, 148.9, 152.0, 127.2, 81.7, 52.8, 22.2, 14.6),
    "h15.5": (383.3, 335.5, 276.8, 188.7, 86.9, 45.4, 17.8, 15.6, 56.4, 152.7, 282.3, 370.6),
}


def test_the_months_of_essen_are_those_worked_out_elsewhere() -> None:
    """Month means, spreads, swings, sun and degree days of TRY05."""
    year = reference_year(5)
    normals = normals_of(year)
    assert normals.temperature_c == pytest.approx(ESSEN_MONTHS["mean"], abs=0.0006)
    assert normals.day_noise_sd_k == pytest.approx(ESSEN_MONTHS["spread"], abs=0.0006)
    assert normals.swing_k == pytest.approx(ESSEN_MONTHS["swing"], abs=0.006)
    assert normals.sun_kwh_m2 == pytest.approx(ESSEN_MONTHS["sun"], abs=0.06)
    months = year.month_numbers()
    cold = [degree_days.degree_days_hourly(year.temperature_c[months == m], 15.5) for m in range(1, 13)]
    assert cold == pytest.approx(ESSEN_MONTHS["h15.5"], abs=0.06)
    assert np.sum(cold) == pytest.approx(degree_days.degree_days_hourly(year.temperature_c, 15.5))
