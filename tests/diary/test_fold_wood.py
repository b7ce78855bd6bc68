"""Wood on its way from the stump to the boiler room, added up."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tests.diary.making import BEGIN, Diary, kinds_found
from woodreeve.diary.amounts import ContainerSize
from woodreeve.diary.fold import fold
from woodreeve.wood import measure

BARROW = ContainerSize(name="barrow", litres=100.0)
ASH_STACKED = measure.stacked_solid_share("split_33cm", "ash")


def day(number: int) -> date:
    """The date of a day of the diary."""
    return (BEGIN + timedelta(days=number)).date()


def test_a_tree_goes_from_the_wood_to_the_stack_and_nothing_is_lost_on_the_way() -> None:
    """Ten cubic metres felled are ten cubic metres wherever they lie."""
    diary = Diary()
    diary.add(0, "felled", compartment="Carr", species="ash", solid_m3=10)
    diary.add(10, "extracted", compartment="Carr", place="track", species="ash", solid_m3=7)
    diary.add(20, "split", from_place="track", to_place="gable", solid_m3=4, log_cm=33)
    folded = fold(diary.entries)
    assert folded.in_wood["Carr"].solid_m3 == pytest.approx(3)
    assert folded.roadside["track"].solid_m3 == pytest.approx(3)
    gable = folded.stacks["gable"]
    assert gable.solid_m3 == pytest.approx(4)
    assert gable.stacked_m3 == pytest.approx(measure.stacked_from_solid(4.0, "split_33cm", "ash"))
    assert gable.dry_kg == pytest.approx(measure.mass_of_solid("ash", 4.0, 0.0))
    assert dict(gable.mix) == {"ash": 1.0}
    assert (gable.felled_on, gable.split_on, gable.form) == (day(0), day(20), "split_33cm")
    assert kinds_found(folded) == []


def test_split_wood_waits_on_the_heap_until_it_is_stacked() -> None:
    """The tape says what was stacked; what it knows of felling and splitting comes with it."""
    diary = Diary()
    diary.add(
        0, "bought", place="yard", pieces="roundwood", species="ash", solid_m3=5, felled_on="2024-11-05"
    )
    diary.add(3, "split", solid_m3=5, log_cm=33)
    assert fold(diary.entries).heap is not None
    diary.add(4, "stacked", place="gable", rows=[{"length_m": 5, "height_m": 1, "log_cm": 33}])
    folded = fold(diary.entries)
    gable, heap = folded.stacks["gable"], folded.heap
    assert heap is not None
    assert gable.stacked_m3 == pytest.approx(1.65)
    assert gable.solid_m3 == pytest.approx(1.65 * ASH_STACKED)
    assert heap.solid_m3 == pytest.approx(5 - 1.65 * ASH_STACKED)
    assert (gable.felled_on, gable.split_on, gable.stacked_on) == (date(2024, 11, 5), day(3), day(4))


def test_wood_stacked_without_a_past_is_simply_there() -> None:
    """Most diaries begin with stacks that stand already."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", stacked_m3=6, log_cm=50, split_on="2024-03-01")
    folded = fold(diary.entries)
    assert folded.stacks["gable"].form == "split_50cm"
    assert folded.stacks["gable"].split_on == date(2024, 3, 1)
    assert kinds_found(folded) == []


def test_a_stack_of_two_batches_tells_the_first_and_the_last_of_its_dates() -> None:
    """The last is the safe one to judge dryness by."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=3, split_on="2024-03-01")
    diary.add(9, "stacked", place="gable", species="birch", solid_m3=1, split_on="2024-12-20")
    gable = fold(diary.entries).stacks["gable"]
    assert (gable.split_first_on, gable.split_on) == (date(2024, 3, 1), date(2024, 12, 20))
    assert dict(gable.mix) == pytest.approx({"ash": 0.75, "silver_birch": 0.25})


def test_an_emptied_place_starts_anew() -> None:
    """The next stack there is not as old as the last one, nor as dry."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=3, split_on="2023-03-01")
    diary.add(1, "measured", place="gable", shown_percent=[17], basis="wet")
    diary.add(2, "moved", from_place="gable", to_place="shed")
    diary.add(3, "stacked", place="gable", species="birch", solid_m3=2)
    folded = fold(diary.entries)
    gable, shed = folded.stacks["gable"], folded.stacks["shed"]
    assert dict(gable.mix) == {"silver_birch": 1.0}
    assert (gable.split_on, gable.readings, gable.carried_moisture) == (None, (), None)
    assert (shed.split_on, shed.carried_moisture) == (date(2023, 3, 1), pytest.approx(0.17))
    assert len(folded.readings) == 1


def test_a_cover_counts_from_the_day_the_wood_came_under_it() -> None:
    """A roof that was there before does not make the new stack older."""
    diary = Diary()
    diary.add(0, "covered", place="gable", cover="roof")
    diary.add(30, "stacked", place="gable", species="ash", solid_m3=3)
    diary.add(0, "stacked", place="hedge", species="ash", solid_m3=3)
    diary.add(50, "covered", place="hedge")
    diary.add(60, "covered", place="hedge", cover="boards")
    folded = fold(diary.entries)
    assert (folded.stacks["gable"].covered_on, folded.stacks["gable"].cover) == (day(30), "roof")
    assert (folded.stacks["hedge"].covered_on, folded.stacks["hedge"].cover) == (day(50), "boards")
    diary.add(70, "uncovered", place="hedge")
    assert fold(diary.entries).stacks["hedge"].covered_on is None


def test_names_differ_in_more_than_capitals_or_are_the_same() -> None:
    """And the holding says how they are spelled."""
    diary = Diary()
    diary.add(0, "stacked", place="Gable ", species="Ash", solid_m3=3)
    diary.add(1, "stacked", place="GABLE", species="Fraxinus excelsior", solid_m3=1)
    folded = fold(diary.entries, places=["gable"])
    assert list(folded.stacks) == ["gable"]
    assert folded.stacks["gable"].solid_m3 == pytest.approx(4)
    assert dict(folded.stacks["gable"].mix) == {"ash": 1.0}


def test_what_is_taken_is_of_the_species_named_as_far_as_it_goes() -> None:
    """Else of all in proportion."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", mix={"ash": 0.5, "birch": 0.5}, solid_m3=4)
    diary.add(1, "sold", place="gable", species="birch", solid_m3=1)
    left = fold(diary.entries).stacks["gable"]
    assert dict(left.mix) == pytest.approx({"ash": 2 / 3, "silver_birch": 1 / 3})
    diary.add(2, "sold", place="gable", solid_m3=1.5)
    gable = fold(diary.entries).stacks["gable"]
    assert gable.solid_m3 == pytest.approx(1.5)
    assert dict(gable.mix) == pytest.approx({"ash": 2 / 3, "silver_birch": 1 / 3})


def test_more_taken_than_there_was_is_a_finding_and_not_a_refusal() -> None:
    """The stack is empty then, and what was moved has arrived all the same."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=2)
    sale = diary.add(1, "sold", place="gable", solid_m3=3)
    again = diary.add(2, "moved", from_place="gable", to_place="shed", solid_m3=0.5)
    folded = fold(diary.entries)
    assert folded.stacks["gable"].solid_m3 == 0.0
    assert folded.stacks["shed"].solid_m3 == pytest.approx(0.5)
    (finding,) = folded.findings
    assert (finding.kind, finding.entry, finding.place) == ("more_than_held", sale.id, "gable")
    assert finding.others == (again.id,)
    assert dict(finding.figures) == pytest.approx({"taken_m3": 3.0, "held_m3": 2.0})


def test_without_a_place_the_only_stack_there_is_is_meant() -> None:
    """With two, the diary asks."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=2)
    diary.add(1, "brought_in", count=2, container="barrow")
    folded = fold(diary.entries, [BARROW])
    assert folded.boiler_room is not None
    assert folded.stacks["gable"].solid_m3 + folded.boiler_room.solid_m3 == pytest.approx(2)
    diary.add(0, "stacked", place="hedge", species="ash", solid_m3=2)
    assert kinds_found(fold(diary.entries, [BARROW])) == ["place_not_given"]


def test_a_place_or_container_or_species_nobody_knows_is_told() -> None:
    """None of them stops the rest."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="bananawood", solid_m3=2)
    diary.add(1, "sold", place="gabel", solid_m3=1)
    diary.add(2, "brought_in", from_place="gable", count=3, container="wheelbin")
    folded = fold(diary.entries)
    found = {finding.kind: finding.place or finding.name for finding in folded.findings}
    assert found == {
        "unknown_species": "bananawood",
        "unknown_place": "gabel",
        "unknown_container": "wheelbin",
    }
    assert dict(folded.stacks["gable"].mix) == {"mixed_broadleaf": 1.0}


def test_green_roundwood_weighed_without_its_moisture_is_taken_as_green() -> None:
    """And the diary says what it assumed."""
    diary = Diary()
    diary.add(0, "bought", place="yard", pieces="roundwood", species="beech", mass_kg=9000)
    folded = fold(diary.entries)
    (finding,) = folded.findings
    assert finding.kind == "moisture_assumed"
    solid = measure.solid_of_mass("beech", 9000.0, finding.figures["moisture"])
    assert folded.roadside["yard"].solid_m3 == pytest.approx(solid)
    assert finding.figures["moisture"] > 0.35


def test_a_container_is_known_by_litres_until_it_is_weighed() -> None:
    """One weighing in the diary tells more than any size, for the fills before it too."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=20)
    diary.add(1, "brought_in", from_place="gable", count=10, container="Barrow")
    by_litres = fold(diary.entries, [BARROW])
    assert by_litres.containers["barrow"].known_by == "litres"
    loose = measure.solid_from_loose(0.1, "split_33cm", "mixed_broadleaf")
    assert by_litres.containers["barrow"].solid_m3 == pytest.approx(loose)
    diary.add(5, "weighed", container="barrow", gross_kg=50, empty_kg=14, species="ash", moisture=0.18)
    diary.add(6, "weighed", container="barrow", gross_kg=54, empty_kg=14, species="ash", moisture=0.18)
    weighed = fold(diary.entries, [BARROW])
    fill = weighed.containers["barrow"]
    assert (fill.known_by, fill.weighings, dict(fill.mass_kg)) == ("weighings", 2, {"ash": 38.0})
    assert fill.solid_m3 == pytest.approx(measure.solid_of_mass("ash", 38.0, 0.18))
    assert weighed.boiler_room is not None
    assert weighed.boiler_room.solid_m3 == pytest.approx(10 * fill.solid_m3)


def test_weights_told_in_the_holding_win_over_litres_and_weighings_over_both() -> None:
    """What was really on the scales is what counts."""
    told = ContainerSize(name="crate", litres=400.0, mass_kg={"beech": 190.0}, moisture=0.18)
    diary = Diary()
    diary.add(0, "note", text="x")
    fill = fold(diary.entries, [told]).containers["crate"]
    assert fill.known_by == "weights_told"
    assert fill.solid_m3 == pytest.approx(measure.solid_of_mass("beech", 190.0, 0.18))
    diary.add(1, "weighed", container="crate", gross_kg=230, empty_kg=20, species="beech", moisture=0.2)
    fill = fold(diary.entries, [told]).containers["crate"]
    assert (fill.known_by, dict(fill.mass_kg)) == ("weighings", {"beech": 210.0})


def test_movements_are_kept_with_their_weight_where_the_moisture_is_known() -> None:
    """A customer's note needs both."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(1, "measured", place="gable", shown_percent=[16, 18, 17], basis="wet")
    diary.add(2, "sold", place="gable", solid_m3=1, customer="mill-cottage", price=90)
    diary.add(3, "given_away", place="gable", solid_m3=1, moisture=0.25)
    _, sold, given = fold(diary.entries).flows
    assert (sold.from_place, sold.to_place, sold.moisture) == ("gable", None, pytest.approx(0.17))
    assert sold.mass_kg == pytest.approx(measure.mass_of_solid("ash", 1.0, 0.17))
    assert given.mass_kg == pytest.approx(measure.mass_of_solid("ash", 1.0, 0.25))


def test_until_leaves_out_what_happened_later() -> None:
    """A correction counts whenever it was made."""
    diary = Diary()
    first = diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(10, "sold", place="gable", solid_m3=1)
    diary.correct(20, first.id, place="gable", species="ash", solid_m3=4)
    folded = fold(diary.entries, until=BEGIN + timedelta(days=5))
    assert folded.stacks["gable"].solid_m3 == pytest.approx(4)
    assert folded.count == 1


def test_an_entry_written_down_long_before_it_happened_is_told() -> None:
    """A slip in the year, most likely."""
    diary = Diary()
    wrong = diary.add(400, "note", text="x")
    entry = wrong.__class__(
        **{name: getattr(wrong, name) for name in wrong.__slots__ if name != "entered"}, entered=BEGIN
    )
    assert kinds_found(fold([entry])) == ["happens_after_entered"]


def test_a_measured_stack_that_was_used_up_is_remembered_as_it_was_measured() -> None:
    """When new wood comes to its place, or nothing is left; an unmeasured one teaches nothing."""
    diary = Diary()
    diary.add(0, "stacked", place="gable", species="ash", solid_m3=5)
    diary.add(1, "measured", place="gable", shown_percent=[24, 25], basis="dry")
    diary.add(2, "counted", place="gable", nothing_left=True)
    assert [(one.place, one.solid_m3, len(one.readings)) for one in fold(diary.entries).used_up] == [
        ("gable", 5.0, 1)
    ]
    diary.add(3, "stacked", place="gable", species="oak", solid_m3=4)
    diary.add(4, "counted", place="gable", nothing_left=True)
    diary.add(5, "stacked", place="gable", species="birch", solid_m3=4)
    assert [one.mix for one in fold(diary.entries).used_up] == [{"ash": 1.0}]
