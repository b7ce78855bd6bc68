"""Wood as fuel: species, moisture, heat, measures, quality and burning."""
