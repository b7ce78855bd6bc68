"""Kinds of wood: their names, and the figures found for each with its source; blanks stay blank."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import Literal, TypeAlias

from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.wood import tables

__all__ = [
    "GROUP_WORDS",
    "MIXED",
    "SPECIES",
    "Group",
    "Quantity",
    "Species",
    "SpeciesFigure",
    "Status",
    "Wood",
    "default_of_group",
    "figures_of",
    "group_shares",
    "shares_of",
    "species",
]

Group = Literal["broadleaf", "conifer"]
Region = Literal["europe", "north_america"]
Quantity = Literal["basic_density", "green_moisture", "shrinkage", "net_heat_dry", "ash_share", "bark_share"]
Status = Literal["read", "memory", "proxy", "group_mean", "fall_back"]

Wood: TypeAlias = str | Mapping[str, float]
"""A species or group by name, or a mixture: names to shares of the solid volume, which sum to 1."""

_STATUS_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "read": "read at the source",
        "memory": "from memory, not re-read",
        "proxy": "figure of a relative",
        "group_mean": "mean of a group of species",
        "fall_back": "fall-back",
    }
)
GROUP_WORDS: Mapping[Group, str] = MappingProxyType({"broadleaf": "broadleaved", "conifer": "coniferous"})


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeciesFigure:
    """One figure of a species, with its range, its source and how it was come by.

    Shares and moistures are fractions; a moisture is on the wet basis unless ``quantity`` says dry basis.
    """

    of: str
    quantity: str
    value: float
    unit: str
    status: Status
    source: str
    low: float | None = None
    high: float | None = None
    spread: float | None = None
    note: str = ""

    @property
    def words(self) -> str:
        """How the figure was come by, in one sentence."""
        how = _STATUS_WORDS[self.status] + (f", {self.note}" if self.note else "")
        return (
            f"{self.of}: {how}; {tables.source_text(self.source)}." if self.source else f"{self.of}: {how}."
        )

    def __str__(self) -> str:
        """The figure and its source, as a trace shows it."""
        return f"{self.value:.6g} {self.unit} ({self.words})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """A kind of wood: its names, its group, and the figures found for it."""

    key: str
    latin: str
    english: str
    group: Group
    region: Region
    aliases: tuple[str, ...]
    figures: tuple[SpeciesFigure, ...]

    @property
    def genus(self) -> str:
        """The first word of the Latin name; empty for a group."""
        return self.latin.split(" ")[0]


def _load() -> dict[str, Species]:
    by_species: dict[str, list[SpeciesFigure]] = {}
    names = {line["key"]: line["english"] for line in tables.lines("species")}
    for line in tables.lines("figures"):
        by_species.setdefault(line["of"], []).append(_figure(line, names.get(line["of"], line["of"])))
    return {
        line["key"]: Species(
            key=line["key"],
            latin=line["latin"],
            english=line["english"],
            group="conifer" if line["group"] == "conifer" else "broadleaf",
            region="europe" if line["region"] == "europe" else "north_america",
            aliases=tuple(filter(None, line["aliases"].split(";"))),
            figures=tuple(by_species[line["key"]]),
        )
        for line in tables.lines("species")
    }


def _figure(line: Mapping[str, str], english: str) -> SpeciesFigure:
    scale = 0.01 if line["unit"] == "%" else 1.0

    def read(column: str) -> float | None:
        return round(float(line[column]) * scale, 9) if line[column] else None

    status: dict[str, Status] = {
        "read": "read",
        "memory": "memory",
        "proxy": "proxy",
        "group_mean": "group_mean",
    }
    return SpeciesFigure(
        of=english,
        quantity=line["quantity"],
        value=round(float(line["value"]) * scale, 9),
        unit="-" if line["unit"] == "%" else line["unit"],
        status=status[line["status"]],
        source=line["source"],
        low=read("low"),
        high=read("high"),
        spread=read("spread"),
        note=line["note"],
    )


SPECIES: Mapping[str, Species] = MappingProxyType(_load())
"""Every species by its key, the English name in lower case with underscores."""

_COMMON_WORDS: Mapping[Group, str] = {"broadleaf": "hardwood", "conifer": "softwood"}

MIXED: Mapping[str, Species] = MappingProxyType(
    {
        f"mixed_{group}": Species(
            key=f"mixed_{group}",
            latin="",
            english=f"mixed {group}",
            group=group,
            region="europe",
            aliases=(f"mixed {group}s", GROUP_WORDS[group], wood),
            figures=(),
        )
        for group, wood in _COMMON_WORDS.items()
    }
)
"""The two groups that stand for wood of no stated species."""


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("_", " ").replace("-", " ").split())


@lru_cache(maxsize=1)
def _by_name() -> Mapping[str, Species]:
    found: dict[str, Species] = {}
    for kind in (*SPECIES.values(), *MIXED.values()):
        for name in (kind.key, kind.english, kind.latin, *kind.aliases):
            if name:
                found.setdefault(_plain(name), kind)
    return MappingProxyType(found)


@lru_cache(maxsize=512)
def species(name: str) -> Species:
    """Find a species by its English or Latin name, a common other name, or a group.

    Parameters
    ----------
    name : str
        For instance ``"beech"``, ``"Fagus sylvatica"``, ``"oak"`` (the pedunculate), ``"mixed_broadleaf"``.
        Capitals, hyphens and underscores do not matter.

    Returns
    -------
    Species
        The species or group.

    Raises
    ------
    UnknownName
        If nobody has heard of it; the nearest names are offered.

    Examples
    --------
    >>> species("Fagus sylvatica").english
    'beech'
    >>> species("Douglas-fir").key
    'douglas_fir'
    """
    known = _by_name()
    try:
        return known[_plain(name)]
    except KeyError:
        raise UnknownName("species", _plain(name), known) from None


def shares_of(wood: Wood) -> dict[str, float]:
    """Take a mixture apart: species key to share of the solid volume.

    Parameters
    ----------
    wood : str or mapping
        A name, or names to shares.

    Returns
    -------
    dict
        Species keys to shares.

    Raises
    ------
    UnknownName
        If a name is not known.
    OutOfRange
        If a share is negative or the shares do not sum to 1.
    """
    if isinstance(wood, str):
        return {species(wood).key: 1.0}
    total = sum(wood.values())
    for name, share in wood.items():
        if not 0.0 <= share <= 1.0:
            raise OutOfRange(f"share of {name}", share, "between 0 and 1")
    if not 0.999 <= total <= 1.001:
        raise OutOfRange(
            "sum of the shares", f"{total:g}", "1", hint="give each share as a part of the whole"
        )
    found: dict[str, float] = {}
    for name, share in wood.items():
        key = species(name).key
        found[key] = found.get(key, 0.0) + share / total
    return found


def group_shares(wood: Wood) -> dict[Group, float]:
    """Share of the solid volume that is broadleaved, and coniferous."""
    found: dict[Group, float] = {"broadleaf": 0.0, "conifer": 0.0}
    for key, share in shares_of(wood).items():
        found[species(key).group] += share
    return found


def figures_of(name: str, quantity: str) -> tuple[SpeciesFigure, ...]:
    """All figures found for a species and a quantity, the preferred one first; empty where none was found."""
    return tuple(figure for figure in species(name).figures if figure.quantity == quantity)


def default_of_group(kind: Species, quantity: Quantity) -> SpeciesFigure | None:
    """The typical value of broadleaved or coniferous wood, where a source gives one."""
    for line in tables.lines("figures"):
        if line["of"] == kind.group and line["quantity"] == quantity:
            return _figure(line, kind.english)
    return None
