"""Tests of the pages and the JSON resources."""
