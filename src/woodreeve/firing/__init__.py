"""Firing: when to light, with how much, from which stack."""
