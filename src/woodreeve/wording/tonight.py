"""Words of the evening's plan: its sentence in the owner's measures, times of the week, money and ways."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from functools import partial
from typing import Any

from babel.dates import format_datetime
from babel.numbers import format_currency

from woodreeve.wording.numbers import LOCALE, number, text
from woodreeve.wording.translate import N_, _, ngettext
from woodreeve.workings import Figure

__all__ = [
    "SENTENCES",
    "carried_words",
    "fill_words",
    "hours_words",
    "money_words",
    "term_words",
    "time_words",
    "way_words",
    "weekday_words",
]

_TWELFTHS = (
    "",
    N_("a few logs of a"),
    N_("a sixth of a"),
    N_("a quarter of a"),
    N_("a third of a"),
    N_("nearly half a"),
    N_("half a"),
    N_("a good half of a"),
    N_("two thirds of a"),
    N_("three quarters of a"),
    N_("five sixths of a"),
    N_("nearly a full"),
    N_("a full"),
)
"""Parts of a fill by the twelfth."""

_WAYS: Mapping[str, str] = {
    "plan": N_("The plan"),
    "nothing": N_("No fire at all"),
    "tonight": N_("A fire tonight"),
    "later": N_("An hour later"),
    "less": N_("A quarter load less"),
    "other_stack": N_("Another stack"),
    "rule": N_("The rule of thumb"),
}

_TERMS: Mapping[str, str] = {
    "wood": N_("wood"),
    "visits": N_("lighting and refilling"),
    "backup": N_("backup"),
    "cold_rooms": N_("cold rooms"),
    "hot_water": N_("hot water short"),
    "electricity": N_("electricity"),
    "heat_left": N_("what follows: heat left at the end, cold and mild case weighed"),
}

_BY: Mapping[str, str] = {
    "maker": N_("the maker"),
    "nation": N_("the law"),
    "owner": N_("your own limit"),
}

_SAID: Mapping[str, str] = {
    "light": N_("Light {at} with {much} ({stack}){carried}; {then}."),
    "refill": N_("A fire burns: {at}, once only embers are left, lay on {much} ({stack}){carried}; {then}."),
    "warm_enough": N_("Do not light: the store is warm enough; {lasts}."),
    "wait": N_("Do not light tonight: {lasts}. Light {at} with {much} ({stack}){carried}."),
    "wait_cheaper": N_(
        "Do not light tonight: a fire later costs less, though the store is used up before. Light {at} with "
        "{much} ({stack}){carried}."
    ),
    "nobody": N_("Do not light: nobody is there to tend a fire before {chance}; {lasts}."),
    "nobody_at_all": N_("Do not light: nobody is there to tend a fire in the next six days; {lasts}."),
    "no_room": N_("Do not light: the store has no room for a fire; {lasts}."),
    "no_wood": N_(
        "Do not light on this wood: the driest left, {stack}, is {moisture} water, and {by} allows {limit}."
    ),
    "not_measured": N_("Do not light on wood that nobody has measured: begin with {stack}."),
    "none_left": N_("Do not light: the diary has no split wood left."),
    "cheaper_not": N_("Do not light: letting the backup help costs less than a fire; {lasts}."),
    "failed_test": N_(
        "Do not light: the way for the boiler's heat in a power cut failed its test. No fire before a "
        "qualified installer has put it right."
    ),
    "unknown": N_("Whether to light cannot be said yet."),
}


def fill_words(fills: Figure, fill: str, fills_name: str = "") -> str:
    """A part of the boiler's fill, to the twelfth: "two thirds of a fill"."""
    twelfths = round(12.0 * fills.value)
    if twelfths <= 12:
        return f"{_(_TWELFTHS[max(twelfths, 1)])} {fill}"
    return f"{number(fills.value)} {fills_name or fill}"


def carried_words(carried: Figure, one: str, many: str) -> str:
    """Barrows or baskets, to the half: "half a barrow", "one and a half barrows"."""
    halves = round(2.0 * carried.value)
    if halves == 1:
        return _("half a {container}").format(container=one)
    if halves == 2:
        return _("one {container}").format(container=one)
    names = {3: _("one and a half"), 4: _("two"), 5: _("two and a half"), 6: _("three")}
    return f"{names.get(halves, number(carried.value))} {many}"


def weekday_words(at: datetime) -> str:
    """A time of the week: "Thursday 07:00"."""
    return format_datetime(at, "EEEE HH:mm", tzinfo=at.tzinfo, locale=LOCALE)


def time_words(at: datetime, now: datetime) -> str:
    """When to do something, seen from now: "at 18:15", "tomorrow at 06:30", "on Thursday at 07:00"."""
    clock = format_datetime(at, "HH:mm", tzinfo=at.tzinfo, locale=LOCALE)
    days = (at.date() - now.date()).days
    if days == 0:
        return _("at {time}").format(time=clock)
    if days == 1:
        return _("tomorrow at {time}").format(time=clock)
    day = format_datetime(at, "EEEE", tzinfo=at.tzinfo, locale=LOCALE)
    return _("on {day} at {time}").format(day=day, time=clock)


def hours_words(hours: Figure | None) -> str:
    """How old something is: "half an hour", "22 hours", "5 days"."""
    if hours is None:
        return _("not known")
    if hours.value < 1.0:
        return _("less than an hour")
    if hours.value < 48.0:
        count = round(hours.value)
        return ngettext("{n} hour", "{n} hours", count).format(n=count)
    return _("{n} days").format(n=round(hours.value / 24.0))


def money_words(figure: Figure, signed: bool = False) -> str:
    """An amount of money in its currency; with a sign where it is a difference."""
    value = round(figure.value, 2) + 0.0
    told: str = format_currency(abs(value), figure.unit, locale=LOCALE)
    sign = "−" if value < 0 else "+" if signed and value > 0 else ""
    return f"{sign}{told}"


def way_words(name: str) -> str:
    """What a way to spend the next days is called."""
    return _(_WAYS[name])


def term_words(name: str) -> str:
    """What a part of the cost is called."""
    return _(_TERMS[name])


def _then(values: Mapping[str, Any], after: bool) -> str:
    until = values.get("until")
    if until is None:
        return _("the store then lasts more than five days") if after else _("it lasts more than five days")
    hours = values.get("until_h")
    if isinstance(hours, Figure) and hours.value <= 0.0:
        return _("the store is used up")
    when = weekday_words(datetime.fromisoformat(str(until)))
    form = _("the store then lasts until {when}") if after else _("the store lasts until {when}")
    return form.format(when=when)


def _much(values: Mapping[str, Any], measures: Mapping[str, str] | None) -> str:
    species = str(values["species"]).replace("_", " ")
    fills = values.get("fills")
    much = (
        fill_words(fills, str(values["fill"]), str(values["fill_many"]))
        if isinstance(fills, Figure)
        else text(values["kg"], measures)
    )
    return _("{much} of {wood}").format(much=much, wood=species)


def _which(verdict: str, values: Mapping[str, Any]) -> str:
    if verdict == "wait" and "until" in values and str(values["until"]) < str(values["at"]):
        return "wait_cheaper"
    if verdict == "nobody" and "chance" not in values:
        return "nobody_at_all"
    if verdict == "no_wood" and "moisture" not in values:
        return "none_left"
    if verdict == "no_wood" and not values["measured"]:
        return "not_measured"
    return verdict


def _sentence(verdict: str, values: Mapping[str, Any], measures: Mapping[str, str] | None = None) -> str:
    told: dict[str, str] = {"stack": str(values.get("stack", ""))}
    if "at" in values:
        now = datetime.fromisoformat(str(values["now"]))
        told["at"] = time_words(datetime.fromisoformat(str(values["at"])), now)
        told["much"] = _much(values, measures)
        carried = values.get("carried")
        told["carried"] = ""
        if isinstance(carried, Figure):
            named = carried_words(carried, str(values["barrow"]), str(values["barrows"]))
            told["carried"] = _(", {how_many}").format(how_many=named)
    if "chance" in values:
        told["chance"] = weekday_words(datetime.fromisoformat(str(values["chance"])))
    if "moisture" in values:
        told |= {"moisture": text(values["moisture"]), "limit": text(values["limit"])}
        told["by"] = _(_BY[str(values["by"])])
    told["then"], told["lasts"] = _then(values, True), _then(values, False)
    sentence = _(_SAID[_which(verdict, values)]).format(**told)
    return sentence[:1].upper() + sentence[1:]


SENTENCES: Mapping[str, Callable[[Mapping[str, Any], Mapping[str, str] | None], str]] = {
    f"tonight.{verdict}": partial(_sentence, verdict)
    for verdict in (
        "light",
        "refill",
        "warm_enough",
        "wait",
        "nobody",
        "no_room",
        "no_wood",
        "cheaper_not",
        "failed_test",
        "unknown",
    )
}
"""The sentences by their keys."""
