"""Tests of what happens when things go wrong."""
