"""Tests of what the house wants of the yard."""
