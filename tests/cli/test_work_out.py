"""The command ``woodreeve work-out``."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

from tests.cli.conftest import Woodreeve
from woodreeve.records.demo import demo_household
from woodreeve.web.app import create_app
from woodreeve.workings.load import load_all

ASH = ("net_heat", "net_heat_dry_mj_kg=19")


def test_a_formula_is_worked_out_with_units(woodreeve: Woodreeve) -> None:
    """As the person wrote them."""
    assert woodreeve("work-out", *ASH, "moisture=20 %").ok().out.strip() == "14.7114 MJ/kg"
    assert woodreeve("work-out", *ASH, "moisture=0.2").ok().out.strip() == "14.7114 MJ/kg"


def test_a_result_of_many_parts_is_listed(woodreeve: Woodreeve) -> None:
    """One a line."""
    out = woodreeve("work-out", "meter_reading", "reading=25 %").ok().out
    assert len(out.splitlines()) > 1
    assert all(": " in line for line in out.splitlines())


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        ([*ASH, "moisture=20"], "give 20 % as 0.2"),
        ([*ASH, "moisture=1.4"], "moisture is 1.4, but must be between 0 and 0.7"),
        ([*ASH, "moisture=nan"], "moisture is given as 'nan'"),
        (["net_heat", "net_heat_dry_mj_kg=19 kg", "moisture=0.2"], "a quantity in MJ/kg is wanted"),
        (["net_heat", "net_heat_dry_mj_kg=19"], "moisture is 'missing'"),
        ([*ASH, "moisture"], "name=value"),
        ([*ASH, "moistur=0.2"], "did you mean moisture"),
        (["netheat"], "'netheat' is not a known formula: did you mean net_heat"),
    ],
)
def test_a_wrong_value_gets_one_clear_sentence(woodreeve: Woodreeve, arguments: list[str], part: str) -> None:
    """And the end is 2."""
    told = woodreeve("work-out", *arguments).refused()
    assert part in told
    assert "\n" not in told


def test_all_formulas_are_listed_by_room(woodreeve: Woodreeve) -> None:
    """None is left out; the rooms stand in the order of the chain."""
    out = woodreeve("work-out").ok().out
    lines = out.splitlines()
    assert all(any(line.startswith(name) for line in lines) for name in load_all())
    assert lines.index("weather") < lines.index("wood") < lines.index("yard") < lines.index("supply")
    assert max(map(len, lines)) <= 80


def test_each_formula_shows_equation_units_bounds_and_source(woodreeve: Woodreeve) -> None:
    """By its name alone."""
    out = woodreeve("work-out", "net_heat").ok().out
    for part in ("q = q_d (1 - M) - 2.443 M", "[MJ/kg]", "between 0 and 0.7", "ISO 17225-1"):
        assert part in out


def test_json_is_what_the_resource_sends(woodreeve: Woodreeve, tmp_path: object) -> None:
    """The list, a formula, and a result."""
    household = demo_household(path=tmp_path / "demonstration.sqlite3")  # type: ignore[operator]  # a path
    api = TestClient(create_app(household), base_url="http://127.0.0.1")
    assert woodreeve("work-out", "--json").json() == api.get("/api/workings").json()
    assert woodreeve("work-out", "net_heat", "--json").json() == api.get("/api/workings/net_heat").json()
    given = {"net_heat_dry_mj_kg": "19", "moisture": "20 %"}
    sent = api.post(
        "/api/workings/net_heat", json={"given": given}, headers={"sec-fetch-site": "same-origin"}
    )
    assert woodreeve("work-out", *ASH, "moisture=20 %", "--json").json() == sent.json()
