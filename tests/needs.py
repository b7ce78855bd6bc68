"""The one way in which a test may be skipped: something it needs is not on this machine.

Mark a test, or call from a fixture::

    pytestmark = needs("chromium")

    @needs("postgresql")
    def test_...

    path = found("chromium")

On a checking machine WOODREEVE_NEED_ALL=1 is set, and then a missing thing fails the
test instead: nothing can go untested there without being noticed.
"""

import os
import re
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest


def _first_program(*names: str) -> Path | None:
    """The first of these programs that is on PATH."""
    for name in names:
        if path := shutil.which(name):
            return Path(path)
    return None


def _postgresql() -> Path | None:
    """The folder with PostgreSQL's own programs, the newest where there are several.

    Debian keeps them off PATH, under a folder named by the version.
    """
    debian = Path("/usr/lib/postgresql")
    folders = [folder / "bin" for folder in debian.glob("*") if re.fullmatch(r"\d+", folder.name)]
    folders.sort(key=lambda folder: int(folder.parent.name), reverse=True)
    if program := shutil.which("initdb"):
        folders.append(Path(program).resolve().parent)
    for folder in folders:
        if (folder / "initdb").exists() and (folder / "postgres").exists():
            return folder
    return None


FINDERS: Mapping[str, Callable[[], Path | None]] = {
    "chromium": lambda: _first_program("chromium", "chromium-browser", "google-chrome"),
    "postgresql": _postgresql,
    "gcc": lambda: _first_program("gcc", "cc"),
}
"""How to find each thing that a test may need."""


def needs_all() -> bool:
    """Whether this machine must have everything, so that nothing may be skipped."""
    return os.environ.get("WOODREEVE_NEED_ALL") == "1"


def needs(name: str) -> pytest.MarkDecorator:
    """Skip the marked test where `name` is missing; on a checking machine let it run and fail.

    Parameters
    ----------
    name : str
        One of the keys of `FINDERS`.
    """
    missing = FINDERS[name]() is None
    return pytest.mark.skipif(missing and not needs_all(), reason=f"needs {name}, which is not here")


def found(name: str) -> Path:
    """Where `name` is; skips the running test where it is missing, or fails it.

    Parameters
    ----------
    name : str
        One of the keys of `FINDERS`.
    """
    path = FINDERS[name]()
    if path is not None:
        return path
    if needs_all():
        pytest.fail(f"{name} is missing, and WOODREEVE_NEED_ALL says that this machine has it")
    pytest.skip(f"needs {name}, which is not here")
