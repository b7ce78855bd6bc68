"""Quality: classes, selling rules by nation and day, and what is refused."""

from datetime import date

import pytest

from woodreeve.errors import Refused, Unknown
from woodreeve.wood import quality, tables
from woodreeve.wood.quality import (
    Lot,
    grade_firewood,
    may_burn,
    moisture_limit,
    refuse_if_never_burnt,
    sale_of_firewood,
)

TODAY = date(2026, 11, 25)

GOOD = Lot(origin="stem_wood", moisture=0.18, share_split=0.95, cut_surface="even", decay=0.0, length_cm=33.0)


def lot(**changed: object) -> Lot:
    """The good lot with something changed."""
    values = {name: getattr(GOOD, name) for name in Lot.__slots__} | changed
    return Lot(**values)


@pytest.mark.parametrize(
    ("changed", "verdict", "why"),
    [
        ({}, "A1", ""),
        ({"length_cm": 31.5}, "A1", ""),
        ({"origin": "whole_tree"}, "A2", "A1: stem wood"),
        ({"share_split": 0.7}, "A2", "A1: at least 90 %"),
        ({"share_split": 0.4}, "B", "A2: at least 50 %"),
        ({"decay": 0.04}, "A2", "A1: no visible decay"),
        ({"cut_surface": "uneven"}, "B", "A2: cut surface even"),
        ({"moisture": 0.30}, "B", "A2: M20 or M25"),
        ({"moisture": 0.36}, "no grade", "B: M20, M25 or M35"),
        ({"length_cm": 60.0}, "no grade", "B: length class"),
        ({"moisture": None}, "not enough known", ""),
        ({"origin": "treated_wood"}, "out of scope", "demolition wood is outside"),
        ({"origin": "roots"}, "out of scope", "without roots"),
    ],
)
def test_a_lot_gets_the_best_grade_it_meets_and_hears_what_stands_in_the_way(
    changed: dict[str, object], verdict: str, why: str
) -> None:
    """One property at a time."""
    grading = grade_firewood(lot(**changed))
    assert grading.verdict == verdict
    assert why in " / ".join(grading.against)


def test_what_is_not_known_is_asked_for() -> None:
    """A grade on half a description would be a guess."""
    assert grade_firewood(lot(decay=None, moisture=None)).missing == (
        "the moisture",
        "the share with decay or mould",
    )


def test_limits_from_memory_are_told_as_such() -> None:
    """Only the scope was read."""
    assert "from memory" in grade_firewood(GOOD).status
    assert grade_firewood(Lot(origin="demolition_wood")).status == "read at the source"


def test_the_length_class_is_the_nearest_within_two_centimetres() -> None:
    """L33 for 32, none for 60."""
    assert grade_firewood(lot(length_cm=32.0)).length_class == "L33"
    assert grade_firewood(lot(length_cm=60.0)).length_class == ""


def sale(moisture: float, volume_m3: float = 1.0, on: date = TODAY, **more: object) -> str:
    """A sale in England, in words."""
    return str(sale_of_firewood("england", volume_m3, moisture, on, **more))  # type: ignore[arg-type]  # test's own


@pytest.mark.parametrize(
    ("moisture", "volume_m3", "more", "verdict"),
    [
        (0.18, 1.99, {"certified": True}, "lawful"),
        (0.18, 1.99, {"certified": False, "drying_notice": True}, "unlawful"),
        (0.21, 1.99, {"certified": True}, "unlawful"),
        (0.20, 1.0, {"certified": True}, "doubtful (exactly 20 %)"),
        (0.18, 2.0, {"certified": True}, "lawful"),
        (0.18, 2.0, {}, "unlawful"),
        (0.35, 2.0, {"drying_notice": True}, "lawful (drying notice)"),
        (0.35, 2.0, {"certified": True}, "unlawful"),
    ],
)
def test_england_splits_at_two_cubic_metres(
    moisture: float, volume_m3: float, more: dict[str, object], verdict: str
) -> None:
    """Certificate below, certificate or notice from there on; exactly 20 % is doubtful."""
    assert sale(moisture, volume_m3, **more) == verdict


def test_the_rule_has_its_days() -> None:
    """May 2021; a year later for foresters under 600 m3."""
    assert sale(0.35, on=date(2021, 4, 30)) == "lawful (rule not yet in force)"
    assert sale(0.35, on=date(2021, 5, 1)) == "unlawful"
    assert sale(0.35, on=date(2021, 5, 1), sold_per_year_m3=599.0) == "lawful (rule not yet in force)"
    assert sale(0.35, on=date(2021, 5, 1), sold_per_year_m3=600.0) == "unlawful"
    assert sale(0.35, on=date(2022, 5, 1), sold_per_year_m3=599.0) == "unlawful"


@pytest.mark.parametrize("nation", ["wales", "scotland", "northern_ireland", "ireland"])
def test_a_nation_that_was_not_researched_says_so(nation: str) -> None:
    """No verdict without a source."""
    found = sale_of_firewood(nation, 1.0, 0.18, TODAY, True)  # type: ignore[arg-type]  # looped text
    assert found.verdict == "not_researched"
    assert "Advice only" in found.caution
    with pytest.raises(Unknown, match="No rule on the moisture"):
        moisture_limit(nation, TODAY)  # type: ignore[arg-type]  # looped text


def test_the_english_wet_and_the_german_dry_limit_are_the_same_wood() -> None:
    """The trap of the two bases."""
    england, germany = moisture_limit("england", TODAY), moisture_limit("germany", TODAY)
    assert england.moisture == pytest.approx(germany.moisture) == pytest.approx(0.20)
    assert (england.printed_basis, germany.printed_basis, germany.printed) == ("wet", "dry", 0.25)
    assert sale_of_firewood("germany", 1.0, 0.22, TODAY).verdict == "doubtful"


@pytest.mark.parametrize(
    ("material", "kind"),
    [
        ("MDF", "glued_board"),
        ("chipboard", "glued_board"),
        ("birch plywood off-cuts", "glued_board"),
        ("old painted window frame", "painted"),
        ("varnished floor boards", "painted"),
        ("preservative-treated posts", "preservative_treated"),
        ("Pressure treated timber", "preservative_treated"),
        ("railway sleepers", "preservative_treated"),
        ("driftwood", "driftwood"),
        ("demolition timber", "demolition"),
        ("household waste", "waste"),
    ],
)
def test_treated_glued_painted_and_salty_wood_is_refused_by_name(material: str, kind: str) -> None:
    """Each with its reason and source."""
    found = may_burn(material)
    assert (found.verdict, found.kind) == ("never", kind)
    assert found.reason
    assert found.source
    with pytest.raises(Refused, match="must never be burnt"):
        refuse_if_never_burnt(material)


@pytest.mark.parametrize(
    "material",
    ["ash", "untreated larch", "un-painted oak", "not painted pine", "clean spruce splits", "beech"],
)
def test_clean_wood_meets_no_objection(material: str) -> None:
    """And ``untreated`` is not ``treated``."""
    assert may_burn(material).verdict == "no_objection_found"
    refuse_if_never_burnt(material)


def test_every_rule_and_refusal_says_whether_it_was_read() -> None:
    """No line without a status."""
    for table in ("firewood_classes", "selling_rules", "never_burn"):
        assert {line["status"] for line in tables.lines(table)} <= {"read", "memory"}


def test_the_public_face_is_what_it_says() -> None:
    """``quality`` names what is there, in order."""
    assert all(hasattr(quality, name) for name in quality.__all__)
    assert sorted(quality.__all__) == sorted(set(quality.__all__))
