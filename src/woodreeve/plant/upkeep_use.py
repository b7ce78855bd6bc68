"""Upkeep by use: wood burnt since a day, the ash it leaves, and cleanings by days of fire."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated

from woodreeve.diary.folded import Use
from woodreeve.units import Ge, Gt, Kilogram, Le, Litre, Share, Unit
from woodreeve.wood.burning import ash_mass
from woodreeve.workings import worked

__all__ = ["Ash", "BurntSince", "ash_of", "burnt_since", "fire_days_due", "fire_hours_since"]

Days = Annotated[float, Unit("day"), Gt(0.0), Le(4000.0)]
FireDays = Annotated[float, Unit("day"), Ge(0.0)]


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
