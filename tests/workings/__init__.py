"""Tests of the workings: the list, the checks, the trace and the texts."""
