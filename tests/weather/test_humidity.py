"""Water in the air, against an independent library."""

import numpy as np
import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.weather.humidity import dew_point, humidity_from_dew_point, saturation_pressure

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize("celsius", [0.5, 5.0, 12.0, 20.0, 30.0, 40.0])
def test_saturation_pressure_is_that_of_the_library(celsius: float) -> None:
    """Within 0.3 % above freezing (below it the library goes over ice)."""
    assert saturation_pressure(np.array([celsius]))[0] == pytest.approx(
        psychrolib.GetSatVapPres(celsius), rel=0.003
    )


@pytest.mark.parametrize(("celsius", "humidity"), [(10.0, 0.8), (20.0, 0.5), (25.0, 0.35)])
def test_dew_point_is_that_of_the_library(celsius: float, humidity: float) -> None:
    """Within 0.1 K."""
    ours = dew_point(np.array([celsius]), np.array([humidity]))[0]
    assert ours == pytest.approx(psychrolib.GetTDewPointFromRelHum(celsius, humidity), abs=0.1)


@given(st.floats(-25.0, 45.0), st.floats(0.05, 1.0))
def test_there_and_back(celsius: float, humidity: float) -> None:
    """Dew point and humidity invert each other, and the dew point is never above the air."""
    air = np.array([celsius])
    dew = dew_point(air, np.array([humidity]))
    assert dew[0] <= celsius + 1e-9
    assert humidity_from_dew_point(air, dew)[0] == pytest.approx(humidity, rel=1e-6)
