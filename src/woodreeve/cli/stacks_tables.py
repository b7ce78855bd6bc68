"""The answer ``stacks`` as text: the yard in the order of burning, one stack, a stack that might be made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rich.table import Table

from woodreeve.answers.stacks import KeptLine, StackAnswer, StackLine, StacksAnswer, TriedAnswer, TriedLine
from woodreeve.cli.output import console
from woodreeve.cli.tables import figures_table, rows_table
from woodreeve.wording.entries import finding_words
from woodreeve.wording.labels import label, mix_words
from woodreeve.wording.numbers import column, day, month, shown, text
from woodreeve.wording.sentences import sentence
from woodreeve.wording.stacks import (
    assumed_of_stack,
    cover_words,
    doubt_words,
    half_range_words,
    note_words,
    pieces_words,
    reason_words,
    sample_words,
)
from woodreeve.wording.translate import _

__all__ = ["print_stack", "print_stacks", "print_tried"]

Measures = Mapping[str, str]


def print_stacks(answer: StacksAnswer, measures: Measures) -> None:
    """Print the yard."""
    out = console()
    out.print(sentence(answer.sentence, measures))
    if answer.stacks:
        out.print()
        out.print(_yard_table(answer, measures))
        out.print()
        for line in answer.stacks:
            out.print(f"{line.turn}. {line.name}: {_why(line, measures)}")
    for kept in answer.kept:
        out.print(_kept(kept, measures))
    if answer.short_kwh is not None and answer.short_kwh.value > 0.5:
        out.print(
            _("Dry wood short until the end of June: {heat}").format(heat=text(answer.short_kwh, measures))
        )
    for rounds in answer.in_the_round:
        out.print(
            _("Not split yet: {name}, {wood}, {how_much}").format(
                name=rounds.name, wood=mix_words(rounds.mix), how_much=text(rounds.solid_m3, measures)
            )
        )
    if answer.no_order:
        out.print(_("No order for the winter: {why}").format(why=answer.no_order))
    for finding in answer.findings:
        out.print(_("To look at: {what}").format(what=finding_words(finding)))


def _yard_table(answer: StacksAnswer, measures: Measures) -> Table:
    volume_unit, volumes = column([line.stacked_m3 for line in answer.stacks], measures)
    heat_unit, heats = column([line.heat_kwh for line in answer.stacks], measures)
    heads = [_("Stack"), _("Wood"), volume_unit, _("Moisture"), f"{_('Heat')} {heat_unit}", _("Verdict")]
    rows = [
        (
            f"{line.turn}. {line.name}",
            mix_words(line.mix),
            volume,
            _moisture(line, measures),
            heat,
            label(line.dryness),
        )
        for line, volume, heat in zip(answer.stacks, volumes, heats, strict=True)
    ]
    return rows_table(heads, rows, numbers=(2, 4), folded=(0, 1, 5))


def _moisture(line: StackLine, measures: Measures) -> str:
    if line.moisture is None:
        return "–"
    if line.or_less:
        return _("{moisture} or less").format(moisture=text(line.moisture, measures))
    return str(shown(line.moisture, measures))


def _why(line: StackLine, measures: Measures) -> str:
    """Why a stack has its turn, when it is ready, and what to do about it."""
    parts = [reason_words(line.reasons)] if line.reasons else []
    if line.where == "boiler_room":
        parts.append(_("stands by the boiler already"))
    if line.burn_from is not None:
        parts.append(_("from {month}").format(month=month(line.burn_from)))
    if line.ready is not None:
        parts.append(sentence(line.ready.said, measures))
        if line.ready.cover_by is not None:
            parts.append(_("cover it by {day}").format(day=day(line.ready.cover_by.value)))
    if line.odd_readings:
        parts.append(_("a reading needs a second look"))
    return ". ".join(part for part in ("; ".join(parts), line.not_followed) if part)


def _kept(kept: KeptLine, measures: Measures) -> str:
    words = (
        _("Kept for {customer}: {how_much} of {stack}")
        if kept.stack
        else _("Owed to {customer}: {how_much}; no stack suits as yet")
    )
    told = words.format(customer=kept.customer, how_much=text(kept.stacked_m3, measures), stack=kept.stack)
    return f"{told}, {_('due {day}').format(day=day(kept.by))}" if kept.by else told


def print_stack(answer: StackAnswer, measures: Measures) -> None:
    """Print one stack."""
    out = console()
    line = answer.line
    out.print(sentence(answer.sentence, measures))
    out.print()
    rows = [
        (_("stacked"), line.stacked_m3),
        (_("heat in it"), line.heat_kwh),
        (_("moisture"), line.moisture),
    ]
    if line.ready is not None:
        start = day(line.ready.season_start)
        rows += [
            (_("chance that it is ready now"), line.ready.chance_now),
            (_("and by {day}").format(day=start), line.ready.chance_by_season),
        ]
    out.print(figures_table(rows, measures))
    for told in _told(answer, measures):
        out.print(told)
    for one in answer.readings:
        kind = _("wetter than ") if one.kind == "above" else ""
        out.print(
            _("{day}: read {kind}{moisture}, expected {expected}").format(
                day=day(one.taken),
                kind=kind,
                moisture=shown(one.moisture, measures),
                expected=shown(one.expected, measures),
            )
        )
        if one.odd:
            out.print(f"  {_('Far from what was expected: kept, but hardly followed.')}")
        for told in (*map(doubt_words, one.doubts), *map(note_words, one.notes)):
            out.print(f"  {told}")
    for refused in answer.refused:
        out.print(_("{day}: not used. {why}").format(day=day(refused.taken), why=refused.why))
    if answer.sampling is not None:
        guide = answer.sampling
        out.print(
            _("To measure: split {n} pieces, {where}; {values} values on each fresh face.").format(
                n=len(guide.pieces), where=sample_words(guide.pieces), values=guide.values_per_piece
            )
        )
        if pieces_words(guide.pieces):
            out.print(f"  {pieces_words(guide.pieces)}")
        steps = ", ".join(
            (_("{n} pieces {half}") if step.pieces else _("now {half}")).format(
                n=step.pieces, half=half_range_words(step.half_range)
            )
            for step in guide.steps
        )
        out.print(_("The range left after it: {steps}.").format(steps=steps))
    if answer.tries and answer.tries_season:
        out.print()
        out.print(_("One more stack of this wood, by {day}:").format(day=day(answer.tries_season)))
        out.print(_tried_table(answer.tries, measures))


def _told(answer: StackAnswer, measures: Measures) -> Iterator[str]:
    ready = answer.line.ready
    if ready is not None:
        yield _("Moisture then: {moisture}").format(moisture=sentence(ready.season_said, measures))
    if answer.line.reasons:
        yield _("Its turn: {why}").format(why=_why(answer.line, measures))
    if not answer.line.reasons and ready is not None and ready.cover_by is not None:
        yield _("Cover it by {day}.").format(day=day(ready.cover_by.value))
    if ready is not None and ready.promise is not None and ready.verdict != "ready":
        yield _("To a customer promise {day}.").format(day=day(ready.promise.value))
    if ready is not None and (ready.if_dry_basis or ready.if_wet_basis):
        ways = [text(one, measures) for one in (ready.if_dry_basis, ready.if_wet_basis)]
        yield _(
            "Nobody knows what the meter's number means: ready {dry} if it is a share of dry mass, {wet} if "
            "of wet."
        ).format(dry=ways[0], wet=ways[1])
    if answer.line.not_followed:
        yield answer.line.not_followed
    if answer.assumed:
        yield _("Not told, so assumed: {what}").format(what=assumed_of_stack(answer.assumed))


def print_tried(answer: TriedAnswer, measures: Measures) -> None:
    """Print what a stack that might be made would do."""
    out = console()
    out.print(
        _("A new stack of {wood}, to be at {target} by {day}:").format(
            wood=mix_words(answer.mix),
            target=text(answer.target_moisture, measures),
            day=day(answer.season_start),
        )
    )
    out.print()
    out.print(_tried_table(answer.lines, measures))


def _tried_table(lines: tuple[TriedLine, ...], measures: Measures) -> Table:
    rows = [
        (
            month(line.start),
            text(line.thickness_mm, measures),
            cover_words(line.cover),
            text(line.chance_by_season, measures),
            sentence(line.season_said, measures),
            sentence(line.said, measures),
        )
        for line in lines
    ]
    heads = [_("Start"), _("Split to"), _("Under"), _("Chance"), _("Moisture"), _("It is")]
    return rows_table(heads, rows, numbers=(1, 3), folded=(0, 2, 4, 5))
