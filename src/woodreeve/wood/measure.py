"""From one measure of wood to another: the one place to import them from.

Solid, stacked and loose volume stand in :mod:`woodreeve.wood.volumes`, the solid shares behind them in
:mod:`woodreeve.wood.stacking`, mass in :mod:`woodreeve.wood.mass`, density and shrinkage in
:mod:`woodreeve.wood.density`, cords and logs in :mod:`woodreeve.wood.cords`.
"""

from woodreeve.wood.cords import (
    CORD_M3,
    cords_from_stacked,
    face_cord_volume,
    log_volume,
    stacked_from_cords,
)
from woodreeve.wood.density import density_at, shrinkage_at, specific_gravity_at, water_to_lose
from woodreeve.wood.mass import (
    dried_mass,
    dry_mass,
    mass_of_solid,
    mass_of_stacked,
    solid_of_mass,
    stacked_of_mass,
)
from woodreeve.wood.stacking import (
    FORMS,
    LOOSE_FORMS,
    FactorSet,
    Form,
    LooseForm,
    loose_solid_share,
    share_source,
    stacked_solid_share,
)
from woodreeve.wood.volumes import (
    loose_from_solid,
    loose_from_stacked,
    restacked,
    solid_from_loose,
    solid_from_stacked,
    stacked_from_loose,
    stacked_from_solid,
)

__all__ = [
    "CORD_M3",
    "FORMS",
    "LOOSE_FORMS",
    "FactorSet",
    "Form",
    "LooseForm",
    "cords_from_stacked",
    "density_at",
    "dried_mass",
    "dry_mass",
    "face_cord_volume",
    "log_volume",
    "loose_from_solid",
    "loose_from_stacked",
    "loose_solid_share",
    "mass_of_solid",
    "mass_of_stacked",
    "restacked",
    "share_source",
    "shrinkage_at",
    "solid_from_loose",
    "solid_from_stacked",
    "solid_of_mass",
    "specific_gravity_at",
    "stacked_from_cords",
    "stacked_from_loose",
    "stacked_from_solid",
    "stacked_of_mass",
    "stacked_solid_share",
    "water_to_lose",
]
