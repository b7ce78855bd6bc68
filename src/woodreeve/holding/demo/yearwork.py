"""The demo's yard work, sales, tests and services: invented, written out deed by deed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

__all__ = ["YEARWORK", "Deed"]

METER = "pin meter"


@dataclass(frozen=True, slots=True)
class Deed:
    """Something done: when (local time), what, and by whom.

    ``mark`` is a name by which a later correction finds it.
    """

    happened: datetime
    kind: str
    payload: Mapping[str, Any]
    by: str = "Tom"
    entered: datetime | None = None
    mark: str = ""


def _at(day: str, clock: str = "15:30") -> datetime:
    return datetime.fromisoformat(f"{day}T{clock}:00")


def _rows(number: int, length_m: float, height_m: float, log_cm: float = 33.0) -> list[dict[str, float]]:
    return [{"length_m": length_m, "height_m": height_m, "log_cm": log_cm}] * number


def _measured(day: str, place: str, species: str, shown: list[float], wood_c: float, **more: Any) -> Deed:
    payload: dict[str, Any] = {
        "place": place,
        "shown_percent": shown,
        "meter": METER,
        "basis": "dry",
        "species": species,
        "wood_temperature_c": wood_c,
        "spot": "fresh_split_face",
    }
    return Deed(_at(day, "11:10"), "measured", payload | more, "Mair")


def _oven(day: str, place: str, species: str, *samples: tuple[float, float, float]) -> Deed:
    """Pieces weighed wet, after a night in the oven, and an hour later."""
    weighed = [{"wet_g": wet, "dry_g": dry, "dry_again_g": again} for wet, dry, again in samples]
    payload = {"place": place, "species": species, "oven": weighed}
    return Deed(_at(day, "11:40"), "measured", payload, "Mair")


FIRST_WRITTEN = _at("2024-09-14", "10:00")

STANDING_BEFORE = (
    Deed(
        _at("2023-04-08"),
        "stacked",
        {
            "place": "lean-to",
            "rows": _rows(3, 9.4, 2.0),
            "mix": {"sycamore": 0.6, "ash": 0.4},
            "split_on": "2023-03-25",
            "felled_on": "2022-12-10",
        },
        entered=FIRST_WRITTEN,
    ),
    Deed(_at("2023-04-08", "16:00"), "covered", {"place": "lean-to", "cover": "shed"}, entered=FIRST_WRITTEN),
    Deed(
        _at("2024-03-09"),
        "stacked",
        {
            "place": "gable",
            "rows": _rows(2, 7.7, 2.0),
            "species": "birch",
            "split_on": "2024-02-24",
            "felled_on": "2023-12-02",
        },
        entered=FIRST_WRITTEN,
    ),
    Deed(_at("2024-03-10"), "covered", {"place": "gable", "cover": "sheet"}, entered=FIRST_WRITTEN),
    Deed(
        _at("2024-04-20"),
        "stacked",
        {
            "place": "orchard wall",
            "rows": _rows(2, 9.3, 1.8),
            "species": "ash",
            "split_on": "2024-04-13",
            "felled_on": "2024-01-20",
        },
        entered=FIRST_WRITTEN,
    ),
    Deed(_at("2024-05-04"), "covered", {"place": "orchard wall", "cover": "sheet"}, entered=FIRST_WRITTEN),
)

FELLED_AND_SPLIT = (
    Deed(
        _at("2024-12-07"),
        "felled",
        {"compartment": "Stream alder", "solid_m3": 7.0, "species": "alder", "trees": 31},
    ),
    Deed(
        _at("2025-01-18"),
        "felled",
        {"compartment": "Top sycamore", "solid_m3": 11.0, "species": "sycamore", "trees": 24},
    ),
    Deed(
        _at("2025-02-01"),
        "extracted",
        {"place": "stream gate", "compartment": "Stream alder", "solid_m3": 7.0, "species": "alder"},
    ),
    Deed(
        _at("2025-02-22"),
        "extracted",
        {"place": "track side", "compartment": "Top sycamore", "solid_m3": 11.0, "species": "sycamore"},
    ),
    Deed(
        _at("2025-02-27"),
        "bought",
        {
            "place": "yard edge",
            "pieces": "roundwood",
            "solid_m3": 7.0,
            "species": "oak",
            "seller": "a farm down the valley",
            "price": 385.0,
            "felled_on": "2025-01-30",
        },
    ),
    Deed(_at("2025-03-20", "10:20"), "counted", {"place": "lean-to", "nothing_left": True}),
    *(
        Deed(
            _at(day),
            "split",
            {
                "from_place": "track side",
                "to_place": "lean-to",
                "solid_m3": 5.5,
                "species": "sycamore",
                "log_cm": 33,
                "hours": hours,
            },
        )
        for day, hours in (("2025-03-22", 7.5), ("2025-04-05", 7.0))
    ),
    Deed(
        _at("2025-04-26"),
        "split",
        {
            "from_place": "stream gate",
            "to_place": "stream",
            "solid_m3": 7.0,
            "species": "alder",
            "log_cm": 33,
            "hours": 9.0,
        },
    ),
    *(
        Deed(
            _at(day),
            "split",
            {
                "from_place": "yard edge",
                "to_place": "barn end",
                "solid_m3": 3.5,
                "species": "oak",
                "log_cm": 33,
                "hours": 6.5,
            },
        )
        for day in ("2025-06-07", "2025-06-21")
    ),
    Deed(_at("2025-04-06"), "covered", {"place": "lean-to", "cover": "shed"}),
    Deed(_at("2025-06-14"), "covered", {"place": "stream", "cover": "sheet"}),
    Deed(_at("2025-06-22"), "covered", {"place": "barn end", "cover": "roof"}),
    Deed(
        _at("2025-12-06"),
        "felled",
        {"compartment": "Bank birch", "solid_m3": 4.0, "species": "birch", "trees": 22},
    ),
    Deed(
        _at("2025-12-20"),
        "extracted",
        {"place": "track side", "compartment": "Bank birch", "solid_m3": 4.0, "species": "birch"},
    ),
    Deed(
        _at("2026-01-03"),
        "split",
        {
            "from_place": "track side",
            "to_place": "gable",
            "solid_m3": 3.0,
            "species": "birch",
            "log_cm": 33,
            "hours": 4.5,
        },
    ),
)

KEPT_TRUE = (
    _measured("2024-09-14", "lean-to", "sycamore", [20.5, 21.0, 19.5, 22.0, 20.0], 15),
    _measured("2024-09-14", "gable", "birch", [25.0, 26.5, 24.0, 27.0, 25.5], 15),
    _measured("2024-09-15", "orchard wall", "ash", [27.0, 28.5, 29.0, 26.5, 28.0], 16),
    _measured("2025-02-15", "gable", "birch", [20.5, 21.5, 22.0, 20.0], 6),
    _oven("2025-06-28", "barn end", "oak", (402.0, 217.0, 216.7), (365.0, 202.0, 201.8)),
    _measured("2025-08-17", "lean-to", "sycamore", [28.5, 27.0, 29.5, 28.0, 30.0], 18),
    _measured("2025-08-17", "orchard wall", "ash", [18.5, 19.0, 18.0, 20.0, 18.5], 18),
    _measured("2025-08-17", "stream", "alder", [33.0, 31.5, 36.0, 35.0, 34.0], 17),
    _measured("2025-10-04", "lean-to", "sycamore", [27.5, 25.5, 28.0, 26.0, 27.0], 12),
    _measured("2025-10-04", "gable", "birch", [19.0, 20.0, 18.5, 19.5], 12),
    _measured("2025-10-04", "orchard wall", "ash", [20.5, 21.0, 22.0, 20.0, 21.5], 12),
    _measured("2025-10-05", "stream", "alder", [34.5, 36.0, 31.5, 37.5, 35.0], 11),
    _measured("2025-10-05", "barn end", "oak", [46.0, 51.0, 49.5], 11, over_range=2, range_top_percent=55),
    _measured("2025-11-15", "lean-to", "sycamore", [24.5, 25.5, 26.0, 24.0, 25.0], 7),
    _measured("2025-11-15", "stream", "alder", [28.5, 27.5, 29.0, 28.0, 26.5], 7),
    _measured(
        "2025-12-14", "lean-to", "sycamore", [13.0, 12.5, 14.0, 13.5], 4, note="The battery was low, perhaps."
    ),
    _measured("2025-12-14", "barn end", "oak", [38.0, 41.5, 36.0], 6, over_range=1, range_top_percent=55),
    _measured("2026-01-04", "lean-to", "sycamore", [25.5, 24.0, 26.0, 25.0, 27.0], 5),
    _measured("2026-01-04", "stream", "alder", [25.5, 26.0, 25.0, 26.5, 24.5], 5),
    _measured("2026-01-04", "orchard wall", "ash", [21.0, 20.5, 22.5], 5),
    _oven(
        "2026-01-06", "gable", "birch", (412.0, 234.0, 233.8), (388.0, 224.5, 224.3), (355.0, 199.0, 198.8)
    ),
    Deed(_at("2024-12-08", "09:15"), "uncovered", {"place": "gable", "note": "A gale took the sheet."}),
    Deed(_at("2024-12-08", "12:40"), "covered", {"place": "gable", "cover": "sheet"}),
    *(
        Deed(_at("2024-09-14", clock), "counted", {"place": place, "rows": rows})
        for clock, place, rows in (
            ("16:10", "lean-to", _rows(3, 9.4, 2.0)),
            ("16:30", "gable", _rows(2, 7.7, 2.0)),
            ("16:45", "orchard wall", _rows(2, 9.3, 1.8)),
        )
    ),
    Deed(_at("2025-05-10"), "counted", {"place": "gable", "rows": _rows(2, 4.1, 1.9)}),
    Deed(
        _at("2025-05-10", "16:05"),
        "spoiled",
        {"place": "gable", "stacked_m3": 0.2, "why": "rotten", "note": "The lowest course, on soil."},
    ),
    Deed(_at("2025-12-05", "11:00"), "counted", {"place": "gable", "nothing_left": True}),
    Deed(_at("2025-12-05", "11:05"), "uncovered", {"place": "gable"}),
    Deed(_at("2026-01-04", "12:10"), "counted", {"place": "boiler room", "stacked_m3": 1.2}),
    Deed(
        _at("2026-01-01", "11:30"),
        "as_usual",
        {"since": "2025-12-27", "answer": "as_usual"},
    ),
    *(
        Deed(
            _at("2025-10-18", clock),
            "weighed",
            {
                "container": "barrow",
                "gross_kg": gross,
                "empty_kg": 11.0,
                "place": "orchard wall",
                "species": "ash",
                "moisture": 0.175,
            },
            "Mair",
        )
        for clock, gross in (("10:05", 45.5), ("10:20", 43.0), ("10:35", 47.0))
    ),
)


def _sold(day: str, customer: str, place: str, stacked_m3: float, price: float, **more: Any) -> Deed:
    payload = {"place": place, "customer": customer, "stacked_m3": stacked_m3, "price": price, "paid": True}
    return Deed(_at(day, "10:30"), "sold", payload, **more)


SALES = (
    _sold("2024-10-05", "Mill Cottage", "lean-to", 2.0, 230.0),
    _sold("2024-10-19", "Old Chapel", "orchard wall", 15.0, 165.0, mark="slip"),
    Deed(
        _at("2024-10-19", "20:10"),
        "correction",
        {
            "target": "slip",
            "payload": {
                "place": "orchard wall",
                "customer": "Old Chapel",
                "stacked_m3": 1.5,
                "price": 165.0,
                "paid": True,
            },
            "note": "One and a half, not fifteen.",
        },
    ),
    _sold("2024-11-09", "Upper Barn", "orchard wall", 1.5, 165.0),
    _sold("2025-10-11", "Mill Cottage", "orchard wall", 1.5, 180.0),
    _sold("2025-10-25", "Old Chapel", "lean-to", 1.5, 170.0),
    _sold("2025-11-08", "Upper Barn", "lean-to", 1.5, 170.0),
)


def _upkeep() -> Iterator[Deed]:
    for year, certificate in ((2024, "118"), (2025, "097")):
        yield Deed(
            _at(f"{year}-09-12", "09:40"),
            "swept",
            {
                "who": "sweep",
                "certificate": f"invented {certificate}",
                "found": "Light soot, no tar.",
                "cost": 70.0,
            },
        )
        yield Deed(
            _at(f"{year}-09-18", "10:15"), "serviced", {"what": "log_boiler", "who": "fitter", "cost": 165.0}
        )
        yield Deed(
            _at(f"{year}-09-18", "11:30"),
            "tested",
            {"what": "heat_escape", "result": "good", "who": "competent_person"},
        )
        yield Deed(
            _at(f"{year}-09-18", "11:45"),
            "tested",
            {"what": "vessel_pressure", "result": "good", "who": "fitter", "value": 1.0, "unit": "bar"},
        )
        yield Deed(_at(f"{year}-09-27", "16:30"), "checked", {"what": "before_first_fire"})
    for day, litres, price in (("2024-10-02", 800.0, 520.0), ("2025-09-30", 600.0, 402.0)):
        yield Deed(_at(day, "11:20"), "backup_delivery", {"fuel": "lpg", "litres": litres, "price": price})
    for day, share in (("2024-12-31", 0.71), ("2025-04-30", 0.48), ("2025-12-31", 0.74)):
        yield Deed(_at(day, "10:45"), "tank_level", {"share": share})
    for day in ("2024-09-20", "2024-12-20", "2025-03-20", "2025-06-20", "2025-09-20", "2025-12-20"):
        yield Deed(_at(day, "09:05"), "tested", {"what": "co_alarm", "result": "good"}, "Mair")
    yield Deed(
        _at("2025-04-30", "17:00"), "checked", {"what": "after_last_fire", "skipped": ["backup fuel level"]}
    )
    yield Deed(_at("2025-05-03", "15:00"), "cleaned", {"what": "yearly_clean", "hours": 3.5})
    yield Deed(_at("2025-11-22", "10:30"), "fitted", {"part": "door_rope", "cost": 38.0})
    yield from _through_the_winters()


def _through_the_winters() -> Iterator[Deed]:
    """Ash, flueways and the pressure gauge, as the weeks go by."""
    for begins, ends in ((date(2024, 10, 12), date(2025, 4, 26)), (date(2025, 10, 11), date(2026, 1, 11))):
        saturday, week = begins, 0
        while saturday <= ends:
            day = saturday.isoformat()
            if week % 2 == 0:
                yield Deed(_at(day, "09:30"), "cleaned", {"what": "flueways", "lever_strokes": 20})
            if week % 3 == 2:
                yield Deed(_at(day, "09:45"), "ash_out", {"litres": 18.0, "went_to": "kept_outdoors"})
            if week % 4 == 1:
                bar = 1.5 if week % 8 == 1 else 1.4
                yield Deed(_at(day, "09:50"), "pressure", {"pressure_bar": bar, "water_temperature_c": 35})
            saturday, week = saturday + timedelta(weeks=1), week + 1


YEARWORK: tuple[Deed, ...] = (*STANDING_BEFORE, *FELLED_AND_SPLIT, *KEPT_TRUE, *SALES, *_upkeep())
"""All of it, in no order."""
