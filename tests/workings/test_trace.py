"""Tracing: nodes, links by identity, folding, and arrays kept as their range."""

import threading
from dataclasses import dataclass
from datetime import date

import numpy as np
import pytest

from woodreeve.errors import OutOfRange
from woodreeve.wood.fallbacks import species_figure
from woodreeve.wood.heat import energy_per_kg, net_heat
from woodreeve.wood.moisture import equilibrium_moisture, meter_reading, to_dry_basis, to_wet_basis
from woodreeve.workings import Trace, dated, figure
from woodreeve.workings.figure import node_of
from woodreeve.workings.trace import MOST_LIKE_CALLS, Given, Node, Seen, current_trace


def leaf_origin(node: Node, name: str) -> Node | Given | None:
    """What an input of a node came from."""
    return next(leaf.came_from for leaf in node.inputs if leaf.name == name)


def test_a_call_leaves_a_node_with_inputs_result_and_children() -> None:
    """The tree of one figure."""
    with Trace() as trace:
        heat = energy_per_kg("ash", 0.2)
    (node,) = trace.nodes
    assert node.name == "energy_per_kg"
    assert [leaf.name for leaf in node.inputs] == ["wood", "moisture", "net_heat_dry_mj_kg"]
    assert node.result.value == heat
    assert [child.name for child in node.children] == ["net_heat_dry", "net_heat"]
    assert [leaf.seen.text for leaf in node.inputs][:2] == ["ash", "0.2"]


def test_a_result_handed_on_links_to_what_made_it() -> None:
    """By identity, not by value."""
    with Trace() as trace:
        dry = to_dry_basis(float("0.21"))
        wet = to_wet_basis(dry)
        to_wet_basis(float(str(dry)))
    first, second, third = trace.nodes
    assert leaf_origin(second, "moisture_dry_basis") is first
    assert leaf_origin(third, "moisture_dry_basis") is None
    assert trace.node_behind(wet) is second


def test_a_part_of_a_result_links_by_its_path() -> None:
    """A field of a dataclass that a formula returned."""
    with Trace() as trace:
        reading = meter_reading(0.22, "dry", 5.0)
        assert reading.high is not None
        net_heat(18.9, reading.high)
    leaf = next(leaf for leaf in trace.nodes[1].inputs if leaf.name == "moisture")
    assert leaf.came_from is trace.nodes[0]
    assert leaf.part in ("high", "safe_moisture")


@dataclass(frozen=True)
class Place:
    """A made-up part of a holding."""

    moisture: float
    people: int
    since: date
    heights: tuple[float, ...]


def test_given_values_are_known_by_identity_and_plain_ones_by_name_and_value() -> None:
    """What the owner typed is a leaf with its path."""
    place = Place(float("0.23"), 4, date(2026, 1, 1), (float("1.5"), float("2.5")))
    with Trace() as trace:
        trace.given(place, "holding: place", "typed by the owner")
        to_dry_basis(place.moisture)
    origin = leaf_origin(trace.nodes[0], "moisture")
    assert origin == Given("holding: place.moisture", "typed by the owner")
    assert trace.origin_of(place.heights[1])[0] == Given("holding: place.heights.1", "typed by the owner")
    assert trace.origin_of(4, "people")[0] == Given("holding: place.people", "typed by the owner")
    assert trace.origin_of(4, "rooms")[0] is None
    assert trace.origin_of(True, "people")[0] is None


def test_more_than_eight_like_calls_fold_into_one_with_a_count_and_a_range() -> None:
    """A loop does not flood the tree."""
    moistures = [0.1 + 0.01 * n for n in range(20)]
    with Trace() as trace:
        results = [to_dry_basis(m) for m in moistures]
        to_wet_basis(0.2)
    kept = [node for node in trace.nodes if node.name == "to_dry_basis"]
    assert len(kept) == MOST_LIKE_CALLS
    assert sum(node.count for node in kept) == 20
    folded = kept[-1]
    assert (folded.low, folded.high) == (results[MOST_LIKE_CALLS - 1], results[-1])
    assert [node.name for node in trace.nodes][-1] == "to_wet_basis"


def test_an_array_is_kept_as_shape_range_and_digest() -> None:
    """Not as its values."""
    many = np.array([0.1, 0.2, 0.6])
    with Trace() as trace:
        result = to_dry_basis(many)
    seen = trace.nodes[0].inputs[0].seen
    assert (seen.shape, seen.low, seen.high) == ((3,), 0.1, 0.6)
    assert seen.mean == pytest.approx(0.3)
    assert seen.digest == Seen.of(many.copy()).digest != Seen.of(result).digest
    assert trace.node_behind(result) is trace.nodes[0]


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, "None"),
        (3, "3"),
        ("ash", "ash"),
        (date(2026, 1, 2), "2026-01-02"),
        ({"a": 1}, "1 named values"),
        ([1, 2], "2 values"),
        (np.array([]), "no values"),
        (object, "type"),
        (Place(0.1, 1, date(2026, 1, 1), ()), "Place"),
        (species_figure("ash", "green_moisture"), str(species_figure("ash", "green_moisture"))),
    ],
)
def test_every_kind_of_value_can_be_taken_down(value: object, text: str) -> None:
    """In a few words."""
    assert Seen.of(value).text == text


def test_outside_its_block_a_trace_records_nothing() -> None:
    """And a figure then carries no node."""
    with Trace() as trace:
        inside = figure(net_heat(18.9, 0.2), "MJ/kg", net_heat)
        assert current_trace() is trace
    outside = figure(net_heat(18.9, 0.2), "MJ/kg", net_heat)
    assert node_of(inside) is trace.nodes[0]
    assert node_of(outside) is None
    assert len(trace.nodes) == 1
    assert current_trace() is None


def test_a_dated_figure_is_tied_to_the_last_call_of_its_function() -> None:
    """A day carries no identity of its own."""
    with Trace() as trace:
        equilibrium_moisture(10.0, 0.8)
        equilibrium_moisture(12.0, 0.8)
        ready = dated(date(2026, 6, 1), equilibrium_moisture)
    assert node_of(ready) is trace.nodes[1]
    assert ready.by == "equilibrium_moisture"


def test_an_error_inside_leaves_the_trace_usable() -> None:
    """The open node is closed, and the trace goes off."""
    with Trace() as trace:
        with pytest.raises(OutOfRange):
            energy_per_kg("ash", 0.2, 99.0)
        to_dry_basis(0.2)
    assert [node.name for node in trace.nodes] == ["to_dry_basis"]
    assert current_trace() is None


def test_traces_of_two_threads_do_not_mix() -> None:
    """Each thread sees its own."""
    seen: dict[str, list[str]] = {}

    def work(name: str, moisture: float) -> None:
        with Trace() as trace:
            for _ in range(50):
                to_dry_basis(moisture)
        seen[name] = [leaf.seen.text for node in trace.nodes for leaf in node.inputs]

    threads = [threading.Thread(target=work, args=(str(m), m)) for m in (0.1, 0.2, 0.3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert seen == {str(m): [str(m)] * MOST_LIKE_CALLS for m in (0.1, 0.2, 0.3)}


def test_a_default_is_told_as_such_and_is_not_unexplained() -> None:
    """A composite one too, by its identity; like values from elsewhere are not taken for it."""

    def like_a_formula(parts: tuple[float, ...] = (0.2, 0.3), *, share: float = 0.5) -> float:
        return sum(parts) * share

    with Trace() as trace:
        default = like_a_formula.__defaults__
        assert default is not None
        trace.call("like", like_a_formula, (("parts", default[0]), ("share", 0.5)), (), {})
        trace.call("like", like_a_formula, (("parts", tuple([0.2, 0.3])), ("share", 0.5)), (), {})  # noqa: C409 - a tuple of its own
    told = [node.inputs[0] for node in trace.nodes]
    assert [leaf.is_default for leaf in told] == [True, False]
    assert [leaf.loose for leaf in told] == [(), ("0", "1")]


def test_a_call_inside_another_knows_where_it_was_made() -> None:
    """So that a number made on the way can be told."""
    with Trace() as trace:
        energy_per_kg("ash", 0.2)
    outer = trace.nodes[0]
    assert outer.within is None
    assert outer.children
    assert all(child.within is outer for child in outer.children)


def test_an_empty_list_of_things_is_nobodys() -> None:
    """The interpreter shares one empty tuple among all, so it must not name where another one stood."""
    with Trace() as trace:
        trace.given({"away": (), "windows": (1.5,)}, "holding", "given by the owner")
        assert trace.origin_of((), "containers") == (None, "")
