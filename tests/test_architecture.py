"""The rules that keep the floors apart, and proof that each of them bites."""

import ast
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PROJECT = Path(__file__).parent.parent
PACKAGE = PROJECT / "src" / "woodreeve"
MAY_TOUCH_THE_WORLD = {"records", "papers", "links", "web", "cli"}
"""The rooms that open files, read the clock and speak to the network."""


def low_modules() -> list[Path]:
    """Every module of the rooms that must follow from their arguments alone."""
    return [
        path
        for path in sorted(PACKAGE.rglob("*.py"))
        if path.relative_to(PACKAGE).parts[0] not in MAY_TOUCH_THE_WORLD
    ]


def unseen_by_name(source: str) -> Iterator[str]:
    """The two banned calls that a ban by name cannot see: builtin open, dice without a seed."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        match node.func:
            case ast.Name(id="open"):
                yield f"line {node.lineno}: open()"
            case ast.Name(id=name) | ast.Attribute(attr=name) if name in {"default_rng", "RandomState"}:
                if not node.args and not node.keywords:
                    yield f"line {node.lineno}: {name}() without a seed"


def lint_imports(project: Path) -> subprocess.CompletedProcess[str]:
    """Run the contracts of pyproject.toml on the copy of the package in `project`."""
    return subprocess.run(
        [sys.executable, "-c",
         f"import sys; sys.path.insert(0, {str(project / 'src')!r}); "
         "from importlinter.cli import lint_imports_command; lint_imports_command()",
         "--no-cache"],
        cwd=project, capture_output=True, text=True, check=False,
    )  # fmt: skip


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the project's code in which a test may do wrong."""
    shutil.copy(PROJECT / "pyproject.toml", tmp_path)
    shutil.copytree(PACKAGE, tmp_path / "src" / "woodreeve", ignore=shutil.ignore_patterns("__pycache__"))
    return tmp_path


def plant(copy: Path, module: str, text: str) -> Path:
    """Add a module to the copy, with the packages it stands in."""
    path = copy / "src" / "woodreeve" / module
    path.parent.mkdir(parents=True, exist_ok=True)
    for parent in path.relative_to(copy / "src" / "woodreeve").parents:
        init = copy / "src" / "woodreeve" / parent / "__init__.py"
        if not init.exists():
            init.write_text('"""A room made by a test."""\n')
    path.write_text(f'"""A module made by a test."""\n\n{text}\n')
    return path


def test_every_room_keeps_to_its_floor() -> None:
    """The contracts hold for the code as it is."""
    result = lint_imports(PROJECT)
    assert result.returncode == 0, result.stdout + result.stderr


@pytest.mark.parametrize(
    ("module", "text", "broken"),
    [
        ("units_probe.py", "", "The floors"),
        ("weather/probe.py", "import woodreeve.records", "The floors"),
        ("house/probe.py", "import woodreeve.plant", "The floors"),
        ("wood/probe.py", "import sqlalchemy", "Below records"),
        ("holding/probe.py", "import urllib.request", "Below records"),
        ("house/probe.py", "def f():\n    import fastapi", "Below records"),
        ("answers/probe.py", "import click", "Below records"),
        ("weather/probe.py", "import pandas", "Only the sun"),
        ("web/probe.py", "import pvlib", "Only the sun"),
        ("answers/probe.py", "import numba", "Only kernels"),
        ("web/probe.py", "import matplotlib.figure", "Only charts"),
        ("answers/probe.py", "import woodreeve.answers.other", "No answer"),
    ],
)
def test_a_wrong_import_breaks_its_contract(copy: Path, module: str, text: str, broken: str) -> None:
    """Each contract is one that can fail."""
    for room in ("records", "plant", "answers"):
        plant(copy, f"{room}/other.py", "")
    plant(copy, module, text)
    result = lint_imports(copy)
    lines = result.stdout.splitlines()
    assert result.returncode != 0, result.stdout
    assert any(line.startswith(broken) and " BROKEN" in line for line in lines), result.stdout


@pytest.mark.parametrize(
    ("module", "text"),
    [
        ("weather/sun.py", "import pvlib"),
        ("weather/readers.py", "import pandas"),
        ("season/kernel.py", "import numba"),
        ("charts/probe.py", "import matplotlib.figure"),
        ("records/probe.py", "import sqlalchemy"),
        ("web/pages/probe.py", "import fastapi\nimport woodreeve.answers.other"),
        ("cli/commands/probe.py", "import click\nimport woodreeve.web.pages.other"),
    ],
)
def test_a_right_import_breaks_none(copy: Path, module: str, text: str) -> None:
    """The contracts leave room for what the design allows."""
    plant(copy, "answers/other.py", "")
    plant(copy, "web/pages/other.py", "")
    if not (copy / "src" / "woodreeve" / module).exists():
        plant(copy, module, text)
    result = lint_imports(copy)
    assert result.returncode == 0, result.stdout + result.stderr


@pytest.mark.parametrize("path", low_modules(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_below_records_nothing_opens_a_file_or_throws_unseeded_dice(path: Path) -> None:
    """What ruff's ban by name cannot see."""
    assert list(unseen_by_name(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize(
    "text",
    [
        "open('x')",
        "with open('x') as f:\n    pass",
        "import numpy as np\nnp.random.default_rng()",
        "from numpy.random import default_rng\ndefault_rng()",
    ],
)
def test_what_the_ban_by_name_cannot_see_is_seen(text: str) -> None:
    """The search itself can fail."""
    assert list(unseen_by_name(text))


def test_seeded_dice_and_methods_called_open_are_allowed() -> None:
    """The search does not cry wolf."""
    assert list(unseen_by_name("rng = default_rng(seed)\nfiles('woodreeve').joinpath('x').open()")) == []


@pytest.mark.parametrize(
    "text",
    [
        "from pathlib import Path",
        "import os",
        "import time",
        "import random",
        "from uuid import uuid4",
        "from datetime import datetime, UTC\n\nNOW = datetime.now(UTC)",
        "from datetime import date\n\nTODAY = date.today()",
    ],
)
@pytest.mark.parametrize(("room", "allowed"), [("wood", False), ("answers", False), ("records", True)])
def test_clock_files_and_dice_are_banned_below_records_only(
    copy: Path, text: str, room: str, allowed: bool
) -> None:
    """The bans in pyproject.toml bite low down and leave the faces free."""
    path = plant(copy, f"{room}/probe.py", text)
    result = subprocess.run(
        [sys.executable, "-m", "ruff", "check", "--no-cache", "--select", "TID251", path],
        cwd=copy, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (result.returncode == 0) is allowed, result.stdout


def test_the_locks_hold_hashes_and_no_address() -> None:
    """A lock that names a registry would tie the project to one place."""
    for lock in sorted((PROJECT / "requirements").glob("*.txt")):
        text = lock.read_text(encoding="utf-8")
        assert "://" not in text
        assert "index-url" not in text
        for requirement in text.replace("\\\n", " ").splitlines():
            assert "--hash=sha256:" in requirement, f"{lock.name}: {requirement}"


def test_what_runs_is_locked_alike_for_running_and_developing() -> None:
    """So that one .venv can serve both."""

    def pins(name: str) -> set[str]:
        text = (PROJECT / "requirements" / name).read_text(encoding="utf-8").replace("\\\n", " ")
        return {line.split()[0] for line in text.splitlines()}

    assert pins("run.txt") | pins("build.txt") <= pins("dev.txt")
