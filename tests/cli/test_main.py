"""The command as a whole: help at once, one sentence for every fault."""

from __future__ import annotations

import subprocess
import sys

import click
import pytest

from tests.cli.conftest import Woodreeve
from woodreeve.cli.commands import doctor
from woodreeve.cli.main import COMMANDS

HEAVY = (
    "numpy",
    "sqlalchemy",
    "pint",
    "numba",
    "pandas",
    "scipy",
    "matplotlib",
    "fastapi",
    "pydantic",
    "rich",
)

LOOK = """
import sys
from woodreeve.cli.main import main
try:
    main(sys.argv[1:])
except SystemExit as ended:
    assert not ended.code, ended.code
print("HEAVY:", *(name for name in {heavy!r} if name in sys.modules))
"""


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], []])
def test_help_loads_nothing_heavy(arguments: list[str]) -> None:
    """A fresh process that only shows its help has met none of the large libraries."""
    ran = subprocess.run(
        [sys.executable, "-c", LOOK.format(heavy=HEAVY), *arguments],
        capture_output=True, text=True, check=True, timeout=60,
    )  # fmt: skip
    assert ran.stdout.splitlines()[-1].strip() == "HEAVY:", ran.stdout


def test_that_search_for_heavy_libraries_can_find_one() -> None:
    """A command that works something out does load numpy."""
    ran = subprocess.run(
        [sys.executable, "-c", LOOK.format(heavy=HEAVY), "work-out", "net_heat"],
        capture_output=True, text=True, check=True, timeout=60,
    )  # fmt: skip
    assert "numpy" in ran.stdout.splitlines()[-1]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_and_is_listed(woodreeve: Woodreeve, name: str) -> None:
    """Each on the list can be loaded, and says what it does."""
    assert name in woodreeve("--help").ok().out
    assert "Usage: woodreeve" in woodreeve(name, "--help").ok().out


def commands_below(command: click.Command, path: tuple[str, ...]) -> list[tuple[str, ...]]:
    """Every command that can be called."""
    if not isinstance(command, click.Group):
        return [path]
    return [one for name in command.commands for one in commands_below(command.commands[name], (*path, name))]


def test_every_command_that_tells_something_has_json() -> None:
    """All but those that serve, or write a file or a paper, have the switch."""
    import importlib

    without = []
    for name in COMMANDS:
        top = importlib.import_module(f"woodreeve.cli.commands.{name.replace('-', '_')}").command
        for path in commands_below(top, (name,)):
            one = top
            for step in path[1:]:
                one = one.commands[step]
            if not any("--json" in option.opts for option in one.params):
                without.append(" ".join(path))
    silent = {"card", "demo", "diary export", "holding blank", "holding save", "paper", "serve"}
    assert set(without) == silent


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["wintr"], "No such command 'wintr'"),
        (["winter", "--atx", "now"], "--atx"),
        (["winter", "--at"], "--at"),
        (["why"], "QUESTION"),
        (["serve", "--port", "99999"], "99999"),
        (["backup", "restore", "a-file"], "--to"),
        (["holding", "sho"], "sho"),
    ],
)
def test_wrong_words_get_one_line_and_where_to_find_help(
    woodreeve: Woodreeve, arguments: list[str], part: str
) -> None:
    """The command line's own faults read like all others."""
    told = woodreeve(*arguments).refused()
    assert part in told
    assert "--help" in told
    assert "\n" not in told


def test_without_words_the_help_is_shown_and_all_is_well(woodreeve: Woodreeve) -> None:
    """Asking for nothing is no fault."""
    assert "Commands:" in woodreeve().ok().out
    assert "Commands:" in woodreeve("diary").ok().out


def test_stopping_from_the_keyboard_is_clean(woodreeve: Woodreeve, monkeypatch: pytest.MonkeyPatch) -> None:
    """One word, and the code that shells know."""

    def stopped(**_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(doctor.command, "callback", stopped)
    ran = woodreeve("doctor")
    assert ran.code == 130
    assert ran.err.strip() == "woodreeve: stopped."
