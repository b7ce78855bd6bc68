"""Tests of the planner, its rules and what it knows of the store."""
