"""The reference pages that the docs read off the program: nothing is left out, nothing is without a text."""

import importlib.util
from pathlib import Path
from types import ModuleType

import click
import pytest

from woodreeve.cli.main import command
from woodreeve.diary.kinds import KINDS, fields_of
from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_tree

EXTENSION = Path(__file__).parent.parent / "docs" / "_ext" / "reference_pages.py"


@pytest.fixture(scope="module")
def pages() -> ModuleType:
    """The extension of the documentation that writes them."""
    spec = importlib.util.spec_from_file_location("reference_pages", EXTENSION)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_every_field_of_the_holding_is_on_its_page(pages: ModuleType) -> None:
    """Under its section, with a label; a section has a heading of its own."""
    text = pages.fields()
    for field in field_tree(Holding).walk():
        if not field.path:
            continue
        assert field.label, field.path
        if field.parts:
            assert f"[{field.path.replace('[]', '')}]" in text, field.path
        else:
            assert f"| `{field.key}` | {field.label}." in text, field.path


def test_every_kind_of_entry_is_on_its_page(pages: ModuleType) -> None:
    """With each of its fields."""
    sections = pages.entries().split("\n## ")
    told = {section.split("\n", 1)[0]: section for section in sections}
    for kind in KINDS:
        for asked in fields_of(kind):
            assert f"| `{asked.name}` |" in told[kind], f"{kind}.{asked.name}"


def walk(group: click.Command, path: str) -> list[tuple[str, click.Command]]:
    """A command and all below it, by what a person types."""
    found = [(path, group)]
    if isinstance(group, click.Group):
        context = click.Context(group)
        for name in group.list_commands(context):
            sub = group.get_command(context, name)
            assert sub is not None
            found += walk(sub, f"{path} {name}")
    return found


def test_every_command_is_on_its_page_with_a_help_text(pages: ModuleType) -> None:
    """Each command says what it does, and each of its options too."""
    text = pages.commands()
    for path, found in walk(command, "woodreeve"):
        assert f"## {path}\n" in text
        assert found.help, path
        for parameter in found.params:
            if isinstance(parameter, click.Option):
                assert parameter.help, f"{path} {parameter.opts[0]}"


def test_the_resources_say_what_they_give(pages: ModuleType) -> None:
    """At the least the answers there are, each with a sentence."""
    lines = [
        line for line in pages.resources().splitlines() if line.startswith(("| `GET", "| `POST", "| `PUT"))
    ]
    assert any("`GET /api/winter`" in line for line in lines)
    assert any("`GET /api/stacks`" in line for line in lines)
    for line in lines:
        assert line.split("|")[2].strip(), line
