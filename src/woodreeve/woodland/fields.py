"""What the owner tells of his woodland: compartments, and the licences to fell in them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Annotated, Literal

from woodreeve.units import Asks, Ge, Gt, Le, Unit

__all__ = ["Compartment", "FellingLicence", "Woodland"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Compartment:
    """A part of the woodland that is treated alike."""

    name: Annotated[str, Asks("Name of the compartment", "As you call it and as the diary names it.")]
    area_ha: Annotated[
        float | None,
        Unit("hectare"),
        Gt(0),
        Le(10000),
        Asks("Area", "Hectares under trees, without rides and tracks."),
    ] = None
    species: Annotated[
        Mapping[str, float],
        Unit("-"),
        Gt(0),
        Le(1),
        Asks(
            "Species and their shares",
            "By area of crown, from 0 to 1 each, for instance ash = 0.6; together about 1.",
        ),
    ] = field(default_factory=dict)
    system: Annotated[
        Literal["coppice", "coppice_with_standards", "high_forest", "wood_pasture", "hedge"] | None,
        Asks("How it is managed", "Cut back to the stool, grown as tall trees, or both."),
    ] = None
    planted_year: Annotated[
        int | None,
        Unit("year"),
        Ge(1600),
        Le(2100),
        Asks("Planted in", "Year, if known; of the standing generation."),
    ] = None
    last_cut_year: Annotated[
        int | None,
        Unit("year"),
        Ge(1600),
        Le(2100),
        Asks("Last cut in", "Year of the last coppicing or thinning."),
    ] = None
    rotation_years: Annotated[
        float | None,
        Unit("year"),
        Ge(1),
        Le(250),
        Asks("Rotation", "Years between two cuts at the same place."),
    ] = None
    stools_ha: Annotated[
        float | None,
        Unit("1/hectare"),
        Ge(0),
        Le(20000),
        Asks("Stools on a hectare", "Counted on a sample plot."),
    ] = None
    growth_solid_m3_ha_year: Annotated[
        float | None,
        Unit("m3/(hectare*year)"),
        Ge(0),
        Le(40),
        Asks(
            "Growth", "Stem wood a hectare puts on in a year (the yield class), if a forester has told you."
        ),
    ] = None
    standing_solid_m3_ha: Annotated[
        float | None,
        Unit("m3/hectare"),
        Ge(0),
        Le(2000),
        Asks("Standing wood", "Solid cubic metres on a hectare now."),
    ] = None
    access: Annotated[
        Literal["all_year", "dry_or_frozen", "winch_only"] | None,
        Asks("Access", "When a tractor can get there."),
    ] = None
    protected: Annotated[
        str | None,
        Asks("Protection", "Any order, designation or protected species you know of; you check it yourself."),
    ] = None
    outline: Annotated[
        str | None, Asks("Outline", "GeoJSON polygon in longitude and latitude, as text; may be left out.")
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FellingLicence:
    """A permission to fell, as the authority gave it."""

    number: Annotated[str, Asks("Licence number", "As printed on it.")]
    granted_on: Annotated[date | None, Asks("Granted on", "First day on which it holds.")] = None
    ends_on: Annotated[date | None, Asks("Ends on", "Last day on which it holds.")] = None
    solid_m3: Annotated[
        float | None,
        Unit("m3"),
        Gt(0),
        Le(100000),
        Asks("Volume allowed", "Solid cubic metres, if it names a volume."),
    ] = None
    compartments: Annotated[
        tuple[str, ...], Asks("Compartments", "Names of the compartments it covers.")
    ] = ()
    kind: Annotated[
        Literal["thinning", "coppicing", "clear_felling", "single_trees"] | None,
        Asks("Kind of felling", "As printed on it."),
    ] = None
    conditions: Annotated[
        str | None, Asks("Conditions", "For instance replanting, seasons, trees to leave.")
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Woodland:
    """The owner's woodland as a whole."""

    compartments: Annotated[
        tuple[Compartment, ...], Asks("Compartments", "The parts of your woodland, each with its trees.")
    ] = ()
    licences: Annotated[
        tuple[FellingLicence, ...], Asks("Felling licences", "Every licence that holds or has held.")
    ] = ()
    other_land_ha: Annotated[
        float | None,
        Unit("hectare"),
        Ge(0),
        Le(100000),
        Asks("Other land with trees", "Land elsewhere that you own: some limits count all of it."),
    ] = None
    dead_wood_left: Annotated[
        float,
        Unit("-"),
        Ge(0),
        Le(1),
        Asks("Dead wood left", "Share of each cut that stays in the wood for its own life."),
    ] = 0.1
