"""Readers of weather files: what they make of good files, and how they speak of bad ones."""

import io
import json
import subprocess
import sys
from datetime import UTC, datetime
from importlib.resources import files

import numpy as np
import pytest

from tests.weather.weather_texts import EPW_HEAD, epw_of, essen, try_2010_lines
from woodreeve.errors import OutOfRange, Unreadable
from woodreeve.weather.readers import read_csv, read_dwd_try, read_epw, read_tmy


def _text(lines: list[str]) -> io.StringIO:
    return io.StringIO("\n".join(lines) + "\n")


class TestEpw:
    """EnergyPlus weather files."""

    def test_a_year_comes_back_hour_by_hour(self) -> None:
        """Temperature, humidity, wind and sun to the digits of the format."""
        year = essen()
        read = read_epw(io.StringIO(epw_of(year)))
        assert read.temperature_c == pytest.approx(year.temperature_c, abs=0.051)
        assert read.field("relative_humidity") == pytest.approx(year.field("relative_humidity"), abs=0.0051)
        assert read.field("wind_m_s") == pytest.approx(year.field("wind_m_s"), abs=0.051)
        assert read.field("sun_w_m2") == pytest.approx(year.field("sun_w_m2"), abs=0.51)
        assert (read.latitude_deg, read.longitude_deg, read.elevation_m) == (52.5, -1.25, 120.0)
        assert read.month_numbers()[0] == 1
        assert read.hour_of_day()[0] == 0.0
        assert read.rain_mm is None

    def test_short_gaps_are_bridged_and_codes_are_not_taken_for_weather(self) -> None:
        """99.9 is no heat wave."""
        spoilt = {100: {6: "99.9"}, 101: {6: "99.9"}, 200: {13: "9999"}}
        read = read_epw(io.StringIO(epw_of(essen(), spoilt)))
        assert read.temperature_c.max() < 40.0
        assert read.field("sun_w_m2").max() < 1200.0

    def test_a_long_gap_is_refused_with_its_line(self) -> None:
        """A day without temperature cannot be guessed."""
        spoilt = {hour: {6: "99.9"} for hour in range(100, 124)}
        with pytest.raises(Unreadable, match=r"Line 109: temperature_c is missing for 24 hours"):
            read_epw(io.StringIO(epw_of(essen(), spoilt)))

    def test_a_word_among_numbers_is_named_with_line_and_column(self) -> None:
        """The owner can open the file and look."""
        text = epw_of(essen(), {10: {21: "calm"}})
        with pytest.raises(Unreadable, match=r"Line 19, column 22 \(wind speed\): 'calm' is not a number"):
            read_epw(io.StringIO(text))

    @pytest.mark.parametrize(
        ("text", "said"),
        [
            ("hello\n", "Line 1: an EPW file begins with LOCATION"),
            ("", "Line 1"),
            (EPW_HEAD, "ends before the first hour"),
            (EPW_HEAD + "1999,1,1,1\n", "Line 9: 4 columns"),
            (EPW_HEAD.replace("52.50", "north") + "x\n", "Line 9|latitude"),
        ],
    )
    def test_what_is_no_such_file_is_said_so(self, text: str, said: str) -> None:
        """One sentence each."""
        with pytest.raises(Unreadable, match=said):
            read_epw(io.StringIO(text))

    def test_part_of_a_year_is_refused(self) -> None:
        """Half a file is a broken download."""
        text = "\n".join(epw_of(essen()).splitlines()[:5000])
        with pytest.raises(Unreadable, match="4992 hourly rows"):
            read_epw(io.StringIO(text))


class TestDwdTry:
    """German test reference years."""

    def test_global_sun_is_beam_and_diffuse_together(self) -> None:
        """And hour 1 is the hour that begins at local midnight."""
        read = read_dwd_try(_text(try_2010_lines()))
        assert set(read.field("sun_w_m2").tolist()) == {30.0}
        assert read.temperature_c[:3].tolist() == [0.0, 0.1, 0.2]
        assert read.start == datetime(2000, 12, 31, 23, tzinfo=UTC)
        assert read.place() == pytest.approx((51.4, 6.9667), abs=1e-3)
        assert read.elevation_m == 152.0

    def test_a_header_of_broken_letters_does_not_matter(self) -> None:
        """Copies differ in their encoding."""
        spoilt = [line.encode("utf-8").decode("latin-1") for line in try_2010_lines()]
        assert read_dwd_try(_text(spoilt)).place() == pytest.approx((51.4, 6.9667), abs=1e-3)

    def test_the_copied_hour_before_the_first_is_dropped(self) -> None:
        """Some copies have 8761 rows."""
        lines = try_2010_lines()
        doubled = [*lines[:6], lines[-1], *lines[6:]]
        assert np.array_equal(
            read_dwd_try(_text(doubled)).temperature_c, read_dwd_try(_text(lines)).temperature_c
        )

    def test_the_edition_of_2015_is_told_apart_by_its_columns(self) -> None:
        """Other columns in another order; its place is given by hand."""
        head = [
            "Rechtswert: 4012500",
            "RW  HW  MM DD HH     t    p  WR   WG N    x  RF    B    D   A    E IL",
            "***",
        ]
        body = [
            f"4012500 3010500 1 1 {n % 24 + 1} 7.5 990 200 4.1 8 5.0 80 100 50 300 -330 1"
            for n in range(8760)
        ]
        read = read_dwd_try(_text(head + body), latitude_deg=50.8, longitude_deg=6.1)
        assert set(read.temperature_c.tolist()) == {7.5}
        assert set(read.field("sun_w_m2").tolist()) == {150.0}
        assert set(read.field("relative_humidity").tolist()) == {0.8}
        assert read.place() == (50.8, 6.1)

    def test_hours_out_of_order_are_refused_with_their_line(self) -> None:
        """A lost row would shift the sun."""
        lines = try_2010_lines()
        del lines[30]
        lines.append(lines[-1])
        with pytest.raises(Unreadable, match="Line 31, column 5"):
            read_dwd_try(_text(lines))

    def test_a_word_among_numbers_is_named_with_line_and_column(self) -> None:
        """As everywhere."""
        lines = try_2010_lines()
        lines[40] = lines[40].replace(" 985.7", "985.7").replace("   2.5", "   two")
        with pytest.raises(Unreadable, match=r"Line 41, column 8 \(WG\): 'two'"):
            read_dwd_try(_text(lines))

    @pytest.mark.parametrize(
        ("text", "said"), [("a\nb\n", r"No line of \*\*\*"), ("a b\n***\n1 2\n", "Line 1")]
    )
    def test_what_is_no_such_file_is_said_so(self, text: str, said: str) -> None:
        """One sentence each."""
        with pytest.raises(Unreadable, match=said):
            read_dwd_try(io.StringIO(text))


class TestTmy:
    """American and PVGIS typical years."""

    def test_the_tmy3_inside_the_solar_library_reads_whole(self) -> None:
        """Greensboro, in its own standard time."""
        with (files("pvlib") / "data" / "723170TYA.CSV").open(encoding="utf-8") as stream:
            year = read_tmy(stream)
        assert year.hours == 8760
        assert year.utc_offset_h == -5.0
        assert year.place() == pytest.approx((36.1, -79.95))
        noon = year.by_day("sun_w_m2").mean(axis=0)
        assert 11 <= int(np.argmax(noon)) <= 12

    def test_pvgis_json_is_in_universal_time(self) -> None:
        """Rows as the service writes them, from 00:00 UTC."""
        hours = [
            {
                "time(UTC)": f"2010{month:02d}{day:02d}:{hour:02d}00",
                "T2m": 4.0 + hour,
                "RH": 80.0,
                "G(h)": 10.0,
                "Gb(n)": 0.0,
                "Gd(h)": 5.0,
                "IR(h)": 300.0,
                "WS10m": 3.0,
                "WD10m": 200.0,
                "SP": 100000.0,
            }
            for month, days in enumerate((31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31), 1)
            for day in range(1, days + 1)
            for hour in range(24)
        ]
        document = {
            "inputs": {"location": {"latitude": 45.0, "longitude": 8.0, "elevation": 250.0}},
            "outputs": {
                "months_selected": [{"month": m, "year": 2010} for m in range(1, 13)],
                "tmy_hourly": hours,
            },
            "meta": {"inputs": {}},
        }
        year = read_tmy(io.StringIO(json.dumps(document)), form="pvgis_json")
        assert year.temperature_c[:3].tolist() == [4.0, 5.0, 6.0]
        assert (year.utc_offset_h, year.latitude_deg, year.elevation_m) == (0.0, 45.0, 250.0)
        assert year.field("diffuse_w_m2").max() == 5.0

    def test_pvgis_csv_reads_like_its_json(self) -> None:
        """The same year in the other form; the irradiance offset line may be there or not."""
        head = (
            "Latitude (decimal degrees): 45.000\nLongitude (decimal degrees): 8.000\nElevation (m): 250.0\n"
        )
        months = "month,year\n" + "".join(f"{m},2010\n" for m in range(1, 13))
        columns = "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\n"
        starts = np.datetime64("2010-01-01T00") + np.arange(8760) * np.timedelta64(1, "h")
        rows = "".join(
            f"{text[:10].replace('-', '')}:{text[11:13]}00,{4 + int(text[11:13])},80,10,0,5,300,3,200,1e5\n"
            for text in map(str, starts)
        )
        for extra in ("", "Irradiance Time Offset (h): 0.1761\n"):
            year = read_tmy(io.StringIO(head + extra + months + columns + rows), form="pvgis_csv")
            assert year.temperature_c[:3].tolist() == [4.0, 5.0, 6.0]
            assert (year.longitude_deg, year.elevation_m) == (8.0, 250.0)

    @pytest.mark.parametrize("form", ["tmy3", "pvgis_csv", "pvgis_json"])
    def test_what_is_no_such_file_is_said_so(self, form: str) -> None:
        """The form is named."""
        with pytest.raises(Unreadable, match=form):
            read_tmy(io.StringIO("nothing,of,this\n1,2,3\n"), form=form)  # type: ignore[arg-type]  # from a list


class TestCsv:
    """Plain tables."""

    def test_a_table_with_times_may_have_any_length(self) -> None:
        """Times without an offset are local standard time."""
        read = read_csv(
            io.StringIO("time,temperature_c,rain_mm\n2026-01-31 22:00,1.5,0\n2026-01-31 23:00,2.5,0.2\n"),
            utc_offset_h=1.0,
        )
        assert read.temperature_c.tolist() == [1.5, 2.5]
        assert read.start == datetime(2026, 1, 31, 21, tzinfo=UTC)
        assert read.month_numbers().tolist() == [1, 1]

    def test_semicolons_decimal_commas_and_percent_are_understood(self) -> None:
        """As spreadsheets on the Continent write."""
        rows = "".join("3,5;85\n" for _ in range(8760))
        read = read_csv(io.StringIO("T;RH\n" + rows))
        assert set(read.temperature_c.tolist()) == {3.5}
        assert set(read.field("relative_humidity").tolist()) == {0.85}

    @pytest.mark.parametrize(
        ("text", "said"),
        [
            ("temperature_c\n", "Line 2: the table has no rows"),
            ("warmth\n3\n", "Line 1: no column is called temperature_c"),
            ("temperature_c\nmild\n", r"Line 2, column 1 \(temperature_c\): 'mild'"),
            ("temperature_c\n3\n4\n", "2 hourly rows"),
            ("time,temperature_c\nyesterday,3\n", r"Line 2, column 1 \(time\)"),
            ("time,temperature_c\n2026-01-01 00:00,3\n2026-01-01 02:00,3\n", "Line 3.*not one hour after"),
        ],
    )
    def test_faults_are_told_with_their_place(self, text: str, said: str) -> None:
        """Line and column."""
        with pytest.raises(Unreadable, match=said):
            read_csv(io.StringIO(text))

    def test_fahrenheit_is_noticed(self) -> None:
        """No place on Earth has 95 °C."""
        with pytest.raises(OutOfRange, match="temperature_c of hour 1"):
            read_csv(io.StringIO("time,temperature_c\n2026-07-01 00:00,95\n"))


def test_reading_a_table_or_a_reference_year_loads_no_heavy_library() -> None:
    """Pandas and the solar library cost half a second; the winter answer does without."""
    code = (
        "import io, sys\n"
        "from woodreeve.weather.readers import read_csv\n"
        "from woodreeve.weather.typical import Normals, typical_year\n"
        "typical_year(Normals(temperature_c=(5.0,) * 12))\n"
        "read_csv(io.StringIO('time,temperature_c\\n2026-01-01 00:00,3\\n'))\n"
        "print(sorted({'pandas', 'pvlib', 'scipy'} & set(sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
