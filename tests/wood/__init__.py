"""Tests of the wood room."""
