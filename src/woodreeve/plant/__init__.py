"""The plant: log boiler, store, backup, cylinder, circuits, and what keeps them safe."""
