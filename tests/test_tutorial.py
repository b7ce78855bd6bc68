"""The tutorial and the how-to pages are run as they stand: what they say to type gives what they show.

In a block ``console`` each line with a ``$`` is run, and the lines under it must come out, ``...`` standing
for anything. A block ``toml`` is written into ``my.toml``, as the reader would do it in an editor. Blocks
``sh`` are not run: they install, or run until they are stopped. An entry is named in the texts by eight signs
that differ each time; what came out in their place is used in the commands that follow.
"""

from __future__ import annotations

import doctest
import os
import re
import shutil
import subprocess
import sys
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import tomlkit

from woodreeve.holding.toml import set_field

DOCS = Path(__file__).parent.parent / "docs"
HOW_TO = sorted(path.stem for path in (DOCS / "howto").glob("*.md") if path.stem != "index")
BLOCK = re.compile(r"^(?P<indent> *)```(?P<kind>console|toml)\n(?P<text>.*?)^(?P=indent)```$", re.M | re.S)
ENTRY = re.compile(r"\(([0-9a-f]{8})\)$", re.M)

pytestmark = pytest.mark.timeout(300)


@dataclass
class Ran:
    """A command, what the text says comes out, and what came out."""

    command: str
    wanted: str
    got: str
    code: int


def steps(block: str) -> Iterator[tuple[str, str]]:
    """The commands of a block, each with the output that stands under it."""
    for part in re.split(r"^\$ ", block, flags=re.M)[1:]:
        command, _, wanted = part.partition("\n")
        yield command, wanted


def values(told: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every single value of a TOML text, by its path."""
    if isinstance(told, dict):
        for key, inner in told.items():
            yield from values(inner, f"{path}.{key}".lstrip("."))
    elif isinstance(told, list) and told and isinstance(told[0], dict):
        for number, inner in enumerate(told):
            yield from values(inner, f"{path}[{number}]")
    else:
        yield path, told


def written_into(text: str, block: str) -> str:
    """The holding's text with the values of a block filled in."""
    for path, value in values(tomlkit.parse(block).unwrap()):
        text = set_field(text, path, value)
    return text


def run_page(page: str, folder: Path) -> list[Ran]:
    """Do in a folder all that a page says."""
    bin_folder = Path(shutil.which("woodreeve", path=str(Path(sys.executable).parent)) or "").parent
    environment = {
        "PATH": os.pathsep.join([str(bin_folder), os.environ.get("PATH", "")]),
        "HOME": str(folder),
        "XDG_DATA_HOME": str(folder / "data"),
        "XDG_CACHE_HOME": str(folder / "cache"),
        "LANG": "C.UTF-8",
        "PYTHONWARNINGS": "error",
    }
    ran: list[Ran] = []
    names: dict[str, str] = {}
    for found in BLOCK.finditer(page):
        block = textwrap.dedent(found["text"])
        if found["kind"] == "toml":
            place = folder / "my.toml"
            place.write_text(written_into(place.read_text(encoding="utf-8"), block), encoding="utf-8")
            continue
        for command, wanted in steps(block):
            for told, true in names.items():
                command, wanted = command.replace(told, true), wanted.replace(told, true)
            done = subprocess.run(
                ["bash", "-c", command],
                cwd=folder,
                env=environment,
                capture_output=True,
                text=True,
                encoding="utf-8",
                check=False,
            )
            got = done.stdout + done.stderr
            for told, true in zip(ENTRY.findall(wanted), ENTRY.findall(got), strict=False):
                names[told] = true
                wanted = wanted.replace(told, true)
            ran.append(Ran(command, wanted, got, done.returncode))
    return ran


def as_shown(ran: Ran) -> bool:
    """Whether a command went well and gave what the text shows."""
    flags = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE
    return ran.code == 0 and doctest.OutputChecker().check_output(ran.wanted, ran.got, flags)


def wrong(ran: list[Ran]) -> str:
    """What did not come out as the text says."""
    return "\n".join(
        f"$ {one.command}\n--- the text shows\n{one.wanted}--- it gave (code {one.code})\n{one.got}"
        for one in ran
        if not as_shown(one)
    )


@pytest.fixture(scope="module")
def after_tutorial(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[Ran]]:
    """A folder in which somebody has followed the tutorial, and what came out on the way."""
    folder = tmp_path_factory.mktemp("tutorial")
    return folder, run_page((DOCS / "tutorial.md").read_text(encoding="utf-8"), folder)


def test_the_tutorial_leads_from_an_empty_holding_to_the_answers(
    after_tutorial: tuple[Path, list[Ran]],
) -> None:
    """Each command in its order, from nothing."""
    ran = after_tutorial[1]
    assert not wrong(ran), wrong(ran)
    asked = {one.command.split()[1] for one in ran}
    assert {"holding", "diary", "stacks", "winter", "why"} <= asked


@pytest.mark.parametrize("name", HOW_TO)
def test_a_how_to_page_does_what_it_says(
    name: str, after_tutorial: tuple[Path, list[Ran]], tmp_path: Path
) -> None:
    """For somebody who has followed the tutorial."""
    folder = tmp_path / "home"
    shutil.copytree(after_tutorial[0], folder)
    ran = run_page((DOCS / "howto" / f"{name}.md").read_text(encoding="utf-8"), folder)
    assert not wrong(ran), wrong(ran)


def test_output_that_differs_from_the_text_is_noticed(tmp_path: Path) -> None:
    """The run itself can fail: another output, and a command that ends badly."""
    page = "```console\n$ echo dry\nwet\n$ echo dry\n...\n$ false\n```\n"
    ran = run_page(page, tmp_path)
    assert [as_shown(one) for one in ran] == [False, True, False]
    assert "--- the text shows\nwet\n" in wrong(ran)
