"""The boiler room: air for the fire, no fan against the flue, wood at its distance, and the alarm."""

from __future__ import annotations

from typing import Annotated

from woodreeve.diary.payloads_plant import Fitted, Tested
from woodreeve.plant.checks.verdict import Check, Facts, Verdict, at_least, check, of_yes_no, unknown
from woodreeve.units import Ge, Gt, Le, Unit
from woodreeve.workings import figure, worked

__all__ = ["german_air_opening", "room_checks"]


@worked
def german_air_opening(
    output: Annotated[float, Unit("kW"), Gt(0.0), Le(500.0)],
) -> Annotated[float, Unit("cm2"), Ge(0.0)]:
    r"""Opening for the fire's air by the German rule on furnaces.

    Parameters
    ----------
    output : float
        Rated output of all boilers in the room, :math:`P`. [kW] Above 0, to 500.

    Returns
    -------
    float
        Free area. [cm2]

    Raises
    ------
    OutOfRange
        If the output lies outside its range.

    Notes
    -----
    .. math:: A = 150 + 2\,\max(0, P - 50)

    References
    ----------
    .. [1] Muster-Feuerungsverordnung (Germany), combustion air (from memory; the states' own rules hold).

    Examples
    --------
    >>> german_air_opening(25.0)
    150.0
    """
    return 150.0 + 2.0 * max(0.0, output - 50.0)


def room_checks(facts: Facts) -> list[Check]:
    """Check air, fan, distances, alarm and paper of the boiler room."""
    room = facts.plant.room
    found = [_air(facts)]
    for key, name, good in (
        ("room.extract_fan", "extract_fan", "no"),
        ("room.clearance", "clearance_kept", "yes"),
    ):
        told = getattr(room, name)
        if told is None:
            found.append(unknown(facts, key, f"plant.room.{name}"))
        else:
            found.append(check(facts, key, of_yes_no(told, good), yours=told))
    return [*found, _alarm(facts), _alarm_works(facts), _paper(facts)]


def _air(facts: Facts) -> Check:
    key, opening, output = "room.air", facts.plant.room.air_opening_cm2, facts.plant.boiler.output_kw
    if opening is None:
        return unknown(facts, key, "plant.room.air_opening_cm2")
    yours = figure(opening, "cm2", "holding: plant.room.air_opening_cm2", basis="free area")
    if facts.nation != "germany":
        return check(facts, key, "not_known", yours=yours)
    if output is None:
        return unknown(facts, key, "plant.boiler.output_kw")
    wanted = german_air_opening(output)
    return check(
        facts,
        key,
        at_least(opening, wanted, tight=0.0),
        yours=yours,
        wanted=figure(wanted, "cm2", german_air_opening, basis="free area"),
        meant="at_least",
    )


def _alarm(facts: Facts) -> Check:
    told = facts.plant.room.co_alarm
    if told is None:
        return unknown(facts, "room.co_alarm", "plant.room.co_alarm")
    return check(facts, "room.co_alarm", of_yes_no(told), yours=told)


def _alarm_works(facts: Facts) -> Check:
    key, room = "room.co_alarm_works", facts.plant.room
    if room.co_alarm == "no":
        return check(facts, key, "does_not_fit", yours="no")
    fitted = [
        one.happened.date()
        for one in facts.of("fitted")
        if isinstance(one.payload, Fitted) and one.payload.part == "co_alarm"
    ]
    tests = [
        one
        for one in facts.of("tested")
        if isinstance(one.payload, Tested) and one.payload.what == "co_alarm"
    ]
    last = max(
        [
            *(one.happened.date() for one in tests),
            *([room.co_alarm_tested_on] if room.co_alarm_tested_on else []),
        ],
        default=None,
    )
    if room.co_alarm_until is None and not fitted:
        return unknown(facts, key, "plant.room.co_alarm_until")
    if last is None:
        return unknown(facts, key, "plant.room.co_alarm_tested_on")
    worked_last = (
        not tests or not isinstance(tests[-1].payload, Tested) or tests[-1].payload.result != "not_good"
    )
    is_over = room.co_alarm_until is not None and room.co_alarm_until < facts.on and not fitted
    age = (facts.on - last).days
    verdict: Verdict = "does_not_fit" if is_over or not worked_last else "tight" if age > 45 else "fits"
    return check(facts, key, verdict, yours=room.co_alarm_until if is_over else last)


def _paper(facts: Facts) -> Check:
    told = facts.plant.installation_certificate
    if told is None:
        return unknown(facts, "room.certificate", "plant.installation_certificate")
    return check(facts, "room.certificate", "fits", yours=told)
