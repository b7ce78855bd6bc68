"""What holds of every diary, however muddled."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.diary.making import Diary
from tests.diary.strategies import diaries
from woodreeve.diary.amounts import ContainerSize
from woodreeve.diary.entry import entry_from_json, entry_to_json
from woodreeve.diary.fold import fold
from woodreeve.diary.folded import Folded, StackContents
from woodreeve.diary.kinds import Entry, read_payload

CONTAINERS = [ContainerSize(name="barrow", litres=90.0), ContainerSize(name="basket", litres=45.0)]


def everywhere(folded: Folded) -> list[StackContents]:
    """The contents of every place."""
    named = chain(folded.stacks.values(), folded.roadside.values(), folded.in_wood.values())
    return [*named, *(one for one in (folded.heap, folded.boiler_room) if one is not None)]


@given(diaries(), st.randoms(use_true_random=False))
def test_the_fold_is_the_same_in_whatever_order_entries_arrive(entries: list[Entry], dice: object) -> None:
    """Corrections of corrections and of unknown entries included; to the last digit and the last name."""
    shuffled = list(entries)
    dice.shuffle(shuffled)  # type: ignore[attr-defined]  # hypothesis gives a random.Random, its type says object
    assert repr(fold(shuffled, CONTAINERS)) == repr(fold(entries, CONTAINERS))


@given(diaries())
def test_sending_everything_twice_changes_nothing(entries: list[Entry]) -> None:
    """Nor does the moment of sending, nor the way through JSON."""
    again = [entry_from_json(entry_to_json(replace(entry, sent=entry.entered))) for entry in entries]
    assert repr(fold([*entries, *again], CONTAINERS)) == repr(fold(entries, CONTAINERS))


@given(diaries())
def test_no_amount_is_ever_below_nothing(entries: list[Entry]) -> None:
    """Neither in a stack nor in a day."""
    folded = fold(entries, CONTAINERS)
    for place in everywhere(folded):
        assert place.solid_m3 >= 0.0
        assert not place.mix or sum(place.mix.values()) == pytest.approx(1.0)
    for use in chain(folded.use_by_day.values(), folded.use_by_month.values()):
        assert min(use.fires, use.logged_m3, use.as_usual_m3, use.unlogged_m3, use.dry_kg) >= 0
        assert use.mass_kg >= use.dry_kg - 1e-9


@given(diaries())
def test_every_entry_is_an_event_or_a_correction_or_a_finding(entries: list[Entry]) -> None:
    """Nothing that was written down disappears unsaid."""
    folded = fold(entries, CONTAINERS)
    events = {event.id for of_kind in folded.events.values() for event in of_kind}
    told = {finding.entry for finding in folded.findings}
    corrections = {entry.id: entry for entry in entries if entry.kind == "correction"}
    struck_out = {
        first_target(entry, corrections) for entry in corrections.values() if "void" in entry.payload
    }
    assert {entry.id for entry in entries} <= events | told | set(corrections) | struck_out


def first_target(correction: Entry, corrections: dict[str, Entry]) -> str:
    """What was corrected first; gives up after as many steps as there are corrections."""
    target = str(correction.payload["target"])
    for _ in corrections:
        if target in corrections:
            target = str(corrections[target].payload["target"])
    return target


SIMPLE = st.lists(
    st.tuples(
        st.sampled_from(["stacked", "moved", "sold", "brought_in", "lit", "spoiled"]),
        st.sampled_from(["gable", "hedge"]),
        st.integers(1, 50),
    ),
    max_size=25,
)


@given(SIMPLE)
def test_wood_is_neither_made_nor_lost(steps: list[tuple[str, str, int]]) -> None:
    """What came less what went is what is there; what was taken too much is in the findings."""
    diary = Diary()
    came = went = 0.0
    for number, (kind, place, tenths) in enumerate(steps):
        solid = tenths / 10
        fields = {
            "stacked": {"place": place, "species": "ash"},
            "moved": {"from_place": place, "to_place": "shed"},
            "sold": {"place": place},
            "brought_in": {"from_place": place},
            "lit": {"from_place": place},
            "spoiled": {"place": place},
        }[kind]
        diary.add(number, kind, solid_m3=solid, **fields)
        came += solid if kind == "stacked" else 0.0
        went += solid if kind in ("sold", "lit", "spoiled") else 0.0
    folded = fold(diary.entries)
    there = sum(place.solid_m3 for place in everywhere(folded))
    surplus = there - (came - went)
    assert surplus >= -1e-9
    if surplus > 1e-6:
        assert {finding.kind for finding in folded.findings} & {"more_than_held", "unknown_place"}
    else:
        assert "more_than_held" not in {finding.kind for finding in folded.findings}


@given(st.floats(0.5, 100), st.sampled_from(["wet", "dry", "not_known"]))
def test_every_old_reading_is_read_as_the_new_form_would_be(percent: float, basis: str) -> None:
    """The first form had one value; the second has a list."""
    old = Diary().add(0, "measured", form=1, stack="gable", percent=percent, basis=basis)
    new = Diary().add(0, "measured", place="gable", shown_percent=[percent], basis=basis)
    assert read_payload(old) == read_payload(new)
