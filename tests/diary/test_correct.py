"""Corrections, and corrections of corrections."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from tests.diary.making import WINTER_TIME, Diary, kinds_found
from woodreeve.diary.correct import corrected
from woodreeve.diary.fold import fold
from woodreeve.diary.kinds import Entry


def standing_payload(diary: Diary) -> dict[str, object]:
    """What the only entry says after its corrections."""
    (only,) = corrected(diary.entries)[0]
    return dict(only.entry.payload)


def test_a_correction_replaces_the_whole_payload() -> None:
    """What it leaves out is gone, not kept from before."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10, note="windy")
    change = diary.correct(1, first.id, litres=12)
    (only,) = corrected(diary.entries)[0]
    assert only.entry == replace(first, payload={"litres": 12})
    assert only.corrected_by == change.id


def test_a_correction_can_strike_an_entry_out() -> None:
    """It then counts for nothing."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    diary.add(1, "correction", target=first.id, void=True)
    assert corrected(diary.entries) == ([], [])


def test_a_correction_can_put_the_date_right() -> None:
    """Without it the date stays."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    right = (first.happened - timedelta(days=3)).isoformat()
    diary.add(1, "correction", target=first.id, payload={"litres": 10}, happened=right)
    (only,) = corrected(diary.entries)[0]
    assert only.entry.happened == first.happened - timedelta(days=3)


def test_of_two_that_followed_each_other_the_later_stands_and_nobody_asks() -> None:
    """The second had seen the first."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    change = diary.correct(1, first.id, litres=12)
    diary.correct(2, first.id, seen=change.id, litres=14)
    assert standing_payload(diary) == {"litres": 14}
    assert kinds_found(fold(diary.entries)) == []


def test_what_was_seen_counts_for_more_than_a_clock_that_is_wrong() -> None:
    """The telephone that made the second one is a day behind."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    change = diary.correct(2, first.id, litres=12)
    diary.correct(1, first.id, seen=change.id, litres=14)
    assert standing_payload(diary) == {"litres": 14}


def test_of_two_that_did_not_know_of_each_other_the_later_stands_and_a_finding_asks() -> None:
    """Two telephones, both without signal."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    later = diary.correct(2, first.id, litres=12)
    earlier = diary.correct(1, first.id, litres=14)
    assert standing_payload(diary) == {"litres": 12}
    (finding,) = fold(diary.entries).findings
    assert (finding.kind, finding.entry, finding.others) == (
        "two_corrections",
        first.id,
        (earlier.id, later.id),
    )


def test_entered_at_the_same_moment_the_higher_id_stands() -> None:
    """Something must decide, and the order of arrival must not."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    diary.correct(1, first.id, litres=12)
    diary.correct(1, first.id, litres=14)
    assert standing_payload(diary) == {"litres": 14}


def test_a_correction_that_has_seen_both_settles_the_question() -> None:
    """The page sends it when the owner has chosen."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    one = diary.correct(1, first.id, litres=12)
    two = diary.correct(2, first.id, litres=14)
    diary.add(3, "correction", target=first.id, payload={"litres": 12}, seen=two.id, also_seen=[one.id])
    assert standing_payload(diary) == {"litres": 12}
    assert kinds_found(fold(diary.entries)) == []


def test_a_correction_of_a_correction_counts_for_the_first_entry() -> None:
    """However long the chain is."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    one = diary.correct(1, first.id, litres=12)
    two = diary.correct(2, one.id, seen=one.id, litres=14)
    diary.correct(3, two.id, seen=two.id, litres=16)
    assert standing_payload(diary) == {"litres": 16}
    assert kinds_found(fold(diary.entries)) == []


def test_a_correction_of_what_is_not_here_is_kept_as_a_finding() -> None:
    """Its entry may still be in a pocket somewhere; when it comes, the correction counts."""
    diary = Diary()
    missing = "f" * 32
    change = diary.correct(1, missing, litres=12)
    (finding,) = fold(diary.entries).findings
    assert (finding.kind, finding.entry, finding.others) == ("unknown_target", change.id, (missing,))
    diary.entries.append(replace(diary.add(0, "ash_out", litres=10), id=missing))
    assert kinds_found(fold(diary.entries)) == []


def test_corrections_that_go_round_in_a_circle_hang_nothing_up() -> None:
    """Nobody makes them, but somebody may send them."""
    diary = Diary()
    diary.correct(1, f"{2:032x}", litres=12)
    diary.correct(2, f"{1:032x}", litres=14)
    diary.correct(3, f"{3:032x}", litres=16)
    assert kinds_found(fold(diary.entries)) == ["unknown_target"] * 3
    first = diary.add(0, "ash_out", litres=10)
    diary.correct(4, first.id, seen=f"{6:032x}", litres=18)
    diary.correct(5, first.id, seen=f"{5:032x}", litres=20)
    assert standing_payload(diary) == {"litres": 20}


def test_a_correction_that_cannot_be_read_leaves_a_finding_and_the_entry_as_it_was() -> None:
    """It neither says anything nor strikes anything out."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    broken = diary.add(1, "correction", target=first.id)
    folded = fold(diary.entries)
    assert [(one.kind, one.entry) for one in folded.findings] == [("not_understood", broken.id)]
    assert len(folded.events["ash_out"]) == 1


def test_a_corrected_payload_that_cannot_be_read_is_told_with_both_ids() -> None:
    """The owner said that the old one is wrong, so it does not count either."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    change = diary.correct(1, first.id, litres=-4)
    (finding,) = fold(diary.entries).findings
    assert (finding.kind, finding.entry, finding.others) == ("not_understood", first.id, (change.id,))
    assert finding.sentence == "ash_out: litres is -4 L, but must be between 0 and 2000 (not 0 itself) L."


def test_one_id_with_two_contents_is_told_and_one_of_them_counts_whatever_came_first() -> None:
    """Which one is of no matter, as long as it is always the same."""
    diary = Diary()
    first = diary.add(0, "ash_out", litres=10)
    other = replace(first, payload={"litres": 11})
    one_way, other_way = fold([first, other]), fold([other, first])
    assert one_way == other_way
    assert kinds_found(one_way) == ["same_id_other_content"]
    assert one_way.count == 1


def test_the_same_entry_in_another_zone_is_the_same_moment() -> None:
    """Order goes by the moment, not by the letters of the date."""
    diary = Diary()
    late = diary.add(0, "note", text="late")
    early = replace(
        diary.add(0, "note", text="early"),
        happened=late.happened.astimezone(tz=None).astimezone(WINTER_TIME) - timedelta(minutes=1),
    )
    entries: list[Entry] = [late, early]
    assert [event.id for event in fold(entries).events["note"]] == [early.id, late.id]
