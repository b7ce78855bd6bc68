"""Drying: what must hold for every stack, whatever the figures."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange, Unknown, UnknownName
from woodreeve.units import Floats
from woodreeve.wood.moisture import equilibrium_moisture, to_wet_basis
from woodreeve.wood.seasoning import day_of_drying, drying_course, drying_days
from woodreeve.wood.seasoning_fit import COVERS, Cover, fitted
from woodreeve.wood.seasoning_pace import drying_pace, drying_size_factor, rain_reaching
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack, start_moisture
from woodreeve.wood.seasoning_weather import DryingWeather, trial_climate

START = date(2025, 4, 1)


def steady(days: int, air_c: float = 15.0, humidity: float = 0.7, rain: float = 60.0) -> DryingWeather:
    """The same day again and again."""
    return DryingWeather(
        start=START,
        air_c=np.full(days, air_c),
        relative_humidity=np.full(days, humidity),
        rain_mm_month=np.full(days, rain),
    )


def stack(cover: Cover = "roof", **given: object) -> DryingStack:
    """A stack of split beech."""
    told = {"name": "a", "wood": "beech", "start": START, "covers": (CoverSpell(since=START, cover=cover),)}
    return DryingStack(**{**told, **given})  # type: ignore[arg-type]  # fields are checked by their own types


def course(cover: Cover = "roof", days: int = 365, **given: object) -> Floats:
    """Its course in the weather of south England."""
    return drying_course(stack(cover, **given), trial_climate("south England", start=START, days=days))


moistures = st.floats(0.0, 2.3)


@given(moistures, moistures, st.floats(0.0, 5.0), st.floats(0.05, 1.0))
def test_a_day_moves_towards_equilibrium_and_never_past_it(
    u: float, ue: float, rate: float, slow: float
) -> None:
    """Neither drying nor wetting overshoots."""
    after = day_of_drying(u, ue, rate, slow)
    assert min(u, ue) - 1e-12 <= after <= max(u, ue) + 1e-12


@given(st.floats(0.2, 2.0), st.floats(0.0, 0.15), st.floats(0.001, 0.2), st.floats(0.0, 1.0))
def test_a_faster_day_leaves_the_wood_drier(u: float, ue: float, rate: float, more: float) -> None:
    """The greater the rate, the lower the moisture."""
    assert day_of_drying(u, ue, rate + more, 0.5) <= day_of_drying(u, ue, rate, 0.5) + 1e-12


def test_the_pace_falls_as_wood_nears_its_equilibrium() -> None:
    """The same rate takes a smaller share off nearly dry wood; without the fall the share is the same."""

    def share(u: float, slow: float) -> float:
        return (u - day_of_drying(u, 0.15, 0.02, slow)) / (u - 0.15)

    assert share(0.18, 0.4) < 0.7 * share(0.60, 0.4)
    assert share(0.18, 1.0) == pytest.approx(share(0.60, 1.0))


@pytest.mark.parametrize(
    ("air_c", "humidity"), [(20.0, 0.65), (15.6, 0.70), (10.0, 0.80), (26.7, 0.50), (4.4, 0.85)]
)
def test_wood_under_a_roof_settles_where_the_wood_handbook_says(air_c: float, humidity: float) -> None:
    """Given time, a covered stack comes to the equilibrium of the air and stays there."""
    path = drying_course(stack(), steady(4000, air_c, humidity))
    assert path[-1] == pytest.approx(to_wet_basis(equilibrium_moisture(air_c, humidity)), abs=0.002)


def test_dry_wood_takes_water_up_from_damp_air() -> None:
    """A stack drier than its equilibrium gets wetter."""
    path = drying_course(stack(start_moisture=0.08), steady(200, 5.0, 0.9))
    assert path[-1] > path[0] > 0.08


@given(st.floats(30.0, 300.0), st.floats(1.0, 200.0), st.floats(200.0, 2000.0), st.floats(1.0, 2000.0))
def test_thinner_and_shorter_pieces_dry_faster(d: float, more_d: float, length: float, more_l: float) -> None:
    """Split small, cut short."""
    assert drying_size_factor(d, length) >= drying_size_factor(d + more_d, length)
    assert drying_size_factor(d, length) >= drying_size_factor(d, length + more_l)


def test_the_usual_split_log_is_the_measure_of_all_sizes() -> None:
    """Its size factor is one, whatever the exponent."""
    for exponent in (0.5, 1.0, 2.0):
        assert drying_size_factor(100.0, 330.0, thickness_exponent=exponent) == pytest.approx(1.0)


def test_kind_bark_and_place_change_the_pace_in_the_known_direction() -> None:
    """Oak is slow, conifers are quick, bark and blocks hold back, sun on top helps."""
    beech = drying_pace("beech")
    assert drying_pace("pedunculate_oak") < beech < drying_pace("norway_spruce")
    assert drying_pace("beech", unsplit_bark=True) < beech
    assert drying_pace("beech", place="block_or_pile") < beech < drying_pace("beech", place="sunny_top")


def test_a_mixture_dries_between_its_parts() -> None:
    """Half oak and half beech lies between oak and beech."""
    mixed = drying_pace({"beech": 0.5, "pedunculate_oak": 0.5})
    assert drying_pace("pedunculate_oak") < mixed < drying_pace("beech")


def test_only_covers_that_let_rain_through_do() -> None:
    """Uncovered all of it, part cover half, others none."""
    assert [rain_reaching(80.0, cover) for cover in COVERS] == [80.0, 40.0, 0.0, 0.0, 0.0, 0.0, 0.0]


def test_uncovered_wood_stays_wetter_than_covered() -> None:
    """Rain adds water and hinders drying."""
    assert (course("none")[60:] > course("roof")[60:]).all()


def test_airless_covers_dry_more_slowly_than_a_roof() -> None:
    """A wrapped sheet and a closed shed keep wind away."""
    for cover in ("wrapped_tarp", "closed_shed"):
        assert course(cover)[90] > course("roof")[90]


def test_a_cover_counts_from_the_day_it_came() -> None:
    """Before it the course is that of an uncovered stack, after it the two part."""
    later = START + timedelta(days=100)
    covered = drying_course(
        DryingStack(name="a", wood="beech", start=START, covers=(CoverSpell(since=later, cover="roof"),)),
        trial_climate("south England", start=START, days=365),
    )
    bare = course("none")
    np.testing.assert_array_equal(covered[:100], bare[:100])
    assert covered[200] < bare[200]


def test_a_stack_starts_as_its_species_is_when_green_unless_told() -> None:
    """The owner's figure goes before the table's."""
    assert start_moisture(stack(start_moisture=0.4)) == 0.4
    assert 0.3 < start_moisture(stack()) < 0.6


def test_winter_dries_little_and_spring_much() -> None:
    """From November to February a stack loses less than from April to July."""
    weather = trial_climate("south England", start=date(2025, 4, 1), days=400)
    spring = drying_course(stack(start_moisture=0.45), weather)
    autumn = drying_course(stack(start_moisture=0.45, start=date(2025, 11, 1), covers=()), weather)
    assert 0.45 - spring[90] > 2.0 * (0.45 - autumn[90])


@settings(max_examples=20)
@given(st.floats(-1.0, 1.0), st.floats(0.01, 1.0))
def test_a_stack_of_its_own_haste_is_drier_all_along(log_rate: float, more: float) -> None:
    """While it is wetter than its equilibrium, a higher log rate never leaves it wetter."""
    weather = steady(120)
    slow = drying_course(stack(), weather, log_rate=log_rate)
    fast = drying_course(stack(), weather, log_rate=log_rate + more)
    assert (fast <= slow + 1e-12).all()


def test_weather_that_begins_after_the_stack_is_refused() -> None:
    """Nobody knows what happened before."""
    late = DryingStack(name="a", wood="beech", start=START - timedelta(days=10))
    with pytest.raises(Unknown, match="2025-03-22"):
        drying_days(late, steady(30))


def test_covers_out_of_order_are_refused() -> None:
    """The owner is told which."""
    spells = (
        CoverSpell(since=START + timedelta(days=9), cover="roof"),
        CoverSpell(since=START, cover="none"),
    )
    with pytest.raises(OutOfRange, match="in the order of time"):
        stack(covers=spells)


def test_unknown_words_are_refused_with_a_hint() -> None:
    """A cover that nobody knows."""
    with pytest.raises(UnknownName, match="known are"):
        rain_reaching(10.0, "umbrella")  # type: ignore[arg-type]  # a wrong word on purpose


def test_the_figures_of_the_model_are_all_there() -> None:
    """The sheet written by the study gives every figure, each plausible."""
    figures = fitted()
    assert 0.01 < figures.rate < 0.05
    assert 0.0 < figures.slow_share < 1.0
    assert 0.2 <= figures.log_rate_sd <= 0.6
