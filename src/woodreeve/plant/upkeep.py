"""When each task of upkeep is due: by months, by the week, by the season."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from typing import Annotated

from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.plant.checks.rules import Nation, rule_for
from woodreeve.plant.upkeep_data import parts
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.workings import worked

__all__ = [
    "due_after",
    "due_after_days",
    "due_by_season",
    "first_fire_list_due",
    "last_fire_list_due",
    "part_due",
    "sweep_interval",
]

Months = Annotated[float, Unit("month"), Gt(0.0), Le(600.0)]
Days = Annotated[float, Unit("day"), Gt(0.0), Le(4000.0)]


@worked
def due_after(last: date, months: Months) -> date:
    r"""Day on which something is due again.

    Parameters
    ----------
    last : date
        When it was last done.
    months : Months
        Months between. [month] Above 0, to 600.

    Returns
    -------
    date
        The same day so many months on; the last of the month where it has no such day.

    Raises
    ------
    OutOfRange
        If the months lie outside their range.

    Notes
    -----
    Whole months; parts of a month count as so many thirtieths.

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> due_after(date(2025, 9, 12), 12.0)
    datetime.date(2026, 9, 12)
    """
    whole, part = divmod(months, 1.0)
    years, month = divmod(last.month - 1 + int(whole), 12)
    year = last.year + years
    if year > date.max.year - 1:
        raise OutOfRange("last", last.isoformat(), "a day of this age")
    day = min(last.day, calendar.monthrange(year, month + 1)[1])
    return date(year, month + 1, day) + timedelta(days=round(30.0 * part))


@worked
def due_after_days(last: date, days: Days) -> date:
    r"""Day on which something that is done by the week is due again.

    Parameters
    ----------
    last : date
        When it was last done.
    days : Days
        Days between. [day] Above 0, to 4000.

    Returns
    -------
    date
        So many days on.

    Raises
    ------
    OutOfRange
        If the days lie outside their range.

    Notes
    -----
    Whole days, rounded.

    References
    ----------
    .. [1] Definition.

    Examples
    --------
    >>> due_after_days(date(2025, 12, 20), 31.0)
    datetime.date(2026, 1, 20)
    """
    return last + timedelta(days=round(days))


@worked
def sweep_interval(nation: Nation, on: date, own: Months | None = None) -> Months:
    r"""Months between two sweepings: the owner's own figure, the nation's rule, or once a year.

    Parameters
    ----------
    nation : str
        Whose rules hold.
    on : date
        The day asked about.
    own : Months, optional
        The owner's own interval. [month] Above 0, to 600.

    Returns
    -------
    Months
        Months between. [month]

    Raises
    ------
    OutOfRange
        If the owner's interval lies outside its range.

    Notes
    -----
    A rule found for the nation goes before the general advice of once a year; the owner's figure before both.

    References
    ----------
    .. [1] Advice of sweeps and fire services (read): once a year. Germany: test.de 4347908 (read): twice.

    Examples
    --------
    >>> sweep_interval("wales", date(2026, 1, 13))
    12.0
    """
    if own is not None:
        return own
    found = rule_for("flue.swept", nation, on)
    return float(found.months) if found is not None and found.months is not None else 12.0


@worked
def due_by_season(
    today: date, month: Annotated[int, Unit("month"), Ge(1), Le(12)], done: date | None = None
) -> date:
    r"""Day by which a list of the season is to be gone through.

    Parameters
    ----------
    today : date
        The day asked about.
    month : int
        The month on whose first it is due. [month] From 1 to 12.
    done : date, optional
        When it was last done.

    Returns
    -------
    date
        The last such first if the list was not done in the half year around it, else the next one.

    Raises
    ------
    OutOfRange
        If the month lies outside its range.

    Notes
    -----
    Done up to 60 days before its day counts for that day.

    References
    ----------
    .. [1] Judgement.

    Examples
    --------
    >>> due_by_season(date(2026, 1, 13), 9, date(2025, 9, 27))
    datetime.date(2026, 9, 1)
    """
    this = date(today.year, month, 1)
    last = this if this <= today else date(today.year - 1, month, 1)
    if done is not None and done >= last - timedelta(days=60):
        following = date(last.year + 1, month, 1)
        return following if done < following - timedelta(days=60) else date(following.year + 1, month, 1)
    return last if (today - last).days <= 183 else date(last.year + 1, month, 1)


@worked
def first_fire_list_due(
    today: date, done: date | None = None, month: Annotated[int, Unit("month"), Ge(1), Le(12)] = 9
) -> date:
    r"""Day by which the list before the first fire is to be gone through.

    Parameters
    ----------
    today : date
        The day asked about.
    done : date, optional
        When it was last done.
    month : int
        September. [month] From 1 to 12.

    Returns
    -------
    date
        As :func:`due_by_season`.

    Raises
    ------
    OutOfRange
        If the month lies outside its range.

    Notes
    -----
    As :func:`due_by_season`.

    References
    ----------
    .. [1] Judgement.

    Examples
    --------
    >>> first_fire_list_due(date(2026, 8, 13), date(2025, 9, 27))
    datetime.date(2026, 9, 1)
    """
    return due_by_season(today, month, done)


@worked
def last_fire_list_due(
    today: date, done: date | None = None, month: Annotated[int, Unit("month"), Ge(1), Le(12)] = 6
) -> date:
    r"""Day by which the list after the last fire is to be gone through.

    Parameters
    ----------
    today : date
        The day asked about.
    done : date, optional
        When it was last done.
    month : int
        June. [month] From 1 to 12.

    Returns
    -------
    date
        As :func:`due_by_season`.

    Raises
    ------
    OutOfRange
        If the month lies outside its range.

    Notes
    -----
    As :func:`due_by_season`.

    References
    ----------
    .. [1] Judgement.

    Examples
    --------
    >>> last_fire_list_due(date(2026, 1, 13), date(2025, 4, 30))
    datetime.date(2026, 6, 1)
    """
    return due_by_season(today, month, done)


@worked
def part_due(part: str, fitted: date) -> date:
    r"""Day by which a part that wears has usually come to its end.

    Parameters
    ----------
    part : str
        Its name in the list of parts.
    fitted : date
        When it was fitted.

    Returns
    -------
    date
        So many years on as the list says.

    Raises
    ------
    UnknownName
        If the list has no such part.

    Notes
    -----
    A reminder to look, not to renew.

    References
    ----------
    .. [1] Common practice, no published source; the years stand in the list of parts.

    Examples
    --------
    >>> part_due("door_rope", date(2021, 9, 7))
    datetime.date(2026, 9, 7)
    """
    known = {one.key: one for one in parts()}
    if part not in known:
        raise UnknownName("part", part, known)
    return due_after(fitted, 12.0 * known[part].years)
