"""A check and its verdict in words: fits, tight, does not fit, or not known, with what is missing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal, TypeAlias

from woodreeve.diary.folded import Event
from woodreeve.errors import OutOfRange
from woodreeve.plant.checks.rules import Nation, Rule, Topic, rule_for, topic
from woodreeve.plant.fields import Plant
from woodreeve.workings import Dated, Figure

__all__ = [
    "TIGHT",
    "Check",
    "Facts",
    "Meant",
    "Verdict",
    "at_least",
    "at_most",
    "check",
    "of_yes_no",
    "unknown",
]

Verdict: TypeAlias = Literal["fits", "tight", "does_not_fit", "not_known"]
"""What a check ends in; ``not_known`` is a verdict like the others and asks for what is missing."""

Meant: TypeAlias = Literal["at_least", "at_most", "about", ""]
"""How the figure wanted is meant."""

TIGHT = 0.10
"""Closer than this share to its limit, a figure that keeps it is called tight. Judgement. [-]"""


@dataclass(frozen=True, slots=True)
class Check:
    """One check of the plant.

    Parameters
    ----------
    key : str
        Its name, such as ``water.vessel_110``.
    topic : Topic
        What is checked, what it would take, and the caution, in words.
    verdict : Verdict
        The verdict.
    rule : Rule or None
        Which rule wants it; ``None`` where none of this nation was read.
    yours : Figure, Dated, date, str or None
        What you have; a text is a code for a word.
    wanted : Figure or None
        What the rule wants.
    meant : str
        Whether ``wanted`` is a least or a most.
    missing : tuple of str
        Fields of the holding that would have to be told.
    """

    key: str
    topic: Topic
    verdict: Verdict
    rule: Rule | None
    yours: Figure | Dated | date | str | None = None
    wanted: Figure | None = None
    meant: Meant = ""
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the checks look at.

    Parameters
    ----------
    plant : Plant
        The plant as told.
    nation : Nation
        Whose rules hold.
    on : date
        The day asked about.
    design_load_kw : float, optional
        Heat the house takes on its coldest day.
    design_by : str
        Name of the formula that gave it.
    events : mapping
        The diary's entries by kind.
    """

    plant: Plant
    nation: Nation
    on: date
    design_load_kw: float | None = None
    design_by: str = "demand"
    events: Mapping[str, tuple[Event, ...]] = field(default_factory=dict)

    def of(self, *kinds: str) -> Iterator[Event]:
        """The entries of some kinds up to the day asked about."""
        for kind in kinds:
            yield from (one for one in self.events.get(kind, ()) if one.happened.date() <= self.on)


def at_least(yours: float, wanted: float, tight: float = TIGHT) -> Verdict:
    """Judge a figure that must not be smaller than another."""
    if yours < wanted:
        return "does_not_fit"
    return "tight" if yours < wanted * (1.0 + tight) else "fits"


def at_most(yours: float, wanted: float, tight: float = TIGHT) -> Verdict:
    """Judge a figure that must not be larger than another."""
    if yours > wanted:
        return "does_not_fit"
    return "tight" if yours > wanted * (1.0 - tight) else "fits"


def of_yes_no(told: str | None, good: str = "yes") -> Verdict:
    """Judge an answer of yes or no."""
    if told is None:
        return "not_known"
    return "fits" if told == good else "does_not_fit"


def softened(verdict: Verdict) -> Verdict:
    """What only a habit asks for can be tight, but no habit says that something does not fit."""
    return "tight" if verdict == "does_not_fit" else verdict


def check(
    facts: Facts,
    key: str,
    verdict: Verdict,
    *,
    yours: Figure | Dated | date | str | None = None,
    wanted: Figure | None = None,
    meant: Meant = "",
) -> Check:
    """Put a check together with its words and the rule that holds; law without a rule read is not known."""
    words = topic(key)
    rule = rule_for(key, facts.nation, facts.on)
    if rule is None:
        return Check(key, words, "not_known", None, yours, wanted, meant)
    if rule.force == "habit":
        verdict = softened(verdict)
    return Check(key, words, verdict, rule, yours, wanted, meant)


def unknown(facts: Facts, key: str, *missing: str) -> Check:
    """Say that a check cannot be said, and which fields it waits for.

    Raises
    ------
    OutOfRange
        If nothing is named that could be told.
    """
    if not missing:
        raise OutOfRange("missing", "empty", "at least one field to tell")
    return Check(key, topic(key), "not_known", rule_for(key, facts.nation, facts.on), missing=missing)
