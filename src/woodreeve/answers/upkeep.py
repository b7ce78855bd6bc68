"""Answers what is due on the plant, what was left out, and why it matters."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Literal, TypeAlias

from woodreeve.diary.folded import Event
from woodreeve.diary.payloads_plant import Checked, Fitted
from woodreeve.plant.checks.flue_checks import last_swept
from woodreeve.plant.checks.rules import Nation
from woodreeve.plant.checks.verdict import Facts
from woodreeve.plant.upkeep import (
    due_after,
    due_after_days,
    first_fire_list_due,
    last_fire_list_due,
    part_due,
    sweep_interval,
)
from woodreeve.plant.upkeep_data import (
    AshRule,
    Duty,
    Part,
    Steps,
    Task,
    ash_rules,
    duties,
    lists,
    parts,
    tasks,
)
from woodreeve.plant.upkeep_use import ash_of, burnt_since, fire_days_due, fire_hours_since
from woodreeve.records.asking import Asking
from woodreeve.workings import Dated, Figure, Said, dated, figure

__all__ = ["AshLine", "PartLine", "Skipped", "State", "TaskLine", "UpkeepAnswer", "answer"]

State: TypeAlias = Literal["overdue", "due", "soon", "later", "not_known"]
"""How a task stands; ``not_known`` where nobody said when it was last done."""

SOON_DAYS = 30
"""Due within so many days is soon. [day]"""
OVERDUE_DAYS = 30
"""Past by more than so many days is overdue. [day]"""

ENTRIES: dict[str, tuple[tuple[str, str], ...]] = {
    "ash": (("ash_out", ""),),
    "flueways": (
        ("cleaned", "flueways"),
        ("cleaned", "weekly_clean"),
        ("cleaned", "burning_chamber"),
        ("cleaned", "yearly_clean"),
    ),
    "yearly_clean": (("cleaned", "yearly_clean"),),
    "sweep": (("swept", ""),),
    "service": (("serviced", "log_boiler"),),
    "heat_escape": (("tested", "heat_escape"),),
    "safety_valve": (("tested", "safety_valve"), ("fitted", "safety_valve")),
    "vessel_pressure": (("tested", "vessel_pressure"), ("fitted", "expansion_vessel")),
    "co_alarm": (("tested", "co_alarm"), ("fitted", "co_alarm")),
    "moisture_meter": (("tested", "moisture_meter"),),
    "chimney": (("tested", "chimney"), ("swept", "")),
    "before_first_fire": (("checked", "before_first_fire"),),
    "after_last_fire": (("checked", "after_last_fire"),),
}
"""Which entries of the diary say that a task was done."""


@dataclass(frozen=True, slots=True)
class TaskLine:
    """One task: when it was last done, when it is due, and how it stands."""

    task: Task
    state: State
    last: date | None
    due: Dated | None
    field: str
    """Where else the owner can tell when it was last done; empty where only the diary tells."""
    entry: str
    """The kind of entry that says it was done."""


@dataclass(frozen=True, slots=True)
class AshLine:
    """Ash since it was last taken out."""

    since: date | None
    burnt_kg: Figure
    mass_kg: Figure
    litres: Figure
    room_litres: Figure


@dataclass(frozen=True, slots=True)
class PartLine:
    """A part that wears: since when it is in, what it has done, what it cost, when to look."""

    part: Part
    fitted: date | None
    hours: Figure | None
    price: Figure | None
    look_by: Dated | None
    state: State


@dataclass(frozen=True, slots=True)
class Skipped:
    """Something left out, as a list of the diary or the calendar tells."""

    what: str
    on: date
    why: str
    from_list: bool


@dataclass(frozen=True, slots=True)
class UpkeepAnswer:
    """What is due, what was skipped, and the lists."""

    moment: datetime
    sentence: Said
    nation: Nation
    tasks: tuple[TaskLine, ...]
    ash: AshLine
    skipped: tuple[Skipped, ...]
    lists: tuple[Steps, ...]
    parts: tuple[PartLine, ...]
    ash_rules: tuple[AshRule, ...]
    duties: tuple[Duty, ...]


def answer(asking: Asking) -> UpkeepAnswer:
    """Answer for one holding at one moment.

    Parameters
    ----------
    asking : Asking
        The holding, its diary and the moment.

    Returns
    -------
    UpkeepAnswer
        Tasks, what is due first; ash by the wood burnt, what was left out, lists, parts, and the duties of
        the nation.
    """
    facts = Facts(
        plant=asking.holding.plant,
        nation=asking.holding.place.nation or "other",
        on=asking.moment.date(),
        events=asking.folded.events,
    )
    ash = _ash(asking, facts)
    lines = [_line(task, asking, facts, ash) for task in tasks() if _concerns(task, facts)]
    order = {"overdue": 0, "due": 1, "soon": 2, "not_known": 3, "later": 4}
    lines.sort(key=lambda one: (order[one.state], one.due.value if one.due else date.max))
    worn = tuple(_part(one, asking, facts) for one in parts())
    return UpkeepAnswer(
        moment=asking.moment,
        sentence=_sentence(lines, ash, worn),
        nation=facts.nation,
        tasks=tuple(lines),
        ash=ash,
        skipped=_skipped(lines, facts),
        lists=lists(),
        parts=worn,
        ash_rules=ash_rules(),
        duties=duties(facts.nation, facts.on),
    )


def _concerns(task: Task, facts: Facts) -> bool:
    """Whether this plant has what the task looks after."""
    plant = facts.plant
    if task.key == "heat_escape":
        return plant.water.system != "open" or bool(plant.heat_escapes)
    if task.key in ("safety_valve", "vessel_pressure"):
        return plant.water.system != "open"
    return True


def _says(event: Event, kind: str, what: str) -> bool:
    told = getattr(event.payload, "part" if kind == "fitted" else "what", "")
    result = getattr(event.payload, "result", "good")
    return (not what or told == what) and result != "not_good"


def _last(task: str, asking: Asking, facts: Facts) -> date | None:
    """When a task was last done, by diary or holding."""
    plant = asking.holding.plant
    days = [
        event.happened.date()
        for kind, what in ENTRIES[task]
        for event in facts.of(kind)
        if _says(event, kind, what)
    ]
    told: list[date | None] = []
    if task == "sweep" or task == "chimney":
        told = [last_swept(facts)]
    elif task == "heat_escape":
        told = [one.tested_on for one in plant.heat_escapes]
    elif task == "co_alarm":
        told = [plant.room.co_alarm_tested_on]
    elif task == "moisture_meter":
        told = [one.oven_checked_on for one in asking.holding.yard.meters]
    days += [one for one in told if one is not None and one <= facts.on]
    return max(days, default=None)


FIELDS = {
    "sweep": "plant.flue.swept_on",
    "heat_escape": "plant.heat_escapes[0].tested_on",
    "co_alarm": "plant.room.co_alarm_tested_on",
    "moisture_meter": "yard.meters[0].oven_checked_on",
}
"""Fields of the holding that also tell when something was last done."""


def _line(task: Task, asking: Asking, facts: Facts, ash: AshLine) -> TaskLine:
    last = _last(task.key, asking, facts)
    due = _due(task.key, last, asking, facts)
    state = _state(due.value if due else None, facts.on)
    if task.key == "ash":
        full = ash.litres.value / ash.room_litres.value
        state = "overdue" if full >= 2.0 else "due" if full >= 1.0 else "soon" if full >= 0.8 else "later"
    elif task.key == "before_first_fire" and state == "due" and asking.folded.fires:
        # A fire was lit without the list: that is past mending by waiting.
        lit = asking.folded.fires[-1].happened.date()
        state = "overdue" if due is not None and lit >= due.value else state
    return TaskLine(task, state, last, due, FIELDS.get(task.key, ""), ENTRIES[task.key][0][0])


def _due(task: str, last: date | None, asking: Asking, facts: Facts) -> Dated | None:
    every = facts.plant.upkeep
    if task == "before_first_fire":
        return dated(first_fire_list_due(facts.on, last), first_fire_list_due)
    if task == "after_last_fire":
        return dated(last_fire_list_due(facts.on, last), last_fire_list_due)
    if last is None or task == "ash":
        return None
    if task == "flueways":
        use = asking.folded.use_by_day
        return dated(fire_days_due(use, last, every.flueways_days, facts.on), fire_days_due)
    if task == "co_alarm":
        return dated(due_after_days(last, every.alarm_days), due_after_days)
    months = {
        "sweep": lambda: sweep_interval(facts.nation, facts.on, every.sweep_months),
        "yearly_clean": lambda: every.yearly_months,
        "service": lambda: every.service_months,
        "heat_escape": lambda: every.safety_months,
        "safety_valve": lambda: every.safety_months,
        "vessel_pressure": lambda: every.vessel_months,
        "moisture_meter": lambda: every.meter_months,
        "chimney": lambda: every.chimney_months,
    }[task]()
    return dated(due_after(last, months), due_after)


def _state(due: date | None, today: date) -> State:
    if due is None:
        return "not_known"
    left = (due - today).days
    if left < -OVERDUE_DAYS:
        return "overdue"
    if left <= 0:
        return "due"
    return "soon" if left <= SOON_DAYS else "later"


def _ash(asking: Asking, facts: Facts) -> AshLine:
    since = _last("ash", asking, facts)
    burnt = burnt_since(asking.folded.use_by_day, since, facts.on)
    ash = ash_of(burnt.dry_kg)
    return AshLine(
        since=since,
        burnt_kg=figure(burnt.mass_kg, "kg", burnt_since, basis="as burnt"),
        mass_kg=figure(ash.mass_kg, "kg", ash_of),
        litres=figure(ash.litres, "L", ash_of),
        room_litres=figure(facts.plant.upkeep.ash_litres, "L", "holding: plant.upkeep.ash_litres"),
    )


def _part(part: Part, asking: Asking, facts: Facts) -> PartLine:
    fitted: list[tuple[Event, Fitted]] = [
        (one, one.payload)
        for one in facts.of("fitted")
        if isinstance(one.payload, Fitted) and one.payload.part == part.key
    ]
    day = fitted[-1][0].happened.date() if fitted else facts.plant.installed_on
    if day is None:
        return PartLine(part, None, None, None, None, "not_known")
    burnt = burnt_since(asking.folded.use_by_day, day, facts.on)
    # Hours of fire are told only where the diary reaches back to the day.
    reaches = bool(asking.folded.use_by_day) and min(asking.folded.use_by_day) <= day
    burn_hours = facts.plant.boiler.burn_hours
    hours = fire_hours_since(burnt) if burn_hours is None else fire_hours_since(burnt, burn_hours)
    cost = fitted[-1][1].cost if fitted else None
    look_by = dated(part_due(part.key, day), part_due)
    return PartLine(
        part=part,
        fitted=day,
        hours=figure(hours, "h", fire_hours_since, basis="of fire, by the diary") if reaches else None,
        price=None if cost is None else figure(cost, asking.holding.prices.currency or "money", "fold"),
        look_by=look_by,
        state=_state(look_by.value, facts.on),
    )


def _skipped(lines: list[TaskLine], facts: Facts) -> tuple[Skipped, ...]:
    """What lists of the last year left out, and what is overdue."""
    found = [
        Skipped(one.task.what, one.due.value, one.task.why, False)
        for one in lines
        if one.state == "overdue" and one.due is not None
    ]
    why = {one.task.key: one.task.why for one in lines}
    for event in facts.of("checked"):
        told = event.payload
        if isinstance(told, Checked) and (facts.on - event.happened.date()).days <= 366:
            reason = why.get(told.what, "")
            found += [Skipped(item, event.happened.date(), reason, True) for item in told.skipped]
    return tuple(found)


def _sentence(lines: list[TaskLine], ash: AshLine, worn: Sequence[PartLine]) -> Said:
    """Say what is due first, then parts to look at, then the next task that has a day."""
    due = [one for one in lines if one.state in ("overdue", "due")]
    values: dict[str, Any] = {"count": len(due)}
    for number, one in enumerate(due[:3]):
        values[f"due_{number}"] = _clause(one, ash)
    to_look_at = [one for one in worn if one.state in ("overdue", "due")]
    if to_look_at:
        values |= {"worn": len(to_look_at), "part": to_look_at[0].part.what}
    coming = [one for one in lines if one.state in ("soon", "later") and one.due is not None]
    nearly = [one for one in lines if one.task.key == "ash" and one.state == "soon"]
    coming.sort(key=lambda one: one.due.value if one.due else date.max)
    if nearly or coming:
        values["next"] = _clause((nearly or coming)[0], ash)
    unknown = [one for one in lines if one.state == "not_known"]
    if unknown:
        values["unknown"] = unknown[0].task.key
    return Said("upkeep.tasks", values)


def _clause(one: TaskLine, ash: AshLine) -> Said:
    values: dict[str, Any] = {"task": one.task.key, "state": one.state}
    if one.task.key == "ash":
        values["burnt"] = ash.burnt_kg
        if ash.since is not None:
            values["since"] = ash.since.isoformat()
    if one.due is not None:
        values["day"] = one.due
    return Said("upkeep.task", values)
