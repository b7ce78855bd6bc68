"""The answer ``tonight`` as text."""

from __future__ import annotations

from collections.abc import Mapping

from woodreeve.answers.tonight import FireLine, TonightAnswer, Until, WayLine
from woodreeve.cli.output import console
from woodreeve.cli.tables import figures_table, rows_table
from woodreeve.wording.numbers import shown
from woodreeve.wording.sentences import sentence
from woodreeve.wording.tonight import (
    carried_words,
    fill_words,
    hours_words,
    money_words,
    term_words,
    way_words,
    weekday_words,
)
from woodreeve.wording.translate import _

__all__ = ["print_tonight"]


def print_tonight(answer: TonightAnswer, measures: Mapping[str, str]) -> None:
    """Print the answer ``tonight``: a gap in safety first, the sentence, plan, ways and what it rests on."""
    out = console()
    if answer.gap:
        out.print(sentence(answer.gap, measures))
        out.print()
    out.print(sentence(answer.sentence, measures))
    if answer.plan is None or answer.store is None:
        out.print(answer.missing)
        return
    out.print()
    heads = [_("When"), _("What"), _("Weight"), _("How much"), _("Stack")]
    if answer.plan.fires:
        out.print(rows_table(heads, [_fire(one, answer, measures) for one in answer.plan.fires], folded=(3,)))
        out.print()
    out.print(
        rows_table(
            [_("Way"), _("Next fire"), _("More"), _("Backup"), _("Lasts until"), _("Cold case")],
            [_way(one, measures) for one in (answer.plan, *answer.ways)],
            numbers=(2, 3),
            folded=(0,),
        )
    )
    out.print()
    if answer.reasons and answer.against:
        out.print(
            _("Against “{other}” the plan saves most on: {what}.").format(
                other=way_words(answer.against), what=term_words(answer.reasons[0])
            )
        )
    out.print(
        figures_table(
            [
                (_("store now, on the mean"), answer.store.mean_c),
                (_("heat in it for the rooms"), answer.store.usable_kwh),
                (_("room in it"), answer.store.room_kwh),
                (_("a full load gives"), answer.store.load_kwh),
                (_("lowest with the plan"), answer.lowest_c),
                (_("wettest wood that is planned"), answer.wettest),
            ],
            measures,
        )
    )
    out.print(_rests_on(answer))
    out.print(
        _("Advice only. Do not light when water is missing, after a chimney fire or a carbon monoxide alarm.")
    )


def _until(value: Until | None) -> str:
    if value is None:
        return _("over five days")
    return _("used up now") if value.hours.value <= 0.0 else weekday_words(value.at)


def _fire(fire: FireLine, answer: TonightAnswer, measures: Mapping[str, str]) -> list[str]:
    parts = []
    if fire.fills:
        parts.append(fill_words(fire.fills, answer.fill))
    if fire.carried:
        parts.append(carried_words(fire.carried, answer.carried_in, answer.carried_in_many))
    what = _("light") if fire.kind == "light" else _("lay on embers")
    return [weekday_words(fire.when.at), what, str(shown(fire.kg, measures)), ", ".join(parts), fire.stack]


def _way(way: WayLine, measures: Mapping[str, str]) -> list[str]:
    return [
        way_words(way.name),
        weekday_words(way.fires[0].when.at) if way.fires else _("none"),
        money_words(way.more, signed=True),
        str(shown(way.backup_kwh, measures)),
        _until(way.lasts),
        _until(way.lasts_cold),
    ]


def _rests_on(answer: TonightAnswer) -> str:
    store, weather = answer.store, answer.weather
    assert store is not None
    assert weather is not None
    known = {
        "gauge": _("The store was last read {age} ago."),
        "fires": _("The store is simulated from the diary's fires, the last {age} ago."),
        "nothing": _("The store is a guess: the diary tells of no fire and no reading in two weeks."),
    }[store.rests_on].format(age=hours_words(store.age_h))
    if weather.rests_on == "forecast":
        told = _("Weather: forecast, {age} old. {thanks}").format(
            age=hours_words(weather.age_h), thanks=weather.attribution
        )
    else:
        told = _("Weather: what is usual at this time of year.")
    return f"{known} {told}"
