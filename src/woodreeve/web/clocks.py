"""Clocks: the computer's own, and the demonstration's, which stands until it is stepped on."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from threading import Lock

__all__ = ["SteppedClock", "own_clock"]


def own_clock() -> datetime:
    """The moment now."""
    return datetime.now(UTC)


class SteppedClock:
    """A clock that stands still and is stepped on by a day.

    Parameters
    ----------
    start : datetime
        What it shows first.
    """

    def __init__(self, start: datetime) -> None:
        self._now = start
        self._lock = Lock()

    def __call__(self) -> datetime:
        """What it shows."""
        return self._now

    def step(self) -> None:
        """Go on to the same hour of the next day."""
        with self._lock:
            self._now += timedelta(days=1)
