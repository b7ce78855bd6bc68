"""Where compiled kernels are kept, and filling that folder before anybody waits for it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from platformdirs import user_cache_path

from woodreeve.season.cache import kernel_cache_folder

__all__ = ["KERNELS", "Kernels", "use_kernel_cache"]

MOST_FOLDERS = 4
"""So many folders of compiled kernels are kept, this version's among them."""


def use_kernel_cache(base: Path | None = None) -> Path:
    """Keep compiled kernels in a folder of their own; called before anything that simulates is imported.

    Parameters
    ----------
    base : Path, optional
        The user's cache folder for woodreeve.

    Returns
    -------
    Path
        The folder, named by a hash of all that goes into a kernel; made if it was not there.
    """
    folder = Path(kernel_cache_folder(str(base or user_cache_path("woodreeve", appauthor=False))))
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return folder  # nothing can be kept: kernels are compiled anew in each process
    os.environ["NUMBA_CACHE_DIR"] = str(folder)
    compiler = sys.modules.get("numba")
    if compiler is not None:
        compiler.config.reload_config()
    _forget_old(folder)
    return folder


def _forget_old(folder: Path) -> None:
    """Remove folders of former versions, but for the newest few."""
    others = [one for one in folder.parent.glob("kernels-*") if one != folder]
    others.sort(key=lambda one: one.stat().st_mtime, reverse=True)
    for old in others[MOST_FOLDERS - 1 :]:
        shutil.rmtree(old, ignore_errors=True)


COMPLETE = "complete"
"""An empty file in the folder, made when every kernel lies there."""


class Kernels:
    """Compiled kernels, made ready by another process while this one serves."""

    def __init__(self) -> None:
        self._making: subprocess.Popen[bytes] | None = None

    def make_ready(self) -> None:
        """Begin to fill the folder of compiled kernels, in a process of its own."""
        folder = use_kernel_cache()
        if self._making is None and "numba" not in sys.modules and not (folder / COMPLETE).exists():
            code = "from woodreeve.web.kernels import fill; fill()"
            self._making = subprocess.Popen([sys.executable, "-c", code], stdin=subprocess.DEVNULL)

    @property
    def are_ready(self) -> bool:
        """Whether the other process is done, or there was nothing to do."""
        return self._making is None or self._making.poll() is not None

    def stop(self) -> None:
        """End the other process."""
        if self._making is not None and self._making.poll() is None:
            self._making.kill()  # it holds nothing but the folder, which is complete only when marked so
            self._making.wait()


KERNELS = Kernels()
"""Those of this process."""


def fill() -> None:
    """Compile every kernel once, so that they lie in the folder; a mark tells that all of them do."""
    folder = use_kernel_cache()
    from woodreeve.answers import season, stacks, tonight
    from woodreeve.holding.demo import DEMO_MOMENT, demo_entries, demo_holding_text
    from woodreeve.records.asking import Asking

    asking = Asking(demo_holding_text(), DEMO_MOMENT, entries=demo_entries())
    tonight.answer(asking)
    stacks.answer(asking)
    season.answer(asking, "tuned", days=2, trials=16)
    if folder.is_dir():
        (folder / COMPLETE).touch()
