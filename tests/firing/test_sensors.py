"""The store by height from a few thermometers, and thermometers that lie."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange
from woodreeve.firing.sensors import Reading, front_of_store, lying_sensors, store_from_sensors
from woodreeve.units import Floats

NOW = datetime(2026, 1, 14, 17, tzinfo=UTC)
HEIGHTS = {"top": 0.92, "middle": 0.5, "bottom": 0.08}


def sigmoid(heights: Floats, top: float, bottom: float, front: float) -> Floats:
    """A store with a front, written down anew."""
    return bottom + (top - bottom) / (1.0 + np.exp(-4.0 * (heights - front) / 0.15))


def readings(of: dict[str, list[float]], heights: dict[str, float] | None = None) -> list[Reading]:
    """Hourly readings, the last of them now."""
    return [
        Reading(name, (heights or HEIGHTS)[name], NOW - timedelta(hours=len(row) - 1 - n), value)
        for name, row in of.items()
        for n, value in enumerate(row)
    ]


@settings(max_examples=60, deadline=None)
@given(top=st.floats(60.0, 88.0), drop=st.floats(20.0, 50.0), front=st.floats(0.1, 0.9))
def test_five_thermometers_find_the_front(top: float, drop: float, front: float) -> None:
    """Within a tenth of the height, and the mean within two degrees: a line would miss by up to ten."""
    at = np.array([0.05, 0.275, 0.5, 0.725, 0.95])
    found = front_of_store(at, sigmoid(at, top, top - drop, front))
    assert abs(found.height - front) < 0.1
    layers = (np.arange(40) + 0.5) / 40
    assert abs(found.layers(40).mean() - sigmoid(layers, top, top - drop, front).mean()) < 2.5


@settings(max_examples=40, deadline=None)
@given(top=st.floats(60.0, 88.0), drop=st.floats(20.0, 50.0), front=st.floats(0.05, 0.95))
def test_the_range_of_three_thermometers_holds_the_front(top: float, drop: float, front: float) -> None:
    """They cannot tell where between two of them it stands; so the range is wide and holds it."""
    at = np.array([0.08, 0.5, 0.92])
    found = front_of_store(at, sigmoid(at, top, top - drop, front))
    assert found.low_height - 0.06 <= front <= found.high_height + 0.06


def test_a_uniform_store_stays_uniform() -> None:
    """No front is invented."""
    layers = front_of_store(np.array([0.1, 0.5, 0.9]), np.array([55.0, 55.0, 55.0])).layers(20)
    assert layers == pytest.approx(np.full(20, 55.0), abs=0.5)


def test_a_front_is_never_upside_down() -> None:
    """Even if the readings are."""
    layers = front_of_store(np.array([0.1, 0.9]), np.array([80.0, 40.0])).layers(20)
    assert (np.diff(layers) >= -1e-9).all()


def test_readings_without_heights_are_refused() -> None:
    """One height for each."""
    with pytest.raises(OutOfRange, match="long"):
        front_of_store(np.array([0.1, 0.9]), np.array([80.0]))


def test_a_thermometer_out_of_range_is_named() -> None:
    """A broken wire shows -10 or 130."""
    faults = lying_sensors(
        readings({"top": [80, 80, 128.0], "middle": [60, 60, 60], "bottom": [40, 40, 40]}), NOW
    )
    assert [(one.sensor, one.kind) for one in faults] == [("top", "out_of_range")]


def test_a_stuck_thermometer_is_named_only_while_all_others_move() -> None:
    """In a resting store everything stands still."""
    moving = {"top": [60.0, 65, 70, 75, 80], "middle": [52.0] * 5, "bottom": [35.0, 38, 42, 45, 48]}
    assert [(one.sensor, one.kind) for one in lying_sensors(readings(moving), NOW)] == [("middle", "stuck")]
    still = {"top": [60.0] * 5, "middle": [52.0] * 5, "bottom": [35.0] * 5}
    assert lying_sensors(readings(still), NOW) == ()


def test_swapped_thermometers_are_named_with_each_other() -> None:
    """Top and bottom changed; the middle one is right."""
    faults = lying_sensors(
        readings({"top": [36.0, 36, 37], "middle": [60.0, 61, 62], "bottom": [80.0, 81, 82]}), NOW
    )
    assert [(one.sensor, one.kind, one.other) for one in faults] == [
        ("bottom", "swapped", "top"),
        ("top", "swapped", "bottom"),
    ]


def test_a_drifting_thermometer_is_named_where_all_others_agree_with_the_simulation() -> None:
    """Two off are more likely a wrong simulation."""
    row = {"top": [80.0, 80, 80], "middle": [71.0, 71, 71], "bottom": [40.0, 40, 40]}
    expected = {"top": 79.0, "middle": 60.0, "bottom": 41.0}
    (fault,) = lying_sensors(readings(row), NOW, expected_c=expected)
    assert (fault.sensor, fault.kind, round(fault.off_k)) == ("middle", "drifting", 11)
    assert lying_sensors(readings(row), NOW, expected_c={**expected, "top": 60.0}) == ()


def test_a_lying_thermometer_does_not_spoil_the_store() -> None:
    """The two others and the simulation carry it."""
    simulated = sigmoid((np.arange(20) + 0.5) / 20, 80.0, 38.0, 0.4)
    layers, faults, front = store_from_sensors(
        readings({"top": [80.0, 80, 130], "middle": [76.0, 76, 77], "bottom": [38.0, 38, 38]}),
        NOW,
        20,
        simulated_c=simulated,
    )
    assert [one.kind for one in faults] == ["out_of_range"]
    assert front is not None
    assert abs(layers.mean() - simulated.mean()) < 4.0


def test_swapped_thermometers_are_read_the_right_way_round() -> None:
    """And still named."""
    layers, faults, _ = store_from_sensors(
        readings({"top": [36.0, 36, 37], "middle": [60.0, 61, 62], "bottom": [80.0, 81, 82]}), NOW, 20
    )
    assert len(faults) == 2
    assert layers[-1] > 75.0
    assert layers[0] < 45.0


def test_one_thermometer_shifts_the_simulation() -> None:
    """All of it by what it is off there."""
    simulated = np.linspace(40.0, 80.0, 20)
    layers, _, front = store_from_sensors(readings({"top": [70.0, 70, 72]}), NOW, 20, simulated_c=simulated)
    assert front is None
    assert np.diff(layers - simulated) == pytest.approx(np.zeros(19))
    assert np.interp(0.92, (np.arange(20) + 0.5) / 20, layers) == pytest.approx(72.0, abs=0.5)


def test_without_thermometer_and_simulation_nothing_is_known() -> None:
    """It is said, not guessed."""
    with pytest.raises(OutOfRange, match="thermometers"):
        store_from_sensors([], NOW, 20)
