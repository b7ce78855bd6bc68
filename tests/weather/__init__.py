"""Tests of the weather: series, files, degree days, typical years, sun."""
