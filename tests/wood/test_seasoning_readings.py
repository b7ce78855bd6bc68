"""Readings: what a meter, an oven and marker pieces say of a stack, and how surely."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange, Refused
from woodreeve.wood.moisture import to_wet_basis
from woodreeve.wood.seasoning_readings import MeterValues, moisture_sd, read_meter
from woodreeve.wood.seasoning_samples import OvenSample, marker_reading, oven_reading, oven_sample

DAY = date(2026, 6, 1)


def values(*percent: float, **given_more: object) -> MeterValues:
    """What a meter showed."""
    told = {"taken": DAY, "shown": tuple(p / 100 for p in percent)}
    return MeterValues(**{**told, **given_more})  # type: ignore[arg-type]  # fields are checked by their own types


def test_a_dry_basis_meter_at_25_means_20() -> None:
    """The number on the meter is not the number of the law."""
    reading = read_meter(values(25, 25, 25, 25), basis="dry", temperature_corrected="yes")
    assert (reading.kind, reading.moisture) == ("value", pytest.approx(0.20))


def test_a_basis_nobody_knows_gives_both_ways_and_the_wet_one_for_limits() -> None:
    """The range spans both, the error is wider, and a limit takes the number as wet basis."""
    known = read_meter(values(22, 22, 22, 22), basis="dry", temperature_corrected="yes")
    unknown = read_meter(values(22, 22, 22, 22), basis="not_known", temperature_corrected="yes")
    assert (unknown.low, unknown.high) == (pytest.approx(to_wet_basis(0.22)), pytest.approx(0.22))
    assert unknown.low < unknown.moisture < unknown.high
    assert unknown.safe_moisture == pytest.approx(0.22)
    assert unknown.sd > known.sd


def test_more_pieces_make_it_surer_until_the_meter_itself_is_the_limit() -> None:
    """The error falls with the root of the number, but never below the meter's own."""
    sds = [moisture_sd(float(n)) for n in (1, 4, 16, 1000)]
    assert sds == sorted(sds, reverse=True)
    assert sds[-1] == pytest.approx(0.015, abs=1e-3)


@given(st.floats(1.0, 100.0), st.floats(0.01, 0.1), st.floats(0.0, 0.05))
def test_one_spot_is_never_surer_than_many(pieces: float, spread: float, meter: float) -> None:
    """Pieces picked from one place say less."""
    kept = {"piece_spread": spread, "meter_sd": meter}
    assert moisture_sd(pieces, one_spot=True, **kept) > moisture_sd(pieces, one_spot=False, **kept)


def test_a_meter_checked_in_the_oven_is_surer_and_its_offset_is_taken_off() -> None:
    """It read two points too high at the check."""
    plain = read_meter(values(24, 24, 24, 24), basis="dry", temperature_corrected="yes")
    checked = read_meter(
        values(24, 24, 24, 24), basis="dry", temperature_corrected="yes", oven_checked=True, oven_offset=0.02
    )
    assert checked.sd < plain.sd
    assert checked.moisture == pytest.approx(to_wet_basis(0.22))


def test_frozen_wood_is_refused_as_a_reading() -> None:
    """By the wood's own temperature, and by the past day's air where that was not taken."""
    with pytest.raises(Refused, match="frozen"):
        read_meter(values(18, wood_c=-3.0), basis="dry")
    with pytest.raises(Refused, match="thaw"):
        read_meter(values(18), basis="dry", past_day_air_c=-0.5)


def test_cold_wood_reads_too_dry_and_is_corrected() -> None:
    """At 5 °C one to two points are added, unless the meter does it itself."""
    warm = read_meter(values(20, wood_c=20.0), basis="dry", temperature_corrected="no")
    cold = read_meter(values(20, wood_c=5.0), basis="dry", temperature_corrected="no")
    itself = read_meter(values(20, wood_c=5.0), basis="dry", temperature_corrected="yes")
    assert 0.008 < cold.moisture - warm.moisture < 0.02
    assert itself.moisture == warm.moisture


def test_an_unknown_temperature_is_said() -> None:
    """Twenty degrees were taken."""
    assert any("20 °C" in note for note in read_meter(values(20), basis="dry").notes)


def test_beyond_its_range_a_meter_only_says_wetter_than() -> None:
    """If more than a third of the pieces are beyond 30 % of dry mass, it is "above 23 %"."""
    reading = read_meter(values(45, 38, 28, 27), basis="dry", temperature_corrected="yes")
    assert (reading.kind, reading.safe_moisture) == ("above", None)
    assert reading.moisture == pytest.approx(0.2308, abs=1e-3)


def test_one_piece_of_many_beyond_the_range_widens_the_error() -> None:
    """It stays a value, less sure, and gives no number for a limit."""
    inside = read_meter(values(22, 22, 22, 22, 22), basis="dry", temperature_corrected="yes")
    one_out = read_meter(values(22, 22, 22, 22, 40), basis="dry", temperature_corrected="yes")
    assert (one_out.kind, one_out.safe_moisture) == ("value", None)
    assert one_out.sd > inside.sd


def test_an_old_face_is_less_sure() -> None:
    """And the owner is told to split."""
    fresh = read_meter(values(20, 20, 20), basis="dry", temperature_corrected="yes")
    old = read_meter(values(20, 20, 20, fresh_face=False), basis="dry", temperature_corrected="yes")
    assert old.sd > fresh.sd
    assert any("Split" in note for note in old.notes)


def test_no_values_are_no_reading() -> None:
    """An empty entry is refused."""
    with pytest.raises(OutOfRange, match="at least one"):
        read_meter(values(), basis="dry")


def test_an_oven_sample_gives_moisture_and_says_if_it_was_dry() -> None:
    """Constant mass is complete, still losing is not, one weighing cannot tell."""
    done = oven_sample(OvenSample(wet_g=250.0, dried_g=(200.05, 200.0), hours_between_last=1.0))
    losing = oven_sample(OvenSample(wet_g=250.0, dried_g=(204.0, 200.0), hours_between_last=1.0))
    single = oven_sample(OvenSample(wet_g=250.0, dried_g=(200.0,)))
    assert (done.moisture, done.complete) == (pytest.approx(0.2), "complete")
    assert losing.complete == "not_complete"
    assert single.complete == "cannot_tell"


def test_weighings_too_close_together_cannot_tell() -> None:
    """Ten minutes between them show nothing."""
    hasty = OvenSample(wet_g=250.0, dried_g=(200.0, 200.0), hours_between_last=0.2)
    assert oven_sample(hasty).complete == "cannot_tell"


def test_wood_does_not_gain_mass_in_the_oven() -> None:
    """Such weighings are refused."""
    with pytest.raises(OutOfRange, match="at most the wet mass"):
        oven_sample(OvenSample(wet_g=200.0, dried_g=(210.0,)))


def test_an_unfinished_oven_sample_is_a_lower_bound() -> None:
    """The stack is at least as wet."""
    dry = OvenSample(wet_g=250.0, dried_g=(200.0, 200.0), hours_between_last=1.0)
    losing = OvenSample(wet_g=250.0, dried_g=(204.0, 200.0), hours_between_last=1.0)
    assert oven_reading(DAY, (dry, dry)).kind == "value"
    assert oven_reading(DAY, (dry, losing)).kind == "above"


def test_an_oven_is_surer_than_a_meter_on_as_many_pieces() -> None:
    """It has no meter's error."""
    samples = (OvenSample(wet_g=250.0, dried_g=(200.0, 200.0), hours_between_last=1.0),) * 3
    meter = read_meter(values(25, 25, 25), basis="dry", temperature_corrected="yes")
    assert oven_reading(DAY, samples).sd < meter.sd


def test_marker_pieces_tell_by_their_mass() -> None:
    """1.6 kg of dry wood in a piece of 2 kg are 20 %; more pieces are surer."""
    one, four = marker_reading(DAY, [1.6], [2.0]), marker_reading(DAY, [1.6] * 4, [2.0] * 4)
    assert one.moisture == pytest.approx(0.2)
    assert four.sd < one.sd


def test_a_marker_lighter_than_its_dry_mass_is_refused() -> None:
    """Then one of the two is wrong."""
    with pytest.raises(OutOfRange, match="at least the piece's dry mass"):
        marker_reading(DAY, [2.0], [1.9])
