"""Tests of the records."""
