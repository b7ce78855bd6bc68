"""The demo's fires, as a run of its plant through two winters made them."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from importlib.resources import files

__all__ = ["DemoFire", "demo_fires", "fires_head"]


@dataclass(frozen=True, slots=True)
class DemoFire:
    """Wood laid on, and what the store's thermometers showed just before.

    Parameters
    ----------
    moment : datetime
        By the clock of the place, without an offset.
    kind : str
        ``lit`` or ``refilled``.
    fills : float
        Boiler fills, in halves. [-]
    top_c, middle_c, bottom_c : int
        Store temperatures. [degC]
    """

    moment: datetime
    kind: str
    fills: float
    top_c: int
    middle_c: int
    bottom_c: int


def _text() -> str:
    return files("woodreeve.holding.demo").joinpath("fires.csv").read_text(encoding="utf-8")


def fires_head() -> dict[str, str]:
    """What the file tells of itself.

    Returns
    -------
    dict of str
        ``seed``, ``made`` (the day), ``code`` and ``rows`` (digests), and ``older`` where the code has
        changed since.
    """
    head = " ".join(line for line in _text().splitlines() if line.startswith("#"))
    told = dict(re.findall(r"\b(seed|made|code|rows) ([0-9a-f-]+)(?=;|$)", head))
    return told | ({"older": "yes"} if "made with older code" in head else {})


@lru_cache(maxsize=1)
def demo_fires() -> tuple[DemoFire, ...]:
    """All fires of the demo's diary span.

    Returns
    -------
    tuple of DemoFire
        In the order in which they happened.
    """
    rows = csv.DictReader(line for line in _text().splitlines() if not line.startswith("#"))
    return tuple(
        DemoFire(
            moment=datetime.fromisoformat(row["moment"]),
            kind=row["kind"],
            fills=float(row["fills"]),
            top_c=int(row["store_top_c"]),
            middle_c=int(row["store_middle_c"]),
            bottom_c=int(row["store_bottom_c"]),
        )
        for row in rows
    )
