"""Diaries as hypothesis makes them up: honest ones, muddled ones, and some that nobody understands."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from hypothesis import strategies as st

from tests.diary.making import BEGIN
from woodreeve.diary.kinds import Entry, current_form

PLACES = st.sampled_from(["gable", "Gable", "hedge", "shed", "boiler room", "heap", "track"])
SPECIES = st.sampled_from(["ash", "birch", "spruce", "bananawood"])
CONTAINERS = st.sampled_from(["barrow", "basket", "wheelbin"])
VOLUMES = st.integers(1, 80).map(lambda tenths: tenths / 10)


def _amount(needed: bool = True) -> st.SearchStrategy[dict[str, Any]]:
    ways: list[st.SearchStrategy[dict[str, Any]]] = [
        st.fixed_dictionaries({"solid_m3": VOLUMES}),
        st.fixed_dictionaries({"stacked_m3": VOLUMES}, optional={"species": SPECIES}),
        st.fixed_dictionaries({"loose_m3": VOLUMES, "log_cm": st.sampled_from([25, 33, 50])}),
        st.fixed_dictionaries(
            {"mass_kg": st.integers(5, 900)}, optional={"moisture": st.sampled_from([0.18, 0.4])}
        ),
        st.fixed_dictionaries({"count": st.integers(1, 9), "container": CONTAINERS}),
    ]
    return st.one_of(*ways) if needed else st.one_of(st.just({}), *ways)


def _payload(amount: st.SearchStrategy[dict[str, Any]], **fields: st.SearchStrategy[Any]) -> Any:
    return st.builds(lambda told, rest: {**told, **rest}, amount, st.fixed_dictionaries(fields))


HOURS = st.sampled_from([0, 0, 24, 48, 48, 49]) | st.integers(0, 24 * 60)
"""Often the same: what happened and was entered at one moment is put in order by its id."""

NO_AMOUNT: st.SearchStrategy[dict[str, Any]] = st.just({})
DATES = st.integers(0, 60).map(lambda number: (BEGIN + timedelta(days=number)).date().isoformat())

PAYLOADS: Mapping[str, st.SearchStrategy[dict[str, Any]]] = {
    "felled": _payload(_amount(False), compartment=st.sampled_from(["Carr", "Bank"])),
    "extracted": _payload(_amount(), place=PLACES, compartment=st.sampled_from([None, "Carr"])),
    "bought": _payload(_amount(), place=PLACES, pieces=st.sampled_from(["roundwood", "rounds", "split"])),
    "split": _payload(_amount(), from_place=st.none() | PLACES, to_place=st.none() | PLACES),
    "stacked": _payload(_amount(), place=PLACES, from_place=st.none() | PLACES),
    "moved": _payload(_amount(False), from_place=PLACES, to_place=PLACES),
    "brought_in": _payload(_amount(), from_place=st.none() | PLACES),
    "sold": _payload(_amount(), place=PLACES),
    "spoiled": _payload(_amount(False), place=PLACES),
    "lit": _payload(_amount(False), from_place=st.none() | PLACES),
    "burnt": _payload(_amount(), since=st.none() | DATES),
    "as_usual": _payload(NO_AMOUNT, since=DATES),
    "counted": _payload(_amount(), place=PLACES),
    "covered": _payload(NO_AMOUNT, place=PLACES),
    "measured": _payload(
        NO_AMOUNT,
        place=PLACES,
        shown_percent=st.lists(st.integers(5, 120), min_size=1, max_size=3),
        basis=st.sampled_from(["wet", "dry", "not_known"]),
    ),
    "weighed": _payload(NO_AMOUNT, container=CONTAINERS, gross_kg=st.integers(10, 90), species=SPECIES),
    "swept": _payload(NO_AMOUNT),
    "danced": _payload(NO_AMOUNT, with_whom=st.just("the sweep")),
    "ash_out": _payload(NO_AMOUNT, litres=st.sampled_from([10, -10])),
}


@st.composite
def diaries(draw: st.DrawFn, most: int = 14) -> list[Entry]:
    """Entries of all kinds, then corrections of some of them, of corrections, and of nothing at all."""
    count = draw(st.integers(1, most))
    ids = [f"{number:032x}" for number in range(1, count + 1)]
    made: list[Entry] = []
    for entry_id in ids:
        kind = draw(st.sampled_from([*PAYLOADS, "correction", "correction"]))
        payload = draw(_corrections(ids) if kind == "correction" else PAYLOADS[kind])
        happened = BEGIN + timedelta(hours=draw(HOURS))
        made.append(
            Entry(
                id=entry_id,
                holding="aldermoor",
                kind=kind,
                form=current_form(kind),
                happened=happened,
                entered=happened + timedelta(hours=draw(st.sampled_from([0, 0, 0, 5, 48, -48]))),
                by="owner",
                payload={key: value for key, value in payload.items() if value is not None},
            )
        )
    return made


@st.composite
def _corrections(draw: st.DrawFn, ids: list[str]) -> dict[str, Any]:
    some_id = st.sampled_from([*ids, "f" * 32])
    told: dict[str, Any] = {"target": draw(some_id), "seen": draw(st.none() | some_id)}
    if draw(st.booleans()):
        return {**told, "void": True}
    kind = draw(st.sampled_from(list(PAYLOADS)))
    return {**told, "payload": draw(PAYLOADS[kind]), "form": current_form(kind)}
