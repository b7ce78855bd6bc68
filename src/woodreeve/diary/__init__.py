"""Diary: kinds of entry, corrections, and what all entries add up to."""
