"""Diary entries and findings in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from woodreeve.diary.asked import asked_fields
from woodreeve.diary.findings import Finding
from woodreeve.diary.kinds import Entry, read_payload
from woodreeve.diary.payloads_wood import Amount, Payload
from woodreeve.errors import Unreadable
from woodreeve.wording.numbers import day, number, typed, unit_words
from woodreeve.wording.translate import N_, _

__all__ = ["KIND_NAMES", "entry_words", "finding_words", "kind_name"]

KIND_NAMES: Mapping[str, str] = {
    "felled": N_("Felled"),
    "extracted": N_("Brought out of the wood"),
    "bought": N_("Bought"),
    "split": N_("Split"),
    "stacked": N_("Stacked"),
    "covered": N_("Covered"),
    "uncovered": N_("Uncovered"),
    "moved": N_("Moved"),
    "brought_in": N_("Brought in"),
    "measured": N_("Moisture measured"),
    "weighed": N_("Weighed"),
    "counted": N_("Stock-take"),
    "lit": N_("Fire lit"),
    "refilled": N_("Refilled"),
    "burnt": N_("Burnt"),
    "as_usual": N_("As usual"),
    "ash_out": N_("Ash out"),
    "spoiled": N_("Spoiled"),
    "sold": N_("Sold"),
    "given_away": N_("Given away"),
    "swept": N_("Chimney swept"),
    "cleaned": N_("Cleaned"),
    "serviced": N_("Serviced"),
    "tested": N_("Tested"),
    "checked": N_("Checked"),
    "fitted": N_("Part renewed"),
    "backup_delivery": N_("Backup fuel delivered"),
    "tank_level": N_("Tank level"),
    "meter": N_("Meter read"),
    "pressure": N_("Pressure read"),
    "topped_up": N_("Water topped up"),
    "note": N_("Note"),
    "correction": N_("Correction"),
}
"""What each kind of entry is called."""

_AMOUNTS = {
    "stacked_m3": N_("{n} m³ stacked"),
    "solid_m3": N_("{n} m³ solid"),
    "loose_m3": N_("{n} m³ loose"),
    "mass_kg": N_("{n} kg"),
}


def kind_name(kind: str) -> str:
    """What a kind of entry is called."""
    return _(KIND_NAMES.get(kind, kind.replace("_", " ").capitalize()))


def entry_words(entry: Entry) -> str:
    """Say what an entry says, in one line without its kind and date.

    Parameters
    ----------
    entry : Entry
        The entry.

    Returns
    -------
    str
        For instance ``"2 barrows, ash, from Gable"``; an entry that cannot be understood says so.
    """
    try:
        payload = read_payload(entry)
    except Unreadable as error:
        return _("not understood: {why}").format(why=error)
    if entry.kind == "correction":
        return _("strikes an entry out") if payload.void else _("puts an entry right")  # type: ignore[attr-defined]  # corrections have it
    return ", ".join(_parts(payload)) or _("nothing more")


def _parts(payload: Payload) -> Iterator[str]:
    told = {"count", "container", *_AMOUNTS}
    if isinstance(payload, Amount):
        yield from _amount(payload)
    for field in asked_fields(type(payload)):
        value = getattr(payload, field.name)
        if field.name in told or value is None or value == field.default or value in ((), ""):
            continue
        if field.name in ("species", "place", "text", "note"):
            yield _word(value)
        else:
            yield f"{field.label.lower()} {_value(value, field.unit)}"


def _amount(amount: Amount) -> Iterator[str]:
    if amount.count is not None:
        name = amount.container or ""
        yield f"{typed(amount.count)} {name}{'s' if amount.count != 1 and name else ''}".strip()
    for field, words in _AMOUNTS.items():
        value = getattr(amount, field)
        if value is not None:
            yield _(words).format(n=typed(value))


def _value(value: Any, unit: str | None) -> str:
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, float | int):
        if unit == "-" and isinstance(value, float) and value <= 1:
            return f"{number(100 * value)} %"
        return f"{typed(value)} {unit_words(unit)}".strip()
    if isinstance(value, date):
        return day(value)
    if isinstance(value, Mapping):
        return ", ".join(f"{_word(name)} {_value(inner, unit)}" for name, inner in value.items())
    if isinstance(value, tuple):
        return "; ".join(_value(inner, unit) for inner in value)
    if hasattr(value, "__dataclass_fields__"):
        parts = ((f, getattr(value, f.name)) for f in asked_fields(type(value)))
        return " × ".join(_value(inner, f.unit) for f, inner in parts if inner is not None)
    return _word(value)


def _word(value: Any) -> str:
    return str(value).replace("_", " ")


_FINDINGS: Mapping[str, str] = {
    "not_understood": N_("An entry is kept but cannot be understood: {sentence}"),
    "unknown_target": N_("A correction names an entry that is not here."),
    "two_corrections": N_(
        "Two corrections of one entry did not know of each other; the later one stands. Look which is right."
    ),
    "same_id_other_content": N_("Two entries carry the same id; the first one stands."),
    "more_than_held": N_(
        "More was taken from {place} than the diary had there: {taken_m3} m³ of {held_m3} m³ solid. A "
        "stock-take puts it right."
    ),
    "place_not_given": N_("An entry does not say where its wood came from, so no stack got smaller."),
    "unknown_place": N_("Something was done at {place}, where the diary has no wood."),
    "unknown_container": N_("Nobody has said how much a {name} holds, so that amount is not counted."),
    "unknown_species": N_("{name} is not a species on the list; it is reckoned as mixed broadleaves."),
    "moisture_assumed": N_(
        "A weight was told without its moisture; {moisture_percent} % of wet mass was assumed."
    ),
    "counted_more": N_(
        "The stock-take at {place} found more than the diary: {counted_m3} m³ against {expected_m3} m³ solid."
    ),
    "fires_exceed_total": N_("The fires logged used more than the total told for the same days."),
    "no_usual_rate": N_(
        "“As usual” was noted, but nothing was logged before from which to know what is usual."
    ),
    "happens_after_entered": N_("An entry was written down before it happened."),
    "oven_drying_incomplete": N_(
        "An oven sample from {place} lost more weight when dried again: it was not dry yet."
    ),
    "reading_out_of_range": N_("The meter value {shown_percent} from {place} is no moisture of wood."),
}


class _Blanks(dict[str, str]):
    def __missing__(self, key: str) -> str:
        return "–"


def finding_words(finding: Finding) -> str:
    """Say in a sentence what the owner should look at."""
    figures = {name: number(value) for name, value in finding.figures.items()}
    if "moisture" in finding.figures:
        figures["moisture_percent"] = number(100 * finding.figures["moisture"])
    parts = _Blanks(place=finding.place, name=finding.name, sentence=finding.sentence, **figures)
    return _(_FINDINGS.get(finding.kind, finding.kind.replace("_", " "))).format_map(parts)
