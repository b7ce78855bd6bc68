"""The paper for the installer and for the file: loads, sizes, circuit, days, commissioning, upkeep."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from datetime import date
from itertools import groupby
from typing import Any

from markupsafe import Markup

from woodreeve.answers import plant, upkeep
from woodreeve.charts.schematic import Schematic, schematic
from woodreeve.errors import UnknownName
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_at, field_tree
from woodreeve.papers.printing import filled, pages_pdf
from woodreeve.plant.cautions import Caution, situations
from woodreeve.plant.checks.rules import Rule
from woodreeve.plant.checks.verdict import Check
from woodreeve.plant.installing import Day, Sheet, days, sheets
from woodreeve.records.asking import Asking
from woodreeve.wording.numbers import day, text, typed, unit_words
from woodreeve.wording.plant import words
from woodreeve.wording.sentences import sentence
from woodreeve.wording.translate import _
from woodreeve.workings import Figure, figure

__all__ = ["InstallerPaper", "Row", "Sources", "paper_for", "paper_part", "paper_pdf"]


@dataclass(frozen=True, slots=True)
class Row:
    """A line of a table: what, the figure, and where it opens; a text where it is none."""

    what: str
    value: Figure | str
    opens: str = ""


class Sources:
    """Sources in the order in which they are met, each with its number."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def number(self, source: str) -> int:
        """The number of a source, given at its first use."""
        return self._numbers.setdefault(source, len(self._numbers) + 1)

    def of(self, source: str, read: str) -> int:
        """The number of a source with how it is known, told once where the source says it already."""
        said = {"practice": "common practice", "judgement": "judgement"}.get(read, "")
        return self.number(source if said and said in source.lower() else f"{source}; {words(read)}")

    def of_rule(self, rule: Rule) -> int:
        """The number of a rule's source, with nation, day and how it is known."""
        told = [rule.source, words(rule.force)]
        if rule.nations:
            told.append(", ".join(words(nation) for nation in rule.nations))
        if rule.since:
            told.append(_("since {day}").format(day=day(rule.since)))
        return self.of("; ".join(told), rule.read)

    @property
    def listed(self) -> tuple[str, ...]:
        """All of them."""
        return tuple(self._numbers)


@dataclass(frozen=True, slots=True)
class InstallerPaper:
    """All that stands on the paper."""

    called: str
    description: str
    sentence: str
    nation: str
    printed_on: date
    place: tuple[Row, ...]
    loads: tuple[Row, ...]
    groups: tuple[tuple[str, tuple[tuple[int, Check], ...]], ...]
    to_look_at: tuple[Check, ...]
    plant: plant.PlantAnswer
    upkeep: upkeep.UpkeepAnswer
    drawing: Schematic
    days: tuple[Day, ...]
    sheets: tuple[tuple[Sheet, tuple[str, ...]], ...]
    never: tuple[tuple[str, tuple[Caution, ...]], ...]
    measures: dict[str, str]


def paper_for(asking: Asking, *, ink: str = "#000") -> InstallerPaper:
    """Put the paper together for the place somebody asks about.

    Parameters
    ----------
    asking : Asking
        The holding, its diary and the moment.
    ink : str
        Colour of the drawing; ``currentColor`` takes the page's.

    Returns
    -------
    InstallerPaper
        Everything on it; what is not known says so.
    """
    holding = asking.holding
    checked = plant.answer(asking)
    numbered = list(enumerate(checked.checks))
    groups = tuple(
        (group, tuple(found)) for group, found in groupby(numbered, lambda pair: pair[1].topic.group)
    )
    return InstallerPaper(
        called=holding.called,
        description=holding.description or "",
        sentence=sentence(checked.sentence, asking.measures),
        nation=words(checked.nation),
        printed_on=asking.moment.date(),
        place=tuple(_place(holding)),
        loads=tuple(_loads(asking, checked)),
        groups=groups,
        to_look_at=tuple(one for one in checked.checks if one.verdict in ("does_not_fit", "tight")),
        plant=checked,
        upkeep=upkeep.answer(asking),
        drawing=schematic(holding.plant, ink=ink),
        days=days(),
        sheets=tuple(
            (sheet, tuple(planned(holding, line.field) for line in sheet.lines)) for sheet in sheets()
        ),
        never=tuple((one.title, one.never) for one in situations()),
        measures=asking.measures,
    )


def paper_part(paper: InstallerPaper) -> str:
    """The paper as a part of a page: plain HTML without any style of its own."""
    return _filled("installer_part.html", paper, on_paper=False)


def paper_pdf(paper: InstallerPaper) -> bytes:
    """The paper as a PDF of A4 pages.

    Raises
    ------
    Refused
        If the libraries that set type are not on this computer.
    """
    return pages_pdf("installer.html", **_context(paper, on_paper=True))


def _filled(template: str, paper: InstallerPaper, *, on_paper: bool) -> str:
    return filled(template, **_context(paper, on_paper=on_paper))


def _context(paper: InstallerPaper, *, on_paper: bool) -> dict[str, Any]:
    return {
        "it": paper,
        "paper": on_paper,
        "notes": Sources(),
        "drawing": Markup(paper.drawing.svg),
        "said": lambda value: value if isinstance(value, str) else text(value, paper.measures),
    }


def _place(holding: Holding) -> Iterable[Row]:
    place, house = holding.place, holding.house
    yield Row(_("Nation, whose rules are looked at"), words(place.nation) if place.nation else _("not told"))
    if place.elevation_m is not None:
        yield Row(_("Height above the sea"), f"{typed(place.elevation_m)} m")
    area = sum(zone.floor_area_m2 or 0.0 for zone in house.zones)
    yield Row(_("Heated floor"), f"{typed(area)} m²" if area else _("not told"))
    yield Row(_("People"), typed(house.occupants) if house.occupants is not None else _("not told"))
    if holding.plant.installed_on:
        yield Row(_("Log boiler installed on"), day(holding.plant.installed_on))
    if holding.plant.installation_certificate:
        yield Row(_("Certificate"), holding.plant.installation_certificate)
    if place.whose_word:
        yield Row(_("Whose word this is"), place.whose_word)


def _loads(asking: Asking, checked: plant.PlantAnswer) -> Iterable[Row]:
    facts, missing = plant.facts_of(asking)
    design_c = asking.holding.climate.design_c
    unknown = _("not known")
    yield Row(_("Coldest day reckoned with"), unknown if design_c is None else f"{typed(design_c)} °C")
    load = facts.design_load_kw
    yield Row(
        _("Heat the house takes then"),
        missing or unknown if load is None else figure(load, "kW", facts.design_by),
    )
    loads = checked.loads
    for what, name in (
        (_("Heat of a full load, to the water"), "full_load_kwh"),
        (_("Store when lit, on the mean"), "lit_at_c"),
        (_("Room in the store then"), "room_kwh"),
        (_("Part of a load that fits, nothing drawn"), "share_that_fits"),
        (_("Usable heat of a full store on the coldest day"), "usable_kwh"),
    ):
        yield Row(what, getattr(loads, name) or unknown, f"loads.{name}")
    if checked.pump:
        for what, name in (
            (_("Charging flow"), "flow_kg_h"),
            (_("Pressure of the charging pipe, fittings in, sets and boiler left out"), "pressure_kpa"),
        ):
            yield Row(what, getattr(checked.pump, name), f"pump.{name}")


def planned(holding: Holding, path: str) -> str:
    """What the holding tells of a field, with its unit; empty where it tells nothing.

    Parameters
    ----------
    holding : Holding
        The place.
    path : str
        A field such as ``plant.circuits[0].design_flow_c``; empty for none.

    Returns
    -------
    str
        For instance ``"3 bar"``.

    Raises
    ------
    UnknownName
        If there is no such field.
    """
    if not path:
        return ""
    field = field_at(field_tree(Holding), path)
    at: Any = holding
    for step in path.split("."):
        key, _bracket, number = step.partition("[")
        if key not in {one.name for one in fields(at)}:
            raise UnknownName("field", key, (one.name for one in fields(at)))
        at = getattr(at, key)
        if number:
            place = int(number.rstrip("]"))
            if place >= len(at):
                return ""
            at = at[place]
    if at is None:
        return ""
    if isinstance(at, date):
        return day(at)
    if isinstance(at, float | int):
        return f"{typed(float(at))} {unit_words(field.unit)}".strip()
    return str(at)
