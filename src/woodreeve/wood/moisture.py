"""Water in wood: its two bases, where the air would bring it, and what a pin meter's figure means."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from woodreeve.units import Ge, Le, Moisture, MoistureDryBasis, OneOrMany, Unit
from woodreeve.wood.species import species
from woodreeve.workings import worked

__all__ = [
    "COLDEST_OF_TABLE",
    "FIBRE_SATURATION",
    "METER_HIGHEST",
    "METER_LOWEST",
    "MeterBasis",
    "MeterReading",
    "equilibrium_moisture",
    "meter_reading",
    "to_dry_basis",
    "to_wet_basis",
]

FIBRE_SATURATION: MoistureDryBasis = 0.30
"""Moisture at which cell walls are full and cells empty, mean of species; over dry mass. [-]

"Wood Handbook", FPL-GTR-190, 2010, chapter 4.
"""

COLDEST_OF_TABLE = -1.1
"""Coldest row of the table of equilibrium moistures (30 °F). [degC]"""

METER_HIGHEST: MoistureDryBasis = 0.30
"""Above this a pin meter's resistance follows moisture no longer; over dry mass. [-]

James 1988, FPL-GTR-6, abstract.
"""

METER_LOWEST: MoistureDryBasis = 0.07
"""Below this the resistance is too great to measure; over dry mass, from memory (6 to 7 %). [-]"""

_COLD_CORRECTION = (0.0010, 0.0015)
"""Least and most correction of a meter for each kelvin away from its own temperature; over dry mass. [1/K]

Forsén & Tarvainen 2000, VTT Publications 420, abstract: 0.10 to 0.15 points.
"""

MoistureOf: TypeAlias = Annotated[OneOrMany, Unit("-"), Ge(0.0), Le(0.7)]
"""Water over wet mass, one or many."""
MoistureDryBasisOf: TypeAlias = Annotated[OneOrMany, Unit("-"), Ge(0.0), Le(2.34)]
"""Water over dry mass, one or many."""
AirOf: TypeAlias = Annotated[OneOrMany, Unit("degC"), Ge(-60.0), Le(100.0)]
"""Air temperature, one or many."""
HumidityOf: TypeAlias = Annotated[OneOrMany, Unit("-"), Ge(0.0), Le(1.0)]
"""Relative humidity, one or many."""

MeterBasis = Literal["dry", "wet", "not_known"]
MeterCelsius = Annotated[float, Unit("degC"), Ge(-30.0), Le(60.0)]


@worked
def to_dry_basis(moisture: MoistureOf[OneOrMany]) -> MoistureDryBasisOf[OneOrMany]:
    r"""Moisture over dry mass, from moisture over wet mass.

    Fuel law and fuel standards speak of the wet basis, pin meters and drying tables mostly of the dry one:
    20 % wet and 25 % dry are the same wood.

    Parameters
    ----------
    moisture : Moisture
        Water over wet mass, :math:`M`; one value or many. [-] From 0 to 0.70.

    Returns
    -------
    MoistureDryBasis
        Water over dry mass, :math:`u`. [-]

    Raises
    ------
    OutOfRange
        If the moisture lies outside the range given above.

    Notes
    -----
    .. math:: u = \frac{M}{1 - M}

    References
    ----------
    .. [1] Definition. The pair 20 % wet, 25 % dry is printed in a German brochure on small boilers,
       cld.bz/bookdata/5SreWFu, page 16.

    Examples
    --------
    >>> to_dry_basis(0.20)
    0.25
    """
    return moisture / (1.0 - moisture)


@worked
def to_wet_basis(moisture_dry_basis: MoistureDryBasisOf[OneOrMany]) -> MoistureOf[OneOrMany]:
    r"""Moisture over wet mass, from moisture over dry mass.

    Parameters
    ----------
    moisture_dry_basis : MoistureDryBasis
        Water over dry mass, :math:`u`; one value or many. [-] From 0 to 2.34.

    Returns
    -------
    Moisture
        Water over wet mass, :math:`M`. [-]

    Raises
    ------
    OutOfRange
        If the moisture lies outside the range given above.

    Notes
    -----
    .. math:: M = \frac{u}{1 + u}

    References
    ----------
    .. [1] Definition; see :func:`to_dry_basis`.

    Examples
    --------
    >>> to_wet_basis(0.25)
    0.2
    """
    return moisture_dry_basis / (1.0 + moisture_dry_basis)


@worked
def equilibrium_moisture(
    air_c: AirOf[OneOrMany], relative_humidity: HumidityOf[OneOrMany]
) -> MoistureDryBasisOf[OneOrMany]:
    r"""Moisture at which wood settles when it lies in one air for long.

    A covered stack in open air tends to 14 to 16 % of wet mass in a damp climate. One still above 20 % is
    unfinished, not at its limit.

    Parameters
    ----------
    air_c : Celsius
        Air temperature, :math:`T`; one value or many. [degC] From -60 to 100; below -1.1, the coldest row
        of the table, the figure of -1.1 is given.
    relative_humidity : RelativeHumidity
        Relative humidity of the air, :math:`h`; one value or many. [-] From 0 to 1.

    Returns
    -------
    MoistureDryBasis
        Water over dry mass, :math:`u`. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given above.

    Notes
    -----
    .. math:: u = \frac{18}{W} \left[ \frac{K h}{1 - K h}
              + \frac{K_1 K h + 2 K_1 K_2 K^2 h^2}{1 + K_1 K h + K_1 K_2 K^2 h^2} \right]

    .. math:: W = 349 + 1.29 T + 0.0135 T^2, \quad K = 0.805 + 0.000736 T - 0.00000273 T^2

    .. math:: K_1 = 6.27 - 0.00938 T - 0.000303 T^2, \quad K_2 = 1.91 + 0.0407 T - 0.000293 T^2

    Reproduces the eight rows from -1.1 to 37.8 °C of the table within its rounding, 0.1 point. Rain is not in
    it, species differ a little, and the authors' own laboratory calls the data good enough for drying
    practice only (FPL-GTR-229).

    References
    ----------
    .. [1] Hailwood and Horrobin 1946; coefficients of Simpson 1998, FPL-RN-0268, read in GitHub
       BhavShah01/ConSciR, R/calcEMC_wood.R.
    .. [2] "Wood Handbook", FPL-GTR-190, 2010, p. 4-3 and Table 4-2.

    Examples
    --------
    >>> round(equilibrium_moisture(10.0, 0.70), 3)
    0.134
    """
    # The greater of the two temperatures, written so that it serves one value and arrays alike.
    t = (air_c + COLDEST_OF_TABLE + abs(air_c - COLDEST_OF_TABLE)) / 2.0
    w = 349.0 + 1.29 * t + 0.0135 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = (0.805 + 0.000736 * t - 0.00000273 * t * t) * relative_humidity
    loose = kh / (1.0 - kh)
    bound = (k1 * kh + 2.0 * k1 * k2 * kh * kh) / (1.0 + k1 * kh + k1 * k2 * kh * kh)
    return 18.0 / w * (loose + bound)


MeterFigure = Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterReading:
    """What a pin meter's figure says of the wood, on both bases.

    ``moisture``, ``low`` and ``high`` are over wet mass. They are ``None`` where the meter cannot know:
    above its range only ``low`` stands. ``if_dry_basis`` and ``if_wet_basis`` read the same figure both
    ways, so that a meter of unknown basis shows what hangs on it. ``safe_moisture`` is the one to hold
    against a limit when selling; ``None`` means that no claim can be made.
    """

    reading: MeterFigure
    basis: MeterBasis
    verdict: Literal["within", "above_range", "below_range"]
    reported: str
    moisture: Moisture | None
    low: Moisture | None
    high: Moisture | None
    low_dry_basis: MoistureDryBasis | None
    high_dry_basis: MoistureDryBasis | None
    if_dry_basis: Moisture | None
    if_wet_basis: Moisture | None
    safe_moisture: Moisture | None
    notes: tuple[str, ...]


@worked
def meter_reading(
    reading: MeterFigure,
    basis: MeterBasis = "not_known",
    wood_c: MeterCelsius = 20.0,
    species_name: str | None = None,
    set_to_c: MeterCelsius = 20.0,
) -> MeterReading:
    r"""Moisture of the wood from the figure on a pin meter.

    A meter showing 25 % is, on nearly every meter, wood at the 20 % limit: most show the dry basis. Where
    the basis is not known both readings are given, and the wetter one counts for any limit.

    Parameters
    ----------
    reading : float
        The figure shown. [-] From 0 to 1.
    basis : str
        What the meter's figure is a share of: ``dry``, ``wet`` or ``not_known``.
    wood_c : float
        Temperature of the wood, :math:`T`. [degC] From -30 to 60.
    species_name : str, optional
        The species measured, for the remarks that go with it.
    set_to_c : float
        The temperature the meter assumes, :math:`T_0`. [degC] From -30 to 60.

    Returns
    -------
    MeterReading
        The moisture with its range, on both bases, and remarks.

    Raises
    ------
    OutOfRange
        If a number lies outside the range given above.
    UnknownName
        If the basis or the species is not known.

    Notes
    -----
    Cold wood conducts less, so a meter reads low and the correction is added, on the dry basis:

    .. math:: u = u_\mathrm{shown} + k (T_0 - T), \qquad k = 0.10 \ldots 0.15\ \text{points/K}

    Resistance follows moisture only below about 30 % of dry mass; above that the answer is "more than 30 %",
    never a number. Below about 7 % (from memory) it is "less than 7 %". The range given is that of the
    correction and of the basis alone: a good species curve adds about 1 point either way. Split a log,
    measure the new inner face, take several logs. Proof in law is the oven, not a meter.

    References
    ----------
    .. [1] Forsén & Tarvainen 2000, "Accuracy and functionality of hand held wood moisture content meters",
       VTT Publications 420, abstract (temperature, species).
    .. [2] James 1988, "Electric Moisture Meters for Wood", FPL-GTR-6, abstract (valid below 30 %).
    .. [3] Fernández-Golfín et al., abstract, revistas.inia.es (1 point with a species curve).

    Examples
    --------
    >>> meter_reading(0.25, "dry").moisture
    0.2
    >>> both = meter_reading(0.20)
    >>> round(both.if_dry_basis, 3), both.if_wet_basis, both.safe_moisture
    (0.167, 0.2, 0.2)
    >>> meter_reading(0.45, "dry").reported
    '>30 %'
    """
    as_dry = None if basis == "wet" else _corrected(reading, wood_c, set_to_c)
    as_wet = None if basis == "dry" else _corrected(_dry(min(reading, _SOAKED)), wood_c, set_to_c)
    ways = [way for way in (as_dry, as_wet) if way is not None]
    low, high = min(way[0] for way in ways), max(way[1] for way in ways)
    above, below = high > METER_HIGHEST + _ROUNDING, low < METER_LOWEST - _ROUNDING
    low, high = min(low, METER_HIGHEST), max(high, METER_LOWEST)
    return MeterReading(
        reading=reading,
        basis=basis,
        verdict="above_range" if above else "below_range" if below else "within",
        reported=_ABOVE if above else _BELOW if below else "",
        moisture=None if above or below else (_wet(low) + _wet(high)) / 2.0,
        low=None if below else _wet(low),
        high=None if above else _wet(high),
        low_dry_basis=None if below else low,
        high_dry_basis=None if above else high,
        if_dry_basis=_middle(as_dry),
        if_wet_basis=_middle(as_wet),
        safe_moisture=None if above else _wet(high),
        notes=tuple(_notes(basis, wood_c, set_to_c, species_name, above, below)),
    )


_ABOVE, _BELOW = f">{100 * METER_HIGHEST:.0f} %", f"<{100 * METER_LOWEST:.0f} %"
_SOAKED = 0.69
"""A wet-basis figure at and above which a meter is out of its range whatever its temperature. [-]"""
_ROUNDING = 1e-9


def _wet(moisture_dry_basis: float) -> float:
    return moisture_dry_basis / (1.0 + moisture_dry_basis)


def _dry(moisture: float) -> float:
    return moisture / (1.0 - moisture)


def _corrected(shown_dry_basis: float, wood_c: float, set_to_c: float) -> tuple[float, float]:
    """The reading on the dry basis, corrected for the wood's temperature: least and most."""
    ends = sorted(max(0.0, shown_dry_basis + k * (set_to_c - wood_c)) for k in _COLD_CORRECTION)
    return ends[0], ends[1]


def _middle(way: tuple[float, float] | None) -> float | None:
    """The middle on the wet basis, unless it lies above what a meter can know."""
    if way is None:
        return None
    middle = (way[0] + way[1]) / 2.0
    return _wet(middle) if middle <= METER_HIGHEST + _ROUNDING else None


def _notes(
    basis: MeterBasis, wood_c: float, set_to_c: float, species_name: str | None, above: bool, below: bool
) -> list[str]:
    notes = []
    if basis == "not_known":
        notes.append(
            "The meter's basis is not known: both readings are shown, and the wetter one counts against "
            "a limit. Its handbook says whether the figure is a share of dry or of wet mass."
        )
    if above:
        notes.append("Above about 30 % of dry mass a pin meter only knows that the wood is wetter than that.")
    if below:
        notes.append("Below about 7 % of dry mass a pin meter only knows that the wood is drier than that.")
    if abs(set_to_c - wood_c) >= 5.0:
        notes.append(
            "The wood was colder or warmer than the meter assumes: 0.10 to 0.15 points for each kelvin."
        )
    if species_name is not None:
        kind = species(species_name)
        if kind.key == "maritime_pine":
            notes.append(
                "Maritime pine reads differently from other pines: use the meter's own setting for it."
            )
        elif kind.latin:
            notes.append(
                f"Set the meter to {kind.english} where it has that setting: species shift the reading."
            )
    return notes
