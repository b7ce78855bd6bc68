"""The owner's own measures: what a barrow or a boiler fill weighs, by its litres or by the scales."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt
from typing import Annotated, Literal, TypeAlias

from woodreeve.diary.amounts import ASSUMED_MOISTURE, ContainerSize, form_of
from woodreeve.errors import WrongKind
from woodreeve.units import Ge, Gt, Kilogram, Le, Moisture, Unit
from woodreeve.wood import measure
from woodreeve.wood.species import Wood
from woodreeve.workings import worked
from woodreeve.yard.fields import Container, Weighing

__all__ = [
    "LITRES_SPREAD",
    "FillMass",
    "Filled",
    "container_sizes",
    "fill_mass",
    "fill_mass_from_litres",
    "fill_mass_from_weighings",
    "fills_of",
]

Filled: TypeAlias = Literal["stacked", "loose"]

LITRES_SPREAD = 0.2
"""Half the width of the range of a fill that is known by its litres only, as a share. Judgement: from fill to
fill and log to log; three weighings narrow it. [-]"""

# Student's t that leaves one tenth on each side, by the number of weighings less one (any table of it).
_T_80 = (3.078, 1.886, 1.638, 1.533, 1.476, 1.440, 1.415, 1.397, 1.383, 1.372)
_T_80_MANY = 1.282

FillLitres = Annotated[float, Unit("L"), Gt(0.0), Le(100_000.0)]
LogCm = Annotated[float, Unit("cm"), Ge(5.0), Le(150.0)]
Fills = Annotated[float, Unit("-"), Ge(0.0), Le(1e7)]


@dataclass(frozen=True, slots=True, kw_only=True)
class FillMass:
    """What one fill of a container weighs.

    Parameters
    ----------
    mass_kg, low_kg, high_kg : float
        Weight of the wood, and the range that holds a usual fill in 8 cases of 10. [kg]
    known_by : ``"litres"`` or ``"weighings"``
        How it is known.
    weighings : int
        How many weighings went in.
    """

    mass_kg: Annotated[float, Unit("kg")]
    low_kg: Annotated[float, Unit("kg")]
    high_kg: Annotated[float, Unit("kg")]
    known_by: Literal["litres", "weighings"]
    weighings: int = 0


@worked
def container_sizes(containers: Iterable[Container]) -> tuple[ContainerSize, ...]:
    r"""The owner's containers as the diary wants them.

    Parameters
    ----------
    containers : iterable of Container
        As the holding describes them.

    Returns
    -------
    tuple of ContainerSize
        With the mean weight of each species that was weighed, all brought to one moisture.

    Notes
    -----
    .. math:: m = \frac{1}{n} \sum_{i=1}^{n} m_i \frac{1 - M_i}{1 - M_0}

    with :math:`M_0` = 0.20, the moisture that is also assumed where a weighing tells none.

    References
    ----------
    .. [1] Plain arithmetic: the dry matter of a weighing stays what it is.
    """
    return tuple(
        ContainerSize(
            name=one.name,
            litres=one.litres,
            filled=one.filled,
            mass_kg=_mean_weights(one.weighings),
            log_cm=one.log_length_cm,
        )
        for one in containers
    )


def _loose_form(log_cm: float) -> measure.LooseForm:
    """The tipped form, among those that were measured, that is nearest to these logs."""
    lengths: dict[float, measure.LooseForm] = {25.0: "split_25cm", 33.0: "split_33cm", 50.0: "split_50cm"}
    return lengths[min(lengths, key=lambda length: abs(length - log_cm))]


def _mean_weights(weighings: Iterable[Weighing]) -> dict[str, float]:
    by_species: dict[str, list[float]] = {}
    for one in weighings:
        as_weighed = ASSUMED_MOISTURE if one.moisture is None else one.moisture
        at_usual = one.kg * (1.0 - as_weighed) / (1.0 - ASSUMED_MOISTURE)
        by_species.setdefault(one.species, []).append(at_usual)
    return {species: sum(masses) / len(masses) for species, masses in by_species.items()}


@worked
def fill_mass_from_litres(
    litres: FillLitres, filled: Filled, wood: Wood, moisture: Moisture, log_cm: LogCm = 33.0
) -> FillMass:
    r"""Weight of one fill, reckoned from the container's litres.

    Good enough to start with; a few fills on the bathroom scales are worth more than any table.

    Parameters
    ----------
    litres : float
        Inside volume of the container, filled as usual. [L]
    filled : str
        ``"stacked"`` if the logs are laid, ``"loose"`` if they are tipped in.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    log_cm : float
        Length of the logs. [cm] From 5 to 150.

    Returns
    -------
    FillMass
        Weight with its range. [kg]

    Raises
    ------
    OutOfRange
        If a number lies outside its range.
    UnknownName
        If the species is not known.

    Notes
    -----
    .. math:: m = \frac{V}{1000} \, s \, \frac{\rho_b}{1 - M}

    with :math:`s` the solid share of wood that is stacked or tipped and :math:`\rho_b` the basic density.
    The range is 20 % each way: judgement, no published source.

    References
    ----------
    .. [1] Solid shares and densities as in :mod:`woodreeve.wood.measure` and :mod:`woodreeve.wood.species`.
    """
    cubic_metres = litres / 1000.0
    if filled == "stacked":
        solid_m3 = measure.solid_from_stacked(cubic_metres, form_of("split", log_cm), wood)
    else:
        solid_m3 = measure.solid_from_loose(cubic_metres, _loose_form(log_cm), wood)
    mass = measure.mass_of_solid(wood, solid_m3, moisture)
    return FillMass(
        mass_kg=mass,
        low_kg=mass * (1.0 - LITRES_SPREAD),
        high_kg=mass * (1.0 + LITRES_SPREAD),
        known_by="litres",
    )


@worked
def fill_mass_from_weighings(weighings: tuple[Weighing, ...], wood: Wood, moisture: Moisture) -> FillMass:
    r"""Weight of one fill, learned from fills that were weighed.

    Each weighing is first turned into the solid wood that was in the container, so that a barrow of
    dry ash tells also what a barrow of damp alder weighs.

    Parameters
    ----------
    weighings : tuple of Weighing
        Weight, species and moisture of each; a moisture not measured is taken as 0.20.
    wood : str or mapping
        The wood whose fill is asked for.
    moisture : Moisture
        Its water over wet mass. [-] From 0 to 0.70.

    Returns
    -------
    FillMass
        Mean weight, and the range that holds the next fill in 8 cases of 10. [kg]

    Raises
    ------
    WrongKind
        If there is no weighing.
    OutOfRange
        If a number lies outside its range.
    UnknownName
        If a species is not known.

    Notes
    -----
    With the solid volumes :math:`v_i = m_i (1 - M_i) / \rho_{b,i}` of :math:`n` weighings, their mean
    :math:`\bar v` and standard deviation :math:`s`:

    .. math:: m = \bar v \frac{\rho_b}{1 - M}, \qquad \bar v \pm t_{n-1} \, s \sqrt{1 + 1/n}

    One weighing alone has no spread of its own: half the range of :func:`fill_mass_from_litres` is taken.

    References
    ----------
    .. [1] Prediction interval of a normal sample with Student's t: any textbook of statistics.
    """
    if not weighings:
        raise WrongKind("weighings", "none", "at least one weighing")
    solids = [
        one.kg
        / measure.mass_of_solid(one.species, 1.0, ASSUMED_MOISTURE if one.moisture is None else one.moisture)
        for one in weighings
    ]
    count = len(solids)
    mean = sum(solids) / count
    per_solid_m3 = measure.mass_of_solid(wood, 1.0, moisture)
    if count == 1:
        half = mean * LITRES_SPREAD / 2.0
    else:
        spread = sqrt(sum((solid - mean) ** 2 for solid in solids) / (count - 1))
        t = _T_80[count - 2] if count - 2 < len(_T_80) else _T_80_MANY
        half = min(t * spread * sqrt(1.0 + 1.0 / count), mean)
    return FillMass(
        mass_kg=mean * per_solid_m3,
        low_kg=(mean - half) * per_solid_m3,
        high_kg=(mean + half) * per_solid_m3,
        known_by="weighings",
        weighings=count,
    )


@worked
def fill_mass(
    container: Container, wood: Wood, moisture: Moisture, weighed_in_diary: tuple[Weighing, ...] = ()
) -> FillMass:
    """Weight of one fill of a container, from the best that is known of it.

    Weighings in the diary and in the holding win over litres.

    Parameters
    ----------
    container : Container
        As the holding describes it.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    moisture : Moisture
        Water over wet mass. [-] From 0 to 0.70.
    weighed_in_diary : tuple of Weighing
        Fills of it that the diary tells of.

    Returns
    -------
    FillMass
        Weight with its range. [kg]

    Raises
    ------
    OutOfRange
        If a number lies outside its range.
    UnknownName
        If a species is not known.

    Notes
    -----
    Weighings of the diary and of the holding count alike; with none, :func:`fill_mass_from_litres` is used.

    References
    ----------
    .. [1] As :func:`fill_mass_from_litres` and :func:`fill_mass_from_weighings`.
    """
    weighings = (*container.weighings, *weighed_in_diary)
    if weighings:
        return fill_mass_from_weighings(weighings, wood, moisture)
    return fill_mass_from_litres(container.litres, container.filled, wood, moisture, container.log_length_cm)


@worked
def fills_of(
    mass_kg: Kilogram,
    one_fill_kg: Annotated[float, Unit("kg"), Gt(0.0), Le(1e6)],
    step: Annotated[float, Unit("-"), Ge(0.05), Le(1.0)] = 0.5,
) -> Fills:
    r"""How many fills of a container an amount of wood is, to the next half.

    Nobody carries 2.83 barrows: "about 3" is said, with the kilograms beside it.

    Parameters
    ----------
    mass_kg : Kilogram
        The wood. [kg]
    one_fill_kg : float
        Weight of one fill. [kg]
    step : float
        To which part of a fill it is rounded. [-] From 0.05 to 1.

    Returns
    -------
    float
        Fills; never 0 where there is any wood. [-]

    Raises
    ------
    OutOfRange
        If a number lies outside its range.

    Notes
    -----
    .. math:: n = k \left[ \frac{m}{m_1 k} \right]

    with :math:`k` the step and the brackets meaning the nearest whole number.

    References
    ----------
    .. [1] Plain arithmetic.
    """
    if mass_kg <= 0.0:
        return 0.0
    return max(round(mass_kg / one_fill_kg / step), 1) * step
