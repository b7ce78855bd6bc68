"""The card for the boiler-room door: what to do, and never to do, when something goes wrong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from woodreeve.holding.document import Holding
from woodreeve.papers.printing import filled, one_page_pdf
from woodreeve.plant.cautions import Caution, Known, cautions_gathered_on, emergency_of, situations
from woodreeve.plant.heat_escape import EscapeGap, escape_gap_on, heat_escape_gap
from woodreeve.records.asking import Asking
from woodreeve.wording.numbers import day
from woodreeve.wording.sentences import SENTENCES
from woodreeve.wording.translate import _

__all__ = ["Card", "Line", "Part", "card_for", "card_of", "card_part", "card_pdf"]

SIZES_PT = (8.0, 7.6, 7.2, 6.9)
"""Sizes of type to try, the largest first: it should be read from an arm's length. [pt]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line in words, with the number of its source on the card."""

    text: str
    note: int
    read: Known


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One situation in words."""

    title: str
    do: tuple[Line, ...]
    never: tuple[Line, ...]
    warning: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """The card in words.

    Parameters
    ----------
    called : str
        Name of the place.
    where : str
        Where it is, for the fire service; empty if not told.
    call : str
        Emergency number; empty if none was found for the nation.
    call_source : str
        Who says so.
    escape : str
        What is on record about heat leaving without power.
    parts : tuple of Part
        The situations.
    sources : tuple of str
        The sources, in the order of their numbers.
    gathered_on, printed_on : date
        When the advice was gathered, and the card made.
    """

    called: str
    where: str
    call: str
    call_source: str
    escape: str
    parts: tuple[Part, ...]
    sources: tuple[str, ...]
    gathered_on: date
    printed_on: date


def card_of(holding: Holding, today: date, gap: EscapeGap | None = None) -> Card:
    """Put the card of a place together.

    Parameters
    ----------
    holding : Holding
        The place.
    today : date
        The day to print on it.
    gap : EscapeGap, optional
        What is on record about heat leaving without power, where the diary tells more than the description.

    Returns
    -------
    Card
        The card in words.
    """
    emergency = emergency_of(holding.place.nation)
    call = emergency.call if emergency else _("the fire service")
    gap = gap or heat_escape_gap(holding.plant, today)
    numbers: dict[str, int] = {}

    def lines(given: tuple[Caution, ...]) -> Iterator[Line]:
        for one in given:
            note = numbers.setdefault(one.source, len(numbers) + 1)
            yield Line(text=_(one.text).replace("{call}", call), note=note, read=one.read)

    parts = tuple(
        Part(
            title=_(one.title),
            do=tuple(lines(one.do)),
            never=tuple(lines(one.never)),
            warning=_pumped() if one.key == "power_cut" and gap.pumped else "",
        )
        for one in situations()
    )
    return Card(
        called=holding.called,
        where=_where(holding),
        call=emergency.call if emergency else "",
        call_source=f"{emergency.source} ({_(emergency.read)})" if emergency else "",
        escape=_(SENTENCES[gap.key]).format(day=day(gap.tested_on) if gap.tested_on else ""),
        parts=parts,
        sources=tuple(_(one) for one in numbers),
        gathered_on=cautions_gathered_on(),
        printed_on=today,
    )


def card_for(asking: Asking) -> Card:
    """The card of the place somebody asks about, with the tests that stand in its diary."""
    today = asking.moment.date()
    gap = escape_gap_on(asking.holding.plant, asking.folded.events, today)
    return card_of(asking.holding, today, gap)


def card_part(card: Card) -> str:
    """The card as a part of a page: plain HTML without any style of its own."""
    return filled("card_part.html", card=card, paper=False)


def card_pdf(card: Card) -> bytes:
    """The card as a PDF of one A5 page.

    Raises
    ------
    Refused
        If it does not fit on a page, or the libraries that set type are not on this computer.
    """
    return one_page_pdf("card.html", SIZES_PT, card=card, paper=True)


def _pumped() -> str:
    return _("Here the discharge's water comes from an electric pump: in a power cut it does not cool.")


def _where(holding: Holding) -> str:
    latitude, longitude = holding.place.latitude_deg, holding.place.longitude_deg
    if latitude is None or longitude is None:
        return ""
    north = _("north") if latitude >= 0 else _("south")
    east = _("east") if longitude >= 0 else _("west")
    return f"{abs(latitude):.4f}° {north}, {abs(longitude):.4f}° {east}"
