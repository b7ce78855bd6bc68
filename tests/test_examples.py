"""The examples in the docstrings are promises too: each is run."""

import doctest
import importlib
from pathlib import Path

import pytest

SOURCES = Path(__file__).parent.parent / "src"


def modules_with_examples() -> list[str]:
    """The modules in whose text an example stands."""
    return [
        ".".join(path.relative_to(SOURCES).with_suffix("").parts).removesuffix(".__init__")
        for path in sorted((SOURCES / "woodreeve").rglob("*.py"))
        if ">>> " in path.read_text(encoding="utf-8")
    ]


def run_examples(name: str) -> tuple[int, str]:
    """Run the examples of one module: how many there were, and what went wrong."""
    module = importlib.import_module(name)
    wrong: list[str] = []
    runner = doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS)
    tests = doctest.DocTestFinder(exclude_empty=True).find(module)
    for test in tests:
        runner.run(test, out=wrong.append)
    return sum(len(test.examples) for test in tests), "".join(wrong)


@pytest.mark.parametrize("name", modules_with_examples())
def test_the_examples_say_what_comes_out(name: str) -> None:
    """What an owner copies from the docs gives what the docs show."""
    count, wrong = run_examples(name)
    assert not wrong, wrong
    assert count > 0, f"{name} shows an example that is not found, so not run"


def test_a_wrong_example_is_noticed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The run itself can fail."""
    (tmp_path / "kiln_probe.py").write_text('"""A probe.\n\n>>> 1 + 1\n3\n"""\n', encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    count, wrong = run_examples("kiln_probe")
    assert count == 1
    assert "Expected:\n    3\nGot:\n    2\n" in wrong
