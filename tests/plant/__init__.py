"""The plant's formulas."""
