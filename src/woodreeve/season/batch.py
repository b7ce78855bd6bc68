"""Many runs at once: groups of equal shape, side by side on vector lanes, in pieces that can be stopped."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from threading import Event as Flag

from woodreeve.errors import OutOfRange, Refused
from woodreeve.season.run import Case, Lanes, Result

__all__ = ["LANES", "Progress", "run_many"]

LANES = 16
"""Runs side by side in one piece of work: two to four vector registers on common machines."""
PIECE_DAYS = 30
"""A piece of work is advanced so many days between two looks at progress and stop."""

Progress = Callable[[float], bool]
"""Told the share done, from 0 to 1; answers whether to go on."""


def run_many(
    cases: Sequence[Case],
    *,
    threads: int = 2,
    progress: Progress | None = None,
    record_every_h: float | None = None,
) -> list[Result]:
    """Run many cases, with the same bits as each alone.

    Cases may differ in every figure, in weather, fires and faults; those that differ in layers, ports,
    step or length are put in groups of their own by themselves.

    Parameters
    ----------
    cases : sequence of Case
        The runs.
    threads : int
        How many pieces of work go on at the same time. [-]
    progress : callable, optional
        Told the share done after each piece, in the caller's thread; when it answers False the batch
        stops.
    record_every_h : float, optional
        How often everything is kept; ``None`` keeps beginning and end only. [h]

    Returns
    -------
    list of Result
        In the order of the cases.

    Raises
    ------
    Refused
        If ``progress`` answered False: nothing half done is given out.
    OutOfRange
        If ``threads`` is less than 1.
    """
    if threads < 1:
        raise OutOfRange("threads", threads, "at least 1")
    results: list[Result | None] = [None] * len(cases)
    work = _pieces(cases)
    stop = Flag()
    total = sum(len(numbers) * cases[numbers[0]].prepared.store.layers for numbers in work)
    done = 0

    def one(numbers: list[int]) -> list[Result] | None:
        lanes = Lanes([cases[number] for number in numbers], LANES, record_every_h)
        piece = PIECE_DAYS * 24 * lanes.steps_per_hour
        for until in [*range(piece, lanes.steps, piece), lanes.steps]:
            if stop.is_set():
                return None
            lanes.advance(until)
        return lanes.results()

    with ThreadPoolExecutor(max_workers=threads) as pool:
        waiting: dict[Future[list[Result] | None], list[int]] = {
            pool.submit(one, numbers): numbers for numbers in work
        }
        try:
            while waiting:
                for future in wait(waiting, return_when=FIRST_COMPLETED).done:
                    numbers = waiting.pop(future)
                    found = future.result()
                    for number, result in zip(numbers, found or ()):
                        results[number] = result
                    done += len(numbers) * cases[numbers[0]].prepared.store.layers
                    if progress is not None and not progress(done / total):
                        stop.set()
                        for other in waiting:
                            other.cancel()
                        raise Refused("The batch of runs was stopped on request before it was done.")
        finally:
            stop.set()
    return [result for result in results if result is not None]


def _pieces(cases: Sequence[Case]) -> list[list[int]]:
    """Numbers of cases that can stand side by side, at most one for each lane."""
    groups: dict[object, list[int]] = {}
    for number, case in enumerate(cases):
        prepared = case.prepared
        hours = case.hours
        taps = None if hours.tap_powers_w is None else hours.tap_powers_w.tobytes()
        shape = (
            prepared.store,
            prepared.cylinder,
            prepared.settings.step_s,
            hours.outdoor_c.size,
            hours.first_hour_of_day,
            taps,
        )
        groups.setdefault(shape, []).append(number)
    return [
        numbers[first : first + LANES]
        for numbers in groups.values()
        for first in range(0, len(numbers), LANES)
    ]
