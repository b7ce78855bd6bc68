"""Tests of the house: its description, its losses and its heat."""
