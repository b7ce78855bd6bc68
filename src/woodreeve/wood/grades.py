"""Firewood classes: which grade a lot of logs may be sold as, and what stands in the way of a better one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from woodreeve.units import Gt, Le, Moisture, Share, Unit
from woodreeve.wood import tables
from woodreeve.workings import worked

__all__ = ["GRADES", "Grading", "Lot", "Origin", "grade_firewood"]

Origin = Literal[
    "stem_wood", "clean_offcuts", "whole_tree", "logging_residues", "demolition_wood", "treated_wood", "roots"
]
"""Where the wood is from; the last three are outside the standard."""
Surface = Literal["even", "uneven"]

Verdict = Literal["A1", "A2", "B", "no grade", "not enough known", "out of scope"]

GRADES: tuple[Literal["A1", "A2", "B"], ...] = ("A1", "A2", "B")
"""The classes of ISO 17225-5, best first."""

LengthCm = Annotated[float, Unit("cm"), Gt(0.0), Le(400.0)]

_ASKED = ("moisture", "share_split", "cut_surface", "decay", "length_cm")
_QUESTIONS = {
    "moisture": "the moisture",
    "share_split": "the share that is split",
    "cut_surface": "whether the cut surface is even",
    "decay": "the share with decay or mould",
    "length_cm": "the length",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Firewood as its seller would describe it; ``None`` is not known."""

    origin: Origin
    moisture: Moisture | None = None
    share_split: Share | None = None
    cut_surface: Surface | None = None
    decay: Share | None = None
    length_cm: LengthCm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Grading:
    """What a lot may be called.

    ``verdict`` is a grade, ``"out of scope"``, ``"no grade"`` or ``"not enough known"``; ``against`` says
    what stands in the way of each better grade, ``missing`` what has to be found out, ``status`` how far the
    limits can be relied on.
    """

    verdict: Verdict
    against: tuple[str, ...]
    missing: tuple[str, ...]
    length_class: str
    status: str
    source: str


def _limit(grade: str, name: str) -> tuple[str, str]:
    for line in tables.lines("firewood_classes"):
        if line["class"] == grade and line["property"] == name:
            return line["limit"], line["words"]
    raise LookupError(f"the table of firewood classes has no {name} for {grade}")


def _fails(lot: Lot, grade: str, name: str) -> bool:
    limit = _limit(grade, name)[0]
    value: str | float | None = getattr(lot, name)
    if value is None:
        return False
    if isinstance(value, str):
        return value not in limit.split()
    return value < float(limit) if name == "share_split" else value > float(limit)


def _length_class(length_cm: float | None) -> str:
    if length_cm is None:
        return ""
    classes = [float(length) for length in _limit("all", "length_cm")[0].split()]
    nearest = min(classes, key=lambda length: abs(length - length_cm))
    return f"L{nearest:.0f}" if abs(nearest - length_cm) <= 2.0 else ""


@worked
def grade_firewood(lot: Lot) -> Grading:
    r"""The best class of the firewood standard that a described lot meets.

    Parameters
    ----------
    lot : Lot
        The firewood as its seller would describe it.

    Returns
    -------
    Grading
        The class, what stands in the way of a better one, and what is not known.

    Raises
    ------
    OutOfRange
        If a share or a length lies outside the range of its unit.

    Notes
    -----
    A lot has a grade when every property meets that grade's limit:

    .. math:: M \le M_\mathrm{max}, \quad s \ge s_\mathrm{min}, \quad d \le d_\mathrm{max}

    The raw material and the duty to state the grade were read; the other limits are from memory, of the
    edition of 2014. Check the standard in force before you print a grade on an invoice.

    References
    ----------
    .. [1] EN ISO 17225-5:2014, scope, standards.iteh.ai; EN 14961-5, scope, standards.globalspec.com.
    .. [2] ISO 17225-5:2014, Table 1 (from memory).

    Examples
    --------
    >>> lot = Lot(origin="stem_wood", moisture=0.18, share_split=0.95, cut_surface="even", decay=0.0)
    >>> grade_firewood(lot).missing
    ('the length',)
    >>> grade_firewood(Lot(origin="demolition_wood")).verdict
    'out of scope'
    """
    allowed, words = _limit("all", "raw_material")
    if lot.origin not in allowed.split():
        return _grading("out of scope", (words,), (), lot)
    missing = tuple(_QUESTIONS[name] for name in _ASKED if getattr(lot, name) is None)
    against: list[str] = []
    for grade in GRADES:
        failed = [name for name in ("origin", *_ASKED[:-1]) if _fails(lot, grade, name)]
        if lot.length_cm is not None and not _length_class(lot.length_cm):
            failed.append("length_cm")
        if not failed:
            return _grading("not enough known" if missing else grade, tuple(against), missing, lot)
        against += [f"{grade}: {_limit('all' if name == 'length_cm' else grade, name)[1]}" for name in failed]
    return _grading("no grade", tuple(against), missing, lot)


def _grading(verdict: Verdict, against: tuple[str, ...], missing: tuple[str, ...], lot: Lot) -> Grading:
    read = verdict == "out of scope"
    return Grading(
        verdict=verdict,
        against=against,
        missing=missing,
        length_class=_length_class(lot.length_cm),
        status="read at the source" if read else "limits from memory, not re-read",
        source=tables.source_text("R36 R37" if read else "ISO17225-5"),
    )
