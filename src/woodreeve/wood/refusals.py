"""What must never be burnt, and why."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from woodreeve.errors import Refused
from woodreeve.wood import tables
from woodreeve.workings import worked

__all__ = ["Material", "may_burn", "refuse_if_never_burnt"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """What was found on burning a material.

    ``verdict`` is ``never`` or ``no_objection_found``; the latter is no permission.
    """

    name: str
    verdict: Literal["never", "no_objection_found"]
    kind: str
    reason: str
    nations: str
    source: str


@lru_cache(maxsize=1)
def _patterns() -> tuple[tuple[re.Pattern[str], Mapping[str, str]], ...]:
    found = []
    for line in tables.lines("never_burn"):
        names = "|".join(re.escape(name) for name in line["names"].split(";"))
        # "untreated", "un-painted" and "not painted" are no hit.
        found.append((re.compile(rf"(?<![\w])(?<!un )(?<!not )(?:{names})(?:s|es)?(?!\w)"), line))
    return tuple(found)


@worked
def may_burn(material: str) -> Material:
    r"""What is known against burning a material, by its name.

    Parameters
    ----------
    material : str
        What somebody wants to burn, in plain words: ``"old painted window frame"``.

    Returns
    -------
    Material
        ``never`` with the reason, or that no objection was found.

    Notes
    -----
    A look-up of words in a short table, no judgement: only clean, untreated, dry wood belongs in a log
    boiler, whatever this says.

    .. math:: \text{never} \Leftrightarrow \text{a word of the table stands in the name}

    References
    ----------
    .. [1] Waikato Regional Council, "What not to burn"; Northland Regional Council, news of May 2015.
    .. [2] Bavarian and German environment ministries on 1. BImSchV, stmuv.bayern.de, bmuv.de/FA790.
    .. [3] wikiwaste.org.uk, "Wood Waste", which quotes the Environment Agency 2017.

    Examples
    --------
    >>> may_burn("MDF off-cuts").verdict
    'never'
    >>> may_burn("untreated larch").verdict
    'no_objection_found'
    """
    plain = " ".join(re.sub(r"[-_]", " ", material.casefold()).split())
    for pattern, line in _patterns():
        if pattern.search(plain):
            return Material(
                name=material,
                verdict="never",
                kind=line["key"],
                reason=line["reason"],
                nations=line["nations"],
                source=tables.source_text(line["source"]),
            )
    return Material(name=material, verdict="no_objection_found", kind="", reason="", nations="", source="")


def refuse_if_never_burnt(material: str) -> None:
    """Refuse a material that must never be burnt.

    Parameters
    ----------
    material : str
        What somebody wants to burn or to write down as fuel.

    Raises
    ------
    Refused
        With the reason and its source.
    """
    found = may_burn(material)
    if found.verdict == "never":
        raise Refused(f"{material} must never be burnt: {found.reason} ({found.source})")
