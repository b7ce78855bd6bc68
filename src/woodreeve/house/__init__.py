"""The house: what it is built of, what it loses, and what heat it wants through the year."""

from woodreeve.house.describe import Element, House, PastFuel, Zone

__all__ = ["Element", "House", "PastFuel", "Zone"]
