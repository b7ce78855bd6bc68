"""From the owner's house, plant and weather to what the kernel runs on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from woodreeve.house.describe import House
from woodreeve.house.dynamic import RoomDynamics, ZoneDynamics
from woodreeve.house.gains import solar_gain
from woodreeve.house.hot_water import hot_water_year
from woodreeve.house.parameters import HouseParameters, ZoneParameters, zone_parameters
from woodreeve.plant.fields import Plant
from woodreeve.plant.hot_water import tapping_powers
from woodreeve.season.inputs import Hours, day_pattern
from woodreeve.season.setup import Prepared, Settings, prepare
from woodreeve.units import Floats
from woodreeve.weather.series import DAYS_IN_MONTH, Hourly
from woodreeve.weather.sun import sun_on_surface, sun_position

__all__ = ["Scene", "rooms_of_house", "scene", "wishes"]

BEARINGS = {
    "north": 0.0,
    "northeast": 45.0,
    "east": 90.0,
    "southeast": 135.0,
    "south": 180.0,
    "southwest": 225.0,
    "west": 270.0,
    "northwest": 315.0,
}
"""Compass bearing of the eight winds. [deg]"""

ONE_AIR = 50.0
"""A house of one zone is run as two halves, joined by so many times their heat loss: they stay alike."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A plant and its rooms, and the weather and wishes that they meet."""

    prepared: Prepared
    hours: Hours
    rooms: RoomDynamics
    assumed: tuple[str, ...]


def scene(
    house: House, plant: Plant, weather: Hourly, *, settings: Settings | None = None, store_c: float = 45.0
) -> Scene:
    """Make a plant, its rooms and their weather ready to run.

    Parameters
    ----------
    house : House
        The house.
    plant : Plant
        The plant.
    weather : Hourly
        Hourly weather from a midnight on, in local standard time.
    settings : Settings, optional
        Step and layers.
    store_c : float
        Store temperature at the beginning. [degC]

    Returns
    -------
    Scene
        Ready to run.

    Raises
    ------
    Unknown
        If the house has no floor area, or boiler output or store content are not known.
    Refused
        If part of the plant is not modelled.
    """
    parameters = zone_parameters(house)
    rooms = rooms_of_house(parameters)
    prepared = prepare(plant, rooms, settings=settings, store_c=store_c, room_c=parameters.zones[0].wanted_c)
    return Scene(
        prepared=prepared,
        hours=wishes(parameters, weather),
        rooms=rooms,
        assumed=(*parameters.assumed, *prepared.assumed),
    )


def rooms_of_house(parameters: HouseParameters) -> RoomDynamics:
    """The house's zones as two rooms with air and mass."""
    zones = [_zone(zone, 1.0) for zone in parameters.zones]
    if len(zones) == 1:
        half = _zone(parameters.zones[0], 0.5)
        return RoomDynamics(downstairs=half, upstairs=half, across_w_k=ONE_AIR * parameters.loss_w_k)
    return RoomDynamics(downstairs=zones[0], upstairs=zones[1], across_w_k=parameters.between_w_k)


def _zone(zone: ZoneParameters, part: float) -> ZoneDynamics:
    return ZoneDynamics(
        air_kj_k=part * 1000.0 * zone.air_capacity_mj_k,
        mass_kj_k=part * 1000.0 * zone.mass_capacity_mj_k,
        between_w_k=part * zone.air_to_mass_w_k,
        air_out_w_k=part * (zone.air_w_k + zone.light_w_k),
        mass_out_w_k=part * zone.mass_to_outside_w_k,
    )


def wishes(parameters: HouseParameters, weather: Hourly) -> Hours:
    """Weather, gains, wanted temperatures and taps of each hour.

    Parameters
    ----------
    parameters : HouseParameters
        The house.
    weather : Hourly
        The weather; without sun none is counted.

    Returns
    -------
    Hours
        What the kernel reads.
    """
    first = int(weather.hour_of_day()[0])
    suns = _suns(parameters, weather)
    wanted = [day_pattern(weather.hours, _wanted_day(zone), first) for zone in parameters.zones]
    inside = [zone.internal_gains_w for zone in parameters.zones]
    if len(parameters.zones) == 1:
        suns, wanted, inside = [suns[0] / 2.0] * 2, wanted * 2, [inside[0] / 2.0] * 2
    water_day_kwh = hot_water_year(parameters.hot_water_litres_day).year_kwh / float(sum(DAYS_IN_MONTH))
    taps = tapping_powers("M")
    usual_day_kwh = float(taps.mean()) * 24.0 / 1000.0
    return Hours(
        outdoor_c=weather.temperature_c,
        sun_downstairs_w=suns[0],
        sun_upstairs_w=suns[1],
        inside_downstairs_w=inside[0],
        inside_upstairs_w=inside[1],
        wanted_downstairs_c=wanted[0],
        wanted_upstairs_c=wanted[1],
        tap_powers_w=taps * (water_day_kwh / usual_day_kwh),
        first_hour_of_day=first,
    )


def _wanted_day(zone: ZoneParameters) -> Floats:
    middle = np.arange(24) + 0.5
    begins, ends = zone.setback_from_h, zone.setback_to_h
    night = (middle >= begins) | (middle < ends) if begins > ends else (middle >= begins) & (middle < ends)
    return np.where(night, zone.setback_c, zone.wanted_c)


def _suns(parameters: HouseParameters, weather: Hourly) -> list[Floats]:
    none = [np.zeros(weather.hours) for _ in parameters.zones]
    if weather.sun_w_m2 is None or weather.latitude_deg is None or weather.longitude_deg is None:
        return none
    position = sun_position(weather)
    facings = {facing for zone in parameters.zones for facing in zone.apertures_m2}
    on = {
        facing: sun_on_surface(weather, position, 0.0, 180.0)
        if facing == "up"
        else sun_on_surface(weather, position, 90.0, BEARINGS[facing])
        for facing in facings
    }
    return [
        sum(
            (solar_gain(area, on[facing]) for facing, area in zone.apertures_m2.items()),
            np.zeros(weather.hours),
        )
        for zone in parameters.zones
    ]
