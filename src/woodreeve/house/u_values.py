"""U-values: how much heat a square metre of wall, roof, floor or window lets through for each degree."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Annotated, Literal

from woodreeve.errors import UnknownName
from woodreeve.house.describe import Element
from woodreeve.units import Ge, Le, Unit, UValue
from woodreeve.workings import worked

__all__ = [
    "LINING_RESISTANCE",
    "TableValue",
    "element_u_value",
    "stone_wall_u",
    "table_u_value",
    "u_value_table",
]

LINING_RESISTANCE = 0.17
"""Resistance of a lining with air behind it. [m2*K/W] (RdSAP 2012 S5.1.1)"""

USUAL_STONE_MM = 550.0
"""Thickness of a stone wall where nobody gives it. [mm] (judgement)"""

USUAL: dict[str, str] = {
    "wall": "sandstone_as_built",
    "roof": "loft_100",
    "floor": "floor_old",
    "window": "single_glazing",
    "door": "wooden_door",
}
"""What a part of an old house is taken to be where nobody says."""

_STONES: dict[str, Literal["granite", "sandstone"]] = {"granite": "granite", "sandstone": "sandstone"}

Spread = Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class TableValue:
    """One row of the table of constructions."""

    key: str
    element: str
    label: str
    u_value: UValue
    sun_share: float | None
    spread: Spread
    source: str
    status: str


@lru_cache(maxsize=1)
def u_value_table() -> dict[str, TableValue]:
    """The table of constructions, by key."""
    text = (files("woodreeve.house") / "data" / "u_values.csv").read_text(encoding="utf-8")
    return {
        row["key"]: TableValue(
            key=row["key"],
            element=row["element"],
            label=row["label"],
            u_value=float(row["u_value"]),
            sun_share=float(row["sun_share"]) if row["sun_share"] else None,
            spread=float(row["spread"]),
            source=row["source"],
            status=row["status"],
        )
        for row in csv.DictReader(text.splitlines())
    }


@worked
def stone_wall_u(
    stone: Literal["granite", "sandstone"],
    thickness_mm: Annotated[float, Unit("mm"), Ge(100.0), Le(1200.0)],
    finish: Literal["bare", "lined"] = "bare",
) -> UValue:
    r"""U-value of an old solid stone wall, from its thickness.

    Walls measured in place mostly lost less than this: take it as right to within 30 %, and let
    fuel that was really used overrule it.

    Parameters
    ----------
    stone : {"granite", "sandstone"}
        Granite stands for whinstone too, sandstone for limestone.
    thickness_mm : float
        Thickness, :math:`t`. [mm] From 100 to 1200.
    finish : {"bare", "lined"}
        Plastered on the stone, or lined with air behind.

    Returns
    -------
    UValue
        U-value. [W/(m2*K)]

    Raises
    ------
    OutOfRange
        If the thickness lies outside its range.
    UnknownName
        If the stone or the finish is not known.

    Notes
    -----
    .. math:: U_0 = 3.3 - 0.002\,t \;\text{(granite)}, \quad U_0 = 3.0 - 0.002\,t \;\text{(sandstone)}

    .. math:: U = 1 / (1/U_0 + 0.17) \;\text{where lined}

    References
    ----------
    .. [1] RdSAP 2012, S5.1.1, in Scottish Government, "Validation of RdSAP U-value calculation
       methodology for traditional stone walls in Scotland", Appendix A,
       https://www.gov.scot/publications/validation-rdsap-u-value-calculation-methodology-traditional-stone-walls-scotland/pages/6/

    Examples
    --------
    >>> round(stone_wall_u("sandstone", 600.0, "lined"), 4)
    1.3783
    """
    bare = (3.3 if stone == "granite" else 3.0) - 0.002 * thickness_mm
    return bare if finish == "bare" else 1.0 / (1.0 / bare + LINING_RESISTANCE)


@worked
def table_u_value(construction: str) -> UValue:
    r"""U-value of a usual construction, from the table.

    Parameters
    ----------
    construction : str
        Its key in the table, such as ``single_glazing`` or ``loft_100``.

    Returns
    -------
    UValue
        U-value. [W/(m2*K)]

    Raises
    ------
    UnknownName
        If the table has no such construction.

    Notes
    -----
    .. math:: U = \text{table}(\text{construction})

    References
    ----------
    .. [1] Scottish Government, EPC review supplementary notes, Table UV1 (RdSAP 9.81 to 9.90),
       https://www.gov.scot/publications/supplementary-topic-notes-review-domestic-non-domestic-energy-performance-certificates-scotland/pages/2/
    .. [2] InDiGuD wiki, table of windows, https://wiki.indigud.de
    .. [3] RdSAP Table S9 for lofts and defaults for doors (from memory). The table names the source
       of each row.

    Examples
    --------
    >>> table_u_value("single_glazing")
    4.7
    """
    table = u_value_table()
    if construction not in table:
        raise UnknownName("construction", construction, table)
    return table[construction].u_value


def element_u_value(element: Element) -> float:
    """The U-value of a part: the owner's own, a stone wall's from its thickness, or the table's."""
    if element.u_value is not None:
        return element.u_value
    construction = element.construction or USUAL[element.kind]
    if construction in _STONES:
        thickness = element.thickness_mm if element.thickness_mm is not None else USUAL_STONE_MM
        return stone_wall_u(_STONES[construction], thickness, "lined" if element.lined else "bare")
    return table_u_value(construction)


def element_spread(element: Element) -> float:
    """How far, as a share, the true U-value may lie from the one used, in 8 cases of 10."""
    if element.u_value is not None:
        return 0.10
    construction = element.construction or USUAL[element.kind]
    return 0.30 if construction in _STONES else u_value_table()[construction].spread


def element_sun_share(element: Element) -> float:
    """Share of the sun on the glass that comes through it; 0 for what is no window."""
    if element.kind != "window":
        return 0.0
    construction = element.construction or USUAL["window"]
    return u_value_table()[construction].sun_share or 0.0
