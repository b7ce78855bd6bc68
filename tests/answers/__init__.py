"""Tests of the answers."""
