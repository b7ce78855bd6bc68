"""Quiet days: heating weather, and nothing about fires in the diary."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated

from woodreeve.diary.burning import usual_per_day
from woodreeve.diary.folded import Folded
from woodreeve.units import Unit
from woodreeve.workings import worked

__all__ = ["LEAST_QUIET_DAYS", "QuietDays", "quiet_days"]

LEAST_QUIET_DAYS = 3
"""So many silent days in heating weather are worth a question: some fire was surely not written down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class QuietDays:
    """A silence worth asking about.

    Parameters
    ----------
    since, until : date
        The first and the last silent day; the last is the day before the question.
    heating_days : int
        How many of them were in heating weather.
    usual_per_day_m3 : float or None
        What "as usual" would mean; ``None`` where nothing is known. [m3]
    """

    since: date
    until: date
    heating_days: int
    usual_per_day_m3: Annotated[float | None, Unit("m3")]


@worked
def quiet_days(folded: Folded, today: date, heating_days: Collection[date]) -> QuietDays | None:
    r"""Since when nothing was logged although it was cold.

    Nobody logs every fire. After a few silent days in heating weather one question, "as usual since
    Monday?", keeps the books straight.

    Parameters
    ----------
    folded : Folded
        The diary, added up.
    today : date
        The day of the question, which is not over and does not count.
    heating_days : collection of date
        The days on which the house needed heat, by the weather.

    Returns
    -------
    QuietDays or None
        ``None`` where there is nothing to ask: fewer than 3 heating days in silence, or no fire ever logged.

    Notes
    -----
    The usual use is the mean over the days before the silence, at most 28, from the first of them with
    a fire:

    .. math:: \bar V = \frac{1}{n} \sum_{i=1}^{n} V_i

    References
    ----------
    .. [1] Own rule; common practice, no published source.
    """
    if folded.burning_told_until is None:
        return None
    since = folded.burning_told_until + timedelta(days=1)
    silent = sum(1 for day in heating_days if since <= day < today)
    if silent < LEAST_QUIET_DAYS:
        return None
    return QuietDays(
        since=since,
        until=today - timedelta(days=1),
        heating_days=silent,
        usual_per_day_m3=usual_per_day(folded.use_by_day, since),
    )
