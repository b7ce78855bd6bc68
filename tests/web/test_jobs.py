"""Long work behind the pages: one piece at a time, once for each key, stopped on request."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Event

import pytest

from woodreeve.errors import Refused
from woodreeve.web import kernels
from woodreeve.web.jobs import Job, Jobs


@pytest.fixture
def jobs() -> Iterator[Jobs]:
    """A worker of the test's own."""
    made = Jobs()
    yield made
    made.close()


def over(job: Job, seconds: float = 5.0) -> Job:
    """Wait until a job is over."""
    until = time.monotonic() + seconds
    while not job.is_over and time.monotonic() < until:
        time.sleep(0.005)
    assert job.is_over
    return job


def test_work_is_done_once_for_each_key(jobs: Jobs) -> None:
    """Asking again gives the same result without working again."""
    calls: list[int] = []

    def work(say: Callable[[float], bool]) -> str:
        calls.append(1)
        say(0.5)
        return "done"

    first = over(jobs.ask(("a",), work))
    again = over(jobs.ask(("a",), work))
    assert (first.state, first.result) == ("done", "done")
    assert again is first
    assert len(calls) == 1
    over(jobs.ask(("b",), work))
    assert len(calls) == 2


def test_a_fault_is_told_in_its_sentence_and_the_worker_lives_on(jobs: Jobs) -> None:
    """Neither an understood fault nor a surprise ends the worker."""

    def refused(say: Callable[[float], bool]) -> None:
        raise Refused("The plant is not told.")

    def surprised(say: Callable[[float], bool]) -> None:
        raise ZeroDivisionError

    assert over(jobs.ask(("a",), refused)).sentence == "The plant is not told."
    told = over(jobs.ask(("b",), surprised))
    assert (told.state, told.sentence) == ("failed", "The work broke off: ZeroDivisionError.")
    assert over(jobs.ask(("c",), lambda say: 1)).result == 1


def test_work_stops_when_nobody_wants_it_any_more(jobs: Jobs) -> None:
    """Work asks whether to go on; stopped work begins anew when it is asked for again."""
    begun = Event()

    def long(say: Callable[[float], bool]) -> str:
        begun.set()
        while say(0.1):
            time.sleep(0.002)
        raise Refused("Stopped on request.")

    job = jobs.ask(("long",), long)
    assert begun.wait(5.0)
    jobs.stop(("long",))
    assert over(job).state == "stopped"
    assert over(jobs.ask(("long",), lambda say: "anew")).result == "anew"


def test_progress_never_goes_back(jobs: Jobs) -> None:
    """A share told late does not make the bar jump."""
    shares: list[float] = []
    job: Job | None = None

    def work(say: Callable[[float], bool]) -> None:
        for share in (0.2, 0.6, 0.4, 2.0):
            say(share)
            assert job is not None
            shares.append(job.share)

    waiting = Event()
    jobs.ask(("first",), lambda say: waiting.wait(5.0))
    job = jobs.ask(("second",), work)
    waiting.set()
    over(job)
    assert shares == [0.2, 0.6, 0.6, 1.0]


@pytest.fixture
def compiler_left_alone() -> Iterator[None]:
    """Put the compiler's folder back where it was."""
    before = os.environ["NUMBA_CACHE_DIR"]
    yield
    os.environ["NUMBA_CACHE_DIR"] = before
    if "numba" in sys.modules:
        sys.modules["numba"].config.reload_config()


@pytest.mark.usefixtures("compiler_left_alone")
def test_the_kernels_folder_is_named_by_its_sources_and_old_ones_go(tmp_path: Path) -> None:
    """Another version never reads this one's machine code, and folders do not pile up."""
    for number in range(6):
        (tmp_path / f"kernels-old{number}").mkdir()
    folder = kernels.use_kernel_cache(tmp_path)
    assert folder.is_dir()
    assert folder.name.startswith("kernels-")
    assert len(list(tmp_path.glob("kernels-*"))) == kernels.MOST_FOLDERS
    assert kernels.use_kernel_cache(tmp_path) == folder
