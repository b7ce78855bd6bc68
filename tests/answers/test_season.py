"""The answer ``season``: a year of plant and house, and rules compared."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest

from tests.answers.demo import demo
from woodreeve.answers import season
from woodreeve.errors import Refused, Unknown
from woodreeve.holding.toml import set_field
from woodreeve.records.asking import Asking
from woodreeve.wording.sentences import sentence
from woodreeve.workings.load import load_all
from woodreeve.workings.why import figures_of, open_figure

DAYS = 40


@pytest.fixture(scope="module")
def january() -> season.SeasonAnswer:
    """Forty days from New Year at the demo's place."""
    return season.answer(demo(), begins=date(2026, 1, 1), days=DAYS)


def changed(path: str, value: object) -> Asking:
    """The demo's question with one field of its holding changed."""
    asking = demo()
    return Asking(set_field(asking.document, path, value), asking.moment, entries=asking.entries)


def test_months_add_up_to_the_whole(january: season.SeasonAnswer) -> None:
    """Fires, wood and heat of the months are those of the span."""
    for name in ("fires", "wood_kg", "water_kwh", "backup_kwh", "rooms_kwh", "taps_kwh"):
        months = sum(getattr(line, name).value for line in january.months)
        assert months == pytest.approx(getattr(january.total, name).value, rel=1e-9, abs=1e-9), name


def test_a_span_begins_and_ends_where_it_was_asked(january: season.SeasonAnswer) -> None:
    """Forty days from New Year reach into February, and every course has forty days."""
    assert january.begins == date(2026, 1, 1)
    assert january.ends == date(2026, 1, 1) + timedelta(days=DAYS - 1)
    assert [line.month for line in january.months] == [date(2026, 1, 1), date(2026, 2, 1)]
    for course in (january.outdoor_c, january.downstairs_c, *january.store_layers_c):
        assert len(course.values) == DAYS


def test_heat_goes_where_heat_can_go(january: season.SeasonAnswer) -> None:
    """What wood and backup gave went to rooms, taps and losses, but for what store and boiler kept."""
    total = january.total
    given = total.water_kwh.value + total.backup_kwh.value
    taken = total.rooms_kwh.value + total.taps_kwh.value + total.store_loss_kwh.value
    assert taken <= given + 60.0
    assert taken >= 0.85 * given


def test_the_store_lies_the_right_way_up_and_below_its_limit(january: season.SeasonAnswer) -> None:
    """Means of higher layers are never cooler, and no layer is hotter than the boiler makes water."""
    layers = january.store_layers_c
    for lower, upper in pairwise(layers):
        assert all(low <= up + 0.011 for low, up in zip(lower.values, upper.values, strict=True))
    assert january.hottest_store_c.value < 95.0


def test_a_span_over_new_year_runs_through() -> None:
    """December and January follow each other."""
    answer = season.answer(demo(), begins=date(2025, 12, 20), days=20)
    assert [line.month for line in answer.months] == [date(2025, 12, 20), date(2026, 1, 1)]
    assert answer.total.outdoor_c.value == pytest.approx(
        sum(answer.outdoor_c.values) / len(answer.outdoor_c.values), abs=0.05
    )


def test_a_larger_store_takes_more_of_a_fire() -> None:
    """With twice the store the same rule gives no less heat from wood."""
    small = season.answer(demo(), begins=date(2026, 1, 1), days=DAYS)
    large = season.answer(changed("plant.store.litres", 3000.0), begins=date(2026, 1, 1), days=DAYS)
    assert large.total.water_kwh.value > small.total.water_kwh.value


def test_the_tuned_rule_never_costs_more_than_the_common_one() -> None:
    """The common rule is among those tried."""
    answer = season.answer(demo(), "tuned", begins=date(2026, 1, 1), days=10, trials=16)
    assert answer.rule.tried == 16
    assert answer.rule.worth_kwh is not None
    assert answer.rule.evening_worth_kwh is not None
    assert answer.rule.worth_kwh.value <= answer.rule.evening_worth_kwh.value


def test_progress_is_told_and_can_stop_the_work() -> None:
    """The share done rises to one; where nobody wants it any more the work stops in one sentence."""
    told: list[float] = []

    def listen(share: float) -> bool:
        told.append(share)
        return True

    season.answer(demo(), "tuned", begins=date(2026, 1, 1), days=5, trials=16, progress=listen)
    assert told == sorted(told)
    assert told[-1] == 1.0
    with pytest.raises(Refused, match="stopped"):
        season.answer(demo(), "tuned", days=5, trials=16, progress=lambda _: False)


def test_what_is_missing_is_told() -> None:
    """Without fuel space nobody can say how much wood a fire is."""
    with pytest.raises(Unknown, match="fuel space"):
        season.answer(changed("plant.boiler.fuel_space_litres", None), days=5)


def test_a_plant_that_is_not_modelled_is_refused() -> None:
    """A fresh-water station is never silently run as a plain tank."""
    with pytest.raises(Refused, match="not modelled"):
        season.answer(changed("plant.store.kind", "fresh_water_station"), days=5)


def test_the_sentence_says_fires_wood_and_backup(january: season.SeasonAnswer) -> None:
    """The first sentence has a number for each."""
    said = sentence(january.sentence)
    assert "fires" in said
    assert "backup gives" in said
    assert "{" not in said
    assert re.search(r"fires and [\d,.]+ k?[gt] of wood", said), said


def test_every_figure_opens_to_a_source_or_to_what_the_owner_gave() -> None:
    """The run is one node, whose inputs are the holding and the weather."""
    load_all()
    with demo().traced() as fresh:
        answer = season.answer(fresh, begins=date(2026, 1, 1), days=10)
    for path, _ in figures_of(answer):
        opened = open_figure(answer, path)
        assert opened.sources, path
        assert not opened.loose, (path, opened.loose)


def test_the_same_question_gives_the_same_answer(january: season.SeasonAnswer) -> None:
    """To the last bit, traced or not."""
    again = season.answer(demo(), begins=date(2026, 1, 1), days=DAYS)
    assert replace(again, moment=january.moment) == january
