"""Pictures of answers."""
