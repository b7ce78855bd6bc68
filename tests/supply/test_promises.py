"""What is still owed to neighbours this heating year."""

from __future__ import annotations

from datetime import date

import pytest

from woodreeve.supply.fields import Agreement, Customer
from woodreeve.supply.promises import SoldLoad, still_owed, year_begins
from woodreeve.wood.measure import solid_from_stacked

MILL = Customer(name="Mill", stacked_m3_year=2.0, agreement=Agreement(most_moisture=0.20))
TODAY = date(2026, 1, 13)


def load(on: date, stacked_m3: float, customer: str = "Mill") -> SoldLoad:
    """So much ash, stacked in 33 cm logs."""
    ash = {"ash": 1.0}
    solid = solid_from_stacked(stacked_m3, "split_33cm", ash)
    return SoldLoad(customer=customer, on=on, solid_m3=solid, mix=ash, form="split_33cm")


def test_a_promise_less_what_was_sold_since_july_is_owed() -> None:
    """Last year's loads and another customer's do not count."""
    loads = (
        load(date(2025, 10, 1), 1.5),
        load(date(2025, 6, 30), 1.0),
        load(date(2025, 10, 2), 0.4, "Chapel"),
        load(date(2026, 2, 1), 0.3),
    )
    (owed,) = still_owed((MILL,), loads, TODAY)
    assert owed.stacked_m3 == pytest.approx(0.5)
    assert owed.most_moisture == 0.20


def test_who_has_had_all_of_it_or_has_no_agreement_any_more_is_owed_nothing() -> None:
    """Nor one whose agreement has yet to begin, nor one who was promised nothing."""
    assert still_owed((MILL,), (load(date(2025, 10, 1), 2.2),), TODAY) == ()
    for agreement in (Agreement(until=date(2025, 12, 31)), Agreement(since=date(2026, 3, 1))):
        assert still_owed((Customer(name="Mill", stacked_m3_year=2.0, agreement=agreement),), (), TODAY) == ()
    assert still_owed((Customer(name="Mill"),), (), TODAY) == ()


def test_the_heating_year_begins_in_july() -> None:
    """On its very day."""
    assert year_begins(TODAY) == date(2025, 7, 1)
    assert year_begins(date(2026, 7, 1)) == date(2026, 7, 1)
