"""The empty holding explains itself and can be read as it is."""

import re

from woodreeve.holding.blank import blank
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_tree
from woodreeve.holding.toml import load, problems


def test_it_is_read_without_a_word_of_complaint() -> None:
    """It is read without a word of complaint."""
    assert problems(blank()) == []


def test_it_holds_nothing_but_a_name() -> None:
    """It holds nothing but a name."""
    assert load(blank("hill-farm")) == load('name = "hill-farm"\n')


def test_it_names_every_field_with_its_help() -> None:
    """It names every field with its help."""
    text = " ".join(line.removeprefix("#").strip() for line in blank().splitlines())
    for field in field_tree(Holding).walk():
        if field.path:
            assert " ".join(field.help.split()) in text, field.path
    written = set(re.findall(r"^(?:# )?(\w+) =", blank(), re.MULTILINE))
    simple = {f.key for f in field_tree(Holding).walk() if f.path and f.kind not in ("section", "sections")}
    assert written == simple


def test_taking_every_remark_sign_away_still_gives_the_same_holding() -> None:
    """Taking every remark sign away still gives the same holding."""
    lines = []
    in_a_remarked_section = False
    for line in blank().splitlines():
        if line.startswith(("[", "# [")):
            in_a_remarked_section = line.startswith("#")
        value = re.match(r"# (\w+ = .+)", line)
        lines.append(value[1] if value and not in_a_remarked_section else line)
    assert sum(line.startswith("limit_c") for line in lines) == 1
    assert load("\n".join(lines)) == load(blank())


def test_no_line_is_wider_than_a_page() -> None:
    """No line is wider than a page."""
    assert max(len(line) for line in blank().splitlines()) <= 100
