"""Tests of woodreeve, laid out like the floors they test."""
