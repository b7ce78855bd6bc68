"""The texts for readers: every link leads somewhere, and nothing in them is of one machine only."""

import pkgutil
import re
from pathlib import Path

import pytest

import woodreeve.answers
from woodreeve.cli.main import COMMANDS

ROOT = Path(__file__).parent.parent
MADE_AT_BUILD = ROOT / "docs" / "reference" / "generated"
TEXTS = [
    *sorted(ROOT.glob("*.md")),
    ROOT / "LICENSES" / "README.md",
    *(
        path
        for path in sorted((ROOT / "docs").rglob("*.md"))
        if "_build" not in path.parts and MADE_AT_BUILD not in path.parents
    ),
]
LINK = re.compile(r"\]\((?!https?:|mailto:|#)([^)\s#]+)")
OF_ONE_MACHINE = re.compile(
    r"(?<![\w.])/(?:home|root|work|tmp|Users|mnt)/|pypi\.org|registry\.npmjs|localhost:\d"
)


def links(path: Path) -> list[Path]:
    """Where the links of a text lead, as files."""
    found = LINK.findall(path.read_text(encoding="utf-8"))
    return [(path.parent / target).resolve() for target in found]


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: str(path.relative_to(ROOT)))
def test_every_link_leads_to_a_file(path: Path) -> None:
    """Pages that the documentation makes at its build are let through; the build checks those."""
    broken = [
        target for target in links(path) if not target.exists() and target.parent != MADE_AT_BUILD.resolve()
    ]
    assert broken == []


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_text_speaks_of_one_machine(path: Path) -> None:
    """No folder of a person's own computer, and no address of a registry."""
    assert OF_ONE_MACHINE.findall(path.read_text(encoding="utf-8")) == []


def test_the_readme_names_every_question_that_can_be_asked() -> None:
    """A new answer with a command needs its line, and what is named must be there."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    answers = {module.name for module in pkgutil.iter_modules(woodreeve.answers.__path__)}
    asked = {name for name in COMMANDS if name.replace("-", "_") in answers}
    assert asked == set(re.findall(r"^\|[^|]+\| `([a-z-]+)`:", text, re.M))


def test_a_broken_link_is_noticed(tmp_path: Path) -> None:
    """The check itself can fail."""
    page = tmp_path / "page.md"
    page.write_text(
        "[there](page.md) and [gone](gone.md#part) and [out](https://example.org)", encoding="utf-8"
    )
    assert [target.name for target in links(page) if not target.exists()] == ["gone.md"]
