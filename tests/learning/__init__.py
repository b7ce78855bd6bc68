"""Tests of the learning room."""
