"""What follows when something fails: temperatures, the thermal discharge, and how long until it is safe.

Shown as information with the usual cautions, never as proof that a plant is safe: the model knows no
corroded valve, no blocked pipe and no leaking door.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from woodreeve.season import slots as s
from woodreeve.season.run import Result

__all__ = ["WhatFollowed", "what_followed"]

SAFE_C = 85.0
"""Boiler water below this, with no fire, counts as calm again. [degC] Judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatFollowed:
    """The course of a fault in a few figures."""

    hottest_boiler_c: float
    hottest_store_c: float
    discharge_opens_at_h: float | None
    """Hours from the beginning of the run; ``None`` if it never opens."""
    discharge_minutes: float
    discharge_litres: float
    steam_kwh: float
    """Heat blown off as steam by the safety valve."""
    calm_at_h: float | None
    """From when on the boiler stays below 85 °C without a fire; ``None`` if not within the run."""


def what_followed(result: Result) -> WhatFollowed:
    """Read the course of a fault off a run; the finer its snapshots, the finer the times.

    Parameters
    ----------
    result : Result
        A run with faults, best with ``record_every_h=1 / 60``.

    Returns
    -------
    WhatFollowed
        Temperatures, discharge and times.
    """
    hours = result.hours
    opened = np.flatnonzero(np.diff(result.series(s.DISCHARGE_S)) > 0.0)
    stirring = (result.series(s.BODY_C) >= SAFE_C) | (result.series(s.BURNING) > 0.0)
    last = np.flatnonzero(stirring)
    calm = 0.0 if last.size == 0 else None if last[-1] == hours.size - 1 else float(hours[last[-1] + 1])
    return WhatFollowed(
        hottest_boiler_c=result.total(s.HOTTEST_BODY_C),
        hottest_store_c=result.total(s.HOTTEST_STORE_C),
        discharge_opens_at_h=float(hours[opened[0]]) if opened.size else None,
        discharge_minutes=result.total(s.DISCHARGE_S) / 60.0,
        discharge_litres=result.total(s.DISCHARGE_KG),
        steam_kwh=result.kwh(s.STEAM_J),
        calm_at_h=calm,
    )
