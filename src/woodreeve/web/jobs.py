"""Long answers: worked out one after another behind the page, with progress, and stopped on request."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from queue import Queue
from threading import Event, Lock, Thread
from typing import Any, Literal, TypeAlias

from woodreeve.errors import WoodreeveError

__all__ = ["Job", "Jobs", "Work"]

Work: TypeAlias = Callable[[Callable[[float], bool]], Any]
"""Long work: is told how to say its progress, and stops where that answers False."""

MOST_KEPT = 16
"""So many finished jobs are kept; the oldest goes first."""


@dataclass(slots=True)
class Job:
    """One piece of long work.

    Parameters
    ----------
    key : tuple
        What it rests on; the same key is never worked out twice.
    state : str
        ``waiting``, ``running``, ``done``, ``failed`` or ``stopped``.
    share : float
        How much of it is done. [-]
    result : object
        What it gave.
    sentence : str
        Why it failed.
    """

    key: tuple[object, ...]
    work: Work
    state: Literal["waiting", "running", "done", "failed", "stopped"] = "waiting"
    share: float = 0.0
    result: Any = None
    sentence: str = ""
    stop: Event = field(default_factory=Event)

    @property
    def is_over(self) -> bool:
        """Whether nothing more will happen to it."""
        return self.state in ("done", "failed", "stopped")

    def say(self, share: float) -> bool:
        """Take progress, and answer whether to go on."""
        self.share = max(self.share, min(share, 1.0))
        return not self.stop.is_set()


class Jobs:
    """Long work, one piece at a time."""

    def __init__(self) -> None:
        self._jobs: dict[tuple[object, ...], Job] = {}
        self._queue: Queue[Job | None] = Queue()
        self._lock = Lock()
        self._worker: Thread | None = None

    def ask(self, key: tuple[object, ...], work: Work) -> Job:
        """Find the job of a key, or begin it.

        Parameters
        ----------
        key : tuple
            What the work rests on.
        work : callable
            The work.

        Returns
        -------
        Job
            Waiting, running or over; a stopped one begins anew.
        """
        with self._lock:
            job = self._jobs.get(key)
            if job is None or job.state == "stopped":
                job = Job(key, work)
                self._jobs[key] = job
                self._queue.put(job)
                self._forget()
            if self._worker is None:
                self._worker = Thread(target=self._work, name="long-answers", daemon=True)
                self._worker.start()
            return job

    def stop(self, key: tuple[object, ...]) -> None:
        """Ask a job to stop; what it had is lost, and nothing else."""
        with self._lock:
            job = self._jobs.get(key)
        if job is not None:
            job.stop.set()

    def close(self) -> None:
        """Stop everything."""
        with self._lock:
            for job in self._jobs.values():
                job.stop.set()
        self._queue.put(None)

    def _forget(self) -> None:
        over = [key for key, job in self._jobs.items() if job.is_over]
        for key in over[: max(0, len(self._jobs) - MOST_KEPT)]:
            del self._jobs[key]

    def _work(self) -> None:
        while (job := self._queue.get()) is not None:
            if job.stop.is_set():
                job.state = "stopped"
                continue
            job.state = "running"
            try:
                job.result = job.work(job.say)
                job.state = "done"
            except WoodreeveError as error:
                job.sentence = str(error)
                job.state = "stopped" if job.stop.is_set() else "failed"
            except Exception as error:  # the worker lives on; the page tells
                job.sentence = f"The work broke off: {type(error).__name__}."
                job.state = "failed"
