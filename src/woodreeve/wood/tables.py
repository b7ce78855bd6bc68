"""The tables that ride with the package, each line with its source: figures, factors, classes and rules."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType

from woodreeve.errors import UnknownName

__all__ = ["lines", "source_text", "sources"]

Line = Mapping[str, str]


@lru_cache(maxsize=32)
def lines(table: str) -> tuple[Line, ...]:
    """Read a table of ``wood/data``; each line is a mapping of column to text.

    Parameters
    ----------
    table : str
        File name without ``.csv``.

    Returns
    -------
    tuple of mapping
        The lines in their order, empty cells as empty texts.
    """
    text = files("woodreeve.wood").joinpath("data", f"{table}.csv").read_text(encoding="utf-8")
    return tuple(MappingProxyType(line) for line in csv.DictReader(text.splitlines()))


@lru_cache(maxsize=1)
def sources() -> Mapping[str, str]:
    """Source codes of the tables, each with its full reference."""
    return MappingProxyType({line["code"]: line["text"] for line in lines("sources")})


def source_text(codes: str) -> str:
    """Say in full what one or several source codes, parted by blanks, stand for.

    Parameters
    ----------
    codes : str
        For instance ``"R34 R39"``.

    Returns
    -------
    str
        The references, parted by semicolons.

    Raises
    ------
    UnknownName
        If a code is not on the list.
    """
    known = sources()
    for code in codes.split():
        if code not in known:
            raise UnknownName("source code", code, known)
    return "; ".join(known[code] for code in codes.split())
