"""May this firewood be sold: the rules that were found, by nation and day; advice, not law."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Literal

from woodreeve.errors import Unknown
from woodreeve.units import Ge, Gt, Le, Moisture, Unit
from woodreeve.wood import tables
from woodreeve.wood.moisture import to_wet_basis
from woodreeve.workings import worked

__all__ = ["CAUTION", "MoistureLimit", "Nation", "SaleVerdict", "moisture_limit", "sale_of_firewood"]

Nation = Literal["england", "wales", "scotland", "northern_ireland", "ireland", "germany"]

CAUTION = "Advice only: read the rules in force, and ask the local authority where in doubt."
"""What goes with every verdict."""

SoldM3 = Annotated[float, Unit("m3"), Gt(0.0), Le(1e5)]
SoldPerYear = Annotated[float, Unit("m3"), Ge(0.0), Le(1e6)]

SMALL_FORESTER_M3: SoldPerYear = 600.0
"""Below this a year, England gave foresters one more year. [m3]

SI 2020/1095, as told by nqa.com, legal update November 2020.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SaleVerdict:
    """Whether a sale is lawful as far as we know, on which condition, and why.

    ``verdict`` is ``lawful``, ``unlawful``, ``doubtful`` or ``not_researched``.
    """

    verdict: Literal["lawful", "unlawful", "doubtful", "not_researched"]
    condition: str
    reasons: tuple[str, ...]
    source: str
    caution: str = CAUTION

    def __str__(self) -> str:
        """The verdict with its condition."""
        return f"{self.verdict} ({self.condition})" if self.condition else self.verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureLimit:
    """The moisture that a nation's rule allows, on both bases, and its words."""

    moisture: Moisture
    printed: Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]
    printed_basis: Literal["wet", "dry"]
    rule: str
    words: str
    source: str


@worked
def moisture_limit(nation: Nation, on: date) -> MoistureLimit:
    r"""The wettest firewood that a nation's rule allows, on the wet basis.

    Traps: England prints wet basis, Germany dry basis, and the two are the same wood.

    Parameters
    ----------
    nation : str
        Where the wood is sold or burnt.
    on : date
        The day.

    Returns
    -------
    MoistureLimit
        The limit with the words of the rule.

    Raises
    ------
    Unknown
        If no rule was found for that nation and day.

    Notes
    -----
    A limit printed on the dry basis, :math:`u`, is turned to

    .. math:: M = \frac{u}{1 + u}

    References
    ----------
    .. [1] SI 2020/1095 (England), regulation 5, and durham.gov.uk/article/25446.
    .. [2] 1. BImSchV (Germany), stmuv.bayern.de/service/faq/anzeige_x.php?id=516.

    Examples
    --------
    >>> from datetime import date
    >>> moisture_limit("germany", date(2026, 1, 1)).moisture
    0.2
    """
    for line in tables.lines("selling_rules"):
        if line["nation"] == nation and line["limit"] and date.fromisoformat(line["in_force"]) <= on:
            printed = float(line["limit"])
            dry = line["basis"] == "dry"
            return MoistureLimit(
                moisture=to_wet_basis(printed) if dry else printed,
                printed=printed,
                printed_basis="dry" if dry else "wet",
                rule=line["rule"],
                words=line["words"],
                source=tables.source_text(line["source"]),
            )
    raise Unknown(f"No rule on the moisture of firewood was found for {nation.replace('_', ' ')} on {on}.")


@worked
def sale_of_firewood(
    nation: Nation,
    volume_m3: SoldM3,
    moisture: Moisture,
    on: date,
    certified: bool = False,
    drying_notice: bool = False,
    sold_per_year_m3: SoldPerYear | None = None,
) -> SaleVerdict:
    r"""Whether wood may be sold for use in a home, as far as the rules were found.

    Parameters
    ----------
    nation : str
        Where the home is.
    volume_m3 : float
        Volume sold; how England measures it, stacked or loose, was not found. [m3]
    moisture : Moisture
        Water over wet mass, by the oven or on its safe side. [-] From 0 to 0.70.
    on : date
        The day of the sale.
    certified : bool
        Whether the wood is certified, and marked so.
    drying_notice : bool
        Whether the buyer gets the notice with the set words on drying.
    sold_per_year_m3 : float, optional
        What a forester sells in a year. [m3]

    Returns
    -------
    SaleVerdict
        The verdict with its reasons.

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the nation is not known.

    Notes
    -----
    England, since 1 May 2021 (foresters under 600 m3 a year: since 1 May 2022):

    .. math:: V < 2\,\mathrm{m^3}:\ M \le 20\,\%\ \text{and certified}; \qquad
              V \ge 2\,\mathrm{m^3}:\ \text{the same, or a drying notice}

    Exactly 20 % is doubtful: the regulation speaks of less than the prohibited level, guidance of 20 % or
    less. Wales, Scotland and Ireland were not researched. Germany binds the one who burns.

    References
    ----------
    .. [1] SI 2020/1095 (England), regulation 5, legislation.gov.uk/uksi/2020/1095/regulation/5/made.
    .. [2] durham.gov.uk/article/25446; nqa.com, legal update November 2020.

    Examples
    --------
    >>> from datetime import date
    >>> str(sale_of_firewood("england", 2.5, 0.35, date(2026, 1, 1), drying_notice=True))
    'lawful (drying notice)'
    """
    if nation == "germany":
        limit = moisture_limit(nation, on)
        verdict: Literal["lawful", "doubtful"] = "lawful" if moisture < limit.moisture else "doubtful"
        return SaleVerdict(
            verdict=verdict, condition="for small plant", reasons=(limit.words,), source=limit.source
        )
    if nation != "england":
        return SaleVerdict(
            verdict="not_researched",
            condition="",
            reasons=("No rule of this nation was researched.",),
            source="",
        )
    return _in_england(volume_m3, moisture, on, certified, drying_notice, sold_per_year_m3)


def _in_england(
    volume_m3: float,
    moisture: float,
    on: date,
    certified: bool,
    drying_notice: bool,
    sold_per_year_m3: float | None,
) -> SaleVerdict:
    rules = {line["rule"]: line for line in tables.lines("selling_rules") if line["nation"] == "england"}
    small = sold_per_year_m3 is not None and sold_per_year_m3 < SMALL_FORESTER_M3
    main, notice, forester = (rules[f"SI 2020/1095{end}"] for end in ("", " notice", " small foresters"))
    source = tables.source_text("R34 R35 R39")
    ruling = forester if small else main
    if on < date.fromisoformat(ruling["in_force"]):
        return SaleVerdict(
            verdict="lawful", condition="rule not yet in force", reasons=(ruling["words"],), source=source
        )
    limit = float(main["limit"])
    if certified and moisture == limit:
        doubt = (
            "The regulation speaks of less than the limit, guidance of 20 % or less: dry it a little more."
        )
        return SaleVerdict(verdict="doubtful", condition="exactly 20 %", reasons=(doubt,), source=source)
    if certified and moisture < limit:
        return SaleVerdict(verdict="lawful", condition="", reasons=(main["words"],), source=source)
    if volume_m3 >= float(main["below_m3"]):
        return SaleVerdict(
            verdict="lawful" if drying_notice else "unlawful",
            condition="drying notice" if drying_notice else "",
            reasons=(notice["words"],),
            source=source,
        )
    return SaleVerdict(verdict="unlawful", condition="", reasons=(main["words"],), source=source)
