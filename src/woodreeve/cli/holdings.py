"""Saving a holding's description from a file: what it was made from, and what stands against it."""

from __future__ import annotations

import difflib
import re
from typing import TYPE_CHECKING

from woodreeve.records.store import StaleHolding

if TYPE_CHECKING:
    from woodreeve.records.store import HoldingVersion, Records

__all__ = ["FROM_FILE", "base_of", "differences", "marked", "unmarked"]

FROM_FILE = "file"
"""Who saved a version that came from a file."""

_MARK = re.compile(r"^# Version (\d+) of the holding (\S+), as woodreeve saved it\.\n")


def marked(version: HoldingVersion) -> str:
    """A version's text, headed by a remark that says which version it is."""
    head = f"# Version {version.version} of the holding {version.name}, as woodreeve saved it."
    return f"{head}\n{version.document}"


def unmarked(text: str) -> tuple[str, int | None]:
    """The text without that remark, and the version it names."""
    found = _MARK.match(text)
    return (text, None) if found is None else (text[found.end() :], int(found[1]))


def base_of(records: Records, name: str, from_mark: int | None) -> int | None:
    """The version from which a file was made.

    That is the version its first line names; without such a line the one last loaded from a file, so that
    an owner who keeps his own file may load it again and again, and is told when a page has changed it.

    Parameters
    ----------
    records : Records
        The records.
    name : str
        The holding.
    from_mark : int or None
        What the file's first line says.

    Returns
    -------
    int or None
        ``None`` for a new holding, or where no file was loaded before.
    """
    if name not in records.holdings():
        return None
    if from_mark is not None:
        return from_mark
    loaded = [one.version for one in records.holding_versions(name) if one.by == FROM_FILE]
    return loaded[-1] if loaded else None


def differences(stale: StaleHolding) -> str:
    """Both texts of a refused saving, as the lines in which they differ."""
    lines = difflib.unified_diff(
        stale.stored.document.splitlines(),
        stale.given.splitlines(),
        f"version {stale.stored.version}, in the records",
        "yours",
        lineterm="",
        n=1,
    )
    return "\n".join(lines)
