"""What the owner's finished stacks teach about the next one: by place and by species."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

import numpy as np

from woodreeve.learning.course import LogRate, RatePrior
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.wood.seasoning_fit import fitted
from woodreeve.workings import worked

__all__ = ["FinishedStack", "pooled_prior"]

PLACE_PART = 0.35
"""Share of the variance between stacks that is taken to belong to the place; assumed. [-]"""
SPECIES_PART = 0.15
"""Share of it that is taken to belong to the species; assumed. [-]"""
LEAST_SD = 0.2
"""However much was learned, the next stack may differ by so much; assumed. [-]"""
ENOUGH_STACKS = 4
"""From so many finished stacks on, their own spread is used. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishedStack:
    """A stack that has been followed to its end.

    Parameters
    ----------
    place : str
        Where it stood.
    species : str
        Its main species.
    log_rate : LogRate
        Its own log rate as learned. [-]
    log_rate_sd : float
        How sure that is. [-]
    """

    place: str
    species: str
    log_rate: LogRate
    log_rate_sd: Annotated[float, Unit("-"), Gt(0.0), Le(2.0)]


@worked
def pooled_prior(
    finished: tuple[FinishedStack, ...],
    *,
    place: str,
    species: str,
    stack_sd: Annotated[float, Unit("-"), Gt(0.0), Le(2.0)] | None = None,
    least_sd: Annotated[float, Unit("-"), Ge(0.0), Le(2.0)] = LEAST_SD,
) -> RatePrior:
    r"""What to believe of the next stack in a place, from the owner's finished ones.

    A windy wall dries faster year after year: this is where wind, sun and ground come in, which no
    published trial tells.

    Parameters
    ----------
    finished : tuple of FinishedStack
        The owner's finished stacks with readings.
    place : str
        Where the new one stands.
    species : str
        Its main species.
    stack_sd : float, optional
        Spread between stacks before anything was learned, :math:`\sigma`; that of the trials if not
        given. [-] Above 0, to 2.
    least_sd : float
        The next stack may differ by so much at least. [-] From 0 to 2.

    Returns
    -------
    RatePrior
        Mean and spread for :func:`woodreeve.learning.stack.follow_stack`.

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.

    Notes
    -----
    Each finished log rate is the sum of an owner's mean, a place, a species and chance,

    .. math:: z_i = m + p_{place} + q_{species} + e_i, \quad
       p \sim N(0, 0.35 \sigma^2),\ q \sim N(0, 0.15 \sigma^2),\ e \sim N(0, 0.30 \sigma^2),\
       m \sim N(0, 0.20 \sigma^2)

    and the new stack's is foretold from all of them at once (a normal conditioned on normals). From four
    finished stacks on, :math:`\sigma` is the root of the mean square of their own log rates, shrunk
    towards the trials' by their number.

    References
    ----------
    .. [1] Conditioning of the normal distribution (textbook); the parts of the variance are assumed.

    Examples
    --------
    >>> pooled_prior((), place="gable", species="ash").mean
    0.0
    """
    usual = fitted().log_rate_sd if stack_sd is None else stack_sd
    if not finished:
        return RatePrior(mean=0.0, sd=usual, stacks=0)
    sd = _own_sd(finished, usual) if len(finished) >= ENOUGH_STACKS else usual
    rates = np.array([stack.log_rate for stack in finished])
    places = np.array([stack.place for stack in finished])
    kinds = np.array([stack.species for stack in finished])
    chance_part = 1.0 - PLACE_PART - SPECIES_PART
    owner_part = 0.4 * chance_part
    shared = owner_part + PLACE_PART * (places[:, None] == places) + SPECIES_PART * (kinds[:, None] == kinds)
    own = np.array([stack.log_rate_sd**2 for stack in finished])
    covariance = sd**2 * shared + np.diag(0.6 * chance_part * sd**2 + own)
    towards = sd**2 * (owner_part + PLACE_PART * (places == place) + SPECIES_PART * (kinds == species))
    weights = np.linalg.solve(covariance, towards)
    variance = sd**2 - float(weights @ towards)
    return RatePrior(
        mean=float(np.clip(weights @ rates, -3.0, 3.0)),
        sd=float(max(math.sqrt(max(variance, 0.0)), least_sd)),
        stacks=len(finished),
    )


def _own_sd(finished: Sequence[FinishedStack], usual: float) -> float:
    """Spread of the owner's stacks, freed of what is mere uncertainty, held towards the trials' spread."""
    squares = [stack.log_rate**2 - stack.log_rate_sd**2 for stack in finished]
    mean_square = max(sum(squares) / len(squares), LEAST_SD**2)
    count = len(finished)
    return max(
        math.sqrt((count * mean_square + ENOUGH_STACKS * usual**2) / (count + ENOUGH_STACKS)), LEAST_SD
    )
