"""The pages and the JSON resources."""
