"""Aldermoor: one invented holding, its figures and its diary in step with each other."""

import hashlib
import json
from collections import Counter
from datetime import UTC, date, datetime, timedelta

from studies import demo_fires as study
from woodreeve.diary.entry import entry_from_json, entry_to_json
from woodreeve.diary.fold import fold
from woodreeve.diary.folded import Folded
from woodreeve.diary.kinds import read_payload
from woodreeve.firing.presence import attended_spans, may_tend
from woodreeve.holding.demo import DEMO_MOMENT, DEMO_NAME, demo_entries, demo_holding_text
from woodreeve.holding.demo.diary import UNLOGGED, ZONE, entries
from woodreeve.holding.demo.fires import demo_fires, fires_head
from woodreeve.holding.document import Holding
from woodreeve.holding.toml import load, problems
from woodreeve.house.demand import demand
from woodreeve.weather.typical import typical_year
from woodreeve.wood.heat import energy_per_kg
from woodreeve.yard.containers import container_sizes
from woodreeve.yard.stock import yard_stock


def aldermoor() -> tuple[Holding, Folded]:
    """The demo holding and its diary added up."""
    holding = load(demo_holding_text())
    places = [place.name for place in holding.yard.places]
    return holding, fold(
        demo_entries(), container_sizes(holding.yard.containers), until=DEMO_MOMENT, places=places
    )


def test_the_document_has_no_fault() -> None:
    """The document has no fault."""
    assert problems(demo_holding_text()) == []


def test_it_is_the_holding_of_the_design() -> None:
    """It is the holding of the design."""
    holding = load(demo_holding_text())
    assert holding.name == DEMO_NAME
    assert sum(zone.floor_area_m2 or 0 for zone in holding.house.zones) == 190.0
    assert (holding.plant.boiler.output_kw, holding.plant.store.litres, holding.plant.cylinder.litres) == (
        25,
        1500,
        250,
    )
    assert round(sum(one.area_ha or 0 for one in holding.woodland.compartments), 6) == 3.2
    assert [customer.name for customer in holding.supply.customers] == [
        "Mill Cottage",
        "Old Chapel",
        "Upper Barn",
    ]


def test_it_opens_on_a_tuesday_evening_in_winter() -> None:
    """It opens on a tuesday evening in winter."""
    assert DEMO_MOMENT.strftime("%A %d %B %Y, %H:%M") == "Tuesday 13 January 2026, 17:00"
    assert DEMO_MOMENT.utcoffset() is not None


def test_the_diary_is_the_same_at_every_call_and_for_ever() -> None:
    """The diary is the same at every call and for ever."""
    made = entries(DEMO_NAME)
    assert made == demo_entries()
    told = "\n".join(sorted(json.dumps(entry_to_json(entry), sort_keys=True) for entry in made))
    assert hashlib.sha256(told.encode()).hexdigest()[:16] == "6364f7518a86d0e4"


def test_every_entry_can_be_sent_and_understood() -> None:
    """Every entry can be sent and understood."""
    assert 250 <= len(demo_entries()) <= 500
    assert len({entry.id for entry in demo_entries()}) == len(demo_entries())
    for entry in demo_entries():
        read_payload(entry)
        assert entry_from_json(entry_to_json(entry)) == entry
        assert entry.happened < DEMO_MOMENT
        assert entry.happened <= entry.entered


def test_it_tells_of_all_the_work_of_a_season_and_a_half() -> None:
    """It tells of all the work of a season and a half."""
    kinds = Counter(entry.kind for entry in demo_entries())
    wanted = "felled extracted bought split stacked covered measured weighed counted brought_in lit refilled "
    wanted += "as_usual ash_out cleaned swept serviced tested checked fitted sold spoiled backup_delivery "
    wanted += "pressure correction"
    assert set(wanted.split()) <= set(kinds)


def test_diary_and_holding_use_the_same_names() -> None:
    """Diary and holding use the same names."""
    holding, folded = aldermoor()
    assert {*folded.stacks, *folded.roadside} <= {place.name for place in holding.yard.places}
    assert set(folded.in_wood) <= {compartment.name for compartment in holding.woodland.compartments}
    sold_to = {event.payload.customer for event in folded.of("sold")}
    assert sold_to == {customer.name for customer in holding.supply.customers}
    assert {reading.meter for reading in folded.readings if reading.method == "meter"} == {
        meter.name for meter in holding.yard.meters
    }


def test_the_diary_leaves_nothing_to_look_at() -> None:
    """The diary leaves nothing to look at."""
    _, folded = aldermoor()
    assert [str(finding) for finding in folded.findings] == []


def test_five_stacks_stand_in_different_states() -> None:
    """Five stacks stand in different states."""
    holding, folded = aldermoor()
    stock = yard_stock(
        folded.stacks,
        holding.yard.limits,
        boiler_room=folded.boiler_room,
        in_the_round=folded.roadside,
    )
    dryness = {one.place: one.dryness for one in stock.stacks}
    assert dryness == {
        "lean-to": "fine",
        "gable": "wet",
        "orchard wall": "ideal",
        "stream": "fine",
        "barn end": "wet",
        "boiler room": "ideal",
    }
    assert stock.order[0].place == "stream"
    assert 0.4 < stock.share_dry_enough < 0.8
    assert stock.roadside_solid_m3 == 1.0


def test_every_place_holds_no_more_than_there_is_room_for() -> None:
    """Every place holds no more than there is room for."""
    holding, folded = aldermoor()
    room = {place.name: place.holds_stacked_m3 for place in holding.yard.places}
    for place, contents in folded.stacks.items():
        assert contents.stacked_m3 <= (room[place] or 0.0), place
    assert folded.boiler_room is not None
    assert folded.boiler_room.stacked_m3 <= (holding.yard.boiler_room.holds_stacked_m3 or 0.0)


def test_dates_in_the_holding_are_those_of_the_diary() -> None:
    """Sweeping, tests and the last cut are told alike in both."""
    holding, folded = aldermoor()

    def last(kind: str, what: str | None = None) -> date:
        told = [event for event in folded.of(kind) if what is None or event.payload.what == what]
        return told[-1].happened.date()

    assert holding.plant.flue.swept_on == last("swept")
    assert holding.plant.heat_escapes[0].tested_on == last("tested", "heat_escape")
    assert holding.plant.room.co_alarm_tested_on == last("tested", "co_alarm")
    cut_years = {one.name: one.last_cut_year for one in holding.woodland.compartments}
    for event in folded.of("felled"):
        assert cut_years[event.payload.compartment] == event.happened.year


def test_only_licensed_compartments_were_felled_and_less_than_the_licence_allows() -> None:
    """Felling keeps to the licence: place, time and volume."""
    holding, folded = aldermoor()
    (licence,) = holding.woodland.licences
    felled = folded.of("felled")
    assert {event.payload.compartment for event in felled} <= set(licence.compartments)
    assert all(licence.granted_on <= event.happened.date() <= licence.ends_on for event in felled)
    assert all(not 3 <= event.happened.month <= 7 for event in felled)
    assert sum(event.payload.solid_m3 for event in felled) < licence.solid_m3


def test_the_wood_burnt_is_what_such_a_house_needs() -> None:
    """The first winter's logged and unlogged wood meets the house's reckoned need within its range."""
    holding, folded = aldermoor()
    normals = holding.normals()
    assert normals is not None
    need = demand(holding.house, typical_year(normals, seed=0), design_outdoor_c=holding.climate.design_c)
    winter = (0, 1, 2, 3, 9, 10, 11)
    months = [f"2024-{month}" for month in (10, 11, 12)] + [f"2025-0{month}" for month in (1, 2, 3, 4)]
    burnt_kwh = (
        sum(folded.use_by_month[month].dry_kg for month in months) / 0.82 * energy_per_kg("sycamore", 0.18)
    )
    useful = burnt_kwh * (holding.plant.boiler.efficiency_net or 0.0)
    assert sum(need.total_low_kwh[month] for month in winter) < useful
    assert useful < sum(need.total_high_kwh[month] for month in winter)


def test_the_fires_are_those_of_the_present_code_or_say_that_they_are_not() -> None:
    """If this fails: python -m studies.demo_fires makes them anew, with --keep it marks them as older."""
    head = fires_head()
    assert (head["code"] == study.code_hash(study.CODE)) == ("older" not in head)
    _, _, rows = study.OUT.read_text(encoding="utf-8").split("\n", 2)
    assert head["rows"] == study.digest(rows), "a line was changed by hand"


def test_wood_is_laid_on_only_while_somebody_is_there() -> None:
    """Lighting, refill and the watch after them lie within the holding's hours of presence."""
    presence = load(demo_holding_text()).wishes.presence
    first = demo_fires()[0].moment.date()
    begins = datetime(first.year, first.month, first.day, tzinfo=UTC)
    spans = attended_spans(presence, begins, 24 * 500, ZONE)
    for fire in demo_fires():
        hour = (fire.moment.replace(tzinfo=ZONE) - begins) / timedelta(hours=1)
        assert may_tend(presence, spans, hour, lights=fire.kind == "lit"), fire


def test_the_diary_tells_every_fire_but_those_that_nobody_wrote_down() -> None:
    """Fires of the run and fires of the diary are the same."""
    run = [
        (fire.moment, fire.kind, fire.fills)
        for fire in demo_fires()
        if not UNLOGGED[0] <= fire.moment.date() <= UNLOGGED[1]
    ]
    told = [
        (entry.happened.replace(tzinfo=None), entry.kind, entry.payload["count"])
        for entry in demo_entries()
        if entry.kind in {"lit", "refilled"}
    ]
    assert told == run
    assert all(fire.fills in {0.5, 1.0} for fire in demo_fires())
