"""A usual year, as drying feels it, one after another."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from woodreeve.errors import Unknown
from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.toml import load
from woodreeve.weather.typical import typical_year
from woodreeve.wood.seasoning_usual import usual_drying_weather
from woodreeve.wood.seasoning_weather import drying_weather

NORMALS = load(demo_holding_text()).normals()
assert NORMALS is not None
YEAR = typical_year(NORMALS)


def test_each_day_takes_the_same_date_of_the_usual_year() -> None:
    """Over a leap day and two turns of the year, none of it measured."""
    found = usual_drying_weather(YEAR, start=date(2023, 12, 30), end=date(2025, 1, 2))
    year = drying_weather(YEAR, measured=False)
    assert found.days == 370
    assert found.known_days == 0
    assert found.air_c[2] == year.air_c[0] == found.air_c[368]
    leap = (date(2024, 2, 29) - found.start).days
    assert found.air_c[leap] == found.air_c[leap - 1] == year.air_c[58]
    assert np.array_equal(found.rain_mm_month[2 : 2 + 59], year.rain_mm_month[:59])


def test_less_than_a_year_will_not_do() -> None:
    """A file of a summer says nothing of winter."""
    hours = 24 * 200
    short = type(YEAR)(
        start=YEAR.start,
        temperature_c=YEAR.temperature_c[:hours],
        relative_humidity=None if YEAR.relative_humidity is None else YEAR.relative_humidity[:hours],
    )
    with pytest.raises(Unknown, match="whole year"):
        usual_drying_weather(short, start=date(2025, 1, 1), end=date(2025, 2, 1))
