"""Tests of what speaks with the outside, on local fakes only."""
