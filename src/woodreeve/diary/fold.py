"""The diary added up: what is in each stack, what was burnt, what is due, and what does not fit together.

Adding up depends on which entries there are, never on the order in which they came. Entries count in
the order in which things happened; a stock-take wins over all that went before.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from woodreeve.diary.amounts import ContainerSize
from woodreeve.diary.books import BOOKS, Books
from woodreeve.diary.correct import Standing, corrected
from woodreeve.diary.entry import Entry
from woodreeve.diary.findings import Finding
from woodreeve.diary.folded import Event, Folded
from woodreeve.diary.kinds import UnreadablePayload, read_payload
from woodreeve.diary.ledger import Ledger
from woodreeve.diary.weighings import weighed_containers
from woodreeve.workings import worked

__all__ = ["fold"]

A_DAY_S = 86_400.0
"""A clock may be wrong, and a diary may be written in another zone; a day is beyond both. [s]"""


@worked
def fold(
    entries: Iterable[Entry],
    containers: Iterable[ContainerSize] = (),
    *,
    until: datetime | None = None,
    places: Iterable[str] = (),
) -> Folded:
    r"""Add up the diary.

    From single entries to what is in each stack, how wet it was last, what was burnt each day, and what
    should be looked at. Nothing is refused: what does not fit together is told as a finding.

    Parameters
    ----------
    entries : iterable of Entry
        The diary of one holding, corrections included, in any order.
    containers : iterable of ContainerSize
        The owner's containers, by litres or weights.
    until : datetime, optional
        Leave out what happened later; corrections count whenever they were made.
    places : iterable of str
        Names of places as the holding spells them; entries may use other capitals.

    Returns
    -------
    Folded
        Stacks, readings, fires, use by day and month, upkeep and findings.

    Notes
    -----
    All wood is kept as solid volume by species: a stack loses no wood by drying, and packing changes when
    it is moved. With solid share :math:`f` of the way of stacking, basic density :math:`\rho` and
    moisture :math:`M`:

    .. math:: V = f V_\mathrm{stacked}, \qquad V = \frac{m (1 - M)}{\rho}

    A stock-take sets the volume of a place. What it finds missing, :math:`\Delta V`, is unlogged use or
    loss, spread evenly over the days since the last stock-take of the place, or since its first entry:
    :math:`\Delta V / n` a day. More taken than a place holds leaves it empty, with a finding.

    "As usual" counts the mean daily use of the 28 days before, as logged.

    References
    ----------
    .. [1] Own bookkeeping; the physics is that of the functions of :mod:`woodreeve.wood.measure` it calls.
    """
    sizes = tuple(containers)
    standing, findings = corrected(entries)
    events, unread = _read(standing, until)
    books = Books(Ledger(sizes, weighed_containers(events, sizes), places))
    for event in events:
        book = BOOKS.get(event.kind)
        if book is not None:
            book(books, event, event.payload)
    return books.close(events, (*findings, *unread))


def _read(standing: Iterable[Standing], until: datetime | None) -> tuple[list[Event], list[Finding]]:
    """Read what stands, in the order of happening."""
    findings: list[Finding] = []
    kept: list[tuple[float, float, str, Event]] = []
    for one in standing:
        entry = one.entry
        if until is not None and entry.happened > until:
            continue
        try:
            payload = read_payload(entry)
        except UnreadablePayload as error:
            others = () if one.corrected_by is None else (one.corrected_by,)
            findings.append(Finding("not_understood", entry.id, others=others, sentence=str(error)))
            continue
        event = Event(
            id=entry.id,
            kind=entry.kind,
            happened=entry.happened,
            by=entry.by,
            payload=payload,
            corrected_by=one.corrected_by,
        )
        happened, entered = entry.happened.timestamp(), entry.entered.timestamp()
        if happened > entered + A_DAY_S and one.corrected_by is None:
            findings.append(Finding("happens_after_entered", entry.id))
        kept.append((happened, entered, entry.id, event))
    kept.sort(key=lambda line: line[:3])
    return [line[3] for line in kept], findings
