"""Weather files written out by the tests, each as its format's description says."""

from tests.published.weather_files import reference_year
from woodreeve.weather.series import Hourly

EPW_HEAD = """LOCATION,Testham,-,GBR,made for a test,000000,52.50,-1.25,0.0,120.0
DESIGN CONDITIONS,0
TYPICAL/EXTREME PERIODS,0
GROUND TEMPERATURES,0
HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0
COMMENTS 1,invented
COMMENTS 2,invented
DATA PERIODS,1,1,Data,Sunday,1/1,12/31
"""


def epw_row(month: int, day: int, hour: int, values: dict[int, str]) -> str:
    """One hour of an EPW file; ``values`` by column counted from 0."""
    cells = ["1999", str(month), str(day), str(hour), "60", "A7"] + ["0"] * 29
    for column, text in {6: "5.0", 7: "3.0", 8: "87", 9: "100000", 21: "3.2", **values}.items():
        cells[column] = text
    return ",".join(cells)


def epw_of(year: Hourly, spoilt: dict[int, dict[int, str]] | None = None) -> str:
    """An EPW file of a year; ``spoilt`` maps hours to columns that are to be other than true."""
    moments = year.local_hours().astype("datetime64[h]").astype(object)
    rows = []
    for number, moment in enumerate(moments):
        values = {
            6: f"{year.temperature_c[number]:.1f}",
            8: f"{100 * year.field('relative_humidity')[number]:.0f}",
            13: f"{year.field('sun_w_m2')[number]:.0f}",
            15: f"{year.field('diffuse_w_m2')[number]:.0f}",
            21: f"{year.field('wind_m_s')[number]:.1f}",
            **(spoilt or {}).get(number, {}),
        }
        rows.append(epw_row(moment.month, moment.day, moment.hour + 1, values))
    return EPW_HEAD + "\n".join(rows) + "\n"


def try_2010_lines(rows: int = 8760) -> list[str]:
    """The first lines and hours of a 2010 reference year, made up."""
    head = [
        "TRY99   Testland",
        "Station: Testham                         WMO-Nummer: 00000",
        "Lage: 51°24'N <- B.   6°58'O <- L.   152 Meter über NN",
        "",
        "RG IS MM DD HH N WR WG t p x RF W B D IK A E IL",
        "***",
    ]
    body = [
        f"99  1  1  1  {n % 24 + 1:2d}  8   70     2.5   {n % 24 / 10:5.1f}    985.7     3.8   96  24"
        "    10    20 9   282   -314  9"
        for n in range(rows)
    ]
    return head + body


def essen() -> Hourly:
    """The reference year of Essen, read from the package that holds it."""
    return reference_year(5)
