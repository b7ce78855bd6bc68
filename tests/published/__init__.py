"""Checks against printed figures: the rows, and what they are bound to."""
