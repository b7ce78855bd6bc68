"""Weather files that checks rest on: the test reference years inside the package demandlib.

They are read where they lie (source: Deutscher Wetterdienst) and never copied. In a sheet an argument such
as ``"TRY2010_05_Jahr.dat: day means"`` stands for the values of that file.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Any

from woodreeve.units import Floats
from woodreeve.weather.readers import read_dwd_try
from woodreeve.weather.series import Hourly

_SAID = re.compile(r"^TRY2010_(\d\d)_Jahr\.dat: (hours|day means|day highest|day lowest|sun)$")

_PARTS: dict[str, Callable[[Hourly], Floats]] = {
    "hours": lambda year: year.temperature_c,
    "day means": lambda year: year.day_means(),
    "day highest": lambda year: year.by_day("temperature_c").max(axis=1),
    "day lowest": lambda year: year.by_day("temperature_c").min(axis=1),
    "sun": lambda year: year.field("sun_w_m2"),
}


@lru_cache(maxsize=15)
def reference_year(region: int) -> Hourly:
    """The mean test reference year of a German region, 1 to 15."""
    found = files("demandlib") / "vdi" / "resources_weather" / f"TRY2010_{region:02d}_Jahr.dat"
    with found.open(encoding="latin-1") as stream:
        return read_dwd_try(stream)


def with_weather(args: Mapping[str, Any]) -> dict[str, Any]:
    """The arguments, with the values of a weather file where one is named."""
    filled = dict(args)
    for name, value in args.items():
        said = _SAID.match(value) if isinstance(value, str) else None
        if said:
            filled[name] = _PARTS[said[2]](reference_year(int(said[1]))).tolist()
    return filled
