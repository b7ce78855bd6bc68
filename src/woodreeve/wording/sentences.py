"""The sentences that answers open with: their keys turned into text."""

from __future__ import annotations

from collections.abc import Mapping

from woodreeve.errors import UnknownName
from woodreeve.wording.numbers import text
from woodreeve.wording.translate import N_, _
from woodreeve.workings import Said

__all__ = ["SENTENCES", "sentence"]

SENTENCES: Mapping[str, str] = {
    "stacks.empty": N_("The diary has no wood in the yard yet: note a stock-take of each stack to begin."),
    "stacks.nothing_measured": N_(
        "Do not burn from the yard before you have measured: nobody knows how wet {stack} is. Split "
        "three logs and "
        "measure the fresh faces."
    ),
    "stacks.nothing_dry": N_("Nothing in the yard is dry enough to burn; the driest is {stack}."),
    "stacks.burn": N_("Burn {stack} first, at {moisture}; {share} of the heat in the yard is dry enough."),
    "stacks.burn_and_measure": N_(
        "Burn {stack} first, at {moisture}; {share} of the heat in the yard is known to be dry enough, and "
        "{unmeasured} has not been measured."
    ),
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
        "The rest of this winter takes about {rest}, and only part of it is dry: {short_now} are short"
        " before summer. "
        "{short} are missing for next winter, and the day to have them split, {day}, is past."
    ),
    "winter.short_now": N_(
        "The rest of this winter takes about {rest}, and only part of it is dry: {short_now} are short"
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
    if said.key not in SENTENCES:
        raise UnknownName("sentence", said.key, SENTENCES)
    values = {name: text(value, measures) for name, value in said.values.items()}
    return _(SENTENCES[said.key]).format(**values)
