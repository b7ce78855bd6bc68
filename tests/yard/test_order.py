"""The order of burning: dry first, promises kept, nothing spoilt, dense wood for the frost."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange
from woodreeve.yard.order import BurnPeriod, BurnStack, burning_order

WINTER = (
    BurnPeriod(name="October", wanted_kwh=1000.0, coldness=0.0),
    BurnPeriod(name="January", wanted_kwh=2000.0, coldness=1.0),
    BurnPeriod(name="March", wanted_kwh=1000.0, coldness=0.4),
)


def stack(
    name: str, wood: str = "ash", heat: float = 4000.0, moisture: float = 0.17, **more: float
) -> BurnStack:
    """A stack of steady moisture."""
    return BurnStack(name=name, wood=wood, heat_kwh=heat, moisture=(moisture,) * 3, **more)


def names(*stacks: BurnStack, **more: float) -> list[str]:
    """The order."""
    return [step.name for step in burning_order(stacks, WINTER, **more).steps]


def test_dry_wood_goes_before_wet() -> None:
    """And the wet is not needed."""
    plan = burning_order((stack("wet", moisture=0.27), stack("dry")), WINTER)
    assert [step.name for step in plan.steps] == ["dry", "wet"]
    assert plan.wet_kwh == 0.0
    assert plan.steps[1].total_kwh == 0.0


def test_a_stack_still_drying_waits_for_the_end_of_the_winter() -> None:
    """Where both are needed the damp one burns when it has come down."""
    drying = BurnStack(name="drying", wood="ash", heat_kwh=2000.0, moisture=(0.27, 0.25, 0.20))
    plan = burning_order((drying, stack("dry", heat=3000.0)), WINTER)
    step = next(step for step in plan.steps if step.name == "drying")
    assert step.first_period == "March"
    assert plan.wet_kwh == pytest.approx(0.0, abs=1e-6)


def test_birch_goes_before_oak_of_the_same_dryness() -> None:
    """It would rot first."""
    assert names(stack("oak", wood="oak"), stack("birch", wood="birch")) == ["birch", "oak"]


def test_birch_is_burnt_up_rather_than_left_for_another_year() -> None:
    """With more wood than the winter needs it is the oak that stays."""
    plan = burning_order((stack("oak", wood="oak"), stack("birch", wood="birch", heat=3000.0)), WINTER)
    left = {step.name: step.left_kwh for step in plan.steps}
    assert left["birch"] == pytest.approx(0.0, abs=1e-6)
    assert left["oak"] == pytest.approx(3000.0)
    first = next(step for step in plan.steps if step.name == "birch")
    assert first.burnt_kwh == pytest.approx((1000.0, 2000.0, 0.0))


def test_dense_wood_is_kept_for_the_frost_and_light_wood_for_mild_days() -> None:
    """By the heat of a fill."""
    light = stack("spruce", wood="spruce", heat=2000.0, heat_per_fill_kwh=60.0)
    dense = stack("hornbeam", wood="hornbeam", heat=2000.0, heat_per_fill_kwh=110.0)
    plan = burning_order((dense, light), WINTER)
    burnt = {step.name: step.burnt_kwh for step in plan.steps}
    assert burnt["hornbeam"][1] == pytest.approx(2000.0)
    assert burnt["spruce"] == pytest.approx((1000.0, 0.0, 1000.0))
    assert "dense_for_frost" in next(s for s in plan.steps if s.name == "hornbeam").reasons


def test_what_is_promised_is_not_burnt() -> None:
    """Rather the house goes short, and the plan says how much."""
    plan = burning_order((stack("only", heat=4000.0, promised_kwh=1500.0),), WINTER)
    assert plan.steps[0].total_kwh == pytest.approx(2500.0)
    assert sum(plan.short_kwh) == pytest.approx(1500.0)
    assert "promised" in plan.steps[0].reasons


def test_logs_too_long_for_the_boiler_are_not_counted_on() -> None:
    """They have to be sawn first."""
    plan = burning_order((stack("metre", log_length_cm=100.0),), WINTER, longest_log_cm=55.0)
    assert sum(plan.short_kwh) == pytest.approx(4000.0)
    assert plan.steps[0].reasons == ("too_long",)


def test_wood_above_the_wet_limit_is_never_burnt() -> None:
    """Not even when there is nothing else."""
    plan = burning_order((stack("green", moisture=0.40),), WINTER)
    assert plan.steps[0].total_kwh == 0.0


def test_damp_wood_below_the_limit_is_burnt_before_the_house_goes_cold() -> None:
    """And the heat from it is named."""
    plan = burning_order((stack("damp", moisture=0.26),), WINTER)
    assert plan.wet_kwh == pytest.approx(4000.0)
    assert sum(plan.short_kwh) == pytest.approx(0.0)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.floats(0.0, 5000.0), st.floats(0.14, 0.45), st.floats(0.0, 2000.0), st.floats(40.0, 120.0)
        ),
        max_size=6,
    )
)
def test_no_stack_gives_more_than_it_has_and_every_want_is_met_or_named(
    told: list[tuple[float, float, float, float]],
) -> None:
    """Heat is neither made nor lost."""
    stacks = tuple(
        stack(f"s{k}", heat=heat, moisture=moisture, promised_kwh=promised, heat_per_fill_kwh=fill)
        for k, (heat, moisture, promised, fill) in enumerate(told)
    )
    plan = burning_order(stacks, WINTER)
    for step in plan.steps:
        of = next(s for s in stacks if s.name == step.name)
        assert step.total_kwh <= max(of.heat_kwh - of.promised_kwh, 0.0) + 1e-6
    for p, period in enumerate(WINTER):
        met = sum(step.burnt_kwh[p] for step in plan.steps) + plan.short_kwh[p]
        assert met == pytest.approx(period.wanted_kwh, abs=1e-6)


def test_the_order_needs_a_winter_and_a_moisture_for_each_period() -> None:
    """Else the owner is told what is missing."""
    with pytest.raises(OutOfRange, match="at least one period"):
        burning_order((stack("a"),), ())
    with pytest.raises(OutOfRange, match="moisture of a"):
        burning_order((BurnStack(name="a", wood="ash", heat_kwh=1.0, moisture=(0.2,)),), WINTER)
