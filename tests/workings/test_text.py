"""Docstrings taken apart, and the rules that every worked function's text keeps."""

import re

import pytest

from woodreeve.errors import UnknownName
from woodreeve.units import convert, unit_of
from woodreeve.workings.load import load_all
from woodreeve.workings.registry import WorkedFunction, _annotated_part
from woodreeve.workings.text import text_of


def functions() -> list[WorkedFunction]:
    """Every worked function of the project."""
    return list(load_all().values())


def test_a_real_docstring_comes_apart() -> None:
    """Summary, units, equation, notes, sources and an example that still has its question."""
    load_all()
    text = text_of("net_heat")
    assert text.summary == "Net calorific value of wood as it is, its water included."
    assert "part of the heat goes up the flue" in text.description
    assert "[MJ/kg]" in text.parameters["net_heat_dry_mj_kg"]
    assert text.returns.endswith("[MJ/kg]")
    assert text.raises == (("OutOfRange", "If an argument lies outside the range given above."),)
    assert text.equations == ("q = q_d (1 - M) - 2.443 M",)
    assert "Ash is not corrected for" in text.notes
    assert text.references.startswith(".. [1] ISO 17225-1")
    assert text.from_memory
    assert text.examples == ">>> round(net_heat(19.0, 0.20), 2)\n14.71"


def test_an_equation_over_several_lines_and_several_equations_come_out_whole() -> None:
    """Hailwood and Horrobin's, the longest."""
    load_all()
    first, second, third = text_of("equilibrium_moisture").equations
    assert first.startswith(r"u = \frac{18}{W} \left[")
    assert first.endswith(r"\right]")
    assert second.startswith("W = 349")
    assert third.startswith("K_1 = 6.27")
    assert not text_of("equilibrium_moisture").from_memory


def test_an_unknown_name_has_no_text() -> None:
    """As any unknown formula."""
    with pytest.raises(UnknownName, match="formula"):
        text_of("no such thing")


def test_every_parameter_of_every_function_is_told() -> None:
    """Name for name, none missing, none left over."""
    faults = {
        f.name: sorted({p.name for p in f.parameters} ^ set(text_of(f.name).parameters))
        for f in functions()
        if {p.name for p in f.parameters} != set(text_of(f.name).parameters)
    }
    assert faults == {}


def test_the_unit_in_brackets_is_the_unit_of_the_annotation() -> None:
    """For every parameter and every result that has a unit."""
    faults = []
    for f in functions():
        text = text_of(f.name)
        told = {p.name: (p.unit, text.parameters.get(p.name, "")) for p in f.parameters}
        told["result"] = (unit_of(_annotated_part(f.returns)), text.returns)
        for name, (unit, words) in told.items():
            bracketed = re.findall(r"\[([^\]]+)\]", words)
            if unit is not None and unit not in bracketed:
                faults.append(f"{f.name}: {name} is in {unit}, told {bracketed}")
    assert faults == []


def test_every_function_has_a_plain_summary_an_equation_or_method_and_a_source() -> None:
    """Docstrings are product."""
    faults = []
    for f in functions():
        text = text_of(f.name)
        if not re.fullmatch(r"[A-Z0-9].*\.", text.summary) or ":math:" in text.summary:
            faults.append(f"{f.name}: summary {text.summary!r}")
        if len(text.notes) < 10:
            faults.append(f"{f.name}: no Notes")
        if ".. [1]" not in text.references:
            faults.append(f"{f.name}: no References")
        if not text.returns:
            faults.append(f"{f.name}: no Returns")
    assert faults == []


def test_every_unit_is_known_to_the_unit_library() -> None:
    """Of every parameter and result."""
    units = {p.unit for f in functions() for p in f.parameters} | {f.result_unit for f in functions()}
    for unit in units - {None}:
        assert unit is not None
        assert convert(1.0, unit, unit + " ") == pytest.approx(1.0), unit


def test_every_default_lies_within_its_own_bounds() -> None:
    """A call without it would be refused otherwise."""
    for f in functions():
        for p in f.parameters:
            if not p.required and p.checked:
                p.refuse(p.default)
