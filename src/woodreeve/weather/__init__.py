"""Weather: hours from a file or made from month means, degree days, and where the sun stands."""

from woodreeve.weather.series import DAYS_IN_MONTH, Hourly

__all__ = ["DAYS_IN_MONTH", "Hourly"]
