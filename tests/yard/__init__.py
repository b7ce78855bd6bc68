"""Tests of the yard."""
