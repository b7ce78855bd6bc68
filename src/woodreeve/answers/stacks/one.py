"""One stack by itself: its course over time, its readings and their doubts, how to sample it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from woodreeve.answers.stacks.lines import StackLine, lines_of
from woodreeve.answers.stacks.said import moisture_said, wood_said
from woodreeve.answers.stacks.tried import TriedLine, tried_lines
from woodreeve.errors import UnknownName, WoodreeveError
from woodreeve.learning.course import ReadingSeen
from woodreeve.learning.present import FollowedStack, range_by_pieces
from woodreeve.learning.stack import follow_stack
from woodreeve.learning.yard import stack_as_followed
from woodreeve.records.asking import Asking
from woodreeve.wood.moisture import MeterBasis
from woodreeve.wood.seasoning_readings import ReadingKind
from woodreeve.workings import Figure, Said, Series, figure
from woodreeve.yard.sampling import SamplePiece, sampling_plan

__all__ = ["ReadingLine", "RefusedLine", "SampleStep", "Sampling", "StackAnswer", "one_stack"]

EVERY_DAYS = 7
"""The course is given by the week. [day]"""

EIGHT_IN_TEN = 1.2816
"""Half a range of 8 cases in 10, in standard deviations. [-]"""


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading, with its range, against what was expected; ``doubts`` are likely causes if it is odd."""

    taken: date
    how: Literal["meter", "oven", "marker"]
    kind: ReadingKind
    moisture: Figure
    expected: Figure
    basis: MeterBasis
    if_dry_basis: Figure | None
    if_wet_basis: Figure | None
    odd: bool
    doubts: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RefusedLine:
    """A reading that is kept in the diary and not used, and why."""

    taken: date
    why: str


@dataclass(frozen=True, slots=True)
class SampleStep:
    """So many pieces split and read, and half the range that is left then."""

    pieces: int
    half_range: Figure


@dataclass(frozen=True, slots=True)
class Sampling:
    """How to sample this stack, and what it brings."""

    pieces: tuple[SamplePiece, ...]
    values_per_piece: int
    oven_instead: bool
    steps: tuple[SampleStep, ...]


@dataclass(frozen=True, slots=True)
class StackAnswer:
    """One stack, as far as it is known and foretold.

    Parameters
    ----------
    line : StackLine
        Its wood, moisture, ready date and turn.
    course_begins : date, optional
        Day of the first value of the course; then one a week.
    low, median, high : Series, optional
        10, 50 and 90 % values of the moisture.
    readings, refused : tuples
        What was found, and readings that could not be used.
    assumed : tuple of str
        What nobody told of the stack and was taken as usual.
    learned_from : int
        Used-up stacks that its pace was learned from.
    sampling : Sampling, optional
        How to sample it.
    tries, tries_season : tuple of TriedLine, date
        What a new stack of the same wood here would do, by the start of that season.
    """

    moment: datetime
    sentence: Said
    line: StackLine
    felled_on: date | None
    cover: str | None
    pieces: str
    log_cm: Figure | None
    target_moisture: Figure
    wet_limit: Figure
    course_begins: date | None
    low: Series | None
    median: Series | None
    high: Series | None
    readings: tuple[ReadingLine, ...]
    refused: tuple[RefusedLine, ...]
    assumed: tuple[str, ...]
    learned_from: int
    sampling: Sampling | None
    tries: tuple[TriedLine, ...]
    tries_season: date | None


def one_stack(asking: Asking, place: str) -> StackAnswer:
    """Answer for one stack.

    Parameters
    ----------
    asking : Asking
        The holding, its diary, weather and the moment.
    place : str
        The stack's name.

    Returns
    -------
    StackAnswer
        Its course, readings, doubts, and what to do.

    Raises
    ------
    UnknownName
        If no wood lies at such a place.
    """
    lines = {line.name: line for line in lines_of(asking)}
    if place not in lines:
        raise UnknownName("stack with wood in it", place, lines)
    line = lines[place]
    room = asking.folded.boiler_room
    pile = room if room is not None and line.where == "boiler_room" else asking.split_wood[place]
    limits = asking.holding.yard.limits
    followed = asking.following.stacks.get(place)
    tries, season = _tries(asking, line)
    return StackAnswer(
        moment=asking.moment,
        sentence=Said(
            "stacks.one",
            {
                "wood": wood_said(line),
                "stack": line.name,
                "moisture": moisture_said(line),
                "ready": line.ready.said if line.ready else Said("stacks.ready.not_known"),
            },
        ),
        line=line,
        felled_on=pile.felled_on,
        cover=pile.cover,
        pieces=pile.pieces,
        log_cm=None if pile.log_cm is None else figure(pile.log_cm, "cm", "fold", basis="length of the logs"),
        target_moisture=figure(limits.ideal, "-", "holding: yard.limits.ideal", basis="wet basis"),
        wet_limit=figure(limits.wet, "-", "holding: yard.limits.wet", basis="wet basis"),
        course_begins=followed.outlook.course.start if followed else None,
        low=_weekly(followed, "low"),
        median=_weekly(followed, "median"),
        high=_weekly(followed, "high"),
        readings=_readings(followed),
        refused=tuple(RefusedLine(one.taken, one.sentence) for one in followed.followed.refused)
        if followed
        else (),
        assumed=followed.followed.assumed if followed else (),
        learned_from=followed.prior.stacks if followed else 0,
        sampling=_sampling(asking, line, followed),
        tries=tries,
        tries_season=season,
    )


def _weekly(followed: FollowedStack | None, name: Literal["low", "median", "high"]) -> Series | None:
    if followed is None:
        return None
    values = tuple(float(value) for value in getattr(followed.outlook.course, name)[::EVERY_DAYS])
    return Series(values, "-", follow_stack.__name__, "week")


def _readings(followed: FollowedStack | None) -> tuple[ReadingLine, ...]:
    if followed is None:
        return ()
    odd = {id(one.reading): one.doubts for one in followed.outlook.odd}
    return tuple(
        _reading(seen, tuple(doubt.cause for doubt in odd.get(id(seen.reading), ())))
        for seen in followed.outlook.course.readings
    )


def _reading(seen: ReadingSeen, doubts: tuple[str, ...]) -> ReadingLine:
    reading = seen.reading
    half = EIGHT_IN_TEN * reading.sd
    by = stack_as_followed
    return ReadingLine(
        taken=reading.taken,
        how=reading.how,
        kind=reading.kind,
        moisture=figure(
            reading.moisture,
            "-",
            by,
            basis="wet basis",
            low=max(reading.moisture - half, 0.0) if reading.kind == "value" else None,
            high=reading.moisture + half if reading.kind == "value" else None,
        ),
        expected=figure(
            seen.expected,
            "-",
            follow_stack,
            basis="wet basis, before this reading",
            low=max(seen.expected - EIGHT_IN_TEN * seen.expected_sd, 0.0),
            high=seen.expected + EIGHT_IN_TEN * seen.expected_sd,
        ),
        basis=reading.basis,
        if_dry_basis=None if reading.low is None else figure(reading.low, "-", by, basis="wet basis"),
        if_wet_basis=None if reading.high is None else figure(reading.high, "-", by, basis="wet basis"),
        odd=seen.odd,
        doubts=doubts,
        notes=reading.notes,
    )


def _sampling(asking: Asking, line: StackLine, followed: FollowedStack | None) -> Sampling | None:
    if followed is None:
        return None
    rows = next((p.rows for p in asking.holding.yard.places if p.name == line.name), 1)
    plan = sampling_plan(rows=float(rows), likely_moisture=followed.now.moisture)
    return Sampling(
        pieces=plan.pieces,
        values_per_piece=plan.values_per_piece,
        oven_instead=plan.oven_instead,
        steps=tuple(
            SampleStep(
                one.pieces, figure(one.half, "-", range_by_pieces, basis="plus or minus, 8 cases in 10")
            )
            for one in range_by_pieces(followed.outlook)
        ),
    )


def _tries(asking: Asking, line: StackLine) -> tuple[tuple[TriedLine, ...], date | None]:
    if line.where == "boiler_room":
        return (), None
    try:
        return tried_lines(asking, line.mix, line.name)
    except WoodreeveError:
        return (), None
