"""JSON resources."""
