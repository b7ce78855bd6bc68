"""Measurements of speed; each module writes its figures under measured/."""
