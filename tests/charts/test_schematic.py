"""The circuit drawing: it follows the plant as told, and what is not told is dashed and says so."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from dataclasses import replace

import pytest

from tests.answers.demo import demo
from woodreeve.charts.schematic import STORE_FOOT, STORE_HEIGHT, WIDTH, DrawnPart, Schematic, schematic
from woodreeve.charts.symbols import UNKNOWN, Pen
from woodreeve.plant.fields import (
    BackupBoiler,
    Circuit,
    Cylinder,
    HeatEscape,
    LogBoiler,
    Plant,
    Store,
    StoreSensor,
    WaterSide,
)

SVG = "{http://www.w3.org/2000/svg}"


def drawn(plant: Plant) -> tuple[Schematic, ElementTree.Element]:
    """A drawing and its parsed SVG."""
    made = schematic(plant)
    return made, ElementTree.fromstring(made.svg)


def part(made: Schematic, name: str) -> DrawnPart:
    """The part of a name."""
    return next(one for one in made.parts if one.name == name)


def texts(root: ElementTree.Element) -> list[str]:
    """All words on the drawing."""
    return [one.text or "" for one in root.iter(f"{SVG}text")]


def dashed(root: ElementTree.Element) -> int:
    """How many lines are dashed as not told."""
    return sum(one.get("stroke-dasharray") == UNKNOWN for one in root.iter())


FULL = demo().holding.plant

SHAPES = {
    "demo": FULL,
    "blank": Plant(),
    "open": replace(
        FULL, water=WaterSide(system="open", vent_free="yes", feed_cistern_fit="yes"), heat_escapes=()
    ),
    "unvented": replace(FULL, cylinder=Cylinder(litres=250.0, coil_kw=20.0, unvented="yes", coils=2)),
    "four circuits": replace(FULL, circuits=tuple(Circuit(name=f"part {n}") for n in range(4))),
    "no backup": replace(FULL, backup=BackupBoiler(fuel="none")),
    "backup to store": replace(FULL, backup=BackupBoiler(fuel="oil", output_kw=20.0, feeds="store")),
    "backup for taps": replace(FULL, backup=BackupBoiler(fuel="oil", output_kw=20.0, feeds="hot_water_only")),
    "many tanks": replace(FULL, store=Store(litres=3000.0, tanks=3, arrangement="series")),
}


@pytest.mark.parametrize("shape", SHAPES)
def test_every_part_on_the_list_has_its_number_on_the_drawing(shape: str) -> None:
    """And no number twice; the drawing has a name and a description, and no style of its own."""
    made, root = drawn(SHAPES[shape])
    numbers = [text for text in texts(root) if text.isdigit()]
    assert numbers == [str(one.number) for one in made.parts]
    assert root.findtext(f"{SVG}title") == made.title
    assert root.findtext(f"{SVG}desc") == made.description
    assert 'style="' not in made.svg


@pytest.mark.parametrize("shape", SHAPES)
def test_nothing_is_drawn_outside_the_sheet(shape: str) -> None:
    """Every point of every pipe, and every word, lies on it."""
    _, root = drawn(SHAPES[shape])
    _, _, width, height = (float(one) for one in (root.get("viewBox") or "").split())
    assert width == WIDTH
    for line in root.iter(f"{SVG}polyline"):
        for point in (line.get("points") or "").split():
            x, y = (float(one) for one in point.split(","))
            assert 0.0 <= x <= width
            assert 0.0 <= y <= height
    for word in root.iter(f"{SVG}text"):
        x, y = float(word.get("x") or 0), float(word.get("y") or 0)
        assert 0.0 <= x <= width
        assert 8.0 <= y <= height


def test_a_plant_told_in_full_has_nothing_dashed() -> None:
    """Every part of the demonstration is known, with its figures."""
    made, root = drawn(FULL)
    assert all(one.known for one in made.parts)
    assert dashed(root) == 0
    assert "not told" not in texts(root)
    assert part(made, "Log boiler").told.startswith("25 kW")
    assert part(made, "Expansion vessel").told == "250 l, gas 1.0 bar, filled to 1.4 bar"
    assert part(made, "Thermal discharge").told == "opens at 95 °C, supplied from a spring above"
    assert part(made, "Backup").told == "LPG, 24 kW, heats rooms and hot water"


def test_what_is_not_told_is_dashed_and_says_so() -> None:
    """A blank plant is all dashes, and each part says "not told" on drawing and list."""
    made, root = drawn(Plant())
    assert not any(one.known for one in made.parts)
    assert all("not told" in one.told for one in made.parts)
    assert texts(root).count("not told") == len(made.parts)
    assert dashed(root) > 10


def test_ports_and_thermometers_stand_at_their_heights() -> None:
    """A port moved up is drawn further up by that share of the store."""
    store = Store(
        litres=1000.0,
        hot_water_back_height=0.50,
        sensors=(StoreSensor(name="probe", height=0.25),),
    )
    made, root = drawn(replace(FULL, store=store))
    word = next(one for one in root.iter(f"{SVG}text") if one.text == "T probe")
    assert float(word.get("y") or 0) == pytest.approx(STORE_FOOT - 0.25 * STORE_HEIGHT + 4.0)
    height = f"{STORE_FOOT - 0.50 * STORE_HEIGHT:.0f}"
    assert any(f",{height} " in (one.get("points") or "") + " " for one in root.iter(f"{SVG}polyline"))
    assert "back 50 %" in part(made, "Store").told


def test_an_open_system_has_a_vent_and_a_cistern_in_place_of_the_vessel() -> None:
    """And the other ways out for heat are listed as they are told."""
    made, _ = drawn(SHAPES["open"])
    names = [one.name for one in made.parts]
    assert "Open vent and feed cistern" in names
    assert "Expansion vessel" not in names
    radiator = replace(FULL, heat_escapes=(HeatEscape(kind="gravity_radiator"),))
    made, _ = drawn(radiator)
    assert "Radiator fed by gravity" in [one.name for one in made.parts]
    assert "Thermal discharge" not in [one.name for one in made.parts]


def test_a_discharge_whose_supply_nobody_told_is_not_called_known() -> None:
    """Its supply decides whether it cools in a power cut."""
    made, root = drawn(replace(FULL, heat_escapes=(HeatEscape(kind="thermal_discharge", opens_at_c=95.0),)))
    assert not part(made, "Thermal discharge").known
    assert dashed(root) > 0


def test_an_unvented_cylinder_has_its_vessel_and_safety_devices() -> None:
    """An open-vented one has none of them."""
    made, _ = drawn(SHAPES["unvented"])
    assert not part(made, "Vessel and relief on the drinking water").known
    made, _ = drawn(FULL)
    assert "Vessel and relief on the drinking water" not in [one.name for one in made.parts]


def test_every_circuit_is_drawn_and_a_fifth_only_listed() -> None:
    """Each by its own name; one without mixing valve says so."""
    circuits = tuple(Circuit(name=f"part {n}", mixed="no", design_flow_c=50.0) for n in range(5))
    made, root = drawn(replace(FULL, circuits=circuits))
    told = [one for one in made.parts if one.name.startswith(("Circuit", "part"))]
    assert len(told) == 5
    assert "no mixing valve" in told[0].told
    assert told[4].told == "one more circuit, not drawn"
    assert "M" not in texts(root)


def test_names_are_safe_in_the_drawing() -> None:
    """A name with marks of the language of pages does no harm."""
    store = Store(litres=1000.0, sensors=(StoreSensor(name="<b>&", height=0.5),))
    _, root = drawn(Plant(boiler=LogBoiler(output_kw=20.0), store=store))
    assert "T <b>&" in texts(root)


def test_a_pen_takes_the_ink_of_the_page() -> None:
    """On a page the drawing follows light and dark."""
    assert 'stroke="currentColor"' in schematic(FULL, ink="currentColor").svg
    pen = Pen("#000")
    pen.pump(10.0, 10.0, "right", known=False)
    assert "stroke-dasharray" in pen.svg(20.0, 20.0, "a", "b")
