"""Pooled learning: by place and species, over the years."""

import pytest

from woodreeve.learning.pooled import FinishedStack, pooled_prior
from woodreeve.wood.seasoning_fit import fitted


def finished(log_rate: float, place: str = "gable", species: str = "ash") -> FinishedStack:
    """A finished stack, its rate well known."""
    return FinishedStack(place=place, species=species, log_rate=log_rate, log_rate_sd=0.1)


def test_without_finished_stacks_the_trials_spread_stands() -> None:
    """Nothing was learned."""
    prior = pooled_prior((), place="gable", species="ash")
    assert (prior.mean, prior.sd, prior.stacks) == (0.0, fitted().log_rate_sd, 0)


def test_fast_stacks_in_a_place_make_the_next_one_there_faster() -> None:
    """More than one elsewhere, and that more than nothing."""
    seen = tuple(finished(0.5) for _ in range(3))
    here = pooled_prior(seen, place="gable", species="ash")
    same_kind = pooled_prior(seen, place="wood edge", species="ash")
    elsewhere = pooled_prior(seen, place="wood edge", species="oak")
    assert 0.5 > here.mean > same_kind.mean > elsewhere.mean > 0.0


def test_each_finished_stack_makes_it_surer_but_never_sure() -> None:
    """The spread falls to a floor."""
    spreads = [
        pooled_prior(tuple(finished(0.3) for _ in range(n)), place="gable", species="ash").sd
        for n in (0, 1, 3, 30)
    ]
    known = [sd for sd in spreads if sd is not None]
    assert known == sorted(known, reverse=True)
    assert known[-1] == pytest.approx(0.2)


def test_a_stack_of_which_little_is_known_teaches_little() -> None:
    """Its own uncertainty counts."""
    vague = FinishedStack(place="gable", species="ash", log_rate=0.5, log_rate_sd=1.0)
    assert (
        pooled_prior((vague,), place="gable", species="ash").mean
        < 0.5 * pooled_prior((finished(0.5),), place="gable", species="ash").mean
    )


def test_stacks_that_differ_wildly_widen_the_prior_again() -> None:
    """Four or more tell their own spread."""
    wild = tuple(finished(rate, place=f"place {k}") for k, rate in enumerate((1.2, -1.1, 0.9, -1.3)))
    tame = tuple(finished(rate, place=f"place {k}") for k, rate in enumerate((0.1, -0.1, 0.1, -0.1)))
    new = {"place": "new", "species": "oak"}
    wide, narrow = pooled_prior(wild, **new).sd, pooled_prior(tame, **new).sd
    assert wide is not None
    assert narrow is not None
    assert wide > 1.5 * narrow
