"""A text with faults: each is told with its file, line, field, value and what is allowed."""

import pytest

from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.reading import NotAHolding, line_of
from woodreeve.holding.toml import load, problems

HEAD = 'name = "hill-farm"\n'


def only(text: str) -> str:
    """The one problem of a text, as its owner reads it."""
    found = problems(HEAD + text, "farm.toml")
    assert len(found) == 1, [str(problem) for problem in found]
    return str(found[0])


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "[plant.boiler]\noutput_kw = 2500\n",
            "farm.toml, line 3: plant.boiler.output_kw is 2500 kW, but must be between 0 and 500",
        ),
        ("[plant.boiler]\nouput_kw = 25\n", "did you mean output_kw"),
        ("[plnt]\n", "did you mean plant"),
        ("[plant.boiler]\noutput_kw = true\n", "a number [kW]"),
        ("[plant.boiler]\noutput_kw = '25 kg'\n", "'25 kg', but a quantity in kW is wanted"),
        ("[plant.boiler]\nmost_moisture = 25\n", "give 25 % as 0.25"),
        ("[plant.boiler]\noutput_kw = nan\n", "plant.boiler.output_kw is nan"),
        ("[plant.backup]\nfuel = 'coal'\n", "oil"),
        ("[plant]\ninstalled_on = 'last spring'\n", "a day, for instance 2026-01-31"),
        ("[plant]\nboiler = 3\n", "a section"),
        ("[plant]\ncircuits = 3\n", "a list of sections"),
        ("[[yard.containers]]\nname = 'barrow'\n", "yard.containers[0].litres is missing"),
        (
            "[climate.normals]\ntemperature_c = [1.0, 2.0]\n",
            "climate.normals: temperature_c is 2 values long, but must be 12",
        ),
        (
            "[[yard.containers]]\nname = 'b'\nlitres = 9\n[[yard.containers]]\nname = 'b'\nlitres = 9\n",
            "each name stands once",
        ),
        ("[place]\nzone = 'Wales/Cardiff'\n", "write it like Europe/London"),
        (
            "[plant.boiler]\noutput_kw = 25\nleast_output_kw = 30\n",
            "must not be above the rated output of 25 kW",
        ),
        ("[plant.boiler]\nleast_moisture = 0.2\nmost_moisture = 0.15\n", "below the wettest wood"),
        (
            "[plant.store]\ncharge_in_height = 0.1\ncharge_out_height = 0.5\n",
            "must stand above its return port",
        ),
        ("[[plant.circuits]]\nname = 'a'\ndesign_flow_c = 25\n", "the curve must rise"),
        (
            "[[plant.circuits]]\nname = 'a'\ndesign_flow_c = 60\nmost_flow_c = 45\n",
            "hottest flow allowed is 45",
        ),
        ("[[plant.circuits]]\nname = 'a'\nzone = 'attic'\n", "no such zone"),
        (
            "[plant.water]\nvessel_charge_bar = 3.0\nsafety_valve_bar = 2.5\n",
            "must be below the safety valve",
        ),
        ("[plant.store]\ntanks = 2\n", "number of tanks is 2"),
        ("[yard.limits]\nideal = 0.25\nfine = 0.2\n", "must lie between ideal"),
        ("[[woodland.compartments]]\nname = 'a'\nspecies = { ash = 0.8, oak = 0.4 }\n", "more than 1"),
        ("[[woodland.compartments]]\nname = 'a'\nspecies = { ashh = 0.8 }\n", "ash"),
        ("[[woodland.licences]]\nnumber = '1'\ncompartments = ['b']\n", "no such compartment"),
        (
            "[[woodland.licences]]\nnumber = '1'\ngranted_on = 2025-01-01\nends_on = 2024-01-01\n",
            "before the grant",
        ),
        (
            "[[supply.customers]]\nname = 'c'\n"
            "[supply.customers.agreement]\nsince = 2025-01-01\nuntil = 2024-01-01\n",
            "before its first day",
        ),
        ("[[wishes.presence.windows]]\nbegins = 22:00:00\nends = 01:00:00\n", "split a window at midnight"),
        ("[[wishes.presence.away]]\nbegins = 2026-02-10\nends = 2026-02-01\n", "must not be before"),
        (
            "[[house.past_fuel]]\nfuel = 'lpg'\namount = 100\n"
            "first_day = 2024-01-01\nlast_day = 2023-01-01\n",
            "must be after the first day",
        ),
    ],
)
def test_each_fault_is_told_in_one_sentence(text: str, says: str) -> None:
    """Each fault is told in one sentence."""
    assert says in only(text)


def test_all_faults_are_told_at_once() -> None:
    """All faults are told at once."""
    text = HEAD + "[plant.boiler]\noutput_kw = -1\nfuel_space = 3\n[plant.store]\nlitres = 'a lot'\n"
    found = problems(text)
    assert [problem.path for problem in found] == [
        "plant.boiler.output_kw",
        "plant.boiler.fuel_space",
        "plant.store.litres",
    ]
    with pytest.raises(NotAHolding, match="3 things are to be mended") as caught:
        load(text)
    assert len(caught.value.problems) == 3


def test_a_name_with_capitals_is_refused() -> None:
    """A name with capitals is refused."""
    with pytest.raises(NotAHolding, match="lower-case letters"):
        load('name = "Hill Farm"\n')


def test_a_text_without_a_name_says_that_it_must_be_given() -> None:
    """A text without a name says that it must be given."""
    assert "name is missing" in str(problems("")[0])


@pytest.mark.parametrize(("text", "line"), [("name = \n", 1), ('name = "a"\n\n[plant\n', 3)])
def test_a_text_that_is_not_toml_is_told_with_its_line(text: str, line: int) -> None:
    """A text that is not toml is told with its line."""
    (found,) = problems(text)
    assert found.line == line
    assert "not TOML" in found.sentence


def test_what_is_merely_odd_does_not_keep_a_holding_from_being_read() -> None:
    """What is merely odd does not keep a holding from being read."""
    text = HEAD + "[[plant.circuits]]\nname = 'a'\nzone = 'attic'\n"
    assert load(text).plant.circuits[0].zone == "attic"
    assert [problem.serious for problem in problems(text)] == [False]


@pytest.mark.parametrize(
    ("written", "kw"), [("25", 25.0), ("25.0", 25.0), ("'25 kW'", 25.0), ("'25000 W'", 25.0), ("'25'", 25.0)]
)
def test_a_number_may_be_written_with_or_without_its_unit(written: str, kw: float) -> None:
    """A number may be written with or without its unit."""
    assert load(HEAD + f"[plant.boiler]\noutput_kw = {written}\n").plant.boiler.output_kw == pytest.approx(kw)


@pytest.mark.parametrize("written", ["0.2", "'20 %'", "'20%'", "'20 percent'", "'0,2'"])
def test_a_share_may_be_written_in_percent(written: str) -> None:
    """A share may be written in percent."""
    limits = load(HEAD + f"[yard.limits]\nideal = {written}\n").yard.limits
    assert limits.ideal == pytest.approx(0.2)


def test_unknown_may_be_written_out() -> None:
    """Unknown may be written out."""
    assert load(HEAD + "[plant.boiler]\noutput_kw = 'unknown'\n").plant.boiler.output_kw is None


def test_yes_and_no_may_be_written_as_truth() -> None:
    """Yes and no may be written as truth."""
    assert load(HEAD + "[plant.room]\nco_alarm = true\n").plant.room.co_alarm == "yes"


def test_the_line_of_a_field_inside_lists_of_lists_is_found() -> None:
    """The line of a field inside lists of lists is found."""
    text = demo_holding_text()
    number = line_of(text, "yard.containers[1].weighings[2].kg")
    assert number is not None
    assert text.splitlines()[number - 1] == "kg = 33.0"


def test_a_field_that_is_not_written_has_the_line_of_its_section() -> None:
    """A field that is not written has the line of its section."""
    text = HEAD + "[plant.boiler]\noutput_kw = 25\n"
    assert line_of(text, "plant.boiler.water_litres") == 2
    assert line_of(text, "house.occupants") is None
