"""What a stack holds: how much, how wet as far as anybody knows, and how much heat that is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Literal, TypeAlias

from woodreeve.diary.folded import StackContents
from woodreeve.units import Ge, Kilogram, KilowattHour, Le, Moisture, Share, Unit
from woodreeve.wood.heat import energy_per_kg
from woodreeve.wood.kinds import species
from woodreeve.wood.species import green_moisture
from woodreeve.workings import worked
from woodreeve.yard.fields import WoodLimits

__all__ = [
    "DRIEST",
    "Dryness",
    "MoistureNow",
    "StackHeat",
    "dryness",
    "heat_of_dry_wood",
    "moisture_of_stack",
    "spoiling_share",
    "stack_heat",
]

DRIEST: Moisture = 0.15
"""As dry as wood gets outdoors under cover in a damp country: the dry end where nobody has measured.
Judgement, near the equilibrium of wood with air of 80 % humidity. [-]"""

READING_SPREAD = 0.02
"""Half the width of the range of a moisture that was measured on several fresh faces. Judgement. [-]"""

VOLUME_SPREAD = 0.10
"""Half the width of the range of a stack's wood, as a share: heights, gaps and packing. Judgement. [-]"""

Dryness: TypeAlias = Literal["ideal", "fine", "damp", "wet", "not_known"]
"""Against the owner's limits; ``not_known`` where nobody has measured and nothing is reckoned."""

_SPOILS = ("Betula", "Alnus", "Salix", "Populus")
"""Birch, alder, willow and poplar rot first: common practice, no published source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureNow:
    """What is known of a stack's moisture, on the wet basis.

    Parameters
    ----------
    moisture : float
        The central value; where little is known, the middle of the range. [-]
    low, high : float
        The range that holds it in 8 cases of 10. [-]
    known_by : ``"measured"``, ``"above_meter"``, ``"reckoned"`` or ``"not_known"``
        From meter or oven; from a meter that some pieces were too wet for; from the drying model; or from
        nothing but the species.
    measured_on : datetime or None
        When it was last measured.
    """

    moisture: Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
    low: Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
    high: Annotated[float, Unit("-"), Ge(0.0), Le(0.7)]
    known_by: Literal["measured", "above_meter", "reckoned", "not_known"]
    measured_on: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StackHeat:
    """One stack as it counts for the winter.

    Parameters
    ----------
    place : str
        Its name.
    stacked_m3, dry_kg, mass_kg : float
        How much: air between the logs included, oven-dry, and as it is. [m3] [kg] [kg]
    moisture : MoistureNow
        How wet.
    dryness : str
        That, against the limits.
    heat_kwh, low_kwh, high_kwh : float
        Net heat of the wood at that moisture, and its range. [kWh]
    spoils : float
        Share of species that rot soon. [-]
    mix : mapping
        Species to share of the solid volume.
    """

    place: str
    stacked_m3: Annotated[float, Unit("m3")]
    dry_kg: Annotated[float, Unit("kg")]
    mass_kg: Annotated[float, Unit("kg")]
    moisture: MoistureNow
    dryness: Dryness
    heat_kwh: Annotated[float, Unit("kWh")]
    low_kwh: Annotated[float, Unit("kWh")]
    high_kwh: Annotated[float, Unit("kWh")]
    spoils: Annotated[float, Unit("-")]
    mix: Mapping[str, float]


@worked
def moisture_of_stack(contents: StackContents, reckoned: MoistureNow | None = None) -> MoistureNow:
    """What is known of a stack's moisture.

    A moisture reckoned by the drying model (which knows the readings too) comes first, then the last
    reading; for wood by the boiler, which nobody measures there, what was measured where it came from.
    Without any of these it is said to be not known, anywhere between green and dry.

    Parameters
    ----------
    contents : StackContents
        The stack as the diary tells it.
    reckoned : MoistureNow, optional
        What the drying model makes of it.

    Returns
    -------
    MoistureNow
        Wet-basis moisture, its range, and how it is known. [-]

    Raises
    ------
    UnknownName
        If a species is not known.

    Notes
    -----
    A reading's range is 2 points each way: judgement, no published source. Where pieces were wetter than
    the meter can tell, the moisture is anywhere from the reading to that of green wood.

    References
    ----------
    .. [1] Green moisture as in :func:`woodreeve.wood.species.green_moisture`.
    """
    if reckoned is not None:
        return reckoned
    green = max(green_moisture(dict(contents.mix)), DRIEST)
    reading = contents.last_reading
    if reading is None and contents.stage == "boiler_room" and contents.carried_moisture is not None:
        return _measured(contents.carried_moisture, None)
    if reading is None or reading.moisture is None:
        return MoistureNow(
            moisture=(green + DRIEST) / 2.0, low=min(DRIEST, green) + 0.0, high=green, known_by="not_known"
        )
    if reading.at_least:
        green = max(green, reading.moisture)
        return MoistureNow(
            moisture=(reading.moisture + green) / 2.0,
            low=reading.moisture + 0.0,
            high=green,
            known_by="above_meter",
            measured_on=reading.happened,
        )
    return _measured(reading.moisture, reading.happened)


def _measured(moisture: float, on: datetime | None) -> MoistureNow:
    return MoistureNow(
        moisture=moisture + 0.0,
        low=max(moisture - READING_SPREAD, 0.0),
        high=min(moisture + READING_SPREAD, 0.7),
        known_by="measured",
        measured_on=on,
    )


@worked
def dryness(now: MoistureNow, limits: WoodLimits) -> Dryness:
    """Judge a moisture against the owner's limits.

    Parameters
    ----------
    now : MoistureNow
        What is known.
    limits : WoodLimits
        At or below ``ideal`` it is ideal, at or below ``fine`` fine, above ``wet`` too wet, damp between.

    Returns
    -------
    str
        ``ideal``, ``fine``, ``damp``, ``wet`` or ``not_known``; damp at best where pieces were wetter than
        the meter can tell.

    Notes
    -----
    The usual limits, 20, 25 and 30 % on the wet basis, are common practice, no published source: the
    maker's limit and the law's come first.

    References
    ----------
    .. [1] The owner's own limits in the holding.
    """
    if now.known_by == "not_known":
        return "not_known"
    # A hundredth of a point either way is no reason to call dry wood damp.
    moisture = round(now.moisture, 4)
    if now.known_by != "above_meter" and moisture <= limits.fine:
        return "ideal" if moisture <= limits.ideal else "fine"
    return "damp" if moisture <= limits.wet else "wet"


@worked
def spoiling_share(wood: Mapping[str, float]) -> Share:
    r"""Share of a wood that rots soon: birch, alder, willow and poplar.

    Such wood is burnt before oak and ash of the same dryness.

    Parameters
    ----------
    wood : mapping
        Species to share of the solid volume.

    Returns
    -------
    Share
        The sum of the shares of those four. [-]

    Raises
    ------
    UnknownName
        If a species is not known.

    Notes
    -----
    .. math:: s = \sum_{i \in \{\text{birch, alder, willow, poplar}\}} x_i

    References
    ----------
    .. [1] Common practice, no published source.
    """
    return float(sum(share for name, share in wood.items() if species(name).genus in _SPOILS))


@worked
def heat_of_dry_wood(dry_kg: Kilogram, wood: Mapping[str, float], moisture: Moisture) -> KilowattHour:
    r"""Net heat of an amount of wood told by its oven-dry weight.

    The dry weight does not change while a stack dries; the heat grows, because less water leaves as steam.

    Parameters
    ----------
    dry_kg : Kilogram
        Oven-dry weight. [kg]
    wood : mapping
        Species to share of the solid volume.
    moisture : Moisture
        Water over wet mass when it is burnt. [-] From 0 to 0.70.

    Returns
    -------
    KilowattHour
        Net heat. [kWh]

    Raises
    ------
    OutOfRange
        If a number lies outside its range.
    UnknownName
        If a species is not known.

    Notes
    -----
    .. math:: Q = \frac{m_0}{1 - M} \, e(M)

    References
    ----------
    .. [1] As :func:`woodreeve.wood.heat.energy_per_kg`.
    """
    return dry_kg / (1.0 - moisture) * energy_per_kg(wood, moisture)


@worked
def stack_heat(contents: StackContents, limits: WoodLimits, reckoned: MoistureNow | None = None) -> StackHeat:
    """What one stack counts for: wood, moisture as far as known, and heat.

    Parameters
    ----------
    contents : StackContents
        The stack as the diary tells it.
    limits : WoodLimits
        How wet is too wet.
    reckoned : MoistureNow, optional
        What the drying model makes of its moisture.

    Returns
    -------
    StackHeat
        Amounts, moisture, dryness and net heat with its range. [kWh]

    Raises
    ------
    UnknownName
        If a species is not known.

    Notes
    -----
    The range of the heat takes the wetter end of the moisture with 10 % less wood, and the drier end
    with 10 % more: judgement, no published source.

    References
    ----------
    .. [1] As :func:`heat_of_dry_wood` and :func:`moisture_of_stack`.
    """
    wood = dict(contents.mix)
    now = moisture_of_stack(contents, reckoned)
    return StackHeat(
        place=contents.place,
        stacked_m3=contents.stacked_m3 + 0.0,
        dry_kg=contents.dry_kg + 0.0,
        mass_kg=contents.dry_kg / (1.0 - now.moisture),
        moisture=now,
        dryness=dryness(now, limits),
        heat_kwh=heat_of_dry_wood(contents.dry_kg, wood, now.moisture),
        low_kwh=heat_of_dry_wood(contents.dry_kg * (1.0 - VOLUME_SPREAD), wood, now.high),
        high_kwh=heat_of_dry_wood(contents.dry_kg * (1.0 + VOLUME_SPREAD), wood, now.low),
        spoils=spoiling_share(wood),
        mix=wood,
    )
