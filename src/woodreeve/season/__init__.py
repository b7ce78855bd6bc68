"""The plant and the house together, minute by minute through a day, a winter or many years."""
