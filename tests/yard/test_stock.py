"""The yard as a whole, and what to burn first."""

import pytest

from tests.yard.stacks import stack
from woodreeve.workings.trace import Node, Trace
from woodreeve.yard.cover import HeatNeed, winter_cover
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.stacks import MoistureNow
from woodreeve.yard.stock import YardStock, yard_stock

LIMITS = WoodLimits()


def yard(**stacks: tuple[str, float, float | None]) -> YardStock:
    """A yard of stacks: species, stacked metres and moisture by name."""
    return yard_stock({name: stack(name, *told) for name, told in stacks.items()}, LIMITS)


def test_dry_wood_that_spoils_comes_first_then_dry_then_damp_then_what_nobody_knows() -> None:
    """The burning order, with its reasons."""
    stock = yard(
        oak_dry=("oak", 5, 0.18),
        birch_dry=("birch", 5, 0.22),
        alder_dry=("alder", 5, 0.20),
        ash_damp=("ash", 5, 0.27),
        ash_wet=("ash", 5, 0.40),
        ash_unknown=("ash", 5, None),
        ash_dry=("ash", 5, 0.16),
    )
    assert [(turn.place, turn.why) for turn in stock.order] == [
        ("alder_dry", "dry_and_spoils"),
        ("birch_dry", "dry_and_spoils"),
        ("ash_dry", "dry"),
        ("oak_dry", "dry"),
        ("ash_damp", "damp"),
        ("ash_unknown", "not_measured"),
        ("ash_wet", "too_wet"),
    ]
    assert [turn.turn for turn in stock.order] == [1, 2, 3, 4, 5, 6, 7]
    assert [turn.place for turn in stock.order if not turn.burn] == ["ash_unknown", "ash_wet"]


def test_the_sum_is_the_sum_of_its_stacks() -> None:
    """The yard's heat is that of its stacks, and its range is narrower than theirs side by side."""
    stock = yard(one=("ash", 4, 0.2), two=("oak", 6, 0.35), three=("birch", 5, 0.22))
    assert stock.heat_kwh == pytest.approx(sum(one.heat_kwh for one in stock.stacks))
    assert sum(one.low_kwh for one in stock.stacks) < stock.low_kwh < stock.heat_kwh < stock.high_kwh
    assert stock.stacked_m3 == pytest.approx(15.0)


def test_the_dry_share_counts_what_is_fine_or_better() -> None:
    """The dry share counts what is fine or better, by heat."""
    stock = yard(one=("ash", 5, 0.2), two=("ash", 5, 0.25), three=("ash", 10, 0.28))
    dry = [one.heat_kwh for one in stock.stacks if one.place != "three"]
    assert stock.dry_kwh == pytest.approx(sum(dry))
    assert stock.share_dry_enough == pytest.approx(sum(dry) / stock.heat_kwh)
    assert stock.dry_low_kwh < stock.dry_kwh < stock.dry_high_kwh


def test_what_nobody_measured_is_told_as_a_share() -> None:
    """What nobody measured is told as a share of the heat, and is not called dry."""
    stock = yard(one=("ash", 5, 0.2), two=("ash", 5, None))
    assert 0.4 < stock.share_not_known < 0.5
    assert stock.share_dry_enough + stock.share_not_known == pytest.approx(1.0)


def test_empty_places_are_left_out() -> None:
    """A place that was emptied is no stack."""
    stock = yard(one=("ash", 5, 0.2), gone=("ash", 0.0, 0.2))
    assert [one.place for one in stock.stacks] == ["one"]


def test_an_empty_yard_has_no_heat_and_no_order() -> None:
    """An empty yard has no heat and no order, and divides nothing by nothing."""
    stock = yard_stock({}, LIMITS)
    assert (stock.heat_kwh, stock.share_dry_enough, stock.share_not_known, stock.order) == (0.0, 0.0, 0.0, ())


def test_boiler_room_counts_and_roundwood_stands_apart() -> None:
    """The boiler room counts with what is known of it; roundwood is next year's and stands apart."""
    stock = yard_stock(
        {},
        LIMITS,
        boiler_room=stack("boiler room", stacked_m3=1.0, stage="boiler_room", carried_moisture=0.18),
        in_the_round={"track side": stack("track side", "oak", 4.0, stage="roadside")},
    )
    assert [(one.place, one.dryness) for one in stock.stacks] == [("boiler room", "ideal")]
    assert stock.roadside_solid_m3 == pytest.approx(4.0 * 0.62)
    assert stock.roadside_kwh > stock.heat_kwh


def test_the_drying_model_overrules_old_readings() -> None:
    """What the drying model reckons decides on dryness and order."""
    dried = MoistureNow(moisture=0.19, low=0.17, high=0.21, known_by="reckoned")
    stacks = {"one": stack("one", "ash", 5.0, 0.33), "two": stack("two", "ash", 5.0, 0.22)}
    stock = yard_stock(stacks, LIMITS, reckoned={"one": dried})
    assert [turn.place for turn in stock.order] == ["one", "two"]


def test_every_figure_of_the_yard_can_be_opened() -> None:
    """While a trace is on, each figure leads to the formula that made it."""
    stacks = {"one": stack("one", "ash", 5.0, 0.2), "two": stack("two", "oak", 5.0)}
    with Trace() as trace:
        stock = yard_stock(stacks, LIMITS)
        need = HeatNeed(kwh=20000.0, low_kwh=17000.0, high_kwh=23000.0)
        cover = winter_cover(stock, need, need)
        held = stock.stacks[1]
        made = {
            "yard_stock": (stock.heat_kwh, stock.dry_low_kwh, stock.share_dry_enough, stock.stacked_m3),
            "heat_of_dry_wood": (held.heat_kwh, held.low_kwh, held.high_kwh),
            "stack_heat": (held.mass_kg, held.stacked_m3, held.dry_kg),
            "moisture_of_stack": (held.moisture.moisture, held.moisture.low),
            "winter_cover": (cover.winters, cover.low, cover.short_next_high_kwh, cover.share_dry_enough),
        }
        for name, figures in made.items():
            for figure in figures:
                node = trace.node_behind(figure)
                assert isinstance(node, Node)
                assert node.name == name
