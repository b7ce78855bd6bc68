"""The sentences that answers open with: their keys turned into text."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from woodreeve.errors import UnknownName
from woodreeve.wording import tonight
from woodreeve.wording.numbers import day, day_and_month, shown, text
from woodreeve.wording.plant import checks_sentence, upkeep_sentence
from woodreeve.wording.translate import N_, _
from woodreeve.workings import Dated, Figure, Said

__all__ = ["SENTENCES", "sentence"]

SENTENCES: Mapping[str, str] = {
    "stacks.empty": N_("The diary has no wood in the yard yet: note a stock-take of each stack to begin."),
    "stacks.nothing_measured": N_(
        "Do not burn from the yard before you have measured: nobody knows how wet {stack} is. Split "
        "three logs and measure the fresh faces."
    ),
    "stacks.nothing_dry": N_(
        "Nothing in the yard is dry enough to burn; the driest is {stack}, {moisture}; {then}."
    ),
    "stacks.burn": N_("Burn the {wood} at {stack} first, {moisture}; {then}."),
    "stacks.one": N_("The {wood} at {stack}: {moisture}; {ready}."),
    "stacks.moisture.measured": N_("{moisture}"),
    "stacks.moisture.or_less": N_("about {moisture} or less"),
    "stacks.moisture.reckoned": N_("reckoned {moisture} ({moisture_range})"),
    "stacks.moisture.above_meter": N_("wetter than a meter can tell"),
    "stacks.moisture.not_known": N_("not measured yet"),
    "stacks.ready.ready": N_("ready now"),
    "stacks.ready.likely_ready": N_("likely ready now ({chance})"),
    "stacks.ready.date.range": N_("ready about {day} ({low_short} to {high_short})"),
    "stacks.ready.date.beyond": N_("ready about {day} ({low_short} or much later)"),
    "stacks.ready.perhaps_spring.range": N_(
        "ready about {day} ({low_short} to {high_short}), perhaps not before next spring"
    ),
    "stacks.ready.perhaps_spring.beyond": N_(
        "ready about {day} ({low_short} or much later), perhaps not before next spring"
    ),
    "stacks.ready.next_spring": N_("not ready before next spring"),
    "stacks.ready.not_in_sight": N_("not ready in the next year and a half"),
    "stacks.ready.not_known": N_("not known when ready"),
    "stacks.day.now": N_("now"),
    "stacks.day.spring": N_("the spring of {year}"),
    "stacks.then.ready": N_("the {wood} at {stack} is {ready}"),
    "stacks.then.measure": N_("{stack} has not been measured"),
    "stacks.then.none": N_("the {wood} at {stack} will not be ready in the next year and a half"),
    "stacks.then.share": N_("{share} of the heat in the yard is dry enough"),
    "winter.enough": N_(
        "The rest of this winter takes about {rest}, the next about {next}; you have {winters} of "
        "wood, {share} of it "
        "dry enough, and nothing is short."
    ),
    "winter.split": N_(
        "The rest of this winter takes about {rest}, the next about {next}; you have {winters} of "
        "wood, {share} of it "
        "dry enough: split another {short} by {day}."
    ),
    "winter.late": N_(
        "The rest of this winter takes about {rest}, the next about {next}; you have {winters} of "
        "wood, {share} of it "
        "dry enough. {short} are missing for next winter, and the day to have them split, {day}, is "
        "past: buy dry wood "
        "or fell ash first."
    ),
    "winter.short_now_late": N_(
        "The rest of this winter takes about {rest}, more than is there dry: {short_now} are short"
        " before summer. "
        "{short} are missing for next winter, and the day to have them split, {day}, is past."
    ),
    "winter.short_now": N_(
        "The rest of this winter takes about {rest}, more than is there dry: {short_now} are short"
        " before summer. "
        "For next winter split {short} by {day}."
    ),
    "winter.no_wood": N_(
        "This winter takes about {rest} and the next about {next}; the diary has no wood in the yard yet."
    ),
    "winter.unknown": N_("How much wood the house takes cannot be said yet: {missing}."),
    "season.year": N_(
        "With this rule a usual year takes {fires} fires and {wood} of wood; the backup gives {backup}, "
        "{share} of all heat."
    ),
    "season.cold": N_(
        "With this rule a usual year takes {fires} fires and {wood} of wood; the backup gives {backup}, "
        "{share} of all heat, and rooms are often colder than wanted ({cold} in all)."
    ),
    "design.knee": N_(
        "With a boiler of {boiler} the knee lies at a store of {litres}: from there on 500 litres more spare "
        "fewer than {least} firings a winter. It takes {fires} firings in a typical winter, and the backup "
        "gives {share} of all heat."
    ),
    "design.no_knee": N_(
        "With a boiler of {boiler} even the largest store tried, {litres}, is before the knee: the last 500 "
        "litres still spare {least} firings a winter or more. It takes {fires} firings in a typical winter, "
        "and the backup gives {share} of all heat."
    ),
    "diary.empty": N_("The diary is empty: begin with a stock-take of each stack."),
    "diary.up_to_date": N_("{count} entries; the last fire noted was on {day}."),
    "diary.no_fires": N_("{count} entries; no fire noted yet."),
    "diary.look": N_("{count} entries; {findings} of them need a look."),
    "escape.ok": N_("A way for the boiler's heat that needs no power is on record, tested on {day}."),
    "escape.old_test": N_(
        "The way for the boiler's heat in a power cut was last tested on {day}, more than a year ago: "
        "have it tested before the next fire."
    ),
    "escape.failed_test": N_(
        "The way for the boiler's heat in a power cut failed its test on {day}: no fire before a "
        "qualified installer has put it right."
    ),
    "escape.untested": N_(
        "A way for the boiler's heat in a power cut is on record, but no day on which it was tested: have it "
        "tested before the next fire."
    ),
    "escape.none": N_(
        "Nothing on record carries the boiler's heat away when the power fails: ask a qualified installer "
        "before the next fire."
    ),
    "escape.not_known": N_(
        "Nobody has told how the boiler's heat gets away when the power fails: give the heat escape, its "
        "water supply and its last test, or ask a qualified installer before the next fire."
    ),
}
"""Every sentence by its key; names in braces are the values that go in."""

COUNTED: Mapping[str, Callable[[Mapping[str, Any], Mapping[str, str] | None], str]] = {
    "plant.checks": checks_sentence,
    "upkeep.tasks": upkeep_sentence,
    **tonight.SENTENCES,
}
"""Sentences that are put together from as many parts as there are."""


def sentence(said: Said, measures: Mapping[str, str] | None = None) -> str:
    """Turn a sentence's key and values into text.

    Parameters
    ----------
    said : Said
        Key and values.
    measures : mapping, optional
        The owner's preferred units.

    Returns
    -------
    str
        The sentence.

    Raises
    ------
    UnknownName
        If nobody has written this sentence.
    """
    if said.key in COUNTED:
        return COUNTED[said.key](said.values, measures)
    if said.key not in SENTENCES:
        raise UnknownName("sentence", said.key, SENTENCES)
    values = dict(_texts(said, measures))
    return _(SENTENCES[said.key]).format(**values)


def _texts(said: Said, measures: Mapping[str, str] | None) -> Iterator[tuple[str, str]]:
    """Each value as text; a figure's range as ``name_range``, a day without the year as ``name_short``."""
    told = said.values.get("day")
    year = told.value.year if isinstance(told, Dated) else None
    for name, value in said.values.items():
        if isinstance(value, Said):
            yield name, sentence(value, measures)
            yield f"{name}_short", sentence(value, measures)
            continue
        is_kind_of_wood = name == "wood" and isinstance(value, str)
        yield name, str(value).replace("_", " ") if is_kind_of_wood else text(value, measures)
        if isinstance(value, Figure):
            yield f"{name}_range", shown(value, measures).range
        elif isinstance(value, Dated):
            yield (
                f"{name}_short",
                day_and_month(value.value) if value.value.year == year else day(value.value),
            )
