"""Designing a plant: boiler, store, insulation and who is at home, tried against each other over winters."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Annotated

from woodreeve.errors import OutOfRange
from woodreeve.house.describe import House
from woodreeve.house.parameters import HouseParameters, ZoneParameters, zone_parameters
from woodreeve.plant.fields import Plant
from woodreeve.season import slots as s
from woodreeve.season.batch import run_many
from woodreeve.season.inputs import FiringRule
from woodreeve.season.run import Case, Result
from woodreeve.season.scene import rooms_of_house, wishes
from woodreeve.season.setup import Prepared, Settings, prepare
from woodreeve.season.sizes import Choices, Insulation, Presence, plant_of
from woodreeve.season.year import rolled
from woodreeve.units import Gt, Le, Unit
from woodreeve.weather.series import Hourly
from woodreeve.workings import worked

__all__ = [
    "LOOKS",
    "WINTER_DAYS",
    "Sweep",
    "Variant",
    "Winter",
    "design_sweep",
]

LOOKS: dict[Presence, tuple[int, ...]] = {
    "evening": (17,),
    "morning_and_evening": (7, 17),
    "all_day": (7, 10, 13, 17, 21),
}
"""Local hours at which somebody looks at the store. Judgement. [h]"""

SHELL_SPARED = 0.30
"""An insulated house loses so much less through walls, roof, floor and windows. Judgement. [-]"""

FIRST_DAY = 273
"""Day of the year on which the winter begins, counted from 0: the first of October. [day]"""
WINTER_DAYS = 212
"""To the end of April. [day]"""
LAYERS = 20
"""Layers of each store tried: fewer than a season by itself has, so that hundreds are done in seconds. [-]"""
WARM_UP_DAYS = 14
"""Days run before, so that walls and store are as they would be. [day]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Winter:
    """One variant through one winter, October to April.

    Parameters
    ----------
    fires : float
        Fires lit. [-]
    wood_kg : float
        Wood put in. [kg]
    water_kwh : float
        Heat of the wood that reached store and rooms. [kWh]
    backup_kwh, backup_fuel_kwh : float
        Heat of the backup, and its fuel. [kWh]
    backup_share : float
        Part of all heat given that came from the backup. [-]
    fires_for_all : float
        Fires it would take to give the backup's heat too. [-]
    cold_kh : float
        Degree-hours under the wanted temperature, worse of the two zones. [K*h]
    store_loss_kwh : float
        Lost from the store. [kWh]
    """

    fires: Annotated[float, Unit("-")]
    wood_kg: Annotated[float, Unit("kg")]
    water_kwh: Annotated[float, Unit("kWh")]
    backup_kwh: Annotated[float, Unit("kWh")]
    backup_fuel_kwh: Annotated[float, Unit("kWh")]
    backup_share: Annotated[float, Unit("-")]
    fires_for_all: Annotated[float, Unit("-")]
    cold_kh: Annotated[float, Unit("K*h")]
    store_loss_kwh: Annotated[float, Unit("kWh")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One plant, and how it does in each winter.

    Parameters
    ----------
    boiler_kw : float
        Output of the log boiler. [kW]
    store_litres : float
        Content of the store. [L]
    insulation, presence : str
        Of house or store, and who is at home.
    load_kg : float
        A full load of this boiler. [kg]
    winters : tuple of Winter
        In the order of the weather given.
    """

    boiler_kw: Annotated[float, Unit("kW")]
    store_litres: Annotated[float, Unit("L")]
    insulation: Insulation
    presence: Presence
    load_kg: Annotated[float, Unit("kg")]
    winters: tuple[Winter, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """All variants, and what was left blank and is assumed."""

    variants: tuple[Variant, ...]
    assumed: tuple[str, ...]


@worked
def design_sweep(
    house: House,
    plant: Plant,
    weathers: tuple[Hourly, ...],
    common: FiringRule,
    load_kg: Annotated[float, Unit("kg"), Gt(0.0), Le(500.0)],
    choices: Choices,
    space_litres: Annotated[float, Unit("L"), Gt(0.0), Le(2000.0)] = 100.0,
    progress: Callable[[float], bool] | None = None,
) -> Sweep:
    r"""Run every plant that might be built through several winters, minute by minute.

    It shows what output, store and insulation buy in firings, backup and warmth, before anything is bought.

    Parameters
    ----------
    house : House
        The house.
    plant : Plant
        The plant as far as it is told; boiler and store are varied.
    weathers : tuple of Hourly
        Whole years from the first of January, one for each winter.
    common : FiringRule
        The common evening rule; its hours and loads are varied with who is at home and with the boiler.
    load_kg : float
        Weight of a usual full load in the fuel space below. [kg] Above 0, up to 500.
    choices : Choices
        What is tried against what.
    space_litres : float
        Fuel space that takes this load; other boilers' loads grow with theirs. [L] Above 0, up to 2000.
    progress : callable, optional
        Told the share done; the work stops where it answers False.

    Returns
    -------
    Sweep
        Every variant with its winters.

    Raises
    ------
    Unknown
        If the house has no floor area.
    Refused
        If part of the plant is not modelled, or the work was stopped.
    OutOfRange
        If there is no weather, or an argument lies outside its range.

    Notes
    -----
    .. math:: N = n_P\,n_V\,n_I\,n_H\,n_W

    runs from the first of October to the end of April, with 14 days before them that are not counted. Each is
    one run of the season's kernel as in :func:`season_run`, with 30 layers of the store; a fire is a full
    load, or what store and house can take. So that stores can be compared where the backup gives a part, the
    fires for all heat are

    .. math:: n_a = n\,\frac{Q_w + Q_b}{Q_w}

    with the heat of wood :math:`Q_w` and of the backup :math:`Q_b`.

    Fuel space, water and weight of the boiler grow with its output. An insulated house loses
    30 % less through its shell; its radiators stay. Stores of other sizes have the standing loss of their
    energy class, by a formula made for up to 2000 litres. The store model has not been compared with a
    measured tank, nor the boiler model with a measured burn.

    References
    ----------
    .. [1] As :func:`season_run` and :func:`common_evening_rule`; shares and hours of presence are judgement.
    """
    if not weathers:
        raise OutOfRange("weathers", "empty", "at least one year of weather")
    told = zone_parameters(house)
    hours = [
        wishes(told, rolled(weather, FIRST_DAY - WARM_UP_DAYS, WINTER_DAYS + WARM_UP_DAYS))
        for weather in weathers
    ]
    plants: dict[tuple[float, float, Insulation], tuple[Prepared, float]] = {}
    for insulation in choices.insulations:
        parameters = _insulated(told) if insulation == "house_insulated" else told
        rooms = rooms_of_house(parameters)
        for boiler_kw in choices.boilers_kw:
            for litres in choices.stores_litres:
                made = plant_of(plant, boiler_kw, litres, insulation)
                load = load_kg * (made.boiler.fuel_space_litres or 0.0) / space_litres
                prepared = prepare(
                    made,
                    rooms,
                    settings=Settings(layers=LAYERS),
                    store_c=common.below_c,
                    room_c=parameters.zones[0].wanted_c,
                )
                plants[boiler_kw, litres, insulation] = prepared, load
    keys = [(key, presence) for key in plants for presence in choices.presences]
    cases = [
        Case(
            prepared=plants[key][0],
            hours=winter,
            firing=replace(common, hours=LOOKS[presence], kg=plants[key][1]),
        )
        for key, presence in keys
        for winter in hours
    ]
    results = run_many(cases, progress=progress, record_every_h=24.0 * WARM_UP_DAYS)
    winters = [_winter(result) for result in results]
    count = len(hours)
    variants = tuple(
        Variant(
            boiler_kw=boiler_kw + 0.0,
            store_litres=litres + 0.0,
            insulation=insulation,
            presence=presence,
            load_kg=plants[boiler_kw, litres, insulation][1],
            winters=tuple(winters[count * at : count * (at + 1)]),
        )
        for at, ((boiler_kw, litres, insulation), presence) in enumerate(keys)
    )
    first = next(iter(plants.values()))[0]
    return Sweep(variants=variants, assumed=(*told.assumed, *first.assumed))


def _insulated(parameters: HouseParameters) -> HouseParameters:
    """The house with less loss through its shell; air and mass stay as they are."""
    left = 1.0 - SHELL_SPARED

    def zone(one: ZoneParameters) -> ZoneParameters:
        heavy = one.heavy_w_k * left
        outside = one.mass_to_outside_w_k
        if 0.0 < heavy < one.air_to_mass_w_k and outside > 0.0:
            outside = 1.0 / (1.0 / heavy - 1.0 / one.air_to_mass_w_k)
        return replace(
            one,
            light_w_k=one.light_w_k * left,
            heavy_w_k=heavy,
            mass_to_outside_w_k=outside,
            loss_w_k=one.air_w_k + one.light_w_k * left + heavy,
        )

    zones = tuple(zone(one) for one in parameters.zones)
    return replace(parameters, zones=zones, loss_w_k=sum(one.loss_w_k for one in zones))


def _winter(result: Result) -> Winter:
    change = result.rows[-1] - result.rows[1]

    def kwh(*rows: int) -> float:
        return float(sum(change[row] for row in rows)) / 3.6e6

    water, backup = kwh(s.CHARGED_J, s.DIRECT_J), kwh(s.BACKUP_HEAT_J, s.IMMERSION_J)
    fires = float(change[s.FIRES])
    return Winter(
        fires=fires,
        wood_kg=float(change[s.LOADED_KG]),
        water_kwh=water,
        backup_kwh=backup,
        backup_fuel_kwh=kwh(s.BACKUP_FUEL_J, s.IMMERSION_J),
        backup_share=backup / (water + backup) if water + backup > 0.0 else 0.0,
        fires_for_all=fires * (water + backup) / water if water > 0.0 else 0.0,
        cold_kh=float(max(change[s.COLD_ROOM_1_KS], change[s.COLD_ROOM_2_KS])) / 3600.0,
        store_loss_kwh=kwh(s.STORE_LOSS_J),
    )
