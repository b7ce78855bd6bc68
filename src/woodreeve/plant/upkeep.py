"""What is due on the plant and what was left out: tasks by date and by use, folded from the diary."""

from __future__ import annotations

import calendar
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated

from woodreeve.diary.folded import Use
from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.plant.checks.rules import Nation, rule_for
from woodreeve.plant.upkeep_data import parts
from woodreeve.units import Ge, Gt, Kilogram, Le, Litre, Share, Unit
from woodreeve.wood.burning import ash_mass
from woodreeve.workings import worked

__all__ = [
    "Ash",
    "BurntSince",
    "ash_of",
    "burnt_since",
    "due_after",
    "due_after_days",
    "due_by_season",
    "fire_days_due",
    "first_fire_list_due",
    "last_fire_list_due",
    "fire_hours_since",
    "part_due",
    "sweep_interval",
]

Months = Annotated[float, Unit("month"), Gt(0.0), Le(600.0)]
Days = Annotated[float, Unit("day"), Gt(0.0), Le(4000.0)]
FireDays = Annotated[float, Unit("day"), Ge(0.0)]


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


@dataclass(frozen=True, slots=True, kw_only=True)
class BurntSince:
    """Wood burnt since a day."""

    mass_kg: Kilogram
    dry_kg: Kilogram
    fires: int
    fire_days: FireDays


@worked
def burnt_since(use_by_day: Mapping[date, Use], since: date | None, until: date) -> BurntSince:
    r"""Wood burnt since something was last done, by the diary.

    Parameters
    ----------
    use_by_day : mapping
        Wood used by the day, as the diary's fold gives it.
    since : date or None
        The day it was last done; that day's wood counts as burnt before. All of the diary without one.
    until : date
        The day asked about.

    Returns
    -------
    BurntSince
        Weight as burnt and oven-dry, lightings, and days with use.

    Notes
    -----
    .. math:: m = \sum_{since < day \le until} m_{day}

    References
    ----------
    .. [1] The owner's diary, folded.

    Examples
    --------
    >>> burnt_since({}, None, date(2026, 1, 13)).mass_kg
    0.0
    """
    days = [use for day, use in use_by_day.items() if (since is None or day > since) and day <= until]
    return BurntSince(
        mass_kg=sum((one.mass_kg for one in days), 0.0),
        dry_kg=sum((one.dry_kg for one in days), 0.0),
        fires=sum(one.fires for one in days),
        fire_days=float(sum(1 for one in days if one.solid_m3 > 0.0 or one.fires > 0)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Ash:
    """Ash that an amount of wood leaves, by weight and by the bucket."""

    mass_kg: Kilogram
    litres: Litre


@worked
def ash_of(
    dry_kg: Kilogram,
    ash_share_dry: Share = 0.005,
    with_grit: Annotated[float, Unit("-"), Ge(1.0), Le(10.0)] = 2.5,
    density: Annotated[float, Unit("kg/L"), Gt(0.1), Le(2.0)] = 0.45,
) -> Ash:
    r"""Ash to be carried out after so much wood.

    Parameters
    ----------
    dry_kg : Kilogram
        Oven-dry wood burnt, :math:`m_0`. [kg]
    ash_share_dry : Share
        Ash of clean wood over dry mass, :math:`a`. [-]
    with_grit : float
        So many times as much comes out with bark, grit and charcoal, :math:`f`. [-] From 1 to 10.
    density : float
        Weight of a litre of ash as it lies, :math:`\rho`. [kg/L]

    Returns
    -------
    Ash
        Weight and volume.

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: m = f a m_0, \qquad V = m/\rho

    Your own buckets tell better: note the litres each time.

    References
    ----------
    .. [1] Ash content of broadleaved wood: half a per cent (read); two to three times as much in
       practice and the weight of a litre from memory.

    Examples
    --------
    >>> round(ash_of(640.0).litres)
    18
    """
    mass = ash_mass(dry_kg, ash_share_dry) * with_grit
    return Ash(mass_kg=mass, litres=mass / density)


@worked
def fire_days_due(use_by_day: Mapping[date, Use], last: date, days: Days, until: date) -> date:
    r"""Day on which a cleaning by days of fire was or will be due.

    Parameters
    ----------
    use_by_day : mapping
        Wood used by the day.
    last : date
        When it was last cleaned.
    days : Days
        Days of fire between. [day] Above 0, to 4000.
    until : date
        The day asked about.

    Returns
    -------
    date
        The day of the last of those fires; where there were fewer, as if each day from now had one.

    Raises
    ------
    OutOfRange
        If the days lie outside their range.

    Notes
    -----
    Days on which wood was used are counted, not hours.

    References
    ----------
    .. [1] Common practice, no published source.

    Examples
    --------
    >>> fire_days_due({}, date(2026, 1, 1), 14.0, date(2026, 1, 3))
    datetime.date(2026, 1, 17)
    """
    fired = sorted(
        day for day, use in use_by_day.items() if last < day <= until and (use.solid_m3 > 0.0 or use.fires)
    )
    number = max(1, round(days))
    if len(fired) >= number:
        return fired[number - 1]
    return until + timedelta(days=number - len(fired))


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
def fire_hours_since(
    burnt: BurntSince, burn_hours: Annotated[float, Unit("h"), Gt(0.0), Le(24.0)] = 5.0
) -> Annotated[float, Unit("h"), Ge(0.0)]:
    r"""Hours of fire since a part was fitted, from the lightings in the diary.

    Parameters
    ----------
    burnt : BurntSince
        What was burnt since.
    burn_hours : float
        Burning time of a full load. [h] Above 0, to 24.

    Returns
    -------
    float
        Hours, refills not counted. [h]

    Raises
    ------
    OutOfRange
        If the burning time lies outside its range.

    Notes
    -----
    .. math:: t = n\,t_b

    References
    ----------
    .. [1] The owner's diary; a counter on the boiler tells better.

    Examples
    --------
    >>> fire_hours_since(BurntSince(mass_kg=0.0, dry_kg=0.0, fires=100, fire_days=90.0))
    500.0
    """
    return burnt.fires * burn_hours


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
