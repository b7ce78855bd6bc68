"""Answers what happened, what is waiting for a word, and what does not add up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from woodreeve.diary.correct import corrected
from woodreeve.diary.entry import Entry
from woodreeve.diary.findings import Finding
from woodreeve.diary.fold import fold
from woodreeve.diary.quiet import quiet_days
from woodreeve.errors import Unknown
from woodreeve.records.asking import Asking
from woodreeve.weather.usual import usually_cold_days
from woodreeve.workings import Figure, Said, dated, figure

__all__ = ["DiaryAnswer", "answer", "history"]


@dataclass(frozen=True, slots=True)
class DiaryAnswer:
    """The diary, the newest entry first."""

    moment: datetime
    sentence: Said
    count: int
    latest: tuple[Entry, ...]
    corrected: dict[str, str]
    quiet_since: date | None
    usual_per_day_m3: Figure | None
    findings: tuple[Finding, ...]


def answer(asking: Asking) -> DiaryAnswer:
    """Answer for one holding at one moment.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather and the moment.

    Returns
    -------
    DiaryAnswer
        All entries up to the moment, newest first, with what a correction has made of each; since when
        nothing about fires was noted in heating weather; and the findings.
    """
    folded = asking.folded
    standing, _ = corrected(asking.entries)
    happened = [entry for entry in asking.entries if entry.happened <= asking.moment]
    stands = {one.entry.id: one.corrected_by for one in standing}
    marks = {
        entry.id: "struck_out" if entry.id not in stands else "put_right"
        for entry in happened
        if entry.kind != "correction" and (entry.id not in stands or stands[entry.id])
    }
    quiet_since, usual = _silence(asking)
    return DiaryAnswer(
        moment=asking.moment,
        sentence=_sentence(asking, len(happened)),
        count=len(happened),
        latest=tuple(reversed(happened)),
        corrected=marks,
        quiet_since=quiet_since,
        usual_per_day_m3=usual,
        findings=folded.findings,
    )


def history(asking: Asking, target: str) -> tuple[Entry, ...]:
    """An entry and the corrections that name it, the first one first.

    Parameters
    ----------
    asking : Asking
        The diary.
    target : str
        The entry's id.

    Returns
    -------
    tuple of Entry
        Empty if there is no such entry.
    """
    found = [entry for entry in asking.entries if entry.id == target]
    fixes = [
        entry
        for entry in asking.entries
        if entry.kind == "correction" and entry.payload.get("target") == target
    ]
    return (*found, *sorted(fixes, key=lambda entry: (entry.entered, entry.id)))


def _silence(asking: Asking) -> tuple[date | None, Figure | None]:
    told = asking.folded.burning_told_until
    if told is None:
        return None, None
    today = asking.moment.date()
    try:
        weather = asking.weather
    except Unknown:
        return None, None
    cold = usually_cold_days(weather, told, max(told, today), asking.holding.house.heating_limit_c)
    found = quiet_days(asking.folded, today, cold)
    if found is None:
        return None, None
    usual = found.usual_per_day_m3
    shown = None if usual is None else figure(usual, "m3", quiet_days, basis="solid, a day")
    return found.since, shown


def _sentence(asking: Asking, count: int) -> Said:
    folded = asking.folded
    if count == 0:
        return Said("diary.empty")
    if folded.findings:
        return Said("diary.look", {"count": count, "findings": len(folded.findings)})
    if not folded.fires:
        return Said("diary.no_fires", {"count": count})
    return Said("diary.up_to_date", {"count": count, "day": dated(folded.fires[-1].happened.date(), fold)})
