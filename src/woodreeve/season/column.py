"""A column of water in layers: carried by flow, blurred by conduction, cooled, and stirred by buoyancy.

Layer 0 is the lowest; all layers hold the same mass. The lanes of a working array share the number of
layers and the ports; flows and temperatures are each lane's own. Row ``j`` of an array of ``L`` lanes
begins at ``j * L``.

Every value of a lane follows from that lane alone by the same operations in the same order, whatever
``L`` is: a run gives the same bits alone and beside others.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from woodreeve.season import slots as s
from woodreeve.season.compiled import inlined, limited_half_step
from woodreeve.units import Floats

__all__ = ["Ints", "Lanes", "advance_column", "merge_inversions"]

Ints: TypeAlias = NDArray[np.int64]
Lanes: TypeAlias = tuple[int, ...]
"""A tuple whose length, known to the compiler, is the number of lanes."""

DRAWN_ROWS = 8
"""Rows of the array that holds what loops draw."""
ROWS = 1023
"""A mask over row numbers that tells the compiler that they are not negative, which spares it a test."""


@inlined
def _draw(
    lane: Lanes, X: Floats, T: Floats, net: Floats, drawn: Floats, plan: Ints, flow: int, step: int
) -> None:
    """Note what each loop draws now, and add up the upward flow between the ports."""
    L = len(lane)
    lanes = 1 if L == 1 else drawn.size // DRAWN_ROWS
    ports = plan[s.PLAN_PORTS] & ROWS
    step_row = (step & ROWS) * L
    share = 1.0 / plan[s.PLAN_SUBSTEPS]
    for k in range((ports + 1) * L):
        net[k] = 0.0
    for q in range(plan[s.PLAN_LOOPS]):
        row = ((flow + 4 * q) & ROWS) * L
        if _any_flow(lane, X, row):
            out = (plan[s.PLAN_OUT_OF + q] & ROWS) * L
            into = (plan[s.PLAN_INTO + q] & ROWS) * L
            here = (plan[s.PLAN_AT + plan[s.PLAN_OUT_OF + q]] & ROWS) * L
            keep = (q & ROWS) * L
            for k in range(lanes):
                water = T[here + k]
                drawn[keep + k] = water
                X[row + 3 * L + k] += share * water if X[row + k] > 0.0 else 0.0
            for k in range(lanes):
                net[into + k] += X[row + k] * X[step_row + k]
            for k in range(lanes):
                net[out + k] -= X[row + k] * X[step_row + k]
    for p in range(1, ports):
        above = (p & ROWS) * L
        below = ((p - 1) & ROWS) * L
        for k in range(lanes):
            net[above + k] += net[below + k]
    last = ((ports - 1) & ROWS) * L
    for k in range(lanes):
        net[last + k] = 0.0


@inlined
def _any_flow(lane: Lanes, X: Floats, row: int) -> bool:
    """Whether water flows in a loop in any lane; where none does, nothing would change."""
    some = 0
    for k in range(len(lane)):
        some |= 1 if X[row + k] > 0.0 else 0
    return some > 0


@inlined
def _feed(lane: Lanes, X: Floats, T: Floats, drawn: Floats, plan: Ints, flow: int, step: int) -> None:
    """Take each loop's water out of its layer and put what it feeds into another."""
    L = len(lane)
    lanes = 1 if L == 1 else drawn.size // DRAWN_ROWS
    step_row = (step & ROWS) * L
    for q in range(plan[s.PLAN_LOOPS]):
        row = ((flow + 4 * q) & ROWS) * L
        if _any_flow(lane, X, row):
            out = (plan[s.PLAN_AT + plan[s.PLAN_OUT_OF + q]] & ROWS) * L
            into = (plan[s.PLAN_AT + plan[s.PLAN_INTO + q]] & ROWS) * L
            keep = (q & ROWS) * L
            by_drop = 1.0 if plan[s.PLAN_BY_DROP + q] == 1 else 0.0
            for k in range(lanes):
                T[out + k] -= X[row + k] * X[step_row + k] * drawn[keep + k]
            for k in range(lanes):
                fed = X[row + L + k] + by_drop * (drawn[keep + k] - X[row + 2 * L + k] - X[row + L + k])
                T[into + k] += X[row + k] * X[step_row + k] * fed


@inlined
def _face_flux(below: float, above: float, half_below: float, half_above: float, courant: float) -> float:
    """Heat carried up through a face, over a layer's heat capacity; `courant` is layers moved up."""
    if courant > 0.0:
        carried = below + (1.0 - courant) * half_below
    else:
        carried = above - (1.0 + courant) * half_above
    return courant * carried


@inlined
def _sweep_lanes(
    lane: Lanes,
    X: Floats,
    T: Floats,
    work: Floats,
    net: Floats,
    plan: Ints,
    cooling: int,
    conduction: int,
    room: int,
) -> None:
    """One step of all layers, many runs side by side: the inner loop runs over the lanes."""
    L = len(lane)
    cooling_row = (cooling & ROWS) * L
    conduction_row = (conduction & ROWS) * L
    room_row = (room & ROWS) * L
    layers = plan[s.PLAN_LAYERS]
    for k in range(L):
        work[k] = 0.0
        work[L + k] = 0.0
        work[2 * L + k] = 0.0
    for k in range(layers * L, layers * L + L):
        T[k] = T[k - L]
    for j in range(layers - 1):
        here = j * L
        segment = (plan[s.PLAN_SEGMENT + j] & ROWS) * L
        free = 1.0 - plan[s.PLAN_JOINT + j]
        for k in range(L):
            below = T[here + k]
            above = T[here + L + k]
            half_above = limited_half_step(below, above, T[here + 2 * L + k])
            flux = _face_flux(below, above, work[L + k], half_above, net[segment + k])
            flux = flux + free * X[conduction_row + k] * (below - above)
            work[2 * L + k] += below
            T[here + k] = below + work[k] - flux - X[cooling_row + k] * (below - X[room_row + k])
            work[k] = flux
            work[L + k] = half_above
    here = (layers - 1) * L
    for k in range(L):
        below = T[here + k]
        work[2 * L + k] += below
        T[here + k] = below + work[k] - X[cooling_row + k] * (below - X[room_row + k])


@inlined
def _sweep_one(
    X: Floats, T: Floats, work: Floats, net: Floats, plan: Ints, cooling: int, conduction: int, room: int
) -> None:
    """The same step for a single run, its running values in registers."""
    layers = plan[s.PLAN_LAYERS]
    cooled = X[cooling]
    conducted = X[conduction]
    around = X[room]
    T[layers] = T[layers - 1]
    flux_below = 0.0
    half_below = 0.0
    warmth = 0.0
    below = T[0]
    above = T[1]
    for j in range(layers - 1):
        next_above = T[j + 2]
        free = 1.0 - plan[s.PLAN_JOINT + j]
        half_above = limited_half_step(below, above, next_above)
        flux = _face_flux(below, above, half_below, half_above, net[plan[s.PLAN_SEGMENT + j] & ROWS])
        flux = flux + free * conducted * (below - above)
        warmth += below
        T[j] = below + flux_below - flux - cooled * (below - around)
        flux_below = flux
        half_below = half_above
        below = above
        above = next_above
    warmth += below
    T[layers - 1] = below + flux_below - cooled * (below - around)
    work[2] = warmth


@inlined
def merge_inversions(lane: Lanes, k: int, start: int, T: Floats, plan: Ints) -> None:
    """Stir each stretch of lane `k` where warm lies under cold, from layer `start` up, keeping its heat.

    Pools neighbours that stand the wrong way round until none does; tanks in series keep apart.
    """
    L = len(lane)
    layers = plan[s.PLAN_LAYERS]
    j = start if start > 0 else 0
    stop = start + 2
    while j < layers - 1 and j < stop:
        if plan[s.PLAN_JOINT + j] == 0 and T[j * L + k] > T[(j + 1) * L + k]:
            low = j
            high = j + 1
            heat = T[low * L + k] + T[high * L + k]
            count = 2.0
            growing = True
            while growing:
                growing = False
                while (
                    high < layers - 1
                    and plan[s.PLAN_JOINT + high] == 0
                    and heat > count * T[(high + 1) * L + k]
                ):
                    high += 1
                    heat += T[high * L + k]
                    count += 1.0
                    growing = True
                while low > 0 and plan[s.PLAN_JOINT + low - 1] == 0 and heat < count * T[(low - 1) * L + k]:
                    low -= 1
                    heat += T[low * L + k]
                    count += 1.0
                    growing = True
            mean = heat / count
            for i in range(low, high + 1):
                T[i * L + k] = mean
            j = high
            stop = max(stop, high + 1)
        else:
            j += 1


@inlined
def _stir_at_ports(lane: Lanes, T: Floats, plan: Ints) -> None:
    """Stir where a port has put warm under cold; elsewhere a step keeps the order of the layers."""
    L = len(lane)
    last = plan[s.PLAN_LAYERS] - 1
    for p in range(plan[s.PLAN_PORTS]):
        at = plan[s.PLAN_AT + p]
        here = (at & ROWS) * L
        low = ((at - 1 if at > 0 else 0) & ROWS) * L
        high = ((at + 1 if at < last else last) & ROWS) * L
        some = 0
        for k in range(L):
            some |= 1 if (T[low + k] > T[here + k]) | (T[here + k] > T[high + k]) else 0
        if some > 0:
            for k in range(L):
                if (T[low + k] > T[here + k]) | (T[here + k] > T[high + k]):
                    merge_inversions(lane, k, at - 1, T, plan)


@inlined
def advance_column(
    lane: Lanes,
    X: Floats,
    T: Floats,
    work: Floats,
    net: Floats,
    drawn: Floats,
    plan: Ints,
    flow: int,
    step: int,
    cooling: int,
    conduction: int,
    room: int,
    warmth: Floats,
) -> None:
    """Advance a column by one step of the plant, in the sub-steps of its plan.

    Loops stand in rows from ``flow`` on: flow [kg/s], temperature fed in, drop, and here the mean
    temperature drawn. ``warmth`` gives the sum over layers and sub-steps of temperatures before cooling,
    from which the loss follows.
    """
    L = len(lane)
    for q in range(plan[s.PLAN_LOOPS]):
        row = (flow + 4 * q + 3) * L
        for k in range(L):
            X[row + k] = 0.0
    for k in range(L):
        warmth[k] = 0.0
    for _ in range(plan[s.PLAN_SUBSTEPS]):
        _draw(lane, X, T, net, drawn, plan, flow, step)
        if L == 1:
            _sweep_one(X, T, work, net, plan, cooling, conduction, room)
        else:
            _sweep_lanes(lane, X, T, work, net, plan, cooling, conduction, room)
        for k in range(L):
            warmth[k] += work[2 * L + k]
        _feed(lane, X, T, drawn, plan, flow, step)
        _stir_at_ports(lane, T, plan)
