"""A run gives the same bits alone, beside others, cut into pieces, and on any number of threads."""

from dataclasses import replace

import numpy as np
import pytest

from tests.season.plants import changed, prepared, winter
from woodreeve.errors import OutOfRange, Refused
from woodreeve.season import slots as s
from woodreeve.season.batch import LANES, run_many
from woodreeve.season.inputs import Fault, Fire, FiringRule
from woodreeve.season.run import Case, Lanes, Result, run

WEATHER = [winter(5, seed=1), winter(5, seed=2, mean_c=-4.0)]


def variants() -> list[Case]:
    """More cases than lanes, of several shapes: sizes, weather, fires and faults all differ."""
    cases = []
    for number in range(LANES + 5):
        plant = changed(store={"litres": 900.0 + 100.0 * number}, boiler={"output_kw": 20.0 + number})
        firing = (
            FiringRule(kg=15.0 + number, below_c=50.0)
            if number % 3
            else (Fire(hour=2.0 + number, kg=20.0), Fire(hour=60.3, kg=25.0, moisture=0.3))
        )
        faults = (Fault(kind="power_cut", from_hour=20.0, until_hour=22.5),) if number % 4 == 1 else ()
        ready = prepared(plant, store_c=35.0 + number)
        cases.append(Case(prepared=ready, hours=WEATHER[number % 2], firing=firing, faults=faults))
    return cases


@pytest.fixture(scope="module")
def alone() -> list[Result]:
    """Each variant run by itself."""
    return [run(case) for case in variants()]


def assert_same_bits(found: list[Result], alone: list[Result]) -> None:
    """Compare every row and layer of every snapshot bit by bit."""
    for number, (one, other) in enumerate(zip(found, alone, strict=True)):
        assert np.array_equal(one.rows, other.rows), number
        assert np.array_equal(one.store_c, other.store_c), number
        assert np.array_equal(one.cylinder_c, other.cylinder_c), number


@pytest.mark.parametrize("threads", [1, 2, 5])
def test_a_batch_gives_the_bits_of_single_runs(alone: list[Result], threads: int) -> None:
    """Lane, neighbours and number of threads change nothing."""
    assert_same_bits(run_many(variants(), threads=threads, record_every_h=1.0), alone)


def test_the_lane_does_not_matter(alone: list[Result]) -> None:
    """The same cases the other way round stand in other lanes beside other neighbours."""
    assert_same_bits(run_many(variants()[::-1], record_every_h=1.0)[::-1], alone)


def test_a_span_may_be_cut_into_pieces(alone: list[Result]) -> None:
    """Stopping between any two steps changes nothing."""
    case = variants()[1]
    lanes = Lanes([case], 1, 1.0)
    for until in (1, 17, 60 * 20, 60 * 20 + 1, 4000, lanes.steps):
        lanes.advance(until)
    assert_same_bits(lanes.results(), [alone[1]])


def test_variants_really_differ(alone: list[Result]) -> None:
    """The comparison would see a mix-up: no two variants end alike."""
    assert len({result.total(s.CHARGED_J) for result in alone}) == len(alone)


def test_progress_rises_to_one() -> None:
    """Progress is told after each piece and ends at the whole."""
    told: list[float] = []
    run_many(variants(), progress=lambda share: told.append(share) is None)
    assert told == sorted(told)
    assert told[-1] == 1.0


def test_a_batch_can_be_stopped() -> None:
    """Answering no ends the batch with one sentence and no half results."""
    with pytest.raises(Refused, match="stopped on request"):
        run_many(variants(), threads=1, progress=lambda share: False)


def test_no_threads_is_refused() -> None:
    """Zero threads could do nothing."""
    with pytest.raises(OutOfRange, match="threads is 0"):
        run_many(variants(), threads=0)


def test_runs_of_another_length_form_their_own_group() -> None:
    """Cases of different spans may be given together."""
    case = variants()[0]
    shorter = replace(case, hours=winter(2, seed=1))
    long, short = run_many([case, shorter])
    assert (long.steps[-1], short.steps[-1]) == (5 * 1440, 2 * 1440)
