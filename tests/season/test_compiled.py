"""Compiled and plain runs agree, and stale machine code cannot be used."""

import importlib
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from woodreeve.season import cache

KERNELS = ("column", "compiled", "fire", "kernel", "settle")

PLAIN = """
import sys
import numpy as np
from tests.season.plants import prepared, winter
from woodreeve.season.inputs import Fault, Fire
from woodreeve.season.run import Case, Lanes
from woodreeve.season.setup import Settings

fires = (Fire(hour=0.2, kg=20.0), Fire(hour=2.1, kg=8.0, moisture=0.3))
faults = (Fault(kind="power_cut", from_hour=3.0, until_hour=3.5),)
cases = [
    Case(
        prepared=prepared(store_c=45.0 + 5.0 * n, settings=Settings(step_s=120, layers=10)),
        hours=winter(1), firing=fires, faults=faults,
    )
    for n in range(2)
]
for width in (1, 2):
    lanes = Lanes(cases[:width], width, 1.0)
    lanes.advance(30 * 5)
    np.save(f"{sys.argv[1]}/{width}.npy", np.concatenate([lanes.X, lanes.T, lanes.U]))
"""


def test_plain_and_compiled_runs_agree(tmp_path: Path) -> None:
    """Five hours with two loads and a power cut: to 1e-12 relative in every row and layer."""
    for name, plain in (("compiled", "0"), ("plain", "1")):
        (tmp_path / name).mkdir()
        subprocess.run(
            [sys.executable, "-c", PLAIN, str(tmp_path / name)],
            env=os.environ | {"NUMBA_DISABLE_JIT": plain},
            cwd=Path(__file__).parents[2],
            check=True,
        )
    for width in ("1", "2"):
        compiled = np.load(tmp_path / "compiled" / f"{width}.npy")
        plain_run = np.load(tmp_path / "plain" / f"{width}.npy")
        assert compiled == pytest.approx(plain_run, rel=1e-12, abs=1e-12)


def test_the_cache_folder_changes_with_every_source(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Changing one letter of one formula gives another folder; nothing else does."""
    package = tmp_path / "some_kernels"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "fire.py").write_text("HEAT = 1.0\n")
    (package / "notes.txt").write_text("no source")
    monkeypatch.syspath_prepend(str(tmp_path))
    name = cache.kernel_cache_name("cpu", ["some_kernels.fire"])
    assert cache.kernel_cache_name("cpu", ["some_kernels.fire"]) == name
    (package / "notes.txt").write_text("still no source")
    assert cache.kernel_cache_name("cpu", ["some_kernels.fire"]) == name
    (package / "fire.py").write_text("HEAT = 1.1\n")
    assert cache.kernel_cache_name("cpu", ["some_kernels.fire"]) != name


def test_the_cache_folder_changes_with_compiler_and_processor(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another compiler or processor never sees this one's code."""
    name = cache.kernel_cache_name("cpu")
    assert cache.kernel_cache_name("other cpu") != name
    monkeypatch.setattr(cache, "version", lambda package: "0.0.0")
    assert cache.kernel_cache_name("cpu") != name


def test_every_kernel_source_is_in_the_hash() -> None:
    """All modules whose functions are compiled, in whatever room, belong to the hashed ones."""
    rooms = [importlib.import_module(f"woodreeve.season.{name}") for name in KERNELS]
    found = [thing for room in rooms for thing in vars(room).values() if hasattr(thing, "py_func")]
    modules = {kernel.py_func.__module__ for kernel in found}
    assert "woodreeve.plant.radiators" in modules
    for module in modules:
        assert any(module == source or module.startswith(source + ".") for source in cache.SOURCES), module


@pytest.mark.parametrize("folder", ["", "/somewhere/kernels-of-another-version"])
def test_code_is_kept_only_in_a_folder_of_the_right_name(folder: str, tmp_path: Path) -> None:
    """Without a folder, or in one of another version, nothing is read or kept."""
    wrong = str(tmp_path / folder.strip("/")) if folder else ""
    right = cache.kernel_cache_folder(str(tmp_path))
    ask = "from woodreeve.season.compiled import CACHED; print(CACHED)"
    for place, kept in ((wrong, "False"), (right, "True")):
        told = subprocess.run(
            [sys.executable, "-c", ask],
            env=os.environ | {"NUMBA_CACHE_DIR": place},
            capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert told.stdout.strip() == kept
