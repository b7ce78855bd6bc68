"""Moisture: the two bases, the air's pull, and what a pin meter knows."""

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.wood.moisture import equilibrium_moisture, meter_reading, to_dry_basis, to_wet_basis

TABLE = Path(__file__).parent / "equilibrium_table.csv"

fractions = st.floats(0.0, 0.7)


def printed_table() -> list[tuple[float, float, float]]:
    """The part of the Wood Handbook's table that was read: eight rows, eleven columns."""
    with TABLE.open(encoding="utf-8", newline="") as stream:
        return [
            (
                float(line["air_c"]),
                float(line["relative_humidity_percent"]) / 100,
                float(line["moisture_dry_basis_percent"]),
            )
            for line in csv.DictReader(stream)
        ]


@given(fractions)
def test_the_bases_turn_into_each_other_and_back(moisture: float) -> None:
    """Wet to dry to wet is the identity."""
    assert to_wet_basis(to_dry_basis(moisture)) == pytest.approx(moisture, abs=1e-12)


@given(fractions, fractions)
def test_the_dry_basis_keeps_the_order_of_the_wet_basis(one: float, other: float) -> None:
    """Wetter on one basis is wetter on the other."""
    assert (one < other) == (to_dry_basis(one) < to_dry_basis(other)) or one == pytest.approx(other)


def test_bases_and_equilibrium_take_arrays() -> None:
    """Many values at once give what one by one would."""
    moistures = np.linspace(0.0, 0.7, 8)
    assert to_dry_basis(moistures).tolist() == [to_dry_basis(float(m)) for m in moistures]
    air, humidity = np.array([-20.0, 0.0, 25.0]), np.array([0.3, 0.8, 1.0])
    one_by_one = [equilibrium_moisture(float(t), float(h)) for t, h in zip(air, humidity, strict=True)]
    assert equilibrium_moisture(air, humidity).tolist() == one_by_one


def test_equilibrium_agrees_with_every_value_read_from_the_handbook() -> None:
    """Wood Handbook, FPL-GTR-190, Table 4-2, the 88 values that were read: within rounding, none dropped."""
    table = printed_table()
    assert len(table) == 88
    # The source of the coefficients was found to reproduce its own table within 0.054.
    assert sum(value for _, _, value in table) == pytest.approx(1057.6)
    off = [abs(100 * equilibrium_moisture(air, humidity) - value) for air, humidity, value in table]
    assert max(off) < 0.055


def test_frost_below_the_table_gives_the_figure_of_its_coldest_row() -> None:
    """A hard night is no error, and no extrapolation either."""
    assert equilibrium_moisture(-35.0, 0.8) == equilibrium_moisture(-1.1, 0.8)
    assert equilibrium_moisture(-1.0, 0.8) != equilibrium_moisture(-1.1, 0.8)


@given(st.floats(-30.0, 50.0), st.floats(0.0, 0.99))
def test_damper_air_never_means_drier_wood(air_c: float, humidity: float) -> None:
    """Equilibrium moisture rises with humidity."""
    assert equilibrium_moisture(air_c, humidity) <= equilibrium_moisture(air_c, humidity + 0.01)


def test_a_dry_basis_meter_showing_25_is_wood_at_20() -> None:
    """The trap that the two bases set."""
    assert meter_reading(0.25, "dry").moisture == pytest.approx(0.20)


def test_a_meter_of_unknown_basis_shows_both_and_the_wetter_counts() -> None:
    """Both readings stand, and a limit is held against the wetter one."""
    both = meter_reading(0.20)
    assert both.if_dry_basis == pytest.approx(1 / 6)
    assert both.if_wet_basis == pytest.approx(0.20)
    assert both.low == both.if_dry_basis
    assert both.high == both.safe_moisture == both.if_wet_basis
    assert any("basis is not known" in note for note in both.notes)


def test_a_meter_of_unknown_basis_near_its_end_makes_no_claim_on_the_wet_side() -> None:
    """28 % may be 28 % wet, which no pin meter can know."""
    doubtful = meter_reading(0.28)
    assert doubtful.verdict == "above_range"
    assert doubtful.low == pytest.approx(0.28 / 1.28)
    assert (doubtful.high, doubtful.safe_moisture, doubtful.moisture) == (None, None, None)


@pytest.mark.parametrize("reading", [0.31, 0.45, 1.0])
@pytest.mark.parametrize("basis", ["dry", "not_known", "wet"])
def test_above_30_of_dry_mass_no_number_is_given(reading: float, basis: str) -> None:
    """Wet wood is more than 30 %, nothing finer; on the wet basis that is more than 23 %."""
    wet = meter_reading(reading, basis)  # type: ignore[arg-type]  # parametrised text
    assert (wet.moisture, wet.high, wet.safe_moisture) == (None, None, None)
    assert wet.reported == ">30 %"
    assert wet.low is not None
    assert wet.low <= 0.3 / 1.3 + 1e-12


def test_below_7_only_an_upper_end_is_given() -> None:
    """Very dry wood is less than 7 %, and safely so."""
    dry = meter_reading(0.04, "dry")
    assert (dry.verdict, dry.reported, dry.moisture, dry.low) == ("below_range", "<7 %", None, None)
    assert dry.safe_moisture == pytest.approx(0.07 / 1.07)


def test_cold_wood_is_wetter_than_the_meter_says() -> None:
    """The sign of the temperature correction."""
    cold, warm = meter_reading(0.20, "dry", 0.0), meter_reading(0.20, "dry", 35.0)
    assert cold.moisture is not None
    assert warm.moisture is not None
    assert cold.moisture > 1 / 6 > warm.moisture
    assert any("colder or warmer" in note for note in cold.notes)


def test_maritime_pine_gets_its_own_remark() -> None:
    """The one species that was read to differ clearly."""
    assert any(
        "Maritime pine" in note for note in meter_reading(0.2, "dry", species_name="Pinus pinaster").notes
    )
    assert any("ash" in note for note in meter_reading(0.2, "dry", species_name="ash").notes)
    with pytest.raises(UnknownName, match="species"):
        meter_reading(0.2, "dry", species_name="triffid")


@pytest.mark.parametrize(("moisture", "hint"), [(20.0, "give 20 % as 0.2"), (1.4, "between 0 and 0.7")])
def test_a_moisture_in_per_cent_or_above_the_range_gets_one_clear_sentence(
    moisture: float, hint: str
) -> None:
    """The two commonest slips."""
    with pytest.raises(OutOfRange, match=f"^moisture is .*{hint}"):
        to_dry_basis(moisture)
