"""Tests of the holding."""
