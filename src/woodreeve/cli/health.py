"""How this installation is: versions, paths, optional packages, and the database, which is not changed."""

from __future__ import annotations

import platform
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path
from typing import Any

from platformdirs import user_cache_path

from woodreeve.errors import WoodreeveError
from woodreeve.records.backup import check
from woodreeve.records.connect import address_of
from woodreeve.records.demo import demo_path
from woodreeve.records.store import Records
from woodreeve.records.upgrade import HEAD

__all__ = ["Database", "Health", "looked_over"]

EXTRAS = {"postgresql": "psycopg"}
"""Optional parts, and the package that brings each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Database:
    """The records: where, in which form, how much is in them, and what is wrong with them."""

    address: str
    exists: bool = False
    form: str | None = None
    newest_form: str = HEAD
    entries: int = 0
    conflicts: int = 0
    versions: int = 0
    holdings: tuple[str, ...] = ()
    megabytes: float | None = None
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Health:
    """All that there is to say."""

    woodreeve: str
    python: str
    machine: str
    packages: dict[str, str]
    extras: dict[str, str]
    paths: dict[str, str]
    database: Database

    def tables(self) -> Iterator[tuple[str, list[tuple[str, str]]]]:
        """The same in rows."""
        yield "Program", [("woodreeve", self.woodreeve), ("Python", self.python), ("machine", self.machine)]
        yield "Paths", list(self.paths.items())
        yield "Packages", list(self.packages.items())
        yield "Extras", list(self.extras.items())
        yield "Database", list(_told(self.database))


def _told(database: Database) -> Iterator[tuple[str, str]]:
    yield "address", database.address
    if not database.exists and not database.faults:
        yield "state", "not there yet; it is made when something is kept"
        return
    yield "state", "well" if not database.faults else "not well, see below"
    yield "form", f"{database.form or 'not known'} (this program writes {database.newest_form})"
    yield "entries", f"{database.entries}, and {database.conflicts} that contradict others"
    yield "holdings", f"{', '.join(database.holdings) or 'none'} ({database.versions} versions)"
    if database.megabytes is not None:
        yield "size", f"{database.megabytes:.1f} MB"


def looked_over(records: str | None) -> Health:
    """Look this installation over.

    Parameters
    ----------
    records : str or None
        The records: a file or a URL; the default file if ``None``.

    Returns
    -------
    Health
        What was found; a database that cannot be read is a fault in it, not an error.
    """
    return Health(
        woodreeve=version("woodreeve"),
        python=f"{platform.python_version()} ({sys.executable})",
        machine=f"{platform.system()} {platform.machine()}",
        packages=_packages(),
        extras={name: _version_or(package, "not installed") for name, package in EXTRAS.items()},
        paths=_paths(),
        database=_database(records),
    )


def _packages() -> dict[str, str]:
    """The packages that this one says it needs, with the versions that are there."""
    found = {}
    for need in requires("woodreeve") or ():
        if "extra ==" not in need:
            name = need.split(";")[0].split(">")[0].split("[")[0].strip()
            found[name] = _version_or(name, "MISSING")
    return dict(sorted(found.items()))


def _version_or(package: str, otherwise: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return otherwise


def _paths() -> dict[str, str]:
    cache = user_cache_path("woodreeve", appauthor=False)
    places = {
        "program": Path(__file__).resolve().parent.parent,
        "records": address_of().path,
        "demonstration": demo_path(),
        "cache": cache,
    }
    return {name: _place(path) for name, path in places.items() if path is not None}


def _place(path: Path) -> str:
    return str(path) if path.exists() else f"{path} (not there yet)"


def _database(records: str | None) -> Database:
    try:
        address = address_of(records)
    except WoodreeveError as error:
        return Database(address="not understood", faults=(str(error),))
    found: dict[str, Any] = {"address": str(address)}
    if address.path is not None:
        if not address.path.exists():
            return Database(**found)
        found |= {"exists": True, "megabytes": round(address.path.stat().st_size / 1e6, 3)}
    try:
        looked = check(records if records is not None else str(address.path))
        found |= {
            "exists": True,
            "form": looked.revision,
            "entries": looked.entries,
            "conflicts": looked.conflicts,
            "versions": looked.holdings,
            "faults": looked.faults,
        }
        if looked.revision == HEAD and not looked.faults:
            with Records.open(records) as opened:
                found["holdings"] = opened.holdings()
    except WoodreeveError as error:
        found["faults"] = (str(error),)
    return Database(**found)
