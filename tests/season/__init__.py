"""Plant and house through a year."""
