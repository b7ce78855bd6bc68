"""Before any fire: whether the boiler's heat has a proven way out when the power fails."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

from woodreeve.diary.folded import Event
from woodreeve.diary.payloads_plant import Tested
from woodreeve.plant.fields import HeatEscape, Plant
from woodreeve.workings import worked

__all__ = ["EscapeGap", "EscapeVerdict", "escape_gap_on", "heat_escape_gap", "needs_no_power"]

EscapeVerdict: TypeAlias = Literal["ok", "old_test", "failed_test", "untested", "none", "not_known"]

TESTED_WITHIN_DAYS = 366
"""A test is old after so many days. [day] (A boiler maker's manual, name withheld, asks for one a year.)"""

_BEST_FIRST: tuple[EscapeVerdict, ...] = ("ok", "old_test", "untested", "failed_test", "not_known", "none")


@dataclass(frozen=True, slots=True, kw_only=True)
class EscapeGap:
    """What is on record about heat leaving the boiler without power.

    Parameters
    ----------
    verdict : str
        ``ok``: there is a way and its test is not old; ``old_test``; ``failed_test``; ``untested``: there is
        a way without a test on record; ``none``: what is on record fails with the power; ``not_known``:
        nothing is on record, or not what its water comes from.
    key : str
        Key of the sentence.
    kind : str or None
        Which way.
    tested_on : date or None
        Day of its last test.
    pumped : bool
        Whether a thermal discharge hangs on an electric pump, so that a power cut takes it away too.
    """

    verdict: EscapeVerdict
    key: str
    kind: str | None = None
    tested_on: date | None = None
    pumped: bool = False

    @property
    def is_gap(self) -> bool:
        """Whether the owner must be told before anything is said about lighting."""
        return self.verdict != "ok"


def needs_no_power(escape: HeatEscape, plant: Plant) -> bool | None:
    """Whether a way for heat works without electricity; ``None`` if that has not been told."""
    if escape.kind is None:
        return None
    if escape.kind == "standby_power":
        return False
    if escape.kind == "thermal_discharge":
        return None if escape.supply is None else escape.supply in ("mains", "gravity_spring")
    if escape.kind == "open_vent":
        return not (plant.water.system == "closed" or plant.water.vent_free == "no")
    return True


@worked
def heat_escape_gap(
    plant: Plant, today: date, tests: Sequence[date] = (), failed_tests: Sequence[date] = ()
) -> EscapeGap:
    r"""Whether a power-independent way for the boiler's heat is on record, with a test that is not old.

    A log fire cannot be switched off. When pump and fan stop, its heat must still go somewhere; this is
    looked at before anything is said about lighting.

    Parameters
    ----------
    plant : Plant
        The plant as its owner describes it.
    today : date
        The day asked about.
    tests : sequence of date
        Further days, from the diary, on which the way for heat was tested and found good.
    failed_tests : sequence of date
        Days, from the diary, on which it was tested and found wanting.

    Returns
    -------
    EscapeGap
        The verdict on the best way there is.

    Notes
    -----
    .. math:: \text{needs no power} \;\wedge\; \text{today} - \text{last good test} \le 366\,\text{d}

    A battery for the pump is no such way; a thermal discharge is one only if its cold water comes by
    itself, from the mains or a spring above; an electric well pump fails with the power. Tests in the diary
    do not name the device and are taken to be of the best one. Says what is on record, never that a
    plant is safe.

    References
    ----------
    .. [1] sbba.se, on wood boilers and thermal discharge; glossary of a fuel trade site (name withheld),
       thermal discharge (read): it must not depend on mains electricity, opens near 95 °C.
    .. [2] A boiler maker's manual (read, name withheld): yearly check; no home water supply that needs
       electricity.
    """
    found = [
        _judged(escape, needs_no_power(escape, plant), today, tests, failed_tests)
        for escape in plant.heat_escapes
    ]
    pumped = any(
        one.kind == "thermal_discharge" and one.supply == "electric_pump" for one in plant.heat_escapes
    )
    best = min(found, key=lambda one: _BEST_FIRST.index(one[0]), default=("not_known", None, None))
    verdict, kind, tested_on = best
    return EscapeGap(verdict=verdict, key=f"escape.{verdict}", kind=kind, tested_on=tested_on, pumped=pumped)


def escape_gap_on(plant: Plant, events: Mapping[str, Sequence[Event]], today: date) -> EscapeGap:
    """The same, with the tests that stand in the diary.

    Parameters
    ----------
    plant : Plant
        The plant as its owner describes it.
    events : mapping
        The diary's entries by kind, as :func:`woodreeve.diary.fold.fold` gives them.
    today : date
        The day asked about.

    Returns
    -------
    EscapeGap
        The verdict.
    """
    told = [(event.happened.date(), event.payload) for event in events.get("tested", ())]
    good, not_good = (
        [
            day
            for day, one in told
            if isinstance(one, Tested) and one.what == "heat_escape" and one.result == result
        ]
        for result in ("good", "not_good")
    )
    return heat_escape_gap(plant, today, good, not_good)


def _judged(
    escape: HeatEscape,
    works: bool | None,
    today: date,
    tests: Sequence[date],
    failed_tests: Sequence[date],
) -> tuple[EscapeVerdict, str | None, date | None]:
    if works is None:
        return "not_known", escape.kind, None
    if not works:
        return "none", escape.kind, None
    own = [] if escape.tested_on is None else [escape.tested_on]
    last = max((day for day in (*own, *tests) if day <= today), default=None)
    failed = max((day for day in failed_tests if day <= today), default=None)
    if failed is not None and (last is None or failed >= last):
        return "failed_test", escape.kind, failed
    if last is None:
        return "untested", escape.kind, None
    verdict: EscapeVerdict = "ok" if (today - last).days <= TESTED_WITHIN_DAYS else "old_test"
    return verdict, escape.kind, last
