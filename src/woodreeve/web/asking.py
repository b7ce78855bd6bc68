"""Who asks, of which holding, at which moment: read once for a request."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, TypeVar

from fastapi import Depends, Request

from woodreeve.records.household import Asking, Household

__all__ = ["Asked", "HouseholdOf", "asked", "household_of", "remembered"]

A = TypeVar("A")


def household_of(request: Request) -> Household:
    """The household that this server speaks of."""
    household: Household = request.app.state.household
    return household


def asked(request: Request) -> Asking:
    """Read holding, diary, weather and moment for this request."""
    return household_of(request).ask()


HouseholdOf = Annotated[Household, Depends(household_of)]
Asked = Annotated[Asking, Depends(asked)]


def remembered(request: Request, asking: Asking, answer: Callable[[Asking], A]) -> A:
    """An answer, from the household's memory if nothing it rests on has changed."""
    return household_of(request).remembered(answer, asking)
