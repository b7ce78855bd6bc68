"""Burning: mass balance, dew points, flue loss and efficiency, against general-purpose libraries."""

import iapws
import psychrolib
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange
from woodreeve.wood.burning import (
    BEECH,
    DRY_OAK,
    TYPICAL_WOOD,
    Composition,
    ash_mass,
    burn,
    carbon_monoxide_loss,
    excess_air_from_oxygen,
)
from woodreeve.wood.dew_point import (
    acid_dew_point_of_flue_gas,
    condensing_temperature,
    dew_point_of_flue_gas,
    vapour_pressure_over_water,
)
from woodreeve.wood.efficiency import efficiency_ceiling, gross_efficiency, net_efficiency, net_over_gross
from woodreeve.wood.flue import flue_loss, flue_loss_at_oxygen, flue_temperature_for_loss, siegert_loss

moistures = st.floats(0.0, 0.6)
airs = st.floats(1.0, 4.0)
oxygens = st.floats(0.0, 0.15)


@given(moistures, airs, st.sampled_from([TYPICAL_WOOD, DRY_OAK, BEECH]))
def test_what_goes_in_comes_out(moisture: float, excess_air: float, fuel: Composition) -> None:
    """Mass of wood without ash plus air equals mass of gas."""
    gas = burn(moisture, excess_air, fuel)
    ash = (1 - moisture) * (1 - fuel.carbon - fuel.hydrogen - fuel.oxygen - fuel.nitrogen - fuel.sulphur)
    out = (
        gas.carbon_dioxide_mol * 44.009
        + gas.water_mol * 18.015
        + gas.nitrogen_mol * 28.01
        + gas.oxygen_mol * 31.998
        + gas.sulphur_dioxide_mol * 64.06
    ) / 1000
    # The air's nitrogen is counted as pure, its mass as that of air with argon: 0.5 % of the air.
    assert out == pytest.approx(1.0 - ash + gas.air_kg, rel=0.006)


@given(oxygens, st.sampled_from([TYPICAL_WOOD, DRY_OAK, BEECH]))
def test_excess_air_and_oxygen_turn_into_each_other(oxygen: float, fuel: Composition) -> None:
    """The analyser's figure comes back."""
    assert burn(0.2, excess_air_from_oxygen(oxygen, fuel), fuel).oxygen_dry == pytest.approx(oxygen, abs=1e-9)


@pytest.mark.parametrize(("oxygen", "excess_air"), [(0.05, 1.31), (0.06, 1.40), (0.07, 1.50), (0.10, 1.91)])
def test_excess_air_is_close_to_the_common_short_form(oxygen: float, excess_air: float) -> None:
    """20.95 / (20.95 - O2), within 1 %."""
    assert excess_air_from_oxygen(oxygen) == pytest.approx(excess_air, abs=0.006)
    assert excess_air_from_oxygen(oxygen) == pytest.approx(0.2095 / (0.2095 - oxygen), rel=0.01)


def test_a_composition_over_the_whole_is_refused() -> None:
    """Per cent given as shares, or more than everything."""
    with pytest.raises(OutOfRange, match="sum of the shares"):
        Composition(carbon=0.6, hydrogen=0.06, oxygen=0.44)


@given(st.floats(0.1, 199.0))
def test_saturation_inverts(celsius: float) -> None:
    """Pressure of a temperature and temperature of a pressure."""
    assert condensing_temperature(vapour_pressure_over_water(celsius)) == pytest.approx(celsius, abs=1e-6)


@pytest.mark.parametrize("celsius", [0.5, 20.0, 45.0, 60.0, 85.0, 100.0])
def test_saturation_agrees_with_three_libraries(celsius: float) -> None:
    """The library iapws has the same formulation; CoolProp and psychrolib have others."""
    ours = vapour_pressure_over_water(celsius)
    assert ours == pytest.approx(1e6 * iapws.IAPWS97(T=celsius + 273.15, x=0).P, rel=1e-9)
    assert ours == pytest.approx(PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water"), rel=5e-4)
    psychrolib.SetUnitSystem(psychrolib.SI)
    assert ours == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=5e-4)


@pytest.mark.parametrize("pressure", [5e3, 1e4, 1.5e4, 2.5e4])
def test_dew_temperatures_agree_within_a_hundredth_of_a_kelvin(pressure: float) -> None:
    """Over the range of wood's flue gas."""
    library = PropsSI("T", "P", pressure, "Q", 0, "Water") - 273.15
    assert condensing_temperature(pressure) == pytest.approx(library, abs=0.01)


@given(moistures, st.floats(1.0, 3.0))
def test_wetter_wood_and_less_air_raise_the_dew_point(moisture: float, excess_air: float) -> None:
    """Both ways."""
    here = dew_point_of_flue_gas(moisture, excess_air)
    assert (
        dew_point_of_flue_gas(moisture + 0.05, excess_air)
        > here
        > dew_point_of_flue_gas(moisture, excess_air + 0.2)
    )


def test_acid_dew_points_are_those_of_the_reference() -> None:
    """1, 3 and 5 % of the sulphur dioxide turned to trioxide at 25 % moisture and 6 % oxygen."""
    excess_air = excess_air_from_oxygen(0.06)
    found = [acid_dew_point_of_flue_gas(0.25, excess_air, part) for part in (0.01, 0.03, 0.05)]
    assert found == pytest.approx([106.0, 115.0, 120.0], abs=0.6)


def test_gas_enthalpies_agree_with_an_equation_of_state() -> None:
    """CoolProp, for the gas of the typical wood from 20 to 200 degrees: within 0.2 %."""
    gas = burn(0.20, 1.5)
    amounts = {
        "CarbonDioxide": gas.carbon_dioxide_mol,
        "Water": gas.water_mol,
        "Nitrogen": gas.nitrogen_mol,
        "Oxygen": gas.oxygen_mol,
    }

    def heat(flue_c: float) -> float:
        """Sensible heat at a partial pressure so low that all are ideal."""
        rise = {
            name: PropsSI("HMOLAR", "T", flue_c + 273.15, "P", 100.0, name)
            - PropsSI("HMOLAR", "T", 293.15, "P", 100.0, name)
            for name in amounts
        }
        return sum(amounts[name] * rise[name] for name in amounts) / 1e6

    for flue_c in (60.0, 120.0, 200.0, 250.0):
        ours = flue_loss(flue_c, 1.5, 0.20) * 14.631
        assert ours == pytest.approx(heat(flue_c), rel=0.002)


@given(st.floats(40.0, 300.0), oxygens, moistures)
def test_flue_loss_and_flue_temperature_invert(flue_c: float, oxygen: float, moisture: float) -> None:
    """The temperature of a loss has that loss."""
    loss = flue_loss_at_oxygen(flue_c, oxygen, moisture)
    if loss <= 0.6:
        assert flue_temperature_for_loss(loss, oxygen, moisture) == pytest.approx(flue_c, abs=0.01)


def test_a_loss_no_flue_can_have_is_refused() -> None:
    """In one sentence."""
    with pytest.raises(OutOfRange, match="700 degC"):
        flue_temperature_for_loss(0.6, 0.0, 0.1)


@pytest.mark.parametrize("flue_c", [100.0, 150.0, 200.0, 250.0])
@pytest.mark.parametrize("oxygen", [0.04, 0.06, 0.08, 0.10, 0.12])
@pytest.mark.parametrize("moisture", [0.0, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40])
def test_the_short_form_fits_the_full_one(flue_c: float, oxygen: float, moisture: float) -> None:
    """Within 0.15 point over the whole range of the fit."""
    full = flue_loss_at_oxygen(flue_c, oxygen, moisture)
    assert siegert_loss(flue_c, oxygen, moisture) == pytest.approx(full, abs=0.0015)


def test_flue_losses_printed_by_the_polish_academy_lie_within_3_per_cent() -> None:
    """8.37, 12.43, 15.19 and 22.55 %; one free number, the excess air of 2.4, for four values."""
    cases = ((0.10, 120.0), (0.60, 120.0), (0.10, 200.0), (0.60, 200.0))
    found = [flue_loss(flue_c, 2.4, moisture) for moisture, flue_c in cases]
    assert found == pytest.approx([0.0837, 0.1243, 0.1519, 0.2255], rel=0.03)


@pytest.mark.parametrize(
    ("flue_c", "gross", "net"), [(30, 0.968, 1.07), (40, 0.941, 1.04), (50, 0.900, 0.997)]
)
def test_condensing_ceilings_are_those_of_the_reference(flue_c: float, gross: float, net: float) -> None:
    """At 20 % moisture and 6 % oxygen, worked out there with other gas data."""
    ceiling = efficiency_ceiling(float(flue_c), 0.06, 0.20)
    assert ceiling.gross == pytest.approx(gross, abs=0.001)
    assert ceiling.net == pytest.approx(net, abs=0.005)
    assert ceiling.condensed > 0.0


def test_above_53_degrees_nothing_condenses() -> None:
    """The dew point of that gas."""
    dry = efficiency_ceiling(53.0, 0.06, 0.20)
    assert dry.condensed == 0.0
    assert dry.net == pytest.approx(1.0 - flue_loss_at_oxygen(53.0, 0.06, 0.20))
    assert efficiency_ceiling(120.0, 0.06, 0.20).condensed == 0.0


@given(st.floats(0.5, 1.0), moistures)
def test_efficiency_footings_invert(efficiency: float, moisture: float) -> None:
    """Net to gross to net."""
    assert net_efficiency(gross_efficiency(efficiency, moisture), moisture) == pytest.approx(efficiency)
    assert 0.0 < net_over_gross(moisture) < 1.0


def test_carbon_monoxide_costs_more_with_more_air() -> None:
    """The same parts per million in more gas."""
    assert carbon_monoxide_loss(0.001, 2.0, 0.2) > carbon_monoxide_loss(0.001, 1.5, 0.2) > 0.0


def test_a_winter_leaves_a_few_buckets_of_ash() -> None:
    """8 t of dry beech."""
    assert ash_mass(8000.0, 0.0046) == pytest.approx(36.8)
