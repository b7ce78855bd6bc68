"""The JSON resource /api/holding: the description of the place, and saving it."""

from __future__ import annotations

from datetime import datetime

from fastapi import APIRouter
from pydantic import BaseModel

from woodreeve.holding.toml import load
from woodreeve.web.asking import Asked, HouseholdOf
from woodreeve.web.faults import FAULTS

__all__ = ["router"]

router = APIRouter(tags=["holding"], responses=FAULTS)


class Description(BaseModel):
    """One version of the description."""

    name: str
    version: int
    valid_from: datetime
    document: str


class Changed(BaseModel):
    """A new description and the version it was made from; a change of the place, or a slip put right."""

    document: str
    based_on: int
    is_change: bool = False


@router.get("/holding")
def show(asking: Asked) -> Description:
    """Read the description."""
    return Description(
        name=asking.holding.name,
        version=asking.version,
        valid_from=asking.valid_from,
        document=asking.document,
    )


@router.put("/holding")
def save(household: HouseholdOf, changed: Changed) -> Description:
    """Save a description; refused if another was saved meanwhile."""
    load(changed.document)
    kept = household.save(changed.document, based_on=changed.based_on, is_change=changed.is_change)
    return Description(
        name=kept.name, version=kept.version, valid_from=kept.valid_from, document=kept.document
    )
