"""The store's temperatures by height, from a few thermometers; and which of them lies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Annotated, Literal

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Floats, Ge, Gt, Le, Unit
from woodreeve.workings import worked

__all__ = ["Front", "Reading", "SensorFault", "front_of_store", "lying_sensors", "store_from_sensors"]

BETWEEN_K = 3.0
"""A thermometer in its pocket tells the water's temperature within so much. Common practice. [K]"""
STUCK_HOURS = 6.0
"""A thermometer that has not moved for so long, while another moved, is stuck. Judgement. [h]"""
STUCK_K = 0.15
"""Moving less than this is not moving. Judgement. [K]"""
OTHERS_MOVED_K = 4.0
"""While another moved by this. Judgement. [K]"""
COLDEST_C, HOTTEST_C = 2.0, 105.0
"""No store of heating water is colder or hotter. [degC]"""
INVERTED_K = 4.0
"""Hot water does not lie under water colder by more than this. Judgement: pockets and mixing. [K]"""
DRIFTED_K = 5.0
"""A thermometer off by more than this from what the simulation and others say has drifted. Judgement. [K]"""


@dataclass(frozen=True, slots=True)
class Reading:
    """One thermometer's reading.

    Parameters
    ----------
    sensor : str
        Its name.
    height : float
        Where it sits: 0 at the floor, 1 at the top. [-]
    at : datetime
        When.
    temperature_c : float
        What it showed. [degC]
    """

    sensor: str
    height: float
    at: datetime
    temperature_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """A store as hot water over cold, with a front between.

    Parameters
    ----------
    top_c, bottom_c : float
        Above and below the front. [degC]
    height : float
        Height of the middle of the front: 0 at the floor, 1 at the top. [-]
    thickness : float
        Share of the height over which it passes from the one to the other. [-]
    low_height, high_height : float
        Within which the front may lie and still agree with the readings. [-]
    misfit_k : float
        How far off the readings the front is, root mean square. [K]
    """

    top_c: Annotated[float, Unit("degC")]
    bottom_c: Annotated[float, Unit("degC")]
    height: Annotated[float, Unit("-")]
    thickness: Annotated[float, Unit("-")]
    low_height: Annotated[float, Unit("-")]
    high_height: Annotated[float, Unit("-")]
    misfit_k: Annotated[float, Unit("K")]

    def layers(self, count: int) -> Floats:
        """Temperatures of so many layers, from the foot up. [degC]."""
        middles = (np.arange(count) + 0.5) / count
        return _shape(middles, self.top_c, self.bottom_c, self.height, self.thickness)


@dataclass(frozen=True, slots=True, kw_only=True)
class SensorFault:
    """A thermometer that cannot be believed.

    Parameters
    ----------
    sensor : str
        Its name.
    kind : str
        ``out_of_range``, ``stuck``, ``swapped`` (with ``other``) or ``drifting``.
    other : str
        The thermometer it is swapped with.
    off_k : float
        How far off it seems, where that can be told. [K]
    """

    sensor: str
    kind: Literal["out_of_range", "stuck", "swapped", "drifting"]
    other: str = ""
    off_k: Annotated[float, Unit("K")] = 0.0


def _shape(heights: Floats, top: float, bottom: float, front: float, thickness: float) -> Floats:
    share = 1.0 / (1.0 + np.exp(-(heights - front) / (thickness / 4.0)))
    return np.asarray(bottom + (top - bottom) * share)


@worked
def front_of_store(
    heights: Annotated[Floats, Unit("-"), Ge(0.0), Le(1.0)],
    temperatures_c: Annotated[Floats, Unit("degC"), Ge(-10.0), Le(130.0)],
    thickness: Annotated[float, Unit("-"), Gt(0.0), Le(1.0)] = 0.15,
    *,
    likely_bottom_c: Annotated[float | None, Unit("degC"), Ge(0.0), Le(110.0)] = None,
    likely_top_c: Annotated[float | None, Unit("degC"), Ge(0.0), Le(110.0)] = None,
) -> Front:
    r"""Where the front between hot and cold water stands in a store, from a few thermometers.

    Straight lines between thermometers are wrong by a fifth of the store: water lies hot over cold, with
    a thin front that moves.

    Parameters
    ----------
    heights : Floats
        Heights of the thermometers. [-] From 0 at the floor to 1 at the top.
    temperatures_c : Floats
        What they show. [degC] From -10 to 130.
    thickness : float
        Share of the height over which the front passes. [-] More than 0, up to 1.
    likely_bottom_c : float or None
        What a simulation says of the foot, where no thermometer sits below the front. [degC] From 0 to 110.
    likely_top_c : float or None
        The same of the top. [degC] From 0 to 110.

    Returns
    -------
    Front
        Temperatures above and below, the front's height with its range, and the misfit.

    Raises
    ------
    OutOfRange
        If there is no thermometer, or lists differ in length, or a value lies outside its range.

    Notes
    -----
    .. math:: T(z) = T_b + \frac{T_t - T_b}{1 + e^{-4 (z - z_f) / \delta}}

    For each height of the front on a fine grid the two temperatures follow by least squares, held softly
    (5 K) to what is likely, and so that the top is never the colder; the best height is taken. The range
    holds all heights whose misfit is no more than 1 K worse, as far as thermometers between can tell.
    With the thermometers at 0.08, 0.5 and 0.92 of the height the front between two of them stays unsure.

    References
    ----------
    .. [1] Own method: a logistic front, as one-dimensional models of stores show it. The thickness of 0.15
       is judgement; no measured store stands behind it.

    Examples
    --------
    >>> found = front_of_store(np.array([0.1, 0.5, 0.9]), np.array([35.0, 36.0, 80.0]))
    >>> 0.5 < found.height < 0.9
    True
    """
    heights, shown = np.asarray(heights, dtype=float), np.asarray(temperatures_c, dtype=float)
    if heights.size == 0 or heights.size != shown.size:
        raise OutOfRange(
            "temperatures_c", f"{shown.size} long", f"{max(heights.size, 1)} long, one a thermometer"
        )
    spread = float(shown.max() - shown.min())
    if likely_bottom_c is None:
        likely_bottom_c = float(shown.min()) if spread > BETWEEN_K else float(shown.mean())
    if likely_top_c is None:
        likely_top_c = float(shown.max()) if spread > BETWEEN_K else float(shown.mean())
    soft = 0.2
    grid = np.linspace(-0.1, 1.1, 241)
    worth, tops, bottoms = np.empty(grid.size), np.empty(grid.size), np.empty(grid.size)
    for number, front in enumerate(grid):
        share = _shape(heights, 1.0, 0.0, float(front), thickness)
        matrix = np.vstack([np.column_stack([share, 1.0 - share]), [soft, 0.0], [0.0, soft]])
        wanted = np.concatenate([shown, [soft * likely_top_c, soft * likely_bottom_c]])
        (top, bottom), *_ = np.linalg.lstsq(matrix, wanted, rcond=None)
        if top < bottom:
            top = bottom = float(shown.mean())
        off = matrix @ np.array([top, bottom]) - wanted
        worth[number], tops[number], bottoms[number] = float((off**2).sum()), top, bottom
    misfits = np.sqrt(worth / heights.size)
    best = int(np.argmin(worth))
    good = grid[misfits <= misfits[best] + 1.0]
    # Of all heights that agree as well the middle one is told.
    ties = np.flatnonzero(misfits <= misfits[best] + 0.05)
    chosen = int(ties[np.argmin(np.abs(grid[ties] - grid[ties].mean()))])
    return Front(
        top_c=float(tops[chosen]),
        bottom_c=float(bottoms[chosen]),
        height=float(np.clip(grid[chosen], 0.0, 1.0)),
        thickness=thickness,
        low_height=float(np.clip(good.min(), 0.0, 1.0)),
        high_height=float(np.clip(good.max(), 0.0, 1.0)),
        misfit_k=float(misfits[chosen]),
    )


def lying_sensors(
    readings: Sequence[Reading], moment: datetime, *, expected_c: dict[str, float] | None = None
) -> tuple[SensorFault, ...]:
    """Thermometers that cannot be believed: out of range, stuck, swapped, or drifting.

    Parameters
    ----------
    readings : sequence of Reading
        Of the last day or so.
    moment : datetime
        Now.
    expected_c : dict, optional
        What the simulation says each shows now. [degC] Drift can be told only with it: one that is off alone
        while the others agree.

    Returns
    -------
    tuple of SensorFault
        Each faulty thermometer once, by the surest fault.
    """
    of: dict[str, list[Reading]] = {}
    for one in sorted(readings, key=lambda one: one.at):
        if one.at <= moment:
            of.setdefault(one.sensor, []).append(one)
    faults: dict[str, SensorFault] = {}
    for name, row in of.items():
        if not COLDEST_C <= row[-1].temperature_c <= HOTTEST_C:
            faults[name] = SensorFault(sensor=name, kind="out_of_range")
    moved = {
        name: _moved([one for one in row if one.at >= moment - timedelta(hours=STUCK_HOURS)])
        for name, row in of.items()
    }
    for name, row in of.items():
        if name in faults or moved[name] is None or len(row) < 3:
            continue
        # The nearest above and below see the same water pass: a front goes by one after the other.
        others = [span for other, span in moved.items() if other != name and span is not None]
        all_others_moved = bool(others) and min(others) >= OTHERS_MOVED_K
        if (moved[name] or 0.0) < STUCK_K and all_others_moved:
            faults[name] = SensorFault(sensor=name, kind="stuck")
    good = [row for name, row in of.items() if name not in faults]
    faults.update(_swapped(good))
    if expected_c is not None:
        faults.update(_drifting({row[-1].sensor: row[-1] for row in good}, expected_c, faults))
    return tuple(faults[name] for name in sorted(faults))


def _moved(row: Sequence[Reading]) -> float | None:
    """How far a thermometer moved; nothing is said of one that was hardly read."""
    if len(row) < 3:
        return None
    shown = [one.temperature_c for one in row]
    return max(shown) - min(shown)


def _swapped(rows: Sequence[list[Reading]]) -> dict[str, SensorFault]:
    """The two thermometers that, changed for each other, would set the store the right way round."""
    ordered = sorted(rows, key=lambda row: row[-1].height)
    times = set.intersection(*({one.at for one in row} for row in ordered)) if len(ordered) > 1 else set()
    shown = np.array([[one.temperature_c for one in row if one.at in times] for row in ordered])
    if len(times) < 2 or not (_inverted(shown) > INVERTED_K).all():
        return {}
    for first in range(len(ordered)):
        for second in range(first + 1, len(ordered)):
            tried = shown.copy()
            tried[[first, second]] = tried[[second, first]]
            if (_inverted(tried) <= BETWEEN_K).all():
                a, b = ordered[first][-1].sensor, ordered[second][-1].sensor
                return {
                    a: SensorFault(sensor=a, kind="swapped", other=b),
                    b: SensorFault(sensor=b, kind="swapped", other=a),
                }
    return {}


def _inverted(shown: Floats) -> Floats:
    """By how much a lower thermometer shows more than one above it, at worst, time by time. [K]."""
    return np.asarray((np.maximum.accumulate(shown, axis=0) - shown).max(axis=0))


def _drifting(
    last: dict[str, Reading], expected: dict[str, float], faults: dict[str, SensorFault]
) -> dict[str, SensorFault]:
    """The one thermometer that is off while the others agree with the simulation."""
    off = {
        name: one.temperature_c - expected[name]
        for name, one in last.items()
        if name in expected and name not in faults
    }
    bad = [name for name, by in off.items() if abs(by) > DRIFTED_K]
    if len(off) < 2 or len(bad) != 1:
        return {}
    return {bad[0]: SensorFault(sensor=bad[0], kind="drifting", off_k=off[bad[0]])}


def store_from_sensors(
    readings: Sequence[Reading],
    moment: datetime,
    layers: int,
    *,
    simulated_c: Floats | None = None,
    thickness: float = 0.15,
) -> tuple[Floats, tuple[SensorFault, ...], Front | None]:
    """The store's layers now, from thermometers that can be believed; lying ones are left out and named.

    Parameters
    ----------
    readings : sequence of Reading
        Of the last day or so.
    moment : datetime
        Now.
    layers : int
        How many layers.
    simulated_c : array, optional
        What a simulation from the diary says of the layers: it stands for what no thermometer sees. [degC]
    thickness : float
        Of the front. [-]

    Returns
    -------
    tuple
        Layers from the foot up [degC], the faults, and the front; without any good thermometer the
        simulation and no front.

    Raises
    ------
    OutOfRange
        If there is neither a good thermometer nor a simulation.
    """
    middles = (np.arange(layers) + 0.5) / layers

    def simulated(height: float) -> float | None:
        return None if simulated_c is None else float(np.interp(height, middles, simulated_c))

    latest: dict[str, Reading] = {}
    for one in sorted(readings, key=lambda one: one.at):
        if one.at <= moment:
            latest[one.sensor] = one
    expected = {name: value for name, one in latest.items() if (value := simulated(one.height)) is not None}
    faults = lying_sensors(readings, moment, expected_c=expected or None)
    swapped = {fault.sensor: fault.other for fault in faults if fault.kind == "swapped"}
    lying = {fault.sensor for fault in faults if fault.kind != "swapped"}
    good = [
        (one.height, latest[swapped.get(name, name)].temperature_c)
        for name, one in latest.items()
        if name not in lying
    ]
    if not good:
        if simulated_c is None:
            raise OutOfRange(
                "thermometers", "0 that can be believed", "at least 1", "-", "look at the store's own"
            )
        return np.asarray(simulated_c), faults, None
    if len(good) == 1 and simulated_c is not None:
        height, shown = good[0]
        moved = np.asarray(simulated_c) + (shown - (simulated(height) or shown))
        return moved, faults, None
    front = front_of_store(
        np.array([height for height, _ in good]),
        np.array([shown for _, shown in good]),
        thickness,
        likely_bottom_c=simulated(0.03),
        likely_top_c=simulated(0.97),
    )
    return front.layers(layers), faults, front
