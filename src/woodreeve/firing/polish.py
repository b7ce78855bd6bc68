"""A found plan polished: each fire an hour or two sooner or later, a little more or less, or left out."""

from __future__ import annotations

from dataclasses import replace

from woodreeve.firing.search import LEAST_KG, Found, Ground, Laid, play, search

__all__ = ["best_plan", "polished"]

STEP = 0.06
"""A little more or less, over a full load. [-]"""
SHIFTS = (-2, -1, 1, 2)
"""Chances sooner or later."""


def best_plan(ground: Ground, *, width: int = 16, finer: int = 2, rounds: int = 1) -> Found | None:
    """The best plan that a search and a polish find.

    Parameters
    ----------
    ground : Ground
        Plant, weather, wood, prices and limits.
    width, finer : int
        Of the search.
    rounds : int
        Of the polish.

    Returns
    -------
    Found or None
        ``None`` only if the search finds nothing at all.
    """
    found = search(ground, width=width, finer=finer)
    return polished(ground, found[0], rounds) if found else None


def polished(ground: Ground, found: Found, rounds: int = 2) -> Found:
    """Try what differs in one fire only, and go on from the best, as long as that is better.

    Parameters
    ----------
    ground : Ground
        What the plan stands on.
    found : Found
        A plan that keeps the limits.
    rounds : int
        How often at most.

    Returns
    -------
    Found
        A plan that is no worse.
    """
    for _ in range(rounds):
        tried = [one for one in play(ground, _near(ground, found.fires)) if one.keeps_limits]
        best = min(tried, key=lambda one: one.money, default=found)
        if best.money >= found.money - 1e-6:
            break
        found = best
    return found


def _near(ground: Ground, fires: tuple[Laid, ...]) -> list[tuple[Laid, ...]]:
    chances = [one for one in ground.tending if one.hour < ground.hours]
    hours = [one.hour for one in chances]
    near: list[tuple[Laid, ...]] = []
    for n, fire in enumerate(fires):
        before, after = fires[:n], fires[n + 1 :]
        near.append((*before, *after))
        if fire.hour in hours:
            at = hours.index(fire.hour)
            for shift in SHIFTS:
                if not 0 <= at + shift < len(hours):
                    continue
                other = chances[at + shift]
                apart = all(abs(one.hour - other.hour) > 1e-6 for one in (*before, *after))
                if apart and (other.light if fire.kind == "light" else other.refill):
                    moved = (*before, replace(fire, hour=other.hour), *after)
                    near.append(tuple(sorted(moved, key=lambda one: one.hour)))
        full = min(ground.limits.space_kg, ground.lots[fire.lot].full_kg)
        for kg in (fire.kg - STEP * full, fire.kg + STEP * full):
            if LEAST_KG <= kg <= full:
                near.append((*before, replace(fire, kg=kg), *after))
    return near
