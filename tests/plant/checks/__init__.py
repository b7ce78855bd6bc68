"""Tests of the plant's checks."""
