"""Words of the plant's checks and upkeep: verdicts, marks, codes, and the sentences that count."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from functools import lru_cache
from typing import Any

from woodreeve.errors import UnknownName
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_at, field_tree
from woodreeve.wording.numbers import day, day_and_month, month, text
from woodreeve.wording.translate import N_, _, ngettext
from woodreeve.workings import Dated, Figure, Said

__all__ = [
    "FILTERS",
    "MARKS",
    "checks_sentence",
    "field_address",
    "field_words",
    "upkeep_sentence",
    "value_words",
    "words",
]

MARKS: Mapping[str, str] = {
    "fits": "✓",
    "tight": "≈",
    "does_not_fit": "✗",
    "not_known": "?",
    "overdue": "✗",
    "due": "!",
    "soon": "≈",
    "later": "✓",
}
"""A mark for each verdict and state, always beside its word."""

_WORDS: Mapping[str, str] = {
    "fits": N_("fits"),
    "tight": N_("tight"),
    "does_not_fit": N_("does not fit"),
    "not_known": N_("not known"),
    "overdue": N_("overdue"),
    "due": N_("due"),
    "soon": N_("due soon"),
    "later": N_("not due yet"),
    "store": N_("Store"),
    "boiler": N_("Boiler"),
    "water": N_("Heating water"),
    "escape": N_("Ways out for heat"),
    "pipes": N_("Pipes"),
    "heating": N_("Heating circuits"),
    "hot_water": N_("Hot water"),
    "flue": N_("Flue"),
    "room": N_("Boiler room"),
    "read": N_("read at its source"),
    "memory": N_("from memory: verify before you rely on it"),
    "worked_out": N_("worked out from physics"),
    "practice": N_("common practice, no published source"),
    "judgement": N_("our judgement"),
    "law": N_("law"),
    "standard": N_("standard"),
    "physics": N_("physics"),
    "habit": N_("habit of the trade"),
    "myself": N_("yourself"),
    "sweep": N_("the sweep"),
    "fitter": N_("a fitter"),
    "competent_person": N_("a competent person"),
    "england": N_("England"),
    "wales": N_("Wales"),
    "scotland": N_("Scotland"),
    "northern_ireland": N_("Northern Ireland"),
    "ireland": N_("Ireland"),
    "germany": N_("Germany"),
    "austria": N_("Austria"),
    "switzerland": N_("Switzerland"),
    "other": N_("another nation"),
    "yes": N_("yes"),
    "no": N_("no"),
    "mains": N_("from the mains"),
    "gravity_spring": N_("from a spring above"),
    "electric_pump": N_("by an electric pump"),
    "thermal_discharge": N_("thermal discharge"),
    "open_vent": N_("open vent"),
    "gravity_radiator": N_("radiator fed by gravity"),
    "standby_power": N_("battery for the pump"),
    "tested_badly": N_("failed its test"),
    "demineralised": N_("demineralised"),
    "never_topped_up": N_("never"),
    "topped_up_once": N_("once"),
    "topped_up_twice": N_("twice"),
    "topped_up_often": N_("three times or more"),
    "at_least": N_("at least"),
    "at_most": N_("at most"),
    "about": N_("about"),
}

_NUMBERS = (
    N_("no"),
    N_("one"),
    N_("two"),
    N_("three"),
    N_("four"),
    N_("five"),
    N_("six"),
    N_("seven"),
    N_("eight"),
    N_("nine"),
    N_("ten"),
    N_("eleven"),
    N_("twelve"),
)

_TASKS: Mapping[str, str] = {
    "ash": N_("ash"),
    "flueways": N_("cleaning the flueways"),
    "yearly_clean": N_("the great cleaning"),
    "sweep": N_("the sweep"),
    "service": N_("the service"),
    "heat_escape": N_("the test of the heat escape"),
    "safety_valve": N_("the test of the safety valve"),
    "vessel_pressure": N_("the vessel's gas pressure"),
    "co_alarm": N_("the carbon monoxide alarm's test"),
    "moisture_meter": N_("the moisture meter's check"),
    "chimney": N_("a look at the chimney"),
    "before_first_fire": N_("the list before the first fire"),
    "after_last_fire": N_("the list after the last fire"),
}
"""What each task is called inside a sentence."""


def words(code: str) -> str:
    """A code of checks or upkeep in words."""
    return _(_WORDS.get(code, code.replace("_", " ")))


def value_words(value: Figure | Dated | date | str | None, measures: Mapping[str, str] | None = None) -> str:
    """What an owner has, in words: a figure with its unit, a day, or a code."""
    if isinstance(value, date):
        return day(value)
    if isinstance(value, str):
        return _(_WORDS[value]) if value in _WORDS else value
    return "–" if value is None else text(value, measures)


@lru_cache(maxsize=256)
def field_words(path: str) -> str:
    """What a field of the holding, or a kind of entry, is called: "Vessel's gas pressure"."""
    section, colon, kind = path.partition(": ")
    if colon:
        return _("an entry in the {section}: {kind}").format(section=section, kind=kind.replace("_", " "))
    if path == "house":
        return _("House")
    try:
        return _(field_at(field_tree(Holding), path).label)
    except UnknownName:
        return path


def field_address(path: str) -> str:
    """The page on which a field is told."""
    section, colon, kind = path.partition(": ")
    if colon:
        return f"/{section}/{kind}"
    return f"/holding/{path.rsplit('.', 1)[0]}" if "." in path else f"/holding/{path}"


def _number(count: int) -> str:
    return _(_NUMBERS[count]) if count < len(_NUMBERS) else str(count)


def _joined(parts: list[str]) -> str:
    if len(parts) < 2:
        return "".join(parts)
    return _("{some} and {last}").format(some=", ".join(parts[:-1]), last=parts[-1])


def _capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def checks_sentence(values: Mapping[str, Any], measures: Mapping[str, str] | None = None) -> str:
    """Count the verdicts: "Eleven checks fit, two are tight, and three cannot be said"."""
    counts = {name: int(values.get(name, 0)) for name in ("fits", "tight", "does_not_fit", "not_known")}
    one_and_many = {
        "fits": (N_("{n} check fits"), N_("{n} checks fit")),
        "tight": (N_("{n} is tight"), N_("{n} are tight")),
        "does_not_fit": (N_("{n} does not fit"), N_("{n} do not fit")),
        "not_known": (N_("{n} cannot be said"), N_("{n} cannot be said")),
    }
    parts = [
        _(one_and_many[name][0 if count == 1 else 1]).format(n=_number(count))
        for name, count in counts.items()
        if count or name == "fits"
    ]
    said = _capital(_joined(parts))
    first = values.get("first")
    return f"{said}: {_('first tell')} “{field_words(str(first))}”." if first else f"{said}."


def upkeep_sentence(values: Mapping[str, Any], measures: Mapping[str, str] | None = None) -> str:
    """Say what is due and what comes next: "Ash is due; the sweep is due in March"."""
    due = [_clause(values[f"due_{number}"], measures) for number in range(3) if f"due_{number}" in values]
    clauses = list(due)
    more = int(values.get("count", 0)) - len(due)
    if more > 0:
        clauses.append(_("{n} more are due").format(n=_number(more)))
    worn, part = int(values.get("worn", 0)), _(str(values.get("part", "")))
    if not due:
        clauses.append(_("no task is due") if worn else _("nothing is due"))
    if worn:
        said = ngettext(
            "a part is due for a look ({part})", "{n} parts are due for a look (first: {part})", worn
        )
        clauses.append(said.format(n=_number(worn), part=part[:1].lower() + part[1:]))
    if "next" in values:
        clauses.append(_clause(values["next"], measures))
    if "unknown" in values:
        task = _(_TASKS[str(values["unknown"])])
        clauses.append(_("when {task} was last done is not known").format(task=task))
    return _capital("; ".join(clauses)) + "."


def _clause(said: Said, measures: Mapping[str, str] | None) -> str:
    values = said.values
    task = _(_TASKS[str(values["task"])])
    state, due, wood = values["state"], values.get("day"), values.get("burnt")
    if isinstance(wood, Figure):
        is_due = _("{task} is due soon") if state == "soon" else _("{task} is due")
        since = values.get("since")
        burnt = _("(about {burnt} burnt)")
        if since:
            burnt = _("(about {burnt} burnt since {since})")
        first = day_and_month(date.fromisoformat(str(since))) if since else ""
        # "About": two digits are all that logs counted by the armful can bear.
        about = replace(wood, low=0.93 * wood.value, high=1.07 * wood.value)
        return f"{is_due} {burnt}".format(task=task, burnt=text(about, measures), since=first)
    if isinstance(due, Dated):
        if state == "overdue":
            return _("{task} has been due since {day}").format(task=task, day=day(due.value))
        if state == "soon":
            return _("{task} is due on {day}").format(task=task, day=day_and_month(due.value))
        if state == "later":
            return _("{task} is due in {month}").format(task=task, month=month(due.value))
    return _("{task} is due").format(task=task)


FILTERS: Mapping[str, Callable[..., Any]] = {
    "words": words,
    "mark": lambda code: MARKS.get(code, ""),
    "field_words": field_words,
    "field_address": field_address,
    "value_words": value_words,
    "translated": lambda given: _(given),
}
"""Filters for templates."""
