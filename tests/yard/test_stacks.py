"""How wet a stack is as far as anybody knows, and how much heat that is."""

import pytest

from tests.yard.stacks import MEASURED_ON, stack
from woodreeve.wood.heat import energy_per_stacked_m3
from woodreeve.wood.species import green_moisture
from woodreeve.yard.fields import WoodLimits
from woodreeve.yard.stacks import (
    MoistureNow,
    dryness,
    heat_of_dry_wood,
    moisture_of_stack,
    spoiling_share,
    stack_heat,
)

LIMITS = WoodLimits()


def test_a_measured_stack_has_its_reading_give_or_take_two_points() -> None:
    """A measured stack has its reading, give or take two points."""
    now = moisture_of_stack(stack("gable", moisture=0.21))
    assert (now.moisture, now.known_by, now.measured_on) == (0.21, "measured", MEASURED_ON)
    assert (now.low, now.high) == (pytest.approx(0.19), pytest.approx(0.23))


def test_a_stack_nobody_measured_is_anywhere_between_dry_and_green() -> None:
    """A stack nobody measured is anywhere between dry and green, and says so."""
    now = moisture_of_stack(stack("gable", "alder"))
    assert (now.known_by, now.low, now.high) == ("not_known", 0.15, green_moisture("alder"))
    assert now.low < now.moisture < now.high
    assert dryness(now, LIMITS) == "not_known"


def test_wood_too_wet_for_the_meter_may_be_anything_up_to_green() -> None:
    """Wood too wet for the meter may be anything up to green, and never counts as dry enough."""
    now = moisture_of_stack(stack("barn end", "oak", moisture=0.23, at_least=True))
    assert (now.known_by, now.low, now.high) == ("above_meter", 0.23, green_moisture("oak"))
    assert dryness(now, LIMITS) == "wet"
    nearly = MoistureNow(moisture=0.24, low=0.23, high=0.25, known_by="above_meter")
    assert dryness(nearly, LIMITS) == "damp"


def test_what_the_drying_model_reckons_comes_before_the_last_reading() -> None:
    """What the drying model reckons comes before the last reading."""
    reckoned = MoistureNow(moisture=0.18, low=0.16, high=0.2, known_by="reckoned")
    assert moisture_of_stack(stack("gable", moisture=0.3), reckoned) is reckoned


@pytest.mark.parametrize(
    ("moisture", "verdict"),
    [
        (0.10, "ideal"),
        (0.20, "ideal"),
        (0.2001, "fine"),
        (0.25, "fine"),
        (0.26, "damp"),
        (0.30, "damp"),
        (0.31, "wet"),
    ],
)
def test_the_limits_belong_to_the_better_side(moisture: float, verdict: str) -> None:
    """Wood at a limit is still on its better side."""
    assert dryness(moisture_of_stack(stack("gable", moisture=moisture)), LIMITS) == verdict


def test_the_owner_may_set_other_limits() -> None:
    """The owner may set other limits."""
    strict = WoodLimits(ideal=0.15, fine=0.18, wet=0.2)
    assert dryness(moisture_of_stack(stack("gable", moisture=0.21)), strict) == "wet"


def test_a_stack_holds_the_heat_of_its_stacked_metres() -> None:
    """Ten stacked metres hold ten times the heat of one, whichever way it is reckoned."""
    held = stack_heat(stack("gable", "ash", 10.0, 0.2), LIMITS)
    assert held.heat_kwh == pytest.approx(10.0 * energy_per_stacked_m3("ash", 0.2, "split_33cm"), rel=1e-9)
    assert held.low_kwh < held.heat_kwh < held.high_kwh
    assert held.mass_kg == pytest.approx(held.dry_kg / 0.8)


def test_drying_adds_heat_to_the_same_wood() -> None:
    """The same dry wood holds more heat the drier it is burnt."""
    wet, dry = (heat_of_dry_wood(1000.0, {"ash": 1.0}, moisture) for moisture in (0.4, 0.2))
    assert dry > wet
    # each kilogram of water less saves 2.443 MJ; at 40 % there are 667 kg of it, at 20 % 250
    assert (dry - wet) * 3.6 == pytest.approx(2.443 * (1000 * 0.4 / 0.6 - 250.0), rel=1e-9)


def test_birch_alder_willow_and_poplar_spoil_first() -> None:
    """Birch, alder, willow and poplar spoil first."""
    assert spoiling_share({"silver_birch": 0.4, "oak": 0.6}) == pytest.approx(0.4)
    assert spoiling_share({"alder": 0.5, "goat_willow": 0.3, "aspen": 0.2}) == pytest.approx(1.0)
    assert spoiling_share({"ash": 1.0}) == 0.0


def test_wood_by_the_boiler_is_as_wet_as_where_it_came_from() -> None:
    """Nobody measures by the boiler: what was measured where the wood came from holds."""
    stock = stack("boiler room", stage="boiler_room", carried_moisture=0.19)
    assert moisture_of_stack(stock).moisture == 0.19
    assert moisture_of_stack(stock).known_by == "measured"
    assert moisture_of_stack(stack("boiler room", stage="boiler_room")).known_by == "not_known"


def test_a_stack_does_not_stay_as_wet_as_the_roundwood_it_was_split_from() -> None:
    """What was measured at the roadside says nothing of the stack months later."""
    assert moisture_of_stack(stack("gable", carried_moisture=0.45)).known_by == "not_known"
